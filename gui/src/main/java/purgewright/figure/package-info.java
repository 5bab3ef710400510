/**
 * Drawings without a toolkit: a figure is a list of shapes, texts and hit regions that any {@link java.awt.Graphics2D} can paint, so
 * that window, command line and report show the same picture. Looks and positions only: no physics, no window, no file format of
 * cases.
 */
package purgewright.figure;
