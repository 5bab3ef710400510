package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
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
        "Volume along a duct's path against the fluid itself at h0 - G^2 v^2 / 2, its derivatives against differences")
class SlotPathTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final Throttle.Flashing EVEN = Throttle.Flashing.EQUILIBRIUM;

    /**
     * @param volume relative difference of the volume that is allowed: dv/dh at one pressure is taken constant, which is exact in the dome, for
     *     a perfect gas and for the stiff liquid, and good for a small kinetic energy elsewhere
     * @param viscosity the same of the viscosity
     */
    private record Way(String name, FluidState up, double low, double volume, double viscosity) {}

    private static FluidState real(String fluid, double pressure, double temperature) {
        return ENGINE.pure(fluid).atPressureTemperature(pressure, temperature);
    }

    private static List<Way> ways() {
        List<Way> all = new ArrayList<>();
        all.add(new Way("perfect gas", AIR.atPressureTemperature(1e6, 300), 1e5, 1e-12, 1e-12));
        all.add(new Way("stiff liquid", StiffLiquid.WATER.atPressureTemperature(5e6, 293), 1e5, 1e-9, 1e-12));
        all.add(new Way("nitrogen gas", real("nitrogen", 3e6, 300), 1e5, 2e-5, 2e-3));
        all.add(new Way("helium gas", real("helium", 20e6, 290), 1e6, 2e-5, 2e-3));
        all.add(new Way("cold nitrogen gas", real("nitrogen", 3e6, 150), 3e5, 5e-4, 2e-2));
        all.add(new Way("liquid oxygen", real("oxygen", 2.6e6, 97), 1e6, 2e-3, 5e-3));
        all.add(new Way("oxygen that flashes", real("oxygen", 2.6e6, 120), 2e5, 5e-3, 3e-2));
        all.add(new Way("hydrogen that flashes", real("parahydrogen", 1e6, 25), 1.5e5, 5e-3, 3e-2));
        all.add(new Way("wet oxygen", ENGINE.pure("oxygen").atTemperatureQuality(120, 0.1), 2e5, 1e-4, 3e-2));
        all.add(new Way("wet nitrogen", ENGINE.pure("nitrogen").atTemperatureQuality(95, 0.6), 1e5, 1e-4, 3e-2));
        all.add(new Way("dense nitrogen", real("nitrogen", 6e6, 150), 2e6, 2e-3, 5e-2));
        all.add(new Way("gas that condenses", real("nitrogen", 5e6, 140), 1e5, 2e-3, 5e-2));
        all.add(new Way("dense to wet", real("nitrogen", 5e6, 130), 1e5, 1e-2, 0.05));
        all.add(new Way("flashes and dries", real("n-dodecane", 1.75e6, 640.45), 4e5, 2e-3, 0.08));
        return all;
    }

    /** The state at a pressure and flux, by bisection on the volume. */
    private static FluidState state(FluidState up, double pressure, double flux) {
        Fluid fluid = up.fluid();
        double low = 0;
        double high = 1 / fluid.atPressureEnthalpy(pressure, up.enthalpy()).density();
        if (flux == 0) {
            return fluid.atPressureEnthalpy(pressure, up.enthalpy());
        }
        high *= 1.0001;
        FluidState at = null;
        for (int i = 0; i < 60; i++) {
            double v = 0.5 * (low + high);
            at = fluid.atPressureEnthalpy(pressure, up.enthalpy() - 0.5 * flux * flux * v * v);
            if (1 / at.density() > v) {
                low = v;
            } else {
                high = v;
            }
            if (high - low < 1e-13 * high) {
                break;
            }
        }
        return at;
    }

    /** What the fluid says, worked out once: the path has no part in it. */
    private static final Map<String, FluidState> KNOWN = new HashMap<>();

    private static FluidState known(Way way, double pressure, double flux) {
        return KNOWN.computeIfAbsent(way.name + " " + pressure + " " + flux, key -> state(way.up, pressure, flux));
    }

    /** Pressures on the way, ends among them. */
    private static double[] pressures(Way way) {
        double ratio = way.low / way.up.pressure();
        double[] p = new double[9];
        for (int i = 0; i < p.length; i++) {
            p[i] = way.up.pressure() * Math.pow(ratio, (i + (i == 8 ? 0 : 0.01)) / 8.0);
        }
        return p;
    }

    /** A flux whose velocity at the low end is a share of the speed of sound there. */
    private static double flux(Way way, double share) {
        FluidState end = known(way, way.low, 0);
        return share * end.density() * Math.min(300, end.soundSpeed());
    }

    @Test
    void theVolumeIsTheFluidsAtWhatEnthalpyTheVelocityLeaves() {
        SlotPath path = new SlotPath();
        for (Way way : ways()) {
            path.set(way.up, way.low, EVEN);
            assertThat(path.extrapolated()).as(way.name).isFalse();
            assertThat(path.lowest()).isEqualTo(way.low);
            for (double share : new double[] {0, 0.2, 0.5}) {
                double flux = flux(way, share);
                for (double p : pressures(way)) {
                    FluidState there = known(way, p, flux);
                    String what = way.name + " at " + p + " Pa, " + share;
                    path.at(p, flux);
                    double size = share == 0 ? 0.4 * way.volume + 1e-6 : way.volume;
                    assertThat(path.volume * there.density()).as(what).isCloseTo(1, within(size));
                    FluidState slow = known(way, p, 0);
                    double mu = slow.fluid().viscosity(slow);
                    assertThat(path.viscosityHere(p) / mu).as(what + " mu").isCloseTo(1, within(way.viscosity));
                    assertThat(path.viscosity(p)).as(what + " mu").isCloseTo(path.viscosityHere(p), within(1e-6 * mu));
                }
            }
        }
    }

    private static double at(SlotPath path, double p, double g2) {
        path.at(p, Math.sqrt(g2));
        return path.volume;
    }

    @Test
    void itsDerivativesAreThoseOfTheVolumeItself() {
        SlotPath path = new SlotPath();
        for (Way way : ways()) {
            path.set(way.up, way.low, EVEN);
            double flux = flux(way, 0.5);
            double g2 = flux * flux;
            for (double p : pressures(way)) {
                double step = 1e-4;
                double inside = Math.min(p, way.up.pressure() / (1 + 2 * step));
                inside = Math.max(inside, way.low * (1 + 2 * step));
                if (Math.abs(inside / path.edge() - 1) < 3 * step) {
                    continue;
                }
                String what = way.name + " at " + inside + " Pa";
                double v = at(path, inside, g2);
                double slope = path.slope;
                double byFlux = path.volumeByFlux2;
                double slopeByFlux = path.slopeByFlux2;
                double high = at(path, inside * (1 + step), g2);
                double low = at(path, inside * (1 - step), g2);
                double scale = v / inside;
                // A corner where the liquid's volume hands over to the dome's lies within the step, or not.
                if (Math.abs(high - 2 * v + low) > 1e-6 * v) {
                    continue;
                }
                assertThat(slope).as(what).isCloseTo((high - low) / (2 * step * inside), within(2e-5 * scale));
                double more = at(path, inside, g2 * (1 + step));
                double slopeMore = path.slope;
                double less = at(path, inside, g2 * (1 - step));
                double slopeLess = path.slope;
                assertThat(byFlux * g2).as(what).isCloseTo((more - less) / (2 * step), within(1e-7 * v));
                assertThat(slopeByFlux * g2)
                        .as(what)
                        .isCloseTo((slopeMore - slopeLess) / (2 * step), within(2e-6 * scale));
                // The same volume when the velocity is given instead.
                double u = flux * v;
                assertThat(path.volumeAtVelocity(inside, u * u)).as(what).isCloseTo(v, within(1e-9 * v));
                double byPressure = path.inletByPressure;
                double byVelocity = path.inletByVelocity2;
                double up = path.volumeAtVelocity(inside * (1 + step), u * u);
                double down = path.volumeAtVelocity(inside * (1 - step), u * u);
                assertThat(byPressure).as(what).isCloseTo((up - down) / (2 * step * inside), within(2e-5 * scale));
                double fast = path.volumeAtVelocity(inside, u * u * (1 + step));
                double slow = path.volumeAtVelocity(inside, u * u * (1 - step));
                assertThat(byVelocity * u * u).as(what).isCloseTo((fast - slow) / (2 * step), within(1e-7 * v));
            }
        }
    }

    @Test
    void aLiquidAtItsBoilingPointIsThatOfOneALittleAbove() {
        // However little lies between the upstream pressure and that at which it flashes.
        SlotPath path = new SlotPath();
        for (String name : new String[] {"oxygen", "parahydrogen", "methane"}) {
            for (double reduced : new double[] {0.7, 0.9}) {
                PureFluid fluid = ENGINE.pure(name);
                double t = reduced * fluid.criticalTemperature();
                for (double over : new double[] {1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7}) {
                    FluidState up = fluid.atPressureTemperature(fluid.saturationPressure(t) * (1 + over), t);
                    path.set(up, 0.2 * up.pressure(), EVEN);
                    for (double p = 0.9999 * up.pressure(); p > 0.2 * up.pressure(); p *= 0.9) {
                        FluidState there = fluid.atPressureEnthalpy(p, up.enthalpy());
                        path.at(p, 0);
                        assertThat(path.volume * there.density())
                                .as("%s %s %s at %s", name, reduced, over, p)
                                .isCloseTo(1, within(2e-5));
                    }
                }
            }
        }
    }

    @Test
    void whatKindOfWayItIs() {
        SlotPath path = new SlotPath();
        for (Way way : ways()) {
            path.set(way.up, way.low, EVEN);
            boolean wetStart = way.up.phase() == Phase.TWO_PHASE;
            boolean meets = Arrays.stream(pressures(way))
                    .anyMatch(p -> known(way, p, 0).phase().equals(Phase.TWO_PHASE));
            boolean dense = Throttle.dense(way.up);
            boolean crosses = meets && !wetStart;
            assertThat(Double.isNaN(path.edge())).as(way.name).isEqualTo(!crosses);
            assertThat(path.sharpEdge()).as(way.name).isEqualTo(crosses && !dense);
            assertThat(Double.isNaN(path.wetExponent())).as(way.name).isEqualTo(!crosses);
            if (wetStart) {
                assertThat(path.wetFromStart()).as(way.name).isTrue();
            }
            if (crosses) {
                assertThat(path.wetFromStart()).as(way.name).isFalse();
                Fluid fluid = way.up.fluid();
                double h = way.up.enthalpy();
                assertThat(fluid.atPressureEnthalpy(path.edge() * (1 + 1e-6), h).phase())
                        .as(way.name)
                        .isNotEqualTo(Phase.TWO_PHASE);
                FluidState in = fluid.atPressureEnthalpy(path.edge() * (1 - 1e-6), h);
                assertThat(in.phase()).as(way.name).isEqualTo(Phase.TWO_PHASE);
                // rho w^2 / p where it has entered
                assertThat(path.wetExponent())
                        .as(way.name)
                        .isCloseTo(
                                in.density() * in.soundSpeed() * in.soundSpeed() / in.pressure(),
                                within(0.02 * path.wetExponent()));
            }
            boolean plainLiquid =
                    dense && way.up.density() > 1.8 * way.up.fluid().criticalDensity();
            assertThat(path.noChokeBefore()).as(way.name).isEqualTo(plainLiquid);
            if (plainLiquid || (!crosses && !dense && !wetStart)) {
                assertThat(path.uneven()).as(way.name).isFalse();
            }
            if (path.sharpEdge()) {
                assertThat(path.uneven()).as(way.name).isTrue();
            }
        }
    }

    @Test
    void flashingBeginsWhereTheDomesVolumePassesTheLiquids() {
        SlotPath path = new SlotPath();
        FluidState up = real("oxygen", 2.6e6, 120);
        path.set(up, 2e5, EVEN);
        double saturation = ENGINE.pure("oxygen").saturationPressure(120);
        assertThat(path.edge()).isBetween(0.9 * saturation, 1.1 * saturation);
        assertThat(path.flash(path.edge() * 1.01, 100)).isEqualTo(-1);
        assertThat(path.flash(path.edge() * 0.97, 0)).isPositive();
        // Kinetic energy cools: the flash point lies the lower, the faster.
        double flux = 0.4 * Math.sqrt(2 * up.density() * 1e6);
        double p = path.edge();
        while (path.flash(p * 0.9999, flux) <= 0) {
            p *= 0.9999;
        }
        FluidState before = state(up, p * 1.001, flux);
        FluidState after = state(up, p * 0.998, flux);
        assertThat(before.phase()).isEqualTo(Phase.LIQUID);
        assertThat(after.phase()).isEqualTo(Phase.TWO_PHASE);
        // Above its pressure the path is told to be near flashing, far above not.
        assertThat(path.flashesNear(0.9 * path.edge())).isTrue();
        assertThat(path.flashesNear(0.7 * path.edge())).isFalse();
        double edge = path.edge();
        path.set(up, 1.005 * edge, EVEN);
        assertThat(path.flashesNear(1.005 * edge)).isTrue();
        path.set(up, 1.05 * edge, EVEN);
        assertThat(path.flashesNear(1.05 * edge)).isFalse();
        path.set(real("nitrogen", 3e6, 300), 1e5, EVEN);
        assertThat(path.flashesNear(1e5)).isFalse();
        assertThat(path.flash(1e5, 100)).isEqualTo(-1);
    }

    @Test
    void aFrozenLiquidGoesOnWithItsCompressibility() {
        SlotPath path = new SlotPath();
        FluidState up = real("oxygen", 2.6e6, 120);
        path.set(up, 2e5, Throttle.Flashing.FROZEN);
        double z = up.density() * up.soundSpeed();
        for (double p : new double[] {2.6e6, 1e6, 2e5}) {
            path.at(p, 5000);
            assertThat(path.volume).isCloseTo(1 / up.density() + (2.6e6 - p) / (z * z), within(1e-12));
            assertThat(path.slope).isCloseTo(-1 / (z * z), within(1e-22));
            assertThat(path.viscosity(p)).isEqualTo(up.fluid().viscosity(up));
        }
        assertThat(Double.isNaN(path.edge())).isTrue();
    }

    /**
     * Wet mixtures that dry out on the way at constant enthalpy, and later or not at all where the velocity cools them: the line has corners. The
     * bounds are what was measured, 9 in 10 within 0.4 %; before each piece had its own dv/dh, a tenth was off by more than 8 %.
     */
    @Test
    void aMixtureThatDriesOutOnTheWayHasItsVolumeTooWhereTheVelocityMovesTheCorner() {
        SplittableRandom random = new SplittableRandom(11);
        SlotPath path = new SlotPath();
        List<Double> off = new ArrayList<>();
        for (int i = 0; i < 3000; i++) {
            int k = random.nextInt(4);
            Fluid fluid = WetLabyrinthTest.mixture(
                    WetLabyrinthTest.LIQUIDS[k], "helium", 0.02 * Math.pow(30, random.nextDouble()));
            double pressure = 1.5e5 * Math.pow(30, random.nextDouble());
            double down = (0.05 + 0.9 * random.nextDouble()) * pressure;
            FluidState up;
            try {
                double low = fluid.atPressureTemperature(pressure, 0.6 * WetLabyrinthTest.CRITICAL[k])
                        .enthalpy();
                double high = fluid.atPressureTemperature(pressure, 1.1 * WetLabyrinthTest.CRITICAL[k])
                        .enthalpy();
                up = fluid.atPressureEnthalpy(pressure, low + (high - low) * random.nextDouble());
            } catch (PropertyException none) {
                continue;
            }
            FrictionSlot slot = FrictionSlot.still(
                    1e-5 * Math.pow(30, random.nextDouble()), 1e-3 * Math.pow(300, random.nextDouble()), 0.5);
            if (up.phase() != Phase.TWO_PHASE) {
                continue;
            }
            FrictionSlot.Result flow = slot.solve(up, down, EVEN);
            path.set(up, down, EVEN);
            if (!path.inPieces()) {
                continue;
            }
            double most = 0;
            for (int j = 0; j <= 4; j++) {
                double p = flow.inletPressure() * Math.pow(flow.exitPressure() / flow.inletPressure(), j / 4.0);
                path.at(p, flow.flux());
                most = Math.max(
                        most, Math.abs(path.volume * state(up, p, flow.flux()).density() - 1));
            }
            off.add(most);
        }
        Collections.sort(off);
        assertThat(off.size()).isGreaterThan(40);
        assertThat(off.get(off.size() / 2)).isLessThan(5e-4);
        assertThat(off.get(off.size() * 9 / 10)).isLessThan(1e-2);
        assertThat(off.get(off.size() - 1)).isLessThan(0.06);
    }

    /** Barrier gas full of oxygen spray dries out at 0.85 MPa at constant enthalpy; the flux through a ring jumped by 1.5 % as a node of dv/dh crossed that. */
    @Test
    void theFluxOfAMixtureThatDriesOutDoesNotJump() {
        Fluid fluid = WetLabyrinthTest.mixture("oxygen", "helium", 0.1754);
        FrictionSlot slot = FrictionSlot.still(25e-6, 6e-3, 0.5);
        double last = Double.NaN;
        for (int i = -200; i <= 200; i++) {
            FluidState up = fluid.atPressureEnthalpy(2.5047e6 * Math.exp(1e-4 * i), -330_274.5);
            double flux = slot.solve(up, 2.844e5, EVEN).flux();
            if (i > -200) {
                assertThat(flux / last).as("%d", i).isCloseTo(1, within(5e-4));
            }
            last = flux;
        }
    }

    /**
     * Hot kerosene flashes on its way and dries again, for its dew line leans over. While its path was told by a table from the liquid to the gas, the
     * flux through a ring had corners, was up to 6 % low and jumped by 1.5 % (1.766 MPa); seed 115 of all fluids was not solved for that.
     */
    @Test
    void theFluxOfALiquidThatFlashesAndDriesAgainDoesNotJump() {
        FrictionSlot slot = FrictionSlot.still(5.9e-4, 7.738e-3, 0.5);
        double enthalpy = real("n-dodecane", 1.7655e6, 640.512).enthalpy();
        Fluid fluid = ENGINE.pure("n-dodecane");
        double last = Double.NaN;
        double rise = Double.NaN;
        for (int i = 0; i <= 120; i++) {
            FrictionSlot.Result r = slot.solve(fluid.atPressureEnthalpy(1.7e6 + 1e3 * i, enthalpy), 6.8e5, EVEN);
            // It chokes where it flashes.
            assertThat(r.choked()).isTrue();
            assertThat(r.exitPressure()).isCloseTo(1.411e6, within(2e3));
            double next = r.flux() - last;
            if (i > 1) {
                assertThat(next).as("%d", i).isPositive().isCloseTo(rise, within(0.02 * rise));
            }
            rise = next;
            last = r.flux();
        }
    }

    /** As little vapour as can be forms in a liquid, and hardly more beside the first trace of gas; all of it from a quality of 0.14 on. */
    @Test
    void theUpperBoundOfALineDoesNotJumpWithTheFirstTraceOfGas() {
        FrictionSlot line = new FrictionSlot(16e-3, 10, 64, 1.5e-6, 0.5, 0, 0, 1, 1);
        Throttle.Flashing high = Throttle.Flashing.FROZEN;
        double liquid = flux(line, WetLabyrinthTest.mixture("oxygen", "helium", 1e-8), high);
        double last = liquid;
        double lastShare = 1e-8;
        for (double share = 3e-8; share < 3e-4; share *= 1.1) {
            double flux = flux(line, WetLabyrinthTest.mixture("oxygen", "helium", share), high);
            assertThat(flux / last).as("%s", share).isCloseTo(1, within(0.03));
            assertThat(flux)
                    .as("%s", share)
                    .isGreaterThan(flux(line, WetLabyrinthTest.mixture("oxygen", "helium", share), EVEN));
            last = flux;
            lastShare = share;
        }
        assertThat(lastShare).isGreaterThan(1e-4);
        // the first traces, of which the equilibrium flux is three quarters of the liquid's
        assertThat(flux(line, WetLabyrinthTest.mixture("oxygen", "helium", 2e-7), high) / liquid)
                .isCloseTo(1, within(0.01));
        assertThat(flux(line, WetLabyrinthTest.mixture("oxygen", "helium", 2e-7), EVEN) / liquid)
                .isLessThan(0.8);
        PureFluid oxygen = ENGINE.pure("oxygen");
        for (double quality : new double[] {0.16, 0.5, 0.95}) {
            FluidState wet = oxygen.atTemperatureQuality(110, quality);
            double even = line.solve(wet, 1e5, EVEN).flux();
            assertThat(line.solve(wet, 1e5, high).flux()).isCloseTo(even, within(1e-9 * even));
        }
    }

    private static double flux(FrictionSlot line, Fluid fluid, Throttle.Flashing flashing) {
        return line.solve(fluid.atPressureEnthalpy(3.4684e5, -391_092), 101_325, flashing)
                .flux();
    }

    @Test
    void overAHairTheUpstreamCompressibilityServes() {
        SlotPath path = new SlotPath();
        for (FluidState up : new FluidState[] {
            real("oxygen", 2.6e6, 97),
            ENGINE.pure("oxygen").atTemperatureQuality(120, 0.1),
            AIR.atPressureTemperature(1e6, 300)
        }) {
            path.set(up, up.pressure() * (1 - 0.9e-5), EVEN);
            path.at(up.pressure(), 0);
            assertThat(path.volume * up.density()).isCloseTo(1, within(1e-14));
            FluidState end = up.fluid().atPressureEnthalpy(up.pressure() * (1 - 0.9e-5), up.enthalpy());
            path.at(end.pressure(), 0);
            assertThat(path.volume * end.density()).isCloseTo(1, within(1e-5));
            assertThat(path.viscosity(end.pressure())).isEqualTo(up.fluid().viscosity(up));
            if (up.fluid() instanceof PerfectGas) {
                // p v stays
                assertThat(path.slope).isCloseTo(-1 / (end.pressure() * end.density()), within(1e-15));
            }
        }
        // Below two thousandths of the pressure no path goes.
        path.set(AIR.atPressureTemperature(1e6, 300), 1, EVEN);
        assertThat(path.lowest()).isEqualTo(2000);
    }

    /** A gas that gives no state below a pressure. */
    private static Fluid upTo(double least) {
        return new LimitedGas(AIR, least);
    }

    @Test
    void whereTheFluidGivesNoStateThePathSaysSo() {
        SlotPath path = new SlotPath();
        Fluid gas = upTo(3e5);
        FluidState up = gas.atPressureTemperature(1e6, 300);
        path.set(up, 2e5, EVEN);
        assertThat(path.extrapolated()).isTrue();
        // p v goes on as it was
        path.at(2e5, 0);
        assertThat(path.volume).isCloseTo(5 / up.density(), within(1e-12));
        path.set(up, 4e5, EVEN);
        assertThat(path.extrapolated()).isFalse();
        assertThat(path.flashesNear(4e5)).isFalse();
        try {
            gas.atPressureTemperature(2e5, 300);
            assertThat(false).as("no state there").isTrue();
        } catch (PropertyException expected) {
            assertThat(expected.key()).isEqualTo(PropertyException.Key.NO_SUCH_STATE);
        }
    }
}
