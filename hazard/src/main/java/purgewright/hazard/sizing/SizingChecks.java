package purgewright.hazard.sizing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.Phase;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.Units;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.hazard.criteria.ClearanceRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.sealflow.passage.FilmLaws;

/** Published numbers of purge practice that sizing, redlines and interlocks are held against, each with its source and label. */
public final class SizingChecks {
    private static final double PSI = 6894.757293168361;

    /** The source gives whole psi: half of one for each of two readings. */
    private static final double WHOLE_PSI = PSI;

    private static final double FOOT = 0.3048;

    private static final double GAS_CONSTANT = 8.314462618;

    private static final String FLOWN =
            "launch commit criteria and redlines of a flown oxidizer pump's intermediate seal purge (SSID SSME-10), as quoted in a public"
                    + " repository; the document itself not seen";

    private SizingChecks() {}

    /** All checks, in the order of their numbers. */
    public static List<Check> all() {
        List<Check> out = new ArrayList<>();
        pair(out, "PUR-01 permit over redline, earlier pump", 175 - 170);
        pair(out, "PUR-01 permit over redline, later pump", 164 - 159);
        out.add(Check.absolute(
                "PUR-17",
                "barrier above the sealed fluid, 20 psi",
                "API 682 (4th ed.), plan 53/54 guidance",
                Label.FROM_MEMORY,
                20 * PSI,
                () -> Criteria.DEFAULT.get(Limit.BARRIER_EXCESS),
                0.005e6,
                "Pa",
                Kind.VALIDATION));
        velocity(out, "helium", 6.80568e-5);
        velocity(out, "nitrogen", 4.76320e-4);
        scales(out);
        rubbing(out);
        return List.copyOf(out);
    }

    /** Flown and tested pressures against our default rule: what ran must not be told to fall short of it. */
    private static void scales(List<Check> out) {
        // Redline of the purge against the greatest drain pressure that did not stop the engine.
        meets(out, "PUR-01 flown redline over drain limit", 170 * PSI, 100 * PSI, FLOWN, Label.PUBLISHED);
        meets(
                out,
                "PUR-02 later pump, drain limit of the earlier",
                159 * PSI,
                100 * PSI,
                FLOWN + "; second quotation, in another file",
                Label.PUBLISHED);
        meets(
                out,
                "PUR-03 purge of 3 ata over drains at the surroundings",
                3 * 98066.5,
                101325,
                "M. Suzuki et al., NAL technical report 1982 (NTIS N83-17585), abstract; vented drains assumed",
                Label.PUBLISHED);
        meets(
                out,
                "PUR-04 least tested purge over drains at the surroundings",
                0.3e6,
                101325,
                "NAL TR-1155 and TR-1130, abstracts; vented drains assumed",
                Label.PUBLISHED);
        meets(
                out,
                "PUR-09 flown redline over a drain held by its relief valve",
                170 * PSI,
                101325 + Units.parse("40 psi", Dimension.PRESSURE_DIFFERENCE),
                "NASA SP-8121 fig. 4, 40 psid relief valve of an upper-stage drain [transcription]; redline of PUR-01",
                Label.PUBLISHED);
    }

    /** The default pressure rule of a close seal, from the criteria as they are. */
    private static void meets(List<Check> out, String id, double purge, double neighbour, String source, Label label) {
        out.add(Check.absolute(
                id,
                String.format(
                        Locale.ROOT,
                        "1 when %.4f MPa of purge over %.4f MPa beside it meets the default rule",
                        purge / 1e6,
                        neighbour / 1e6),
                source,
                label,
                1,
                () -> purge
                                >= Math.max(
                                        neighbour + Criteria.DEFAULT.get(Limit.BARRIER_EXCESS),
                                        neighbour * Criteria.DEFAULT.get(Limit.BARRIER_RATIO))
                        ? 1
                        : 0,
                1e-9,
                "1",
                Kind.VALIDATION));
    }

    /** Limits of rubbing seals, and the surface speeds of seals that ran, by the units of the case file. */
    private static void rubbing(List<Check> out) {
        out.add(Check.relative(
                "PUR-05 speed",
                "surface speed of 43.2 mm at 50 000 rpm",
                "M. Nosaka et al., NAL TR-653 (1981), abstract; arithmetic",
                Label.PUBLISHED,
                113.1,
                () -> speed("43.2 mm", "50000 rpm"),
                5e-4,
                "m/s",
                Kind.VERIFICATION));
        double[][] leak = {{7.7, 9.1e-6}, {19.2, 2.27e-5}};
        for (double[] each : leak) {
            out.add(Check.relative(
                    "PUR-05 leakage " + each[0],
                    "mass of " + each[0] + " cm3/min of liquid hydrogen at its boiling point",
                    "M. Nosaka et al., NAL TR-653 (1981), abstract, with 70.8 kg/m3",
                    Label.PUBLISHED,
                    each[1],
                    () -> each[0]
                            * 1e-6
                            / 60
                            * Engines.embedded()
                                    .pure("parahydrogen")
                                    .atPressureQuality(101325, 0)
                                    .density(),
                    0.01,
                    "kg/s",
                    Kind.VALIDATION));
        }
        String[][] seals = {
            {"oxygen face, pump A", "2.630 in", "6750 rpm", "77"},
            {"oxygen face, pump E", "2.974 in", "8650 rpm", "112"},
            {"oxygen lip, pump C", "6.463 in", "6000 rpm", "170"},
            {"hydrogen face, pump E", "2.950 in", "28000 rpm", "360"},
            {"hot gas ring, pump B", "3.000 in", "29000 rpm", "380"},
            {"hot gas segments, pump C", "9.500 in", "6500 rpm", "270"}
        };
        for (String[] seal : seals) {
            out.add(Check.relative(
                    "PUR-10 " + seal[0],
                    "surface speed, the table's column",
                    "NASA SP-8121 Table I, pp. 4-6, transcription read from page images",
                    Label.PUBLISHED,
                    Double.parseDouble(seal[3]),
                    () -> speed(seal[1], seal[2]) / FOOT,
                    0.015,
                    "ft/s",
                    Kind.VERIFICATION));
        }
        contact(out);
        balance(out);
        out.add(Check.relative(
                "PUR-14 wear of carbon",
                "0.010 in/h of a carbon nose, as a wear rate of the case file",
                "NASA SP-8121 sections 2.3.7 and 2.2.4, transcription; arithmetic",
                Label.PUBLISHED,
                0.254e-3 / 3600,
                () -> Units.parse("0.010 in/h", Dimension.SPEED),
                1e-6,
                "m/s",
                Kind.VERIFICATION));
        limit(out, "PUR-12 rubbing speed", 500 * FOOT, Limit.RUBBING_SPEED, "m/s", 0.5);
        limit(out, "PUR-12 rubbing speed in oxygen", 200 * FOOT, Limit.OXYGEN_RUBBING_SPEED, "m/s", 0.5);
        limit(out, "PUR-12 segmented carbon", 100 * PSI, Limit.SEGMENTED_PRESSURE, "Pa", 0.005e6);
        out.add(Check.absolute(
                "PUR-22",
                "self-acting faces shown to run at 152 m/s: rubbing is limited no higher",
                "L. P. Ludwig, NASA TM X-68214 (1973), abstract",
                Label.PUBLISHED,
                152,
                () -> Criteria.DEFAULT.get(Limit.RUBBING_SPEED),
                0.5,
                "m/s",
                Kind.VALIDATION));
    }

    /** PUR-11: limits of faces in contact, the column of unit load times speed; 1 psi ft/s is 2101.5 Pa m/s. */
    private static void contact(List<Check> out) {
        Object[][] rows = {
            {"liquid oxygen", 25e3, Map.of("oxygen", 1.0), Phase.LIQUID},
            {"liquid hydrogen", 50e3, Map.of("hydrogen", 1.0), Phase.LIQUID},
            {"gaseous hydrogen", 20e3, Map.of("hydrogen", 1.0), Phase.GAS},
            {"kerosene", 25e3, Map.of("n-dodecane", 1.0), Phase.LIQUID},
            {"hot gas of hydrogen and water", 10e3, Map.of("hydrogen", 0.5, "water", 0.5), Phase.GAS}
        };
        for (Object[] row : rows) {
            @SuppressWarnings("unchecked")
            Map<String, Double> fractions = (Map<String, Double>) row[2];
            out.add(Check.relative(
                    "PUR-11 " + row[0],
                    "greatest unit load times surface speed of a face in contact",
                    "NASA SP-8121 figs. 57-59, pp. 105-110, transcription",
                    Label.PUBLISHED,
                    (Double) row[1] * 2101.5,
                    () -> ClearanceRules.contactLimit(fractions, (Phase) row[3]),
                    1e-4,
                    "Pa m/s",
                    Kind.VALIDATION));
        }
    }

    /**
     * PUR-14: a parallel film opens with the profile factor times the pressure difference; a face that is to close without its spring
     * needs at least that balance ratio, and the published ranges lie at or above it.
     */
    private static void balance(List<Check> out) {
        Object[][] rows = {
            {"high-pressure liquid", 0.55, (DoubleSupplier) () -> FilmLaws.conedLiquid(1, 1)},
            {"low-pressure liquid", 0.60, (DoubleSupplier) () -> FilmLaws.conedLiquid(1, 1)},
            {"choked gas", 0.67, (DoubleSupplier) () -> FilmLaws.parallelGas(1e4)},
            {"subsonic gas", 0.60, (DoubleSupplier) () -> FilmLaws.parallelGas(2)}
        };
        for (Object[] row : rows) {
            double least = (Double) row[1];
            out.add(Check.absolute(
                    "PUR-14 balance, " + row[0],
                    "1 when our parallel film opens a face of the least published balance ratio, " + least
                            + ", by no more than it closes",
                    "NASA SP-8121 table IV, p. 132, transcription; gas below its choke taken at a pressure ratio of 2",
                    Label.PUBLISHED,
                    1,
                    () -> ((DoubleSupplier) row[2]).getAsDouble() <= least ? 1 : 0,
                    1e-9,
                    "1",
                    Kind.VALIDATION));
        }
    }

    private static double speed(String diameter, String speed) {
        return Units.parse(diameter, Dimension.LENGTH) / 2 * Units.parse(speed, Dimension.ANGULAR_SPEED);
    }

    private static void limit(List<Check> out, String id, double expected, Limit limit, String unit, double tolerance) {
        out.add(Check.absolute(
                id,
                "default of the criterion \"" + limit.key() + "\"",
                "NASA SP-8121 sections 2, 3.2.1-3.2.4, pp. 7, 106-111, transcription",
                Label.PUBLISHED,
                expected,
                () -> Criteria.DEFAULT.get(limit),
                tolerance,
                unit,
                Kind.VALIDATION));
    }

    /** One uncertainty lies between redline and permit; in the flown pump 5 psi do. */
    private static void pair(List<Check> out, String id, double offset) {
        out.add(Check.absolute(
                id,
                "pressure between permit and redline",
                FLOWN,
                Label.PUBLISHED,
                offset * PSI,
                () -> Criteria.DEFAULT.get(Limit.INSTRUMENT_UNCERTAINTY),
                WHOLE_PSI,
                "Pa",
                Kind.VALIDATION));
    }

    /** 5 m/s through a gap of 0.18 mm on 50 mm at 0.3 MPa, 300 K, as a perfect gas: molar mass and velocity are ours. */
    private static void velocity(List<Check> out, String gas, double expected) {
        DoubleSupplier ours = () -> 0.3e6
                * Engines.embedded().pure(gas).molarMass()
                / (GAS_CONSTANT * 300)
                * Criteria.DEFAULT.get(Limit.GAP_VELOCITY)
                * Math.PI
                * 0.050
                * 0.18e-3;
        out.add(Check.relative(
                "PUR-18 " + gas,
                "least flow through a separation labyrinth",
                "API 614 5th ed./API 692 seal-gas clauses, 5 m/s at twice the design clearance; flow by arithmetic",
                Label.FROM_MEMORY,
                expected,
                ours,
                1e-5,
                "kg/s",
                Kind.VERIFICATION));
    }
}
