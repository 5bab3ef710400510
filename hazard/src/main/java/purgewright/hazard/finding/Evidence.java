package purgewright.hazard.finding;

import java.util.List;

/**
 * What a finding rests on: the way from a verdict to its numbers. Immutable.
 *
 * @param states solved quantities at the finding's place and its ends
 * @param models what computed them, a sentence each: the model with its band and its range, or how a cavity is taken
 * @param properties property engine
 * @param closure how far the balances close, in words
 * @param adverse the same criterion with every seal model and swirl at the end of its band that hurts; null when it was not looked at
 * @param favourable the other ends; null when not looked at
 * @param flips inputs whose change, alone, brings the margin to 0, nearest first
 */
public record Evidence(
        List<State> states,
        List<String> models,
        String properties,
        String closure,
        Ends adverse,
        Ends favourable,
        List<Flip> flips) {
    /** Nothing collected. */
    public static final Evidence NONE = new Evidence(List.of(), List.of(), "", "", null, null, List.of());

    /** Copies. */
    public Evidence {
        states = List.copyOf(states);
        models = List.copyOf(models);
        flips = List.copyOf(flips);
    }

    /**
     * A solved quantity.
     *
     * @param place JSON Pointer with names
     * @param quantity pressure, temperature, flow ...
     * @param value SI
     * @param unit SI unit
     */
    public record State(String place, String quantity, double value, String unit) {}

    /**
     * A criterion at the ends of the models' bands.
     *
     * @param value SI
     * @param margin as the finding's
     * @param verdict that the margin stands for
     */
    public record Ends(double value, double margin, Verdict verdict) {}

    /**
     * What brings the margin to 0.
     *
     * @param place JSON Pointer of the input
     * @param value of the input as stated, SI
     * @param share relative change by the slope at the solution: a hint, the better the smaller it is
     */
    public record Flip(String place, double value, double share) {}

    /** The same with the ends. */
    public Evidence withEnds(Ends hurt, Ends help) {
        return new Evidence(states, models, properties, closure, hurt, help, flips);
    }

    /** The same with what flips it. */
    public Evidence withFlips(List<Flip> inputs) {
        return new Evidence(states, models, properties, closure, adverse, favourable, inputs);
    }
}
