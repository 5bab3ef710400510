package purgewright.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;

/** The case inside a report that was written earlier, so that a report can be opened like a case. */
public final class EmbeddedCase {
    private static final String NAME = "case.json";
    /** What {@link HtmlWriter} writes. */
    private static final String OPEN = "<script type=\"application/json\" id=\"purgewright-case\">";

    /** A report with figures has a few megabytes; anything much larger is none. */
    private static final long LARGEST = 64L << 20;

    private EmbeddedCase() {}

    /** Whether the name is that of a report, not of a case. */
    public static boolean isReport(Path file) {
        String name = file.toString().toLowerCase(Locale.ROOT);
        return name.endsWith(".pdf") || name.endsWith(".html") || name.endsWith(".htm");
    }

    /**
     * The JSON text of the case.
     *
     * @throws IOException when it cannot be read, is damaged, or holds no case; the message is one sentence
     */
    public static String read(Path report) throws IOException {
        if (Files.size(report) > LARGEST) {
            throw new IOException("too large for a report of ours: " + report);
        }
        return report.toString().toLowerCase(Locale.ROOT).endsWith(".pdf") ? fromPdf(report) : fromHtml(report);
    }

    private static String fromHtml(Path report) throws IOException {
        String html = new String(Files.readAllBytes(report), StandardCharsets.UTF_8);
        int start = html.lastIndexOf(OPEN);
        int end = start < 0 ? -1 : html.indexOf("</script>", start);
        if (end < 0) {
            throw none(report);
        }
        return html.substring(start + OPEN.length(), end);
    }

    private static String fromPdf(Path report) throws IOException {
        PdfWriter.quiet();
        try (PDDocument document = Loader.loadPDF(report.toFile())) {
            PDDocumentNameDictionary names = document.getDocumentCatalog().getNames();
            Map<String, PDComplexFileSpecification> files = names == null || names.getEmbeddedFiles() == null
                    ? null
                    : names.getEmbeddedFiles().getNames();
            PDComplexFileSpecification found = files == null ? null : files.get(NAME);
            if (found == null || found.getEmbeddedFile() == null) {
                throw none(report);
            }
            return new String(found.getEmbeddedFile().toByteArray(), StandardCharsets.UTF_8);
        } catch (RuntimeException damaged) { // the reader's way with some broken files
            throw new IOException("not a PDF that can be read: " + report, damaged);
        }
    }

    private static IOException none(Path report) {
        return new IOException("no case inside this report: " + report);
    }
}
