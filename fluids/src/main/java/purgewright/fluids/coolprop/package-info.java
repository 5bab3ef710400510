/** The optional link to an installed CoolProp library. The only room with {@code com.sun.jna}; imported by the engine chooser alone. */
package purgewright.fluids.coolprop;
