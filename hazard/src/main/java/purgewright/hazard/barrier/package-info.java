/** Pairs that must not meet, reachability along the flow, independent barriers. */
package purgewright.hazard.barrier;
