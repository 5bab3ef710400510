package purgewright.hazard.studies;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import purgewright.hazard.studies.SpreadResult.PersistencePoint;
import purgewright.hazard.studies.SpreadResult.RedlineTrade;
import purgewright.hazard.studies.SpreadResult.TradePoint;

/**
 * Trade of a set point: false trips against losses that are not tripped in time.
 *
 * <p>A reading is {@code true value + constant error of the instrument + noise of each sample}, all normal and independent. In a run in
 * which nothing is wrong the true value differs from run to run by its spread. After a loss of purge a lowest-allowed reading decays as
 * {@code exp(-t / tau)} through the sensor's lag, and the trip must come while there is still time to stop before the physical limit. A
 * highest-allowed reading, and a lowest-allowed one without stored gas behind it, is taken to stand at its physical limit for the detection time. Errors of several sensors are taken as common to
 * all of them, which errs on the safe side.
 */
public final class RedlineStudy {
    /** Nodes over plus and minus {@link #REACH} standard deviations for a single integral. */
    private static final int NODES = 161;

    private static final double REACH = 8;
    /** Nodes each way for a double integral, over plus and minus {@link #SHORT_REACH}. */
    private static final int GRID = 15;

    private static final double SHORT_REACH = 5;
    /** Samples after a loss that are looked at, the last before the deadline; leaving out earlier ones errs on the safe side. */
    private static final int MOST_SAMPLES = 4000;

    private static final int POINTS = 41;

    private RedlineStudy() {}

    /**
     * One reading with a redline.
     *
     * @param name of the reading
     * @param place JSON Pointer
     * @param phase in which it is armed, in words
     * @param unit SI
     * @param lowest true when it trips below
     * @param physical where the separation is lost
     * @param normal in normal running, mean
     * @param spread from run to run, standard deviation
     * @param noise of one sample, standard deviation
     * @param bias constant error, standard deviation
     * @param lag time constant of the sensor, s
     * @param rate samples a second
     * @param persistence samples in a row that trip
     * @param sensors how many
     * @param votes how many must agree
     * @param duration of a run, s
     * @param tau time constant of the decay after a loss, s; 0 when the gas is gone at once, NaN where the reading is taken to stand at its limit
     * @param stopping time from the trip until the rotor stands, s
     * @param detection time allowed for detection, s
     * @param stated set point of the case; NaN when it states none
     * @param assumed what was assumed because the case says nothing; may be empty
     */
    public record Reading(
            String name,
            String place,
            String phase,
            String unit,
            boolean lowest,
            double physical,
            double normal,
            double spread,
            double noise,
            double bias,
            double lag,
            double rate,
            int persistence,
            int sensors,
            int votes,
            double duration,
            double tau,
            double stopping,
            double detection,
            double stated,
            String assumed) {
        /** Checks. */
        public Reading {
            boolean good = Double.isFinite(physical)
                    && Double.isFinite(normal)
                    && spread >= 0
                    && noise >= 0
                    && bias >= 0
                    && lag >= 0
                    && rate > 0
                    && persistence >= 1
                    && votes >= 1
                    && votes <= sensors
                    && duration > 0;
            if (!good) {
                throw new IllegalArgumentException("a reading that makes no sense: " + name);
            }
        }

        Reading with(int otherPersistence, double otherRate, double otherNoise) {
            return new Reading(
                    name,
                    place,
                    phase,
                    unit,
                    lowest,
                    physical,
                    normal,
                    spread,
                    otherNoise,
                    bias,
                    lag,
                    otherRate,
                    otherPersistence,
                    sensors,
                    votes,
                    duration,
                    tau,
                    stopping,
                    detection,
                    stated,
                    assumed);
        }
    }

    /** Probability that a run in which nothing is wrong is tripped. */
    public static double falseTrip(Reading r, double setPoint) {
        long samples = (long) Math.floor(r.rate() * r.duration());
        double sigma = Math.hypot(r.spread(), r.bias());
        if (sigma == 0) {
            return Trips.inARow(beyond(r, r.normal(), setPoint), r.persistence(), samples);
        }
        double sum = 0;
        double weights = 0;
        for (int i = 0; i < NODES; i++) {
            double t = REACH * (2.0 * i / (NODES - 1) - 1);
            double w = Math.exp(-t * t / 2);
            sum += w * Trips.inARow(beyond(r, r.normal() + sigma * t, setPoint), r.persistence(), samples);
            weights += w;
        }
        return sum / weights;
    }

    /** Probability that a loss is not tripped in time. */
    public static double missedLoss(Reading r, double setPoint) {
        if (r.lowest() && r.tau() <= 0) {
            return 1;
        }
        boolean falls = r.lowest() && r.tau() > 0;
        int across = r.spread() > 0 && falls ? GRID : 1;
        int down = r.bias() > 0 ? GRID : 1;
        double sum = 0;
        double weights = 0;
        for (int i = 0; i < across; i++) {
            double a = node(i, across);
            for (int j = 0; j < down; j++) {
                double b = node(j, down);
                double w = Math.exp(-(a * a + b * b) / 2);
                double start = r.normal() + r.spread() * a;
                double error = r.bias() * b;
                sum += w * (1 - (falls ? falling(r, start, error, setPoint) : standing(r, error, setPoint)));
                weights += w;
            }
        }
        return Math.max(0, Math.min(1, sum / weights));
    }

    private static double node(int i, int n) {
        return n == 1 ? 0 : SHORT_REACH * (2.0 * i / (n - 1) - 1);
    }

    /** Probability of a trip before it is too late. */
    private static double falling(Reading r, double start, double error, double setPoint) {
        if (!(start > r.physical()) || !(r.physical() > 0)) {
            return 0;
        }
        double deadline = r.tau() * Math.log(start / r.physical()) - r.stopping();
        double samples = Math.floor(r.rate() * deadline);
        if (!(samples >= r.persistence())) {
            return 0;
        }
        int count = (int) Math.min(samples, MOST_SAMPLES);
        double before = samples - count;
        return Trips.within(
                k -> beyond(r, reading(r, start, (before + k + 1) / r.rate()) + error, setPoint),
                r.persistence(),
                count);
    }

    private static double reading(Reading r, double start, double t) {
        double tau = r.tau();
        double lag = r.lag();
        if (lag <= 0) {
            return start * Math.exp(-t / tau);
        }
        if (Math.abs(lag - tau) < 1e-9 * tau) {
            return start * (1 + t / tau) * Math.exp(-t / tau);
        }
        return start * (tau * Math.exp(-t / tau) - lag * Math.exp(-t / lag)) / (tau - lag);
    }

    private static double standing(Reading r, double error, double setPoint) {
        double q = beyond(r, r.physical() + error, setPoint);
        return Trips.inARow(q, r.persistence(), Math.max(0, (long) Math.floor(r.rate() * r.detection())));
    }

    /** Probability that one sample (the vote of all sensors) lies beyond the set point. */
    private static double beyond(Reading r, double value, double setPoint) {
        double distance = r.lowest() ? setPoint - value : value - setPoint;
        double q = r.noise() > 0 ? Distribution.Normal.standardTail(distance / r.noise()) : distance > 0 ? 1 : 0;
        return Trips.vote(q, r.sensors(), r.votes());
    }

    /** The set point nearest to the normal reading whose false trips are still allowed. */
    public static double proposed(Reading r, double allowed) {
        double reach = 14 * (Math.hypot(r.spread(), r.bias()) + r.noise()) + 1e-6 * Math.abs(r.normal());
        // Written as distance from the normal reading towards the limit: false trips fall with it.
        double near = -reach;
        double far = reach;
        double sign = r.lowest() ? -1 : 1;
        for (int i = 0; i < 60; i++) {
            double middle = (near + far) / 2;
            if (falseTrip(r, r.normal() + sign * middle) > allowed) {
                near = middle;
            } else {
                far = middle;
            }
        }
        return r.normal() + sign * far;
    }

    /** The whole trade. */
    public static RedlineTrade trade(Reading r, double allowed) {
        double proposed = proposed(r, allowed);
        List<TradePoint> points = new ArrayList<>();
        double from = r.lowest() ? Math.min(r.physical(), proposed) : r.normal();
        double to = r.lowest() ? r.normal() : Math.max(r.physical(), proposed);
        // Closer together at both ends, where the one or the other probability changes.
        for (int i = 0; i < POINTS && to > from; i++) {
            points.add(point(r, from + (to - from) * (1 - Math.cos(Math.PI * i / (POINTS - 1))) / 2));
        }
        TradePoint at = point(r, proposed);
        List<PersistencePoint> others = new ArrayList<>();
        for (int n : new int[] {1, 2, 3, 5, 10}) {
            others.add(other(r.with(n, r.rate(), r.noise()), allowed));
        }
        for (double rate : new double[] {0.1, 10}) {
            others.add(other(r.with(r.persistence(), r.rate() * rate, r.noise()), allowed));
        }
        for (double noise : new double[] {0.5, 2}) {
            others.add(other(r.with(r.persistence(), r.rate(), r.noise() * noise), allowed));
        }
        return new RedlineTrade(
                r.name(),
                r.place(),
                r.phase(),
                r.unit(),
                r.lowest(),
                r.physical(),
                r.normal(),
                r.spread(),
                r.noise(),
                r.bias(),
                r.rate(),
                r.persistence(),
                r.duration(),
                List.copyOf(points),
                r.stated(),
                proposed,
                at,
                Double.isNaN(r.stated()) ? null : point(r, r.stated()),
                List.copyOf(others),
                words(r, proposed, at, allowed));
    }

    private static TradePoint point(Reading r, double setPoint) {
        return new TradePoint(setPoint, falseTrip(r, setPoint), missedLoss(r, setPoint));
    }

    private static PersistencePoint other(Reading r, double allowed) {
        double s = proposed(r, allowed);
        return new PersistencePoint(r.persistence(), r.rate(), r.noise(), s, missedLoss(r, s));
    }

    private static String words(Reading r, double proposed, TradePoint at, double allowed) {
        boolean beyond = r.lowest() ? proposed < r.physical() : proposed > r.physical();
        String text;
        if (r.lowest() && r.tau() <= 0) {
            text = "the stored gas is gone before the rotor stands: no set point of this reading protects";
        } else if (beyond) {
            text = String.format(
                    Locale.ROOT,
                    "the set point that keeps false trips to %s a run lies beyond the physical limit: no set point does both",
                    small(allowed));
        } else {
            text = String.format(
                    Locale.ROOT,
                    "keeps false trips to %s a run; a loss is then missed with probability %s",
                    small(allowed),
                    small(at.missedLoss()));
        }
        return r.assumed().isEmpty() ? text : text + "; " + r.assumed();
    }

    private static String small(double p) {
        return p < 1e-12
                ? "0"
                : p < 0.01 ? String.format(Locale.ROOT, "%.1e", p) : String.format(Locale.ROOT, "%.2f", p);
    }
}
