package purgewright.sealflow.transients;

import java.util.List;
import purgewright.sealflow.network.NetworkDynamics.Point;

/**
 * A run over time.
 *
 * @param outcome how it ended
 * @param detail one sentence when it did not finish, else empty
 * @param cavities names of the free cavities, in the order of every point
 * @param streams names of the streams, in the order of every point
 * @param steps accepted steps, ascending
 * @param hits events in the order they happened
 * @param rejections steps that were tried and thrown away
 * @param assumedVolume that free cavities without a stated one were given, m3 (invented: state volumes)
 * @param assumed names of those cavities
 * @param massDefect mass held at the end less mass held at the start and mass that came in, as a share of the largest mass held or
 *     passed
 */
public record TransientResult(
        Outcome outcome,
        String detail,
        List<String> cavities,
        List<String> streams,
        List<Step> steps,
        List<Hit> hits,
        List<Rejection> rejections,
        double assumedVolume,
        List<String> assumed,
        double massDefect) {
    /**
     * A step that was tried and thrown away.
     *
     * @param time at which it began, s
     * @param step s
     * @param error in units of the tolerance; NaN where a stage was not solved
     */
    public record Rejection(double time, double step, double error) {}

    /** Steps that were tried and thrown away. */
    public int rejected() {
        return rejections.size();
    }

    /** How a run ended. */
    public enum Outcome {
        FINISHED,
        STOPPED_BY_EVENT,
        STEP_TOO_SMALL,
        TOO_MANY_STEPS,
        CANCELLED
    }

    /**
     * One step, with the point inside it that dense output needs.
     *
     * @param start s
     * @param middle s
     * @param end s
     * @param from point at the start
     * @param inside point at {@code middle}
     * @param to point at the end
     */
    public record Step(double start, double middle, double end, Point from, Point inside, Point to) {
        /** Point at a time within the step: the parabola through the three (ln p, h, fractions). */
        public Point at(double time) {
            double a = (time - middle) * (time - end) / ((start - middle) * (start - end));
            double b = (time - start) * (time - end) / ((middle - start) * (middle - end));
            double c = (time - start) * (time - middle) / ((end - start) * (end - middle));
            int n = from.pressure().length;
            Point z = new Point(new double[n], new double[n], new double[n][]);
            for (int u = 0; u < n; u++) {
                z.pressure()[u] = Math.exp(a * Math.log(from.pressure()[u])
                        + b * Math.log(inside.pressure()[u])
                        + c * Math.log(to.pressure()[u]));
                z.enthalpy()[u] = a * from.enthalpy()[u] + b * inside.enthalpy()[u] + c * to.enthalpy()[u];
                int k = from.fractions()[u].length;
                double[] y = new double[k];
                double sum = 0;
                for (int j = 0; j < k; j++) {
                    y[j] = Math.max(
                            0, a * from.fractions()[u][j] + b * inside.fractions()[u][j] + c * to.fractions()[u][j]);
                    sum += y[j];
                }
                for (int j = 0; j < k; j++) {
                    y[j] /= sum;
                }
                z.fractions()[u] = y;
            }
            return z;
        }
    }

    /**
     * An event that happened.
     *
     * @param key of the event
     * @param time s
     * @param rising true when the function went from below zero to above
     */
    public record Hit(String key, double time, boolean rising) {}

    /** Time of the first hit of a key, s; NaN when it never happened. */
    public double firstHit(String key) {
        return hits.stream()
                .filter(h -> h.key().equals(key))
                .mapToDouble(Hit::time)
                .findFirst()
                .orElse(Double.NaN);
    }

    /** Pressure of a free cavity at a time, Pa. */
    public double pressure(String cavity, double time) {
        return at(time).pressure()[cavities.indexOf(cavity)];
    }

    /** Mass fraction of a stream in a free cavity at a time. */
    public double fraction(String cavity, String stream, double time) {
        return at(time).fractions()[cavities.indexOf(cavity)][streams.indexOf(stream)];
    }

    /** Point at a time within the run; the ends beyond it. */
    public Point at(double time) {
        Step best = steps.get(0);
        for (Step s : steps) {
            if (s.start() > time) {
                break;
            }
            best = s;
        }
        return best.at(Math.max(best.start(), Math.min(best.end(), time)));
    }
}
