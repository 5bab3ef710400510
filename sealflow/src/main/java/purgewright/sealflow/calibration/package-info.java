/**
 * From measured flows, pressures and temperatures back to clearances: one passage, or all seals of a network at once. A user of
 * network; judges nothing and changes no case.
 */
package purgewright.sealflow.calibration;
