package purgewright.report;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.service.CheckResult;
import purgewright.report.HtmlWriter.Fact;

/** The document that leaves the tool. */
public final class Report {
    /** What a report can be. */
    public enum Form {
        HTML,
        PDF,
        MARKDOWN,
        /** The tables alone, for a spreadsheet. */
        CSV,
        /** The tables alone, as a workbook. */
        XLSX
    }

    private final HtmlWriter.Head head;
    private final List<Block> blocks;
    private final long epoch;
    private final long seed;

    /**
     * @param input what is reported
     * @param units of every number
     * @param paper "A4" or "letter"
     * @param version of this program
     * @param sourceDateEpoch seconds since 1970 that the file is to carry, or null for the case's own date
     */
    public Report(ReportInput input, UnitSystem units, String paper, String version, Long sourceDateEpoch) {
        CheckResult check = input.check();
        Map<String, String> about = check.model().about();
        String hash = check.document().hash();
        String date = about.getOrDefault("date", "");
        this.epoch = sourceDateEpoch != null ? sourceDateEpoch : epoch(date);
        String shown = sourceDateEpoch != null
                ? Instant.ofEpochSecond(sourceDateEpoch)
                        .atZone(ZoneOffset.UTC)
                        .toLocalDate()
                        .toString()
                : date;
        this.seed = Long.parseUnsignedLong(hash.substring(0, 15), 16);
        this.head = new HtmlWriter.Head(
                about.getOrDefault("title", "(no title)"),
                about.getOrDefault("note", ""),
                about.getOrDefault("author", ""),
                List.of(
                        new Fact("author", stated(about.getOrDefault("author", ""))),
                        new Fact("date", stated(shown)),
                        new Fact("revision", stated(about.getOrDefault("revision", ""))),
                        new Fact("program", "Purgewright " + version),
                        new Fact("properties", check.engine()),
                        new Fact("units", units == UnitSystem.US ? "US" : "SI"),
                        new Fact("phases", Integer.toString(check.phases().size())),
                        new Fact("case hash", hash.substring(0, 16) + " " + hash.substring(16))),
                "Purgewright " + version + ", case " + hash.substring(0, 16),
                paper,
                check.document().toJson());
        this.blocks = ReportContent.of(input, units);
    }

    private static String stated(String value) {
        return value.isBlank() ? "not stated" : value;
    }

    /** A file must not depend on the day it was made: without a date it says 1980-01-01, the earliest that archives know. */
    private static long epoch(String date) {
        try {
            return LocalDate.parse(date).atStartOfDay(ZoneOffset.UTC).toEpochSecond();
        } catch (DateTimeParseException e) {
            return LocalDate.of(1980, 1, 1).atStartOfDay(ZoneOffset.UTC).toEpochSecond();
        }
    }

    /** Writes the document; the stream stays open. */
    public void write(Form form, OutputStream out) throws IOException {
        switch (form) {
            case HTML -> out.write(HtmlWriter.write(head, blocks, false).getBytes(StandardCharsets.UTF_8));
            case MARKDOWN -> out.write(MarkdownWriter.write(head, blocks).getBytes(StandardCharsets.UTF_8));
            case CSV -> out.write(TablesWriter.csvBytes(head, blocks));
            case XLSX -> TablesWriter.workbook(head, blocks, out);
            case PDF -> PdfWriter.write(HtmlWriter.write(head, blocks, true), head.embeddedCase(), epoch, seed, out);
        }
    }
}
