/** The least purge that meets the criteria, the purge window, redlines and wear limits: algorithms over an evaluation, no solving. */
package purgewright.hazard.sizing;
