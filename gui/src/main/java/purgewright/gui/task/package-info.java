/** Work off the window's thread: one solve lane, the latest wins. No nodes. */
package purgewright.gui.task;
