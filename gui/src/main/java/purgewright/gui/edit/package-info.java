/** Editing a case: the history of documents, settings, recovery, starter cases. No nodes. */
package purgewright.gui.edit;
