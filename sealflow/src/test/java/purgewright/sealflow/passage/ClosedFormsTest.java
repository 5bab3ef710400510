package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.FluidState;

@DisplayName(
        "Closed forms of friction, contraction and openings, each against its formula written out again, slopes against differences")
class ClosedFormsTest {
    private static final double[] ROUGHNESS = {0, 1e-5, 1e-3, 0.05};

    private static double churchill(double re, double roughness, double laminar) {
        double a = Math.pow(2.457 * Math.log(1 / (Math.pow(7 / re, 0.9) + 0.27 * roughness)), 16);
        double b = Math.pow(37530 / re, 16);
        // 64/Re = 8 (8/Re), so that another laminar law goes in the place of it
        return 8 * Math.pow(Math.pow(laminar / (8 * re), 12) + Math.pow(a + b, -1.5), 1.0 / 12);
    }

    @Test
    void churchillsFrictionAndItsExponent() {
        Friction.Factor f = new Friction.Factor();
        for (double laminar : new double[] {64, 96}) {
            for (double roughness : ROUGHNESS) {
                for (double re = 3; re < 3e8; re *= 1.37) {
                    String what = re + ", " + roughness + ", " + laminar;
                    f.churchill(re, roughness, laminar);
                    double exact = churchill(re, roughness, laminar);
                    assertThat(f.value).as(what).isCloseTo(exact, within(1e-11 * exact));
                    double step = 1e-5;
                    double exponent = Math.log(churchill(re * (1 + step), roughness, laminar)
                                    / churchill(re * (1 - step), roughness, laminar))
                            / Math.log((1 + step) / (1 - step));
                    assertThat(f.exponent).as(what).isCloseTo(exponent, within(1e-7));
                }
            }
        }
        f.churchill(1000, 1e-3, 64);
        assertThat(f.value).isCloseTo(0.064, within(1e-12));
    }

    @Test
    void theCurvatureOfFrictionIsNearThatOfTheExponent() {
        Friction.Factor f = new Friction.Factor();
        Friction.Factor up = new Friction.Factor();
        Friction.Factor down = new Friction.Factor();
        double step = 1e-4;
        double width = Math.log((1 + step) / (1 - step));
        for (double surface : new double[] {0, 30, 150}) {
            for (double re = 200; re < 1e6; re *= 1.17) {
                double axial = re / 100;
                f.rotating(re, axial, 1.1, surface, 1e-3, 96);
                double curvature = f.curvature();
                up.rotating(re * (1 + step), axial * Math.pow(1 + step, 1.1), 1.1, surface, 1e-3, 96);
                down.rotating(re * (1 - step), axial * Math.pow(1 - step, 1.1), 1.1, surface, 1e-3, 96);
                double exact = (up.exponent - down.exponent) / width;
                // Up to 5 in transition; smooth and rough turbulent flow alone bend by less than 0.1.
                assertThat(curvature).as("%s, %s", re, surface).isCloseTo(exact, within(0.1 + 0.1 * Math.abs(exact)));
            }
        }
    }

    @Test
    void aTurningWallStretchesFrictionAndItsExponentFollows() {
        Friction.Factor f = new Friction.Factor();
        for (double axial : new double[] {20, 100, 400}) {
            double surface = 150;
            double re = 200 * axial;
            double stretch = Math.hypot(1, 7.0 / 16 * surface / axial);
            f.rotating(re, axial, 1.3, surface, 1e-4, 96);
            assertThat(f.value).isCloseTo(stretch * churchill(re * stretch, 1e-4, 96), within(1e-12));
            // Re goes as the mass flux, the velocity as its power 1.3
            double step = 1e-5;
            Friction.Factor up = new Friction.Factor();
            Friction.Factor down = new Friction.Factor();
            up.rotating(re * (1 + step), axial * Math.pow(1 + step, 1.3), 1.3, surface, 1e-4, 96);
            down.rotating(re * (1 - step), axial * Math.pow(1 - step, 1.3), 1.3, surface, 1e-4, 96);
            double exponent = Math.log(up.value / down.value) / Math.log((1 + step) / (1 - step));
            assertThat(f.exponent).isCloseTo(exponent, within(1e-7));
        }
        f.rotating(5000, 20, 1.3, 0, 1e-4, 96);
        assertThat(f.value).isCloseTo(churchill(5000, 1e-4, 96), within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"-0.1, 0", "0, 0", "0.5, 0.5", "0.9, 0.9", "1.0, 0.975", "1.05, 0.99375", "1.1, 1", "2, 1"})
    void theJetsContractionIsCappedSmoothlyAtTheSonicLine(double machSquared, double share) {
        assertThat(Contraction.capped(machSquared)).isCloseTo(share, within(1e-15));
        for (double ratio : new double[] {1.4, 5.0 / 3, 2}) {
            double s = 0.5 * (Math.min(ratio, 5.0 / 3) - 1) * share * 0.8;
            double coefficient = Math.PI / (Math.PI + 2 - 5 * s + 2 * s * s);
            assertThat(Contraction.ofJet(machSquared, ratio, 0.8)).isCloseTo(coefficient, within(1e-15));
            double step = 1e-6;
            double slope = (Contraction.ofJet(machSquared + step, ratio, 0.8)
                            - Contraction.ofJet(machSquared - step, ratio, 0.8))
                    / (2 * step);
            if (machSquared > 0) {
                assertThat(Contraction.slope(machSquared, ratio, 0.8)).isCloseTo(slope, within(2e-6));
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"0.5, 1", "1, 1", "1.1, 0.896", "1.25, 0.5", "1.4, 0.104", "1.5, 0", "2, 0", "NaN, 1"})
    void towardsALiquidTheJetBecomesIncompressible(double densityRatio, double fade) {
        assertThat(Contraction.fade(densityRatio * 300, 300)).isCloseTo(fade, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"1, 0", "1.4, 0.2", "1.6666666666666667, 0.3333333333333333", "2, 0.3333333333333333", "0.5, 0"})
    void theLimitIsHalfOfKLessOne(double ratio, double limit) {
        assertThat(Contraction.limit(ratio)).isCloseTo(limit, within(1e-15));
    }

    private static Passage orifice(double thickness) {
        return PassageTypes.find("orifice")
                .orElseThrow()
                .build(
                        PassageChecks.spec(
                                "orifice", Double.NaN, Double.NaN, Map.of("diameter", 2e-3, "thickness", thickness)),
                        new Conditions(0, Double.NaN, Conditions.Bound.NOMINAL));
    }

    @Test
    void anOpeningGoesFromSharpToMouthpieceWithItsThickness() {
        double area = Math.PI * 1e-6;
        FluidState up = StiffLiquid.WATER.atPressureTemperature(2e5, 293);
        FluidState down = StiffLiquid.WATER.atPressureTemperature(1e5, 293);
        double ideal =
                area * Throttle.flux(up, 1e5, Throttle.Flashing.EQUILIBRIUM).flux();
        double sharp = Math.PI / (Math.PI + 2);
        assertThat(orifice(0).flow(up, down).massFlow()).isCloseTo(sharp * ideal, within(1e-9 * ideal));
        double thick = orifice(4e-3).flow(up, down).massFlow();
        assertThat(thick).isCloseTo(0.81 * ideal, within(1e-9 * ideal));
        assertThat(orifice(8e-3).flow(up, down).massFlow()).isEqualTo(thick);
        double between = orifice(2e-3).flow(up, down).massFlow() / ideal;
        assertThat(between).isBetween(sharp + 0.02, 0.81 - 0.02);
        // What diffuses sees the bore and its length with an end.
        assertThat(orifice(3e-3).diffusionArea()).isCloseTo(area, within(1e-18));
        assertThat(orifice(3e-3).diffusionLength()).isCloseTo(3e-3 + 0.8 * 2e-3, within(1e-15));
        assertThat(orifice(0).surfaceSpeed()).isZero();
        assertThat(orifice(0).gap()).isZero();
        // At rest the slope is that of the least difference.
        FluidState near = StiffLiquid.WATER.atPressureTemperature(2e5 - 1e-4, 293);
        double slope = orifice(4e-3).flow(up, near).massFlow() / 1e-4;
        assertThat(slope).isCloseTo(0.81 * area * Throttle.slopeAtRest(up), within(0.01 * slope));
    }

    @Test
    void theLeastFlowOfARimAndItsEffectivenessThereAndBack() {
        double circumference = 2 * Math.PI * 0.15 * 0.4e-3;
        assertThat(RimSealing.minimumFlow(RimSealing.Shape.AXIAL, 3, 0.15, 0.4e-3, -2000))
                .isCloseTo(0.0838 * circumference * 3 * 2000 * 0.15, within(1e-15));
        assertThat(RimSealing.minimumFlow(RimSealing.Shape.RADIAL, 3, 0.15, 0.4e-3, 2000))
                .isCloseTo(0.0317 * circumference * 3 * 2000 * 0.15, within(1e-15));
        assertThat(RimSealing.minimumFlowExternal(3, 0.15, 0.4e-3, 2000))
                .isCloseTo(0.6 * circumference * Math.sqrt(2 * 3 * 2000), within(1e-15));
        for (RimSealing.Shape shape : RimSealing.Shape.values()) {
            double g = shape.coefficientRatio();
            for (double e : new double[] {0.1, 0.5, 0.9, 0.999}) {
                double pumping = e / ((1 + Math.sqrt(1 - e)) * Math.sqrt(1 + (1 - e) / (g * g)));
                double external = e / Math.pow(1 + Math.pow(g, -2.0 / 3) * Math.pow(1 - e, 2.0 / 3), 1.5);
                assertThat(RimSealing.effectivenessPumping(shape, pumping)).isCloseTo(e, within(1e-9));
                assertThat(RimSealing.effectivenessExternal(shape, external)).isCloseTo(e, within(1e-9));
            }
            assertThat(RimSealing.effectivenessPumping(shape, 1)).isEqualTo(1);
            assertThat(RimSealing.effectivenessPumping(shape, 0)).isZero();
            assertThat(RimSealing.effectivenessExternal(shape, -1)).isZero();
        }
        assertThat(RimSealing.Shape.AXIAL.pumpingMinimum()).isEqualTo(0.0838);
        assertThat(RimSealing.Shape.AXIAL.externalMinimum()).isEqualTo(0.326);
        assertThat(RimSealing.Shape.RADIAL.coefficientRatio()).isEqualTo(1.32);
    }

    @Test
    void dragOfAFaceLaminarAndTurbulent() {
        // Re = rho w (ri + ro)/2 h / mu
        double couette = Math.PI * 1e-3 * 1e6 * (Math.pow(0.04, 4) - Math.pow(0.03, 4)) / (2 * 20e-6);
        assertThat(FilmLaws.faceDrag(1000, 1e-3, 1000, 0.03, 0.04, 20e-6)).isCloseTo(couette, within(1e-9 * couette));
        double turbulent = couette * Math.pow(2.8, 0.75);
        assertThat(FilmLaws.faceDrag(4000, 1e-3, -1000, 0.03, 0.04, 20e-6))
                .isCloseTo(turbulent, within(1e-9 * turbulent));
    }

    @Test
    void slipFollowsTheKnudsenNumberAndLevelsOff() {
        PerfectGas helium = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
        FluidState up = helium.atPressureTemperature(4e5, 300);
        double path = 1.99e-5 / 1e5 * Math.sqrt(Math.PI * 2077.26 * 300 / 2);
        assertThat(FilmLaws.meanFreePath(1.99e-5, 1e5, 2077.26 * 300)).isCloseTo(path, within(1e-18));
        assertThat(FilmLaws.knudsen(up, 1e5, 1.99e-5, 2e-6)).isCloseTo(path / 2e-6, within(1e-9));
        assertThat(FilmLaws.knudsen(up, 0, 1.99e-5, 2e-6))
                .as("a vacuum is held at a thousandth")
                .isCloseTo(path * 1e5 / 400 / 2e-6, within(1e-6));
        assertThat(FilmLaws.slipFactor(0)).isEqualTo(1);
        assertThat(FilmLaws.slipFactor(0.05)).isCloseTo(1.3, within(1e-12));
        assertThat(FilmLaws.slipFactor(0.1)).isCloseTo(1.6, within(1e-12));
        assertThat(FilmLaws.slipFactor(0.2)).isCloseTo(1.6 + 0.6 * Math.tanh(1), within(1e-12));
    }
}
