/**
 * The case document as typed, its reading, checking, hashing and saving, and the step to {@link purgewright.sealflow.model.Case}.
 * The only kernel room with Jackson and with unit text. No physics.
 */
package purgewright.sealflow.casefile;
