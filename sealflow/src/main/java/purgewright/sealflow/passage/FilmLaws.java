package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;

/**
 * Closed forms of thin films: the limits that the solvers must meet, and the pressure-profile factors that load faces.
 *
 * <p>Pressure-profile factor K = (mean film pressure - p2) / (p1 - p2), p1 the high and p2 the low pressure.
 */
public final class FilmLaws {
    private FilmLaws() {}

    /** Laminar isothermal gas flow in an annulus, {@code pi D h^3 (p1^2 - p2^2) / (24 mu R T L) (1 + 1.5 e^2)}, kg/s. */
    public static double annulusGas(
            double diameter,
            double gap,
            double length,
            double viscosity,
            double specificGasConstantTimesTemperature,
            double high,
            double low,
            double eccentricity) {
        return Math.PI
                * diameter
                * cube(gap)
                * (high * high - low * low)
                / (24 * viscosity * specificGasConstantTimesTemperature * length)
                * FrictionSlot.laminarFactor(eccentricity);
    }

    /** Laminar flow of a liquid in an annulus, {@code pi D h^3 dp / (12 mu L)}, m3/s. */
    public static double annulusLiquid(double diameter, double gap, double length, double viscosity, double dp) {
        return Math.PI * diameter * cube(gap) * dp / (12 * viscosity * length);
    }

    /** Laminar isothermal gas flow between faces, {@code pi h^3 (p1^2 - p2^2) / (12 mu R T ln(ro/ri))}, kg/s. */
    public static double faceGas(
            double inner,
            double outer,
            double gap,
            double viscosity,
            double specificGasConstantTimesTemperature,
            double high,
            double low) {
        return Math.PI
                * cube(gap)
                * (high * high - low * low)
                / (12 * viscosity * specificGasConstantTimesTemperature * Math.log(outer / inner));
    }

    /** Laminar flow of a liquid between faces, {@code pi h^3 dp / (6 mu ln(ro/ri))}, m3/s. */
    public static double faceLiquid(double inner, double outer, double gap, double viscosity, double dp) {
        return Math.PI * cube(gap) * dp / (6 * viscosity * Math.log(outer / inner));
    }

    /** Specific head of the centrifugal field with one face turning, {@code 3/20 w^2 (ro^2 - ri^2)}, J/kg. */
    public static double centrifugalHead(double speed, double inner, double outer) {
        return 0.15 * speed * speed * (outer * outer - inner * inner);
    }

    /**
     * Parallel gap that passes as much laminar flow as a film with linear taper: {@code h^3 = 2 h1^2 h2^2 / (h1 + h2)}.
     *
     * @param one thickness at the one edge, m
     * @param other thickness at the other, m
     */
    public static double equivalentGap(double one, double other) {
        return Math.cbrt(2 * one * one * other * other / (one + other));
    }

    /** Pressure-profile factor of a liquid in a narrow coned film, {@code h1 / (h1 + h2)}, h1 at the high pressure. */
    public static double conedLiquid(double high, double low) {
        return high / (high + low);
    }

    /**
     * Pressure-profile factor of a gas in a narrow coned film: p^2 falls as the liquid's p does; by Gauss quadrature.
     *
     * @param thicknessRatio h1/h2, h1 at the high pressure
     * @param pressureRatio p1/p2
     */
    public static double conedGas(double thicknessRatio, double pressureRatio) {
        int n = 2000;
        double r = thicknessRatio;
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double x = (i + 0.5) / n;
            double h = r + (1 - r) * x;
            // share of the resistance passed: integral of h^-3
            double share = Math.abs(r - 1) < 1e-9 ? x : (1 / (h * h) - 1 / (r * r)) / (1 - 1 / (r * r));
            double p = Math.sqrt(pressureRatio * pressureRatio - (pressureRatio * pressureRatio - 1) * share);
            sum += p;
        }
        return (sum / n - 1) / (pressureRatio - 1);
    }

    /** {@link #conedGas} by six-point Gauss quadrature, for use inside a balance of forces; within 1e-3 of it. */
    static double conedGasQuick(double thicknessRatio, double pressureRatio) {
        double r = thicknessRatio;
        double b2 = pressureRatio * pressureRatio;
        double sum = 0;
        for (int k = -3; k <= 3; k++) {
            if (k == 0) {
                continue;
            }
            int i = Math.abs(k) - 1;
            // x = 1 - t^2 takes the square root out of the low-pressure end.
            double t = 0.5 + 0.5 * Math.signum(k) * GAUSS_POINT[i];
            double x = 1 - t * t;
            double h = r + (1 - r) * x;
            double share = Math.abs(r - 1) < 1e-6 ? x : (1 / (h * h) - 1 / (r * r)) / (1 - 1 / (r * r));
            sum += 0.5 * GAUSS_WEIGHT[i] * 2 * t * Math.sqrt(b2 - (b2 - 1) * share);
        }
        return (sum - 1) / (pressureRatio - 1);
    }

    private static final double[] GAUSS_POINT = {0.238619186083197, 0.661209386466265, 0.932469514203152};
    private static final double[] GAUSS_WEIGHT = {0.467913934572691, 0.360761573048139, 0.171324492379170};

    /** Pressure-profile factor of a gas between narrow parallel faces, {@code pm = 2/3 (p1^2 + p1 p2 + p2^2)/(p1 + p2)}. */
    public static double parallelGas(double pressureRatio) {
        double b = pressureRatio;
        if (Math.abs(b - 1) < 1e-9) {
            return 0.5;
        }
        return (2.0 / 3 * (b * b + b + 1) / (b + 1) - 1) / (b - 1);
    }

    /**
     * Pressure at the step of a stepped gas film, over p2: {@code ps^2 = p1^2 - (p1^2 - p2^2) (a/r^3)/((a/r^3) + (1 - a))}.
     *
     * @param thicknessRatio r = h1/h2, h1 on the high side
     * @param share a, the part of the width with h1
     * @param pressureRatio p1/p2
     */
    public static double stepPressure(double thicknessRatio, double share, double pressureRatio) {
        double a = share / cube(thicknessRatio);
        double square = pressureRatio * pressureRatio;
        return Math.sqrt(square - (square - 1) * a / (a + 1 - share));
    }

    /** Pressure-profile factor of a stepped narrow gas film. */
    public static double steppedGas(double thicknessRatio, double share, double pressureRatio) {
        double step = stepPressure(thicknessRatio, share, pressureRatio);
        return (share * meanGas(pressureRatio, step) + (1 - share) * meanGas(step, 1) - 1) / (pressureRatio - 1);
    }

    private static double meanGas(double one, double other) {
        return 2.0 / 3 * (one * one + one * other + other * other) / (one + other);
    }

    /**
     * Turbulent liquid film without inertia, {@code w = C (h^12/mu)^(1/7) (rho dp / (r1^-0.75 - r2^-0.75))^(4/7)}, kg/s.
     *
     * <p>C = 25.1026 follows from the Fanning factor 0.079 Re^-0.25; R. E. Burcham, NASA SP-8121 (1978) eq. (10) prints 26.8.
     */
    public static double turbulentFace(
            double inner, double outer, double gap, double viscosity, double density, double dp, double constant) {
        double area = density * dp / (Math.pow(inner, -0.75) - Math.pow(outer, -0.75));
        return constant * Math.pow(Math.pow(gap, 12) / viscosity, 1.0 / 7) * Math.pow(area, 4.0 / 7);
    }

    /** C of {@link #turbulentFace} from the friction law: (3 pi^2 / (0.079 pi^0.25))^(4/7). */
    public static double turbulentFaceConstant() {
        return Math.pow(3 * Math.PI * Math.PI / (0.079 * Math.pow(Math.PI, 0.25)), 4.0 / 7);
    }

    /** Opening force of an annular gas film, pressure at each radius from p^2 linear in ln r, less p2 on the area, N. */
    public static double annularGasForce(
            double inner, double outer, double pressureInner, double pressureOuter, double base) {
        int n = 4000;
        double sum = 0;
        double dr = (outer - inner) / n;
        double i2 = pressureInner * pressureInner;
        double o2 = pressureOuter * pressureOuter;
        for (int i = 0; i < n; i++) {
            double r = inner + (i + 0.5) * dr;
            double p = Math.sqrt(i2 + (o2 - i2) * Math.log(r / inner) / Math.log(outer / inner));
            sum += (p - base) * r;
        }
        return 2 * Math.PI * sum * dr;
    }

    /** Opening force of an annular liquid film, p linear in ln r, less a base pressure, N. */
    public static double annularLiquidForce(
            double inner, double outer, double pressureInner, double pressureOuter, double base) {
        int n = 4000;
        double sum = 0;
        double dr = (outer - inner) / n;
        for (int i = 0; i < n; i++) {
            double r = inner + (i + 0.5) * dr;
            double p = pressureInner + (pressureOuter - pressureInner) * Math.log(r / inner) / Math.log(outer / inner);
            sum += (p - base) * r;
        }
        return 2 * Math.PI * sum * dr;
    }

    /**
     * Power of drag between a turning and a still face, W: Couette {@code pi mu w^2 (ro^4 - ri^4) / (2 h)}, above Re = rho w r h / mu of
     * 1000 with the shear of a turbulent film, raised as (Re/1000)^0.75.
     *
     * <p>The turbulent exponent is that of a Couette film's friction law 0.079 Re^-0.25 class [common practice].
     */
    public static double faceDrag(
            double density, double viscosity, double speed, double inner, double outer, double gap) {
        double i2 = inner * inner;
        double o2 = outer * outer;
        double couette = Math.PI * viscosity * speed * speed * (o2 * o2 - i2 * i2) / (2 * gap);
        double reynolds = density * Math.abs(speed) * 0.5 * (inner + outer) * gap / viscosity;
        return couette * Math.max(1, Math.pow(reynolds / 1000, 0.75));
    }

    /** Mean free path of a gas, {@code mu / p sqrt(pi R T / 2)}, m. */
    public static double meanFreePath(double viscosity, double pressure, double specificGasConstantTimesTemperature) {
        return viscosity / pressure * Math.sqrt(Math.PI * specificGasConstantTimesTemperature / 2);
    }

    /** Notes the regime of a thin gas film by its Knudsen number at the low-pressure end: slip from 0.01, not established from 0.1. */
    static void slip(Notices notices, FluidState up, double down, double viscosity, double gap) {
        if (up.phase() == Phase.TWO_PHASE || Throttle.dense(up)) {
            return;
        }
        double knudsen = knudsen(up, down, viscosity, gap);
        notices.notEstablished(knudsen > 0.1, "gas film", "Knudsen number above 0.1: slip flow no longer describes it");
    }

    /** Factor of slip on laminar flow: 1 + 6 Kn up to Kn = 0.1, where it is no longer established; then it levels off, C1. */
    static double slipFactor(double knudsen) {
        double kn = knudsen <= 0.1 ? knudsen : 0.1 + 0.1 * Math.tanh((knudsen - 0.1) / 0.1);
        return 1 + 6 * kn;
    }

    /** Knudsen number of a gas film at the pressure of its low end. */
    static double knudsen(FluidState up, double down, double viscosity, double gap) {
        return meanFreePath(viscosity, Math.max(down, 1e-3 * up.pressure()), up.pressure() / up.density()) / gap;
    }

    private static double cube(double a) {
        return a * a * a;
    }
}
