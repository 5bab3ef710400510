/** Texts of the window under dotted keys. No nodes. */
package purgewright.gui.text;
