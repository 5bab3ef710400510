/**
 * The window. Each view binds to a model beside it; models hold properties and edits, never a node, a stylesheet or a thread. No
 * formulas: numbers come from {@code purgewright.hazard.service}, pictures from {@code purgewright.figure}.
 */
package purgewright.gui;
