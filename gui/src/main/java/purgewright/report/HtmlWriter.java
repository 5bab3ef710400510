package purgewright.report;

import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.PathIterator;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import purgewright.figure.Figure;
import purgewright.figure.FigureExport;
import purgewright.figure.Theme;
import purgewright.figure.VerdictMark;
import purgewright.hazard.finding.Verdict;

/** Blocks as one self-contained XHTML page: no script, nothing from outside; every text of the user is escaped. */
final class HtmlWriter {
    /**
     * What stands at the head of the document, and at the head and the foot of each page.
     *
     * @param facts of the title block: what, and its value
     */
    record Head(
            String title,
            String subtitle,
            String author,
            List<Fact> facts,
            String foot,
            String paper,
            String embeddedCase) {}

    /** A line of the title block. */
    record Fact(String what, String value) {}

    /** Letters of the text on paper, points; those of tables as a share of it. */
    private static final double SIZE = 9;

    private static final double TABLE = 0.92;
    /** Blank at both sides of a cell, points. */
    private static final double PADDING = 9;
    /** Margin at the left and the right of a page, points. */
    private static final double SIDE = 16 / 25.4 * 72;
    /** Tables of at most so many rows and letters are not torn over two pages. */
    private static final int KEPT_WHOLE = 8;

    private static final int KEPT_WHOLE_LETTERS = 400;
    /** Drawings wider than this, in drawing units, are shown whole and then once more in pieces, for their letters. */
    private static final double HALVED = 1450;
    /** Two halves share a page where they keep at least so much of the size that they have alone. */
    private static final double SHARED_PAGE = 0.7;
    /** Height of a page that captions, blanks and margins of two halves take, points. */
    private static final double AROUND_HALVES = (2 * 18 + 26) / 25.4 * 72;
    /** The same for one drawing. */
    private static final double AROUND_ONE = (2 * 18 + 18) / 25.4 * 72;
    /** A piece that has a page of its own is at most so wide over its height: about the shape of a page. */
    private static final double PIECE = 0.85;

    private static final int MOST_PIECES = 4;
    /** Lines to write revisions in. */
    private static final int REVISIONS = 3;
    /** What two pieces of a drawing have in common, drawing units. */
    private static final double COMMON = 60;

    private final StringBuilder html = new StringBuilder();
    private final boolean pdf;
    private final boolean letter;

    private HtmlWriter(boolean pdf, boolean letter) {
        this.pdf = pdf;
        this.letter = letter;
    }

    /** @param pdf true for the page that becomes a PDF: bookmarks instead of an embedded case */
    static String write(Head head, List<Block> blocks, boolean pdf) {
        return new HtmlWriter(pdf, !head.paper().equals("A4")).page(head, blocks);
    }

    private String page(Head head, List<Block> blocks) {
        html.append(
                "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
        if (!pdf) {
            html.append(
                    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n");
            html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
        }
        html.append("<title>").append(escape(head.title())).append("</title>\n");
        html.append("<meta name=\"author\" content=\"")
                .append(escape(head.author()))
                .append("\"/>\n");
        html.append("<meta name=\"subject\" content=\"Separation barrier: check\"/>\n");
        html.append("<meta name=\"description\" content=\"")
                .append(escape(head.subtitle()))
                .append("\"/>\n");
        html.append("<style>\n").append(style(head)).append("</style>\n");
        if (pdf) {
            html.append("<bookmarks>\n");
            for (Block block : blocks) {
                if (block instanceof Block.Heading h && h.level() == 2) {
                    html.append("<bookmark name=\"")
                            .append(escape(h.text()))
                            .append("\" href=\"#")
                            .append(h.id())
                            .append("\"/>\n");
                }
            }
            html.append("</bookmarks>\n");
        }
        html.append("</head>\n<body>\n<h1>").append(escape(head.title())).append("</h1>\n");
        if (!head.subtitle().isBlank()) {
            paragraph("sub", head.subtitle());
        }
        facts(head.facts());
        for (int i = 0; i < blocks.size(); i++) {
            Block next = i + 1 < blocks.size() ? blocks.get(i + 1) : null;
            boolean introduces = next instanceof Block.Grid || (next instanceof Block.Heading h && h.level() > 2);
            if (introduces && blocks.get(i) instanceof Block.Text t) {
                paragraph("lead", t.text());
            } else {
                block(blocks.get(i));
            }
        }
        if (!pdf) {
            // A data block, not a script: nothing runs. A "<" in it, which only texts have, could end it or open
            // another; with "&" and ">" written the same way the page is well-formed XML too.
            html.append("<script type=\"application/json\" id=\"purgewright-case\">")
                    .append(head.embeddedCase()
                            .replace("<", "\\u003c")
                            .replace("&", "\\u0026")
                            .replace(">", "\\u003e"))
                    .append("</script>\n");
        }
        return html.append("</body>\n</html>\n").toString();
    }

    private void block(Block block) {
        if (block instanceof Block.Heading h) {
            html.append("<h")
                    .append(h.level())
                    .append(" id=\"")
                    .append(h.id())
                    .append("\">")
                    .append(escape(h.text()));
            html.append("</h").append(h.level()).append(">\n");
        } else if (block instanceof Block.Text t) {
            paragraph("", t.text());
        } else if (block instanceof Block.Banner b) {
            banner(b);
        } else if (block instanceof Block.Bullets b) {
            list("ul", b.items());
        } else if (block instanceof Block.Steps steps) {
            list("ol", steps.items());
        } else if (block instanceof Block.Grid g) {
            grid(g);
        } else if (block instanceof Block.Drawing d) {
            drawing(d);
        } else if (block instanceof Block.Signatures s) {
            signatures(s);
        }
    }

    private void signatures(Block.Signatures s) {
        html.append(
                "<div class=\"signatures\"><table class=\"sign\"><thead><tr><th>revision</th><th>date</th><th>what changed</th><th>by</th></tr></thead><tbody>\n");
        for (int i = 0; i < REVISIONS; i++) {
            html.append("<tr><td>").append(i == 0 ? escape(s.revision()) : "").append("</td><td>");
            html.append(i == 0 ? escape(s.date()) : "").append("</td><td></td><td></td></tr>\n");
        }
        html.append("</tbody></table>\n<table class=\"sign\"><thead><tr><th></th>");
        s.roles().forEach(role -> html.append("<th>").append(escape(role)).append("</th>"));
        html.append("</tr></thead><tbody>\n");
        for (String line : List.of("name", "date", "signature")) {
            html.append("<tr><th>").append(line).append("</th>");
            s.roles().forEach(role -> html.append("<td></td>"));
            html.append("</tr>\n");
        }
        html.append("</tbody></table></div>\n");
    }

    /** The title block: two facts side by side. */
    private void facts(List<Fact> facts) {
        html.append("<table class=\"facts\"><tbody>\n");
        for (int i = 0; i < facts.size(); i += 2) {
            html.append("<tr>");
            for (Fact fact : facts.subList(i, Math.min(i + 2, facts.size()))) {
                html.append("<th>").append(escape(fact.what())).append("</th><td>");
                html.append(escape(fact.value())).append("</td>");
            }
            html.append(i + 1 < facts.size() ? "" : "<th></th><td></td>").append("</tr>\n");
        }
        html.append("</tbody></table>\n");
    }

    private void list(String element, List<String> items) {
        html.append('<').append(element).append(">\n");
        for (String item : items) {
            html.append("<li>");
            text(item);
            html.append("</li>\n");
        }
        html.append("</").append(element).append(">\n");
    }

    private void banner(Block.Banner b) {
        html.append("<div class=\"banner ")
                .append(b.verdict().name().toLowerCase(Locale.ROOT))
                .append("\">");
        String color = color(b.verdict());
        html.append("<table><tr><td class=\"mark\"><svg xmlns=\"http://www.w3.org/2000/svg\""
                + (pdf ? " alt=\"" + escape(b.verdict().word()) + "\"" : "") + " width=\"24\" height=\"24\""
                + " viewBox=\"-0.1 -0.1 1.2 1.2\" role=\"img\"><title>");
        html.append(escape(b.verdict().word())).append("</title>");
        html.append("<path d=\"").append(path(VerdictMark.outline(b.verdict())));
        html.append("\" fill=\"none\" stroke=\"").append(color).append("\" stroke-width=\"0.14\"/>");
        html.append("<path d=\"").append(path(VerdictMark.solid(b.verdict())));
        html.append("\" fill=\"").append(color).append("\"/></svg></td><td>");
        html.append("<strong>").append(escape(b.line())).append("</strong>");
        if (!b.governing().isEmpty()) {
            html.append("<br/>");
            text(b.governing());
        }
        html.append("</td></tr></table></div>\n");
    }

    private static String color(Verdict verdict) {
        return String.format(
                Locale.ROOT, "#%06x", VerdictMark.color(Theme.LIGHT, verdict).getRGB() & 0xffffff);
    }

    /** A shape as path data; nothing to draw is a point. */
    private static String path(Shape shape) {
        StringBuilder d = new StringBuilder();
        double[] p = new double[6];
        PathIterator at = shape.getPathIterator(new AffineTransform());
        for (; !at.isDone(); at.next()) {
            int kind = at.currentSegment(p);
            int points =
                    switch (kind) {
                        case PathIterator.SEG_QUADTO -> 2;
                        case PathIterator.SEG_CUBICTO -> 3;
                        case PathIterator.SEG_CLOSE -> 0;
                        default -> 1;
                    };
            d.append("MLQCZ".charAt(kind));
            for (int i = 0; i < 2 * points; i++) {
                d.append(String.format(Locale.ROOT, "%.2f ", p[i]));
            }
        }
        return d.length() == 0 ? "M0 0" : d.toString().strip();
    }

    private void grid(Block.Grid grid) {
        double page = paperWidth() - 2 * SIDE;
        ColumnWidths widths = ColumnWidths.of(grid, SIZE * TABLE, PADDING, page);
        double all = 0;
        for (double width : widths.points) {
            all += width;
        }
        int letters = grid.rows().stream()
                .flatMap(List::stream)
                .mapToInt(String::length)
                .sum();
        boolean whole = grid.rows().size() <= KEPT_WHOLE && letters <= KEPT_WHOLE_LETTERS;
        html.append(whole ? "<table class=\"grid whole\"" : "<table class=\"grid\"");
        html.append(String.format(Locale.ROOT, " style=\"width: %.2f%%\"><colgroup>", 100 * all / page));
        for (double width : widths.points) {
            html.append(String.format(Locale.ROOT, "<col style=\"width: %.2f%%\"/>", 100 * width / all));
        }
        html.append("</colgroup><thead><tr>");
        for (int i = 0; i < grid.heads().size(); i++) {
            html.append("<th class=\"").append(grid.alignment().charAt(i)).append("\">");
            text(grid.heads().get(i));
            html.append("</th>");
        }
        html.append("</tr></thead><tbody>\n");
        for (List<String> row : grid.rows()) {
            html.append("<tr>");
            for (int i = 0; i < row.size(); i++) {
                String cell = row.get(i);
                html.append("<td class=\"").append(grid.alignment().charAt(i));
                if (ColumnWidths.isShort(cell, widths.longestShort)) {
                    html.append(" n\">").append(escape(cell));
                } else {
                    html.append("\">");
                    text(cell);
                }
                html.append("</td>");
            }
            html.append("</tr>\n");
        }
        html.append("</tbody></table>\n");
    }

    /** Text in which a number stays with its unit. */
    private void text(String words) {
        for (ColumnWidths.Piece piece : ColumnWidths.pieces(words)) {
            boolean whole = piece.whole() && piece.text().length() < 40;
            html.append(whole ? "<span class=\"n\">" : "")
                    .append(escape(piece.text()))
                    .append(whole ? "</span>" : "");
        }
    }

    private double paperWidth() {
        return letter ? 8.5 * 72 : 210 / 25.4 * 72;
    }

    private void drawing(Block.Drawing drawing) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        // Letters as outlines: neither the library to PDF nor a browser finds the drawing's own, and others are wider
        // than
        // their places. The tables have the numbers as text.
        FigureExport.svg(drawing.figure(), true, bytes);
        String svg = bytes.toString(StandardCharsets.UTF_8);
        svg = svg.substring(svg.indexOf("<svg"));
        drawn(svg, drawing.wide() ? "wide" : "drawing", drawing.caption());
        if (pdf && drawing.figure().width() > HALVED) {
            pieces(drawing, svg);
        }
    }

    /**
     * A wide drawing once more in pieces, for its letters: two that share a page where they stay large enough, else as many as fill a page
     * each.
     */
    private void pieces(Block.Drawing drawing, String svg) {
        double width = drawing.figure().width();
        double height = drawing.figure().height();
        double share = shareForTwo(width / 2 + COMMON, height);
        boolean together = share >= SHARED_PAGE;
        int number = 2;
        while (!together && number < MOST_PIECES && width / number + COMMON > PIECE * height) {
            number++;
        }
        double each = width / number + COMMON;
        if (!together) {
            // Less than a page's width where the height is what a page has room for.
            share = Math.min(1, roomForOne() * each / height / (paperWidth() - 2 * SIDE));
        }
        html.append(together ? "<div class=\"drawing\">" : "");
        for (int i = 0; i < number; i++) {
            String piece = cut(svg, drawing.figure(), i * (width - each) / (number - 1), each);
            if (share < 1) {
                // The drawing's root has a style of its own.
                piece = piece.replaceFirst(
                        " style=\"", String.format(Locale.ROOT, " style=\"width: %.1f%%; ", 100 * share));
            }
            drawn(
                    piece,
                    "drawing",
                    String.format(
                            Locale.ROOT,
                            "The same, part %d of %d from left to right. %s",
                            i + 1,
                            number,
                            drawing.caption()));
        }
        html.append(together ? "</div>\n" : "");
    }

    /** Height of a page for one drawing with its caption, points. */
    private double roomForOne() {
        return (letter ? 11 * 72 : 297 / 25.4 * 72) - AROUND_ONE;
    }

    /** How much of the page's width two drawings, one above the other on a page, can have. */
    private double shareForTwo(double width, double height) {
        double room = ((letter ? 11 * 72 : 297 / 25.4 * 72) - AROUND_HALVES) / 2;
        return Math.min(1, room * width / height / (paperWidth() - 2 * SIDE));
    }

    private void drawn(String svg, String css, String caption) {
        html.append("<div class=\"").append(css).append("\"><div class=\"figure\">");
        // The library to PDF takes the alternative text from where pictures have it; screen readers of HTML take the
        // title.
        html.append(
                pdf ? svg.replaceFirst("<svg", "<svg alt=\"" + Matcher.quoteReplacement(escape(caption)) + "\"") : svg);
        html.append("</div>\n");
        paragraph("caption", caption);
        html.append("</div>\n");
    }

    /** The same drawing seen through a narrower window. */
    private static String cut(String svg, Figure figure, double x, double width) {
        int end = svg.indexOf('>');
        String root = svg.substring(0, end)
                .replaceFirst(" viewBox=\"[^\"]*\"", "")
                .replaceFirst(" width=\"[^\"]*\"", "")
                .replaceFirst(" height=\"[^\"]*\"", "");
        return root
                + String.format(
                        Locale.ROOT,
                        " width=\"%.0f\" height=\"%.0f\" viewBox=\"%.0f 0 %.0f %.0f\"",
                        width,
                        figure.height(),
                        x,
                        width,
                        figure.height())
                + svg.substring(end);
    }

    private void paragraph(String css, String text) {
        html.append(css.isEmpty() ? "<p>" : "<p class=\"" + css + "\">");
        text(text);
        html.append("</p>\n");
    }

    private String style(Head head) {
        String small = " font-size: 7.5pt; color: #444; font-family: 'IBM Plex Sans', sans-serif; ";
        String margins = " margin: 18mm 16mm 18mm 16mm;"
                + " @bottom-left { content: \"" + cssText(head.foot()) + "\";" + small + "}"
                + " @bottom-right { content: \"page \" counter(page) \" of \" counter(pages);" + small + "}";
        String title = " @top-left { content: \"" + cssText(head.title()) + "\";" + small + "} ";
        return "@page { size: " + head.paper() + " portrait;" + margins + title + "}\n"
                + "@page :first { @top-left { content: \"\"; } }\n"
                + "@page wide { size: " + head.paper() + " landscape;" + margins + title + "}\n"
                // The library lays blocks out as wide as the first page, so the drawing says itself how wide it is.
                + (pdf
                        ? ".wide { page: wide; page-break-before: always; page-break-after: always; } .figure svg { width: 100%; }"
                                + " .wide .figure svg { width: "
                                + (letter ? "247mm" : "265mm") + "; }\n"
                        : ".figure svg { width: 100%; }\n")
                + "body { font-family: 'IBM Plex Sans', 'Segoe UI', 'Helvetica Neue', sans-serif; font-size: "
                + (pdf ? SIZE + "pt" : "15px") + "; color: #111; line-height: 1.35;"
                + (pdf ? "" : " max-width: 1100px; margin: 2em auto; padding: 0 1em;") + " }\n"
                + "h1 { font-size: 1.7em; margin: 0 0 .2em 0; } h2 { font-size: 1.3em; margin: 1.4em 0 .4em 0;"
                + " border-bottom: 1px solid #888; } h3 { font-size: 1.05em; margin: 1em 0 .3em 0; page-break-after: avoid; }\n"
                // On headings alone: blocks hand the height on to what is in them, and every row of a table would ask
                // for it.
                + "h2 { page-break-after: avoid; } h2, h3, .lead { -fs-page-break-min-height: 34mm; } .lead { page-break-after: avoid; }"
                + " p { margin: .5em 0; } .sub { margin: .1em 0; color: #444; }"
                + " .caption { color: #444; font-size: .9em; }\n"
                + ".banner { border: 1.5px solid #111; padding: .4em .6em; margin: .8em 0; } .banner td { vertical-align: top; }"
                + " .banner .mark { width: 34px; }\n"
                + ".banner.falls_short { background: #fbe6dd; } .banner.not_converged, .banner.not_established { background: #eee; }\n"
                + ".banner.thin { background: #fdf3da; } .banner.holds { background: #e2f3ec; }\n"
                + ".n { white-space: nowrap; }\n"
                + "table.facts { border-collapse: collapse; width: 100%; margin: .6em 0; font-size: .92em; }"
                + " .facts th, .facts td { border: 1px solid #888; padding: 2px 6px; text-align: left; vertical-align: top; }"
                + " .facts th { color: #444; font-weight: normal; width: 12%; } .facts td { width: 38%; }\n"
                + "table.grid { border-collapse: collapse; margin: 0 0 .7em 0; font-size: " + TABLE + "em;"
                + (pdf ? " table-layout: fixed;" : "")
                + " } .grid th { text-align: left;"
                + " border-bottom: 1px solid #111; vertical-align: bottom; } .grid td { border-bottom: 1px solid #ccc; vertical-align: top; }\n"
                + ".grid th, .grid td { padding: 2px 8pt 2px 0; } .grid .r { text-align: right; }\n"
                + ".grid tr { page-break-inside: avoid; } table.grid { -fs-table-paginate: paginate; }"
                + " table.whole { page-break-inside: avoid; }\n"
                + "table.sign { border-collapse: collapse; table-layout: fixed; width: 100%; margin: .6em 0; } .sign th, .sign td"
                + " { border: 1px solid #111; height: 2.2em; text-align: left; vertical-align: top; padding: 3px 6px; color: #444; }"
                + " .sign th { height: auto; } .signatures { page-break-inside: avoid; }\n"
                + ".figure svg { height: auto; } .drawing { page-break-inside: avoid; }\n";
    }

    /** For a quoted text of a style sheet inside XHTML: whatever is not plain goes as its number. */
    private static String cssText(String text) {
        StringBuilder out = new StringBuilder();
        text.strip().replaceAll("\\s+", " ").codePoints().forEach(c -> {
            if (c < 0x80 && (Character.isLetterOrDigit(c) || " .,:;()+-/|=".indexOf(c) >= 0)) {
                out.appendCodePoint(c);
            } else {
                out.append(String.format(Locale.ROOT, "\\%06x ", c));
            }
        });
        return out.toString();
    }

    /** For element content and attribute values. Characters that XML forbids become a question mark. */
    static String escape(String text) {
        StringBuilder out = new StringBuilder(text.length() + 16);
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> {
                    boolean allowed = c == '\t'
                            || c == '\n'
                            || c == '\r'
                            || (c >= 0x20 && c <= 0xd7ff)
                            || (c >= 0xe000 && c <= 0xfffd)
                            || c >= 0x10000;
                    out.appendCodePoint(allowed ? c : '?');
                }
            }
        });
        return out.toString();
    }
}
