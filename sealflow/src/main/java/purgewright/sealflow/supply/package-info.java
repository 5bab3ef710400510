/** Bottles, regulators and what can be drawn from them. Real gas; knows no network. */
package purgewright.sealflow.supply;
