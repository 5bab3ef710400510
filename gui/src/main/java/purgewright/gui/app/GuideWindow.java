package purgewright.gui.app;

import java.util.ArrayDeque;
import java.util.Deque;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.SplitPane;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.stage.Stage;
import javafx.stage.WindowEvent;
import org.kordamp.ikonli.javafx.FontIcon;
import purgewright.gui.bench.Workbench;
import purgewright.gui.guide.Guide;
import purgewright.gui.guide.PageView;
import purgewright.gui.text.Texts;

/** The guide in a window of its own, beside the case; made when first asked for. */
final class GuideWindow {
    private final Workbench bench;
    private final Parent owner;
    private final Deque<String> before = new ArrayDeque<>();
    private Stage stage;
    private PageView view;
    private ListView<String> list;
    private String page = "";

    /**
     * @param owner whose theme and text size it takes
     */
    GuideWindow(Workbench bench, Parent owner) {
        this.bench = bench;
        this.owner = owner;
    }

    /** Opens a page. */
    void open(String wanted) {
        if (stage == null) {
            make();
        }
        dress();
        show(Guide.has(wanted) ? wanted : "guide/window");
        stage.show();
        stage.toFront();
        list.requestFocus();
    }

    private void make() {
        view = new PageView(this::show);
        list = new ListView<>();
        list.setId("guide pages");
        list.getItems().setAll(Guide.pages());
        list.setAccessibleText(Texts.of("guide.pages"));
        list.setCellFactory(l -> new ListCell<>() {
            @Override
            protected void updateItem(String item, boolean empty) {
                super.updateItem(item, empty);
                setText(empty || item == null ? null : Guide.title(item));
            }
        });
        list.getSelectionModel().selectedItemProperty().addListener((o, a, now) -> {
            if (now != null && !now.equals(page)) {
                show(now);
            }
        });
        Button back = new Button();
        back.setGraphic(new FontIcon("fth-arrow-left"));
        back.getStyleClass().add("flat");
        back.setAccessibleText(Texts.of("guide.back"));
        back.setTooltip(new Tooltip(Texts.of("guide.back")));
        back.setOnAction(e -> {
            if (!before.isEmpty()) {
                page = "";
                show(before.pop());
            }
        });
        Label title = new Label(Texts.of("guide.title"));
        title.getStyleClass().add("heading");
        HBox top = new HBox(8, back, title);
        top.getStyleClass().add("view-line");
        SplitPane both = new SplitPane(list, view);
        both.setDividerPositions(0.27);
        SplitPane.setResizableWithParent(list, false);
        BorderPane root = new BorderPane(both);
        root.setTop(top);
        root.setOnKeyPressed(e -> {
            if (e.getCode() == KeyCode.ESCAPE) {
                stage.close();
            }
        });
        stage = new Stage();
        stage.setTitle(Texts.of("guide.title"));
        Scene scene = new Scene(root, 1040, 700);
        scene.getStylesheets().setAll(owner.getScene().getStylesheets());
        stage.setScene(scene);
        bench.themeProperty().addListener((o, a, b) -> dress());
        owner.getScene().getWindow().addEventHandler(WindowEvent.WINDOW_HIDDEN, e -> stage.close());
    }

    private void dress() {
        Parent root = stage.getScene().getRoot();
        root.getStyleClass()
                .setAll(
                        "root",
                        "purgewright",
                        "theme-" + bench.themeProperty().get().name());
        root.setStyle(owner.getStyle());
    }

    private void show(String wanted) {
        if (!page.isEmpty() && !page.equals(wanted)) {
            before.push(page);
        }
        page = wanted;
        view.show(wanted);
        list.getSelectionModel().select(wanted);
        list.scrollTo(wanted);
    }

    /** The page shown; empty before the first. */
    String page() {
        return page;
    }
}
