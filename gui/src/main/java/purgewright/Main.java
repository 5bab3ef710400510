package purgewright;

import java.lang.reflect.InvocationTargetException;
import java.util.Arrays;
import java.util.Locale;
import purgewright.command.Commands;
import purgewright.command.ExitCode;
import purgewright.command.Terminal;

/**
 * Starts Purgewright: without arguments the window, else the command line.
 *
 * <p>Whatever is thrown ends here with {@link ExitCode#INTERNAL}: a JVM that dies of an exception ends with 1, which would read as
 * the verdict "falls short".
 */
public final class Main {
    /** Named, not linked: a command must not load the window's toolkit. */
    private static final String WINDOW = "purgewright.gui.app.WindowMain";

    private Main() {}

    /** The program. */
    public static void main(String[] arguments) {
        int code;
        try {
            code = run(arguments);
        } catch (Throwable thrown) { // Errors too: no memory, a class that is missing
            code = crashed(thrown);
        }
        System.exit(code);
    }

    private static int run(String[] arguments) throws Throwable {
        if (arguments.length == 0) {
            return window(arguments);
        }
        if (arguments[0].equals("window") && !Arrays.asList(arguments).contains("--help")) {
            return window(Arrays.copyOfRange(arguments, 1, arguments.length));
        }
        return Commands.execute(Terminal.system(), arguments);
    }

    private static int window(String[] arguments) throws Throwable {
        boolean linux =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("linux");
        boolean headless = "Monocle".equals(System.getProperty("glass.platform"));
        String display = System.getenv("DISPLAY");
        if (linux && !headless && (display == null || display.isEmpty())) {
            System.err.println(
                    "purgewright: no display: the window needs one (DISPLAY is not set); the command line works"
                            + " without, see purgewright --help");
            return ExitCode.BAD_INPUT;
        }
        try {
            Class.forName(WINDOW).getMethod("main", String[].class).invoke(null, (Object) arguments);
            return 0;
        } catch (InvocationTargetException e) {
            throw e.getCause();
        }
    }

    private static int crashed(Throwable thrown) {
        try {
            System.err.println("purgewright: internal error, please report it: " + thrown);
            if (System.getenv("PURGEWRIGHT_TRACE") != null) {
                thrown.printStackTrace();
            }
        } catch (Throwable again) { // no memory even for a message: the code still has to tell
            return ExitCode.INTERNAL;
        }
        return ExitCode.INTERNAL;
    }
}
