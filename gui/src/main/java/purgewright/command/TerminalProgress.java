package purgewright.command;

import java.util.Locale;
import purgewright.hazard.service.Progress;

/** One line on standard error that is rewritten; nothing unless a person watches. */
final class TerminalProgress implements Progress {
    /** Fast enough to be smooth, slow enough to cost nothing, ns. */
    private static final long PAUSE = 100_000_000;

    private final Terminal terminal;
    private final long start = System.nanoTime();
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
        String line = done ? "" : String.format(Locale.ROOT, "%3.0f %%  %s%s", 100 * share, what, left(now, share));
        String blanks = " ".repeat(Math.max(0, width - line.length()));
        terminal.err().print("\r" + line + blanks + (done ? "\r" : ""));
        terminal.err().flush();
        width = line.length();
    }

    /** Time left by the share done so far; nothing before that says anything. */
    private String left(long now, double share) {
        double gone = (now - start) * 1e-9;
        if (share < 0.03 || gone < 3) {
            return "";
        }
        double rest = gone * (1 - share) / share;
        return rest < 90
                ? String.format(Locale.ROOT, ", about %.0f s left", rest)
                : String.format(Locale.ROOT, ", about %.0f min left", rest / 60);
    }
}
