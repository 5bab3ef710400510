/** Oxygen in a room into which inert gas is released, and purging by dilution. No network. */
package purgewright.hazard.deficiency;
