/** The case as SI records: streams, cavities, passages, rotor, duty. No solving, no JSON, no unit text. */
package purgewright.sealflow.model;
