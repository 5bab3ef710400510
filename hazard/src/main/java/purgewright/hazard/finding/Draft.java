package purgewright.hazard.finding;

/**
 * Builds a {@link Finding}. A draft ends by one of the judging methods, which set value, limit, margin and verdict together, so that
 * no finding can carry a margin that contradicts its verdict.
 *
 * <p>Margin: {@code (value - limit) / limit} for a minimum, {@code (limit - value) / limit} for a maximum; below 0 it falls short,
 * below {@link #THIN_MARGIN} it is thin. Where a value is NaN the finding is "not established".
 */
public final class Draft {
    /** Below this relative margin a criterion that is met is called thin. Project default, DESIGN criteria [common practice]. */
    public static final double THIN_MARGIN = 0.25;

    private final String key;
    private final String place;
    private final Scene scene;
    private String id;
    private String what = "";
    private String unit = "1";
    private String how = "";
    private String source = "";
    private String mend = "";
    private String caution = "";

    private Draft(String key, String place, Scene scene) {
        this.key = key;
        this.place = place;
        this.scene = scene;
        String name = place.substring(place.lastIndexOf('/') + 1);
        this.id = key + ":" + name + ":" + scene.phase() + (scene.asStated() ? "" : ":" + scene.scenario());
    }

    /**
     * Starts a finding.
     *
     * @param key stable criterion key, for instance {@code barrier-pressure}
     * @param place JSON Pointer with names
     * @param scene phase and scenario
     */
    public static Draft of(String key, String place, Scene scene) {
        return new Draft(key, place, scene);
    }

    /** Tells apart findings of one criterion at one place, for instance by species. */
    public Draft part(String part) {
        String name = place.substring(place.lastIndexOf('/') + 1);
        id = key + ":" + name + ":" + part + ":" + scene.phase() + (scene.asStated() ? "" : ":" + scene.scenario());
        return this;
    }

    /** One sentence. */
    public Draft what(String text) {
        what = text;
        return this;
    }

    /** Symbol of value and limit: the SI unit, or {@link purgewright.fluids.unit.Dimension#symbol} of a rise or a pressure difference. */
    public Draft unit(String symbol) {
        unit = symbol;
        return this;
    }

    /** How the value was computed, one sentence. */
    public Draft how(String text) {
        how = text;
        return this;
    }

    /** Where the limit comes from, with its label. */
    public Draft source(String text) {
        source = text;
        return this;
    }

    /** What would mend it; dropped when the criterion is met with margin. */
    public Draft mend(String text) {
        mend = text;
        return this;
    }

    /** One sentence. */
    public Draft caution(String text) {
        caution = text;
        return this;
    }

    /** Judges a value that must be at least the limit; a limit that is not above 0 has no relative margin: not established. */
    public Finding atLeast(double value, double limit) {
        return judged(value, limit, limit > 0 ? (value - limit) / limit : Double.NaN);
    }

    /** Judges a value that must be at most the limit; see {@link #marginBelow}. */
    public Finding atMost(double value, double limit) {
        return judged(value, limit, marginBelow(value, limit));
    }

    /**
     * Margin of a value that must be at most the limit, {@code (limit - value) / limit}. Where the limit is 0 or less nothing but a value
     * below it could meet it, and no relative margin exists: -1 above it, else NaN.
     */
    public static double marginBelow(double value, double limit) {
        if (limit > 0) {
            return (limit - value) / limit;
        }
        return value > limit ? -1 : Double.NaN;
    }

    /**
     * Judges a value that must be above zero. The margin is {@code value / band}, held between -1 and 1: a relative margin does not
     * exist where the limit is 0.
     */
    public Finding above0(double value, double band) {
        double margin = value <= 0 ? Math.min(value / band, -Double.MIN_NORMAL) : value / band;
        return judged(value, 0, Double.isNaN(margin) ? margin : Math.max(-1, Math.min(1, margin)));
    }

    /** With margin given by a rule of its own; NaN is "not established". */
    public Finding judged(double value, double limit, double margin) {
        Verdict verdict = verdict(margin);
        return as(verdict, value, limit, margin);
    }

    /** With the verdict given. */
    public Finding as(Verdict verdict, double value, double limit, double margin) {
        return new Finding(
                id,
                verdict,
                what,
                place,
                scene.phase(),
                scene.scenario(),
                value,
                limit,
                margin,
                unit,
                how,
                source,
                verdict == Verdict.HOLDS ? "" : mend,
                caution);
    }

    /** A finding without numbers. */
    public Finding as(Verdict verdict) {
        return as(verdict, Double.NaN, Double.NaN, Double.NaN);
    }

    /** The verdict a margin stands for; NaN is "not established". */
    public static Verdict verdict(double margin) {
        if (Double.isNaN(margin)) {
            return Verdict.NOT_ESTABLISHED;
        }
        if (margin < 0) {
            return Verdict.FALLS_SHORT;
        }
        return margin < THIN_MARGIN ? Verdict.THIN : Verdict.HOLDS;
    }
}
