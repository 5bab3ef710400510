package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;

/**
 * What {@link FrictionSlot} answers is put into the equations of its Javadoc: the volume from the fluid itself by bisection, friction and
 * eccentricity written out again, the integral by Gauss-Legendre on many panels. Nothing is solved here.
 */
@DisplayName("A slot's answer satisfies inlet, duct and choke, worked out by other code")
class FrictionSlotTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final Throttle.Flashing EVEN = Throttle.Flashing.EQUILIBRIUM;
    private static final double[] POINT = {
        0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363
    };
    private static final double[] WEIGHT = {
        0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763
    };

    private static double churchill(double re, double roughness, double laminar) {
        double a = Math.pow(2.457 * Math.log(1 / (Math.pow(7 / re, 0.9) + 0.27 * roughness)), 16);
        double b = Math.pow(37530 / re, 16);
        return 8 * Math.pow(Math.pow(laminar / (8 * re), 12) + Math.pow(a + b, -1.5), 1.0 / 12);
    }

    private static double friction(FrictionSlot s, double flux, double volume, double mu) {
        double re = flux * s.hydraulicDiameter() / mu;
        double stretch = Math.hypot(1, 7.0 / 16 * s.surfaceSpeed() / (flux * volume));
        double f = stretch * churchill(re * stretch, s.roughness() / s.hydraulicDiameter(), s.laminar());
        double laminar = s.laminarEccentricity();
        double turbulent = Math.pow(s.turbulentEccentricity(), 1.75);
        double t = Math.max(0, Math.min(1, Math.log(re / 1000) / Math.log(4)));
        f /= laminar + t * t * (3 - 2 * t) * (turbulent - laminar);
        return f + s.otherLosses() * s.hydraulicDiameter() / s.length();
    }

    private static double volume(FluidState up, double pressure, double flux) {
        if (up.fluid() instanceof PerfectGas) {
            // h0 = k/(k - 1) p v + G^2 v^2 / 2
            double k = ((PerfectGas) up.fluid()).ratio();
            double b = k / (k - 1) * pressure;
            return 2 * up.enthalpy() / (b + Math.sqrt(b * b + 2 * flux * flux * up.enthalpy()));
        }
        Fluid fluid = up.fluid();
        double low = 0;
        double high = 1.0001 / fluid.atPressureEnthalpy(pressure, up.enthalpy()).density();
        double v = high;
        for (int i = 0; i < 200 && high - low > 1e-13 * high; i++) {
            double at = 1
                    / fluid.atPressureEnthalpy(pressure, up.enthalpy() - 0.5 * flux * flux * v * v)
                            .density();
            if (Math.abs(at - v) < 1e-14 * v) {
                break;
            }
            // The volume falls with the velocity: the answer lies between the guess and what it gives.
            low = Math.max(low, Math.min(at, v));
            high = Math.min(high, Math.max(at, v));
            v = 0.5 * (at + v);
            if (!(v > low && v < high)) {
                v = 0.5 * (low + high);
            }
        }
        return v;
    }

    /** Flux at a pressure and a velocity: that of the fluid whose enthalpy the velocity has left. */
    private static double flux(FluidState up, double pressure, double velocity) {
        return velocity
                * up.fluid()
                        .atPressureEnthalpy(pressure, up.enthalpy() - 0.5 * velocity * velocity)
                        .density();
    }

    /** At h0, as the path takes it. */
    private static double viscosity(FluidState up, double pressure) {
        Fluid fluid = up.fluid();
        return fluid.viscosity(fluid.atPressureEnthalpy(pressure, up.enthalpy()));
    }

    /** 1 + G^2 dv/dp along the duct. */
    private static double subsonic(FluidState up, double pressure, double flux) {
        double step = 1e-5;
        return 1
                + flux
                        * flux
                        * (volume(up, pressure * (1 + step), flux) - volume(up, pressure * (1 - step), flux))
                        / (2 * step * pressure);
    }

    /** Integral of (rho + G^2 d ln v / dp) / f over p from the exit to the inlet, over G^2 L / (2 Dh). */
    private static double driven(FrictionSlot s, FluidState up, FrictionSlot.Result r, int panels) {
        double width = Math.log(r.inletPressure() / r.exitPressure()) / panels;
        double sum = 0;
        double g = r.flux();
        for (int i = 0; i < panels; i++) {
            for (int j = 0; j < POINT.length; j++) {
                for (int side = -1; side <= 1; side += 2) {
                    double p = r.exitPressure() * Math.exp(width * (i + 0.5 + 0.5 * side * POINT[j]));
                    double v = volume(up, p, g);
                    double mu = up.fluid() instanceof PerfectGas ? up.fluid().viscosity(up) : viscosity(up, p);
                    double step = 1e-5;
                    double change =
                            Math.log(volume(up, p * (1 + step), g) / volume(up, p * (1 - step), g)) / (2 * step);
                    sum += 0.5 * width * WEIGHT[j] * (p / v + g * g * change) / friction(s, g, v, mu);
                }
            }
        }
        return sum / (g * g * s.length() / (2 * s.hydraulicDiameter()));
    }

    private static void holds(
            String what, FrictionSlot s, FluidState up, double down, int panels, double tolerance, double inlet) {
        FrictionSlot.Result r = s.solve(up, down, EVEN);
        double g = r.flux();
        double p1 = r.inletPressure();
        assertThat(g).as(what).isPositive().isFinite();
        // (1 + xi) u^2 / 2 = h0 - h(p1, s0), with the volume at h0 - u^2 / 2
        double u = g * volume(up, p1, g);
        double drop =
                up.enthalpy() - up.fluid().atPressureEntropy(p1, up.entropy()).enthalpy();
        assertThat((1 + s.inletLoss()) * u * u / 2).as(what + " inlet").isCloseTo(drop, within(inlet * drop));
        double sonic = subsonic(up, Math.max(r.exitPressure(), 1.0001 * down), g);
        if (r.choked()) {
            assertThat(r.exitPressure()).as(what).isGreaterThan(down);
        } else {
            assertThat(r.exitPressure()).as(what).isCloseTo(down, within(1e-9 * down));
            assertThat(sonic).as(what).isGreaterThan(-1e-3);
        }
        double driven = driven(s, up, r, panels);
        double lower = 0.999 * p1;
        double behind = Math.sqrt(2
                / (1 + s.inletLoss())
                * (up.enthalpy()
                        - up.fluid().atPressureEntropy(lower, up.entropy()).enthalpy()));
        double fluxBehind = flux(up, lower, behind);
        if (driven > 1 + tolerance) {
            // The inlet passes no more, at its own choke: a lower pressure behind it brings nothing.
            assertThat(fluxBehind).as(what + " driven " + driven).isLessThanOrEqualTo(g * (1 + 1e-6));
            assertThat(r.choked()).as(what).isTrue();
        } else {
            assertThat(driven).as(what).isCloseTo(1, within(tolerance));
        }
        double mu = up.fluid().viscosity(up);
        assertThat(r.reynolds()).as(what).isCloseTo(g * s.hydraulicDiameter() / mu, within(1e-9 * r.reynolds()));
        double volume = volume(up, r.exitPressure(), g);
        assertThat(r.exitVolume()).as(what).isCloseTo(volume, within(Math.max(1e-9, tolerance) * volume));
        double middle = 0.5 * (r.inletPressure() + r.exitPressure());
        double mean = volume(up, middle, g);
        assertThat(r.meanDensity() * mean).as(what).isCloseTo(1, within(Math.max(1e-9, tolerance)));
        assertThat(r.extrapolated()).isFalse();
    }

    @Test
    void ofAPerfectGasToEightDigits() {
        SplittableRandom random = new SplittableRandom(12);
        int choked = 0;
        for (int i = 0; i < 150; i++) {
            PerfectGas gas =
                    new PerfectGas("gas", 200 + 3000 * random.nextDouble(), 1.1 + 0.56 * random.nextDouble(), 1.9e-5);
            double gap = 5e-6 * Math.pow(100, random.nextDouble());
            double eccentricity = random.nextInt(3) == 0 ? 0 : random.nextDouble();
            FrictionSlot s = new FrictionSlot(
                    2 * gap,
                    gap * 10 * Math.pow(100, random.nextDouble()),
                    random.nextBoolean() ? Friction.SLOT : Friction.PIPE,
                    random.nextInt(3) == 0 ? 0 : 0.01 * gap,
                    random.nextDouble(),
                    random.nextInt(3) == 0 ? 3 * random.nextDouble() : 0,
                    random.nextInt(3) == 0 ? 200 * random.nextDouble() : 0,
                    FrictionSlot.laminarFactor(eccentricity),
                    FrictionSlot.turbulentFactor(eccentricity));
            FluidState up = gas.atPressureTemperature(1e5 * Math.pow(100, random.nextDouble()), 300);
            double down = up.pressure() * (0.02 + 0.97 * random.nextDouble());
            String what = s + " " + up.pressure() + " " + down + " " + gas;
            holds(what, s, up, down, 30, 2e-7, 1e-9);
            FrictionSlot.Result r = s.solve(up, down, EVEN);
            if (r.choked()) {
                choked++;
                // of a perfect gas the sonic function is 1 - (M... )^2: zero at the exit
                assertThat(subsonic(up, r.exitPressure(), r.flux())).as(what).isCloseTo(0, within(1e-4));
            }
            assertThat(r.flashed()).isFalse();
            assertThat(r.meanViscosity()).isEqualTo(1.9e-5);
        }
        assertThat(choked).isBetween(10, 140);
    }

    @Test
    void ofALiquidThatHardlyGivesWay() {
        SplittableRandom random = new SplittableRandom(14);
        for (int i = 0; i < 60; i++) {
            double gap = 10e-6 * Math.pow(30, random.nextDouble());
            double eccentricity = random.nextInt(3) == 0 ? 0 : random.nextDouble();
            FrictionSlot s = new FrictionSlot(
                    2 * gap,
                    gap * 10 * Math.pow(100, random.nextDouble()),
                    Friction.SLOT,
                    random.nextInt(3) == 0 ? 0 : 0.01 * gap,
                    random.nextDouble(),
                    random.nextInt(3) == 0 ? 3 * random.nextDouble() : 0,
                    random.nextInt(3) == 0 ? 50 * random.nextDouble() : 0,
                    FrictionSlot.laminarFactor(eccentricity),
                    FrictionSlot.turbulentFactor(eccentricity));
            FluidState up = StiffLiquid.WATER.atPressureTemperature(1e6 * Math.pow(10, random.nextDouble()), 293);
            double down = up.pressure() * (0.05 + 0.9 * random.nextDouble());
            holds(s + " " + up.pressure() + " " + down, s, up, down, 12, 1e-5, 2e-3);
        }
    }

    /** The inlet's isentrope is taken with one exponent: of a real fluid the inlet holds to that. */
    private static void real(
            String fluid, double p, double t, double down, double gap, double length, double tolerance) {
        FluidState up = ENGINE.pure(fluid).atPressureTemperature(p, t);
        holds(fluid + " " + p + " " + t, FrictionSlot.still(gap, length, 0.3), up, down, 8, tolerance, 0.02);
    }

    @Test
    void ofRealGasesAndLiquids() {
        real("nitrogen", 3e6, 300, 1e6, 30e-6, 5e-3, 1e-3);
        real("nitrogen", 3e6, 300, 1e5, 30e-6, 5e-3, 1e-3);
        real("helium", 20e6, 290, 5e6, 20e-6, 10e-3, 1e-3);
        real("helium", 20e6, 290, 1e6, 100e-6, 2e-3, 1e-3);
        real("oxygen", 2.6e6, 97, 1e6, 30e-6, 5e-3, 1e-4);
        real("parahydrogen", 2e6, 22, 1e6, 30e-6, 5e-3, 1e-3);
        real("nitrogen", 3e6, 150, 1e6, 30e-6, 5e-3, 2e-3);
        real("methane", 5e6, 300, 1e6, 50e-6, 5e-3, 1e-2);
    }

    /** Two liquids that boil one after the other, and a liquid with gas in it: the path is in pieces, its corners where a phase begins. */
    @Test
    void ofMixtures() {
        String[] first = {"oxygen", "methane", "oxygen", "nitrogen"};
        String[] second = {"nitrogen", "nitrogen", "helium", "helium"};
        double[] share = {0.2, 0.05, 0.01, 0.3};
        double[] temperature = {105, 125, 100, 90};
        for (int i = 0; i < first.length; i++) {
            FluidState up = ENGINE.mixer(List.of(
                            new StreamDefinition.Single(first[i], first[i]),
                            new StreamDefinition.Single(second[i], second[i])))
                    .mix(new double[] {1 - share[i], share[i]})
                    .atPressureTemperature(2.6e6, temperature[i]);
            for (double down : new double[] {1e5, 1.8e6}) {
                double gap = 100e-6;
                FrictionSlot s = FrictionSlot.still(gap, 5e-3, 0.3);
                FrictionSlot.Result r = s.solve(up, down, EVEN);
                String what = up + " " + gap + " " + down;
                // panels as coarse as these meet the corners within 2 %
                assertThat(driven(s, up, r, 25)).as(what).isCloseTo(1, within(2e-2));
                if (r.choked()) {
                    assertThat(r.exitPressure()).as(what).isGreaterThan(down);
                } else {
                    assertThat(r.exitPressure()).as(what).isCloseTo(down, within(1e-9 * down));
                    assertThat(subsonic(up, 1.0001 * down, r.flux())).as(what).isGreaterThan(-1e-2);
                }
            }
        }
    }

    @Test
    void ofWhatFlashes() {
        // Where the wet part begins the integrand has a corner: panels by the hundred.
        for (double gap : new double[] {20e-6, 100e-6}) {
            FluidState up = ENGINE.pure("oxygen").atPressureTemperature(2.6e6, 120);
            FrictionSlot s = FrictionSlot.still(gap, 5e-3, 0.3);
            FrictionSlot.Result r = s.solve(up, 2e5, EVEN);
            assertThat(r.choked()).isTrue();
            assertThat(driven(s, up, r, 60)).isCloseTo(1, within(5e-3));
            FluidState wet = ENGINE.pure("oxygen").atTemperatureQuality(120, 0.1);
            FrictionSlot.Result w = s.solve(wet, 4e5, EVEN);
            assertThat(driven(s, wet, w, 20)).isCloseTo(1, within(5e-3));
            assertThat(w.flashed()).isFalse();
        }
    }

    /** Hot kerosene, whose dew line leans over: its path ends as gas. */
    @Test
    void ofALiquidThatFlashesAndDriesAgain() {
        double[][] starts = {{1.7655e6, 640.5, 6.8e5}, {1.2e6, 600, 1.5e5}, {4e6, 620, 3e5}};
        for (double[] start : starts) {
            FluidState up = ENGINE.pure("n-dodecane").atPressureTemperature(start[0], start[1]);
            for (FrictionSlot s :
                    new FrictionSlot[] {FrictionSlot.still(5.9e-4, 7.7e-3, 0.5), FrictionSlot.still(2e-5, 5e-2, 0.5)}) {
                FrictionSlot.Result r = s.solve(up, start[2], EVEN);
                assertThat(driven(s, up, r, 60)).as(start[0] + " Pa").isCloseTo(1, within(1e-2));
            }
        }
    }

    /**
     * A hot liquid is 0.05 stiff by its exponent where it has just begun to flash. By that power its volume grew beyond all measure farther down, and with
     * it what its inlet seemed to pass: 1e12 kg/(m2 s), if a search came there.
     */
    @Test
    void farBelowTheDomesEdgeNoMoreFlowsThanTheLiquidCould() {
        SplittableRandom random = new SplittableRandom(7);
        for (String name : new String[] {"n-dodecane", "water", "ethanol"}) {
            PureFluid fluid = ENGINE.pure(name);
            for (int i = 0; i < 200; i++) {
                double p = fluid.criticalPressure() * Math.pow(10, random.nextDouble() - 0.5);
                FluidState up = fluid.atPressureTemperature(
                        p, fluid.criticalTemperature() * (0.78 + 0.12 * random.nextDouble()));
                double down = p * 0.01 * Math.pow(12, random.nextDouble());
                FrictionSlot s = FrictionSlot.still(
                        1e-5 * Math.pow(30, random.nextDouble()), 1e-3 * Math.pow(30, random.nextDouble()), 0.5);
                if (Throttle.dense(up)) {
                    assertThat(s.solve(up, down, EVEN).flux())
                            .as("%s %g %g", name, p, down)
                            .isBetween(0.0, Math.sqrt(2 * up.density() * (p - down)));
                }
            }
        }
    }

    @Test
    void aLiquidAtItsBoilingPointPassesWhatOneALittleAboveDoes() {
        for (String name : new String[] {"oxygen", "parahydrogen", "methane"}) {
            PureFluid fluid = ENGINE.pure(name);
            double t = 0.8 * fluid.criticalTemperature();
            FrictionSlot s = FrictionSlot.still(30e-6, 5e-3, 0.3);
            double last = Double.NaN;
            for (double over : new double[] {1e-4, 1e-5, 3e-6, 1e-6, 3e-7, 1e-7, 3e-8}) {
                FluidState up = fluid.atPressureTemperature(fluid.saturationPressure(t) * (1 + over), t);
                double flux = s.solve(up, 0.2 * up.pressure(), EVEN).flux();
                assertThat(flux).as(name + " " + over).isPositive();
                if (!Double.isNaN(last)) {
                    assertThat(flux).as(name + " " + over).isCloseTo(last, within(2e-4 * last));
                }
                last = flux;
            }
        }
    }

    /** Through a way so long that it ends far below the dome's edge without a choke: what is dense and no plain liquid, too. */
    @Test
    void ofADenseFluidThatEntersTheDomeNearTheCriticalPoint() {
        double[][] starts = {{5e6, 130}, {4e6, 128}, {3.6e6, 126.5}};
        for (double[] start : starts) {
            FluidState up = ENGINE.pure("nitrogen").atPressureTemperature(start[0], start[1]);
            FrictionSlot s = FrictionSlot.still(30e-6, 0.5, 0.3);
            FrictionSlot.Result r = s.solve(up, 1e6, EVEN);
            assertThat(r.choked()).isFalse();
            assertThat(driven(s, up, r, 60)).as(start[0] + " Pa").isCloseTo(1, within(1e-2));
        }
    }

    /** A gas whose path crosses the dome: the sound speed drops at its edge, where a fast flow ends. */
    @Test
    void ofAGasThatCondensesOnItsWay() {
        FluidState up = ENGINE.pure("nitrogen").atPressureTemperature(5e6, 140);
        SlotPath path = new SlotPath();
        path.set(up, 1e5, EVEN);
        double edge = path.edge();
        assertThat(edge).isBetween(2.5e6, 2.8e6);
        int open = 0;
        int inside = 0;
        for (double length : new double[] {1e-3, 5e-3, 50e-3, 500e-3}) {
            double last = 0;
            for (double back : new double[] {3.5e6, 2.2e6, 1e6, 1e5}) {
                FrictionSlot s = FrictionSlot.still(30e-6, length, 0.3);
                FrictionSlot.Result r = s.solve(up, back, EVEN);
                String what = length + " m to " + back;
                assertThat(r.flux()).as(what).isGreaterThanOrEqualTo(last * (1 - 1e-4));
                last = r.flux();
                // The gas stays dry up to the edge of its line at rest, however fast it is: the path's own volumes
                // serve here.
                path.set(up, back, EVEN);
                double whole = r.exitPressure() < edge
                        ? along(path, s, r.flux(), r.exitPressure(), edge * (1 - 1e-9))
                                + along(path, s, r.flux(), edge, r.inletPressure())
                        : along(path, s, r.flux(), r.exitPressure(), r.inletPressure());
                assertThat(whole).as(what).isCloseTo(1, within(1e-4));
                if (r.exitPressure() < edge * (1 - 1e-3)) {
                    inside++;
                }
                if (!r.choked()) {
                    open++;
                    assertThat(r.exitPressure()).as(what).isCloseTo(back, within(1e-9 * back));
                    path.at(r.exitPressure(), r.flux());
                    assertThat(1 + r.flux() * r.flux() * path.slope).as(what).isGreaterThan(-0.01);
                } else {
                    // subsonic ahead of its exit, sonic or beyond behind it
                    path.at(r.exitPressure() * 1.01, r.flux());
                    assertThat(1 + r.flux() * r.flux() * path.slope).as(what).isPositive();
                    path.at(r.exitPressure() * 0.99, r.flux());
                    assertThat(1 + r.flux() * r.flux() * path.slope).as(what).isNegative();
                }
            }
        }
        assertThat(open).isGreaterThan(4);
        assertThat(inside).isGreaterThan(3);
    }

    /** As {@link #driven}, the volumes from a path. */
    private static double along(SlotPath path, FrictionSlot s, double g, double from, double to) {
        int steps = 3000;
        double width = Math.log(to / from) / steps;
        double sum = 0;
        for (int i = 0; i < steps; i++) {
            double p = from * Math.exp(width * (i + 0.5));
            path.at(p, g);
            double change = p * path.slope / path.volume;
            sum += width * (p / path.volume + g * g * change) / friction(s, g, path.volume, path.viscosity(p));
        }
        return sum / (g * g * s.length() / (2 * s.hydraulicDiameter()));
    }

    @Test
    void frozenItPassesMoreThanInEquilibriumAndAsALiquid() {
        FluidState up = ENGINE.pure("oxygen").atPressureTemperature(2.6e6, 120);
        FrictionSlot s = FrictionSlot.still(30e-6, 5e-3, 0.3);
        FrictionSlot.Result frozen = s.solve(up, 2e5, Throttle.Flashing.FROZEN);
        FrictionSlot.Result even = s.solve(up, 2e5, EVEN);
        assertThat(frozen.flux()).isGreaterThan(1.05 * even.flux());
        assertThat(frozen.choked()).isFalse();
        assertThat(frozen.flashed()).isFalse();
        // incompressible: dp = (1 + xi + f L / Dh) G^2 / (2 rho)
        double g = frozen.flux();
        double f = churchill(g * 60e-6 / up.fluid().viscosity(up), 0, 96);
        double heads = 1.3 + f * 5e-3 / 60e-6;
        assertThat(heads * g * g / (2 * up.density())).isCloseTo(2.4e6, within(0.02 * 2.4e6));
    }

    @Test
    void nearTheChokeByFlashingTheExitIsRounded() {
        FluidState up = ENGINE.pure("oxygen").atPressureTemperature(2.6e6, 120);
        FrictionSlot s = FrictionSlot.still(30e-6, 5e-3, 0.3);
        double sonic = s.solve(up, 3e5, EVEN).exitPressure();
        double d = 0.01 * sonic;
        for (double share : new double[] {-0.9, -0.5, 0, 0.5, 0.9}) {
            FrictionSlot.Result r = s.solve(up, sonic + share * d, EVEN);
            double expected = sonic + (share * d + d) * (share * d + d) / (4 * d);
            assertThat(r.exitPressure()).as("%s", share).isCloseTo(expected, within(2e-5 * sonic));
        }
        FrictionSlot.Result above = s.solve(up, sonic + 1.1 * d, EVEN);
        assertThat(above.exitPressure()).isCloseTo(sonic + 1.1 * d, within(1e-6 * sonic));
        assertThat(above.choked()).isFalse();
        FrictionSlot.Result below = s.solve(up, sonic - 1.1 * d, EVEN);
        assertThat(below.exitPressure()).isCloseTo(sonic, within(2e-5 * sonic));
        assertThat(below.choked()).isTrue();
    }

    @Test
    void atRestTheSlopeIsTheLaminarOneOrThatOfAFilmKeptTurbulent() {
        PerfectGas gas = new PerfectGas("nitrogen", 296.80, 1.4, 1.78e-5);
        FluidState up = gas.atPressureTemperature(1e6, 300);
        double e = 0.6;
        FrictionSlot still = new FrictionSlot(40e-6, 5e-3, 96, 0, 0.3, 0, 0, 1 + 1.5 * e * e, 1.1);
        double laminar = (1 + 1.5 * e * e) * 2 * 40e-6 * 40e-6 * up.density() / (96 * 1.78e-5 * 5e-3);
        assertThat(still.slopeAtRest(up)).isCloseTo(laminar, within(1e-12 * laminar));
        FrictionSlot turning = new FrictionSlot(400e-6, 5e-3, 96, 1e-6, 0.3, 0, 150, 1, 1);
        double swirl = 7.0 / 16 * 150;
        double re = up.density() * swirl * 400e-6 / 1.78e-5;
        // f(Re) with the swirl's velocity, over the axial one that vanishes: dp/L = f rho swirl U / (2 Dh)
        double slope = 2 * 400e-6 / (churchill(re, 1e-6 / 400e-6, 96) * swirl * 5e-3);
        assertThat(turning.slopeAtRest(up)).isCloseTo(slope, within(1e-9 * slope));
        for (FrictionSlot s : new FrictionSlot[] {still, turning}) {
            double dp = 0.5e-7 * 1e6;
            FrictionSlot.Result r = s.solve(up, 1e6 - dp, EVEN);
            assertThat(r.flux()).isCloseTo(s.slopeAtRest(up) * dp, within(1e-9 * r.flux()));
            assertThat(r.inletPressure()).isEqualTo(1e6);
            assertThat(r.exitPressure()).isEqualTo(1e6 - dp);
            assertThat(r.meanDensity()).isEqualTo(up.density());
            assertThat(r.exitVolume()).isEqualTo(1 / up.density());
            assertThat(r.meanViscosity()).isEqualTo(1.78e-5);
            assertThat(r.reynolds()).isCloseTo(r.flux() * s.hydraulicDiameter() / 1.78e-5, within(1e-12));
            assertThat(r.choked() || r.flashed() || r.extrapolated()).isFalse();
            // and the solver takes over with the same slope
            double more = 1.5e-7 * 1e6;
            assertThat(s.solve(up, 1e6 - more, EVEN).flux())
                    .isCloseTo(s.slopeAtRest(up) * more, within(1e-3 * s.slopeAtRest(up) * more));
            assertThat(s.solve(up, 1e6, EVEN).flux()).isZero();
            assertThat(s.solve(up, 1.1e6, EVEN).flux()).isZero();
            assertThat(s.solve(up, 1.1e6, EVEN).exitPressure()).isEqualTo(1e6);
        }
    }

    @Test
    void slipMultipliesLaminarFlow() {
        PerfectGas gas = new PerfectGas("nitrogen", 296.80, 1.4, 1.78e-5);
        FluidState up = gas.atPressureTemperature(1e5, 300);
        FrictionSlot s = FrictionSlot.still(2e-6, 5e-3, 0.3);
        double bare = s.flow(up, 0.5e5, EVEN, 1).flux;
        double slipping = s.flow(up, 0.5e5, EVEN, 1.3).flux;
        assertThat(slipping).isCloseTo(1.3 * bare, within(1e-5 * bare));
        assertThat(s.flow(up, 1e5 - 1e-3, EVEN, 1.3).flux)
                .isCloseTo(1.3 * s.slopeAtRest(up) * 1e-3, within(1e-9 * bare));
        assertThat(s.flow(up, 0.5e5, EVEN).flux).isEqualTo(bare);
    }

    @Test
    void eccentricityFactorsAreTheirAverages() {
        assertThat(FrictionSlot.laminarFactor(0)).isEqualTo(1);
        assertThat(FrictionSlot.laminarFactor(1)).isEqualTo(2.5);
        assertThat(FrictionSlot.turbulentFactor(0)).isCloseTo(1, within(1e-15));
        // series: 1 + m (m - 1) e^2 / 4 + m (m-1)(m-2)(m-3) e^4 / 64, m = 12/7
        double m = 12.0 / 7;
        double e = 0.2;
        double series = 1 + m * (m - 1) * e * e / 4 + m * (m - 1) * (m - 2) * (m - 3) * Math.pow(e, 4) / 64;
        assertThat(FrictionSlot.turbulentFactor(e)).isCloseTo(series, within(1e-6));
    }

    @Test
    void aVeryShortSlotPassesWhatItsInletDoes() {
        // Without length the inlet's own choke limits it: G of a lossless nozzle.
        PerfectGas gas = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
        FluidState up = gas.atPressureTemperature(1e6, 300);
        FrictionSlot s = new FrictionSlot(1e-3, 1e-9, Friction.PIPE, 0, 0, 0, 0, 1, 1);
        FrictionSlot.Result r = s.solve(up, 1e5, EVEN);
        double nozzle = 0.684731 * 1e6 / Math.sqrt(287.05 * 300);
        assertThat(r.flux()).isCloseTo(nozzle, within(1e-4 * nozzle));
        assertThat(r.choked()).isTrue();
        double ratio = 0.9;
        double wide = s.solve(up, ratio * 1e6, EVEN).flux();
        double subsonic =
                1e6 * Math.sqrt(2 * 3.5 / (287.05 * 300) * (Math.pow(ratio, 2 / 1.4) - Math.pow(ratio, 2.4 / 1.4)));
        assertThat(wide).isCloseTo(subsonic, within(1e-4 * subsonic));
    }

    @Test
    void whereTheFluidGivesNoStateItSaysSo() {
        PerfectGas air = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
        Fluid limited = new LimitedGas(air, 5e5);
        FluidState up = limited.atPressureTemperature(1e6, 300);
        FrictionSlot s = FrictionSlot.still(30e-6, 5e-3, 0.3);
        assertThat(s.solve(up, 1e5, EVEN).extrapolated()).isTrue();
        assertThat(s.solve(up, 6e5, EVEN).extrapolated()).isFalse();
        assertThat(up.phase()).isEqualTo(Phase.GAS);
    }

    /** Its dome was once asked about a pressure below the one behind it, where it is not known: the flux was no number. */
    @Test
    void aWetMixtureWithATraceOfGasFlowsInProportionToASmallDrop() {
        double trace = 4.6e-8;
        Fluid wet = ENGINE.mixer(List.of(
                        new StreamDefinition.Single("hydrogen", "parahydrogen"),
                        new StreamDefinition.Single("ethanol", "ethanol")))
                .mix(new double[] {trace, 1 - trace});
        FrictionSlot line = FrictionSlot.still(5e-4, 0.9, 0.5);
        double back = 123136;
        double last = Double.NaN;
        for (double drop : new double[] {5, 10, 22, 40, 100}) {
            FluidState up = wet.atPressureEnthalpy(back + drop, -5.11e6);
            assertThat(up.phase()).isEqualTo(Phase.TWO_PHASE);
            double byDrop = line.solve(up, back, EVEN).flux() / drop;
            assertThat(byDrop).isPositive();
            if (!Double.isNaN(last)) {
                assertThat(byDrop).isCloseTo(last, within(2e-3 * last));
            }
            last = byDrop;
        }
    }
}
