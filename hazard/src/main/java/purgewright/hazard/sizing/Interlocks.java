package purgewright.hazard.sizing;

import java.util.List;

/**
 * What a test procedure needs of the barrier: which readings permit the start and stop the run, and in which order things are done.
 *
 * @param rows one a reading
 * @param start steps in order
 * @param stop steps in order
 * @param notes what holds for all of it, with sources
 */
public record Interlocks(List<Row> rows, List<String> start, List<String> stop, List<String> notes) {
    /** Nothing to say. */
    public static final Interlocks NONE = new Interlocks(List.of(), List.of(), List.of(), List.of());

    /**
     * One reading.
     *
     * @param reading name
     * @param place JSON Pointer
     * @param lowest true: it must not fall below
     * @param permit value without which the start is not permitted, SI; NaN for none
     * @param redline value at which the run is stopped, SI; NaN for none
     * @param slow true when the redline protects against slow changes only
     * @param unit SI
     * @param blankOut time after a step of the sequence during which the redline is not armed, s; 0: always armed
     * @param persistence how long the reading must stay beyond, s; NaN when only the detection time as a whole is stated
     * @param sensors how many
     * @param votes how many must agree
     * @param phases in which it is set so; empty: in all in which flow separates
     * @param reason in words
     */
    public record Row(
            String reading,
            String place,
            boolean lowest,
            double permit,
            double redline,
            boolean slow,
            String unit,
            double blankOut,
            double persistence,
            int sensors,
            int votes,
            List<String> phases,
            String reason) {}
}
