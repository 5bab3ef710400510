package purgewright.hazard.service;

import purgewright.sealflow.network.Explanation;

/**
 * Why a cavity stands where it stands in one phase.
 *
 * @param cavity name
 * @param phase name of the phase it is explained for
 * @param explanation its balance and what moves it; null when the phase has no solution that could be explained
 * @param reason why there is no explanation; empty when there is one
 */
public record CavityExplanation(String cavity, String phase, Explanation explanation, String reason) {}
