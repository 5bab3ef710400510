package purgewright.report;

import java.util.List;

/** Blocks as Markdown: for a repository or a wiki. Drawings are named, not drawn. */
final class MarkdownWriter {
    private MarkdownWriter() {}

    static String write(HtmlWriter.Head head, List<Block> blocks) {
        StringBuilder text =
                new StringBuilder("# ").append(escape(head.title())).append("\n\n");
        text.append(escape(head.subtitle())).append("\n\n");
        head.facts().forEach(fact -> text.append("- ")
                .append(escape(fact.what()))
                .append(": ")
                .append(escape(fact.value()))
                .append('\n'));
        text.append('\n');
        for (Block block : blocks) {
            if (block instanceof Block.Heading h) {
                text.append("#".repeat(h.level()))
                        .append(' ')
                        .append(escape(h.text()))
                        .append("\n\n");
            } else if (block instanceof Block.Text t) {
                text.append(escape(t.text())).append("\n\n");
            } else if (block instanceof Block.Banner b) {
                text.append("> **").append(escape(b.line())).append("**\n");
                if (!b.governing().isEmpty()) {
                    text.append(">\n> ").append(escape(b.governing())).append('\n');
                }
                text.append('\n');
            } else if (block instanceof Block.Bullets b) {
                b.items().forEach(item -> text.append("- ").append(escape(item)).append('\n'));
                text.append('\n');
            } else if (block instanceof Block.Steps steps) {
                steps.items()
                        .forEach(item -> text.append("1. ").append(escape(item)).append('\n'));
                text.append('\n');
            } else if (block instanceof Block.Grid g) {
                grid(text, g);
            } else if (block instanceof Block.Drawing d) {
                text.append('*').append(escape(d.caption())).append(" (drawn in the HTML and PDF reports)*\n\n");
            } else if (block instanceof Block.Signatures s) {
                text.append("| revision | date | what changed | by |\n|---|---|---|---|\n| ")
                        .append(escape(s.revision()))
                        .append(" | ")
                        .append(escape(s.date()))
                        .append(" | | |\n\n");
                text.append("| ").append(String.join(" | ", s.roles())).append(" |\n|");
                text.append("---|".repeat(s.roles().size()))
                        .append("\n|")
                        .append(" |".repeat(s.roles().size()))
                        .append("\n\n");
            }
        }
        return text.toString();
    }

    private static void grid(StringBuilder text, Block.Grid grid) {
        text.append('|');
        grid.heads().forEach(head -> text.append(' ').append(escape(head)).append(" |"));
        text.append("\n|");
        grid.alignment().chars().forEach(c -> text.append(c == 'r' ? "---:|" : "---|"));
        text.append('\n');
        for (List<String> row : grid.rows()) {
            text.append('|');
            row.forEach(cell -> text.append(' ').append(escape(cell)).append(" |"));
            text.append('\n');
        }
        text.append('\n');
    }

    /** What Markdown or the HTML inside it would read as markup. */
    private static String escape(String text) {
        return text.replaceAll("([\\\\`*_\\[\\]<>|#])", "\\\\$1").replaceAll("\\s+", " ");
    }
}
