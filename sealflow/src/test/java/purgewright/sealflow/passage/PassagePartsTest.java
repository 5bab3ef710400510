package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The mathematics inside slots and jets, against closed forms. */
@DisplayName("Quadrature, expansion and Mach numbers inside a passage are their closed forms")
class PassagePartsTest {
    private static void near(double value, double expected, double relative, Object what) {
        assertThat(expected).as("%s", what).isFinite();
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.max(Math.abs(expected), 1e-3)));
    }

    /** Roots of Legendre's polynomials and weights: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, table 25.4. */
    private static FrictionSlot.Rule rule(int points) {
        return switch (points) {
            case 2 -> new FrictionSlot.Rule(0, new double[] {0.5773502691896258}, new double[] {1});
            case 3 -> new FrictionSlot.Rule(8.0 / 9, new double[] {0.7745966692414834}, new double[] {5.0 / 9});
            case 4 ->
                new FrictionSlot.Rule(0, new double[] {0.3399810435848563, 0.8611363115940526}, new double[] {
                    0.6521451548625461, 0.3478548451374539
                });
            default ->
                new FrictionSlot.Rule(
                        0,
                        new double[] {0.2386191860831969, 0.6612093864662645, 0.9324695142031521},
                        new double[] {0.4679139345726910, 0.3607615730481386, 0.1713244923791704});
        };
    }

    /** Gauss: n points integrate polynomials up to degree 2n - 1 exactly; Lagrange: they carry one of degree n - 1 on exactly. */
    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4, 6})
    void aRuleIsExactForItsPolynomials(int points) {
        FrictionSlot.Rule rule = rule(points);
        assertThat(rule.point).hasSize(points).isSorted();
        for (int degree = 0; degree <= 2 * points - 1; degree++) {
            double sum = 0;
            double ahead = 0;
            for (int i = 0; i < points; i++) {
                double y = Math.pow(rule.point[i], degree);
                sum += rule.weight[i] * y;
                ahead += rule.ahead[i] * y;
            }
            assertThat(sum).isCloseTo(degree % 2 == 0 ? 2.0 / (degree + 1) : 0, within(1e-14));
            if (degree < points) {
                assertThat(ahead).isCloseTo(1, within(1e-13));
            }
        }
    }

    /** Integral of r^(-1/n) dr from r to 1, by Simpson's rule in ln r; its limit, -ln r, at n = 1. */
    @ParameterizedTest
    @CsvSource({
        "1.4, -0.5",
        "1.4, -0.02",
        "1.4, -1e-4",
        "1.6667, -3",
        "1.0001, -0.5",
        "1.0000001, -0.5",
        "1, -0.5",
        "12, -0.3",
        "0.8, -0.7",
        "1.05, -0.19",
        "1.05, -0.22",
        "1.4, 0"
    })
    void expansionIsItsIntegral(double n, double logRatio) {
        int cells = 400;
        double step = logRatio / cells;
        double sum = 0;
        for (int i = 0; i <= cells; i++) {
            double weight = i == 0 || i == cells ? 1 : i % 2 == 0 ? 2 : 4;
            sum += weight * Math.exp((1 - 1 / n) * i * step);
        }
        assertThat(FrictionSlot.Solver.expansion(logRatio, n))
                .isCloseTo(-sum * step / 3, within(1e-10 * Math.abs(logRatio)));
    }

    /** Along an isentrope of exponent n the stagnation pressure stays: p (1 + (n - 1)/2 M^2)^(n/(n - 1)); with its limit p exp(M^2/2) at 1. */
    @ParameterizedTest
    @CsvSource({"1, 1.4, 2", "0.3, 1.4, 1.5", "0, 1.13, 4", "2.2, 1.0001, 3", "0.5, 1.6667, 1", "1, 0.9, 1.7"})
    void machNumberKeepsItsStagnationPressure(double mach2, double n, double ratio) {
        double there = Jet.carriedOn(mach2, n, ratio);
        double power = n / (n - 1);
        near(
                Math.pow(1 + 0.5 * (n - 1) * there, power) / ratio,
                Math.pow(1 + 0.5 * (n - 1) * mach2, power),
                1e-9,
                "stagnation pressure");
        near(Jet.carriedOn(mach2, 1, ratio), mach2 + 2 * Math.log(ratio), 1e-12, "isothermal");
        near(Jet.carriedOn(mach2, 1 + 1e-10, ratio), mach2 + 2 * Math.log(ratio), 1e-8, "nearly isothermal");
    }

    /** The average of (1 + e cos t)^(12/7) by its binomial series, whose odd terms vanish. */
    @Test
    void turbulentEccentricityIsItsSeries() {
        double a = 12.0 / 7;
        for (double e : new double[] {0, 0.1, 0.4}) {
            double second = a * (a - 1) / 2 / 2;
            double fourth = a * (a - 1) * (a - 2) * (a - 3) / 24 * 3 / 8;
            double sixth = a * (a - 1) * (a - 2) * (a - 3) * (a - 4) * (a - 5) / 720 * 5 / 16;
            near(
                    FrictionSlot.turbulentFactor(e),
                    1 + second * e * e + fourth * Math.pow(e, 4) + sixth * Math.pow(e, 6),
                    2e-5,
                    e);
            near(FrictionSlot.laminarFactor(e), 1 + 1.5 * e * e, 1e-12, e);
        }
        assertThat(FrictionSlot.turbulentFactor(1)).isGreaterThan(FrictionSlot.turbulentFactor(0.99));
    }
}
