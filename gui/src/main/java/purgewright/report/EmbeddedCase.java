package purgewright.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.zip.InflaterInputStream;
import java.util.zip.ZipException;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;
import purgewright.sealflow.casefile.Utf8;

/** The case inside a report that was written earlier, so that a report can be opened like a case. */
public final class EmbeddedCase {
    private static final String NAME = "case.json";
    /** What {@link HtmlWriter} writes. */
    private static final String OPEN = "<script type=\"application/json\" id=\"purgewright-case\">";

    /** A report with figures has a few megabytes; anything much larger is none. */
    private static final long LARGEST = 64L << 20;

    private static final int LARGEST_CASE = 16 << 20;

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
        String html = Utf8.read(report, (int) LARGEST);
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
            return text(report, found.getEmbeddedFile());
        } catch (RuntimeException | OutOfMemoryError damaged) {
            // The reader's way with some broken files. Memory: a small file may say that a huge one is folded up in it;
            // what was asked for
            // in vain is free again here.
            throw new IOException("not a PDF that can be read: " + report, damaged);
        }
    }

    /** Unfolded here and not by the library, which would unfold whatever size a hostile file makes of it. */
    private static String text(Path report, PDEmbeddedFile file) throws IOException {
        List<COSName> filters = file.getFilters();
        boolean flate = filters.equals(List.of(COSName.FLATE_DECODE));
        if (!flate && !filters.isEmpty()) {
            throw none(report);
        }
        try (InputStream raw = file.getCOSObject().createRawInputStream();
                InputStream in = flate ? new InflaterInputStream(raw) : raw) {
            byte[] bytes = in.readNBytes(LARGEST_CASE + 1);
            if (bytes.length > LARGEST_CASE) {
                throw new IOException("the case inside this report is larger than 16 MB: " + report);
            }
            return Utf8.decode(bytes);
        } catch (CharacterCodingException | ZipException damaged) {
            throw new IOException("the case inside this report is damaged: " + report, damaged);
        }
    }

    private static IOException none(Path report) {
        return new IOException("no case inside this report: " + report);
    }
}
