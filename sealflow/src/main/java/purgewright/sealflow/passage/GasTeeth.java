package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.phase.StateBuffer;

/**
 * Throttles of a gas along one line of constant enthalpy, from six states instead of two a tooth and iteration.
 *
 * <p>p v and w^2 are cubics in p through Chebyshev-Lobatto points of the line; an isentrope that leaves it is {@code ln rho = ln rho_i +
 * y/n + c y^2}, y = ln(p/p_i), n = rho w^2/p at its start and c, zero for a perfect gas, from one state at each end of the range,
 * linear in p. Refused where a state is not single-phase, the cubics' last term exceeds 1e-5 or c exceeds 0.05; then the teeth ask the
 * fluid themselves.
 *
 * <p>Not shared between threads, and used again and again: {@link #set} begins a new range, {@link #flux} leaves its answer in the fields.
 */
final class GasTeeth {
    private static final int NODES = 4;
    private static final double SAMPLE = 0.6;
    /** Places of the nodes, 1 high to -1 low. */
    private static final double[] PLACE = {1, 0.5, -0.5, -1};
    // Gauss-Legendre, three points on [-1, 1]: 1e-10 of a throttle's enthalpy drop down to its choke.
    private static final double POINT = 0.7745966692414834;
    private static final double OUTER = 5.0 / 9;
    private static final double MIDDLE = 8.0 / 9;

    private final StateBuffer buffer = new StateBuffer();
    private final double[] node = new double[NODES];
    private final double[] work = new double[NODES];
    private final double[] sound = new double[NODES];
    private double bendHigh;
    private double bendLow;

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

    /** Prepares the range from {@code low} to the upstream pressure; false where the form does not hold. */
    boolean set(FluidState up, double low) {
        if (up.phase() == Phase.TWO_PHASE || Throttle.dense(up)) {
            return false;
        }
        double p0 = up.pressure();
        double middle = 0.5 * (p0 + low);
        double half = 0.5 * (p0 - low);
        try {
            node[0] = p0;
            work[0] = p0 / up.density();
            sound[0] = up.soundSpeed() * up.soundSpeed();
            bendHigh = bend(up, p0, up.density(), up.soundSpeed(), up.entropy());
            for (int j = 1; j < NODES; j++) {
                double p = middle + half * PLACE[j];
                up.fluid().atPressureEnthalpy(p, up.enthalpy(), up, buffer);
                if (buffer.phase() == Phase.TWO_PHASE) {
                    return false;
                }
                node[j] = p;
                work[j] = p / buffer.density();
                sound[j] = buffer.soundSpeed() * buffer.soundSpeed();
            }
            bendLow = half > 0.02 * p0
                    ? bend(up, buffer.pressure(), buffer.density(), buffer.soundSpeed(), buffer.entropy())
                    : bendHigh;
            return Math.abs(bendHigh) < 0.05
                    && Math.abs(bendLow) < 0.05
                    && differences(node, work, half)
                    && differences(node, sound, half);
        } catch (PropertyException e) {
            return false;
        }
    }

    /** Lowest pressure of the range. */
    double lowest() {
        return node[NODES - 1];
    }

    /** c of the isentrope that starts at a pressure. */
    private double bend(FluidState up, double pressure, double density, double soundSpeed, double entropy) {
        up.fluid().atPressureEntropy(SAMPLE * pressure, entropy, up, buffer);
        if (buffer.phase() == Phase.TWO_PHASE) {
            return Double.NaN;
        }
        double y = Math.log(SAMPLE);
        double n = density * soundSpeed * soundSpeed / pressure;
        return (Math.log(buffer.density() / density) - y / n) / (y * y);
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
        double a = from - node[0];
        double b = from - node[1];
        double d = from - node[2];
        double inner = work[2] + d * work[3];
        double outer = work[1] + b * inner;
        double pv = work[0] + a * outer;
        growth = 1 - from * (outer + a * (inner + b * work[3])) / pv;
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
        double delta = Throttle.REST * from;
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
        double near = middle + half * POINT;
        double far = middle - half * POINT;
        double sum = OUTER * (Math.exp(near * (1 - inverse - c * near)) + Math.exp(far * (1 - inverse - c * far)))
                + MIDDLE * Math.exp(middle * (1 - inverse - c * middle));
        expansion = pv * half * sum;
        double local = inverse + 2 * c * y;
        expansionSound = pv * Math.exp(y * (1 - inverse - c * y)) / local;
    }
}
