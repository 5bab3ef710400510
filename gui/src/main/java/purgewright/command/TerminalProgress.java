package purgewright.command;

import java.util.Locale;
import purgewright.hazard.service.Progress;

/** One line on standard error that is rewritten; nothing unless a person watches. */
final class TerminalProgress implements Progress {
    /** Fast enough to be smooth, slow enough to cost nothing, ns. */
    private static final long PAUSE = 100_000_000;

    private final Terminal terminal;
    private long last;
    private int width;

    private TerminalProgress(Terminal terminal) {
        this.terminal = terminal;
        this.last = System.nanoTime();
    }

    static Progress on(Terminal terminal, SharedOptions shared) {
        return terminal.interactive() && !shared.quiet ? new TerminalProgress(terminal) : Progress.NONE;
    }

    @Override
    public synchronized void at(double share, String what) {
        long now = System.nanoTime();
        if (now - last < PAUSE && share < 1) {
            return;
        }
        last = now;
        boolean done = share >= 1;
        String line = done ? "" : String.format(Locale.ROOT, "%3.0f %%  %s", 100 * share, what);
        String blanks = " ".repeat(Math.max(0, width - line.length()));
        terminal.err().print("\r" + line + blanks + (done ? "\r" : ""));
        terminal.err().flush();
        width = line.length();
    }
}
