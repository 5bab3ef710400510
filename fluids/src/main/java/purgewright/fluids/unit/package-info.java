/**
 * Text to SI and back: "0.08 mm", "45 psi gauge", "40 L/min at 0 degC". The only room with {@code javax.measure}; no physics
 * beyond the conversion itself.
 */
package purgewright.fluids.unit;
