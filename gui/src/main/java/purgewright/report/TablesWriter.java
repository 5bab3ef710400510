package purgewright.report;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import purgewright.result.CsvText;

/**
 * The report's tables for a spreadsheet: one CSV file with a heading line before each table, or one workbook with a sheet for each. A cell
 * that a spreadsheet would take for a formula is marked as text.
 */
final class TablesWriter {
    /** Longest name of a sheet that workbooks allow. */
    private static final int SHEET_NAME = 31;

    private TablesWriter() {}

    static String csv(HtmlWriter.Head head, List<Block> blocks) {
        StringBuilder text = new StringBuilder();
        text.append("# ").append(CsvText.line(head.title())).append('\n');
        text.append("# ").append(CsvText.line(head.foot())).append('\n');
        String heading = "Summary";
        String section = "Summary";
        for (Block block : blocks) {
            if (block instanceof Block.Heading h) {
                section = h.level() <= 2 ? h.text() : section;
                heading = h.level() <= 2 || section.isEmpty() ? h.text() : section + ": " + h.text();
            } else if (block instanceof Block.Banner b) {
                text.append("# verdict: ").append(CsvText.line(b.line())).append('\n');
            } else if (block instanceof Block.Grid g) {
                text.append("\n# ").append(CsvText.line(heading)).append('\n');
                row(text, g.heads());
                g.rows().forEach(cells -> row(text, cells));
            }
        }
        return text.toString();
    }

    private static void row(StringBuilder text, List<String> cells) {
        for (int i = 0; i < cells.size(); i++) {
            text.append(i == 0 ? "" : ",").append(CsvText.cell(cells.get(i)));
        }
        text.append('\n');
    }

    private static boolean isNumber(String text) {
        return text.matches("[+-]?\\d+(\\.\\d+)?([eE][+-]?\\d+)?");
    }

    static void workbook(HtmlWriter.Head head, List<Block> blocks, OutputStream out) throws IOException {
        // The stream stays open: the library writes a whole archive and only finishes it.
        Workbook book = new Workbook(out, "Purgewright", null);
        Worksheet cover = book.newWorksheet("report");
        int line = 0;
        cover.value(line++, 0, head.title());
        cover.value(line++, 0, head.subtitle());
        cover.value(line++, 0, head.foot());
        String heading = "Summary";
        String section = "Summary";
        Set<String> names = new HashSet<>(Set.of("report"));
        for (Block block : blocks) {
            if (block instanceof Block.Heading h) {
                section = h.level() <= 2 ? h.text() : section;
                heading = h.level() <= 2 || section.isEmpty() ? h.text() : h.text() + ", " + section;
            } else if (block instanceof Block.Banner b) {
                cover.value(line++, 0, b.line());
                cover.value(line++, 0, b.governing());
            } else if (block instanceof Block.Bullets b && section.equals("Cautions")) {
                for (String item : b.items()) {
                    cover.value(line++, 0, item);
                }
            } else if (block instanceof Block.Grid g) {
                sheet(book.newWorksheet(sheetName(heading, names)), heading, g);
            }
        }
        book.finish();
    }

    private static void sheet(Worksheet sheet, String heading, Block.Grid grid) {
        sheet.value(0, 0, heading);
        sheet.style(0, 0).bold().set();
        for (int i = 0; i < grid.heads().size(); i++) {
            sheet.value(1, i, grid.heads().get(i));
            sheet.style(1, i).bold().set();
        }
        for (int r = 0; r < grid.rows().size(); r++) {
            List<String> cells = grid.rows().get(r);
            for (int i = 0; i < cells.size(); i++) {
                String cell = cells.get(i);
                if (isNumber(cell)) {
                    sheet.value(r + 2, i, Double.parseDouble(cell));
                } else {
                    sheet.value(r + 2, i, cell); // a text cell: workbooks compute only what is stored as a formula
                }
            }
        }
        sheet.freezePane(0, 2);
    }

    /** At most 31 characters, none of those that workbooks refuse, unique. */
    private static String sheetName(String heading, Set<String> taken) {
        String base = heading.replaceAll("[\\\\/?*:\\[\\]']", " ").strip();
        base = base.isEmpty() ? "table" : base.substring(0, Math.min(base.length(), SHEET_NAME - 3));
        String name = base;
        for (int i = 2; !taken.add(name.toLowerCase(Locale.ROOT)); i++) {
            name = base + " " + i;
        }
        return name;
    }

    /** The CSV's bytes. */
    static byte[] csvBytes(HtmlWriter.Head head, List<Block> blocks) {
        return csv(head, blocks).getBytes(StandardCharsets.UTF_8);
    }
}
