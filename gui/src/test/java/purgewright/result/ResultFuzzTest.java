package purgewright.result;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.Deflater;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import purgewright.fluids.Engines;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.SpreadPart;
import purgewright.hazard.service.SpreadService;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SpreadSettings.Part;
import purgewright.hazard.studies.SpreadSettings.Studies;
import purgewright.hazard.studies.Tally;
import purgewright.report.EmbeddedCase;
import purgewright.report.Report;
import purgewright.report.ReportInput;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.Utf8;

/** 100,000 inputs with -P long, 1,000 by default; {@code purgewright.from} shifts the seeds. */
@DisplayName("Results and reports that come back: as they were written, or refused in one sentence")
class ResultFuzzTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int INPUTS = (int) Math.round(100_000 * SHARE);
    private static final long FROM = Long.getLong("purgewright.from", 0);
    private static final Pattern VALUE =
            Pattern.compile("(?<=: |\\[ |, )(-?[\\d.][-+\\dE.]*|true|false|null|\"[^\"\\n]{0,40}\")");
    private static final String[] VALUES = {
        "null",
        "true",
        "0",
        "-1",
        "1e400",
        "9223372036854775807",
        "9223372036854775808",
        "2147483648",
        "0.5",
        "\"\"",
        "\"NaN\"",
        "\"1E+999999999\"",
        "\"1e-2147483647\"",
        "[ ]",
        "{ }",
        "\"HOLDS\"",
        "\"latin hypercube\"",
        "[ 1, null ]",
        "{ \"a\" : 1, \"a\" : 2 }"
    };

    private static String part;
    private static String sealedObject;
    private static byte[] html;
    private static byte[] pdf;

    @TempDir
    Path folder;

    @BeforeAll
    static void makeOnce() throws IOException {
        try (InputStream in = Report.class.getResourceAsStream("/purgewright/cases/minimal.json");
                CaseService service = new CaseService(Engines.embedded(), 1)) {
            CaseDocument document = CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8))
                    .withJson(
                            "/uncertain",
                            "{\"/passages/ring A/clearance\": {\"distribution\": \"uniform\", \"low\": \"24 um\", \"high\": \"26 um\"}}");
            SpreadPart made = new SpreadService(service)
                    .part(
                            document,
                            SpreadSettings.DEFAULT
                                    .withSamples(4)
                                    .withStudies(Studies.NONE)
                                    .withPart(new Part(1, 2)),
                            Progress.NONE);
            part = SpreadJson.part(made, "1");
            sealedObject = SpreadJson.unsealed(part);
            Report report = new Report(
                    ReportInput.of(service.check(document, CheckSettings.DEFAULT, Progress.NONE)),
                    UnitSystem.SI,
                    "A4",
                    "test",
                    0L);
            html = written(report, Report.Form.HTML);
            pdf = written(report, Report.Form.PDF);
        }
    }

    private static byte[] written(Report report, Report.Form form) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        report.write(form, out);
        return out.toByteArray();
    }

    /** One to four values of the text replaced, lost, or doubled; the rest of it left alone. */
    private static String changed(SplittableRandom r, String text) {
        String out = text;
        for (int i = r.nextInt(4); i >= 0; i--) {
            Matcher m = VALUE.matcher(out);
            if (!m.find(r.nextInt(out.length())) && !m.find(0)) {
                return out;
            }
            String other = VALUES[r.nextInt(VALUES.length)];
            out = out.substring(0, m.start()) + (r.nextInt(8) == 0 ? "" : other) + out.substring(m.end());
        }
        return out;
    }

    private static byte[] scrambled(SplittableRandom r, byte[] bytes) {
        byte[] b = bytes.clone();
        for (int i = r.nextInt(5); i >= 0; i--) {
            int at = r.nextInt(b.length);
            int n = Math.min(b.length - at, 1 + r.nextInt(64));
            switch (r.nextInt(5)) {
                case 0 -> b = at > 0 ? Arrays.copyOf(b, at) : b;
                case 1 -> b[at] ^= (byte) (1 << r.nextInt(8));
                case 2 -> Arrays.fill(b, at, at + n, (byte) r.nextInt(256));
                case 3 -> System.arraycopy(b, at, b, r.nextInt(b.length - n + 1), n);
                default -> b[at] = (byte) r.nextInt(256);
            }
        }
        return b;
    }

    private static long cpu() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    @Test
    void aPartOfASpreadIsTheOneThatWasWrittenOrRefused() {
        assertThat(SpreadReader.part(part).tally().kept().index()).isNotEmpty();
        int taken = 0;
        long slowest = 0;
        byte[] bytes = part.getBytes(StandardCharsets.UTF_8);
        for (long i = FROM; i < FROM + INPUTS; i++) {
            SplittableRandom r = new SplittableRandom(i);
            // Half of them are sealed again after the change, so that what stands behind the digest is reached as well.
            boolean again = r.nextInt(2) == 0;
            String text;
            try {
                text = again
                        ? SpreadJson.sealed(changed(r, sealedObject))
                        : r.nextInt(2) == 0 ? changed(r, part) : Utf8.decode(scrambled(r, bytes));
            } catch (CharacterCodingException notUtf8) {
                continue;
            }
            long start = cpu();
            try {
                SpreadReader.version(text);
                SpreadPart read = SpreadReader.part(text);
                taken++;
                if (!again) {
                    assertThat(text.strip()).as("input " + i).isEqualTo(part);
                }
                // What was read can be counted and written; it is the same when read again.
                Tally sum = Tally.of(read.tally());
                sum.add(Tally.of(read.tally()));
                String written = SpreadJson.part(read, "1");
                assertThat(SpreadJson.part(SpreadReader.part(written), "1")).isEqualTo(written);
            } catch (SpreadReader.Unreadable refused) {
                assertThat(refused.getMessage()).isNotBlank();
            } catch (RuntimeException | Error crash) {
                throw new AssertionError("input " + i + ":\n" + text, crash);
            }
            slowest = Math.max(slowest, cpu() - start);
        }
        assertThat(TimeUnit.NANOSECONDS.toMillis(slowest)).as("slowest, ms").isLessThan(1000);
        assertThat(taken).as("sealed again and sound").isGreaterThan(INPUTS / 1000);
    }

    @Test
    void aReportThatComesBackHoldsACaseOrIsRefused() throws IOException {
        long slowest = 0;
        int cases = 0;
        for (long i = FROM; i < FROM + INPUTS / 10; i++) {
            SplittableRandom r = new SplittableRandom(~i);
            boolean asPdf = r.nextInt(4) == 0;
            Path file = folder.resolve(asPdf ? "r.pdf" : "r.html");
            Files.write(file, scrambled(r, asPdf ? pdf : html));
            long start = cpu();
            try {
                CaseDocument.parse(EmbeddedCase.read(file)).toCase();
                cases++;
            } catch (IOException | CaseException refused) {
                assertThat(refused.getMessage()).isNotBlank();
            } catch (RuntimeException | Error crash) {
                throw new AssertionError("input " + i, crash);
            }
            slowest = Math.max(slowest, cpu() - start);
        }
        assertThat(TimeUnit.NANOSECONDS.toMillis(slowest)).as("slowest, ms").isLessThan(1000);
        assertThat(cases).isPositive();
    }

    @Test
    void aSmallReportWithAHugeCaseFoldedUpInItIsRefused() throws IOException {
        byte[] folded = folded(40 << 20);
        Path file = folder.resolve("bomb.pdf");
        try (PDDocument document = new PDDocument()) {
            document.addPage(new PDPage());
            PDEmbeddedFile embedded = new PDEmbeddedFile(document);
            embedded.getCOSObject().setItem(COSName.FILTER, COSName.FLATE_DECODE);
            try (var out = embedded.getCOSObject().createRawOutputStream()) {
                out.write(folded);
            }
            PDComplexFileSpecification spec = new PDComplexFileSpecification();
            spec.setFile("case.json");
            spec.setEmbeddedFile(embedded);
            PDEmbeddedFilesNameTreeNode tree = new PDEmbeddedFilesNameTreeNode();
            tree.setNames(Map.of("case.json", spec));
            PDDocumentNameDictionary names = new PDDocumentNameDictionary(document.getDocumentCatalog());
            names.setEmbeddedFiles(tree);
            document.getDocumentCatalog().setNames(names);
            document.save(file.toFile());
        }
        assertThat(Files.size(file)).isLessThan(1 << 20);
        assertThatThrownBy(() -> EmbeddedCase.read(file))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("larger than 16 MB");
    }

    private static byte[] folded(int zeros) {
        Deflater deflater = new Deflater(9);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        byte[] block = new byte[1 << 20];
        byte[] buffer = new byte[1 << 16];
        for (int left = zeros; left > 0; left -= block.length) {
            deflater.setInput(block);
            while (!deflater.needsInput()) {
                out.write(buffer, 0, deflater.deflate(buffer));
            }
        }
        deflater.finish();
        while (!deflater.finished()) {
            out.write(buffer, 0, deflater.deflate(buffer));
        }
        deflater.end();
        return out.toByteArray();
    }
}
