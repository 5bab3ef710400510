package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.sealflow.model.PassageSpec;

@DisplayName("What drives a passage, worked out beside it, is what it follows")
class DrivingHeadTest {
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);

    private static final double SAMPLES =
            20_000 * Math.max(0.01, Double.parseDouble(System.getProperty("purgewright.share", "0.01")));

    private static FluidState gas(double pressure) {
        return HELIUM.atPressureTemperature(pressure, 300);
    }

    private static PassageSpec face(String fromAt) {
        return PassageChecks.spec(
                "face",
                Double.NaN,
                Double.NaN,
                Map.of("inner radius", 0.03, "outer radius", 0.04, "gap", 5e-6, "from at", fromAt));
    }

    private static PassageSpec slinger(String surface, double swirl) {
        return PassageChecks.spec(
                "slinger",
                Double.NaN,
                Double.NaN,
                Map.of(
                        "inner radius",
                        0.03,
                        "outer radius",
                        0.04,
                        "gap",
                        0.1e-3,
                        "surface",
                        surface,
                        "swirl ratio",
                        swirl,
                        "length",
                        0.02));
    }

    @Test
    void aFaceDrivesOutwards() {
        // rho w^2 (ro^2 - ri^2) 3/20 = 1000 kg/m3 * 4e6 * 7e-4 * 0.15
        FluidState heavy = at(HELIUM, 2e6, 1000);
        DrivingHead inward = DrivingHead.of(face("outer"), 5e-6, 2000, heavy, heavy);
        assertThat(inward.least()).isCloseTo(-420e3, within(1e-6));
        assertThat(inward.most()).isCloseTo(-420e3, within(1e-6));
        assertThat(inward.work()).isCloseTo(-420, within(1e-9));
        assertThat(inward.along(false)).isCloseTo(420e3, within(1e-6));
        DrivingHead outward = DrivingHead.of(face("inner"), 5e-6, 2000, heavy, heavy);
        assertThat(outward.least()).isCloseTo(420e3, within(1e-6));
        assertThat(outward.work()).isCloseTo(420, within(1e-9));
    }

    @Test
    void betweenTwoDensitiesTheHeadIsBetweenTheirs() {
        DrivingHead d = DrivingHead.of(face("inner"), 5e-6, 2000, at(HELIUM, 3e6, 10), at(HELIUM, 2.5e6, 100));
        assertThat(d.least()).isCloseTo(0.5e6 + 4200, within(1e-6));
        assertThat(d.most()).isCloseTo(0.5e6 + 42000, within(1e-6));
        DrivingHead back = DrivingHead.of(face("outer"), 5e-6, 2000, at(HELIUM, 3e6, 100), at(HELIUM, 2.5e6, 10));
        assertThat(back.least()).isCloseTo(0.5e6 - 42000, within(1e-6));
        assertThat(back.most()).isCloseTo(0.5e6 - 4200, within(1e-6));
    }

    @Test
    void aLineLiftsWhatItHoldsAndTheRotorDoesNoWorkInIt() {
        PassageSpec line = PassageChecks.spec(
                "line", Double.NaN, Double.NaN, Map.of("diameter", 0.01, "length", 12.0, "elevation", 10.0));
        FluidState heavy = at(HELIUM, 2e6, 1000);
        DrivingHead d = DrivingHead.of(line, Double.NaN, 3000, heavy, heavy);
        assertThat(d.least()).isCloseTo(-98066.5, within(1e-6));
        assertThat(d.most()).isEqualTo(d.least());
        assertThat(d.work()).isZero();
    }

    @Test
    void aSlingerHoldsAndNeverPumps() {
        // 0.5 * 1000 * (0.81 * 2000)^2 * 7e-4 = 918540 Pa at nine tenths of the nominal 0.9
        FluidState back = at(HELIUM, 1e5, 1000);
        double held = 918540;
        DrivingHead below = DrivingHead.of(slinger("bladed", 0), 1e-4, 2000, at(HELIUM, 6e5, 1000), back);
        assertThat(below.most()).isCloseTo(0.02 * held + 0.5, within(1e-6));
        DrivingHead above = DrivingHead.of(slinger("bladed", 0), 1e-4, 2000, at(HELIUM, 2.1e6, 1000), back);
        assertThat(above.most()).isCloseTo(2e6 - held + 0.02 * held + 2, within(1e-6));
        assertThat(above.along(false)).isNegative();
        DrivingHead reversed = DrivingHead.of(slinger("bladed", 0), 1e-4, 2000, back, at(HELIUM, 6e5, 1000));
        assertThat(reversed.most()).isEqualTo(-5e5);
        assertThat(reversed.along(true)).isNegative();
        assertThat(reversed.along(false)).isEqualTo(5e5);
        assertThat(above.work()).isZero();
        // a smooth disc: (0.45 / 0.81)^2 of it; a stated swirl of 1: (0.9 / 0.81)^2
        assertThat(DrivingHead.of(slinger("smooth", 0), 1e-4, 2000, at(HELIUM, 6e5, 1000), back)
                        .most())
                .isCloseTo(5e5 - held * 0.2025 / 0.6561 + 0.02 * held * 0.2025 / 0.6561 + 0.5, within(1e-6));
        assertThat(DrivingHead.of(slinger("smooth", 1), 1e-4, 2000, at(HELIUM, 6e5, 1000), back)
                        .most())
                .isCloseTo(0.02 * held * 0.81 / 0.6561 + 0.5, within(1e-6));
    }

    @Test
    void groovesHoldByViscosity() {
        // 6 mu U L / (11 c^2) = 6 * 1.99e-5 * 60 * 0.02 / (11 * 1e-8)
        double held = 6 * 1.99e-5 * 2000 * 0.03 * 0.02 / (11 * 1e-8);
        DrivingHead d = DrivingHead.of(slinger("grooved", 0), 1e-4, -2000, gas(1e5 + 2000), gas(1e5));
        assertThat(held).isBetween(1000.0, 2000.0);
        assertThat(d.most()).isCloseTo(2000 - held + 0.02 * held + 0.002, within(1e-9));
    }

    /** Of every type, at every bound: the sign of the flow, and no more speed than the drive gives. */
    @Test
    void everyTypeFollowsIt() {
        SplittableRandom r = new SplittableRandom(20260101);
        int flowed = 0;
        for (int i = 0; i < SAMPLES; i++) {
            for (PassageType type : PassageTypes.all()) {
                if ("hydrodynamic face".equals(type.key())) {
                    continue;
                }
                PassageSpec spec = PassageLawTest.spec(type.key(), r.nextDouble(), r.nextDouble(), 1 + r.nextInt(7));
                if ("face".equals(type.key()) && r.nextBoolean()) {
                    spec = with(spec, "from at", "inner");
                }
                if ("line".equals(type.key())) {
                    spec = with(spec, "elevation", 200 * (r.nextDouble() - 0.5));
                }
                if ("slinger".equals(type.key()) && r.nextInt(3) == 0) {
                    spec = with(spec, "surface", r.nextBoolean() ? "grooved" : "smooth");
                }
                double speed = r.nextInt(4) == 0 ? 0 : 4000 * r.nextDouble();
                Conditions.Bound bound = Conditions.Bound.values()[r.nextInt(3)];
                Passage passage = type.build(spec, new Conditions(speed, Double.NaN, bound));
                Fluid fluid = r.nextInt(3) == 0 ? StiffLiquid.WATER : r.nextBoolean() ? HELIUM : AIR;
                double high = 1e5 * Math.pow(50, r.nextDouble());
                double other = high * (1 - (r.nextInt(3) == 0 ? 1e-3 : 0.9) * r.nextDouble());
                boolean forward = r.nextBoolean();
                FluidState from = fluid.atPressureTemperature(forward ? high : other, 295);
                FluidState to = fluid.atPressureTemperature(forward ? other : high, 295 + 20 * r.nextDouble());
                PassageFlow flow = passage.flow(from, to);
                DrivingHead drive = DrivingHead.of(spec, spec.number("gap", Double.NaN), speed, from, to);
                String what = type.key() + " " + spec.fields() + " " + speed + " rad/s " + bound + " " + from.pressure()
                        + " Pa > " + to.pressure() + " Pa " + fluid.name() + ": " + flow.massFlow() + " kg/s, " + drive;
                if (flow.massFlow() != 0) {
                    boolean on = flow.massFlow() > 0;
                    FluidState up = on ? from : to;
                    assertThat(drive.along(on)).as(what).isGreaterThanOrEqualTo(-1e-6 * high);
                    assertThat(Math.abs(flow.gapVelocity()))
                            .as(what)
                            .isLessThanOrEqualTo(
                                    1.45 * Math.sqrt(2 * Math.max(drive.along(on), 1e-6 * high) / up.density()));
                    flowed++;
                }
            }
        }
        assertThat(flowed).isGreaterThan((int) (10 * SAMPLES));
    }

    private static PassageSpec with(PassageSpec s, String field, Object value) {
        Map<String, Object> fields = new HashMap<>(s.fields());
        fields.put(field, value);
        return PassageChecks.spec(s.type(), s.radius(), s.clearance(), fields);
    }

    /** A state of any density: the head asks for no more of it. */
    private static FluidState at(PerfectGas fluid, double pressure, double density) {
        FluidState s = fluid.atPressureTemperature(pressure, 300);
        return new FluidState(
                fluid,
                pressure,
                300,
                density,
                s.enthalpy(),
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                false);
    }
}
