package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;

/**
 * Throttles of a gas along one line of constant enthalpy, from six states instead of two a tooth and iteration.
 *
 * <p>p v and w^2 are cubics in p through Chebyshev-Lobatto points of the line; an isentrope that leaves it is {@code ln rho = ln rho_i +
 * y/n + c y^2}, y = ln(p/p_i), n = rho w^2/p at its start and c, zero for a perfect gas, from one state at each end of the range,
 * linear in p. Refused where a state is not single-phase, the cubics' last term exceeds 1e-5 or c exceeds 0.05; then the teeth ask the
 * fluid themselves.
 *
 * <p>Not shared between threads: {@link #flux} leaves its answer in the fields.
 */
final class GasTeeth {
    private static final int NODES = 4;
    private static final double SAMPLE = 0.6;
    private static final double[] POINT = {0.339981043584856, 0.861136311594053};
    private static final double[] WEIGHT = {0.652145154862546, 0.347854845137454};

    private final double[] node = new double[NODES];
    private final double[] work = new double[NODES];
    private final double[] sound = new double[NODES];
    private final double bendHigh;
    private final double bendLow;
    private final double rest;

    double flux;
    double throat;
    double machSquared;
    double slope;
    boolean choked;
    double density;
    /** d ln rho / d ln p along the line at the last start. */
    double growth;

    private double expansion;
    private double expansionSound;

    private GasTeeth(double[] node, double[] work, double[] sound, double bendHigh, double bendLow) {
        System.arraycopy(node, 0, this.node, 0, NODES);
        System.arraycopy(work, 0, this.work, 0, NODES);
        System.arraycopy(sound, 0, this.sound, 0, NODES);
        this.bendHigh = bendHigh;
        this.bendLow = bendLow;
        this.rest = Throttle.REST;
    }

    /** Prepares the range from {@code low} to the upstream pressure; null where the form does not hold. */
    static GasTeeth of(FluidState up, double low) {
        if (up.phase() == Phase.TWO_PHASE || Throttle.dense(up)) {
            return null;
        }
        double p0 = up.pressure();
        double middle = 0.5 * (p0 + low);
        double half = 0.5 * (p0 - low);
        double[] node = new double[NODES];
        double[] work = new double[NODES];
        double[] sound = new double[NODES];
        FluidState last = up;
        try {
            for (int j = 0; j < NODES; j++) {
                double p = j == 0 ? p0 : middle + half * Math.cos(Math.PI * j / (NODES - 1));
                FluidState at = j == 0 ? up : up.fluid().atPressureEnthalpy(p, up.enthalpy(), up);
                if (at.phase() == Phase.TWO_PHASE) {
                    return null;
                }
                node[j] = p;
                work[j] = p / at.density();
                sound[j] = at.soundSpeed() * at.soundSpeed();
                last = at;
            }
            double bendHigh = bend(up);
            double bendLow = half > 0.02 * p0 ? bend(last) : bendHigh;
            if (!(Math.abs(bendHigh) < 0.05 && Math.abs(bendLow) < 0.05)) {
                return null;
            }
            if (!differences(node, work, half) || !differences(node, sound, half)) {
                return null;
            }
            return new GasTeeth(node, work, sound, bendHigh, bendLow);
        } catch (PropertyException e) {
            return null;
        }
    }

    /** Lowest pressure of the range. */
    double lowest() {
        return node[NODES - 1];
    }

    private static double bend(FluidState from) {
        FluidState at = from.fluid().atPressureEntropy(SAMPLE * from.pressure(), from.entropy(), from);
        if (at.phase() == Phase.TWO_PHASE) {
            return Double.NaN;
        }
        double y = Math.log(SAMPLE);
        double n = from.density() * from.soundSpeed() * from.soundSpeed() / from.pressure();
        return (Math.log(at.density() / from.density()) - y / n) / (y * y);
    }

    private static boolean differences(double[] node, double[] value, double half) {
        double scale = Math.abs(value[0]);
        for (int k = 1; k < NODES; k++) {
            for (int j = NODES - 1; j >= k; j--) {
                value[j] = (value[j] - value[j - 1]) / (node[j] - node[j - k]);
            }
        }
        return 2 * Math.abs(value[NODES - 1]) * Math.pow(half / 2, NODES - 1) < 1e-5 * scale;
    }

    private double evaluate(double[] term, double p) {
        return term[0] + (p - node[0]) * (term[1] + (p - node[1]) * (term[2] + (p - node[2]) * term[3]));
    }

    /** Regularised flux from rest on the line at {@code from} to the pressure {@code to}; the answer is in the fields. */
    void flux(double from, double to) {
        double pv = evaluate(work, from);
        double step = 1e-4 * from;
        growth = 1 - (evaluate(work, from + step) - evaluate(work, from - step)) / (2e-4 * pv);
        density = from / pv;
        double w2 = evaluate(sound, from);
        double inverse = pv / w2; // 1/n
        double t = node[0] > node[NODES - 1] ? (from - node[NODES - 1]) / (node[0] - node[NODES - 1]) : 1;
        double c = bendLow + (bendHigh - bendLow) * t;
        double y = Math.log(to / from);
        expand(pv, inverse, c, y);
        machSquared = 2 * expansion / expansionSound;
        double at = y;
        choked = false;
        if (machSquared > 1) {
            double n = 1 / inverse;
            at = Math.max(y, Math.log(Throttle.criticalRatio(n)));
            for (int i = 0; i < 30; i++) {
                expand(pv, inverse, c, at);
                double m2 = 2 * expansion / expansionSound;
                double local = inverse + 2 * c * at;
                double fall = -(2 * local + m2 * (1 - local) + 2 * c * m2 / local);
                double move = -(m2 - 1) / fall;
                if (Math.abs(move) < 1e-10) {
                    break;
                }
                at = Math.min(0, Math.max(y, at + move));
            }
            expand(pv, inverse, c, at);
            choked = true;
        }
        double u = Math.sqrt(2 * expansion);
        double bare = density * Math.exp(at * (inverse + c * at)) * u;
        throat = choked ? from * Math.exp(at) : to;
        double bareSlope = choked ? 0 : (2 * expansion / expansionSound - 1) / u;
        double dp = from - to;
        double delta = rest * from;
        double ratio = delta / dp;
        double factor = 1 / Math.sqrt(Math.sqrt(1 + ratio * ratio));
        double logSlope = 0.5 * delta * delta / (dp * (dp * dp + delta * delta));
        flux = bare * factor;
        slope = factor * (bareSlope - bare * logSlope);
    }

    /** Enthalpy drop and squared sound speed at y on the isentrope. */
    private void expand(double pv, double inverse, double c, double y) {
        double half = -0.5 * y;
        double middle = 0.5 * y;
        double sum = 0;
        for (int i = 0; i < 2; i++) {
            double a = middle - half * POINT[i];
            double b = middle + half * POINT[i];
            sum += WEIGHT[i] * (Math.exp(a * (1 - inverse - c * a)) + Math.exp(b * (1 - inverse - c * b)));
        }
        expansion = pv * half * sum;
        double local = inverse + 2 * c * y;
        expansionSound = pv * Math.exp(y * (1 - inverse - c * y)) / local;
    }
}
