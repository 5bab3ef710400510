package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;

/**
 * The laws of {@link PassageLawTest} with real fluids: gas, supercritical, subcooled, nearly saturated, two-phase, and wet mixtures.
 *
 * <p>Passages whose gap moves with pressure (grooved and balanced faces) have their own tests; a segmented ring's film is a given gap here
 * and obeys. Seeds are fixed; {@code purgewright.share} sets how many samples are drawn.
 */
class RealFluidLawTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final String[] TYPES = {
        "orifice", "line", "labyrinth", "bushing", "floating ring", "face", "nozzle", "holes", "bend", "rim", "valve"
    };
    private static final String[] FLUIDS = {"oxygen", "nitrogen", "methane", "parahydrogen", "helium", "water"};

    private static int samples(int full) {
        return Math.max(10, (int) (full * Double.parseDouble(System.getProperty("purgewright.share", "0.01"))));
    }

    private record Sample(String what, Passage passage, FluidState up) {
        double flow(double down) {
            // What flows is the upstream fluid: the other end holds the same, at rest at the same enthalpy.
            return passage.flow(up, FluidStates.at(up.fluid(), down, up)).massFlow();
        }

        Sample raised(double factor) {
            return new Sample(what, passage, up.fluid().atPressureEnthalpy(factor * up.pressure(), up.enthalpy()));
        }
    }

    /** Downstream states carry the pressure only. */
    private static final class FluidStates {
        static FluidState at(Fluid fluid, double pressure, FluidState like) {
            return new FluidState(
                    fluid,
                    pressure,
                    like.temperature(),
                    like.density(),
                    like.enthalpy(),
                    like.entropy(),
                    like.cp(),
                    like.cv(),
                    like.soundSpeed(),
                    like.quality(),
                    like.phase(),
                    false);
        }
    }

    private static Sample draw(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        String type = TYPES[random.nextInt(TYPES.length)];
        double speed = "face".equals(type) ? 0 : 3000 * random.nextDouble();
        Passage passage =
                PassageLawTest.make(type, random.nextDouble(), random.nextDouble(), 1 + random.nextInt(8), speed);
        FluidState up = state(random);
        return new Sample(type + ", " + up.fluid().name() + ", seed " + seed, passage, up);
    }

    private static FluidState state(SplittableRandom random) {
        if (random.nextInt(6) == 0) {
            return wetMixture(random);
        }
        PureFluid fluid = ENGINE.pure(FLUIDS[random.nextInt(FLUIDS.length)]);
        double tc = fluid.criticalTemperature();
        double pc = fluid.criticalPressure();
        double low = Math.max(0.65 * tc, 1.1 * fluid.tripleTemperature());
        switch (random.nextInt(5)) {
            case 0: // gas
                return fluid.atPressureTemperature(
                        1.5e5 * Math.pow(30, random.nextDouble()),
                        Math.max(1.4 * tc, 60) * (1 + 0.8 * random.nextDouble()));
            case 1: // supercritical
                return fluid.atPressureTemperature(
                        pc * (1.3 + 2 * random.nextDouble()), tc * (1.15 + 0.5 * random.nextDouble()));
            case 2: { // subcooled
                double t = low + (0.85 * tc - low) * random.nextDouble();
                return fluid.atPressureTemperature(fluid.saturationPressure(t) + pc * (0.3 + random.nextDouble()), t);
            }
            case 3: { // nearly saturated
                double t = low + (0.85 * tc - low) * random.nextDouble();
                return fluid.atPressureTemperature(fluid.saturationPressure(t) * (1.02 + 0.5 * random.nextDouble()), t);
            }
            default: { // two-phase
                double t = low + (0.9 * tc - low) * random.nextDouble();
                return fluid.atTemperatureQuality(t, 0.02 + 0.9 * random.nextDouble());
            }
        }
    }

    private static FluidState wetMixture(SplittableRandom random) {
        StreamMixer mixer = ENGINE.mixer(
                List.of(new StreamDefinition.Single("o", "oxygen"), new StreamDefinition.Single("h", "helium")));
        double helium = 0.005 + 0.03 * random.nextDouble();
        Fluid fluid = mixer.mix(new double[] {1 - helium, helium});
        return fluid.atPressureTemperature(2e5 + 3e5 * random.nextDouble(), 88 + 6 * random.nextDouble());
    }

    /** Near the critical point and through the dome from above a path is known to some parts in a thousand only. */
    private static double slack(FluidState up) {
        return up.phase() == Phase.SUPERCRITICAL ? 1e-2 : 5e-4;
    }

    @Test
    void flowNeverRisesWithDownstreamNorFallsWithUpstreamPressure() {
        int count = samples(10000);
        for (int i = 0; i < count; i++) {
            Sample s = draw(7_000_000L + i);
            double p0 = s.up.pressure();
            double full = s.flow(0.1 * p0);
            double slack = slack(s.up) * full;
            assertThat(full).as(s.what).isPositive().isFinite();
            double last = Double.POSITIVE_INFINITY;
            Sample more = s.raised(1.01);
            for (double b : new double[] {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97, 0.999}) {
                double m = s.flow(b * p0);
                assertThat(m).as("%s to %s p0", s.what, b).isLessThanOrEqualTo(last + slack);
                assertThat(more.flow(b * p0))
                        .as("%s, more upstream, to %s p0", s.what, b)
                        .isGreaterThanOrEqualTo(m - slack);
                last = m;
            }
        }
    }

    @Test
    void flowTurnsWithOneSlope() {
        int count = samples(6000);
        for (int i = 0; i < count; i++) {
            Sample s = draw(8_000_000L + i);
            double p0 = s.up.pressure();
            double step = 1e-9 * p0;
            double forward = s.flow(p0 - step);
            double back = s.flow(p0 + step);
            assertThat(s.flow(p0)).as(s.what).isEqualTo(0, within(1e-12));
            assertThat(forward).as(s.what).isGreaterThanOrEqualTo(0);
            assertThat(forward).as(s.what).isEqualTo(-back, within(0.01 * Math.abs(forward) + 1e-12));
        }
    }

    @Test
    void slopeHasNoJumpInEitherPressure() {
        int count = samples(4000);
        for (int i = 0; i < count; i++) {
            Sample s = draw(9_000_000L + i);
            double p0 = s.up.pressure();
            double full = s.flow(0.1 * p0);
            if (smooth(s)) {
                corner(s, full, true);
                corner(s, full, false);
            }
        }
    }

    /**
     * Where a liquid begins to flash its volume has a corner, and so has the flow of the equilibrium model: in a slot's exit that is not
     * choked, in a chamber, and upstream itself. Everything else is smooth, the choke by flashing included.
     */
    private static boolean smooth(Sample s) {
        FluidState up = s.up;
        if (up.phase() == Phase.TWO_PHASE) {
            // Raised to 1.65 times its pressure it must not condense.
            return up.fluid()
                            .atPressureEnthalpy(1.7 * up.pressure(), up.enthalpy())
                            .phase()
                    == Phase.TWO_PHASE;
        }
        return up.fluid().atPressureEnthalpy(0.1 * up.pressure(), up.enthalpy()).phase() != Phase.TWO_PHASE
                && up.fluid()
                                .atPressureEntropy(0.1 * up.pressure(), up.entropy())
                                .phase()
                        != Phase.TWO_PHASE;
    }

    /** Where the slope changes most between neighbours, a tenth of the step must divide the change: a corner would keep it. */
    private static void corner(Sample s, double full, boolean downstream) {
        double p0 = s.up.pressure();
        int steps = 80;
        double width = 0.8 / steps;
        double[] m = new double[steps + 1];
        for (int k = 0; k <= steps; k++) {
            m[k] = at(s, 0.15 + k * width, p0, downstream) / full;
        }
        int worst = 1;
        for (int k = 2; k < steps; k++) {
            if (bend(m, k) > bend(m, worst)) {
                worst = k;
            }
        }
        double coarse = bend(m, worst) / width;
        if (coarse < 0.1) {
            return;
        }
        int inner = 40;
        double narrow = 2 * width / inner;
        double start = 0.15 + (worst - 1) * width;
        double[] fine = new double[inner + 1];
        for (int k = 0; k <= inner; k++) {
            fine[k] = at(s, start + k * narrow, p0, downstream) / full;
        }
        double most = 0;
        for (int k = 1; k < inner; k++) {
            most = Math.max(most, bend(fine, k) / narrow);
        }
        assertThat(most)
                .as("%s, by %s pressure near %s p0", s.what, downstream ? "downstream" : "upstream", start)
                .isLessThan(0.6 * coarse + 0.05);
    }

    private static double bend(double[] m, int k) {
        return Math.abs(m[k + 1] - 2 * m[k] + m[k - 1]);
    }

    /** The upstream pressure is moved from 1.0 to 1.8 times its value at the one enthalpy, against half the pressure. */
    private static double at(Sample s, double b, double p0, boolean downstream) {
        return downstream ? s.flow(b * p0) : s.raised(0.85 + b).flow(0.5 * p0);
    }

    /** A gas that condenses in its jet kept its contraction up to the dew line and had the liquid's behind it: the flow fell by up to a fifth. */
    @Test
    void theFlowOfAGasThatCondensesInItsJetNeitherFallsNorJumps() {
        PureFluid nitrogen = ENGINE.pure("nitrogen");
        for (double temperature : new double[] {105, 110, 116}) {
            FluidState up = nitrogen.atPressureTemperature(1e6, temperature);
            for (String type : new String[] {"orifice", "labyrinth"}) {
                Sample sample = new Sample(type, PassageLawTest.make(type, 0.4, 0.6, 1, 0), up);
                double step = 0.004;
                double before = Double.NaN;
                for (double ratio = 0.96; ratio > 0.2; ratio -= step) {
                    double rise = sample.flow((ratio - step) * 1e6) - sample.flow(ratio * 1e6);
                    String what = type + ", " + temperature + " K, " + ratio;
                    assertThat(rise).as(what).isGreaterThanOrEqualTo(-1e-6 * sample.flow(ratio * 1e6));
                    // Equilibrium itself has a corner at the dew line, where the density begins to fall faster.
                    assertThat(rise)
                            .as(what)
                            .isLessThan(Double.isNaN(before) ? 1 : 1.1 * before + 2e-4 * sample.flow(ratio * 1e6));
                    before = rise;
                }
            }
        }
    }

    /** Where a component's vapour first shows, states were named liquid with the sound speed of the dome: flows were NaN or a third off. */
    @Test
    void twoLiquidsThatBoilPassASteadyFlow() {
        StreamMixer mixer = ENGINE.mixer(List.of(
                new StreamDefinition.Single("oxygen", "oxygen"), new StreamDefinition.Single("nitrogen", "nitrogen")));
        for (double nitrogen : new double[] {0.004, 0.05}) {
            Fluid fluid = mixer.mix(new double[] {1 - nitrogen, nitrogen});
            FluidState up = fluid.atPressureTemperature(1.4e6, 86.3);
            for (String type : new String[] {"orifice", "labyrinth", "bushing"}) {
                Passage passage = PassageLawTest.make(type, 0.4, 0.6, 6, 0);
                Sample sample = new Sample(type, passage, up);
                double slack = "bushing".equals(type) ? 1e-3 : 1e-5;
                double last = 0;
                double first = 0;
                for (double ratio = 0.98; ratio > 0.05; ratio *= 0.8) {
                    double flow = sample.flow(ratio * up.pressure());
                    String what = type + ", " + nitrogen + ", " + ratio;
                    assertThat(flow).as(what).isGreaterThanOrEqualTo(last * (1 - slack));
                    first = first == 0 ? flow : first;
                    assertThat(flow).as(what).isBetween(first, first * Math.pow(0.02, -1));
                    last = flow;
                }
            }
        }
    }
}
