package purgewright.gui.task;

import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

/** One solve at a time; a new case cancels the one it outdates, and only the latest answers. */
public final class SolveLane {
    private final TaskRunner runner;
    private final Checker checker;
    private final Executor deliver;
    private final Consumer<Outcome> listener;
    private final AtomicLong latest = new AtomicLong();
    private Runnable stop = () -> {};
    /** What the next solve starts from. Of whatever case: a start that does not fit is dropped by the solver. */
    private volatile CheckResult previous;

    /**
     * @param runner where solves run
     * @param checker what solves
     * @param deliver thread on which the listener is told, for instance the window's
     * @param listener told the outcome of the latest case
     */
    public SolveLane(TaskRunner runner, Checker checker, Executor deliver, Consumer<Outcome> listener) {
        this.runner = runner;
        this.checker = checker;
        this.deliver = deliver;
        this.listener = listener;
    }

    /** Solves this case next and forgets all earlier ones. */
    public void submit(CaseDocument document) {
        long ticket = latest.incrementAndGet();
        stop.run();
        stop = runner.start(() -> run(ticket, document));
    }

    /** Stops what runs; nobody is told. */
    public void cancel() {
        latest.incrementAndGet();
        stop.run();
    }

    private void run(long ticket, CaseDocument document) {
        if (ticket != latest.get()) {
            return;
        }
        long start = System.nanoTime();
        Outcome outcome;
        try {
            CheckResult result = checker.check(document, previous, Progress.NONE);
            previous = result;
            outcome = new Outcome.Checked(document, result, since(start));
        } catch (CaseException e) {
            outcome = new Outcome.Bad(document, e.problems(), since(start));
        } catch (CancellationException e) {
            return;
        } catch (RuntimeException e) {
            String message = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
            outcome = new Outcome.Broken(document, message, since(start));
        }
        Outcome told = outcome;
        deliver.execute(() -> {
            if (ticket == latest.get()) {
                listener.accept(told);
            }
        });
    }

    private static double since(long start) {
        return (System.nanoTime() - start) / 1e9;
    }
}
