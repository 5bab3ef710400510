package purgewright.sealflow.campaign;

import java.util.Arrays;
import java.util.Objects;

/**
 * One quantity over time, computed or measured. Immutable: arrays are copied in and out.
 *
 * <p>NaN is "no value there" and stays NaN between its neighbours.
 */
public final class Channel {
    /** What a channel is of. */
    public enum Kind {
        /** Of one bank of bottles, Pa. */
        BOTTLE_PRESSURE,
        /** Of the gas in one bank, K. */
        BOTTLE_TEMPERATURE,
        /** Of the bottles' walls, K. */
        WALL_TEMPERATURE,
        /** Gas left in all banks, kg. */
        GAS_LEFT,
        /** Gas drawn since the start, kg. */
        GAS_USED,
        /** Drawn from the supply, kg/s. */
        PURGE_FLOW,
        /** Of a cavity, Pa. */
        PRESSURE,
        /** Of a cavity, K. */
        TEMPERATURE,
        /** Through a passage, kg/s. */
        FLOW,
        /** Of the rotor, rad/s. */
        SPEED,
        /** Relative margin of a criterion. */
        MARGIN,
        /** Anything else; the unit says what. */
        OTHER
    }

    private final String name;
    private final Kind kind;
    private final String place;
    private final String unit;
    private final double[] time;
    private final double[] value;

    /**
     * @param name in words, unique among its fellows
     * @param kind what it is of
     * @param place in the case as a JSON Pointer; empty when there is none
     * @param unit SI symbol, "1" for ratios
     * @param time ascending (equal times make a step), s
     * @param value SI, one a time
     */
    public Channel(String name, Kind kind, String place, String unit, double[] time, double[] value) {
        this.name = Objects.requireNonNull(name);
        this.kind = Objects.requireNonNull(kind);
        this.place = Objects.requireNonNull(place);
        this.unit = Objects.requireNonNull(unit);
        if (time.length != value.length || time.length == 0) {
            throw new IllegalArgumentException(
                    "channel " + name + " needs one value a time, got " + time.length + " and " + value.length);
        }
        for (int i = 1; i < time.length; i++) {
            if (!(time[i] >= time[i - 1])) {
                throw new IllegalArgumentException(
                        "times of " + name + " must ascend: " + time[i] + " s after " + time[i - 1] + " s");
            }
        }
        this.time = time.clone();
        this.value = value.clone();
    }

    /** In words. */
    public String name() {
        return name;
    }

    /** What it is of. */
    public Kind kind() {
        return kind;
    }

    /** JSON Pointer, or empty. */
    public String place() {
        return place;
    }

    /** SI symbol. */
    public String unit() {
        return unit;
    }

    /** Number of points. */
    public int size() {
        return time.length;
    }

    /** Time of a point, s. */
    public double time(int i) {
        return time[i];
    }

    /** Value of a point, SI. */
    public double value(int i) {
        return value[i];
    }

    /** All times, a copy. */
    public double[] times() {
        return time.clone();
    }

    /** All values, a copy. */
    public double[] values() {
        return value.clone();
    }

    /** Value at a time: linear between points, the ends beyond them; at a step the later value. */
    public double at(double t) {
        int n = time.length;
        if (t >= time[n - 1]) {
            return value[n - 1];
        }
        if (t < time[0]) {
            return value[0];
        }
        int low = 0;
        int high = n - 1;
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (time[middle] <= t) {
                low = middle;
            } else {
                high = middle;
            }
        }
        double share = (t - time[low]) / (time[high] - time[low]);
        return share == 0 ? value[low] : value[low] + share * (value[high] - value[low]);
    }

    /** Index of the least value; -1 when all are NaN. */
    public int least() {
        int best = -1;
        for (int i = 0; i < value.length; i++) {
            if (!Double.isNaN(value[i]) && (best < 0 || value[i] < value[best])) {
                best = i;
            }
        }
        return best;
    }

    /** The same moved in time. */
    public Channel shifted(double seconds) {
        return new Channel(
                name,
                kind,
                place,
                unit,
                Arrays.stream(time).map(t -> t + seconds).toArray(),
                value);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Channel c
                && name.equals(c.name)
                && kind == c.kind
                && place.equals(c.place)
                && unit.equals(c.unit)
                && Arrays.equals(time, c.time)
                && Arrays.equals(value, c.value);
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, kind, place, unit, Arrays.hashCode(time), Arrays.hashCode(value));
    }

    @Override
    public String toString() {
        return name + " [" + unit + "], " + time.length + " points";
    }
}
