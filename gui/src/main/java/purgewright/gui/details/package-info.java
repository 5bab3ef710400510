/** The panel that shows and edits the selected place: model and view. */
package purgewright.gui.details;
