package purgewright.fluids.helmholtz;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.Engines;

/** The equation against itself: limits of small density, and derivatives against differences. Its values are held by published tables. */
@DisplayName("One equation, by limits and differences")
class HelmholtzEquationTest {
    static Stream<String> fluids() {
        return Engines.embedded().fluidNames().stream();
    }

    private static HelmholtzEquation equation(String fluid) {
        return new HelmholtzEquation(Coefficients.read(fluid + ".eos"));
    }

    private static HelmholtzEquation.Workspace at(HelmholtzEquation equation, double temperature, double density) {
        HelmholtzEquation.Workspace w = equation.workspace();
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        equation.setDensity(w, density);
        return w;
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theSecondVirialCoefficientIsTheSlopeOfCompressibilityAtNoDensity(String fluid) {
        HelmholtzEquation equation = equation(fluid);
        for (double ratio : new double[] {0.75, 0.95, 1.3, 2.1}) {
            double t = ratio * equation.reducingTemperature();
            double density = 1e-5 * equation.reducingDensity();
            HelmholtzEquation.Workspace w = at(equation, t, density);
            double z = equation.pressure(w) / (density * equation.gasConstant() * t);
            double b = equation.secondVirial(w);
            assertThat((z - 1) / density)
                    .as("%s at %s K", fluid, t)
                    .isCloseTo(b, within(2e-4 / equation.reducingDensity()));
        }
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theIdealGasIsTheFluidAtNoDensity(String fluid) {
        HelmholtzEquation equation = equation(fluid);
        for (double ratio : new double[] {0.9, 1.7}) {
            double t = ratio * equation.reducingTemperature();
            double density = 1e-9 * equation.reducingDensity();
            HelmholtzEquation.Workspace w = at(equation, t, density);
            double r = equation.gasConstant();
            assertThat(equation.enthalpy(w)).isCloseTo(equation.idealEnthalpy(w), within(1e-6 * r * t));
            assertThat(equation.entropy(w)).isCloseTo(equation.idealEntropy(w, density), within(1e-6 * r));
            assertThat(equation.isochoricHeatCapacity(w))
                    .isCloseTo(equation.idealIsochoricHeatCapacity(w), within(1e-6 * r));
        }
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void derivativesOverDensityAreThoseOfDifferencesAndTheQuickSetAgrees(String fluid) {
        HelmholtzEquation equation = equation(fluid);
        for (double ratio : new double[] {0.8, 1.02, 1.6}) {
            for (double reduced : new double[] {0.05, 0.6, 1.1, 2.4}) {
                double t = ratio * equation.reducingTemperature();
                double density = reduced * equation.reducingDensity();
                double step = 1e-5 * density;
                HelmholtzEquation.Workspace w = at(equation, t, density);
                HelmholtzEquation.Workspace more = at(equation, t, density + step);
                HelmholtzEquation.Workspace less = at(equation, t, density - step);
                double rt = equation.gasConstant() * t;
                String where = fluid + " at " + t + " K, " + density + " kg/m3";
                double slope = (equation.pressure(more) - equation.pressure(less)) / (2 * step);
                double scale = rt * (1 + Math.abs(w.a10()) + Math.abs(w.a20()) + Math.abs(w.a30()));
                assertThat(equation.pressureSlope(w)).as(where).isCloseTo(slope, within(1e-6 * scale));

                HelmholtzEquation.Workspace quick = equation.workspace();
                equation.setTemperature(quick, t);
                equation.setDensityForPressure(quick, density);
                assertThat(quick.a10()).as(where).isCloseTo(w.a10(), within(1e-11 * (1 + Math.abs(w.a10()))));
                assertThat(quick.a20()).as(where).isCloseTo(w.a20(), within(1e-11 * (1 + Math.abs(w.a20()))));
                if (equation.hasThirdDerivative()) {
                    double curvature = (equation.pressureSlope(more) - equation.pressureSlope(less)) / (2 * step);
                    assertThat(equation.pressureCurvature(quick))
                            .as(where)
                            .isCloseTo(curvature, within(1e-5 * scale / density));
                }
            }
        }
    }
}
