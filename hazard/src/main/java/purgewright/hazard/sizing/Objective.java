package purgewright.hazard.sizing;

/** What a sized purge is to have as little of as possible. */
public enum Objective {
    /** Purge flow as stated, the greatest over the phases, kg/s. */
    GAS_FLOW("purge flow", "kg/s"),
    /** Purge gas for one run of the duty, kg. */
    GAS_PER_RUN("gas per run", "kg"),
    /** Pressure of the purge supply, the greatest over the phases, Pa. */
    SET_PRESSURE("set pressure", "Pa");

    private final String words;
    private final String unit;

    Objective(String words, String unit) {
        this.words = words;
        this.unit = unit;
    }

    /** In words. */
    public String words() {
        return words;
    }

    /** SI unit. */
    public String unit() {
        return unit;
    }

    /** The value of a design, SI; NaN when it was not solved. */
    public double of(Evaluation e) {
        return switch (this) {
            case GAS_FLOW -> e.purge();
            case GAS_PER_RUN -> e.perRun();
            case SET_PRESSURE -> e.setPressure();
        };
    }

    /** What decides between designs of the same value: a lower set pressure, or less gas. */
    public Objective second() {
        return this == SET_PRESSURE ? GAS_FLOW : SET_PRESSURE;
    }
}
