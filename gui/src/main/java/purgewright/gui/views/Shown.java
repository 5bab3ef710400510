package purgewright.gui.views;

import purgewright.figure.Figure;

/** What a view shows, to be written to a file: its drawing and its numbers. */
public interface Shown {
    /** Stem of the file's name, for instance {@code purge-window}. */
    String name();

    /** The drawing; null where there is nothing yet. */
    Figure figure();

    /** Told when the view comes to be looked at, and when no longer. */
    default void shown(boolean now) {}

    /** The numbers behind it in SI as comma-separated values, one line of headings; empty where there is nothing yet. */
    String csv();
}
