package purgewright.gui.task;

/** Where background work runs. */
@FunctionalInterface
public interface TaskRunner {
    /** Starts work and hands back what stops it. */
    Runnable start(Runnable work);

    /** On one thread of its own, one piece of work after the other. Stopping interrupts. */
    static TaskRunner background(String name) {
        var thread = java.util.concurrent.Executors.newSingleThreadExecutor(work -> {
            Thread t = new Thread(work, name);
            t.setDaemon(true);
            return t;
        });
        return work -> {
            var future = thread.submit(work);
            return () -> future.cancel(true);
        };
    }

    /** On the spot, in the caller's thread: for tests. */
    static TaskRunner onTheSpot() {
        return work -> {
            work.run();
            return () -> {};
        };
    }
}
