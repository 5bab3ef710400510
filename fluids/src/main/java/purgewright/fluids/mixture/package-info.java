/**
 * Streams, and what comes of mixing them: each component at its partial density, condensation, transport and diffusion of gas
 * mixtures. No cavities, no unit text.
 */
package purgewright.fluids.mixture;
