package purgewright.gui.app;

import java.util.logging.Logger;

/** Starts the window from a class that is no toolkit class, so that the toolkit may lie on the class path. */
public final class WindowMain {
    /** Held, because loggers that nobody holds forget what they were told. */
    private static final Logger TOOLKIT = Logger.getLogger("javafx");

    private WindowMain() {}

    /** The window; a first argument is a case file to open. */
    public static void main(String[] arguments) {
        // The package has the toolkit on the class path, where it works and says on every start that it would rather be
        // elsewhere.
        TOOLKIT.setFilter(
                said -> said.getMessage() == null || !said.getMessage().startsWith("Unsupported JavaFX configuration"));
        PurgewrightApp.launchWindow(arguments);
    }
}
