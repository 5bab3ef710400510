/**
 * What everybody may use of fluids: {@link purgewright.fluids.Fluid}, its states, and the engine that hands them out.
 *
 * <p>SI doubles throughout; absolute pressures. No unit text (that is {@code unit}), no cavities, no seals, no printing.
 */
package purgewright.fluids;
