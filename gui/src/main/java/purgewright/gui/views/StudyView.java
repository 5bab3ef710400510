package purgewright.gui.views;

import java.util.List;
import javafx.application.Platform;
import javafx.beans.binding.Bindings;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.TaskRunner;
import purgewright.gui.task.Work;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * A study of the case that takes its time: started by a button, with progress, time left and cancel; its result stays when the view
 * is left, and is dimmed when the case has changed since.
 *
 * @param <T> what the study gives
 */
public abstract class StudyView<T> extends VBox implements Shown {
    protected final Workbench bench;
    private final Work<T> work;
    private final Label line = new Label();
    private final Button run;
    private final HBox controls = new HBox();
    private Node body = new Region();
    private T result;
    private CaseDocument ran;
    private Runnable whenShown = () -> {};
    /** True while the case lacks what the study is about. */
    private final BooleanProperty lacking = new SimpleBooleanProperty(this, "lacking");

    /**
     * @param key texts are {@code view.KEY.caption} and {@code view.KEY.run}
     */
    StudyView(Workbench bench, String key) {
        this.bench = bench;
        this.work = new Work<>(TaskRunner.background(key), Platform::runLater);
        getStyleClass().add("figure-view");
        Label caption = new Label(Texts.of("view." + key + ".caption"));
        caption.getStyleClass().add("quiet");
        caption.setWrapText(true);
        caption.setMaxWidth(Double.MAX_VALUE);
        caption.setMinHeight(USE_PREF_SIZE);
        HBox.setHgrow(caption, Priority.ALWAYS);
        run = new Button(Texts.of("view." + key + ".run"));
        run.setId("run " + key);
        run.setMinWidth(USE_PREF_SIZE);
        run.disableProperty()
                .bind(work.runningProperty()
                        .or(bench.history().documentProperty().isNull())
                        .or(lacking));
        run.setOnAction(e -> run());
        Button cancel = new Button(Texts.of("view.cancel"));
        cancel.setId("cancel " + key);
        cancel.setMinWidth(USE_PREF_SIZE);
        cancel.setOnAction(e -> work.cancel());
        ProgressBar bar = new ProgressBar();
        bar.setPrefWidth(110);
        bar.setMinWidth(60);
        bar.progressProperty().bind(work.shareProperty());
        Label left = new Label();
        left.getStyleClass().add("quiet");
        left.setMinWidth(USE_PREF_SIZE);
        left.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> Double.isNaN(work.leftProperty().get())
                                ? ""
                                : Texts.of("view.left", left(work.leftProperty().get())),
                        work.leftProperty()));
        for (Node each : List.of(bar, left, cancel)) {
            each.visibleProperty().bind(work.runningProperty());
            each.managedProperty().bind(work.runningProperty());
        }
        controls.setAlignment(Pos.CENTER_RIGHT);
        controls.getStyleClass().add("view-controls");
        controls.getChildren().addAll(bar, left, cancel, run);
        HBox top = new HBox(caption, controls);
        top.getStyleClass().add("view-line");
        top.setAlignment(Pos.CENTER_LEFT);
        line.getStyleClass().add("view-verdict");
        line.setWrapText(true);
        line.setMinHeight(USE_PREF_SIZE);
        line.managedProperty().bind(line.visibleProperty());
        line.visibleProperty().bind(line.textProperty().isNotEmpty());
        work.messageProperty().addListener((o, a, text) -> {
            if (!text.isEmpty()) {
                line.setText(Texts.of("view.broken", text));
            }
        });
        getChildren().addAll(top, line);
        bench.history().documentProperty().addListener(o -> outdated());
        bench.readoutProperty().addListener((o, a, b) -> again());
        bench.themeProperty().addListener((o, a, b) -> again());
    }

    /** A guess at a time in whole seconds, from two minutes on in whole minutes, upwards: it is no better known. */
    static String left(double seconds) {
        long whole = Math.max(1, (long) Math.ceil(seconds));
        return whole < 120 ? whole + " s" : (whole + 59) / 60 + " min";
    }

    /** What is done when a result has been shown. */
    public final void whenShown(Runnable then) {
        whenShown = then;
    }

    /** The content below the sentence. */
    void body(Node node) {
        body = node;
        VBox.setVgrow(node, Priority.ALWAYS);
        getChildren().add(node);
        lacks();
    }

    /** What the case lacks for this study, with the way to add it; empty when nothing. */
    String missing(CaseDocument document) {
        return "";
    }

    private void lacks() {
        CaseDocument now = bench.history().document();
        String what = now == null ? "" : missing(now);
        if (lacking.get() && what.isEmpty()) {
            line.setText("");
        }
        lacking.set(!what.isEmpty());
        if (!what.isEmpty() && result == null) {
            line.setText(what);
        }
    }

    /** Further controls, left of the button that runs. */
    void control(Node node) {
        controls.getChildren().add(controls.getChildren().size() - 1, node);
    }

    /** Runs the study; off the window's thread. */
    abstract T compute(CaseDocument document, Progress progress);

    /** Reads what is asked for from the controls; on the window's thread, before {@link #compute}. */
    void prepare() {}

    /** Shows a result; again when units or colours changed. */
    abstract void show(T shown);

    /** False for a study that is of no case: it never gets old. */
    boolean ofTheCase() {
        return true;
    }

    /** True when the latest result says nothing about a case. */
    boolean outdatedBy(CaseDocument now) {
        return !ran.equals(now);
    }

    /** One line above the content. */
    void line(String text) {
        line.setText(text);
    }

    private void again() {
        if (result != null) {
            show(result);
            outdated();
        }
    }

    private void outdated() {
        CaseDocument now = bench.history().document();
        boolean old = ofTheCase() && ran != null && now != null && outdatedBy(now);
        body.setOpacity(old ? 0.5 : 1);
        if (old) {
            line.setText(Texts.of("view.old"));
        }
        lacks();
    }

    /** Runs the study of the case as it stands. */
    public final void run() {
        CaseDocument document = bench.history().document();
        if (document == null) {
            return;
        }
        prepare();
        work.start(progress -> compute(document, progress), done -> {
            result = done;
            ran = document;
            body.setOpacity(1);
            line.setText("");
            show(done);
            outdated();
            whenShown.run();
        });
    }

    /** The latest result; null before the first. */
    final T result() {
        return result;
    }

    /** The case that the latest result is of; null before the first. */
    final CaseDocument ran() {
        return ran;
    }

    /** True when the latest result belongs to the case as it stands. */
    final boolean current() {
        return ran != null && ran.equals(bench.history().document());
    }

    /** True once there is a result. */
    public final boolean done() {
        return result != null && !work.runningProperty().get();
    }

    /** True while the study runs. */
    public final boolean running() {
        return work.runningProperty().get();
    }

    /** Ends what runs when the window closes. */
    public final void close() {
        work.cancel();
    }
}
