/** The barrier section on a canvas, with a focusable region over each cavity and seal. */
package purgewright.gui.section;
