/**
 * Text to SI and back: "0.08 mm", "45 psi gauge", "40 L/min at 0 degC". A small table of our own, because a unit library costs a
 * third of the command line's whole start-up time (docs/decisions); the library checks the table in a test. No physics beyond the
 * conversion itself.
 */
package purgewright.fluids.unit;
