/** Flammability limits, limiting oxygen and their rules, from a table with sources. No network. */
package purgewright.hazard.flammability;
