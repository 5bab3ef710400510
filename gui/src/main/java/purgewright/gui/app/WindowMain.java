package purgewright.gui.app;

/** Starts the window from a class that is no toolkit class, so that the toolkit may lie on the class path. */
public final class WindowMain {
    private WindowMain() {}

    /** The window; a first argument is a case file to open. */
    public static void main(String[] arguments) {
        PurgewrightApp.launchWindow(arguments);
    }
}
