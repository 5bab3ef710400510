package purgewright.hazard;

import java.util.List;
import java.util.Map;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;

/** The design's minimal example in SI: a spaced pump with a helium barrier. Invented. */
public final class MinimalCase {
    private static final double NONE = Double.NaN;

    private MinimalCase() {}

    private static PassageSpec passage(
            String name,
            String from,
            String to,
            String type,
            double radius,
            double clearance,
            Map<String, Object> fields) {
        return new PassageSpec(name, from, to, type, 1, radius, clearance, NONE, NONE, 1, NONE, false, fields);
    }

    public static Case model() {
        return model(3.5e6, 1.8e-3, 25e-6, 35e-6);
    }

    public static Case model(double supply, double metering, double ringA, double ringB) {
        Cavity barrier = Fakes.free("barrier", Role.BARRIER);
        return new Case(
                Map.of("title", "Spaced pump, helium barrier"),
                new Case.Surroundings(101325, 288.15),
                new Rotor(32000 * Math.PI / 30, 0, 0, 0, 0, 0, 0, List.of()),
                List.of(
                        new StreamDefinition.Single("feed oxygen", "oxygen"),
                        new StreamDefinition.Burn("drive gas", "methane", "oxygen", 0.4, 6e6, 120, 95, false),
                        new StreamDefinition.Single("barrier gas", "helium"),
                        new StreamDefinition.Mix(
                                Case.AIR, Map.of("nitrogen", 0.78, "oxygen", 0.21, "argon", 0.01), true)),
                List.of(
                        Fakes.fixed("impeller back face", Role.OXIDIZER, "feed oxygen", 2.6e6, 97),
                        Fakes.free("oxygen drain", Role.DRAIN),
                        volume(barrier, 20e-6),
                        Fakes.free("hot drain", Role.DRAIN),
                        Fakes.fixed("disc cavity", Role.HOT_GAS, "drive gas", 1.9e6, 960),
                        Fakes.fixed("bottle line", Role.SUPPLY, "barrier gas", supply, 288),
                        volume(Fakes.free("purge inlet", Role.SUPPLY), 0.5e-3),
                        Fakes.fixed("oxygen overboard", Role.VENT, Case.AIR, 101325, 288),
                        Fakes.fixed("fuel overboard", Role.VENT, Case.AIR, 101325, 288)),
                List.of(
                        passage(
                                "oxygen seal",
                                "impeller back face",
                                "oxygen drain",
                                "labyrinth",
                                0.026,
                                0.09e-3,
                                Map.of("teeth", 6.0, "pitch", 2.5e-3, "tip", 0.25e-3, "arrangement", "straight")),
                        passage(
                                "ring A",
                                "barrier",
                                "oxygen drain",
                                "floating ring",
                                0.025,
                                ringA,
                                Map.of("length", 6e-3)),
                        passage(
                                "ring B",
                                "barrier",
                                "hot drain",
                                "floating ring",
                                0.025,
                                ringB,
                                Map.of("length", 6e-3)),
                        passage(
                                "hot seal",
                                "disc cavity",
                                "hot drain",
                                "labyrinth",
                                0.028,
                                0.15e-3,
                                Map.of("teeth", 4.0, "pitch", 3e-3, "tip", 0.3e-3, "arrangement", "stepped")),
                        passage(
                                "check valve",
                                "bottle line",
                                "purge inlet",
                                "check valve",
                                NONE,
                                NONE,
                                Map.of("diameter", 6e-3, "cracking pressure", 20e3, "discharge coefficient", 0.7)),
                        passage(
                                "metering",
                                "purge inlet",
                                "barrier",
                                "orifice",
                                NONE,
                                NONE,
                                Map.of("diameter", metering, "discharge coefficient", 0.84)),
                        passage(
                                "oxygen drain line",
                                "oxygen drain",
                                "oxygen overboard",
                                "line",
                                NONE,
                                NONE,
                                Map.of("diameter", 16e-3, "length", 3.0)),
                        passage(
                                "hot drain line",
                                "hot drain",
                                "fuel overboard",
                                "line",
                                NONE,
                                NONE,
                                Map.of("diameter", 20e-3, "length", 3.0))),
                List.of(),
                Map.of(),
                Map.of());
    }

    private static Cavity volume(Cavity c, double volume) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                c.temperature(),
                volume,
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                c.circumferentialVariation());
    }
}
