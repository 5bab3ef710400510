package purgewright.sealflow.gap;

/**
 * Clearance in running.
 *
 * @param mean m: this leaks
 * @param least mean less whirl, play, offset, run-out and tolerance, m: this rubs; may be negative; NaN for a film, which runs at its gap by design
 * @param contactLimit below this the least clearance counts as a rub, m; NaN for a film
 */
public record RunningGap(double mean, double least, double contactLimit) {}
