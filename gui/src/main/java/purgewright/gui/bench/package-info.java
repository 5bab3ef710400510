/** The model of the whole window: case, result, selection, units, theme. No nodes. */
package purgewright.gui.bench;
