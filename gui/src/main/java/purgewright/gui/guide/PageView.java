package purgewright.gui.guide;

import java.net.URL;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.scene.Node;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.image.Image;
import javafx.scene.image.ImageView;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import javafx.scene.text.TextFlow;

/** A page of the guide: headings, paragraphs, lists, tables, code and pictures of its Markdown as nodes. */
public final class PageView extends ScrollPane {
    private static final Pattern INLINE =
            Pattern.compile("`([^`]+)`|\\*\\*([^*]+)\\*\\*|\\*([^*\\s][^*]*)\\*|!?\\[([^\\]]*)\\]\\(([^)]+)\\)");
    private static final Pattern PICTURE = Pattern.compile("^!\\[([^\\]]*)\\]\\(([^)]+)\\)\\s*$");
    private static final Pattern ITEM = Pattern.compile("^(\\s*)([-*]|\\d+\\.)\\s+(.*)$");
    private static final int WIDEST = 900;

    private final Consumer<String> follow;
    private final VBox content = new VBox();
    private String page = "";

    /**
     * @param follow told the page that a link leads to
     */
    public PageView(Consumer<String> follow) {
        this.follow = follow;
        content.getStyleClass().add("page");
        content.setMaxWidth(WIDEST);
        setContent(content);
        setFitToWidth(true);
        getStyleClass().add("page-pane");
    }

    /** Shows a page from its beginning. */
    public void show(String name) {
        page = name;
        content.getChildren().setAll(blocks(Guide.text(name).lines().toList()));
        setVvalue(0);
    }

    private List<Node> blocks(List<String> lines) {
        List<Node> out = new ArrayList<>();
        int i = 0;
        while (i < lines.size()) {
            String line = lines.get(i);
            Matcher picture = PICTURE.matcher(line);
            Matcher item = ITEM.matcher(line);
            if (line.strip().startsWith("```")) {
                StringBuilder code = new StringBuilder();
                for (i++; i < lines.size() && !lines.get(i).strip().startsWith("```"); i++) {
                    code.append(code.isEmpty() ? "" : "\n").append(lines.get(i));
                }
                i++;
                out.add(styled(new Label(code.toString()), "code"));
            } else if (line.startsWith("#")) {
                int level = line.length() - line.replaceFirst("^#+", "").length();
                Label heading =
                        styled(new Label(line.substring(level).strip().replace("`", "")), "page-" + Math.min(level, 3));
                heading.setWrapText(true);
                out.add(heading);
                i++;
            } else if (picture.matches()) {
                picture(picture.group(1), picture.group(2), out);
                i++;
            } else if (line.startsWith("|")) {
                List<String> rows = new ArrayList<>();
                for (; i < lines.size() && lines.get(i).startsWith("|"); i++) {
                    rows.add(lines.get(i));
                }
                out.add(table(rows));
            } else if (item.matches()) {
                StringBuilder text = new StringBuilder(item.group(3));
                int indent = item.group(1).length();
                for (i++; i < lines.size() && goesOn(lines.get(i)); i++) {
                    text.append(' ').append(lines.get(i).strip());
                }
                TextFlow flow = flow((item.group(2).matches("\\d+\\.") ? item.group(2) : "•") + "  " + text);
                flow.setStyle("-fx-padding: 0 0 0 " + (14 + 8 * indent) + ";");
                out.add(flow);
            } else if (line.isBlank()) {
                i++;
            } else {
                StringBuilder text = new StringBuilder(line.strip());
                for (i++; i < lines.size() && goesOn(lines.get(i)); i++) {
                    text.append(' ').append(lines.get(i).strip());
                }
                out.add(flow(text.toString()));
            }
        }
        return out;
    }

    /** True for a line that belongs to the paragraph before it. */
    private static boolean goesOn(String line) {
        return !line.isBlank()
                && !line.startsWith("#")
                && !line.startsWith("|")
                && !line.strip().startsWith("```")
                && !line.startsWith("![")
                && !ITEM.matcher(line).matches();
    }

    private static <N extends Node> N styled(N node, String style) {
        node.getStyleClass().add(style);
        return node;
    }

    private void picture(String words, String link, List<Node> out) {
        URL url = Guide.picture(page, link);
        if (url == null) {
            return;
        }
        ImageView view = new ImageView(new Image(url.toExternalForm(), true));
        view.setPreserveRatio(true);
        view.setFitWidth(WIDEST - 60);
        view.setAccessibleText(words);
        out.add(view);
    }

    private Node table(List<String> rows) {
        GridPane grid = styled(new GridPane(), "page-table");
        int columns = 0;
        int r = 0;
        for (String row : rows) {
            if (row.matches("^\\|[\\s:|-]+$")) {
                continue;
            }
            String[] cells = row.replaceFirst("^\\|", "").split("(?<!\\\\)\\|");
            columns = Math.max(columns, cells.length);
            for (int c = 0; c < cells.length; c++) {
                TextFlow cell = flow(cells[c].strip().replace("\\|", "|"));
                cell.getStyleClass().setAll(r == 0 ? "page-head" : "page-cell");
                cell.setMaxWidth(WIDEST / (double) Math.max(2, cells.length) * 1.5);
                grid.add(cell, c, r);
            }
            r++;
        }
        for (int c = 0; c < columns; c++) {
            ColumnConstraints width = new ColumnConstraints();
            width.setHgrow(Priority.SOMETIMES);
            width.setMinWidth(60);
            grid.getColumnConstraints().add(width);
        }
        return grid;
    }

    private TextFlow flow(String text) {
        TextFlow flow = styled(new TextFlow(), "page-text");
        Matcher m = INLINE.matcher(text);
        int at = 0;
        while (m.find()) {
            plain(flow, text.substring(at, m.start()), "page-plain");
            if (m.group(1) != null) {
                plain(flow, m.group(1), "page-code");
            } else if (m.group(2) != null) {
                plain(flow, m.group(2), "page-bold");
            } else if (m.group(3) != null) {
                plain(flow, m.group(3), "page-slanted");
            } else {
                link(flow, m.group(4), m.group(5));
            }
            at = m.end();
        }
        plain(flow, text.substring(at), "page-plain");
        return flow;
    }

    private static void plain(TextFlow flow, String text, String style) {
        if (!text.isEmpty()) {
            flow.getChildren().add(styled(new Text(text), style));
        }
    }

    private void link(TextFlow flow, String words, String link) {
        String target = Guide.target(page, link);
        if (target.isEmpty()) {
            plain(flow, words, "page-plain");
        } else {
            Hyperlink hyper = new Hyperlink(words.replace("`", ""));
            hyper.setOnAction(e -> follow.accept(target));
            flow.getChildren().add(hyper);
        }
    }
}
