package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.Engines;
import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

/** The stored expansions against the equations they were made from: fails when a coefficient file changes and they don't. */
class SaturationLineTest {
    static java.util.List<String> fluids() {
        return Engines.embedded().fluidNames();
    }

    private static Coefficients file(String fluid) {
        return Coefficients.read(fluid + ".eos");
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void bothPhasesHaveEqualPressureAndGibbsEnergyBetweenTheNodes(String fluid) {
        HelmholtzEquation equation = new HelmholtzEquation(file(fluid));
        SaturationLine line = new SaturationLine(Coefficients.read(fluid + ".sat"));
        Workspace w = equation.workspace();
        double end = line.x(line.tripleTemperature());
        for (int i = 1; i <= 500; i++) {
            double x = end * i / 500.3;
            double t = line.temperature(x);
            double rt = equation.gasConstant() * t;
            equation.setTemperature(w, t);
            equation.setDensity(w, line.liquidDensity(x));
            double pl = equation.pressure(w);
            double gl = equation.reducedGibbs(w);
            double dpl = equation.pressureSlope(w);
            double rho = w.density();
            equation.setDensity(w, line.vapourDensity(x));
            double pv = equation.pressure(w);
            double gv = equation.reducedGibbs(w);
            double p = line.pressure(x);
            assertThat(pv).as("vapour pressure at %s K", t).isCloseTo(p, within(2e-9 * p));
            // a liquid's pressure is stiff: measure by the density that would mend it
            assertThat((pl - p) / dpl / rho)
                    .as("liquid density at %s K", t)
                    .isCloseTo(0, within(1e-9 + 3e-14 / (x * x)));
            assertThat(gl - gv - (pl - p) / (rho * rt))
                    .as("Gibbs energy at %s K", t)
                    .isCloseTo(0, within(5e-10));
        }
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theCriticalPointIsTheEquationsOwn(String fluid) {
        Coefficients file = file(fluid);
        HelmholtzEquation equation = new HelmholtzEquation(file);
        SaturationLine line = new SaturationLine(Coefficients.read(fluid + ".sat"));
        Workspace w = equation.workspace();
        equation.setTemperature(w, line.criticalTemperature());
        equation.setDensityForPressure(w, line.criticalDensity());
        double rt = equation.gasConstant() * line.criticalTemperature();
        // the terms of water and carbon dioxide that are singular there leave a rest of 1e-4
        double rest = equation.hasThirdDerivative() ? 1e-9 : 1e-3;
        assertThat(equation.pressureSlope(w) / rt).isCloseTo(0, within(rest));
        assertThat(line.criticalPressure()).isCloseTo(equation.pressure(w), within(1e-10 * equation.pressure(w)));
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void temperatureOverPressureInvertsPressureOverTemperature(String fluid) {
        SaturationLine line = new SaturationLine(Coefficients.read(fluid + ".sat"));
        double end = line.x(line.tripleTemperature());
        for (int i = 1; i <= 1000; i++) {
            double x = end * i / 1000.7;
            double t = line.temperature(x);
            double back = line.temperature(line.xAtPressure(line.pressure(x)));
            assertThat(back).isCloseTo(t, within(2e-13 * t));
        }
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theLineIsTheSolversLine(String fluid) {
        HelmholtzEquation equation = new HelmholtzEquation(file(fluid));
        SaturationSolver solver = new SaturationSolver(file(fluid), equation);
        SaturationLine line = new SaturationLine(Coefficients.read(fluid + ".sat"));
        for (double x : new double[] {0.15, 0.3, 0.45, 0.6}) {
            double t = line.temperature(x);
            if (t <= line.tripleTemperature()) {
                continue;
            }
            var pair = solver.solve(t);
            assertThat(line.pressure(x)).isCloseTo(pair.pressure(), within(1e-10 * pair.pressure()));
            assertThat(line.liquidDensity(x)).isCloseTo(pair.liquidDensity(), within(1e-10 * pair.liquidDensity()));
            assertThat(line.vapourDensity(x)).isCloseTo(pair.vapourDensity(), within(1e-10 * pair.vapourDensity()));
        }
    }
}
