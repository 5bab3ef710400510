/** Equilibrium products of combustion and their ideal-gas properties. No cavities. */
package purgewright.fluids.burnt;
