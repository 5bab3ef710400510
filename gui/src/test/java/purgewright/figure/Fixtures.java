package purgewright.figure;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.passage.PassageType;

/** Hand-built cases and results (all numbers invented) that drive the drawings without a solver. */
public final class Fixtures {
    private Fixtures() {}

    /** A cavity; pressure NaN for a solved one. */
    public static Cavity cavity(String name, Role role, String stream, double pressure) {
        return new Cavity(
                name, role, stream, pressure, 288, Double.NaN, Double.NaN, Double.NaN, null, null, Double.NaN);
    }

    /** A passage. */
    public static PassageSpec passage(
            String name, String from, String to, String type, double radius, Object... fields) {
        Map<String, Object> map = new LinkedHashMap<>();
        for (int i = 0; i < fields.length; i += 2) {
            map.put((String) fields[i], fields[i + 1]);
        }
        return new PassageSpec(
                name, from, to, type, 1, radius, 5e-5, Double.NaN, Double.NaN, 1, Double.NaN, false, map);
    }

    /** A case of these with four streams. */
    public static Case of(String title, List<Cavity> cavities, List<PassageSpec> passages) {
        return new Case(
                Map.of("title", title),
                new Case.Surroundings(101325, 288),
                Rotor.STILL,
                List.of(
                        new StreamDefinition.Single("feed oxygen", "oxygen"),
                        new StreamDefinition.Burn("drive gas", "methane", "oxygen", 0.4, 6e6, 120, 95, false),
                        new StreamDefinition.Single("barrier gas", "helium"),
                        new StreamDefinition.Single("kerosene", "dodecane")),
                cavities,
                passages,
                List.of(),
                Map.of(),
                Map.of());
    }

    /** Five chambers on one shaft. */
    public static Case spaced() {
        return of(
                "spaced",
                List.of(
                        cavity("impeller back face", Role.OXIDIZER, "feed oxygen", 2.6e6),
                        cavity("oxygen drain", Role.DRAIN, null, Double.NaN),
                        cavity("barrier", Role.BARRIER, null, Double.NaN),
                        cavity("hot drain", Role.DRAIN, null, Double.NaN),
                        cavity("disc cavity", Role.HOT_GAS, "drive gas", 1.9e6),
                        cavity("bottle line", Role.SUPPLY, "barrier gas", 3.5e6),
                        cavity("purge inlet", Role.SUPPLY, null, Double.NaN),
                        cavity("oxygen overboard", Role.VENT, null, 101325),
                        cavity("fuel overboard", Role.VENT, null, 101325)),
                List.of(
                        passage("oxygen seal", "impeller back face", "oxygen drain", "labyrinth", 0.026, "teeth", 6.0),
                        passage("ring A", "barrier", "oxygen drain", "floating ring", 0.025),
                        passage("ring B", "barrier", "hot drain", "floating ring", 0.025),
                        passage(
                                "hot seal",
                                "disc cavity",
                                "hot drain",
                                "labyrinth",
                                0.028,
                                "teeth",
                                4.0,
                                "arrangement",
                                "stepped"),
                        passage("check valve", "bottle line", "purge inlet", "check valve", Double.NaN),
                        passage("metering", "purge inlet", "barrier", "orifice", Double.NaN),
                        passage("oxygen drain line", "oxygen drain", "oxygen overboard", "line", Double.NaN),
                        passage("hot drain line", "hot drain", "fuel overboard", "line", Double.NaN)));
    }

    /** Pumped kerosene and hot gas on two faces of one disc, sealed at the rim and at the hub. */
    public static Case shared() {
        return of(
                "shared",
                List.of(
                        cavity("pumped face", Role.FUEL, "kerosene", 8e6),
                        cavity("rim pumped drain", Role.DRAIN, null, Double.NaN),
                        cavity("rim barrier", Role.BARRIER, null, Double.NaN),
                        cavity("rim hot drain", Role.DRAIN, null, Double.NaN),
                        cavity("hot face", Role.HOT_GAS, "drive gas", 2e6),
                        cavity("hub pumped drain", Role.DRAIN, null, Double.NaN),
                        cavity("hub barrier", Role.BARRIER, null, Double.NaN),
                        cavity("hub hot drain", Role.DRAIN, null, Double.NaN),
                        cavity("helium manifold", Role.SUPPLY, "barrier gas", 3e6),
                        cavity("pump inlet", Role.OTHER, "kerosene", 4e5),
                        cavity("overboard", Role.VENT, null, 101325)),
                List.of(
                        passage("rim film ring", "pumped face", "rim pumped drain", "floating ring", 0.083),
                        passage("rim ring A", "rim barrier", "rim pumped drain", "segmented ring", 0.084),
                        passage("rim gap", "rim barrier", "rim hot drain", "rim", 0.085),
                        passage("rim hot seal", "hot face", "rim hot drain", "labyrinth", 0.085, "teeth", 5.0),
                        passage("hub film ring", "pumped face", "hub pumped drain", "slinger", 0.021),
                        passage("hub ring A", "hub barrier", "hub pumped drain", "face", 0.02),
                        passage("hub ring B", "hub barrier", "hub hot drain", "brush", 0.02),
                        passage("hub hot seal", "hot face", "hub hot drain", "bushing", 0.022),
                        passage("rim metering", "helium manifold", "rim barrier", "orifice", Double.NaN),
                        passage("hub metering", "helium manifold", "hub barrier", "orifice", Double.NaN),
                        passage("rim return", "rim pumped drain", "pump inlet", "line", Double.NaN),
                        passage("hub return", "hub pumped drain", "pump inlet", "line", Double.NaN),
                        passage("rim hot line", "rim hot drain", "overboard", "line", Double.NaN),
                        passage("hub hot line", "hub hot drain", "overboard", "line", Double.NaN)));
    }

    /** A made-up solution: every solved cavity at its share of the way, every passage flowing down its pressure. */
    public static SolveResult.Converged solved(Case model, double scale) {
        Map<String, SolveResult.CavityState> cavities = new LinkedHashMap<>();
        Map<String, Double> pressures = new LinkedHashMap<>();
        for (Cavity c : model.cavities()) {
            double p = c.fixed()
                    ? c.pressure()
                    : c.role() == Role.BARRIER
                            ? 1.72e6
                            : c.role() == Role.SUPPLY ? 3.44e6 : c.name().contains("hot") ? 2.02e5 : 3.31e5;
            p *= c.fixed() ? 1 : scale;
            pressures.put(c.name(), p);
            Map<String, Double> streams = new LinkedHashMap<>();
            if (c.fixed()) {
                streams.put(c.stream() == null ? Case.AIR : c.stream(), 1.0);
            } else if (c.role() == Role.BARRIER || c.role() == Role.SUPPLY) {
                streams.put("barrier gas", 1.0);
            } else if (c.name().contains("hot")) {
                streams.put("drive gas", 0.84);
                streams.put("barrier gas", 0.16);
            } else {
                streams.put("feed oxygen", 0.985);
                streams.put("barrier gas", 0.015);
            }
            double t = c.role() == Role.HOT_GAS ? 960 : c.role() == Role.OXIDIZER ? 97.1 : 288;
            cavities.put(
                    c.name(),
                    new SolveResult.CavityState(c.name(), c.fixed(), state(p, t), streams, streams, streams, 0, 0));
        }
        Map<String, SolveResult.PassageState> passages = new LinkedHashMap<>();
        int i = 0;
        for (PassageSpec p : model.passages()) {
            double from = pressures.get(p.from());
            double to = pressures.get(p.to());
            double m = Math.signum(from - to) * 0.35 / Math.pow(3, i++ % 6);
            String up = m >= 0 ? p.from() : p.to();
            double[] stages = new double[0];
            if (p.type().equals("labyrinth")) {
                int n = (int) p.number("teeth", 4);
                stages = new double[n];
                for (int k = 0; k < n; k++) {
                    stages[k] = Math.max(from, to) + (Math.min(from, to) - Math.max(from, to)) * (k + 1) / n;
                }
            }
            String stream = cavities.get(up)
                    .streamFractions()
                    .entrySet()
                    .iterator()
                    .next()
                    .getKey();
            passages.put(
                    p.name(),
                    new SolveResult.PassageState(
                            p.name(),
                            p.from(),
                            p.to(),
                            SectionLayout.SHAFT_TYPES.contains(p.type())
                                    ? PassageType.SealKind.CLOSE
                                    : PassageType.SealKind.DUCT,
                            new PassageFlow(m, false, 40, to, 4000, 0, stages, List.of()),
                            state(from, 288),
                            state(to, 288),
                            null,
                            80,
                            up,
                            Map.of(stream, m)));
        }
        return new SolveResult.Converged(
                new SolveResult.Convergence(SolveResult.Method.NEWTON, 9, 1e-12, 1e-11, 1e-12, List.of(1.0, 1e-12)),
                cavities,
                passages,
                List.of());
    }

    private static FluidState state(double p, double t) {
        Fluid none = null;
        return new FluidState(none, p, t, 1, 0, 0, 1000, 700, 300, 1, Phase.GAS, false);
    }

    /** Findings of every kind. */
    public static List<Finding> findings(Case model) {
        String barrier = model.cavity("barrier") != null ? "ring" : "hub ring";
        return List.of(
                finding(
                        "barrier-pressure:" + barrier + " A",
                        Verdict.HOLDS,
                        "/passages/" + barrier + " A",
                        1.72e6,
                        0.471e6),
                finding(
                        "barrier-pressure:" + barrier + " B",
                        Verdict.THIN,
                        "/passages/" + barrier + " B",
                        1.72e6,
                        1.5e6),
                finding(
                        "flow",
                        Verdict.FALLS_SHORT,
                        "/passages/" + model.passages().get(0).name(),
                        0,
                        Double.NaN),
                finding(
                        "loc",
                        Verdict.NOT_ESTABLISHED,
                        "/cavities/" + model.cavities().get(1).name(),
                        0,
                        Double.NaN));
    }

    private static Finding finding(String id, Verdict verdict, String where, double value, double limit) {
        return new Finding(
                id,
                verdict,
                "What " + id + " says",
                where,
                "steady",
                "as stated",
                value,
                limit,
                value / limit - 1,
                "Pa",
                "how",
                "common practice",
                "mend",
                "");
    }
}
