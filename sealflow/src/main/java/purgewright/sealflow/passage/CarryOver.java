package purgewright.sealflow.passage;

import java.util.Locale;

/**
 * Kinetic-energy carry-over of straight labyrinths on a smooth land: the factor on the flow of every tooth after the first.
 *
 * <p>Not for stepped or interlocking teeth, nor a honeycomb land; there it is 1.
 */
public enum CarryOver {
    /** No carry-over: the jet's energy is lost in every chamber. */
    NONE("none"),
    /**
     * {@code mu = sqrt(N / ((1 - j) N + j)), j = 1 - (1 + 16.6 c/L)^-2}. K. Neumann, Maschinenbautechnik 13 (1964) [from memory].
     */
    NEUMANN("neumann"),
    /**
     * {@code mu^2 = 1 / (1 - (N-1)/N (c/L) / (c/L + 0.02))}. B. Hodkinson, Proc. IMechE 141 (1939) [from memory].
     */
    HODKINSON("hodkinson"),
    /**
     * {@code mu = 1 / sqrt(1 - alpha), alpha = 8.52 / ((L - t)/c + 7.23)}; refused at (L - t)/c up to 1.29, where alpha reaches 1. G.
     * Vermes, J. Eng. Power 83 (1961) 161 [from memory].
     */
    VERMES("vermes");

    private final String word;

    CarryOver(String word) {
        this.word = word;
    }

    /** Word in the case file. */
    public String word() {
        return word;
    }

    /** The model of that word. */
    static CarryOver of(String word) {
        for (CarryOver model : values()) {
            if (model.word.equals(word)) {
                return model;
            }
        }
        throw new IllegalArgumentException("no carry-over is called '" + word + "'");
    }

    /**
     * Factor from the second tooth on, at least 1.
     *
     * @param teeth number of teeth
     * @param clearance m
     * @param pitch m
     * @param tip m
     */
    public double factor(int teeth, double clearance, double pitch, double tip) {
        double ratio = clearance / pitch;
        switch (this) {
            case NEUMANN:
                double j = 1 - 1 / ((1 + 16.6 * ratio) * (1 + 16.6 * ratio));
                return Math.sqrt(teeth / ((1 - j) * teeth + j));
            case HODKINSON:
                return 1 / Math.sqrt(1 - (teeth - 1.0) / teeth * ratio / (ratio + 0.02));
            case VERMES:
                double chamber = (pitch - tip) / clearance;
                if (!(chamber > 1.29)) {
                    throw new IllegalArgumentException(String.format(
                            Locale.ROOT,
                            "(pitch - tip) / clearance is %.3g; the carry-over after Vermes needs more than 1.29",
                            chamber));
                }
                return 1 / Math.sqrt(1 - 8.52 / (chamber + 7.23));
            default:
                return 1;
        }
    }
}
