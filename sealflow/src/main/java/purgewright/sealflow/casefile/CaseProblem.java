package purgewright.sealflow.casefile;

/**
 * One thing wrong with a case file.
 *
 * @param key stable kind, for instance {@code UNKNOWN_UNIT}
 * @param place JSON Pointer with names, for instance {@code /passages/ring A/clearance}; empty for the whole file
 * @param line 1-based; 0 when unknown
 * @param column 1-based; 0 when unknown
 * @param message one sentence, what is wrong
 * @param suggestion what would be right; may be empty
 */
public record CaseProblem(String key, String place, int line, int column, String message, String suggestion) {}
