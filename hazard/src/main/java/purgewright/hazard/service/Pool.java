package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;

/** Runs tasks on a pool and gives their answers in the order of the tasks. An interrupt cancels all of them. */
final class Pool {
    private Pool() {}

    /**
     * The same, but an interrupt keeps what is done: the answers of unfinished tasks are null, and the flag is left clear, so that what is
     * known can be put together in peace. A task that stops by itself with a {@link CancellationException} counts as unfinished.
     */
    static <T> List<T> some(ExecutorService pool, List<Callable<T>> tasks) {
        List<Future<T>> futures = new ArrayList<>();
        for (Callable<T> task : tasks) {
            futures.add(pool.submit(task));
        }
        List<T> out = new ArrayList<>();
        boolean stopped = false;
        for (Future<T> f : futures) {
            T answer = null;
            if (!stopped || f.isDone()) {
                try {
                    answer = f.isCancelled() ? null : f.get();
                } catch (InterruptedException e) {
                    stopped = true;
                    futures.forEach(x -> x.cancel(true));
                } catch (ExecutionException e) {
                    if (!(e.getCause() instanceof CancellationException)) {
                        futures.forEach(x -> x.cancel(true));
                        throw thrown(e);
                    }
                }
            }
            out.add(answer);
        }
        return out;
    }

    private static RuntimeException thrown(ExecutionException e) {
        if (e.getCause() instanceof RuntimeException r) {
            return r;
        }
        if (e.getCause() instanceof Error error) {
            throw error;
        }
        return new IllegalStateException(e.getCause());
    }

    /** The answer of one task that was handed in before. */
    static <T> T answer(Future<T> task) {
        try {
            return task.get();
        } catch (InterruptedException e) {
            task.cancel(true);
            Thread.currentThread().interrupt();
            throw new CancellationException("cancelled");
        } catch (ExecutionException e) {
            throw thrown(e);
        }
    }

    static <T> List<T> all(ExecutorService pool, List<Callable<T>> tasks) {
        List<Future<T>> futures = new ArrayList<>();
        for (Callable<T> task : tasks) {
            futures.add(pool.submit(task));
        }
        try {
            List<T> out = new ArrayList<>();
            for (Future<T> f : futures) {
                out.add(f.get());
            }
            return out;
        } catch (InterruptedException e) {
            futures.forEach(f -> f.cancel(true));
            Thread.currentThread().interrupt();
            throw new CancellationException("cancelled");
        } catch (ExecutionException e) {
            futures.forEach(f -> f.cancel(true));
            throw thrown(e);
        }
    }
}
