package purgewright.gui.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Slider;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.Stage;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import purgewright.gui.Listeners;
import purgewright.gui.bench.Workbench;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.task.Desk;
import purgewright.gui.task.TaskRunner;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * 10,000 edits by the window's own controls, on the real solver, with -Dpurgewright.share=1; 100 by default. An edit is what changes the
 * case: a value typed, chosen or dragged, a place added, copied, moved or removed, a step taken back or again, a case opened. Between them
 * places are chosen, views switched, units, themes, letters and findings.
 */
@ExtendWith(ApplicationExtension.class)
@DisplayName("A day at the window leaves no more behind than its beginning")
class LongWindowTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int EDITS = (int) Math.max(100, Math.round(10_000 * SHARE));
    /** Until every view was made and looked at, and there are as many steps to take back as are kept. */
    private static final int WARMING = Math.max(EDITS > 100 ? 1_000 : 100, EDITS / 10);

    /** What a chart reads out at the place looked at last, a line of mends: so many nodes come and go. One in two edits would be more. */
    private static final int NODES_THAT_COME_AND_GO = 40;

    private static final int MOST_MORE = 16 << 20;

    /** What is done, and how often beside the others. */
    private enum Deed {
        PLACE(6),
        TYPE(12),
        DRAG(4),
        CHOOSE(2),
        UNDO(5),
        REDO(3),
        VIEW(5),
        FINDING(2),
        PHASE(1),
        ADD(1),
        COPY(1),
        MOVE(1),
        REMOVE(1),
        LOOK(2),
        FREEZE(1),
        SAVE(1),
        OPEN(1);

        private final int often;

        Deed(int often) {
            this.often = often;
        }
    }

    @TempDir
    Path folder;

    private final SplittableRandom random = new SplittableRandom(11);
    private final Map<Deed, Integer> done = new EnumMap<>(Deed.class);
    private final List<Deed> deeds = new ArrayList<>();
    private Workbench bench;
    private MainWindow window;
    private QuietDialogs dialogs;
    private Path file;
    private int edits;

    @Start
    void start(Stage primary) throws Exception {
        // Not the stage of the test library, which keeps every event there, and with it every node there ever was.
        Stage stage = new Stage();
        dialogs = new QuietDialogs();
        Desk desk = new Desk();
        bench = new Workbench(TaskRunner.background("solve lane"), desk, Platform::runLater);
        window = new PurgewrightApp()
                .start(stage, desk, new Settings(Files.createTempDirectory("purgewright-day")), bench, dialogs);
        bench.history().documentProperty().addListener(o -> edits++);
    }

    /** The minimal case in two phases [invented]. */
    private static CaseDocument twoPhases() {
        return StarterCases.open("minimal").withJson("/duty", """
                [{"name": "steady", "duration": "20 s"}, {"name": "slow", "duration": "20 s", "speed": "20000 rpm"}]""");
    }

    private static void onWindow(Runnable work) {
        WaitForAsyncUtils.asyncFx(work);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void await(BooleanSupplier until) throws Exception {
        WaitForAsyncUtils.waitFor(170, TimeUnit.SECONDS, until::getAsBoolean);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void settled() throws Exception {
        await(() ->
                !bench.busyProperty().get() && !window.saving().savingProperty().get());
    }

    private List<Node> nodes() {
        List<Node> all = new ArrayList<>();
        gather(window.root(), all);
        return all;
    }

    private static void gather(Node node, List<Node> all) {
        all.add(node);
        if (node instanceof Parent parent) {
            parent.getChildrenUnmodifiable().forEach(child -> gather(child, all));
        }
    }

    private static boolean seen(Node node) {
        for (Node n = node; n != null; n = n.getParent()) {
            if (!n.isVisible() || n.isDisabled()) {
                return false;
            }
        }
        return true;
    }

    /** One that is seen, of a kind and with such an id; null when there is none. */
    private <T extends Node> T any(Class<T> type, String id) {
        List<T> all = nodes().stream()
                .filter(type::isInstance)
                .map(type::cast)
                .filter(n -> n.getId() != null && n.getId().matches(id) && seen(n))
                .toList();
        return all.isEmpty() ? null : all.get(random.nextInt(all.size()));
    }

    private static void key(Node node, KeyCode code) {
        node.requestFocus();
        Event.fireEvent(node, new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, false, false, false, false));
        Event.fireEvent(node, new KeyEvent(KeyEvent.KEY_RELEASED, "", "", code, false, false, false, false));
    }

    private static void type(TextField field, String text) {
        field.requestFocus();
        field.selectAll();
        for (char c : text.toCharArray()) {
            String typed = String.valueOf(c);
            Event.fireEvent(
                    field,
                    new KeyEvent(KeyEvent.KEY_TYPED, typed, typed, KeyCode.UNDEFINED, false, false, false, false));
        }
        key(field, KeyCode.ENTER);
    }

    private void press(String id) {
        Button button = any(Button.class, id);
        if (button != null) {
            button.fire();
        }
    }

    private void act(String id) {
        Action action = window.actions().get(id);
        if (action.enabled() == null || action.enabled().get()) {
            action.run().run();
        }
    }

    private void deed(Deed deed) {
        switch (deed) {
            case PLACE -> {
                Node place = any(Node.class, "place:.*");
                if (place != null) {
                    key(place, KeyCode.ENTER);
                }
            }
            case TYPE -> {
                TextField field = any(TextField.class, "field:.*");
                String old = field == null ? "" : field.getText();
                if (old.matches("[0-9.]+ [^ ]+")) {
                    double value = Double.parseDouble(old.substring(0, old.indexOf(' ')));
                    String unit = old.substring(old.indexOf(' '));
                    type(field, String.format("%.4g", value * (0.9 + 0.2 * random.nextDouble())) + unit);
                } else if (field != null && field.getId().matches(".*(note|title)")) {
                    type(field, "word " + random.nextInt(1000));
                }
            }
            case DRAG -> {
                Slider slider = any(Slider.class, "slider:.*");
                if (slider != null) {
                    slider.requestFocus();
                    for (int i = 0; i < 3; i++) {
                        key(slider, random.nextBoolean() ? KeyCode.RIGHT : KeyCode.LEFT);
                    }
                    window.root().requestFocus();
                }
            }
            case CHOOSE -> {
                ComboBox<?> box = any(ComboBox.class, "field:.*");
                if (box != null && !box.getItems().isEmpty()) {
                    box.requestFocus();
                    box.getSelectionModel().select(random.nextInt(box.getItems().size()));
                }
            }
            case UNDO -> press("tool:undo");
            case REDO -> press("tool:redo");
            case VIEW -> {
                List<String> views = List.copyOf(window.views());
                window.show(random.nextBoolean() ? "section" : views.get(random.nextInt(views.size())));
            }
            case FINDING -> {
                TableView<?> table = any(TableView.class, "findings");
                if (table != null && !table.getItems().isEmpty()) {
                    table.getSelectionModel()
                            .select(random.nextInt(table.getItems().size()));
                    if (random.nextBoolean()) {
                        key(table, KeyCode.ENTER);
                    }
                }
            }
            case PHASE -> {
                Slider phase = any(Slider.class, "phase");
                if (phase != null) {
                    phase.setValue(random.nextInt(2));
                }
            }
            case ADD -> act(random.nextBoolean() ? "addcavity" : "addpassage");
            case COPY -> act("duplicate");
            case MOVE -> act(random.nextBoolean() ? "earlier" : "later");
            case REMOVE -> act("remove");
            case LOOK ->
                act(List.of("theme", "units", "toscale", "larger", "smaller", "zoomin", "zoomfit", "temperature")
                        .get(random.nextInt(8)));
            case FREEZE -> act("freeze");
            case SAVE -> {
                dialogs.save = folder.resolve("saved.json");
                act(random.nextBoolean() ? "saveas" : "exportsvg");
            }
            case OPEN -> window.actions().open(file);
        }
        done.merge(deed, 1, Integer::sum);
    }

    private void work(int until) throws Exception {
        int turn = 0;
        int told = edits / 1000;
        while (edits < until) {
            if (edits / 1000 > told) {
                told = edits / 1000;
                System.out.println(edits + " edits"); // what a run that is cut off showed
            }
            Deed next = deeds.get(random.nextInt(deeds.size()));
            onWindow(() -> deed(next));
            // Some edits are judged to the end, so that every view gets its results; most are outdated by the next.
            if (++turn % 12 == 0) {
                settled();
            }
            if (turn % 200 == 0) { // what was copied and removed at random has become another case
                onWindow(() -> window.actions().open(file));
            }
        }
        settled();
    }

    /**
     * What stands there with the case just opened and the section shown.
     *
     * @param listeners by property
     */
    private record Stand(Map<String, Integer> nodes, List<Integer> listeners, long bytes) {}

    private Stand stand() throws Exception {
        onWindow(() -> {
            while (bench.referenceProperty().get() != null) {
                act("freeze");
            }
            window.actions().open(file);
            bench.themeProperty().set(purgewright.figure.Theme.LIGHT);
            bench.readoutProperty().set(purgewright.figure.Readout.SI);
            bench.toScaleProperty().set(false);
            window.textSize(100);
            act("pressurelog");
            act("zoomfit");
        });
        settled();
        // Every view once, so that each has drawn this case.
        for (String view : window.views()) {
            onWindow(() -> window.show(view));
        }
        onWindow(() -> window.show("section"));
        settled();
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 6; i++) {
            System.gc();
            WaitForAsyncUtils.waitForFxEvents();
            least = Math.min(
                    least,
                    Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory());
        }
        List<Integer> listeners = new ArrayList<>();
        for (Object property : List.of(
                bench.selectedProperty(),
                bench.history().documentProperty(),
                bench.history().dirtyProperty(),
                bench.history().undoableProperty(),
                bench.history().redoableProperty(),
                bench.resultProperty(),
                bench.outcomeProperty(),
                bench.busyProperty(),
                bench.staleProperty(),
                bench.phaseProperty(),
                bench.readoutProperty(),
                bench.themeProperty(),
                bench.layerProperty(),
                bench.toScaleProperty(),
                bench.letteringProperty(),
                bench.referenceProperty(),
                bench.noteProperty(),
                bench.fileProperty(),
                bench.draftInvalidProperty(),
                window.root().getScene().focusOwnerProperty(),
                window.root().getScene().widthProperty())) {
            listeners.add(Listeners.on(property));
        }
        Map<String, Integer> nodes = new TreeMap<>();
        for (Node node : nodes()) {
            String kind = node.getClass().getSimpleName() + " " + node.getStyleClass() + " in "
                    + (node.getParent() == null ? "" : node.getParent().getStyleClass());
            nodes.merge(kind, 1, Integer::sum);
        }
        return new Stand(nodes, listeners, least);
    }

    private static int sum(Map<String, Integer> nodes) {
        return nodes.values().stream().mapToInt(n -> n).sum();
    }

    @Test
    void neitherMemoryNorListenersNorNodesGrow() throws Exception {
        file = folder.resolve("day.json");
        twoPhases().save(file);
        dialogs.unsaved = Dialogs.Answer.DISCARD;
        for (Deed deed : Deed.values()) {
            for (int i = 0; i < deed.often; i++) {
                deeds.add(deed);
            }
        }
        onWindow(() -> window.actions().open(file));
        settled();
        work(WARMING);
        Stand before = stand();
        int from = edits;
        done.clear();
        work(from + EDITS);
        Stand after = stand();
        System.out.println(edits - from + " edits by " + done + "; nodes " + sum(before.nodes()) + ", then "
                + sum(after.nodes())
                + "; listeners " + before.listeners() + ", then " + after.listeners() + "; bytes " + before.bytes()
                + ", then " + after.bytes());
        assertThat(done).as("all of it happened").containsKeys(Deed.TYPE, Deed.UNDO, Deed.REDO, Deed.VIEW, Deed.PLACE);
        assertThat(before.listeners().stream().mapToInt(n -> n).sum()).isPositive();
        assertThat(sum(after.nodes()))
                .as("nodes, %s before, %s now", before.nodes(), after.nodes())
                .isLessThanOrEqualTo(sum(before.nodes()) + NODES_THAT_COME_AND_GO);
        assertThat(after.listeners()).as("listeners").isEqualTo(before.listeners());
        assertThat(after.bytes() - before.bytes()).as("bytes more").isLessThan(MOST_MORE);
    }
}
