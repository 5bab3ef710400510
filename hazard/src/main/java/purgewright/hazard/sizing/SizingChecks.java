package purgewright.hazard.sizing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;

/** Published numbers of purge practice that sizing, redlines and interlocks are held against, each with its source and label. */
public final class SizingChecks {
    private static final double PSI = 6894.757293168361;

    /** The source gives whole psi: half of one for each of two readings. */
    private static final double WHOLE_PSI = PSI;

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
        return List.copyOf(out);
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
