/** The list of findings and problems: model and view. */
package purgewright.gui.findings;
