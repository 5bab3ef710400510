/** The program's entry, {@link purgewright.Main}, and nothing else: no arguments open the window, all else is the command line. */
package purgewright;
