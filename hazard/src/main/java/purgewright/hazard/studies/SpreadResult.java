package purgewright.hazard.studies;

import java.util.List;
import purgewright.hazard.finding.Verdict;

/**
 * What {@code spread} knows. Numbers are SI; NaN where there is none. A cancelled run gives the same record for the samples done.
 *
 * @param identity which case, by which engine
 * @param settings how it was run
 * @param inputs what is uncertain, in the order of the case
 * @param counts samples by verdict
 * @param complete false when it was cancelled before its plan, or its stopping rule, was met
 * @param stopped why it ended, in words
 * @param holds probability that the separation holds; samples not converged and not established never count as holding
 * @param criteria the same for each criterion
 * @param outputs spread of each quantity followed
 * @param kept the first samples one by one, for scatter plots and rank correlations
 * @param ranks rank correlation of each output with each input, strongest first within an output
 * @param tornado one input at a time, for each output strongest first; empty when not asked for
 * @param linear slopes at the nominal point; empty when not asked for
 * @param sobol variance-based indices; empty when not asked for
 * @param rare search for rare failures; null when not asked for
 * @param redlines false trips and missed losses; empty when not asked for
 * @param corners all new, all worn, extreme boundaries; empty when not asked for
 * @param verdict against the target; null when none is stated. Not established whenever a stated value lies outside its own distribution
 * @param verdictLine in words
 * @param remarks truncations and whatever else the numbers rest on
 * @param cautions always shown
 */
public record SpreadResult(
        Identity identity,
        SpreadSettings settings,
        List<Input> inputs,
        Counts counts,
        boolean complete,
        String stopped,
        Probability holds,
        List<CriterionProbability> criteria,
        List<OutputSpread> outputs,
        Kept kept,
        List<RankCorrelation> ranks,
        List<TornadoBar> tornado,
        List<LinearEffect> linear,
        List<SobolIndex> sobol,
        RareFailure rare,
        List<RedlineTrade> redlines,
        List<Corner> corners,
        Verdict verdict,
        String verdictLine,
        List<String> remarks,
        List<String> cautions) {

    /**
     * @param title of the case
     * @param hash of the case
     * @param engine property engine's name
     */
    public record Identity(String title, String hash, String engine) {}

    /**
     * An uncertain input.
     *
     * @param place JSON Pointer
     * @param unit SI
     * @param nominal value in the case
     * @param words the distribution in words
     * @param mean after truncation
     * @param deviation standard deviation after truncation
     * @param low 5 % quantile
     * @param high 95 % quantile
     * @param cut probability that truncation took away
     * @param cutWords where it was truncated and why; empty when it was not
     */
    public record Input(
            String place,
            String unit,
            double nominal,
            String words,
            double mean,
            double deviation,
            double low,
            double high,
            double cut,
            String cutWords) {}

    /**
     * Samples by the verdict of the whole sample over all phases; they add up to those done.
     *
     * @param planned of this part
     */
    public record Counts(long planned, long holds, long thin, long fallsShort, long notConverged, long notEstablished) {
        /** Samples done. */
        public long done() {
            return holds + thin + fallsShort + notConverged + notEstablished;
        }

        /** Samples in which the separation holds, thin ones too. */
        public long good() {
            return holds + thin;
        }

        /** Samples that say nothing. */
        public long unknown() {
            return notConverged + notEstablished;
        }
    }

    /**
     * A probability from counting.
     *
     * @param estimate share of all samples done; what is not known counts against it
     * @param low end of the interval
     * @param high end of the interval
     * @param highIfUnknownHeld upper end were every sample not known to hold: how much is not known, beside chance
     */
    public record Probability(double estimate, double low, double high, double highIfUnknownHeld) {}

    /**
     * @param key of the criterion
     * @param met samples that meet it everywhere
     * @param missed samples that do not
     * @param unknown samples where it could not be told
     * @param probability that it is met
     */
    public record CriterionProbability(String key, long met, long missed, long unknown, Probability probability) {}

    /**
     * Spread of one quantity.
     *
     * @param place JSON Pointer or word, with the phase where there are several
     * @param name for people
     * @param unit SI
     * @param nominal with every input at its nominal value
     * @param count samples with a value
     * @param missing samples without
     * @param mean of them
     * @param deviation standard deviation
     * @param least smallest
     * @param greatest largest
     * @param shares of the quantiles
     * @param quantiles at these shares, each within half a bin of {@link QuantileSketch}
     * @param edges of the histogram's bars, one more than bars
     * @param bars samples in each
     */
    public record OutputSpread(
            String place,
            String name,
            String unit,
            double nominal,
            long count,
            long missing,
            double mean,
            double deviation,
            double least,
            double greatest,
            List<Double> shares,
            List<Double> quantiles,
            List<Double> edges,
            List<Long> bars) {}

    /**
     * The first samples of the plan, one by one.
     *
     * @param index of each in the plan, ascending
     * @param inputs by sample, then input; SI
     * @param outputs by sample, then output; SI, NaN where there is none
     * @param verdicts by sample
     */
    public record Kept(List<Long> index, List<double[]> inputs, List<double[]> outputs, List<Verdict> verdicts) {
        /** Nothing kept. */
        public static final Kept NONE = new Kept(List.of(), List.of(), List.of(), List.of());
    }

    /**
     * @param output place of it
     * @param input place of it
     * @param coefficient Spearman's, -1 to 1
     * @param low end of its interval
     * @param high end of its interval
     * @param count samples it rests on
     */
    public record RankCorrelation(
            String output, String input, double coefficient, double low, double high, long count) {}

    /**
     * One input at its 5 % and 95 % quantile, all others nominal.
     *
     * @param output place of it
     * @param input place of it
     * @param lowInput value of the input, SI
     * @param highInput value of the input, SI
     * @param atLow output there
     * @param nominal output with everything nominal
     * @param atHigh output there
     */
    public record TornadoBar(
            String output,
            String input,
            double lowInput,
            double highInput,
            double atLow,
            double nominal,
            double atHigh) {
        /** Length of the bar. */
        public double span() {
            return Math.abs(atHigh - atLow);
        }
    }

    /**
     * @param output place of it
     * @param input place of it
     * @param derivative output by input, SI
     * @param deviation what the input's standard deviation makes of it, with its sign
     * @param share of the linear variance, inputs taken as independent
     * @param method adjoint, or difference
     */
    public record LinearEffect(
            String output, String input, double derivative, double deviation, double share, String method) {}

    /**
     * @param output place of it
     * @param input place of it
     * @param first share of variance by the input alone
     * @param firstError standard error
     * @param total share of variance with all its interactions
     * @param totalError standard error
     * @param solves evaluations all indices of the output took
     */
    public record SobolIndex(
            String output,
            String input,
            double first,
            double firstError,
            double total,
            double totalError,
            long solves) {}

    /**
     * A rare failure by subset simulation.
     *
     * @param probability that the separation does not hold
     * @param low end of the interval
     * @param high end of the interval
     * @param variation coefficient of variation
     * @param thresholds least margin at each level
     * @param solves evaluations
     * @param unknown evaluations without an answer; they count as failures
     * @param reached false when the last level was not reached: the probability is then below {@code high}
     * @param words in a sentence
     */
    public record RareFailure(
            double probability,
            double low,
            double high,
            double variation,
            List<Double> thresholds,
            long solves,
            long unknown,
            boolean reached,
            String words) {}

    /**
     * Trade of one redline.
     *
     * @param name of the reading
     * @param place JSON Pointer
     * @param phase of the duty
     * @param unit SI
     * @param lowest true when it trips below
     * @param physical where the separation is lost
     * @param normal reading in normal running, mean
     * @param spread of the reading from run to run, standard deviation, from the samples
     * @param noise of one sample, standard deviation
     * @param bias of the instrument, standard deviation
     * @param rate samples a second
     * @param persistence samples in a row that trip
     * @param duration of a run, s
     * @param points probabilities over the set point
     * @param stated the set point of the case, NaN when it states none
     * @param proposed set point that meets the allowed false-trip probability; NaN when none does
     * @param atProposed probabilities there; null when there is none
     * @param atStated probabilities at the stated set point; null when there is none
     * @param others how persistence trades at the proposed false-trip probability
     * @param words in a sentence
     */
    public record RedlineTrade(
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
            double rate,
            int persistence,
            double duration,
            List<TradePoint> points,
            double stated,
            double proposed,
            TradePoint atProposed,
            TradePoint atStated,
            List<PersistencePoint> others,
            String words) {}

    /**
     * @param setPoint SI
     * @param falseTrip probability of a trip in a run in which nothing is wrong
     * @param missedLoss probability that a loss of purge is not tripped in time
     */
    public record TradePoint(double setPoint, double falseTrip, double missedLoss) {}

    /**
     * @param persistence samples in a row that trip
     * @param rate samples a second
     * @param noise standard deviation of one sample
     * @param setPoint that meets the allowed false-trip probability
     * @param missedLoss there
     */
    public record PersistencePoint(int persistence, double rate, double noise, double setPoint, double missedLoss) {}

    /**
     * One row of the table of corners.
     *
     * @param name for people
     * @param what was set
     * @param verdict there
     * @param outputs in the order of {@link SpreadResult#outputs}
     * @param governing criterion with the least margin
     * @param margin least margin
     */
    public record Corner(
            String name, String what, Verdict verdict, List<Double> outputs, String governing, double margin) {}
}
