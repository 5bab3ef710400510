package purgewright.gui.task;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.network.SolveResult;

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

    /**
     * Solves this case next and forgets all earlier ones.
     *
     * @param phaseOrNull phase to be told about first, when there was a result before
     */
    public void submit(CaseDocument document, String phaseOrNull) {
        long ticket = latest.incrementAndGet();
        stop.run();
        stop = runner.start(() -> run(ticket, document, phaseOrNull));
    }

    /** Stops what runs; nobody is told. */
    public void cancel() {
        latest.incrementAndGet();
        stop.run();
    }

    private void run(long ticket, CaseDocument document, String phaseOrNull) {
        if (ticket != latest.get()) {
            return;
        }
        long start = System.nanoTime();
        Outcome outcome;
        try {
            glance(ticket, document, phaseOrNull, start);
            CheckResult result = checker.check(document, previous, Progress.NONE);
            previous = result;
            outcome = new Outcome.Checked(document, result, since(start));
        } catch (CaseException e) {
            outcome = new Outcome.Bad(document, e.problems(), since(start));
        } catch (CancellationException e) {
            return;
        } catch (RuntimeException | Error e) {
            // Too little memory or stack too: a lane that says nothing would look busy for ever.
            outcome = new Outcome.Broken(document, Texts.of(e), since(start));
        }
        tell(ticket, outcome);
    }

    private void tell(long ticket, Outcome outcome) {
        deliver.execute(() -> {
            if (ticket == latest.get()) {
                listener.accept(outcome);
            }
        });
    }

    /** The phase that is looked at, ahead of the rest; the rest then starts from it. */
    private void glance(long ticket, CaseDocument document, String phaseOrNull, long start) {
        CheckResult before = previous;
        if (before == null || phaseOrNull == null) {
            return;
        }
        CheckResult seen = checker.glance(document, before, phaseOrNull);
        if (seen == null || !(seen.phases().get(0).solve() instanceof SolveResult.Converged)) {
            return; // what fails is told by the whole check
        }
        previous = with(before, seen.phases().get(0));
        tell(ticket, new Outcome.Glanced(document, seen, since(start)));
    }

    /** A result to start from, with one phase exchanged. */
    private static CheckResult with(CheckResult r, CheckResult.PhaseResult phase) {
        List<CheckResult.PhaseResult> phases = r.phases().stream()
                .map(p -> p.name().equals(phase.name()) ? phase : p)
                .toList();
        return new CheckResult(
                r.document(),
                r.model(),
                r.engine(),
                r.verdict(),
                r.verdictLine(),
                phases,
                r.purge(),
                r.price(),
                r.findings(),
                r.cautions());
    }

    private static double since(long start) {
        return (System.nanoTime() - start) / 1e9;
    }
}
