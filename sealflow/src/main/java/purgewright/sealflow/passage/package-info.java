/**
 * One type a seal kind: from two end states to a flow. Sees neither a network nor a case file; to add a type, write one class
 * that implements {@link purgewright.sealflow.passage.PassageType} and list it in {@code PassageTypes}.
 */
package purgewright.sealflow.passage;
