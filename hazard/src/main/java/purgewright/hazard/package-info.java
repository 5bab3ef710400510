/** Judging: from solved states to findings, a verdict and cautions. The rooms below each hold one part; nothing here knows a window. */
package purgewright.hazard;
