package purgewright.report;

import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.PathIterator;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import purgewright.figure.FigureExport;
import purgewright.figure.Theme;
import purgewright.figure.VerdictMark;
import purgewright.hazard.finding.Verdict;

/** Blocks as one self-contained XHTML page: no script, nothing from outside; every text of the user is escaped. */
final class HtmlWriter {
    /** What stands at the head of the page and at the foot of each. */
    record Head(
            String title,
            String subtitle,
            String author,
            String date,
            String foot,
            String paper,
            String embeddedCase) {}

    private final StringBuilder html = new StringBuilder();
    private final boolean pdf;

    private HtmlWriter(boolean pdf) {
        this.pdf = pdf;
    }

    /** @param pdf true for the page that becomes a PDF: bookmarks instead of an embedded case */
    static String write(Head head, List<Block> blocks, boolean pdf) {
        return new HtmlWriter(pdf).page(head, blocks);
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
        paragraph("sub", head.subtitle());
        paragraph("sub", (head.author().isEmpty() ? "" : head.author() + ", ") + head.date() + " " + head.foot());
        blocks.forEach(this::block);
        if (!pdf) {
            // A data block, not a script: nothing runs. A "<" in it, which only texts have, could end it or open
            // another.
            html.append("<script type=\"application/json\" id=\"purgewright-case\">")
                    .append(head.embeddedCase().replace("<", "\\u003c"))
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
            html.append("<table class=\"sign\"><tr>");
            s.roles().forEach(role -> html.append("<th>").append(escape(role)).append("</th>"));
            html.append("</tr><tr>");
            s.roles().forEach(role -> html.append("<td>name</td>"));
            html.append("</tr><tr>");
            s.roles().forEach(role -> html.append("<td>date</td>"));
            html.append("</tr></table>\n");
        }
    }

    private void list(String element, List<String> items) {
        html.append('<').append(element).append(">\n");
        items.forEach(item -> html.append("<li>").append(escape(item)).append("</li>\n"));
        html.append("</").append(element).append(">\n");
    }

    private void banner(Block.Banner b) {
        html.append("<div class=\"banner ")
                .append(b.verdict().name().toLowerCase(Locale.ROOT))
                .append("\">");
        String color = color(b.verdict());
        html.append("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"24\" height=\"24\""
                + " viewBox=\"-0.1 -0.1 1.2 1.2\" role=\"img\"><title>");
        html.append(escape(b.verdict().word())).append("</title>");
        html.append("<path d=\"").append(path(VerdictMark.outline(b.verdict())));
        html.append("\" fill=\"none\" stroke=\"").append(color).append("\" stroke-width=\"0.14\"/>");
        html.append("<path d=\"").append(path(VerdictMark.solid(b.verdict())));
        html.append("\" fill=\"").append(color).append("\"/></svg> ");
        html.append("<strong>").append(escape(b.line())).append("</strong>");
        if (!b.governing().isEmpty()) {
            html.append("<br/>").append(escape(b.governing()));
        }
        html.append("</div>\n");
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
        html.append("<table class=\"grid\"><colgroup>");
        for (double share : widths(grid)) {
            html.append(String.format(Locale.ROOT, "<col style=\"width: %.1f%%\"/>", 100 * share));
        }
        html.append("</colgroup><thead><tr>");
        for (int i = 0; i < grid.heads().size(); i++) {
            html.append("<th class=\"").append(grid.alignment().charAt(i)).append("\">");
            html.append(escape(grid.heads().get(i))).append("</th>");
        }
        html.append("</tr></thead><tbody>\n");
        for (List<String> row : grid.rows()) {
            html.append("<tr>");
            for (int i = 0; i < row.size(); i++) {
                html.append("<td class=\"")
                        .append(grid.alignment().charAt(i))
                        .append("\">")
                        .append(escape(row.get(i)))
                        .append("</td>");
            }
            html.append("</tr>\n");
        }
        html.append("</tbody></table>\n");
    }

    /**
     * Shares of a table's width, one a column. A column is about as wide as its longest word and half its head, and grows with the root of what its
     * cells hold, so that a column of sentences does not squeeze the names beside it into one word a line.
     */
    private static double[] widths(Block.Grid grid) {
        double[] widths = new double[grid.heads().size()];
        double sum = 0;
        for (int i = 0; i < widths.length; i++) {
            int word = Math.max(
                    longestWord(grid.heads().get(i)), grid.heads().get(i).length() / 2);
            int longest = 0;
            double all = 0;
            for (List<String> row : grid.rows()) {
                word = Math.max(word, longestWord(row.get(i)));
                longest = Math.max(longest, row.get(i).length());
                all += row.get(i).length();
            }
            double mean = all / Math.max(1, grid.rows().size());
            widths[i] = 2 + Math.max(word, Math.sqrt(longest * mean));
            sum += widths[i];
        }
        for (int i = 0; i < widths.length; i++) {
            widths[i] /= sum;
        }
        return widths;
    }

    private static int longestWord(String text) {
        int longest = 0;
        for (String word : text.split("\\s+")) {
            longest = Math.max(longest, word.length());
        }
        return Math.min(longest, 30);
    }

    private void drawing(Block.Drawing drawing) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        // On the way to PDF the drawing's own letters are not found: there they are outlines; the tables have the
        // numbers as text.
        FigureExport.svg(drawing.figure(), pdf, bytes);
        String svg = bytes.toString(StandardCharsets.UTF_8);
        svg = svg.substring(svg.indexOf("<svg"));
        html.append(drawing.wide() ? "<div class=\"wide\">" : "<div class=\"drawing\">")
                .append("<div class=\"figure\">")
                .append(svg)
                .append("</div>\n");
        paragraph("caption", drawing.caption());
        html.append("</div>\n");
    }

    private void paragraph(String css, String text) {
        html.append(css.isEmpty() ? "<p>" : "<p class=\"" + css + "\">")
                .append(escape(text))
                .append("</p>\n");
    }

    private String style(Head head) {
        String foot = head.foot()
                .replace("\\", "\\\\")
                .replace("\"", "'")
                .replace("<", " ")
                .replace("\n", " ");
        String margins = " margin: 18mm 16mm 18mm 16mm;"
                + " @bottom-left { content: \"" + foot
                + "\"; font-size: 7.5pt; font-family: 'IBM Plex Sans', sans-serif; }"
                + " @bottom-right { content: \"page \" counter(page) \" of \" counter(pages); font-size: 7.5pt;"
                + " font-family: 'IBM Plex Sans', sans-serif; } }\n";
        return "@page { size: " + head.paper() + " portrait;" + margins
                + "@page wide { size: " + head.paper() + " landscape;" + margins
                // The library lays blocks out as wide as the first page, so the drawing says itself how wide it is.
                + (pdf
                        ? ".wide { page: wide; page-break-before: always; page-break-after: always; } .figure svg { width: 100%; }"
                                + " .wide .figure svg { width: "
                                + (head.paper().equals("A4") ? "265mm" : "247mm") + "; }\n"
                        : ".figure svg { width: 100%; }\n")
                + "body { font-family: 'IBM Plex Sans', 'Segoe UI', 'Helvetica Neue', sans-serif; font-size: "
                + (pdf ? "9pt" : "15px") + "; color: #111; line-height: 1.35;"
                + (pdf ? "" : " max-width: 1100px; margin: 2em auto; padding: 0 1em;") + " }\n"
                + "h1 { font-size: 1.7em; margin: 0 0 .2em 0; } h2 { font-size: 1.3em; margin: 1.4em 0 .4em 0;"
                + " border-bottom: 1px solid #888; } h3 { font-size: 1.05em; margin: 1em 0 .3em 0; page-break-after: avoid; }\n"
                + "h2 { page-break-after: avoid; } .sub { margin: .1em 0; color: #444; } .caption { color: #444; font-size: .9em; }\n"
                + ".banner { border: 1.5px solid #111; padding: .6em .8em; margin: .8em 0; }\n"
                + ".banner.falls_short { background: #fbe6dd; } .banner.not_converged, .banner.not_established { background: #eee; }\n"
                + ".banner.thin { background: #fdf3da; } .banner.holds { background: #e2f3ec; }\n"
                + "table.grid { border-collapse: collapse; width: 100%; font-size: .92em; } .grid th { text-align: left;"
                + " border-bottom: 1px solid #111; vertical-align: bottom; } .grid td { border-bottom: 1px solid #ccc; vertical-align: top; }\n"
                + ".grid th, .grid td { padding: 2px 6px 2px 0; } .grid .r { text-align: right; padding-right: 8px; }\n"
                + ".grid tr { page-break-inside: avoid; } table.grid { -fs-table-paginate: paginate; }\n"
                + "table.sign { border-collapse: collapse; width: 100%; page-break-inside: avoid; } .sign th, .sign td"
                + " { border: 1px solid #111; width: 33%; height: 2.6em; text-align: left; vertical-align: top; padding: 3px; color: #444; }\n"
                + ".figure svg { height: auto; } .drawing { page-break-inside: avoid; }\n";
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
