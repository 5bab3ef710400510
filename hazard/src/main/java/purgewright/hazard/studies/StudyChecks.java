package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleSupplier;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.hazard.studies.SpreadResult.SobolIndex;
import purgewright.hazard.studies.SpreadSettings.Interval;
import purgewright.hazard.studies.SpreadSettings.Sampling;

/** Closed forms and published values for the studies of spread. */
public final class StudyChecks {
    private static final String NEWCOMBE = "R. G. Newcombe, Stat. Med. 17 (1998) 857, table I";
    private static final String ISHIGAMI =
            "f = sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1, x uniform in ]-pi, pi[ (T. Ishigami, T. Homma 1990); closed form";
    private static final double A = 7;
    private static final double B = 0.1;

    private StudyChecks() {}

    /** All checks of this room. */
    public static List<Check> all() {
        List<Check> checks = new ArrayList<>();
        intervals(checks);
        ishigami(checks);
        rare(checks);
        trips(checks);
        sampling(checks);
        return checks;
    }

    private static void add(
            List<Check> checks,
            String id,
            String quantity,
            String source,
            Label label,
            double expected,
            DoubleSupplier ours,
            double tolerance) {
        checks.add(Check.absolute(id, quantity, source, label, expected, ours, tolerance, "1", Kind.VERIFICATION));
    }

    private static void intervals(List<Check> checks) {
        // Rows: good, of, Wilson low, high, Clopper-Pearson low, high; four decimals are printed.
        double[][] rows = {
            {81, 263, 0.2553, 0.3662, 0.2527, 0.3676},
            {15, 148, 0.0624, 0.1605, 0.0578, 0.1617},
            {0, 20, 0, 0.1611, 0, 0.1684},
            {1, 29, 0.0061, 0.1718, 0.0009, 0.1776}
        };
        for (double[] r : rows) {
            for (int k = 0; k < 4; k++) {
                Interval kind = k < 2 ? Interval.WILSON : Interval.CLOPPER_PEARSON;
                int end = k % 2;
                add(
                        checks,
                        "STU-01 " + (int) r[0] + "/" + (int) r[1] + " " + kind.word() + (end == 0 ? " low" : " high"),
                        "95 % interval of a proportion",
                        NEWCOMBE,
                        Label.FROM_MEMORY,
                        r[2 + k],
                        () -> Intervals.of(kind, (long) r[1], (long) r[0], 0.95)[end],
                        5e-5);
            }
        }
    }

    private static double ishigamiAt(double[] u) {
        double x1 = Math.PI * (2 * u[0] - 1);
        double x2 = Math.PI * (2 * u[1] - 1);
        double x3 = Math.PI * (2 * u[2] - 1);
        return Math.sin(x1) + A * Math.pow(Math.sin(x2), 2) + B * Math.pow(x3, 4) * Math.sin(x1);
    }

    private static void ishigami(List<Check> checks) {
        double p4 = Math.pow(Math.PI, 4);
        double p8 = p4 * p4;
        double v1 = 0.5 * Math.pow(1 + B * p4 / 5, 2);
        double v2 = A * A / 8;
        double v13 = B * B * p8 * 8 / 225;
        double v = v1 + v2 + v13;
        double[][] expected = {{v1 / v, (v1 + v13) / v}, {v2 / v, v2 / v}, {0, v13 / v}};
        for (int i = 0; i < 3; i++) {
            int input = i;
            add(
                    checks,
                    "STU-02 first x" + (i + 1),
                    "share of the variance by one input alone, 4096 rows",
                    ISHIGAMI,
                    Label.DERIVED,
                    expected[i][0],
                    () -> ishigamiIndices().get(input).first(),
                    // Three standard errors of the estimator at 4096 independent rows are 0.05; the sequence does
                    // better.
                    0.02);
            add(
                    checks,
                    "STU-02 total x" + (i + 1),
                    "share of the variance with interactions, 4096 rows",
                    ISHIGAMI,
                    Label.DERIVED,
                    expected[i][1],
                    () -> ishigamiIndices().get(input).total(),
                    0.02);
        }
    }

    private static List<SobolIndex> ishigamiIndices() {
        return SobolIndices.of(
                Batch.of(u -> new double[] {ishigamiAt(u)}), u -> u, List.of("x1", "x2", "x3"), List.of("f"), 4096, 1);
    }

    /** Distance to a plane in ten dimensions: the failure probability is that of one normal value. */
    private static double plane(double beta, long seed) {
        return SubsetSimulation.find(
                        Batch.of(z -> {
                            double sum = 0;
                            for (double v : z) {
                                sum += v;
                            }
                            return new double[] {beta - sum / Math.sqrt(z.length)};
                        }),
                        10,
                        4000,
                        seed,
                        0.95)
                .probability();
    }

    private static void rare(List<Check> checks) {
        for (double beta : new double[] {3, 4.5, 5.5}) {
            double exact = Distribution.Normal.standardTail(-beta);
            checks.add(Check.relative(
                    "STU-03 beta " + beta,
                    "failure probability beyond a plane, ten inputs, 4000 samples a level",
                    "P = Phi(-beta)",
                    Label.DERIVED,
                    exact,
                    () -> plane(beta, 1),
                    // Three of the coefficients of variation that the method states for itself, 0.06 to 0.13.
                    0.4,
                    "1",
                    Kind.VERIFICATION));
        }
    }

    private static void trips(List<Check> checks) {
        add(
                checks,
                "STU-04 two in a row",
                "two heads in a row among ten throws",
                "1 - F(12)/2^10, F the Fibonacci numbers",
                Label.DERIVED,
                1 - 144 / 1024.0,
                () -> Trips.inARow(0.5, 2, 10),
                1e-12);
        double q = 1.3498980316300957e-3;
        checks.add(Check.relative(
                "STU-04 Gauss",
                "false trip: two samples three sigma low, of two samples",
                "Q(3)^2, Q(3) = 1.3498980e-3",
                Label.DERIVED,
                q * q,
                () -> RedlineStudy.falseTrip(gauss(2, 2), 1e6 - 3e4),
                1e-9,
                "1",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "STU-04 set point",
                "set point that meets a false-trip probability of 1e-6 with three of three samples, distance from the mean",
                "sigma Q^-1(1e-6^(1/3)) = 2.3263479 sigma",
                Label.DERIVED,
                2.3263478740408408e4,
                () -> 1e6 - RedlineStudy.proposed(gauss(3, 3), 1e-6),
                1e-6,
                "Pa",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "STU-04 long run",
                "mean number of samples to three in a row, by the rate of trips of a long run",
                "(1 - q^n)/((1 - q) q^n), q 0.1, n 3 (W. Feller, vol. 1, XIII.7)",
                Label.DERIVED,
                (1 - 1e-3) / (0.9e-3),
                () -> {
                    long n = 1_000_000;
                    double a = Math.log1p(-Trips.inARow(0.1, 3, 5000));
                    double b = Math.log1p(-Trips.inARow(0.1, 3, 6000));
                    return n / (n * (a - b) / 1000);
                },
                // The mean and the rate of the tail differ by the first few samples.
                5e-3,
                "1",
                Kind.VERIFICATION));
    }

    private static RedlineStudy.Reading gauss(int persistence, int samples) {
        return new RedlineStudy.Reading(
                "",
                "",
                "",
                "Pa",
                true,
                0.5e6,
                1e6,
                0,
                1e4,
                0,
                0,
                samples,
                persistence,
                1,
                1,
                1,
                1,
                0,
                1,
                Double.NaN,
                "");
    }

    private static void sampling(List<Check> checks) {
        add(
                checks,
                "STU-05 rank correlation",
                "Spearman's coefficient of two uniform and lognormal inputs tied by 0.6, 4000 samples",
                "the coefficient stated",
                Label.DERIVED,
                0.6,
                () -> {
                    double[][] r = {{1, 0.6}, {0.6, 1}};
                    Copula copula = Copula.of(r);
                    UnitCube cube = new UnitCube(Sampling.LATIN_HYPERCUBE, 5, 4000, 2);
                    double[] x = new double[4000];
                    double[] y = new double[4000];
                    Distribution log = new Distribution.LogNormal(1, 2);
                    for (int i = 0; i < x.length; i++) {
                        double[] u = copula.join(cube.point(i));
                        x[i] = u[0];
                        y[i] = log.quantile(u[1]);
                    }
                    return new org.apache.commons.math3.stat.correlation.SpearmansCorrelation().correlation(x, y);
                },
                // Three standard errors, (1 - 0.6^2)/sqrt(4000) each.
                0.03);
        for (Sampling sampling : Sampling.values()) {
            add(
                    checks,
                    "STU-06 mean by " + sampling.word(),
                    "mean of a sum of three squared uniform inputs, 4096 points",
                    "3/3",
                    Label.DERIVED,
                    1,
                    () -> {
                        UnitCube cube = new UnitCube(sampling, 3, 4096, 3);
                        double sum = 0;
                        for (int i = 0; i < 4096; i++) {
                            double[] u = cube.point(i);
                            sum += u[0] * u[0] + u[1] * u[1] + u[2] * u[2];
                        }
                        return sum / 4096;
                    },
                    // Three standard errors of independent points; the even ones are far better.
                    sampling == Sampling.RANDOM ? 3 * Math.sqrt(3 * 4.0 / 45 / 4096) : 1e-3);
        }
    }
}
