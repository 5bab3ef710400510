package purgewright.gui.task;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import java.util.function.BiConsumer;

/**
 * Writes files off the window's thread. What goes to one file is written in the order asked for, one after the other; other files do
 * not wait for it, so that a disk that never answers holds up nothing but itself.
 *
 * <p>Each piece has a thread for as long as it runs, which does not keep the program alive. Asked and told on the window's thread.
 */
public final class WriteLanes {
    private final Executor deliver;
    /** The last piece asked for of each file that is being written. */
    private final Map<Path, CompletableFuture<?>> last = new HashMap<>();

    /** @param deliver the window's thread */
    public WriteLanes(Executor deliver) {
        this.deliver = deliver;
    }

    /**
     * Writes after all that was asked for of this file before.
     *
     * @param ended told the result, or null and what went wrong
     */
    public <T> void start(Path file, Callable<T> work, BiConsumer<T, Throwable> ended) {
        Path lane = file.toAbsolutePath().normalize();
        CompletableFuture<T> now = last.getOrDefault(lane, CompletableFuture.completedFuture(null))
                .handleAsync((r, e) -> call(work), job -> thread(job, lane));
        last.put(lane, now);
        now.whenComplete((result, error) -> deliver.execute(() -> {
            last.remove(lane, now);
            ended.accept(
                    result,
                    error instanceof CompletionException wrapped && wrapped.getCause() != null
                            ? wrapped.getCause()
                            : error);
        }));
    }

    private static <T> T call(Callable<T> work) {
        try {
            return work.call();
        } catch (Exception e) {
            throw new CompletionException(e);
        }
    }

    private static void thread(Runnable job, Path lane) {
        Thread thread = new Thread(job, "write " + lane.getFileName());
        thread.setDaemon(true);
        thread.start();
    }
}
