/** Criteria with their default limits and origins, and the margins they give. No network solving. */
package purgewright.hazard.criteria;
