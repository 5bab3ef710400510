package purgewright.report;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;
import purgewright.figure.Lettering;

/** The page as a tagged PDF with bookmarks, page numbers and the case attached. The same input gives the same bytes. */
final class PdfWriter {
    private PdfWriter() {}

    /** The library logs through a facade that says on standard error when nobody listens; nobody needs to. */
    static void quiet() {
        System.setProperty("slf4j.internal.verbosity", "ERROR");
    }

    /**
     * @param epochSeconds what the file says about when it was made
     * @param seed of the document's id, for instance the case's hash
     */
    static void write(String xhtml, String caseJson, long epochSeconds, long seed, OutputStream out)
            throws IOException {
        XRLog.setLoggingEnabled(false);
        quiet();
        Calendar when = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
        when.setTimeInMillis(1000 * epochSeconds);
        try (PDDocument document = new PDDocument();
                BatikSVGDrawer drawer = new BatikSVGDrawer()) {
            PdfRendererBuilder builder = new PdfRendererBuilder();
            builder.useFastMode();
            builder.usePdfUaAccessibility(true);
            builder.useSVGDrawer(drawer);
            for (String file : Lettering.FILES) {
                builder.useFont(
                        () -> Lettering.open(file),
                        Lettering.FAMILY,
                        file.contains("Bold") ? 700 : 400,
                        file.contains("Italic") ? FontStyle.ITALIC : FontStyle.NORMAL,
                        true);
            }
            builder.withHtmlContent(xhtml, null);
            builder.usePDDocument(document);
            try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
                renderer.layout();
                renderer.createPDFWithoutClosing();
            }
            PDEmbeddedFile file =
                    new PDEmbeddedFile(document, new ByteArrayInputStream(caseJson.getBytes(StandardCharsets.UTF_8)));
            file.setSubtype("application/json");
            file.setCreationDate(when);
            PDComplexFileSpecification attachment = new PDComplexFileSpecification();
            attachment.setFile("case.json");
            attachment.setFileUnicode("case.json");
            attachment.setEmbeddedFile(file);
            PDEmbeddedFilesNameTreeNode tree = new PDEmbeddedFilesNameTreeNode();
            tree.setNames(Map.of("case.json", attachment));
            PDDocumentNameDictionary names = new PDDocumentNameDictionary(document.getDocumentCatalog());
            names.setEmbeddedFiles(tree);
            document.getDocumentCatalog().setNames(names);
            document.getDocumentInformation().setCreationDate(when);
            document.getDocumentInformation().setModificationDate(when);
            document.getDocumentInformation().setProducer("Purgewright");
            document.setDocumentId(seed);
            document.save(out);
        }
    }
}
