/**
 * Equations of state as Helmholtz energies; coefficients are resource files with their source beside them. No unit text.
 *
 * <p>With tau = T_reducing/T and delta = rho/rho_reducing the molar Helmholtz energy over R T is the ideal part
 *
 * <pre>{@code
 * ln delta + lead1 + offset1 + (lead2 + offset2) tau + log ln tau + sum n tau^t + sum n ln(1 - exp(-theta tau))
 * }</pre>
 *
 * <p>plus the residual part, a sum of terms of the kinds
 *
 * <pre>{@code
 * power        n d t l                          n delta^d tau^t exp(-delta^l)        (no exponential when l = 0)
 * gauss        n d t eta epsilon beta gamma     n delta^d tau^t exp(-eta (delta - epsilon)^2 - beta (tau - gamma)^2)
 * associating  n d t eta epsilon beta gamma b   n delta^d tau^t exp(eta (delta - epsilon)^2 + 1/(b + beta (tau - gamma)^2))
 * nonanalytic  n a b beta A B C D               n Delta^b delta exp(-C (delta - 1)^2 - D (tau - 1)^2),
 *              Delta = theta^2 + B ((delta - 1)^2)^a,   theta = 1 - tau + A ((delta - 1)^2)^(1/(2 beta))
 * }</pre>
 */
package purgewright.fluids.helmholtz;
