/**
 * Unknowns, Newton, fallbacks and the result of a steady solve. Knows the Passage interface and no passage type by name; never
 * calls back into its users.
 */
package purgewright.sealflow.network;
