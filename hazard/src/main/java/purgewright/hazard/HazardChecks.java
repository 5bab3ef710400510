package purgewright.hazard;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleSupplier;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.FlammabilityRules;
import purgewright.hazard.criteria.OxygenRules;
import purgewright.hazard.deficiency.Purging;
import purgewright.hazard.deficiency.RoomOxygen;
import purgewright.hazard.deficiency.RoomOxygen.Fan;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.LimitTable;
import purgewright.hazard.flammability.LimitTable.Quantity;
import purgewright.hazard.flammability.Species;

/** Published and derived numbers the hazard rules are checked against, each with its source and label. */
public final class HazardChecks {
    private static final double EXACT = 1e-12;
    private static final double ARITHMETIC = 1e-6;

    private HazardChecks() {}

    /** All checks, in the order of their numbers. */
    public static List<Check> all() {
        List<Check> out = new ArrayList<>();
        limitingOxygen(out);
        limits(out);
        mixtures(out);
        estimates(out);
        deficiency(out);
        purging(out);
        oxygen(out);
        margins(out);
        out.addAll(HazardTableChecks.all());
        return List.copyOf(out);
    }

    private static void limitingOxygen(List<Check> out) {
        String source = "ASTM E2079-19, sections 5.2 and 5.4, citing Zlochower; the lower vessel value rules";
        Map.of("hydrogen", 0.046, "carbon-monoxide", 0.051, "methane", 0.107, "ethylene", 0.085, "propane", 0.105)
                .entrySet()
                .stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(e -> out.add(Check.absolute(
                        "HAZ-01 " + e.getKey(),
                        "limiting oxygen in nitrogen in force",
                        source,
                        Label.PUBLISHED,
                        e.getValue(),
                        () -> LimitTable.limitingOxygen(e.getKey()).si(),
                        0.002,
                        "1",
                        Kind.VALIDATION)));
        verify(
                out,
                "HAZ-03 CH4",
                "tube value 12.0 % adjusted",
                "NFPA 69 TIA log 1211 (2016), proposal text",
                0.105,
                () -> LimitTable.adjustedTube(0.12),
                EXACT);
        verify(
                out,
                "HAZ-03 H2",
                "tube value 5.0 % adjusted",
                "NFPA 69 TIA log 1211 (2016), proposal text",
                0.0425,
                () -> LimitTable.adjustedTube(0.05),
                EXACT);
    }

    private static void limits(List<Check> out) {
        String wider =
                "IEC 60079-20-1:2010 and NFPA 497 (2008), the wider; with Bulletin 627 and Bulletin 503 where tabled";
        Object[][] rows = {
            {"methane", 0.044, 0.17, 600},
            {"ethane", 0.024, 0.155, 472},
            {"propane", 0.017, 0.109, 450},
            {"n-butane", 0.014, 0.093, 288},
            {"n-heptane", 0.0085, 0.067, 204},
            {"n-octane", 0.008, 0.065, 206},
            {"n-decane", 0.007, 0.056, 235},
            {"ethylene", 0.023, 0.36, 440},
            {"acetylene", 0.023, 1.0, 305},
            {"methanol", 0.06, 0.36, 385},
            {"ethanol", 0.031, 0.19, 363},
            {"isopropanol", 0.02, 0.127, 399},
            {"carbon-monoxide", 0.109, 0.74, 607},
            {"ammonia", 0.15, 0.336, 630},
        };
        for (Object[] row : rows) {
            String name = (String) row[0];
            table(out, "HAZ-05 " + name + " LFL", wider, (double) row[1], () -> LimitTable.value(name, Quantity.LFL_AIR)
                    .si());
            table(out, "HAZ-05 " + name + " UFL", wider, (double) row[2], () -> LimitTable.value(name, Quantity.UFL_AIR)
                    .si());
            table(out, "HAZ-05 " + name + " autoignition", wider, (int) row[3] + 273.15, () -> LimitTable.value(
                            name, Quantity.AUTOIGNITION_C)
                    .si());
        }
        table(out, "HAZ-04 hydrogen LFL", "Bulletin 627, table 21", 0.04, () -> LimitTable.value("H2", Quantity.LFL_AIR)
                .si());
        table(out, "HAZ-05 hydrogen UFL", wider, 0.77, () -> LimitTable.value("H2", Quantity.UFL_AIR)
                .si());
        table(out, "HAZ-07 hydrogen UFL in oxygen", "Bulletin 503, p. 19, closed tubes", 0.958, () -> LimitTable.value(
                        "H2", Quantity.UFL_OXYGEN)
                .si());
        table(out, "HAZ-07 methane UFL in oxygen", "Bulletin 503, p. 44", 0.605, () -> LimitTable.value(
                        "CH4", Quantity.UFL_OXYGEN)
                .si());
        out.add(Check.relative(
                "HAZ-07 methane LFL in oxygen against air",
                "lower limit in oxygen equals that in air within the scatter",
                "Bulletin 503, p. 44, and Bulletin 627, table 2",
                Label.PUBLISHED,
                1,
                () -> LimitTable.value("CH4", Quantity.LFL_OXYGEN).si()
                        / LimitTable.value("CH4", Quantity.LFL_AIR).si(),
                0.20,
                "1",
                Kind.VALIDATION));
        out.add(Check.relative(
                "HAZ-08 propane UFL in oxygen",
                "upper limit in oxygen",
                "Bulletin 627; Lewis and von Elbe",
                Label.FROM_MEMORY,
                0.55,
                () -> LimitTable.value("C3H8", Quantity.UFL_OXYGEN).si(),
                0.05,
                "1",
                Kind.VALIDATION));
        out.add(Check.relative(
                "HAZ-48 n-dodecane LFL",
                "lower limit in air",
                "Bulletin 627; CRC aviation fuel handbook",
                Label.FROM_MEMORY,
                0.006,
                () -> LimitTable.lowerLimit("n-dodecane").si(),
                0.15,
                "1",
                Kind.VALIDATION));
    }

    private static void mixtures(List<Check> out) {
        String crowl = "D. A. Crowl, J. F. Louvar, Chemical Process Safety, ch. 6, mixture example";
        Map<String, Double> x = ordered("hexane", 0.8, "methane", 2.0, "ethylene", 0.5);
        out.add(Check.absolute(
                "HAZ-11 LFL",
                "Le Chatelier, unrounded",
                crowl,
                Label.TEXTBOOK,
                0.02737872,
                () -> Flammability.leChatelier(x, ordered("hexane", 0.012, "methane", 0.053, "ethylene", 0.031)),
                1e-8,
                "1",
                Kind.VERIFICATION));
        out.add(Check.absolute(
                "HAZ-11 UFL",
                "Le Chatelier, unrounded",
                crowl,
                Label.TEXTBOOK,
                0.12909535,
                () -> Flammability.leChatelier(x, ordered("hexane", 0.075, "methane", 0.15, "ethylene", 0.32)),
                1e-8,
                "1",
                Kind.VERIFICATION));
        out.add(Check.relative(
                "HAZ-11 LFL, the book's rounding",
                "Le Chatelier",
                crowl,
                Label.TEXTBOOK,
                0.0275,
                () -> Flammability.leChatelier(x, ordered("hexane", 0.012, "methane", 0.053, "ethylene", 0.031)),
                0.01,
                "1",
                Kind.VALIDATION));
        Map<String, Double> syngas = ordered("hydrogen", 0.5, "methane", 0.3, "carbon-monoxide", 0.2);
        out.add(Check.relative(
                "HAZ-11 UFL, the book's rounding",
                "Le Chatelier",
                crowl,
                Label.TEXTBOOK,
                0.129,
                () -> Flammability.leChatelier(x, ordered("hexane", 0.075, "methane", 0.15, "ethylene", 0.32)),
                0.01,
                "1",
                Kind.VALIDATION));
        derived(
                out,
                "HAZ-12 LFL",
                "Le Chatelier",
                0.04975124,
                () -> Flammability.leChatelier(
                        syngas, ordered("hydrogen", 0.04, "methane", 0.05, "carbon-monoxide", 0.125)));
        derived(
                out,
                "HAZ-12 UFL",
                "Le Chatelier",
                0.34049080,
                () -> Flammability.leChatelier(
                        syngas, ordered("hydrogen", 0.75, "methane", 0.15, "carbon-monoxide", 0.74)));
        derived(
                out,
                "HAZ-12 LFL, four alkanes",
                "Le Chatelier",
                0.04262517,
                () -> Flammability.leChatelier(
                        ordered("methane", 0.80, "ethane", 0.15, "propane", 0.04, "n-butane", 0.01),
                        ordered("methane", 0.05, "ethane", 0.03, "propane", 0.021, "n-butane", 0.018)));
        String iso = "ISO 10156:2017, sample problem, as a test of the open-source library chemicals has it";
        iso(out, "HAZ-47 (1)", iso, 0.03771429, ordered("methane", 0.8, "ethane", 0.2), Map.of());
        iso(out, "HAZ-47 (2)", iso, 0.08333333, ordered("hydrogen", 0.48), ordered("nitrogen", 0.52));
        iso(out, "HAZ-47 (3)", iso, 0.11379707, ordered("methane", 0.4), ordered("carbon-dioxide", 0.6));
        iso(
                out,
                "HAZ-47 (4)",
                iso,
                0.14273723,
                ordered("hydrogen", 0.15, "methane", 0.15),
                ordered("carbon-dioxide", 0.30, "nitrogen", 0.40));
        Object[][] inerts = {
            {"nitrogen", 0.50}, {"helium", 0.4763158}, {"argon", 0.3934211}, {"carbon-dioxide", 0.6184211}
        };
        for (Object[] row : inerts) {
            String inert = (String) row[0];
            out.add(Check.absolute(
                    "HAZ-45 " + inert,
                    "lower limit of 10 % methane in 90 % inert, LFL 5.0 %",
                    "ISO 10156:2017, coefficients as in the open-source library chemicals 1.5.2",
                    Label.PUBLISHED,
                    (double) row[1],
                    () -> Flammability.lowerLimitWithInert(
                            Map.of("methane", 0.10),
                            Map.of(inert, 0.90),
                            Map.of("methane", 0.05),
                            coefficients(List.of(inert))),
                    1e-7,
                    "1",
                    Kind.VERIFICATION));
        }
        out.add(Check.relative(
                "HAZ-49",
                "index of 2 % hydrogen, 8 % methane, 25 % argon, 65 % helium",
                "ISO 10156:2010, Tc and example",
                Label.FROM_MEMORY,
                1.56009,
                () -> Flammability.airDilutionIndex(
                        ordered("hydrogen", 0.02, "methane", 0.08), ordered("argon", 0.25, "helium", 0.65)),
                1e-5,
                "1",
                Kind.VERIFICATION));
    }

    private static void estimates(List<Check> out) {
        Object[][] temperature = {
            {"CH4", 0.05, 191.8, 0.04511210}, {"H2", 0.04, 57.8, 0.02378028}, {"C3H8", 0.021, 488.5, 0.01908086}
        };
        for (Object[] row : temperature) {
            derived(
                    out,
                    "HAZ-13 " + row[0],
                    "lower limit at 150 C, Burgess-Wheeler",
                    (double) row[3],
                    () -> Flammability.lowerLimitAt((double) row[1], 423.15, (double) row[2] * 4184));
        }
        derived(
                out,
                "HAZ-13 CH4 100 C",
                "lower limit, Zabetakis",
                0.04729625,
                () -> Flammability.lowerLimitZabetakis(0.05, 373.15));
        derived(
                out,
                "HAZ-13 CH4 200 C",
                "lower limit, Zabetakis",
                0.04369125,
                () -> Flammability.lowerLimitZabetakis(0.05, 473.15));
        out.add(Check.relative(
                "HAZ-13 CH4, the two forms",
                "Burgess-Wheeler against Zabetakis at 150 C",
                "modified Burgess-Wheeler and Zabetakis, Bulletin 627",
                Label.DERIVED,
                1,
                () -> Flammability.lowerLimitAt(0.05, 423.15, 191.8 * 4184)
                        / Flammability.lowerLimitZabetakis(0.05, 423.15),
                0.03,
                "1",
                Kind.VERIFICATION));
        out.add(Check.relative(
                "HAZ-13 C3H8, the two forms",
                "Burgess-Wheeler against Zabetakis at 150 C",
                "modified Burgess-Wheeler and Zabetakis, Bulletin 627",
                Label.DERIVED,
                1,
                () -> Flammability.lowerLimitAt(0.021, 423.15, 488.5 * 4184)
                        / Flammability.lowerLimitZabetakis(0.021, 423.15),
                0.03,
                "1",
                Kind.VERIFICATION));
        Object[][] loc = {
            {"methane", 0.05, 0.100},
            {"propane", 0.021, 0.105},
            {"n-butane", 0.019, 0.1235},
            {"ethanol", 0.033, 0.099},
            {"n-dodecane", 0.006, 0.111},
            {"carbon-monoxide", 0.125, 0.0625},
            {"hydrogen", 0.04, 0.020}
        };
        for (Object[] row : loc) {
            derived(
                    out,
                    "HAZ-14 " + row[0],
                    "limiting oxygen estimated, nu LFL",
                    (double) row[2],
                    () -> Flammability.limitingOxygenEstimate(Species.find((String) row[0]), (double) row[1]));
        }
        Object[][] stoichiometric = {
            {"methane", 0.094818, 1.0 / 3}, {"propane", 0.040215, 1.0 / 6}, {"n-dodecane", 0.011198, Double.NaN},
            {"hydrogen", 0.295278, 0.666667}, {"carbon-monoxide", 0.295278, 0.666667}, {"ammonia", 0.218343, 0.571429},
            {"ethanol", 0.065275, 0.25}, {"kerosene", 0.011665, 0.053333}
        };
        for (Object[] row : stoichiometric) {
            String name = (String) row[0];
            out.add(Check.relative(
                    "HAZ-15 " + name + " in air",
                    "stoichiometric mole fraction",
                    "stoichiometry, 20.95 % oxygen in air",
                    Label.DERIVED,
                    (double) row[1],
                    () -> Flammability.stoichiometric(Species.find(name), Flammability.OXYGEN_IN_AIR),
                    1e-4,
                    "1",
                    Kind.VERIFICATION));
            if (!Double.isNaN((double) row[2])) {
                out.add(Check.relative(
                        "HAZ-15 " + name + " in oxygen",
                        "stoichiometric mole fraction",
                        "stoichiometry",
                        Label.DERIVED,
                        (double) row[2],
                        () -> Flammability.stoichiometric(Species.find(name), 1),
                        1e-4,
                        "1",
                        Kind.VERIFICATION));
            }
        }
        // Three digits are printed: half a unit of the last is the tolerance.
        Object[][] jones = {{"methane", 0.0521, 5e-5}, {"propane", 0.0221, 5e-5}, {"n-dodecane", 0.00616, 5e-6}};
        for (Object[] row : jones) {
            out.add(Check.absolute(
                    "HAZ-15 Jones, " + row[0],
                    "lower limit estimated as 0.55 Cst",
                    "Jones' rule with 20.95 % oxygen in air",
                    Label.DERIVED,
                    (double) row[1],
                    () -> Flammability.jones(Species.find((String) row[0])),
                    (double) row[2],
                    "1",
                    Kind.VERIFICATION));
        }
    }

    private static void deficiency(List<Check> out) {
        String form = "closed solution; form of the Fermilab FESHM chapter on oxygen deficiency hazards";
        RoomOxygen a = new RoomOxygen(100, 0.1, Fan.BLOWN_IN, 0.21);
        RoomOxygen b = new RoomOxygen(100, 0.1, Fan.EXTRACTED, 0.21);
        RoomOxygen c = new RoomOxygen(100, 0, Fan.NONE, 0.21);
        room(out, "HAZ-28 A 600 s", form, 0.19203633, () -> a.at(600, 0.02), "1");
        room(out, "HAZ-28 B 600 s", form, 0.19105009, () -> b.at(600, 0.02), "1");
        room(out, "HAZ-28 C 600 s", form, 0.18625329, () -> c.at(600, 0.02), "1");
        room(out, "HAZ-28 A at last", form, 0.175, () -> a.last(0.02), "1");
        room(out, "HAZ-28 B at last", form, 0.168, () -> b.last(0.02), "1");
        room(out, "HAZ-28 A to 19.5 %", form, 466.3465, () -> a.timeTo(0.195, 0.02), "s");
        room(out, "HAZ-28 B to 19.5 %", form, 441.8328, () -> b.timeTo(0.195, 0.02), "s");
        room(out, "HAZ-28 C to 19.5 %", form, 370.5399, () -> c.timeTo(0.195, 0.02), "s");
        room(out, "HAZ-28 C to 18 %", form, 770.7534, () -> c.timeTo(0.18, 0.02), "s");
        room(
                out,
                "HAZ-29",
                "one 50 L bottle into 60 m3, mixed",
                0.179529,
                () -> new RoomOxygen(60, 0, Fan.NONE, 0.209).afterSudden(9.12),
                "1");
        String cfr = "29 CFR 1910.146";
        out.add(Check.absolute(
                "HAZ-24 deficient",
                "threshold",
                cfr,
                Label.PUBLISHED,
                0.195,
                () -> RoomOxygen.DEFICIENT,
                EXACT,
                "1",
                Kind.VALIDATION));
        out.add(Check.absolute(
                "HAZ-24 enriched",
                "threshold",
                cfr,
                Label.PUBLISHED,
                0.235,
                () -> RoomOxygen.ENRICHED,
                EXACT,
                "1",
                Kind.VALIDATION));
        String argonne = "Argonne Physics Division, cryogenic safety, appendix 3";
        out.add(Check.absolute(
                "HAZ-26 740 mmHg",
                "share at which oxygen has 135 mmHg, printed as about 18 vol %",
                argonne,
                Label.PUBLISHED,
                135.0 / 740,
                () -> RoomOxygen.dangerous(740 * 133.322),
                1e-4,
                "1",
                Kind.VALIDATION));
        out.add(Check.absolute(
                "HAZ-26 760 mmHg",
                "partial pressure in force there, 18 %, mmHg",
                argonne,
                Label.PUBLISHED,
                136.8,
                () -> 760 * RoomOxygen.dangerous(760 * 133.322),
                1e-4,
                "1",
                Kind.VALIDATION));
        String feshm = "Fermilab FESHM, oxygen deficiency hazards";
        // At 8.8 % the factor is cut to 1: a billionth above it, so that the cut is seen to be all but continuous.
        Object[][] factors = {{0.15, 2.51189e-5}, {0.12, 0.00416869}, {0.088 + 1e-9, 0.972747}};
        for (Object[] row : factors) {
            out.add(Check.relative(
                    String.format(Locale.ROOT, "HAZ-43 %.4g", (double) row[0]),
                    "fatality factor",
                    feshm,
                    Label.FROM_MEMORY,
                    (double) row[1],
                    () -> RoomOxygen.fatalityFactor((double) row[0]),
                    1e-5,
                    "1",
                    Kind.VERIFICATION));
        }
        out.add(Check.absolute(
                "HAZ-43 8.8 %",
                "fatality factor, cut",
                feshm,
                Label.FROM_MEMORY,
                1,
                () -> RoomOxygen.fatalityFactor(0.088),
                EXACT,
                "1",
                Kind.VERIFICATION));
        out.add(Check.absolute(
                "HAZ-43 18 %",
                "fatality factor, cut",
                feshm,
                Label.FROM_MEMORY,
                0,
                () -> RoomOxygen.fatalityFactor(0.18),
                EXACT,
                "1",
                Kind.VERIFICATION));
    }

    private static void purging(List<Check> out) {
        out.add(Check.relative(
                "HAZ-30",
                "time to purge 133.625 L at 46.66 L/min, 21 to 1 %",
                "Chillwave Analytics, Gas purging of modules (2), 2026",
                Label.PUBLISHED,
                524,
                () -> Purging.sweepVolumes(0.21, 0.01, 0) * 133.625 / 46.66 * 60,
                0.005,
                "s",
                Kind.VALIDATION));
        String crowl = "D. A. Crowl, J. F. Louvar, Chemical Process Safety, ch. 7";
        out.add(Check.relative(
                "HAZ-31",
                "sweep-through volume, ft3, 1000 ft3, 21 to 1.25 % with 0.01 % in the purge",
                crowl,
                Label.TEXTBOOK,
                2830,
                () -> 1000 * Purging.sweepVolumes(0.21, 0.0125, 0.0001),
                0.001,
                "1",
                Kind.VALIDATION));
        out.add(Check.relative(
                "HAZ-32 vacuum",
                "cycles to 1 ppm, 20 mmHg",
                crowl,
                Label.TEXTBOOK,
                3.368955,
                () -> Purging.cycles(0.21, 1e-6, 20, 760),
                1e-5,
                "1",
                Kind.VERIFICATION));
        out.add(Check.relative(
                "HAZ-32 pressure",
                "cycles to 1 ppm, 80 psig",
                crowl,
                Label.TEXTBOOK,
                6.578498,
                () -> Purging.cycles(0.21, 1e-6, 14.7, 94.7),
                1e-5,
                "1",
                Kind.VERIFICATION));
        derived(out, "HAZ-33 1 %", "air changes", 3.039749, () -> Purging.sweepVolumes(0.209, 0.01, 0));
        derived(out, "HAZ-33 0.1 %", "air changes", 5.342334, () -> Purging.sweepVolumes(0.209, 0.001, 0));
        derived(
                out,
                "HAZ-33 cycles",
                "after two cycles 1-7-1 bar",
                0.00426531,
                () -> Purging.afterCycles(0.209, 2, 1, 7));
    }

    private static void oxygen(List<Check> out) {
        String curve = "EIGA Doc 13/20 (CGA G-4.4), sections 4.4.2, 4.4.3, figs. 2, 3";
        // The straight curve steps at 1.5 MPa, from 60 to 53.3 m/s.
        double[][] points = {{0.5e6, 30, 60}, {1.5001e6, 45 / 1.5001, 80 / 1.5001}, {5e6, 9, 16}, {15e6, 4.5, 8}};
        for (double[] p : points) {
            String at = String.format(Locale.ROOT, "%.4g MPa", p[0] / 1e6);
            out.add(Check.relative(
                    "HAZ-34 impingement " + at,
                    "velocity limit",
                    curve,
                    Label.PUBLISHED,
                    p[1],
                    () -> OxygenRules.impingementLimit(p[0]),
                    EXACT,
                    "m/s",
                    Kind.VERIFICATION));
            out.add(Check.relative(
                    "HAZ-34 straight " + at,
                    "velocity limit",
                    curve,
                    Label.PUBLISHED,
                    p[2],
                    () -> OxygenRules.straightLimit(p[0]),
                    EXACT,
                    "m/s",
                    Kind.VERIFICATION));
        }
        double[][] compression = {
            {345e3, 142.875}, {690e3, 233.990}, {6894.76e3, 705.771}, {13789.5e3, 920.168}, {20684.3e3, 1066.737}
        };
        for (double[] p : compression) {
            out.add(Check.relative(
                    "HAZ-37 " + Math.round(p[0] / 1e3) + " kPa",
                    "adiabatic compression from 293.15 K, 1 atm, k = 1.4",
                    "perfect gas; same form as the tables in ASTM G63/MNL36",
                    Label.DERIVED,
                    p[1] + 273.15,
                    () -> OxygenRules.compressed(293.15, p[0] / 101325, 1.4),
                    1e-5,
                    "K",
                    Kind.VERIFICATION));
        }
    }

    private static void margins(List<Check> out) {
        String source = "NFPA 69, oxidant- and combustible-concentration chapters";
        Criteria plain = Criteria.DEFAULT;
        Criteria monitored = Criteria.of(Map.of(Criteria.MONITORED, true));
        Object[][] rows = {
            {"HAZ-44 hydrogen monitored", 0.046, monitored, 0.0276},
            {"HAZ-44 hydrogen not monitored", 0.046, plain, 0.0184},
            {"HAZ-44 methane monitored", 0.107, monitored, 0.087},
            {"HAZ-44 methane not monitored", 0.107, plain, 0.0642},
        };
        for (Object[] row : rows) {
            out.add(Check.absolute(
                    (String) row[0],
                    "oxygen allowed",
                    source,
                    Label.FROM_MEMORY,
                    (double) row[3],
                    () -> FlammabilityRules.allowed((double) row[1], (Criteria) row[2]),
                    1e-9,
                    "1",
                    Kind.VERIFICATION));
        }
    }

    private static void iso(
            List<Check> out,
            String id,
            String source,
            double expected,
            Map<String, Double> fuels,
            Map<String, Double> inerts) {
        Map<String, Double> limits = Map.of("hydrogen", 0.04, "methane", 0.044, "ethane", 0.024);
        out.add(Check.absolute(
                id,
                "lower limit of a mix with inert gas",
                source,
                Label.PUBLISHED,
                expected,
                () -> Flammability.lowerLimitWithInert(fuels, inerts, limits, coefficients(inerts.keySet())),
                1e-8,
                "1",
                Kind.VERIFICATION));
    }

    private static Map<String, Double> coefficients(Iterable<String> species) {
        Map<String, Double> out = new LinkedHashMap<>();
        for (String s : species) {
            out.put(s, LimitTable.value(s, Quantity.INERT_COEFFICIENT).si());
        }
        return out;
    }

    private static void verify(
            List<Check> out,
            String id,
            String what,
            String source,
            double expected,
            DoubleSupplier ours,
            double tolerance) {
        out.add(Check.absolute(id, what, source, Label.PUBLISHED, expected, ours, tolerance, "1", Kind.VERIFICATION));
    }

    private static void table(List<Check> out, String id, String source, double expected, DoubleSupplier ours) {
        out.add(Check.relative(
                id,
                "value in force",
                source,
                Label.PUBLISHED,
                expected,
                ours,
                EXACT,
                expected > 1.5 ? "K" : "1",
                Kind.VALIDATION));
    }

    private static void derived(List<Check> out, String id, String what, double expected, DoubleSupplier ours) {
        out.add(Check.relative(
                id, what, "closed form", Label.DERIVED, expected, ours, ARITHMETIC, "1", Kind.VERIFICATION));
    }

    private static void room(
            List<Check> out, String id, String source, double expected, DoubleSupplier ours, String unit) {
        out.add(Check.relative(
                id, "oxygen in a room", source, Label.DERIVED, expected, ours, 3e-6, unit, Kind.VERIFICATION));
    }

    private static Map<String, Double> ordered(Object... pairs) {
        Map<String, Double> out = new LinkedHashMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            out.put((String) pairs[i], (Double) pairs[i + 1]);
        }
        return out;
    }
}
