package purgewright.gui.app;

import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import org.kordamp.ikonli.javafx.FontIcon;
import purgewright.gui.bench.Workbench;
import purgewright.gui.details.Outline;
import purgewright.gui.text.Texts;

/** The way to every place of the case, also those that are not drawn, and what can be done with the one that is shown. */
final class PlaceBar extends HBox {
    private final Workbench bench;
    private final Actions actions;
    private final MenuButton places = new MenuButton();

    PlaceBar(Workbench bench, Actions actions) {
        this.bench = bench;
        this.actions = actions;
        getStyleClass().add("place-bar");
        setAlignment(Pos.CENTER_LEFT);
        places.setId("places");
        places.setText(Texts.of("outline.go"));
        places.setAccessibleText(Texts.of("outline.go"));
        places.setMnemonicParsing(false);
        places.setOnShowing(e -> fill());
        fill();
        Region space = new Region();
        HBox.setHgrow(space, Priority.ALWAYS);
        getChildren()
                .addAll(
                        places,
                        space,
                        button("earlier", "fth-arrow-up"),
                        button("later", "fth-arrow-down"),
                        button("duplicate", "fth-copy"),
                        button("remove", "fth-trash-2"));
    }

    /** Made when it is opened: a menu of a large case is not kept up with every key. */
    private void fill() {
        places.getItems().clear();
        if (bench.history().document() == null) {
            return;
        }
        for (Outline.Group group : Outline.of(bench.history().document())) {
            if (group.folder().isEmpty()) {
                group.places().forEach(place -> places.getItems().add(item(place)));
                places.getItems().add(new SeparatorMenuItem());
                continue;
            }
            Menu menu = new Menu(group.label());
            menu.setMnemonicParsing(false);
            group.places().forEach(place -> menu.getItems().add(item(place)));
            if (!menu.getItems().isEmpty()) {
                menu.getItems().add(new SeparatorMenuItem());
            }
            MenuItem add = new MenuItem(Texts.of("outline.add"));
            add.setId("add:" + group.folder());
            add.setOnAction(e -> actions.addTo(group.folder()));
            menu.getItems().add(add);
            places.getItems().add(menu);
        }
    }

    private MenuItem item(String place) {
        MenuItem item = new MenuItem(Outline.label(place));
        item.setMnemonicParsing(false);
        item.setId("go:" + place);
        item.setOnAction(e -> bench.selectedProperty().set(place));
        return item;
    }

    private Button button(String id, String icon) {
        Action action = actions.get(id);
        Button button = new Button();
        button.setId("place:" + id);
        button.setGraphic(new FontIcon(icon));
        button.getStyleClass().add("flat");
        button.setTooltip(new Tooltip(action.tip()));
        button.setAccessibleText(action.text());
        button.setOnAction(e -> action.run().run());
        button.disableProperty().bind(javafx.beans.binding.Bindings.not(action.enabled()));
        return button;
    }
}
