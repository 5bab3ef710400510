/**
 * A case over time: cavities that fill and empty, valves that shut, purge that is lost. A user of network, which knows nothing of
 * it.
 */
package purgewright.sealflow.transients;
