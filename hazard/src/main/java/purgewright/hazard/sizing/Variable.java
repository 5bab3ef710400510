package purgewright.hazard.sizing;

import java.util.List;

/**
 * One number that the sizing may choose.
 *
 * @param place JSON Pointer
 * @param lower bound, SI
 * @param upper bound, SI
 * @param choices the only values allowed, SI, ascending; empty: any between the bounds
 * @param origin of the choices, for instance a drill list with its source; empty for none
 */
public record Variable(String place, double lower, double upper, List<Double> choices, String origin) {
    /** Checks. */
    public Variable {
        choices = List.copyOf(choices);
        if (!(upper > lower) || !(lower >= 0)) {
            throw new IllegalArgumentException(
                    place + ": bounds " + lower + " and " + upper + " must be in order and not below zero");
        }
        for (int i = 1; i < choices.size(); i++) {
            if (!(choices.get(i) > choices.get(i - 1))) {
                throw new IllegalArgumentException(place + ": the choices must ascend");
            }
        }
        if (choices.size() == 1) {
            throw new IllegalArgumentException(place + ": only one choice lies between the bounds");
        }
    }

    /** Any value between the bounds. */
    public static Variable between(String place, double lower, double upper) {
        return new Variable(place, lower, upper, List.of(), "");
    }

    /** One of the values that lie between the bounds. */
    public static Variable among(String place, double lower, double upper, List<Double> values, String origin) {
        List<Double> inside = values.stream()
                .filter(v -> v >= lower * (1 - 1e-9) && v <= upper * (1 + 1e-9))
                .sorted()
                .distinct()
                .toList();
        if (inside.size() < 2) {
            throw new IllegalArgumentException(
                    place + ": fewer than two of the listed values lie between " + lower + " and " + upper);
        }
        return new Variable(place, inside.get(0), inside.get(inside.size() - 1), inside, origin);
    }

    /** True when only listed values are allowed. */
    public boolean listed() {
        return !choices.isEmpty();
    }

    /** From 0 at the lower to 1 at the upper bound: logarithmic, linear when the lower bound is 0. */
    double share(double value) {
        return lower > 0 ? Math.log(value / lower) / Math.log(upper / lower) : (value - lower) / (upper - lower);
    }

    /** The value at a share. */
    double at(double share) {
        double s = Math.max(0, Math.min(1, share));
        if (s == 0) {
            return lower;
        }
        if (s == 1) {
            return upper;
        }
        return lower > 0 ? lower * Math.pow(upper / lower, s) : lower + s * (upper - lower);
    }

    /** Index of the listed value next above or at a value; the last when it lies above all. */
    int ceiling(double value) {
        for (int i = 0; i < choices.size(); i++) {
            if (choices.get(i) >= value * (1 - 1e-12)) {
                return i;
            }
        }
        return choices.size() - 1;
    }
}
