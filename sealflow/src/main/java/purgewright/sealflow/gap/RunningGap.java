package purgewright.sealflow.gap;

/**
 * Clearance in running.
 *
 * @param mean m: this leaks
 * @param least mean less whirl, play, offset, run-out and tolerance, m: this rubs; may be negative
 * @param contactLimit below this the least clearance counts as a rub, m
 */
public record RunningGap(double mean, double least, double contactLimit) {}
