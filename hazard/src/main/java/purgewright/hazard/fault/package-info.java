/** Scenarios and the sweep over them: a fault is a changed case, solved and judged like any other. */
package purgewright.hazard.fault;
