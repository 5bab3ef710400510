/** Viscosity and thermal conductivity of pure fluids, from published correlations or labelled estimates. */
package purgewright.fluids.transport;
