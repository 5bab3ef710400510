package purgewright.command;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Ctrl-C on long work: the working thread is interrupted and given time to print what it has; a partial answer is better than none.
 * The process still ends with the signal's own exit code. Used in a try block round the work and its printing; what is said of an
 * exception that leaves that block is waited for too.
 */
final class Interrupt implements AutoCloseable {
    /** Time to print a partial answer, s; whoever presses a key to stop will not wait much longer. */
    private static final int PATIENCE = 10;

    /** One whose hook runs already: the process ends when the command has said its last word. */
    private static volatile Interrupt ending;

    private final CountDownLatch done = new CountDownLatch(1);
    private final Thread hook;

    private Interrupt(Thread worker) {
        hook = new Thread(
                () -> {
                    worker.interrupt();
                    try {
                        // Whether it was done in time makes no difference to a process that ends.
                        if (!done.await(PATIENCE, TimeUnit.SECONDS)) {
                            return;
                        }
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                },
                "purgewright-interrupt");
    }

    /** Watches over the calling thread until closed. */
    static Interrupt watch() {
        Interrupt watch = new Interrupt(Thread.currentThread());
        Runtime.getRuntime().addShutdownHook(watch.hook);
        return watch;
    }

    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The process is ending already: the hook waits for the command.
            Thread.interrupted();
            ending = this;
            return;
        }
        done.countDown();
    }

    /** To be called when a command has printed everything. */
    static void finished() {
        Interrupt waiting = ending;
        if (waiting != null) {
            waiting.done.countDown();
        }
    }
}
