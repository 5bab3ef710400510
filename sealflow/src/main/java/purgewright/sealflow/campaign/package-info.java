/**
 * A duty through time and a campaign of duties: the case at every moment (ramps, histories), what the bank gives meanwhile, and how
 * many bottles a sequence of attempts takes. A user of network, transients and supply; judges nothing.
 */
package purgewright.sealflow.campaign;
