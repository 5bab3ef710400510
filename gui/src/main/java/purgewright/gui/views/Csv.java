package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import purgewright.result.CsvText;
import purgewright.sealflow.casefile.CaseDocument;

/** Comma-separated values (RFC 4180): SI numbers, an empty cell where nothing is known; lines of the heading begin with #. */
final class Csv {
    private final StringBuilder text = new StringBuilder();

    /** A table about a case: its hash stands in the heading, so that a file tells which case it is of. */
    Csv(String what, CaseDocument document) {
        text.append("# purgewright ").append(CsvText.line(what)).append(", SI units\n");
        if (document != null) {
            text.append("# case ").append(document.hash()).append('\n');
        }
    }

    /** One line; numbers with nine digits, all else as its text. */
    Csv line(Object... cells) {
        List<String> out = new ArrayList<>();
        for (Object cell : cells) {
            if (cell instanceof Double number) {
                out.add(Double.isFinite(number) ? String.format(Locale.ROOT, "%.9g", number) : "");
            } else {
                out.add(CsvText.cell(cell == null ? "" : cell.toString()));
            }
        }
        text.append(String.join(",", out)).append('\n');
        return this;
    }

    @Override
    public String toString() {
        return text.toString();
    }
}
