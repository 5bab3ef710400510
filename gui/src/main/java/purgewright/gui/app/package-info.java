/** Start, actions and the frame of the window. */
package purgewright.gui.app;
