package purgewright.gui.guide;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.gui.edit.Resources;
import purgewright.sealflow.passage.PassageTypes;

/** Pages of the guide and of the theory, by names such as {@code guide/window} and {@code theory/labyrinth}. */
public final class Guide {
    private static final String ROOT = "/purgewright/docs/";
    private static final List<String> FOLDERS = List.of("guide", "theory");

    /** The page that tells most about a view; several views share one. */
    private static final Map<String, String> VIEWS = Map.of(
            "size", "guide/designer",
            "map", "guide/designer",
            "faults", "guide/reviewer",
            "ternary", "theory/flammability",
            "fluid", "theory/properties",
            "duty", "guide/planner",
            "plan", "guide/planner",
            "spread", "guide/spread",
            "validation", "theory/validation");

    private Guide() {}

    /** Every page, the guide's first. */
    public static List<String> pages() {
        List<String> pages = new ArrayList<>();
        for (String folder : FOLDERS) {
            for (String name : Resources.names(ROOT + folder, ".md")) {
                if (!name.equals("README")) {
                    pages.add(folder + "/" + name);
                }
            }
        }
        return pages;
    }

    /** True when there is such a page. */
    public static boolean has(String page) {
        return Guide.class.getResource(ROOT + page + ".md") != null;
    }

    /** The page about a view; that about the window where it has none of its own. */
    public static String pageOf(String view) {
        String page = VIEWS.getOrDefault(view, "");
        return has(page) ? page : "guide/window";
    }

    /** The page about a type of passage; empty for one without. */
    public static String lawOf(String type) {
        String page = PassageTypes.find(type).map(t -> "theory/" + t.page()).orElse("");
        return has(page) ? page : "";
    }

    /** Text of a page; @throws IllegalArgumentException when there is none. */
    public static String text(String page) {
        try (InputStream in = Guide.class.getResourceAsStream(ROOT + page + ".md")) {
            if (in == null) {
                throw new IllegalArgumentException("no page " + page);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Title of a page: its first heading. */
    public static String title(String page) {
        return text(page)
                .lines()
                .filter(l -> l.startsWith("# "))
                .map(l -> l.substring(2).strip())
                .findFirst()
                .orElse(page);
    }

    /** A picture beside a page; null when there is none. */
    public static URL picture(String page, String link) {
        return Guide.class.getResource(ROOT + resolved(page, link));
    }

    /** The page that a link on a page leads to; empty for what is no page. */
    public static String target(String page, String link) {
        String file = link.contains("#") ? link.substring(0, link.indexOf('#')) : link;
        if (file.isEmpty() || file.contains("://") || !file.endsWith(".md")) {
            return "";
        }
        String target = resolved(page, file.substring(0, file.length() - ".md".length()));
        return has(target) ? target : "";
    }

    private static String resolved(String page, String link) {
        List<String> steps = new ArrayList<>(List.of(page.split("/")));
        steps.remove(steps.size() - 1);
        for (String step : link.split("/")) {
            if (step.equals("..")) {
                if (!steps.isEmpty()) {
                    steps.remove(steps.size() - 1);
                }
            } else if (!step.equals(".")) {
                steps.add(step);
            }
        }
        return String.join("/", steps);
    }
}
