/**
 * The command line. A command parses, calls one service, prints and returns a code; formulas and formats live elsewhere. Nothing
 * of the window's toolkit may be loaded from here.
 */
package purgewright.command;
