package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureNode;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;
import purgewright.fluids.Engines;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Comparison;
import purgewright.hazard.service.FailSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

@DisplayName("A report says what the check says, in every form, and nothing of the user's can break out of it")
class ReportTest {
    /** A title that would be markup, a formula and the end of the data block. */
    private static final String HOSTILE = "=1+1 <script>alert(1)</script> ]]> & \"quoted\"";

    private static CheckResult before;
    private static CheckResult check;

    @TempDir
    Path folder;

    @BeforeAll
    static void solveOnce() {
        CaseDocument document = minimal();
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            before = service.check(document, CheckSettings.DEFAULT, Progress.NONE);
            check = service.check(
                    document.with("/about/title", HOSTILE).with("/passages/ring A/clearance", "0.035 mm"),
                    CheckSettings.DEFAULT,
                    Progress.NONE);
        }
    }

    private static CaseDocument minimal() {
        try (InputStream in = Report.class.getResourceAsStream("/purgewright/cases/minimal.json")) {
            return CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static byte[] written(Report.Form form) throws IOException {
        ReportInput input = ReportInput.of(check).with(Comparison.of(before, check));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        new Report(input, UnitSystem.SI, "A4", "test", 0L).write(form, out);
        return out.toByteArray();
    }

    @Test
    void htmlIsSelfContainedAndEscaped() throws IOException {
        String html = new String(written(Report.Form.HTML), StandardCharsets.UTF_8);

        assertThat(html)
                .contains("default-src 'none'")
                .doesNotContain("<script>alert")
                .contains("&lt;script&gt;alert");
        assertThat(html.replace("http://www.w3.org/", ""))
                .doesNotContain("src=\"http")
                .doesNotContain("@import");
        assertThat(html.split("<script", -1))
                .as("the data block is the only one")
                .hasSize(2);
        assertThatCode(() -> DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(html))))
                .as("well-formed")
                .doesNotThrowAnyException();
    }

    @Test
    void aReportOpensLikeItsCase() throws IOException {
        for (Report.Form form : new Report.Form[] {Report.Form.HTML, Report.Form.PDF}) {
            Path file = folder.resolve("report." + form.name().toLowerCase(java.util.Locale.ROOT));
            Files.write(file, written(form));

            assertThat(CaseDocument.parse(EmbeddedCase.read(file)).hash())
                    .as(form.name())
                    .isEqualTo(check.document().hash());
        }
    }

    @Test
    void whatIsNoReportOfOursIsSaid() throws IOException {
        Path html = Files.writeString(folder.resolve("other.html"), "<html><body>nothing</body></html>");
        Path pdf = Files.writeString(folder.resolve("other.pdf"), "%PDF-1.7 broken");

        assertThatThrownBy(() -> EmbeddedCase.read(html))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("no case");
        assertThatThrownBy(() -> EmbeddedCase.read(pdf)).isInstanceOf(IOException.class);
    }

    @Test
    void pdfHasTextBookmarksAndTheHashOnEachPage() throws IOException {
        byte[] bytes = written(Report.Form.PDF);

        assertThat(written(Report.Form.PDF)).as("the same bytes again").isEqualTo(bytes);
        try (PDDocument document = Loader.loadPDF(bytes)) {
            assertThat(document.getDocumentCatalog().getDocumentOutline()).isNotNull();
            assertThat(document.getDocumentCatalog().getStructureTreeRoot())
                    .as("tagged")
                    .isNotNull();
            PDFTextStripper text = new PDFTextStripper();
            for (int page = 1; page <= document.getNumberOfPages(); page++) {
                text.setStartPage(page);
                text.setEndPage(page);
                assertThat(text.getText(document))
                        .contains(check.document().hash().substring(0, 16));
            }
            text.setStartPage(1);
            assertThat(text.getText(document))
                    .contains("What changed", "Cautions", "screening calculation", "prepared");
        }
    }

    /** On either paper, as the reader of the file finds them: a number is not torn from its unit, nor a phase's name in two. */
    /** Ten phases, two lanes, and a verdict under faults (of another case: the words count): the longest page one there is. */
    @Test
    void pageOneHoldsTheSignaturesAndAWideSectionIsShownInPiecesThatFillTheirPages() throws IOException {
        CheckResult wide;
        FaultResult faults;
        try (CaseService service = new CaseService(Engines.embedded(), 2);
                InputStream in = Report.class.getResourceAsStream("/purgewright/cases/shared-rotor-kerosene.json")) {
            CaseDocument document = CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            wide = service.check(document, CheckSettings.DEFAULT, Progress.NONE);
            faults = service.fail(minimal(), FailSettings.DEFAULT.withTimes(false), Progress.NONE);
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        new Report(ReportInput.of(wide).with(faults), UnitSystem.SI, "A4", "test", 0L).write(Report.Form.PDF, out);

        try (PDDocument document = Loader.loadPDF(out.toByteArray())) {
            PDFTextStripper text = new PDFTextStripper();
            List<String> pages = new ArrayList<>();
            for (int page = 1; page <= document.getNumberOfPages(); page++) {
                text.setStartPage(page);
                text.setEndPage(page);
                pages.add(text.getText(document));
            }
            assertThat(pages.get(0)).contains("holds", "under faults", "prepared", "signature");
            assertThat(pages.get(2)).contains("part 1 of 3");
            assertThat(pages.get(4)).contains("part 3 of 3");
        }
    }

    /** Who signs has the assumption that "seen by" rests on before him, the time needed, and whether a time was computed. */
    @Test
    void theFaultsSayWhatTheyRestOn() throws IOException {
        FaultResult faults;
        CheckResult stated;
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            stated = service.check(minimal(), CheckSettings.DEFAULT, Progress.NONE);
            faults = service.fail(minimal(), FailSettings.DEFAULT.withTimes(false), Progress.NONE);
        }
        List<String> own = faults.cautions().stream()
                .filter(c -> !stated.cautions().contains(c))
                .toList();
        assertThat(own).anySatisfy(c -> assertThat(c).contains("no instruments"));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        new Report(ReportInput.of(stated).with(faults), UnitSystem.SI, "A4", "test", 0L)
                .write(Report.Form.MARKDOWN, out);
        String text = out.toString(StandardCharsets.UTF_8);
        assertThat(text).contains(own).contains(faults.cautions());
        assertThat(text).contains("fluids mix", "needed", "not computed, the worst is taken", faults.times());

        List<List<String>> rows = ReportContent.of(ReportInput.of(stated).with(faults), UnitSystem.SI).stream()
                .filter(b -> b instanceof Block.Grid)
                .map(b -> (Block.Grid) b)
                .filter(g -> g.heads().contains("needed"))
                .findFirst()
                .orElseThrow()
                .rows();
        assertThat(rows).hasSameSizeAs(faults.rows());
        assertThat(rows.stream().map(r -> r.get(0).replaceAll("^\\(|\\)$", "")))
                .as("worst first, as the command ranks them")
                .startsWith(faults.ranking().toArray(String[]::new));
        assertThat(rows.get(0).get(5)).isEqualTo("3.6 s");
    }

    @Test
    void shortCellsAreNotBrokenOverLines() throws IOException {
        ReportInput input = ReportInput.of(check).with(Comparison.of(before, check));
        for (String paper : new String[] {"A4", "letter"}) {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            new Report(input, UnitSystem.SI, paper, "test", 0L).write(Report.Form.PDF, out);
            String text;
            try (PDDocument document = Loader.loadPDF(out.toByteArray())) {
                PDFTextStripper lines = new PDFTextStripper();
                lines.setSortByPosition(true);
                text = lines.getText(document);
            }
            int seen = 0;
            for (Block block : ReportContent.of(input, UnitSystem.SI)) {
                if (block instanceof Block.Grid grid) {
                    for (String cell :
                            grid.rows().stream().flatMap(List::stream).toList()) {
                        if (ColumnWidths.isShort(cell, 12)) {
                            assertThat(text).as(paper).contains(cell);
                            seen += cell.contains(" ") ? 1 : 0;
                        }
                    }
                }
            }
            assertThat(seen).as("cells that could break").isGreaterThan(40);
        }
    }

    @Test
    void everyFigureHasAnAlternativeText() throws IOException {
        try (PDDocument document = Loader.loadPDF(written(Report.Form.PDF))) {
            List<String> alternatives = new ArrayList<>();
            figures(document.getDocumentCatalog().getStructureTreeRoot(), alternatives);
            assertThat(alternatives)
                    .hasSizeGreaterThanOrEqualTo(2)
                    .allSatisfy(text -> assertThat(text).isNotBlank())
                    .anyMatch(text -> text.contains("skyline"));
        }
    }

    private static void figures(PDStructureNode node, List<String> out) {
        for (Object kid : node.getKids()) {
            if (kid instanceof PDStructureElement element) {
                if (element.getStructureType().equals("Figure")) {
                    out.add(String.valueOf(element.getAlternateDescription()));
                }
                figures(element, out);
            }
        }
    }

    @Test
    void eachPageNamesTheCaseByTitleAndWhatTheCaseLeavesOpenIsListed() throws IOException {
        try (PDDocument document = Loader.loadPDF(written(Report.Form.PDF))) {
            PDFTextStripper text = new PDFTextStripper();
            for (int page = 2; page <= document.getNumberOfPages(); page++) {
                text.setStartPage(page);
                text.setEndPage(page);
                assertThat(text.getText(document)).as("page " + page).contains(HOSTILE);
            }
            text.setStartPage(1);
            assertThat(text.getText(document).replaceAll("\\s+", " "))
                    .contains("Assumptions", "whirl 0 mm rotor", "eccentricity 0.5 every floating ring")
                    .contains(check.document().hash().substring(16));
        }
    }

    @Test
    void tablesHoldTheNumbersAndNoFormula() throws IOException {
        String csv = new String(written(Report.Form.CSV), StandardCharsets.UTF_8);

        assertThat(csv).contains("# What changed: Inputs").contains("/passages/ring A/clearance,0.025 mm,0.035 mm");
        assertThat(csv.lines()).noneMatch(line -> line.matches("^[=@].*|.*,[=@].*"));
    }

    /** Under a user with a name and a home that stand out: neither may be in what is handed on, nor the folder it was made in. */
    @Test
    void nothingSaysWhoMadeItOrWhere() throws IOException {
        String name = System.getProperty("user.name");
        String home = System.getProperty("user.home");
        StringBuilder all = new StringBuilder();
        try {
            System.setProperty("user.name", "u5er-n4me");
            System.setProperty("user.home", "/h0me/u5er-n4me");
            for (Report.Form form : Report.Form.values()) {
                byte[] bytes = written(form);
                all.append(new String(bytes, StandardCharsets.ISO_8859_1));
                if (form == Report.Form.PDF) {
                    try (PDDocument pdf = Loader.loadPDF(bytes)) {
                        PDDocumentInformation info = pdf.getDocumentInformation();
                        assertThat(info.getMetadataKeys())
                                .isSubsetOf(
                                        "Title",
                                        "Subject",
                                        "Author",
                                        "description",
                                        "Producer",
                                        "CreationDate",
                                        "ModDate");
                        assertThat(info.getAuthor())
                                .as("who the case names, nobody else")
                                .isEqualTo(
                                        check.document().text("/about/author").orElse(""));
                        assertThat(info.getProducer()).isEqualTo("Purgewright");
                        assertThat(info.getCreationDate().getTimeInMillis()).isZero();
                        for (String key : info.getMetadataKeys()) {
                            all.append(info.getPropertyStringValue(key));
                        }
                        if (pdf.getDocumentCatalog().getMetadata() != null) {
                            all.append(new String(
                                    pdf.getDocumentCatalog().getMetadata().toByteArray(), StandardCharsets.UTF_8));
                        }
                    }
                }
                if (form == Report.Form.XLSX) {
                    Path file = Files.write(folder.resolve("who.xlsx"), bytes);
                    try (ZipFile zip = new ZipFile(file.toFile())) {
                        for (ZipEntry entry : Collections.list(zip.entries())) {
                            String text = new String(zip.getInputStream(entry).readAllBytes(), StandardCharsets.UTF_8);
                            all.append(text);
                            if (entry.getName().startsWith("docProps")) {
                                assertThat(text).as(entry.getName()).doesNotContain("lastModifiedBy");
                            }
                        }
                    }
                }
            }
        } finally {
            System.setProperty("user.name", name);
            System.setProperty("user.home", home);
        }
        assertThat(all.toString())
                .doesNotContain("u5er-n4me")
                .doesNotContain(folder.toString())
                .doesNotContain(System.getProperty("user.dir"));
    }

    @Test
    void workbookHasASheetForEachTable() throws IOException {
        int sheets = 0;
        StringBuilder all = new StringBuilder();
        Path file = Files.write(folder.resolve("tables.xlsx"), written(Report.Form.XLSX));
        try (ZipFile zip = new ZipFile(file.toFile())) {
            for (ZipEntry entry : Collections.list(zip.entries())) {
                if (entry.getName().startsWith("xl/worksheets/sheet")) {
                    sheets++;
                    all.append(new String(zip.getInputStream(entry).readAllBytes(), StandardCharsets.UTF_8));
                }
            }
        }
        assertThat(sheets).isGreaterThan(8);
        assertThat(all).doesNotContain("<f>");
    }

    @Test
    void theComparisonNamesWhatChangedAndWhatFollowed() {
        Comparison comparison = Comparison.of(before, check);

        assertThat(comparison.inputs())
                .extracting(Comparison.InputChange::pointer)
                .containsExactlyInAnyOrder("/about/title", "/passages/ring A/clearance");
        assertThat(comparison.results()).anySatisfy(r -> {
            assertThat(r.place()).isEqualTo("/cavities/barrier");
            assertThat(r.quantity()).isEqualTo("pressure");
            assertThat(r.after()).as("a wider ring lowers the barrier").isLessThan(r.before());
        });
        Comparison same = Comparison.of(check, check);
        assertThat(same.inputs()).isEmpty();
        assertThat(same.results()).isEmpty();
        assertThat(same.findings()).isEmpty();
    }

    @Test
    void everyInputIsListedInWordsAndNothingAsJson() {
        CaseDocument document = minimal()
                .withJson(
                        "/duty",
                        "[{\"name\": \"start\", \"speed\": \"900 rpm\", \"set\":"
                                + " {\"/cavities/barrier/volume\": \"7 cm3\", \"/cavities/barrier/note\": \"x\"}}]");

        String all = InputBlocks.of(document).stream()
                .filter(Block.Grid.class::isInstance)
                .flatMap(block -> ((Block.Grid) block).rows().stream())
                .map(row -> String.join(": ", row))
                .collect(java.util.stream.Collectors.joining("\n"));

        assertThat(all)
                .contains("drive gas: burn (fuel methane, oxidizer oxygen, mixture ratio 0.4, pressure 6 MPa")
                .contains("start: speed 900 rpm; set barrier: volume 7 cm3, note x")
                .doesNotContain("{")
                .doesNotContain("\"");
        for (String passage : document.children("/passages")) {
            assertThat(all).contains(passage + ": ");
        }
    }

    @Test
    void aWaiverStandsWithNameDateAndReasonBesideTheVerdictItDoesNotChange() throws IOException {
        String id = check.findings().get(0).id();
        CaseDocument waived = check.document()
                .withJson(
                        "/waivers",
                        "[{\"finding\": \"" + id + "\", \"by\": \"A. Reviewer\", \"date\": \"2026-02-03\","
                                + " \"reason\": \"tested cold\"}]");
        CheckResult with = new CheckResult(
                waived,
                check.model(),
                check.engine(),
                check.verdict(),
                check.verdictLine(),
                check.phases(),
                check.purge(),
                check.price(),
                check.findings(),
                check.cautions());
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        new Report(ReportInput.of(with), UnitSystem.SI, "A4", "test", 0L).write(Report.Form.MARKDOWN, out);

        assertThat(out.toString(StandardCharsets.UTF_8))
                .contains("| " + id.replace(":", ": ") + " | "
                        + check.findings().get(0).verdict().word() + " | A. Reviewer | 2026-02-03 | tested cold |");
    }

    @Test
    void aSpreadNamesTheKindOfADistributionAndLeavesItsNumbersToTheInputs() {
        assertThat(StudyBlocks.kind("stack of 2 dimensions, 1.9e-05 to 3.1e-05"))
                .isEqualTo("stack of 2 dimensions");
        assertThat(StudyBlocks.kind("normal, mean 3.5e-05, sigma 2e-06")).isEqualTo("normal");
        assertThat(StudyBlocks.kind("uniform -6.5e-05 to 7.5e-05")).isEqualTo("uniform");
        assertThat(StudyBlocks.kind("model form: low 0.25, nominal 0.5, high 0.25"))
                .isEqualTo("model form");
    }

    @Test
    void inUsUnitsASmallFlowKeepsItsDigitsAndATemperatureChangesInItsOwnUnit() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        new Report(ReportInput.of(check).with(Comparison.of(before, check)), UnitSystem.US, "letter", "test", 0L)
                .write(Report.Form.CSV, out);
        String csv = out.toString(StandardCharsets.UTF_8);

        assertThat(csv)
                .containsPattern("ring A,barrier → oxygen drain,0\\.00\\d{4},")
                .containsPattern(",temperature,.* degF,'?[-+][\\d.]+ degF")
                .doesNotContainPattern("temperature,.* K\\b");
    }

    @Test
    void whatHoldsIsGovernedByTheFindingNearestToItsLimitNotByAFixedMargin() {
        // The example with what is thin in it left out.
        CheckResult holds = new CheckResult(
                before.document(),
                before.model(),
                before.engine(),
                Verdict.HOLDS,
                before.verdictLine(),
                before.phases(),
                before.purge(),
                before.price(),
                before.findings().stream()
                        .filter(f -> f.verdict() == Verdict.HOLDS)
                        .toList(),
                before.cautions());
        assertThat(holds.governing()).hasValueSatisfying(f -> assertThat(CheckResult.tellsNearness(f))
                .isTrue());
        assertThat(holds.findings().stream()
                        .filter(CheckResult::tellsNearness)
                        .mapToDouble(f -> f.margin())
                        .min())
                .hasValue(holds.governing().orElseThrow().margin());
    }
}
