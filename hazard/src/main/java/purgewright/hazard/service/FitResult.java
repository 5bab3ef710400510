package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.finding.Verdict;

/**
 * What measured data say about clearances and flow factors. SI; NaN where there is none.
 *
 * @param complete false when it was cancelled: the best found so far
 * @param network true for a fit of all seals at once, false for one passage
 * @param parameters what was fitted
 * @param points measured against computed, in the order of the data
 * @param chiSquare weighted sum of squares at the end, without the prior
 * @param degrees of freedom
 * @param worn which seal alone explains the data best, most likely first; empty for one passage
 * @param before verdict of the case as it was
 * @param beforeLine in words
 * @param after verdict with the fitted values
 * @param afterLine in words
 * @param edits what the new case sets, by JSON Pointer, as typed
 * @param notes what the reader has to know: outliers, what is not observable, models out of range
 */
public record FitResult(
        boolean complete,
        boolean network,
        List<Parameter> parameters,
        List<Point> points,
        double chiSquare,
        int degrees,
        List<Suspect> worn,
        Verdict before,
        String beforeLine,
        Verdict after,
        String afterLine,
        List<Edit> edits,
        List<String> notes) {

    /**
     * One fitted value.
     *
     * @param place JSON Pointer, for instance {@code /passages/ring A/clearance}
     * @param unit SI symbol
     * @param drawing value of the case
     * @param fitted value
     * @param low end of the 95 % confidence interval
     * @param high end of it
     * @param observable false when the data say (almost) nothing about it: the interval is then that of the prior
     * @param learnt share of the prior's uncertainty that the data took away, 0 to 1; NaN without a prior
     */
    public record Parameter(
            String place,
            String unit,
            double drawing,
            double fitted,
            double low,
            double high,
            boolean observable,
            double learnt) {
        /** Fitted over drawing. */
        public double ratio() {
            return fitted / drawing;
        }
    }

    /**
     * One reading.
     *
     * @param row of the data, from 1
     * @param line of the file
     * @param channel what was measured, as a place or a word
     * @param unit SI symbol
     * @param measured value
     * @param before computed with the case as it was
     * @param fitted computed with the fitted values
     * @param sigma standard uncertainty
     * @param residual (measured - fitted)/sigma
     * @param outlier true when it lies far from what the others agree on
     */
    public record Point(
            int row,
            int line,
            String channel,
            String unit,
            double measured,
            double before,
            double fitted,
            double sigma,
            double residual,
            boolean outlier) {}

    /**
     * One seal taken as the only one that changed.
     *
     * @param passage name
     * @param ratio clearance over drawing that fits best
     * @param chiSquare left over then
     * @param probability among these explanations and "none has changed", equal beforehand
     */
    public record Suspect(String passage, double ratio, double chiSquare, double probability) {}

    /** A value of the new case. */
    public record Edit(String place, String text) {}
}
