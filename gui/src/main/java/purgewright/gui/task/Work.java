package purgewright.gui.task;

import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.Function;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.Progress;

/** One piece of long work with progress and cancel; its result stays when the view is left. */
public final class Work<T> {
    private final TaskRunner runner;
    private final Executor deliver;
    private final ReadOnlyBooleanWrapper running = new ReadOnlyBooleanWrapper(this, "running");
    private final DoubleProperty share = new SimpleDoubleProperty(this, "share");
    private final StringProperty message = new SimpleStringProperty(this, "message", "");
    private final DoubleProperty left = new SimpleDoubleProperty(this, "left", Double.NaN);
    private Runnable stop = () -> {};
    private long began;
    private int ticket;

    /**
     * @param runner where it runs
     * @param deliver the window's thread
     */
    public Work(TaskRunner runner, Executor deliver) {
        this.runner = runner;
        this.deliver = deliver;
    }

    /** Starts work, ending what ran before; the result is handed over on the window's thread. */
    public void start(Function<Progress, T> work, Consumer<T> done) {
        cancel();
        int mine = ++ticket;
        running.set(true);
        share.set(0);
        left.set(Double.NaN);
        began = System.nanoTime();
        message.set("");
        stop = runner.start(() -> {
            try {
                T result = work.apply((s, what) -> deliver.execute(() -> {
                    if (mine == ticket) {
                        share.set(s);
                        // A guess from the first hundredths would jump about.
                        left.set(s > 0.03 ? (System.nanoTime() - began) / 1e9 * (1 - s) / s : Double.NaN);
                    }
                }));
                deliver.execute(() -> {
                    if (mine == ticket) {
                        running.set(false);
                        done.accept(result);
                    }
                });
            } catch (CancellationException e) {
                deliver.execute(() -> end(mine, ""));
            } catch (RuntimeException | Error e) {
                String text = Texts.of(e);
                deliver.execute(() -> end(mine, text));
            }
        });
    }

    private void end(int mine, String text) {
        if (mine == ticket) {
            running.set(false);
            message.set(text);
        }
    }

    /** Stops what runs. */
    public void cancel() {
        ticket++;
        stop.run();
        running.set(false);
    }

    /** True while work runs. */
    public ReadOnlyBooleanProperty runningProperty() {
        return running.getReadOnlyProperty();
    }

    /** 0 to 1. */
    public DoubleProperty shareProperty() {
        return share;
    }

    /** Time left by the share done so far, s; NaN when that cannot be told. */
    public DoubleProperty leftProperty() {
        return left;
    }

    /** Why it broke off; empty when it did not. */
    public StringProperty messageProperty() {
        return message;
    }
}
