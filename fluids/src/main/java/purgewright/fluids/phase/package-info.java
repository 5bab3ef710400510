/** Flash and saturation of pure fluids: from what a caller knows to a state. No cavities. */
package purgewright.fluids.phase;
