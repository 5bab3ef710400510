package purgewright.gui.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.beans.InvalidationListener;
import javafx.beans.binding.Bindings;
import javafx.geometry.Orientation;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuBar;
import javafx.scene.control.MenuItem;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.Separator;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.Slider;
import javafx.scene.control.SplitPane;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.ToolBar;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import org.kordamp.ikonli.javafx.FontIcon;
import purgewright.figure.Readout;
import purgewright.figure.TernaryChart;
import purgewright.figure.Theme;
import purgewright.gui.bench.Workbench;
import purgewright.gui.details.DetailsModel;
import purgewright.gui.details.DetailsView;
import purgewright.gui.edit.Recovery;
import purgewright.gui.edit.Settings;
import purgewright.gui.edit.StarterCases;
import purgewright.gui.findings.FindingsModel;
import purgewright.gui.findings.FindingsView;
import purgewright.gui.glyph.Shapes;
import purgewright.gui.guide.Guide;
import purgewright.gui.section.SectionView;
import purgewright.gui.task.Desk;
import purgewright.gui.task.Outcome;
import purgewright.gui.text.Texts;
import purgewright.gui.views.CompareView;
import purgewright.gui.views.DutyView;
import purgewright.gui.views.FaultsView;
import purgewright.gui.views.FigureView;
import purgewright.gui.views.FluidChartView;
import purgewright.gui.views.MixtureTable;
import purgewright.gui.views.PlanView;
import purgewright.gui.views.PurgeWindowView;
import purgewright.gui.views.Shown;
import purgewright.gui.views.SizeView;
import purgewright.gui.views.SpreadView;
import purgewright.gui.views.StudyView;
import purgewright.gui.views.ValidationView;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CheckResult;
import purgewright.sealflow.network.SolveResult;

/** The frame: menus, toolbar, verdict banner, drawing, details, findings, status. */
final class MainWindow {
    private static final double LEAST_DETAILS = 340;
    /** Share of the width that the drawing takes. */
    private static final double DRAWING = 0.765;

    private final Workbench bench;
    private final Settings settings;
    private final Desk desk;
    private final Map<String, Tab> tabs = new LinkedHashMap<>();
    /** What makes each view; it is made when it is first looked at. */
    private final Map<String, Supplier<? extends Shown>> makers = new HashMap<>();

    private final Map<String, Shown> made = new LinkedHashMap<>();
    private FindingsView findings;
    private DetailsView details;
    private final Saving saving;
    private final Actions actions;
    private final GuideWindow guide;
    private final SectionView section;
    private final BorderPane root = new BorderPane();
    private final HBox banner = new HBox();
    private final TabPane views = new TabPane();
    private final SplitPane sides = new SplitPane();
    private final Timeline play = new Timeline(new KeyFrame(Duration.seconds(1.3), e -> step()));
    private final Menu recent = new Menu(Texts.of("menu.recent"));

    MainWindow(
            Workbench bench,
            Desk desk,
            Settings settings,
            Dialogs dialogs,
            Recovery recovery,
            Disk disk,
            Runnable quit) {
        this.bench = bench;
        this.settings = settings;
        this.desk = desk;
        this.section = new SectionView(bench);
        this.guide = new GuideWindow(bench, root);
        this.saving = new Saving(bench, settings, recovery, dialogs, disk);
        this.actions =
                new Actions(bench, settings, recovery, saving, dialogs, this::shown, this::faults, this::zoom, quit);
        root.getStyleClass().add("purgewright");
        root.setTop(new VBox(menus(), tools()));
        root.setCenter(middle());
        root.setBottom(foot());
        bench.themeProperty().addListener((o, before, now) -> style(before, now));
        style(Theme.LIGHT, bench.themeProperty().get());
        textSize(kept());
        play.setCycleCount(Animation.INDEFINITE);
        root.addEventFilter(KeyEvent.KEY_PRESSED, this::sizes);
        drops();
    }

    Parent root() {
        return root;
    }

    Actions actions() {
        return actions;
    }

    Saving saving() {
        return saving;
    }

    GuideWindow guide() {
        return guide;
    }

    SectionView section() {
        return section;
    }

    /** Shows a view: section, size, map, faults, ternary, fluid, duty, plan, spread, compare, validation. */
    void show(String view) {
        views.getSelectionModel().select(tabs.get(view));
    }

    /** Keys of the views, in the order of the tabs. */
    Set<String> views() {
        return tabs.keySet();
    }

    // ---- looks

    private void style(Theme before, Theme now) {
        root.getStyleClass().removeAll("theme-" + before.name(), "theme-" + now.name());
        root.getStyleClass().add("theme-" + now.name());
    }

    private void zoom(String how) {
        switch (how) {
            case "in" -> section.zoomBy(1.2);
            case "out" -> section.zoomBy(1 / 1.2);
            case "larger" -> textSize(Math.min(200, textSize + 10));
            case "smaller" -> textSize(Math.max(100, textSize - 10));
            case "guide" -> guide.open(page());
            case "nextpart" -> part(1);
            case "previouspart" -> part(-1);
            case "connect" -> {
                show("section");
                section.connectingProperty().set(true);
                section.requestFocus();
            }
            default -> section.fit();
        }
    }

    /** Where plus and minus lie differs between keyboards, and so does whether plus takes Shift: each key that can mean it counts. */
    private void sizes(KeyEvent e) {
        boolean drawing = e.isShortcutDown() && !e.isAltDown();
        boolean letters = e.isAltDown() && !e.isShortcutDown();
        String way =
                switch (e.getCode()) {
                    case PLUS, EQUALS, ADD -> drawing ? "in" : letters ? "larger" : "";
                    case MINUS, SUBTRACT -> drawing ? "out" : letters ? "smaller" : "";
                    case DIGIT0, NUMPAD0 -> drawing ? "fit" : "";
                    default -> "";
                };
        if (!way.isEmpty()) {
            zoom(way);
            e.consume();
        }
    }

    /**
     * Moves the focus to the next part of the window: tabs, what the tab shows, details, findings. A drawing has more places than anyone
     * would go through by the Tab key.
     */
    private void part(int by) {
        Tab shown = views.getSelectionModel().getSelectedItem();
        List<Node> parts = new ArrayList<>(List.of(views));
        if (shown != null && shown.getContent() != null) {
            parts.add(shown.getContent());
        }
        parts.addAll(List.of(details, findings));
        int now = -1;
        for (Node n = root.getScene().getFocusOwner(); n != null && now < 0; n = n.getParent()) {
            now = parts.indexOf(n);
        }
        for (int i = 0; i < parts.size(); i++) {
            now = now < 0 ? (by > 0 ? 0 : parts.size() - 1) : Math.floorMod(now + by, parts.size());
            Node first = parts.get(now) == views ? views : first(parts.get(now));
            if (first != null) {
                first.requestFocus();
                return;
            }
        }
    }

    /** The first node in a part that takes the focus; null where none does. */
    private static Node first(Node part) {
        if (!part.isVisible() || part.isDisabled()) {
            return null;
        }
        if (part.isFocusTraversable()) {
            return part;
        }
        if (part instanceof Parent parent) {
            for (Node child : parent.getChildrenUnmodifiable()) {
                Node found = first(child);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    /** The page that tells about what is looked at: the law of the chosen seal, else the view. */
    private String page() {
        String place = bench.selectedProperty().get();
        String type = place.startsWith("/passages/")
                ? bench.history().document().text(place + "/type").orElse("")
                : "";
        String law = Guide.lawOf(type);
        String view = views.getSelectionModel().getSelectedItem().getId().substring("tab:".length());
        return view.equals("section") && !law.isEmpty() ? law : Guide.pageOf(view);
    }

    private int textSize = 100;

    private int kept() {
        return settings.get("textsize", 100, 200, 100);
    }

    /** Size of all text, 100 to 200 %; kept. */
    void textSize(int percent) {
        boolean other = percent != textSize;
        textSize = percent;
        root.getStyleClass().removeIf(c -> c.startsWith("text-"));
        root.getStyleClass().add("text-" + 20 * Math.round(percent / 20.0));
        root.setStyle("-fx-font-size: " + (13.0 * percent / 100) + "px;");
        bench.letteringProperty().set(percent / 100.0);
        details.setMinWidth(LEAST_DETAILS * (0.4 + 0.6 * percent / 100.0));
        details.lettering(percent / 100.0);
        findings.lettering(percent / 100.0);
        if (other) {
            sides.setDividerPositions(DRAWING); // back again with smaller text, too
        }
        if (percent != kept()) {
            settings.put("textsize", Integer.toString(percent));
        }
    }

    // ---- top

    private MenuBar menus() {
        Map<String, Menu> menus = new LinkedHashMap<>();
        for (String id : List.of("file", "edit", "view", "help")) {
            menus.put(id, new Menu(Texts.of("menu." + id)));
        }
        for (Action action : actions.all()) {
            MenuItem item = new MenuItem(action.text());
            item.setId("menu:" + action.id());
            item.setOnAction(e -> action.run().run());
            if (!action.keys().isEmpty()) {
                item.setAccelerator(KeyCombination.valueOf(action.keys()));
            }
            if (action.enabled() != null) {
                item.disableProperty().bind(Bindings.not(action.enabled()));
            }
            Menu menu = menus.get(action.menu());
            menu.getItems().add(item);
            if (action.id().equals("open")) {
                menu.getItems().addAll(recent, starters());
            }
            if (List.of(
                            "saveas",
                            "exportcsv",
                            "report",
                            "redo",
                            "later",
                            "connect",
                            "units",
                            "theme",
                            "concentration",
                            "toscale",
                            "smaller",
                            "freeze")
                    .contains(action.id())) {
                menu.getItems().add(new SeparatorMenuItem());
            }
        }
        saving.onRecentChanged(this::fillRecent);
        fillRecent();
        name(menus.get("edit"));
        MenuBar bar = new MenuBar();
        bar.getMenus().addAll(menus.values());
        return bar;
    }

    /** Undo and redo say what they would take back. */
    private void name(Menu edit) {
        edit.setOnShowing(e -> {
            for (MenuItem item : edit.getItems()) {
                if ("menu:undo".equals(item.getId()) || "menu:redo".equals(item.getId())) {
                    boolean undo = "menu:undo".equals(item.getId());
                    var step = undo
                            ? bench.history().undoableProperty().get()
                            : bench.history().redoableProperty().get();
                    String word = Texts.of(undo ? "action.undo" : "action.redo");
                    item.setText(
                            step == null
                                    ? word
                                    : Texts.of(
                                            "menu.step",
                                            word,
                                            Texts.of(step.key(), step.place().substring(1))));
                }
            }
        });
    }

    private Menu starters() {
        Menu menu = new Menu(Texts.of("menu.starters"));
        for (String name : StarterCases.names()) {
            MenuItem item = new MenuItem(name.replace('-', ' '));
            item.setOnAction(e -> actions.starter(name));
            menu.getItems().add(item);
        }
        return menu;
    }

    private void fillRecent() {
        recent.getItems().clear();
        for (Path file : settings.recent()) {
            MenuItem item = new MenuItem(file.toString());
            item.setMnemonicParsing(false);
            item.setOnAction(e -> actions.open(file));
            recent.getItems().add(item);
        }
        recent.setDisable(recent.getItems().isEmpty());
    }

    private ToolBar tools() {
        ToolBar bar = new ToolBar();
        for (String id : List.of(
                "open", "save", "|", "undo", "redo", "|", "whole", "connect", "freeze", "report", "|", "zoomout",
                "zoomfit", "zoomin")) {
            bar.getItems().add(id.equals("|") ? new Separator(Orientation.VERTICAL) : button(id));
        }
        Region space = new Region();
        HBox.setHgrow(space, Priority.ALWAYS);
        Button units = button("units");
        units.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> Texts.of(bench.readoutProperty().get() == Readout.SI ? "units.si" : "units.us"),
                        bench.readoutProperty()));
        bar.getItems().addAll(space, units, button("theme"), button("guide"));
        return bar;
    }

    private Button button(String id) {
        Action action = actions.get(id);
        Button button = new Button();
        button.setId("tool:" + id);
        FontIcon icon = new FontIcon(action.icon());
        button.setGraphic(icon);
        button.getStyleClass().add("flat");
        button.setTooltip(new Tooltip(action.tip()));
        button.setAccessibleText(action.text());
        button.setOnAction(e -> action.run().run());
        if (action.enabled() != null) {
            button.disableProperty().bind(Bindings.not(action.enabled()));
        }
        return button;
    }

    // ---- middle

    private Node middle() {
        banner.getStyleClass().add("banner");
        banner.setAlignment(Pos.CENTER_LEFT);
        InvalidationListener again = o -> banner();
        bench.resultProperty().addListener(again);
        bench.outcomeProperty().addListener(again);
        bench.busyProperty().addListener(again);
        bench.readoutProperty().addListener(again);
        bench.phaseProperty().addListener(again);
        bench.referenceProperty().addListener(again);
        bench.draftInvalidProperty().addListener(again);
        banner();
        views.setId("views");
        views.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        view("section", () -> section);
        view("size", () -> new SizeView(bench, desk));
        view("map", () -> new PurgeWindowView(bench, desk));
        view("faults", () -> {
            FaultsView view = new FaultsView(bench, desk);
            view.whenShown(this::banner);
            return view;
        });
        view("ternary", this::ternary);
        view("fluid", () -> new FluidChartView(bench, desk).node());
        view("duty", () -> new DutyView(bench, (document, progress) -> desk.run(document, folder(), progress)));
        view("plan", () -> new PlanView(bench, (document, progress) -> desk.plan(document, folder(), progress)));
        view("spread", () -> new SpreadView(bench, desk::spread));
        view("compare", () -> new CompareView(bench, desk, actions::another));
        view("validation", () -> new ValidationView(bench));
        VBox drawing = new VBox(banner, views);
        VBox.setVgrow(views, Priority.ALWAYS);
        section.setOnConnect(actions::connect);
        details = new DetailsView(new DetailsModel(bench), new PlaceBar(bench, actions));
        details.setMinWidth(LEAST_DETAILS);
        sides.getItems().setAll(drawing, details);
        SplitPane.setResizableWithParent(details, false);
        sides.setDividerPositions(DRAWING);
        findings = new FindingsView(new FindingsModel(bench), desk::mend, actions::waiver);
        findings.setMinHeight(120);
        SplitPane all = new SplitPane(sides, findings);
        all.setOrientation(Orientation.VERTICAL);
        SplitPane.setResizableWithParent(findings, false);
        all.setDividerPositions(0.74);
        return all;
    }

    /** Folder of the case's file; null while it has none. */
    private Path folder() {
        Path file = bench.fileProperty().get();
        return file == null ? null : file.toAbsolutePath().getParent();
    }

    private FigureView ternary() {
        return new FigureView(
                bench,
                "mixtures",
                new Region(),
                (w, h) -> TernaryChart.draw(
                        bench.shownSolution(),
                        bench.readoutProperty().get(),
                        bench.themeProperty().get(),
                        w,
                        h),
                () -> MixtureTable.csv(bench),
                bench.selectedProperty()::set);
    }

    /** A tab whose view is made when it is first looked at: most windows never show most of them. */
    private void view(String key, Supplier<? extends Shown> maker) {
        makers.put(key, maker);
        Tab tab = new Tab(Texts.of("view." + key));
        tab.setId("tab:" + key);
        tab.selectedProperty().addListener((o, a, now) -> {
            if (now) {
                made(key).shown(true);
            } else if (made.containsKey(key)) {
                made.get(key).shown(false);
            }
        });
        tabs.put(key, tab);
        views.getTabs().add(tab);
    }

    /** The view, made now if it was not yet. */
    private Shown made(String key) {
        Shown view = made.get(key);
        if (view == null) {
            view = makers.get(key).get();
            made.put(key, view);
            tabs.get(key).setContent((Node) view);
        }
        return view;
    }

    /** The view that is looked at, for export. */
    private Shown shown() {
        return made(views.getSelectionModel().getSelectedItem().getId().substring("tab:".length()));
    }

    /** The fault sweep, while it is of the case as it stands. */
    private FaultResult faults() {
        return made.get("faults") instanceof FaultsView view ? view.sweep() : null;
    }

    /** Starts the study of a view. */
    void run(String view) {
        ((StudyView<?>) made(view)).run();
    }

    /** True for a view whose content has to be asked for. */
    boolean study(String view) {
        return made(view) instanceof StudyView<?>;
    }

    /** True while a view's study runs. */
    boolean running(String view) {
        return made.get(view) instanceof StudyView<?> study && study.running();
    }

    /** True when a view's study has a result. */
    boolean done(String view) {
        return made.get(view) instanceof StudyView<?> study && study.done();
    }

    /** Ends background work of the views. */
    void close() {
        for (Shown view : made.values()) {
            if (view instanceof StudyView<?> study) {
                study.close();
            } else if (view instanceof CompareView compare) {
                compare.close();
            }
        }
        findings.close();
        actions.close();
        play.stop();
    }

    private void banner() {
        banner.getChildren().clear();
        banner.getStyleClass().removeIf(c -> c.startsWith("is-"));
        var result = bench.result();
        if (result == null) {
            Outcome outcome = bench.outcomeProperty().get();
            String text = bench.history().document() == null
                    ? Texts.of("banner.nothing")
                    : outcome instanceof Outcome.Bad
                            ? Texts.of(
                                    "banner.problems",
                                    Integer.toString(bench.problems().size()))
                            : outcome instanceof Outcome.Broken broken
                                    ? Texts.of("banner.broken", broken.message())
                                    : Texts.of("banner.solving");
            banner.getChildren().add(new Label(text));
            return;
        }
        CheckResult glance = bench.glance();
        // The sweep's verdict is over the case as stated and its faults: it is never better than the check's.
        FaultResult sweep = glance == null
                        && !bench.beforeTheChange()
                        && result.document().equals(bench.history().document())
                ? faults()
                : null;
        Verdict verdict = sweep != null ? sweep.verdict() : glance == null ? result.verdict() : glance.verdict();
        banner.getStyleClass().add("is-" + Shapes.styleClass(verdict));
        boolean pending = glance != null && verdict != Verdict.FALLS_SHORT;
        Label word = new Label(
                pending
                        ? Texts.of("banner.pending")
                        : sweep != null && sweep.verdict() != result.verdict()
                                ? Texts.of("banner.faults", verdict.word())
                                : verdict.word());
        word.getStyleClass().add("verdict-word");
        word.setId("verdict");
        word.setMinWidth(Region.USE_PREF_SIZE);
        String rest = sweep != null
                ? sweep.verdictLine()
                : glance == null
                        ? result.verdictLine()
                        : Texts.of("banner.glance", glance.phases().get(0).name());
        String prefix = verdict.word() + ": ";
        Label line = new Label(rest.startsWith(prefix) ? rest.substring(prefix.length()) : rest);
        line.getStyleClass().add("verdict-line");
        line.setTooltip(new Tooltip(rest));
        HBox.setHgrow(line, Priority.ALWAYS);
        line.setMaxWidth(Double.MAX_VALUE);
        line.setMinWidth(0);
        banner.getChildren().addAll(Shapes.mark(verdict, 20), word, line);
        boolean old = bench.staleProperty().get() && !bench.busyProperty().get();
        if (bench.beforeTheChange()) {
            Label before = new Label(Texts.of("banner.before"));
            before.getStyleClass().add("purge");
            before.setMinWidth(Region.USE_PREF_SIZE);
            before.setId("before");
            banner.getChildren().add(before);
        } else if (bench.problems().isEmpty() && !bench.draftInvalidProperty().get() && !old) {
            if (result.purge() != null && result.purge().flow() > 0) {
                Label purge = new Label(Texts.of(
                        "banner.purge",
                        bench.readoutProperty().get().flow(result.purge().flow()),
                        result.purge().gas()));
                purge.getStyleClass().add("purge");
                purge.setMinWidth(Region.USE_PREF_SIZE);
                banner.getChildren().add(purge);
            }
        } else {
            Label good = new Label(Texts.of("banner.old"));
            good.getStyleClass().add("purge");
            good.setMinWidth(Region.USE_PREF_SIZE);
            banner.getChildren().add(good);
        }
        if (bench.referenceProperty().get() != null) {
            Label frozen = new Label(Texts.of("banner.frozen"));
            frozen.getStyleClass().add("purge");
            frozen.setMinWidth(Region.USE_PREF_SIZE);
            banner.getChildren().add(frozen);
        }
        if (result.phases().size() > 1) {
            banner.getChildren().add(phases(result.phases().size()));
        }
    }

    private Node phases(int count) {
        Label name = new Label(Texts.of("banner.phase", bench.shownPhase().name()));
        name.setMinWidth(Region.USE_PREF_SIZE);
        Slider slider = new Slider(0, count - 1, bench.phaseProperty().get());
        slider.setId("phase");
        slider.setMajorTickUnit(1);
        slider.setMinorTickCount(0);
        slider.setSnapToTicks(true);
        slider.setBlockIncrement(1);
        slider.setPrefWidth(110);
        slider.setMinWidth(80);
        slider.setAccessibleText(Texts.of("banner.phases"));
        slider.valueProperty().addListener((o, a, b) -> bench.phaseProperty().set((int) Math.round(b.doubleValue())));
        Button run = new Button();
        run.setId("play");
        run.setGraphic(new FontIcon(play.getStatus() == Animation.Status.RUNNING ? "fth-pause" : "fth-play"));
        run.getStyleClass().add("flat");
        run.setAccessibleText(Texts.of("banner.play"));
        run.setTooltip(new Tooltip(Texts.of("banner.play")));
        run.setOnAction(e -> {
            if (play.getStatus() == Animation.Status.RUNNING) {
                play.stop();
            } else {
                play.playFromStart();
            }
            banner();
        });
        HBox box = new HBox(name, run, slider);
        box.getStyleClass().add("phases");
        box.setAlignment(Pos.CENTER_RIGHT);
        return box;
    }

    /** One phase after the other, in a circle. */
    private void step() {
        int count = bench.result() == null ? 0 : bench.result().phases().size();
        if (count < 2) {
            play.stop();
        } else {
            bench.phaseProperty().set((bench.phaseProperty().get() + 1) % count);
        }
    }

    // ---- foot

    private Node foot() {
        Label caution = new Label();
        caution.getStyleClass().add("caution");
        caution.setId("caution");
        caution.setWrapText(true);
        caution.setMinHeight(Region.USE_PREF_SIZE);
        // What every result bears stands here in full; what this result bears besides is a click away.
        caution.textProperty()
                .bind(Bindings.createStringBinding(() -> String.join("  ", firstCautions()), bench.resultProperty()));
        Hyperlink more = new Hyperlink();
        more.setId("cautions");
        more.setMinWidth(Region.USE_PREF_SIZE);
        more.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> Texts.of(
                                "cautions.all",
                                Integer.toString(actions.cautions().size())),
                        bench.resultProperty()));
        more.visibleProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> actions.cautions().size() > firstCautions().size(), bench.resultProperty()));
        more.managedProperty().bind(more.visibleProperty());
        more.setOnAction(e -> actions.tellCautions());
        HBox.setHgrow(caution, Priority.ALWAYS);
        caution.setMaxWidth(Double.MAX_VALUE);
        HBox cautions = new HBox(caution, more);
        cautions.getStyleClass().add("cautions");
        cautions.setAlignment(Pos.CENTER_LEFT);
        Label status = new Label();
        status.setId("status");
        status.textProperty()
                .bind(Bindings.createStringBinding(
                        this::status,
                        bench.outcomeProperty(),
                        bench.busyProperty(),
                        bench.phaseProperty(),
                        bench.noteProperty(),
                        section.connectingProperty()));
        ProgressIndicator working = new ProgressIndicator();
        working.getStyleClass().add("working");
        working.visibleProperty().bind(bench.busyProperty());
        // An indicator that turns unseen would keep the processor busy.
        bench.busyProperty().addListener((o, a, busy) -> working.setProgress(busy ? -1 : 0));
        working.setProgress(0);
        Region space = new Region();
        HBox.setHgrow(space, Priority.ALWAYS);
        Label file = new Label();
        file.getStyleClass().add("quiet");
        file.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> bench.fileProperty().get() == null
                                ? Texts.of("status.nofile")
                                : bench.fileProperty().get().toString(),
                        bench.fileProperty()));
        Label kept = new Label();
        kept.setId("saving");
        kept.setMinWidth(Region.USE_PREF_SIZE);
        InvalidationListener tell = o -> {
            kept.setText(saved());
            boolean wrong = saving.stateProperty().get() == Saving.State.FAILED
                    || saving.unkeptProperty().get();
            kept.getStyleClass().setAll("label", wrong ? "wrong" : "quiet");
        };
        saving.stateProperty().addListener(tell);
        saving.unkeptProperty().addListener(tell);
        HBox line = new HBox(status, working, space, kept, file);
        line.getStyleClass().add("status");
        line.setAlignment(Pos.CENTER_LEFT);
        return new VBox(cautions, line);
    }

    /** The cautions that every result bears: they come first. */
    private List<String> firstCautions() {
        List<String> all = actions.cautions();
        return all.subList(0, Math.min(2, all.size()));
    }

    /** How it stands with what was to be saved; empty for nothing to tell. */
    private String saved() {
        return switch (saving.stateProperty().get()) {
            case SAVING -> Texts.of("saving.now");
            case FAILED -> Texts.of("saving.failed");
            case SAVED -> Texts.of("saving.done");
            case NONE -> saving.unkeptProperty().get() ? Texts.of("saving.unkept") : "";
        };
    }

    private String status() {
        if (section.connectingProperty().get()) {
            return Texts.of("status.connecting");
        }
        if (!bench.noteProperty().get().isEmpty()) {
            return bench.noteProperty().get();
        }
        if (bench.busyProperty().get()) {
            return Texts.of("status.solving");
        }
        Outcome outcome = bench.outcomeProperty().get();
        if (outcome == null) {
            return Texts.of("status.ready");
        }
        String time = bench.readoutProperty().get().time(outcome.seconds());
        if (outcome instanceof Outcome.Bad bad) {
            return Texts.of("status.bad", Integer.toString(bad.problems().size()));
        }
        if (outcome instanceof Outcome.Broken broken) {
            return Texts.of("banner.broken", broken.message());
        }
        var phase = bench.shownPhase();
        if (phase == null) {
            return Texts.of("status.ready");
        }
        var c = phase.solve().convergence();
        String method = Texts.of("method." + c.answeredBy().name().toLowerCase(java.util.Locale.ROOT));
        if (phase.solve() instanceof SolveResult.NotConverged failed) {
            return Texts.of(
                    "status.failed",
                    time,
                    method,
                    Integer.toString(c.iterations()),
                    failed.worstCavity(),
                    failed.detail());
        }
        if (c.iterations() == 0) {
            return Texts.of("status.unmoved", time, Readout.number(c.massClosure(), 1));
        }
        return Texts.of(
                "status.solved", time, method, Integer.toString(c.iterations()), Readout.number(c.massClosure(), 1));
    }

    private void drops() {
        root.setOnDragOver(e -> {
            if (e.getDragboard().hasFiles()) {
                e.acceptTransferModes(TransferMode.COPY);
            }
            e.consume();
        });
        root.setOnDragDropped(e -> {
            if (e.getDragboard().hasFiles()) {
                actions.open(e.getDragboard().getFiles().get(0).toPath());
            }
            e.setDropCompleted(e.getDragboard().hasFiles());
            e.consume();
        });
    }
}
