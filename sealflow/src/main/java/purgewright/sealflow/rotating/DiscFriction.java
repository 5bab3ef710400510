package purgewright.sealflow.rotating;

import java.util.Arrays;

/**
 * Drag of a rotating disc: moment coefficients of the enclosed and of the free disc, torque and windage power of one face.
 *
 * <pre>{@code 2 M = Cm (1/2) rho w^2 a^5,   Re = rho w a^2 / mu}</pre>
 *
 * where 2 M is the torque of both faces together.
 *
 * <p>Enclosed disc, four regimes by gap s and Reynolds number, the largest holds:
 *
 * <pre>{@code
 * I   laminar, merged layers      Cm = 2 pi / ((s/a) Re)
 * II  laminar, separate layers    Cm = 3.70 (s/a)^0.1 Re^-0.5
 * III turbulent, merged layers    Cm = 0.080 (s/a)^(-1/6) Re^-0.25
 * IV  turbulent, separate layers  Cm = 0.102 (s/a)^0.1 Re^-0.2
 * }</pre>
 *
 * <p>Two regimes within 10 % of each other are joined by a parabola in the logarithm (at most 2.5 % above the larger), so that the
 * power stays C1 in its inputs; farther apart the larger is taken as it stands.
 *
 * <p>Valid for Re 1e3 to 1e7 and s/a 0.0127 to 0.217, within about 10 %. Source: J. W. Daily, R. E. Nece, "Chamber dimension
 * effects on induced flow and frictional resistance of enclosed rotating disks", J. Basic Eng. 82 (1960) 217 [published, values
 * recalled from memory; check ROT-07]. Free disc: R. B. Bird, W. E. Stewart, E. N. Lightfoot, Transport Phenomena [check ROT-08].
 */
public final class DiscFriction {
    /** Highest Reynolds number of the tests. */
    public static final double MAXIMUM_REYNOLDS = 1e7;
    /** Lowest Reynolds number of the tests. */
    public static final double MINIMUM_REYNOLDS = 1e3;
    /** Smallest gap ratio s/a of the tests. */
    public static final double MINIMUM_GAP_RATIO = 0.0127;
    /** Largest gap ratio s/a of the tests. */
    public static final double MAXIMUM_GAP_RATIO = 0.217;

    private static final double BLEND = 0.1;

    private DiscFriction() {}

    /** The four regimes of an enclosed disc. */
    public enum Regime {
        LAMINAR_MERGED,
        LAMINAR_SEPARATE,
        TURBULENT_MERGED,
        TURBULENT_SEPARATE
    }

    /**
     * Moment coefficient of both faces in one regime.
     *
     * @param regime which formula
     * @param reynolds rho w a^2 / mu, above 0
     * @param gapRatio s/a, above 0
     */
    public static double momentCoefficient(Regime regime, double reynolds, double gapRatio) {
        return switch (regime) {
            case LAMINAR_MERGED -> 2 * Math.PI / (gapRatio * reynolds);
            case LAMINAR_SEPARATE -> 3.70 * Math.pow(gapRatio, 0.1) / Math.sqrt(reynolds);
            case TURBULENT_MERGED -> 0.080 * Math.pow(gapRatio, -1.0 / 6) * Math.pow(reynolds, -0.25);
            case TURBULENT_SEPARATE -> 0.102 * Math.pow(gapRatio, 0.1) * Math.pow(reynolds, -0.2);
        };
    }

    /**
     * Moment coefficient of both faces of an enclosed disc: the largest of the four regimes, smoothly joined.
     *
     * @param reynolds rho w a^2 / mu, above 0
     * @param gapRatio s/a, above 0
     */
    public static double enclosed(double reynolds, double gapRatio) {
        double[] logarithms = new double[4];
        for (Regime regime : Regime.values()) {
            logarithms[regime.ordinal()] = Math.log(momentCoefficient(regime, reynolds, gapRatio));
        }
        Arrays.sort(logarithms);
        double result = logarithms[0];
        for (int i = 1; i < 4; i++) {
            result = smoothMaximum(result, logarithms[i]);
        }
        return Math.exp(result);
    }

    /**
     * Moment coefficient of both faces of a disc in open fluid: 3.870 Re^-0.5 laminar, 0.146 Re^-0.2 turbulent, the larger, joined
     * as above.
     *
     * @param reynolds rho w a^2 / mu, above 0
     */
    public static double free(double reynolds) {
        return Math.exp(smoothMaximum(Math.log(freeLaminar(reynolds)), Math.log(freeTurbulent(reynolds))));
    }

    /** Laminar free disc: 3.870 Re^-0.5, from the torque 0.616 pi rho R^4 sqrt(nu W^3) of both faces. */
    public static double freeLaminar(double reynolds) {
        return 2 * 0.616 * Math.PI / Math.sqrt(reynolds);
    }

    /** Turbulent free disc: 0.146 Re^-0.2. */
    public static double freeTurbulent(double reynolds) {
        return 0.146 * Math.pow(reynolds, -0.2);
    }

    /**
     * Torque on one face of a ring-shaped disc, N m: that of a full face less that of a face of the inner radius at the same gap.
     *
     * @param innerRadius m, 0 for a full face
     * @param outerRadius m
     * @param gap axial distance to the casing, m; NaN for a free disc
     * @param speed rad/s
     * @param density kg/m3
     * @param viscosity Pa s
     */
    public static double faceTorque(
            double innerRadius, double outerRadius, double gap, double speed, double density, double viscosity) {
        return fullFace(outerRadius, gap, speed, density, viscosity)
                - fullFace(innerRadius, gap, speed, density, viscosity);
    }

    private static double fullFace(double radius, double gap, double speed, double density, double viscosity) {
        if (!(radius > 0) || speed == 0) {
            return 0;
        }
        double reynolds = reynolds(radius, speed, density, viscosity);
        double coefficient = Double.isNaN(gap) ? free(reynolds) : enclosed(reynolds, gap / radius);
        return coefficient * density * speed * speed * Math.pow(radius, 5) / 4;
    }

    /** Reynolds number rho w a^2 / mu of the rim. */
    public static double reynolds(double radius, double speed, double density, double viscosity) {
        return density * Math.abs(speed) * radius * radius / viscosity;
    }

    /** Maximum of two logarithms, rounded by a parabola where they lie within 10 % of each other. */
    private static double smoothMaximum(double a, double b) {
        double distance = Math.abs(a - b);
        double larger = Math.max(a, b);
        return distance >= BLEND ? larger : larger + (BLEND - distance) * (BLEND - distance) / (4 * BLEND);
    }
}
