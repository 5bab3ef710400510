/** Drawn shapes as nodes: verdict marks, and figure shapes turned into paths. Colours come from the stylesheet. */
package purgewright.gui.glyph;
