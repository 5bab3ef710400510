/** The guide and the theory pages inside the program: the same files as in the docs folder. */
package purgewright.gui.guide;
