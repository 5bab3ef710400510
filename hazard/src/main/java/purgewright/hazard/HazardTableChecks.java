package purgewright.hazard;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.hazard.criteria.OxygenMaterials;
import purgewright.hazard.criteria.OxygenRules;
import purgewright.hazard.criteria.PhaseRules;
import purgewright.hazard.deficiency.RoomOxygen;
import purgewright.hazard.flammability.Flame;
import purgewright.hazard.flammability.LimitTable;
import purgewright.hazard.flammability.LimitTable.Quantity;

/** Further published numbers of the hazard tables, oxygen service, phases and rooms, each with its source and label. */
final class HazardTableChecks {
    private static final double EXACT = 1e-12;

    private HazardTableChecks() {}

    static List<Check> all() {
        List<Check> out = new ArrayList<>();
        limitingOxygen(out);
        standards(out);
        vessels(out);
        others(out);
        limits(out);
        detonation(out);
        flames(out);
        richFlames(out);
        oxygenService(out);
        phases(out);
        rooms(out);
        return out;
    }

    /** The row of the table that lies nearest to a published value. */
    private static double nearest(String species, Quantity quantity, double value) {
        return LimitTable.rows(species, quantity).stream()
                .map(LimitTable.Row::si)
                .min(Comparator.comparingDouble(x -> Math.abs(x - value)))
                .orElse(Double.NaN);
    }

    /** Tube values; without JP-4, natural gas and gasoline, which are no species of the tables. */
    private static void limitingOxygen(List<Check> out) {
        String source = "U.S. Bureau of Mines data as tabulated in NFPA 69, table C.1(a); against the nearest row";
        Object[][] rows = {
            {"hydrogen", 0.050, 0.052},
            {"methane", 0.120, 0.145},
            {"ethane", 0.110, 0.135},
            {"propane", 0.115, 0.145},
            {"ethylene", 0.100, 0.115},
            {"carbon-monoxide", 0.055, 0.055},
            {"ethanol", 0.105, 0.130},
            {"methanol", 0.100, 0.120},
            {"kerosene", 0.100, 0.130},
            {"n-butane", 0.120, 0.145},
            {"n-heptane", 0.115, 0.145},
        };
        for (Object[] row : rows) {
            String name = (String) row[0];
            recalled(
                    out,
                    "HAZ-02 " + name + " in nitrogen",
                    "limiting oxygen, flammability tube",
                    source,
                    (double) row[1],
                    () -> nearest(name, Quantity.LOC_NITROGEN_TUBE, (double) row[1]),
                    0.005,
                    "1");
            recalled(
                    out,
                    "HAZ-02 " + name + " in carbon dioxide",
                    "limiting oxygen, flammability tube",
                    source,
                    (double) row[2],
                    () -> nearest(name, Quantity.LOC_CO2_TUBE, (double) row[2]),
                    0.005,
                    "1");
        }
        published(
                out,
                "HAZ-03 hydrogen in carbon dioxide",
                "the adjusted value is never below that in nitrogen: 5.2 % times 0.85 is 4.42 %, nitrogen has 4.6 %",
                "NFPA 69 TIA log 1211 (2016), proposal text; ASTM E2079-19",
                0.046,
                () -> LimitTable.limitingOxygenCarbonDioxide("hydrogen").si(),
                EXACT,
                "1",
                Kind.VALIDATION);
    }

    /** The two standards row by row; which of them is in force stands in the checks of the limits in force. */
    private static void standards(List<Check> out) {
        Object[][] rows = {
            {"hydrogen", 4.0, 77.0, 560, 4.0, 75.0, 500},
            {"methane", 4.4, 17.0, 600, 5.0, 15.0, 600},
            {"ethane", 2.4, 15.5, 515, 3.0, 12.5, 472},
            {"propane", 1.7, 10.9, 450, 2.1, 9.5, 450},
            {"n-butane", 1.4, 9.3, 372, 1.9, 8.5, 288},
            {"n-heptane", 0.85, 6.7, 204, 1.0, 6.7, 204},
            {"n-octane", 0.8, 6.5, 206, 1.0, 6.5, 206},
            {"n-decane", 0.7, 5.6, 235, null, null, null},
            {"kerosene", 0.7, 5.0, 210, 0.7, 5.0, 210},
            {"ethylene", 2.3, 36.0, 440, 2.7, 36.0, 490},
            {"acetylene", 2.3, 100.0, 305, 2.5, 100.0, 305},
            {"methanol", 6.0, 36.0, 440, 6.0, 36.0, 385},
            {"ethanol", 3.1, 19.0, 400, 3.3, 19.0, 363},
            {"isopropanol", 2.0, 12.7, 399, 2.0, 12.7, 399},
            {"carbon-monoxide", 10.9, 74.0, 607, 12.5, 74.0, 609},
            {"ammonia", 15.0, 33.6, 630, 15.0, 28.0, 651},
        };
        Quantity[] quantities = {Quantity.LFL_AIR, Quantity.UFL_AIR, Quantity.AUTOIGNITION_C};
        String[] words = {"LFL, vol %", "UFL, vol %", "autoignition, C"};
        String[] standards = {"IEC 60079-20-1:2010", "NFPA 497 (2008)"};
        for (Object[] row : rows) {
            String name = (String) row[0];
            for (int i = 0; i < 6; i++) {
                if (row[i + 1] == null) {
                    continue;
                }
                String standard = standards[i / 3];
                Quantity quantity = quantities[i % 3];
                published(
                        out,
                        "HAZ-05 " + name + ", " + standard.substring(0, standard.indexOf(' ')) + " " + words[i % 3],
                        "row as tabulated",
                        standard + ", as the data files of the open-source library chemicals 1.5.2 have it",
                        ((Number) row[i + 1]).doubleValue(),
                        () -> LimitTable.rows(name, quantity).stream()
                                .filter(r -> r.source().startsWith(standard))
                                .mapToDouble(LimitTable.Row::value)
                                .findFirst()
                                .orElse(Double.NaN),
                        EXACT,
                        "1",
                        Kind.VALIDATION);
            }
        }
        Object[][] inForce = {{"kerosene LFL", Quantity.LFL_AIR, 0.006}, {"kerosene UFL", Quantity.UFL_AIR, 0.05}};
        for (Object[] row : inForce) {
            published(
                    out,
                    "HAZ-05 " + row[0] + " in force",
                    "the widest of both standards and Bulletin 627",
                    "IEC 60079-20-1:2010, NFPA 497 (2008); M. G. Zabetakis, Bulletin 627 (1965)",
                    (double) row[2],
                    () -> LimitTable.value("kerosene", (Quantity) row[1]).si(),
                    EXACT,
                    "1",
                    Kind.VALIDATION);
        }
    }

    /** Closed vessels: no rows of their own, since the limits in force are as wide; checked so that this stays true. */
    private static void vessels(List<Check> out) {
        String bulletin = "M. G. Zabetakis, Bureau of Mines Bulletin 627 (1965), tables 2 and 21 (transcription)";
        Object[][] tabled = {
            {"methane LFL", "methane", Quantity.LFL_AIR, 0.05},
            {"methane UFL", "methane", Quantity.UFL_AIR, 0.15},
            {"hydrogen UFL", "hydrogen", Quantity.UFL_AIR, 0.75},
        };
        tabled(out, "HAZ-04", bulletin, tabled);
        closedVessel(out, "methane LFL", "methane", Quantity.LFL_AIR, 0.049);
        closedVessel(out, "methane UFL", "methane", Quantity.UFL_AIR, 0.158);
        closedVessel(out, "hydrogen UFL", "hydrogen", Quantity.UFL_AIR, 0.759);
    }

    /** The limit in force is no narrower than the one found in closed vessels. */
    private static void closedVessel(List<Check> out, String what, String species, Quantity quantity, double vessel) {
        published(
                out,
                "HAZ-04 " + what + ", closed vessels",
                "the limit in force is no narrower",
                "I. A. Zlochower, G. M. Green, J. Loss Prev. Process Ind. 22 (2009) (transcription)",
                vessel,
                () -> {
                    double inForce = LimitTable.value(species, quantity).si();
                    return quantity == Quantity.LFL_AIR ? Math.max(vessel, inForce) : Math.min(vessel, inForce);
                },
                EXACT,
                "1",
                Kind.VALIDATION);
    }

    /** Rows that the tables have as printed: {what, species, quantity, value}. */
    private static void tabled(List<Check> out, String number, String source, Object[][] rows) {
        for (Object[] row : rows) {
            published(
                    out,
                    number + " " + row[0],
                    "row as tabulated",
                    source,
                    (double) row[3],
                    () -> nearest((String) row[1], (Quantity) row[2], (double) row[3]),
                    EXACT,
                    "1",
                    Kind.VALIDATION);
        }
    }

    private static void others(List<Check> out) {
        String bulletin503 = "Coward and Jones, Bureau of Mines Bulletin 503 (1952), pp. 19 and 44 (transcription)";
        Object[][] pure = {
            {"methane LFL in oxygen", "methane", Quantity.LFL_OXYGEN, 0.0515},
            {"hydrogen LFL in oxygen, open", "hydrogen", Quantity.LFL_OXYGEN, 0.0465},
            {"hydrogen UFL in oxygen, open", "hydrogen", Quantity.UFL_OXYGEN, 0.939},
            {"hydrogen LFL in oxygen, closed", "hydrogen", Quantity.LFL_OXYGEN, 0.039},
        };
        tabled(out, "HAZ-07", bulletin503, pure);
        String lewis = "M. G. Zabetakis, Bureau of Mines Bulletin 627 (1965); Lewis and von Elbe";
        Object[][] oxygen = {
            {"propane", 0.023, 0.55},
            {"carbon-monoxide", 0.155, 0.94},
            {"ammonia", 0.15, 0.79},
            {"ethylene", 0.03, 0.80},
            {"ethane", 0.03, 0.66},
        };
        for (Object[] row : oxygen) {
            String name = (String) row[0];
            recalled(
                    out,
                    "HAZ-08 " + name + " LFL in oxygen",
                    "lower limit in oxygen",
                    lewis,
                    (double) row[1],
                    () -> LimitTable.value(name, Quantity.LFL_OXYGEN).si(),
                    0.05 * (double) row[1],
                    "1");
            if (!"propane".equals(name)) { // among the limits in force
                recalled(
                        out,
                        "HAZ-08 " + name + " UFL in oxygen",
                        "upper limit in oxygen",
                        lewis,
                        (double) row[2],
                        () -> LimitTable.value(name, Quantity.UFL_OXYGEN).si(),
                        0.05 * (double) row[2],
                        "1");
            }
        }
        // JP-4, of the same entry, is no species of the tables.
        String aviation = "M. G. Zabetakis, Bureau of Mines Bulletin 627 (1965); CRC aviation fuel handbook";
        recalled(
                out,
                "HAZ-48 Jet A LFL",
                "lower limit in air, in force for kerosene and RP-1",
                aviation,
                0.006,
                () -> LimitTable.lowerLimit("kerosene").si(),
                0.15 * 0.006,
                "1");
        recalled(
                out,
                "HAZ-48 Jet A UFL",
                "upper limit in air, as a row",
                aviation,
                0.047,
                () -> nearest("kerosene", Quantity.UFL_AIR, 0.047),
                0.15 * 0.047,
                "1");
    }

    private static void limits(List<Check> out) {
        String chart = "ANSI/AARST SGM-SF-2017 (rev. 12/20), LEL reference chart; against the nearest row of the table";
        // Tolerance: the printed range, or half a unit of the last digit printed. Without n-hexane, no species of the
        // tables.
        Object[][] rows = {
            {"ethanol", 0.0315, 0.0015},
            {"hydrogen", 0.04, 0.005},
            {"kerosene", 0.0065, 0.0005},
            {"methane", 0.047, 0.003},
            {"propane", 0.021, 0.0005},
            {"isopropanol", 0.02, 0.005},
            {"n-heptane", 0.0105, 0.0005},
            {"n-octane", 0.01, 0.005},
        };
        for (Object[] row : rows) {
            published(
                    out,
                    "HAZ-06 " + row[0],
                    "lower limit as printed for area classification",
                    chart,
                    (double) row[1],
                    () -> nearest((String) row[0], Quantity.LFL_AIR, (double) row[1]),
                    (double) row[2] + 1e-12,
                    "1",
                    Kind.VALIDATION);
        }
        published(
                out,
                "HAZ-10 Jet A",
                "limiting oxygen at sea level, as a row; a wider value is in force, and its rise with altitude is not used",
                "S. M. Summer, DOT/FAA/AR-04/8 (2004), as quoted in a public report",
                0.12,
                () -> nearest("kerosene", Quantity.LOC_NITROGEN_TUBE, 0.12),
                0.005,
                "1",
                Kind.VALIDATION);
        String sandia = "SAND2016-6456 J, after Cashdollar and others (transcription)";
        table(out, "HAZ-41 methane self-sustaining", sandia, 0.06, "methane", Quantity.SELF_SUSTAINING, "1");
        table(out, "HAZ-41 hydrogen self-sustaining", sandia, 0.08, "hydrogen", Quantity.SELF_SUSTAINING, "1");
        table(out, "HAZ-41 methane ignition energy", sandia, 0.28e-3, "methane", Quantity.IGNITION_ENERGY_MJ, "J");
        table(out, "HAZ-41 hydrogen ignition energy", sandia, 0.017e-3, "hydrogen", Quantity.IGNITION_ENERGY_MJ, "J");
    }

    private static void detonation(List<Check> out) {
        String source = "Air Products Safetygram-9; SAND2016-6456 J (transcription)";
        table(out, "HAZ-09 hydrogen low in air", source, 0.182, "hydrogen", Quantity.DETONABLE_LOW_AIR, "1");
        table(out, "HAZ-09 hydrogen high in air", source, 0.589, "hydrogen", Quantity.DETONABLE_HIGH_AIR, "1");
        table(out, "HAZ-09 hydrogen low in oxygen", source, 0.15, "hydrogen", Quantity.DETONABLE_LOW_OXYGEN, "1");
        table(out, "HAZ-09 hydrogen high in oxygen", source, 0.90, "hydrogen", Quantity.DETONABLE_HIGH_OXYGEN, "1");
        table(out, "HAZ-09 methane low in air", source, 0.063, "methane", Quantity.DETONABLE_LOW_AIR, "1");
        table(out, "HAZ-09 methane high in air", source, 0.135, "methane", Quantity.DETONABLE_HIGH_AIR, "1");
    }

    /** The flame rule's own temperatures, as the hazard room calls the equilibrium. */
    private static void flames(List<Check> out) {
        String marzouk = "O. A. Marzouk, Eng. Technol. Appl. Sci. Res. 13(4), 2023 (transcription)";
        Object[][] rows = {
            {"HAZ-17 flame rule, methane in air", Map.of("methane", 1.0, "oxygen", 2.0, "nitrogen", 7.52), 2224.0},
            {"HAZ-17 flame rule, methane in oxygen", Map.of("methane", 1.0, "oxygen", 2.0), 3050.0},
            {"HAZ-17 flame rule, hydrogen in air", Map.of("hydrogen", 1.0, "oxygen", 0.5, "nitrogen", 1.88), 2379.0},
            {"HAZ-17 flame rule, hydrogen in oxygen", Map.of("hydrogen", 1.0, "oxygen", 0.5), 3075.0},
        };
        for (Object[] row : rows) {
            @SuppressWarnings("unchecked")
            Map<String, Double> mixture = (Map<String, Double>) row[1];
            published(
                    out,
                    (String) row[0],
                    "adiabatic flame temperature, equilibrium, 298.15 K, 1 atm",
                    marzouk,
                    (double) row[2],
                    () -> Flame.temperature(mixture, 298.15, 101325),
                    10,
                    "K",
                    Kind.VALIDATION);
        }
        // Calculated with another program's thermodynamic data at the published limits.
        Object[][] limits = {
            {"methane 5.0 %", air("methane", 0.05), 1481.0},
            {"propane 2.1 %", air("propane", 0.021), 1529.0},
            {"hydrogen 4.0 %", air("hydrogen", 0.04), 627.0},
        };
        for (Object[] row : limits) {
            @SuppressWarnings("unchecked")
            Map<String, Double> mixture = (Map<String, Double>) row[1];
            out.add(Check.absolute(
                    "HAZ-20 flame rule, " + row[0],
                    "flame temperature at the lower limit in air",
                    "Cantera 3.2.0, NASA seven-coefficient data",
                    Label.DERIVED,
                    (double) row[2],
                    () -> Flame.temperature(mixture, 298.15, 101325),
                    5,
                    "K",
                    Kind.VALIDATION));
        }
    }

    /** From lean to rich: at the upper limits, and far beyond them with nitrogen. */
    private static void richFlames(List<Check> out) {
        Object[][] rows = {
            {"methane 15 % in air", air("methane", 0.15), 1769.0},
            {"propane 9.5 % in air", air("propane", 0.095), 1331.0},
            {"carbon monoxide 74 % in air", air("carbon-monoxide", 0.74), 1265.0},
            {"ammonia 28 % in air", air("ammonia", 0.28), 1820.0},
            {"hydrogen 75 % in air", air("hydrogen", 0.75), 1164.0},
            {"methane 50 %, oxygen 8 %, nitrogen", Map.of("methane", 0.50, "oxygen", 0.08, "nitrogen", 0.42), 790.1},
            {"methane 30 %, oxygen 6 %, nitrogen", Map.of("methane", 0.30, "oxygen", 0.06, "nitrogen", 0.64), 763.3},
            {"hydrogen 50 %, oxygen 3 %, nitrogen", Map.of("hydrogen", 0.50, "oxygen", 0.03, "nitrogen", 0.47), 797.5},
            {"hydrogen 90 %, oxygen 5 %, nitrogen", Map.of("hydrogen", 0.90, "oxygen", 0.05, "nitrogen", 0.05), 1131.1},
        };
        for (Object[] row : rows) {
            @SuppressWarnings("unchecked")
            Map<String, Double> mixture = (Map<String, Double>) row[1];
            out.add(Check.absolute(
                    "HAZ-20 rich, " + row[0],
                    "flame temperature by equilibrium, 298.15 K, 1 atm",
                    "Cantera 3.2.0, NASA seven-coefficient data",
                    Label.DERIVED,
                    (double) row[2],
                    () -> Flame.temperature(mixture, 298.15, 101325),
                    5,
                    "K",
                    Kind.VALIDATION));
        }
    }

    private static Map<String, Double> air(String fuel, double share) {
        return Map.of(fuel, share, "oxygen", 0.2095 * (1 - share), "nitrogen", 0.7905 * (1 - share));
    }

    private static void oxygenService(List<Check> out) {
        String eiga = "EIGA Doc 13/20, appendix B (transcription)";
        Object[][] rows = {
            {"300-series stainless steel", 3.18e-3, 1.38e6},
            {"300-series stainless steel", 6.35e-3, 2.58e6},
            {"copper", 0.0, 20.68e6},
            {"copper-nickel", 0.0, 20.68e6},
            {"brass", 0.0, 20.68e6},
            {"tin bronze", 0.0, 20.68e6},
            {"nickel 200", 0.0, 20.68e6},
            {"Monel 400 or K-500", 0.762e-3, 20.68e6},
            {"Inconel 600", 3.18e-3, 8.61e6},
            {"Inconel 625", 3.18e-3, 6.90e6},
            {"Hastelloy C-276", 3.18e-3, 8.61e6},
            {"Hastelloy C-22", 3.18e-3, 9.70e6},
            {"carbon steel", 0.01, 0.0},
        };
        for (Object[] row : rows) {
            published(
                    out,
                    "HAZ-35 " + row[0] + " " + (double) row[1] * 1e3 + " mm",
                    "pressure up to which no velocity limit holds",
                    eiga,
                    (double) row[2],
                    () -> OxygenMaterials.exemptUpTo((String) row[0], (double) row[1]),
                    1e-3,
                    "Pa",
                    Kind.VALIDATION);
        }
        out.add(Check.relative(
                "HAZ-36",
                "velocity from which particle impact is credible (100 ft/s) against the curve's level part",
                "ASTM MNL36, G88; NASA TM-2007-213740",
                Label.FROM_MEMORY,
                30.48,
                () -> OxygenRules.impingementLimit(1e6),
                0.02,
                "m/s",
                Kind.VALIDATION));
    }

    private static void phases(List<Check> out) {
        PropertyEngine engine = Engines.embedded();
        String nist = "NIST reference equations (transcription); half a unit of the last digit printed";
        double[][] nitrogen = {{90, 0.36046e6}, {100, 0.77828e6}, {110, 1.4659e6}, {120, 2.5106e6}};
        for (double[] row : nitrogen) {
            out.add(Check.relative(
                    "HAZ-38 nitrogen " + (int) row[0] + " K",
                    "pressure above which a nitrogen purge condenses",
                    nist,
                    Label.PUBLISHED,
                    row[1],
                    () -> engine.pure("nitrogen").saturationPressure(row[0]),
                    1e-3,
                    "Pa",
                    Kind.VALIDATION));
        }
        out.add(Check.relative(
                "HAZ-38 argon 90 K",
                "pressure above which an argon purge condenses",
                nist,
                Label.PUBLISHED,
                0.13351e6,
                () -> engine.pure("argon").saturationPressure(90),
                1e-3,
                "Pa",
                Kind.VALIDATION));
        published(
                out,
                "HAZ-39",
                "how far oxygen boils below methane's freezing point",
                "NIST reference equations (transcription)",
                0.507,
                () -> engine.pure("methane").tripleTemperature() - boiling(engine.pure("oxygen")),
                0.002,
                "K",
                Kind.VALIDATION);
        String raoult = "vapour pressures of the reference equations by Raoult's law; printed as about";
        out.add(Check.relative(
                "HAZ-40 oxygen at nitrogen's boiling point",
                "vapour pressure",
                raoult,
                Label.PUBLISHED,
                0.2076e5,
                () -> engine.pure("oxygen").saturationPressure(77.355),
                0.02,
                "Pa",
                Kind.VALIDATION));
        out.add(Check.relative(
                "HAZ-40 first condensate, temperature",
                "dew point of air at 1 atm",
                raoult,
                Label.PUBLISHED,
                82,
                () -> PhaseRules.airDew(engine, 101325).temperature(),
                0.02,
                "K",
                Kind.VALIDATION));
        out.add(Check.relative(
                "HAZ-40 first condensate, oxygen",
                "mole fraction of oxygen in the first drops",
                raoult,
                Label.PUBLISHED,
                0.53,
                () -> PhaseRules.airDew(engine, 101325).oxygen(),
                0.02,
                "1",
                Kind.VALIDATION));
    }

    /** Boiling point at 1 atm by halving. */
    private static double boiling(PureFluid fluid) {
        double low = fluid.tripleTemperature();
        double high = fluid.criticalTemperature() - 1;
        for (int i = 0; i < 60; i++) {
            double t = (low + high) / 2;
            if (fluid.saturationPressure(t) < 101325) {
                low = t;
            } else {
                high = t;
            }
        }
        return high;
    }

    private static void rooms(List<Check> out) {
        String eiga = "EIGA Doc 44/18, table 1 (transcription)";
        double[][] bands = {{0.209, 0}, {0.195, 0}, {0.194, 1}, {0.10, 1}, {0.099, 2}, {0.06, 2}, {0.059, 3}};
        for (double[] row : bands) {
            published(
                    out,
                    "HAZ-25 " + row[0],
                    "row of effects for an oxygen fraction: 0 normal to 3 cardiac standstill",
                    eiga,
                    row[1],
                    () -> RoomOxygen.effectBand(row[0]),
                    EXACT,
                    "1",
                    Kind.VALIDATION);
        }
        String ssc = "SSC Laboratory, oxygen deficiency hazards, OSTI 45495 (1993), abstract";
        published(
                out,
                "HAZ-27 below 1e-9 per hour",
                "class, -1 unclassified",
                ssc,
                -1,
                () -> RoomOxygen.hazardClass(9.9e-10),
                EXACT,
                "1",
                Kind.VALIDATION);
        published(
                out,
                "HAZ-27 above 1e-1 per hour",
                "class",
                ssc,
                4,
                () -> RoomOxygen.hazardClass(0.11),
                EXACT,
                "1",
                Kind.VALIDATION);
        published(
                out,
                "HAZ-27 rate",
                "sum of rates times fatality factors: two events of certain death, 1e-6 and 1e-7 per hour",
                ssc,
                1.1e-6,
                () -> RoomOxygen.fatalityRate(new double[] {1e-6, 1e-7}, new double[] {0.08, 0.05}),
                1e-18,
                "1/h",
                Kind.VERIFICATION);
        PropertyEngine engine = Engines.embedded();
        out.add(Check.relative(
                "HAZ-27 nitrogen expands",
                "volume of gas at 20 C over that of the liquid at its boiling point; printed as about 700",
                ssc,
                Label.PUBLISHED,
                700,
                () -> {
                    PureFluid n2 = engine.pure("nitrogen");
                    return n2.atTemperatureQuality(boiling(n2), 0).density()
                            / n2.atPressureTemperature(101325, 293.15).density();
                },
                0.05,
                "1",
                Kind.VALIDATION));
        out.add(Check.relative(
                "HAZ-42 helium rises",
                "density of helium over that of air at room conditions: it collects under the roof",
                "molar masses, 4.0026 over 28.96 g/mol (IUPAC)",
                Label.PUBLISHED,
                4.0026 / 28.96,
                () -> engine.pure("helium")
                                .atPressureTemperature(101325, 288.15)
                                .density()
                        / (0.7905
                                        * engine.pure("nitrogen")
                                                .atPressureTemperature(101325, 288.15)
                                                .density()
                                + 0.2095
                                        * engine.pure("oxygen")
                                                .atPressureTemperature(101325, 288.15)
                                                .density()),
                0.01,
                "1",
                Kind.VALIDATION));
    }

    private static void table(
            List<Check> out,
            String id,
            String source,
            double expected,
            String species,
            Quantity quantity,
            String unit) {
        out.add(Check.relative(
                id,
                "row as tabulated",
                source,
                Label.PUBLISHED,
                expected,
                () -> LimitTable.value(species, quantity).si(),
                EXACT,
                unit,
                Kind.VALIDATION));
    }

    private static void recalled(
            List<Check> out,
            String id,
            String what,
            String source,
            double expected,
            DoubleSupplier ours,
            double tolerance,
            String unit) {
        out.add(Check.absolute(id, what, source, Label.FROM_MEMORY, expected, ours, tolerance, unit, Kind.VALIDATION));
    }

    private static void published(
            List<Check> out,
            String id,
            String what,
            String source,
            double expected,
            DoubleSupplier ours,
            double tolerance,
            String unit,
            Kind kind) {
        out.add(Check.absolute(id, what, source, Label.PUBLISHED, expected, ours, tolerance, unit, kind));
    }
}
