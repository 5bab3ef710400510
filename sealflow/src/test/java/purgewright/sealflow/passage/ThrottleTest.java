package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

@DisplayName(
        "Flux of an expansion from rest: closed forms of a perfect gas and liquid, else the isentrope walked down step by step")
class ThrottleTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final Throttle.Flashing EVEN = Throttle.Flashing.EQUILIBRIUM;

    /** (1 + delta^2/dp^2)^(-1/4) with delta = 1e-5 p0. */
    private static double nearRest(double p0, double down) {
        double ratio = 1e-5 * p0 / (p0 - down);
        return Math.pow(1 + ratio * ratio, -0.25);
    }

    /** p' = p + B of a stiffened gas; B = 0 is the perfect one. */
    private static double flux(double raised, double density, double k, double ratio) {
        double r = Math.max(ratio, Math.pow(2 / (k + 1), k / (k - 1)));
        return Math.sqrt(2 * k / (k - 1) * raised * density * (Math.pow(r, 2 / k) - Math.pow(r, 1 + 1 / k)));
    }

    @Test
    void ofAPerfectGas() {
        for (double k : new double[] {1.05, 1.2, 1.4, 5.0 / 3}) {
            PerfectGas gas = new PerfectGas("gas", 300, k, 1.8e-5);
            double p0 = 2e6;
            FluidState up = gas.atPressureTemperature(p0, 350);
            double critical = Math.pow(2 / (k + 1), k / (k - 1));
            assertThat(Throttle.criticalRatio(k)).isCloseTo(critical, within(1e-12));
            for (double b = 0.01; b < 1; b += 0.0173) {
                String what = "k " + k + " to " + b;
                Throttle.Flux f = Throttle.flux(up, b * p0, EVEN);
                double exact = flux(p0, up.density(), k, b) * nearRest(p0, b * p0);
                assertThat(f.flux()).as(what).isCloseTo(exact, within(2e-8 * exact));
                assertThat(f.extrapolated()).isFalse();
                double mach2 = 2 / (k - 1) * (Math.pow(b, (1 - k) / k) - 1);
                if (b > critical * 1.001) {
                    assertThat(f.choked()).as(what).isFalse();
                    assertThat(f.throatPressure()).as(what).isEqualTo(b * p0);
                    assertThat(f.machSquared()).as(what).isCloseTo(mach2, within(1e-6));
                    double step = 1e-5 * p0;
                    double slope = (flux(p0, up.density(), k, b + 1e-5) * nearRest(p0, b * p0 + step)
                                    - flux(p0, up.density(), k, b - 1e-5) * nearRest(p0, b * p0 - step))
                            / (2 * step);
                    assertThat(f.slope()).as(what).isCloseTo(slope, within(1e-4 * Math.abs(slope) + 1e-9));
                } else if (b < critical * 0.999) {
                    assertThat(f.choked()).as(what).isTrue();
                    assertThat(f.throatPressure() / p0).as(what).isCloseTo(critical, within(2e-5));
                    // The regularisation's own slope is all that is left.
                    assertThat(f.slope()).as(what).isCloseTo(0, within(1e-9 * exact / p0));
                    if (b < 0.79 * critical) {
                        assertThat(f.machSquared()).as(what).isInfinite();
                    } else if (b > 0.81 * critical) {
                        assertThat(f.machSquared()).as(what).isCloseTo(mach2, within(1e-6));
                    }
                }
            }
        }
    }

    @Test
    void aboutTheChokeOfAPerfectGasFluxAndSlopeGoOver() {
        for (double k : new double[] {1.2, 1.4, 5.0 / 3}) {
            PerfectGas gas = new PerfectGas("gas", 300, k, 1.8e-5);
            double p0 = 2e6;
            FluidState up = gas.atPressureTemperature(p0, 350);
            double critical = Math.pow(2 / (k + 1), k / (k - 1));
            for (double away : new double[] {-3e-3, -1e-3, -2e-4, -1e-5, 0, 1e-5, 2e-4, 1e-3, 3e-3}) {
                double b = critical * (1 + away);
                String what = "k " + k + " " + away;
                Throttle.Flux f = Throttle.flux(up, b * p0, EVEN);
                double exact = flux(p0, up.density(), k, b);
                assertThat(f.flux()).as(what).isCloseTo(exact, within(2e-8 * exact));
                assertThat(f.throatPressure()).as(what).isCloseTo(Math.max(b, critical) * p0, within(3e-5 * p0));
                double mach2 = 2 / (k - 1) * (Math.pow(b, (1 - k) / k) - 1);
                assertThat(f.machSquared()).as(what).isCloseTo(mach2, within(1e-5));
                // d(rho u)/dp = (M^2 - 1) / u up to the choke, nothing behind it
                double u = exact / (up.density() * Math.pow(Math.max(b, critical), 1 / k));
                double slope = Math.min(0, (mach2 - 1) / u);
                assertThat(f.slope()).as(what).isCloseTo(slope, within(2e-5 / u));
                if (away < -1e-4 || away > 1e-4) {
                    assertThat(f.choked()).as(what).isEqualTo(away < 0);
                }
                assertThat(f.extrapolated()).as(what).isFalse();
            }
        }
    }

    @Test
    void ofAStiffLiquid() {
        StiffLiquid water = StiffLiquid.WATER;
        double p0 = 4e6;
        FluidState up = water.atPressureTemperature(p0, 300);
        double raised = p0 + 1e9;
        for (double b = 0.02; b < 0.9999; b += 0.0371) {
            Throttle.Flux f = Throttle.flux(up, b * p0, EVEN);
            double ratio = (b * p0 + 1e9) / raised;
            double exact = flux(raised, up.density(), 2.35, ratio) * nearRest(p0, b * p0);
            assertThat(f.flux()).as("to %s", b).isCloseTo(exact, within(1e-8 * exact));
            assertThat(f.choked()).isFalse();
            double step = 1e-5 * p0;
            double slope =
                    (flux(raised, up.density(), 2.35, (b * p0 + step + 1e9) / raised) * nearRest(p0, b * p0 + step)
                                    - flux(raised, up.density(), 2.35, (b * p0 - step + 1e9) / raised)
                                            * nearRest(p0, b * p0 - step))
                            / (2 * step);
            assertThat(f.slope()).as("to %s", b).isCloseTo(slope, within(1e-4 * Math.abs(slope)));
            double mach2 = 2 / 1.35 * (Math.pow(ratio, -1.35 / 2.35) - 1);
            assertThat(f.machSquared()).as("to %s", b).isCloseTo(mach2, within(1e-6 * mach2));
        }
    }

    @Test
    void nearRestTheSquareRootIsRounded() {
        double[] drops = {1e-9, 1e-7, 3e-6, 9e-6, 1.1e-5, 1e-4, 1e-3, 1e-2};
        PerfectGas gas = new PerfectGas("gas", 300, 1.4, 1.8e-5);
        FluidState[] starts = {
            gas.atPressureTemperature(2e6, 350),
            StiffLiquid.WATER.atPressureTemperature(2e6, 300),
            ENGINE.pure("nitrogen").atPressureTemperature(3e6, 300),
            ENGINE.pure("oxygen").atPressureTemperature(2.6e6, 97),
            ENGINE.pure("oxygen").atTemperatureQuality(110, 0.2),
            ENGINE.pure("oxygen").atTemperatureQuality(110, 0)
        };
        for (FluidState up : starts) {
            double p0 = up.pressure();
            assertThat(Throttle.slopeAtRest(up))
                    .isCloseTo(Math.sqrt(2 * up.density() / (1e-5 * p0)), within(1e-9 * Throttle.slopeAtRest(up)));
            for (double drop : drops) {
                FluidState later = up.fluid().atPressureEntropy(0.999 * p0, up.entropy());
                if (later.phase() == Phase.TWO_PHASE && drop > 1e-5) {
                    // its volume grows faster than the first slope says
                    continue;
                }
                double dp = drop * p0;
                // To second order in dp: rho sqrt(2 dp v) with the mean volume over that at the end.
                double z = up.density() * up.soundSpeed();
                double v0 = 1 / up.density();
                double v = v0 + dp / (z * z);
                double exact = Math.sqrt(2 * dp * 0.5 * (v0 + v)) / v * nearRest(p0, p0 - dp);
                Throttle.Flux f = Throttle.flux(up, p0 - dp, EVEN);
                String what = up.fluid().name() + " " + up.phase() + " " + drop;
                assertThat(f.flux()).as(what).isCloseTo(exact, within((2 * drop * drop + 1e-4) * exact));
                assertThat(f.choked()).as(what).isFalse();
                assertThat(f.throatPressure()).as(what).isCloseTo(p0 - dp, within(1e-9 * p0));
                if (drop < 1e-5) {
                    double step = 0.01 * dp;
                    double slope = (Throttle.flux(up, p0 - dp + step, EVEN).flux()
                                    - Throttle.flux(up, p0 - dp - step, EVEN).flux())
                            / (2 * step);
                    assertThat(f.slope()).as(what).isCloseTo(slope, within(2e-3 * Math.abs(slope)));
                    assertThat(f.machSquared())
                            .as(what)
                            .isCloseTo(
                                    2 * dp * v0 / (up.soundSpeed() * up.soundSpeed()), within(1e-4 * f.machSquared()));
                }
            }
            Throttle.Flux none = Throttle.flux(up, p0, EVEN);
            assertThat(none.flux()).isZero();
            assertThat(none.throatPressure()).isEqualTo(p0);
            assertThat(none.slope()).isEqualTo(-Throttle.slopeAtRest(up));
            assertThat(Throttle.flux(up, 1.1 * p0, EVEN).flux()).isZero();
            assertThat(Throttle.flux(up, 1.1 * p0, EVEN).choked()).isFalse();
        }
    }

    @Test
    void nearRestAPerfectGasExpandsAsItDoesFurtherOn() {
        for (double k : new double[] {1.1, 1.4, 5.0 / 3}) {
            PerfectGas gas = new PerfectGas("gas", 300, k, 1.8e-5);
            FluidState up = gas.atPressureTemperature(2e6, 350);
            for (double drop : new double[] {1e-6, 5e-6, 9.9e-6, 1.1e-5, 1e-4}) {
                double down = 2e6 * (1 - drop);
                double share = 1 - down / 2e6;
                double log = Math.log1p(-share);
                double u = Math.sqrt(-2 * gas.heatCapacity() * 350 * Math.expm1(log * (k - 1) / k));
                double exact = up.density() * Math.exp(log / k) * u * nearRest(2e6, down);
                double flux = Throttle.flux(up, down, EVEN).flux();
                assertThat(flux).as("k %s drop %s", k, drop).isCloseTo(exact, within(2e-9 * exact));
            }
        }
        StiffLiquid soft = new StiffLiquid(4180, 2.35, 1e6, 1e-3);
        FluidState up = soft.atPressureTemperature(2e6, 300);
        for (double drop : new double[] {5e-6, 9.9e-6, 1e-4}) {
            double down = 2e6 * (1 - drop);
            double log = Math.log1p(-(2e6 - down) / 3e6);
            double u = Math.sqrt(-2 * 4180 * 300 * Math.expm1(log * 1.35 / 2.35));
            double exact = up.density() * Math.exp(log / 2.35) * u * nearRest(2e6, down);
            assertThat(Throttle.flux(up, down, EVEN).flux()).as("%s", drop).isCloseTo(exact, within(2e-9 * exact));
        }
    }

    private static double bare(FluidState up, double p) {
        FluidState at = up.fluid().atPressureEntropy(p, up.entropy());
        return at.density() * Math.sqrt(Math.max(0, 2 * (up.enthalpy() - at.enthalpy())));
    }

    /** Largest rho u on the isentrope down to each ratio, and where, by 2000 steps and the end itself. */
    private static double[][] walked(FluidState up, double[] ratios) {
        double p0 = up.pressure();
        int steps = 2000;
        double[] pressure = new double[steps];
        double[] flux = new double[steps];
        for (int i = 0; i < steps; i++) {
            pressure[i] = p0 * Math.pow(ratios[ratios.length - 1], (i + 1.0) / steps);
            flux[i] = bare(up, pressure[i]);
        }
        double[][] best = new double[ratios.length][];
        for (int k = 0; k < ratios.length; k++) {
            best[k] = new double[] {bare(up, ratios[k] * p0), ratios[k] * p0};
            for (int i = 0; i < steps && pressure[i] > ratios[k] * p0; i++) {
                if (flux[i] > best[k][0]) {
                    best[k] = new double[] {flux[i], pressure[i]};
                }
            }
        }
        return best;
    }

    private static FluidState real(String fluid, double pressure, double temperature) {
        return ENGINE.pure(fluid).atPressureTemperature(pressure, temperature);
    }

    @Test
    void ofRealFluidsThroughEveryRegion() {
        FluidState[] starts = {
            real("nitrogen", 3e6, 300), // gas
            real("nitrogen", 1e6, 108), // gas that condenses behind the throat or before it
            real("nitrogen", 5e6, 140), // supercritical, condenses
            real("nitrogen", 5e6, 130), // dense, enters the dome from above
            real("nitrogen", 4e6, 128),
            real("oxygen", 2.6e6, 97), // subcooled
            real("oxygen", 2.6e6, 132), // nearly boiling
            real("oxygen", 6e6, 160),
            real("methane", 6e6, 200),
            real("parahydrogen", 5e6, 40),
            ENGINE.pure("oxygen").atTemperatureQuality(120, 0.05),
            ENGINE.pure("oxygen").atTemperatureQuality(120, 0.9),
            ENGINE.pure("oxygen").atTemperatureQuality(110, 1)
        };
        for (FluidState up : starts) {
            double p0 = up.pressure();
            double[] ratios = {0.9, 0.75, 0.6, 0.45, 0.2, 0.05};
            double[][] walked = walked(up, ratios);
            for (int k = 0; k < ratios.length; k++) {
                double b = ratios[k];
                double[] exact = walked[k];
                String what =
                        up.fluid().name() + " " + up.phase() + " " + p0 + " Pa " + up.temperature() + " K to " + b;
                Throttle.Flux f = Throttle.flux(up, b * p0, EVEN);
                assertThat(f.flux() / exact[0]).as(what).isCloseTo(1, within(1e-3));
                if (f.choked()) {
                    assertThat(f.throatPressure()).as(what).isGreaterThan(b * p0);
                    // the maximum is flat: its place is known less well
                    assertThat(f.throatPressure() / exact[1]).as(what).isCloseTo(1, within(0.02));
                } else {
                    assertThat(f.throatPressure()).as(what).isCloseTo(b * p0, within(1e-9 * p0));
                    double step = 2e-4 * b * p0;
                    double slope = (Throttle.flux(up, b * p0 + step, EVEN).flux()
                                    - Throttle.flux(up, b * p0 - step, EVEN).flux())
                            / (2 * step);
                    assertThat(f.slope())
                            .as(what)
                            .isCloseTo(slope, within(0.05 * Math.abs(slope) + 0.02 * f.flux() / p0));
                }
                assertThat(f.extrapolated()).as(what).isFalse();
            }
        }
    }

    @Test
    void aFrozenLiquidGoesOnWithTheCompressibilityOfItsSaturation() {
        PureFluid oxygen = ENGINE.pure("oxygen");
        FluidState up = oxygen.atPressureTemperature(2.6e6, 120);
        // saturated liquid of the same entropy
        double low = 100;
        double high = 120;
        for (int i = 0; i < 60; i++) {
            double t = 0.5 * (low + high);
            if (oxygen.atTemperatureQuality(t, 0).entropy() < up.entropy()) {
                low = t;
            } else {
                high = t;
            }
        }
        FluidState edge = oxygen.atTemperatureQuality(low, 0);
        for (double down : new double[] {8e5, 4e5, 1e5}) {
            double dp = edge.pressure() - down;
            double z = edge.density() * edge.soundSpeed();
            double liquidSound =
                    oxygen.atPressureTemperature(edge.pressure() * 1.0001, low).soundSpeed();
            z = edge.density() * liquidSound;
            double v = 1 / edge.density() + dp / (z * z);
            double u2 = 2 * (up.enthalpy() - edge.enthalpy() + dp * 0.5 * (1 / edge.density() + v));
            Throttle.Flux f = Throttle.flux(up, down, Throttle.Flashing.FROZEN);
            assertThat(f.flux()).isCloseTo(Math.sqrt(u2) / v, within(1e-4 * f.flux()));
            assertThat(f.choked()).isFalse();
            assertThat(f.throatPressure()).isEqualTo(down);
            double slope =
                    (Throttle.flux(up, down * 1.001, Throttle.Flashing.FROZEN).flux()
                                    - Throttle.flux(up, down * 0.999, Throttle.Flashing.FROZEN)
                                            .flux())
                            / (0.002 * down);
            assertThat(f.slope()).isCloseTo(slope, within(1e-4 * Math.abs(slope)));
        }
    }

    @Test
    void aFrozenMixtureExpandsItsVapourAlone() {
        PureFluid oxygen = ENGINE.pure("oxygen");
        for (double quality : new double[] {0.02, 0.2, 0.8}) {
            FluidState up = oxygen.atTemperatureQuality(110, quality);
            double p0 = up.pressure();
            double vapour =
                    Math.min(quality * 8.31446261815324 * 110 / (p0 * oxygen.molarMass()), 0.999 / up.density());
            double liquid = 1 / up.density() - vapour;
            double best = 0;
            double where = p0;
            double down = 0.1 * p0;
            for (int i = 1; i <= 20000; i++) {
                double p = p0 * (1 - 0.9 * i / 20000);
                double r = p / p0;
                double u2 = 2 * p0 * (liquid * (1 - r) + vapour * (1 - Math.pow(r, 1 - 1 / 1.2)) / (1 - 1 / 1.2));
                double flux = Math.sqrt(u2) / (liquid + vapour * Math.pow(r, -1 / 1.2));
                if (flux > best) {
                    best = flux;
                    where = p;
                }
            }
            Throttle.Flux f = Throttle.flux(up, down, Throttle.Flashing.FROZEN);
            assertThat(f.flux()).isCloseTo(best, within(1e-6 * best));
            assertThat(f.choked()).isTrue();
            assertThat(f.throatPressure()).isCloseTo(where, within(0.01 * where));
            // above the throat it is not choked, and its slope the curve's
            double high = 0.5 * (where + p0);
            Throttle.Flux open = Throttle.flux(up, high, Throttle.Flashing.FROZEN);
            assertThat(open.choked()).isFalse();
            assertThat(open.throatPressure()).isEqualTo(high);
            double slope =
                    (Throttle.flux(up, high * 1.001, Throttle.Flashing.FROZEN).flux()
                                    - Throttle.flux(up, high * 0.999, Throttle.Flashing.FROZEN)
                                            .flux())
                            / (0.002 * high);
            assertThat(open.slope()).isCloseTo(slope, within(1e-3 * Math.abs(slope)));
        }
    }

    /** The larger flux of v_f + min(1, x/0.14) (v - v_f), its corner rounded as the jet's, by steps of the integral. */
    private static double[] retarded(FluidState up, FluidState edge, double edgeDrop, double down) {
        double v0 = 1 / edge.density();
        double z = edge.density() * edge.soundSpeed();
        boolean liquid = up != edge;
        double vapour = liquid
                ? 0
                : Math.min(
                        up.quality()
                                * 8.31446261815324
                                * up.temperature()
                                / (up.pressure() * up.fluid().molarMass()),
                        0.999 / up.density());
        int steps = 4000;
        double energy = edgeDrop;
        double last = v0;
        double pLast = edge.pressure();
        double best = 0;
        double where = pLast;
        for (int i = 1; i <= steps; i++) {
            double p = edge.pressure() * Math.pow(down / edge.pressure(), (double) i / steps);
            FluidState at = up.fluid().atPressureEntropy(p, up.entropy());
            double unflashed = v0
                    + (liquid ? (edge.pressure() - p) / (z * z) : 0)
                    + vapour * (Math.pow(p / edge.pressure(), -1 / 1.2) - 1);
            double x = at.quality() / 0.14;
            double share = x <= 0.9 ? x : x >= 1.1 ? 1 : x - (x - 0.9) * (x - 0.9) / 0.4;
            double v = unflashed + share * Math.max(0, 1 / at.density() - unflashed);
            energy += 0.5 * (v + last) * (pLast - p);
            double flux = Math.sqrt(2 * energy) / v;
            if (flux > best) {
                best = flux;
                where = p;
            }
            last = v;
            pLast = p;
        }
        return new double[] {best, where};
    }

    @Test
    void retardedVapourCountsByItsShare() {
        PureFluid oxygen = ENGINE.pure("oxygen");
        FluidState up = oxygen.atPressureTemperature(2.6e6, 120);
        double low = 0.2e6;
        double high = 2.6e6;
        for (int i = 0; i < 60; i++) {
            double p = 0.5 * (low + high);
            if (oxygen.atPressureEntropy(p, up.entropy()).phase() == Phase.TWO_PHASE) {
                low = p;
            } else {
                high = p;
            }
        }
        FluidState edge = oxygen.atPressureEntropy(high, up.entropy());
        for (double b : new double[] {0.95, 0.7, 0.3, 0.1}) {
            double down = b * edge.pressure();
            double[] exact = retarded(up, edge, up.enthalpy() - edge.enthalpy(), down);
            Throttle.Flux f = Throttle.flux(up, down, Throttle.Flashing.RELAXED);
            assertThat(f.flux()).as("liquid to %s", b).isCloseTo(exact[0], within(2e-3 * exact[0]));
            assertThat(f.throatPressure()).as("liquid to %s", b).isCloseTo(exact[1], within(0.03 * exact[1]));
            assertThat(f.choked()).isEqualTo(exact[1] > down * 1.001);
            assertThat(f.extrapolated()).isFalse();
        }
        for (double quality : new double[] {0.01, 0.1, 0.5}) {
            FluidState wet = oxygen.atTemperatureQuality(110, quality);
            for (double b : new double[] {0.97, 0.9, 0.5, 0.1}) {
                double down = b * wet.pressure();
                double[] exact = retarded(wet, wet, 0, down);
                Throttle.Flux f = Throttle.flux(wet, down, Throttle.Flashing.RELAXED);
                assertThat(f.flux()).as("%s to %s", quality, b).isCloseTo(exact[0], within(5e-3 * exact[0]));
                assertThat(f.throatPressure()).as("%s to %s", quality, b).isCloseTo(exact[1], within(0.04 * exact[1]));
                if (!f.choked()) {
                    double slope = (Throttle.flux(wet, down * 1.001, Throttle.Flashing.RELAXED)
                                            .flux()
                                    - Throttle.flux(wet, down * 0.999, Throttle.Flashing.RELAXED)
                                            .flux())
                            / (0.002 * down);
                    assertThat(f.slope()).as("%s to %s", quality, b).isCloseTo(slope, within(0.02 * Math.abs(slope)));
                }
            }
        }
    }

    @Test
    void whereTheFluidGivesNoStateAPowerLawServesAndSaysSo() {
        PerfectGas air = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
        // No state below 0.99 p0 at all: the perfect-gas form with the upstream exponent.
        Fluid limited = new LimitedGas(air, 0.99e6);
        FluidState up = limited.atPressureTemperature(1e6, 300);
        for (double b : new double[] {0.9, 0.7, 0.4, 0.1}) {
            Throttle.Flux f = Throttle.flux(up, b * 1e6, EVEN);
            double exact = flux(1e6, up.density(), 1.4, b) * nearRest(1e6, b * 1e6);
            assertThat(f.flux()).isCloseTo(exact, within(1e-6 * exact));
            assertThat(f.extrapolated()).isTrue();
            assertThat(f.choked()).isEqualTo(b < 0.528);
            assertThat(f.throatPressure()).isCloseTo(1e6 * Math.max(b, 0.528282), within(10.0));
            // as sqrt(dp) goes, where it is open
            double slope = b < 0.528 ? 0 : -exact / (2 * (1 - b) * 1e6);
            assertThat(f.slope()).isCloseTo(slope, within(1e-4 * exact / 1e6));
            assertThat(f.machSquared()).isEqualTo(b < 0.528 ? Double.POSITIVE_INFINITY : 1);
        }
        // Below 0.4 p0 only: its throat is where it is, and the Mach number behind it follows the sonic point's slope.
        Fluid enough = new LimitedGas(air, 0.4e6);
        FluidState good = enough.atPressureTemperature(1e6, 300);
        Throttle.Flux choked = Throttle.flux(good, 1e5, EVEN);
        double exact = flux(1e6, good.density(), 1.4, 0.1);
        assertThat(choked.flux()).isCloseTo(exact, within(1e-6 * exact));
        assertThat(choked.choked()).isTrue();
        assertThat(choked.extrapolated()).isFalse();
        // To a pressure near its throat but below its range: M^2 follows from the slope at the throat.
        Fluid less = new LimitedGas(air, 0.5e6);
        Throttle.Flux near = Throttle.flux(less.atPressureTemperature(1e6, 300), 0.48e6, EVEN);
        assertThat(near.flux()).isCloseTo(exact, within(1e-6 * exact));
        assertThat(near.machSquared()).isCloseTo(5 * (Math.pow(0.48, -1 / 3.5) - 1), within(0.02));
        // Nothing below 0.6 p0, where it is not sonic yet: the throat is estimated from there, and that is said.
        for (double least : new double[] {0.56e6, 0.6e6, 0.7e6}) {
            Fluid short1 = new LimitedGas(air, least);
            FluidState start = short1.atPressureTemperature(1e6, 300);
            Throttle.Flux estimated = Throttle.flux(start, 1e5, EVEN);
            assertThat(estimated.flux()).isCloseTo(exact, within(0.02 * exact));
            assertThat(estimated.choked()).isTrue();
            assertThat(estimated.extrapolated()).as("%s", least).isTrue();
            assertThat(estimated.throatPressure()).isBetween(0.45e6, 0.6e6);
            // above its limit all is as ever
            Throttle.Flux open = Throttle.flux(start, 0.8e6, EVEN);
            double subsonic = flux(1e6, start.density(), 1.4, 0.8);
            assertThat(open.flux()).isCloseTo(subsonic, within(1e-6 * subsonic));
            assertThat(open.extrapolated()).isFalse();
        }
    }

    @Test
    void denseIsWhatIsDenserThanItsCriticalDensityAndOfOnePhase() {
        assertThat(Throttle.dense(real("oxygen", 2.6e6, 97))).isTrue();
        assertThat(Throttle.dense(real("oxygen", 2.6e6, 300))).isFalse();
        assertThat(Throttle.dense(ENGINE.pure("oxygen").atTemperatureQuality(110, 0.001)))
                .isFalse();
    }

    /**
     * A dense fluid that comes near its critical point on its way, where its compressibility grows many times over: the square of the
     * subcritical flux against 2 rho^2 times the drop of enthalpy that the equation of state gives.
     */
    @Test
    void ofDenseFluidsWhoseCompressibilityGrowsOnTheWay() {
        int steep = 0;
        for (String name : new String[] {"helium", "parahydrogen", "oxygen", "n-dodecane"}) {
            PureFluid fluid = ENGINE.pure(name);
            for (double p0 = 0.5e6; p0 < Math.min(60e6, fluid.publishedMaximumPressure()); p0 *= 2) {
                for (double t = 1.1 * fluid.tripleTemperature(); t < 1.3 * fluid.criticalTemperature(); t *= 1.1) {
                    FluidState up = state(fluid, p0, t);
                    for (double p = 0.9 * p0; up != null && p > 1e4; p *= 0.6) {
                        FluidState at = onIsentrope(fluid, p, up);
                        if (at == null) {
                            break;
                        }
                        Throttle.Flux f = Throttle.flux(up, p, EVEN);
                        if (f.choked() || f.extrapolated()) {
                            continue;
                        }
                        double bends = Math.pow(up.density() * up.soundSpeed() / (at.density() * at.soundSpeed()), 2);
                        steep += bends > 4 ? 1 : 0;
                        double exact = at.density() * Math.sqrt(2 * (up.enthalpy() - at.enthalpy())) * nearRest(p0, p);
                        assertThat(f.flux())
                                .as("%s %g Pa %g K to %g", name, p0, t, p)
                                .isCloseTo(exact, within(1e-3 * exact));
                    }
                }
            }
        }
        assertThat(steep).isGreaterThan(20);
    }

    /**
     * Above its critical pressure, where the squared Mach number of dodecane changes twice as fast along the way as a perfect gas's: the search for
     * the choke went to and fro until it gave up, and a perfect gas's flux, 29 % more, took its place.
     */
    @Test
    void aFluidThatPassesNearItsCriticalPointChokesByItsOwnStates() {
        PureFluid fluid = ENGINE.pure("n-dodecane");
        for (double p0 = 3.45e6; p0 < 3.66e6; p0 += 0.03e6) {
            double before = Double.NaN;
            for (double t = 697; t < 700; t += 0.05) {
                FluidState up = fluid.atPressureTemperature(p0, t);
                Throttle.Flux f = Throttle.flux(up, 2000, EVEN);
                assertThat(f.choked()).as("%s Pa, %s K", p0, t).isTrue();
                assertThat(f.extrapolated()).as("%s Pa, %s K", p0, t).isFalse();
                FluidState at = fluid.atPressureEntropy(f.throatPressure(), up.entropy());
                double exact = at.density() * Math.sqrt(2 * (up.enthalpy() - at.enthalpy()));
                assertThat(f.flux()).as("%s Pa, %s K", p0, t).isCloseTo(exact, within(1e-5 * exact));
                if (!Double.isNaN(before)) {
                    assertThat(f.flux() / before).as("%s Pa, %s K", p0, t).isBetween(0.999, 1.0);
                }
                before = f.flux();
            }
        }
    }

    /** A gas that is about to condense, and the same with the first liquid: neither the flux nor what the contraction goes by may jump. */
    @Test
    void mixturesPassTheSameOnEitherSideOfTheirDewLine() {
        Fluid fluid = WetLabyrinthTest.mixture("argon", "water", 0.03);
        for (double p0 : new double[] {2e4, 1e5, 1e6}) {
            double cold = 260;
            double warm = 450;
            while (warm - cold > 1e-9) {
                double t = (cold + warm) / 2;
                boolean wet = fluid.atPressureTemperature(p0, t).quality() < 1;
                cold = wet ? t : cold;
                warm = wet ? warm : t;
            }
            FluidState wet = fluid.atPressureTemperature(p0, cold - 1e-6);
            FluidState dry = fluid.atPressureTemperature(p0, warm + 1e-6);
            assertThat(wet.phase()).isEqualTo(Phase.TWO_PHASE);
            for (double ratio : new double[] {0.98, 0.8, 0.6, 0.4, 0.1}) {
                for (Throttle.Flashing flashing : new Throttle.Flashing[] {EVEN, Throttle.Flashing.RELAXED}) {
                    Throttle.Flux inside = Throttle.flux(wet, ratio * p0, flashing);
                    Throttle.Flux outside = Throttle.flux(dry, ratio * p0, flashing);
                    assertThat(inside.flux() / outside.flux())
                            .as("%s Pa, %s, %s", p0, ratio, flashing)
                            .isCloseTo(1, within(flashing == EVEN ? 1e-5 : 2e-4));
                    assertThat(inside.machSquared() / outside.machSquared())
                            .as("%s Pa, %s, %s", p0, ratio, flashing)
                            .isCloseTo(1, within(1e-4));
                }
            }
        }
    }

    /** The jet chokes where it meets the dome, whose sound speed is a fifth lower; no state was estimated for that. */
    @Test
    void aMixtureThatMeetsTheDomeNearItsChokePassesWhatItDidBefore() {
        Fluid fluid = WetLabyrinthTest.mixture("argon", "water", 0.028);
        FluidState up = fluid.atPressureTemperature(4545, 300);
        double flux = 0;
        double mach = 0;
        int choked = 0;
        for (double ratio = 0.9; ratio > 0.3; ratio -= 1e-3) {
            Throttle.Flux f = Throttle.flux(up, ratio * up.pressure(), Throttle.Flashing.RELAXED);
            assertThat(f.extrapolated()).as("%s", ratio).isFalse();
            assertThat(f.flux()).as("%s", ratio).isGreaterThanOrEqualTo(flux * (1 - 1e-6));
            assertThat(f.machSquared() - mach).as("%s", ratio).isBetween(0.0, mach == 0 ? 1 : 0.02);
            flux = f.flux();
            mach = f.machSquared();
            choked += f.choked() ? 1 : 0;
        }
        assertThat(choked).isGreaterThan(100);
    }

    private static FluidState state(PureFluid fluid, double p, double t) {
        try {
            FluidState s = fluid.atPressureTemperature(p, t);
            return s.density() > 1.5 * fluid.criticalDensity() ? s : null;
        } catch (PropertyException none) {
            return null;
        }
    }

    private static FluidState onIsentrope(PureFluid fluid, double p, FluidState up) {
        try {
            FluidState s = fluid.atPressureEntropy(p, up.entropy());
            return s.phase() != Phase.TWO_PHASE && s.density() > 1.5 * fluid.criticalDensity() ? s : null;
        } catch (PropertyException none) {
            return null;
        }
    }
}
