/**
 * Spread: distributions of what is not known, sampling, streaming statistics that merge exactly, rare failures, sensitivities, redline
 * trade. Mathematics and result records only; solving and judging a case is the service's. Nothing here draws a random number that is not
 * fixed by seed and index.
 */
package purgewright.hazard.studies;
