package purgewright.command;

/**
 * Turns the first Ctrl-C into a cancel: the thread that computes is interrupted and has some seconds to print what it has so far. Without
 * it the process would end with nothing.
 */
final class Interruption implements AutoCloseable {
    /** Long enough to print, short enough not to seem stuck, ms. */
    private static final long PATIENCE = 10_000;

    private final Thread worker = Thread.currentThread();
    private final Thread hook = new Thread(this::cancel, "purgewright-cancel");

    private Interruption() {}

    /** Watches until it is closed; the calling thread is the one that is interrupted. */
    static Interruption watch() {
        Interruption i = new Interruption();
        Runtime.getRuntime().addShutdownHook(i.hook);
        return i;
    }

    private void cancel() {
        worker.interrupt();
        try {
            worker.join(PATIENCE);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** The work is done: an interrupt that came too late is forgotten. */
    void done() {
        Thread.interrupted();
    }

    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException shuttingDown) {
            // It is running: the process ends when this thread has printed.
            return;
        }
    }
}
