/** Equations of state as Helmholtz energies; coefficients are resource files with their source beside them. No unit text. */
package purgewright.fluids.helmholtz;
