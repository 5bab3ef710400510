/**
 * Old layouts of the case file brought up to the current one, a step for each version. A layout from the future is refused, never
 * mangled.
 */
package purgewright.sealflow.casefile.migrate;
