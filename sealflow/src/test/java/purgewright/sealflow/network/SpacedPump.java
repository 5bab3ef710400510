package purgewright.sealflow.network;

import purgewright.fluids.mixture.StreamDefinition;
import purgewright.sealflow.model.Case;

/** The spaced pump with a helium barrier that the design document prints; all figures invented. */
final class SpacedPump {
    private SpacedPump() {}

    /**
     * @param ringFactor multiplies both ring clearances
     * @param checkValve false to feed the purge inlet through a wide hole instead
     */
    static Case draw(double ringFactor, boolean checkValve) {
        return draw(ringFactor, checkValve, 3.5e6);
    }

    static Case draw(double ringFactor, boolean checkValve, double bottle) {
        CaseSketch s = new CaseSketch()
                .speed(32000 * 2 * Math.PI / 60).stream("feed oxygen", "oxygen").stream(
                                new StreamDefinition.Burn("drive gas", "methane", "oxygen", 0.4, 6e6, 120, 95, false))
                        .stream("barrier gas", "helium")
                        .stream(Case.AIR, Case.AIR)
                        .fixed("impeller back face", "feed oxygen", 2.6e6, 97)
                        .free("oxygen drain")
                        .free("barrier")
                        .free("hot drain")
                        .fixed("disc cavity", "drive gas", 1.9e6, 960)
                        .fixed("bottle line", "barrier gas", bottle, 288)
                        .free("purge inlet")
                        .fixed("oxygen overboard", Case.AIR, 101325, 288)
                        .fixed("fuel overboard", Case.AIR, 101325, 288)
                        .seal(
                                "oxygen seal",
                                "impeller back face",
                                "oxygen drain",
                                "labyrinth",
                                0.026,
                                0.09e-3,
                                "teeth",
                                6.0,
                                "pitch",
                                2.5e-3,
                                "tip",
                                0.25e-3,
                                "arrangement",
                                "straight")
                        .seal(
                                "ring A",
                                "barrier",
                                "oxygen drain",
                                "floating ring",
                                0.025,
                                0.025e-3 * ringFactor,
                                "length",
                                6e-3)
                        .seal(
                                "ring B",
                                "barrier",
                                "hot drain",
                                "floating ring",
                                0.025,
                                0.035e-3 * ringFactor,
                                "length",
                                6e-3)
                        .seal(
                                "hot seal",
                                "disc cavity",
                                "hot drain",
                                "labyrinth",
                                0.028,
                                0.15e-3,
                                "teeth",
                                4.0,
                                "pitch",
                                3e-3,
                                "tip",
                                0.3e-3,
                                "arrangement",
                                "stepped");
        if (checkValve) {
            s.passage(
                    "check valve",
                    "bottle line",
                    "purge inlet",
                    "check valve",
                    "diameter",
                    6e-3,
                    "cracking pressure",
                    20e3,
                    "discharge coefficient",
                    0.7);
        } else {
            s.passage("check valve", "bottle line", "purge inlet", "orifice", "diameter", 20e-3);
        }
        return s.passage(
                        "metering",
                        "purge inlet",
                        "barrier",
                        "orifice",
                        "diameter",
                        1.8e-3,
                        "discharge coefficient",
                        0.84)
                .passage(
                        "oxygen drain line",
                        "oxygen drain",
                        "oxygen overboard",
                        "line",
                        "diameter",
                        16e-3,
                        "length",
                        3.0)
                .passage("hot drain line", "hot drain", "fuel overboard", "line", "diameter", 20e-3, "length", 3.0)
                .make();
    }
}
