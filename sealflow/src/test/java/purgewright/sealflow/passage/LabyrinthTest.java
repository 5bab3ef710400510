package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.sealflow.passage.Throttle.Flashing;

/** Teeth in series, fluid by fluid: each passes the same flow from the chamber before it, however the chambers were found. */
@DisplayName("Every tooth of a labyrinth passes the same flow, and the bulk laws are what their formulas say")
class LabyrinthTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final double AREA = 2e-5;

    private static Labyrinth labyrinth(int teeth, double carryOver, double condition, double fixed) {
        return new Labyrinth(AREA, teeth, carryOver, condition, fixed, Flashing.EQUILIBRIUM);
    }

    private static void near(double value, double expected, double relative, Object what) {
        assertThat(expected).as("%s", what).isFinite();
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.abs(expected)));
    }

    private static FluidState upstream(String name) {
        return switch (name) {
            case "air" -> AIR.atPressureTemperature(1e6, 300);
            case "helium" -> ENGINE.pure("helium").atPressureTemperature(2e6, 120);
            case "cold oxygen" -> ENGINE.pure("oxygen").atPressureTemperature(3e6, 95);
            case "oxygen about to boil" -> ENGINE.pure("oxygen").atPressureTemperature(2e6, 128);
            case "boiling methane" -> ENGINE.pure("methane").atPressureQuality(1e6, 0.2);
            case "dense nitrogen" -> ENGINE.pure("nitrogen").atPressureTemperature(1.2e7, 140);
            default -> throw new IllegalArgumentException(name);
        };
    }

    /** The chambers' pressures and the flow, tried on one throttle after another: continuity and total enthalpy alone. */
    @ParameterizedTest
    @CsvSource({
        "air, 0.2, 1e-9",
        "air, 0.6, 1e-9",
        "air, 0.98, 1e-9",
        "helium, 0.1, 1e-4",
        "helium, 0.8, 1e-4",
        "cold oxygen, 0.3, 1e-4",
        "oxygen about to boil, 0.3, 2e-4",
        "boiling methane, 0.4, 2e-4",
        "boiling methane, 0.9, 2e-4",
        "dense nitrogen, 0.2, 2e-4",
        "dense nitrogen, 0.7, 2e-4"
    })
    void everyToothPassesTheFlow(String name, double ratio, double tolerance) {
        FluidState up = upstream(name);
        double down = ratio * up.pressure();
        for (int teeth : new int[] {1, 2, 5}) {
            for (double fixed : new double[] {Double.NaN, 0.7}) {
                Labyrinth seal = labyrinth(teeth, 1.3, 0.9, fixed);
                Labyrinth.Result result = seal.solve(up, down);
                assertThat(result.stages()).hasSize(teeth);
                near(result.stages()[teeth - 1], down, 1e-12, name);
                assertThat(result.extrapolated()).isFalse();
                assertThat(result.marched()).as("%s, %s teeth", name, teeth).isFalse();
                boolean boils = false;
                for (int i = 0; i < teeth - 1; i++) {
                    boils |= up.fluid()
                                    .atPressureEnthalpy(result.stages()[i], up.enthalpy())
                                    .phase()
                            == Phase.TWO_PHASE;
                }
                assertThat(result.flashed()).as(name).isEqualTo(boils && up.phase() != Phase.TWO_PHASE);
                double before = up.pressure();
                for (int i = 0; i < teeth; i++) {
                    FluidState chamber = i == 0 ? up : up.fluid().atPressureEnthalpy(before, up.enthalpy());
                    double behind = result.stages()[i];
                    assertThat(behind).isLessThan(before);
                    Labyrinth.Result one = new Labyrinth(
                                    AREA * (i > 0 ? 1.3 : 1), 1, 1, 0.9, fixed, Flashing.EQUILIBRIUM)
                            .solve(chamber, behind);
                    near(result.massFlow(), one.massFlow(), tolerance, name + ", tooth " + i + " of " + teeth);
                    if (i == teeth - 1) {
                        near(result.throatPressure(), one.throatPressure(), 1e-3, name);
                        assertThat(result.choked()).isEqualTo(one.choked());
                    } else {
                        // only the last tooth may choke
                        assertThat(one.choked())
                                .as("%s, tooth %s of %s", name, i, teeth)
                                .isFalse();
                    }
                    before = behind;
                }
                if (!Double.isNaN(fixed)) {
                    Throttle.Flux flux = Throttle.flux(up, result.stages()[0], Flashing.EQUILIBRIUM);
                    near(result.massFlow(), AREA * 0.9 * 0.7 * flux.flux(), tolerance, name);
                }
            }
        }
    }

    /** The way that is left where Newton's method does not settle: from upstream, chamber by chamber, with a bracket on the flow. */
    @ParameterizedTest
    @ValueSource(
            strings = {"air", "helium", "cold oxygen", "oxygen about to boil", "boiling methane", "dense nitrogen"})
    void marchingFindsTheFlowThatNewtonsMethodFinds(String name) {
        FluidState up = upstream(name);
        for (double ratio : new double[] {0.1, 0.5, 0.95}) {
            for (int teeth : new int[] {2, 6}) {
                Labyrinth.Work work = labyrinth(teeth, 1.2, 1, Double.NaN).plainFlow(up, ratio * up.pressure());
                double mass = work.mass;
                double[] stages = work.stages();
                near(work.march(), mass, 2e-5, name + " to " + ratio + ", " + teeth);
                for (int i = 0; i < teeth; i++) {
                    near(work.stages()[i], stages[i], 1e-4, name + ", tooth " + i);
                }
            }
        }
    }

    /** First guess and slopes are there for speed alone: steps of Newton's method over the cases here, as they are at present. */
    @ParameterizedTest
    @CsvSource({
        "air, 154, 154",
        "helium, 190, 190",
        "cold oxygen, 124, 124",
        "oxygen about to boil, 360, 360",
        "boiling methane, 222, 222",
        "dense nitrogen, 168, 168"
    })
    void newtonsMethodKeepsWithinItsBudget(String name, int plain, int quick) {
        FluidState up = upstream(name);
        int[] steps = new int[2];
        for (double ratio : new double[] {0.02, 0.1, 0.3, 0.5, 0.7, 0.9, 0.98}) {
            for (int teeth : new int[] {2, 4, 9}) {
                for (double fixed : new double[] {Double.NaN, 0.7}) {
                    Labyrinth seal = labyrinth(teeth, 1.2, 1, fixed);
                    steps[0] += seal.plainFlow(up, ratio * up.pressure()).steps;
                    steps[1] += seal.flow(up, ratio * up.pressure()).steps;
                }
            }
        }
        // the last bits of logarithms differ between machines, and with them now and then a step
        assertThat(steps[0]).as(name).isCloseTo(plain, within(1 + plain / 100));
        assertThat(steps[1]).as(name).isCloseTo(quick, within(1 + quick / 100));
    }

    @Test
    void atRestEveryChamberHasTheUpstreamPressure() {
        FluidState up = upstream("helium");
        Labyrinth seal = labyrinth(4, 1.2, 1, Double.NaN);
        seal.solve(up, 0.5 * up.pressure());
        Labyrinth.Result rest = seal.solve(up, up.pressure());
        assertThat(rest.massFlow()).isZero();
        assertThat(rest.stages()).containsOnly(up.pressure());
        assertThat(rest.throatPressure()).isEqualTo(up.pressure());
        assertThat(rest.choked()).isFalse();
    }

    /** Asked of the fluid or of a line of its states: the same flow. */
    @ParameterizedTest
    @ValueSource(strings = {"helium", "cold oxygen", "oxygen about to boil", "boiling methane", "dense nitrogen"})
    void theQuickWayPassesWhatThePlainOneDoes(String name) {
        FluidState up = upstream(name);
        Labyrinth seal = labyrinth(6, 1.2, 1, Double.NaN);
        for (double ratio : new double[] {0, 1e-3, 0.2, 0.5, 0.9, 0.999}) {
            double quick = seal.flow(up, ratio * up.pressure()).mass;
            double plain = seal.plainFlow(up, ratio * up.pressure()).mass;
            near(quick, plain, 3e-3, name + " to " + ratio);
            assertThat(quick).isPositive();
        }
        assertThat(seal.flow(up, up.pressure()).mass).isZero();
        assertThat(seal.flow(up, 1.1 * up.pressure()).mass).isZero();
        // into a vacuum it is choked, and passes what it passes to any low pressure
        Labyrinth.Result vacuum = seal.solve(up, 0);
        assertThat(vacuum.choked()).isTrue();
        near(vacuum.massFlow(), seal.solve(up, 1e-3 * up.pressure()).massFlow(), 1e-3, name);
    }

    /** An orifice's worth of incompressible fluid: N equal teeth with carry-over mu pass 1/sqrt(1 + (N - 1)/mu^2) of one. */
    @Test
    void teethOfALiquidAreResistancesInSeries() {
        FluidState up = upstream("cold oxygen");
        double down = up.pressure() - 2e5;
        double one = labyrinth(1, 1.4, 1, 0.6).solve(up, down).massFlow();
        for (int teeth : new int[] {2, 4, 9}) {
            near(
                    labyrinth(teeth, 1.4, 1, 0.6).solve(up, down).massFlow(),
                    one / Math.sqrt(1 + (teeth - 1) / (1.4 * 1.4)),
                    2e-3,
                    teeth);
        }
        near(one, AREA * 0.6 * Math.sqrt(2 * up.density() * 2e5), 2e-3, "Torricelli");
    }

    /** At rest flow is linear in the pressure difference: slopes of teeth in series add as resistances, the first without carry-over. */
    @Test
    void slopesAtRestAddAsResistances() {
        FluidState up = upstream("air");
        double first = labyrinth(1, 1, 0.8, 0.65).slopeAtRest(up);
        near(first, AREA * 0.8 * 0.65 * Throttle.slopeAtRest(up), 1e-12, "one tooth");
        near(
                labyrinth(1, 1.5, 0.8, Double.NaN).slopeAtRest(up),
                AREA * 0.8 * Math.PI / (Math.PI + 2) * Throttle.slopeAtRest(up),
                1e-12,
                "0.611");
        for (int teeth : new int[] {2, 7}) {
            double later = 1.5 * first;
            near(1 / labyrinth(teeth, 1.5, 0.8, 0.65).slopeAtRest(up), 1 / first + (teeth - 1) / later, 1e-12, teeth);
        }
    }

    // ---- bulk laws

    /** Stodola's two branches, and between them a rounded corner: the slope is the difference quotient's from both sides. */
    @ParameterizedTest
    @ValueSource(ints = {1, 5, 14, 40})
    void stodolasCornerIsRounded(int teeth) {
        double p0 = 1e6;
        double rho0 = 10;
        double c = 1 / (teeth + 1.5);
        double unit = AREA * Math.sqrt(p0 * rho0);
        double width = Math.min(0.1, 1.4 / teeth);
        for (double part : new double[] {0.05, 0.5, 1 - width - 1e-6}) {
            double b = Math.sqrt(1 - teeth * part * c);
            near(Labyrinth.stodola(AREA, teeth, p0, rho0, b * p0), unit * Math.sqrt(part * c), 1e-9, part);
        }
        near(
                Labyrinth.stodola(AREA, teeth, p0, rho0, 0.01 * p0),
                unit * Math.sqrt(Math.min(c, 0.9999 / teeth)),
                1e-9,
                "choked");
        near(Labyrinth.stodola(AREA, teeth, p0, rho0, 1.1 * p0) + 1, 1, 1e-15, "against the flow");
        // over the corner: never above the held value, rising, without a step or a kink
        double last = 0;
        double lastSlope = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= 200; i++) {
            double x = c * (1 - 1.2 * width + 2.2 * width * i / 200);
            if (teeth * x >= 1) {
                break;
            }
            double m = Labyrinth.stodola(AREA, teeth, p0, rho0, p0 * Math.sqrt(1 - teeth * x)) / unit;
            double held = m * m;
            assertThat(held).isLessThanOrEqualTo(c * (1 + 1e-12)).isLessThanOrEqualTo(x * (1 + 1e-9));
            if (i > 0) {
                double slope = (held - last) / (c * 2.2 * width / 200);
                assertThat(slope).isBetween(-1e-6, lastSlope + 1e-6);
                if (i > 1) {
                    assertThat(lastSlope - slope).isLessThan(0.02);
                }
                lastSlope = slope;
            }
            last = held;
        }
        near(last, Math.min(c, 1.0 / teeth), 0.02, "held");
    }
}
