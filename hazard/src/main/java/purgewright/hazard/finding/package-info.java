/** Findings, verdict words and their precedence, cautions. Data only; rules live in criteria, barrier and flammability. */
package purgewright.hazard.finding;
