package purgewright.fluids.phase;

import java.util.Map;
import purgewright.fluids.PropertyException;
import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

/**
 * Liquid and vapour in equilibrium, straight from the equation: equal pressure and equal Gibbs energy at one temperature, by
 * Newton's method in the two densities. Slow and exact; {@link SaturationLine} holds expansions of its results.
 */
public final class SaturationSolver {
    private final HelmholtzEquation equation;
    private final double[] pressureGuess;
    private final double[] liquidGuess;
    private final double[] vapourGuess;
    private final double molarMass;
    private final String name;

    /** @param coefficients a fluid's file */
    public SaturationSolver(Coefficients coefficients, HelmholtzEquation equation) {
        this.equation = equation;
        name = coefficients.text("name");
        molarMass = equation.molarMass();
        pressureGuess = coefficients.numbers("guess.pressure");
        liquidGuess = coefficients.numbers("guess.liquid");
        vapourGuess = coefficients.numbers("guess.vapour");
    }

    /**
     * Both phases at one temperature.
     *
     * @param temperature K
     * @param pressure Pa
     * @param liquidDensity kg/m3
     * @param vapourDensity kg/m3
     */
    public record Pair(double temperature, double pressure, double liquidDensity, double vapourDensity) {}

    /** The critical point of the equation itself: both derivatives of pressure over density vanish. */
    public record Critical(double temperature, double pressure, double density) {}

    /** Rough vapour pressure, Pa. */
    double guessPressure(double temperature) {
        return guess(pressureGuess, temperature, false);
    }

    private static double guess(double[] g, double temperature, boolean liquid) {
        double theta = Math.max(0, 1 - temperature / g[0]);
        double sum = 0;
        for (int i = 3; i < g.length; i += 2) {
            sum += g[i] * Math.pow(theta, g[i + 1]);
        }
        return liquid ? g[1] * (1 + sum) : g[1] * Math.exp((g[2] != 0 ? g[0] / temperature : 1) * sum);
    }

    /** The equilibrium at a temperature (K) from the coefficient file's rough line. */
    public Pair solve(double temperature) {
        return solve(
                temperature,
                guess(liquidGuess, temperature, true) * molarMass,
                guess(vapourGuess, temperature, false) * molarMass);
    }

    /** The equilibrium at a temperature (K) from guessed densities (kg/m3). */
    public Pair solve(double temperature, double liquidGuess, double vapourGuess) {
        Workspace w = equation.workspace();
        equation.setTemperature(w, temperature);
        double rt = equation.gasConstant() * temperature;
        double liquid = liquidGuess;
        double vapour = vapourGuess;
        double best = Double.POSITIVE_INFINITY;
        double pressure = Double.NaN;
        int stalled = 0;
        for (int i = 0; i < 200; i++) {
            equation.setDensity(w, liquid);
            double pl = equation.pressure(w);
            double dpl = equation.pressureSlope(w);
            double gl = equation.reducedGibbs(w);
            equation.setDensity(w, vapour);
            double pv = equation.pressure(w);
            double dpv = equation.pressureSlope(w);
            double gv = equation.reducedGibbs(w);
            // d(g/RT) = dp/(rho RT); solve pl + dpl x = pv + dpv y, gl + dpl x/(rhol RT) = gv + dpv y/(rhov RT)
            double dp = pv - pl;
            double dg = (gv - gl) * rt;
            double b = (dg - dp / liquid) / (1 / liquid - 1 / vapour);
            double x = (dp + b) / dpl;
            double y = b / dpv;
            double limit = 0.2;
            double scale = 1;
            if (Math.abs(x) > limit * liquid) {
                scale = limit * liquid / Math.abs(x);
            }
            if (Math.abs(y) > limit * vapour) {
                scale = Math.min(scale, limit * vapour / Math.abs(y));
            }
            // never let the phases meet
            double gap = liquid - vapour;
            if ((y - x) * scale > 0.5 * gap) {
                scale = 0.5 * gap / (y - x);
            }
            if (!(dpl > 0) || !(dpv > 0)) {
                // a guess inside the spinodal: move apart
                liquid = dpl > 0 ? liquid : liquid + 0.1 * gap;
                vapour = dpv > 0 ? vapour : Math.max(vapour - 0.1 * gap, 0.5 * vapour);
                continue;
            }
            liquid += scale * x;
            vapour += scale * y;
            pressure = pv + scale * y * dpv;
            double change = Math.max(Math.abs(x) / liquid, Math.abs(y) / vapour);
            if (change < 1e-15) {
                best = change;
                break;
            }
            if (change < 0.5 * best) {
                best = change;
                stalled = 0;
            } else if (best < 1e-7 && ++stalled >= 3) {
                break; // rounding
            }
        }
        if (!(best < 1e-5) || !(liquid > vapour)) {
            throw new PropertyException(
                    PropertyException.Key.NO_CONVERGENCE,
                    Map.of("fluid", name, "temperature", temperature, "best change", best));
        }
        return new Pair(temperature, pressure, liquid, vapour);
    }

    /** Finds the critical point by Newton's method from the published one. */
    public Critical critical(double publishedTemperature, double publishedDensity) {
        Workspace w = equation.workspace();
        double t = publishedTemperature;
        double rho = publishedDensity;
        if (equation.hasThirdDerivative()) {
            for (int i = 0; i < 100; i++) {
                double step = 1e-6 * t;
                double[] f = flatness(w, t, rho);
                double[] ft = flatness(w, t + step, rho);
                double[] fb = flatness(w, t - step, rho);
                double[] fr = flatness(w, t, rho * (1 + 1e-6));
                double[] fl = flatness(w, t, rho * (1 - 1e-6));
                double a = (ft[0] - fb[0]) / (2 * step);
                double b = (fr[0] - fl[0]) / (2e-6 * rho);
                double c = (ft[1] - fb[1]) / (2 * step);
                double d = (fr[1] - fl[1]) / (2e-6 * rho);
                double det = a * d - b * c;
                double dt = -(d * f[0] - b * f[1]) / det;
                double dr = -(a * f[1] - c * f[0]) / det;
                dt = Math.max(-0.01 * t, Math.min(0.01 * t, dt));
                dr = Math.max(-0.03 * rho, Math.min(0.03 * rho, dr));
                t += dt;
                rho += dr;
                if (Math.abs(dt) < 1e-15 * t && Math.abs(dr) < 1e-13 * rho) {
                    break;
                }
            }
        }
        equation.setTemperature(w, t);
        equation.setDensityForPressure(w, rho);
        return new Critical(t, equation.pressure(w), rho);
    }

    private double[] flatness(Workspace w, double temperature, double density) {
        equation.setTemperature(w, temperature);
        equation.setDensityForPressure(w, density);
        return new double[] {1 + w.a10() + w.a20(), w.a20() + w.a30()};
    }
}
