package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.unit.UnitSystem;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

@DisplayName("Command and report name one finding as nearest to its limit, and the phases that share it")
class NearestTest {
    private static CheckResult check(String starter) {
        try (CaseService service = new CaseService(Engines.embedded(), 2);
                InputStream in = Report.class.getResourceAsStream("/purgewright/cases/" + starter + ".json")) {
            CaseDocument document = CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            return service.check(document, CheckSettings.DEFAULT, Progress.NONE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String report(CheckResult check) {
        return ReportContent.of(ReportInput.of(check), UnitSystem.SI).stream()
                .map(Object::toString)
                .collect(Collectors.joining("\n"));
    }

    @Test
    void aCountThatIsJustMetIsNotTheMarginToLookAtAndThatIsSaid() {
        CheckResult check = check("spaced-lox-methane");
        Finding governing = check.governing().orElseThrow();
        assertThat(governing.margin()).isGreaterThan(0);
        assertThat(check.findings().get(0).margin()).as("the barriers' count").isEqualTo(0);
        String line = "margin " + Figures.margin(governing.margin());
        String text = CheckText.write(check, null, UnitSystem.SI).replaceAll("\\s+", " ");
        assertThat(text)
                .containsPattern(
                        "Nearest to its limit: [^.]*" + governing.where().substring(10));
        assertThat(text).contains(line, CheckText.LEFT_OUT);
        assertThat(report(check)).contains("Nearest to its limit: ", line, CheckText.LEFT_OUT);
    }

    @Test
    void whatIsTheSameInEachPhaseIsSaidOfAll() {
        CheckResult check = check("spaced-lox-methane");
        String first = check.phases().get(0).name();
        Finding clearance = check.findings().stream()
                .filter(f -> CheckText.criterion(f).equals("least clearance")
                        && f.where().endsWith("/ring A"))
                .findFirst()
                .orElseThrow();
        assertThat(clearance.phase())
                .as("first of the case, not of the alphabet")
                .isEqualTo(first);
        String text = CheckText.write(check, null, UnitSystem.SI);
        assertThat(text).containsPattern("ring A, all phases +least clearance");
        assertThat(text.lines().filter(l -> l.contains(", abort ")).count())
                .isLessThan(
                        text.lines().filter(l -> l.contains(", all phases ")).count());
        String drawn = ReportContent.of(ReportInput.of(check), UnitSystem.SI).stream()
                .filter(b -> b instanceof Block.Drawing)
                .map(b -> ((Block.Drawing) b).caption())
                .findFirst()
                .orElseThrow();
        assertThat(drawn).contains("phase steady");
    }

    /** A caution that is said in one phase alone is not lost because another phase is the one shown. */
    @Test
    void everyCautionOfWhatHoldsIsPrintedWithItsPhases() {
        CheckResult check = check("spaced-lox-methane");
        String text = CheckText.write(check, null, UnitSystem.SI).replaceAll("\\s+", " ");
        String report = report(check);
        for (Finding f : check.findings()) {
            if (!f.caution().isEmpty()) {
                assertThat(text).contains(f.caution());
                assertThat(report).contains(f.caution());
            }
        }
        assertThat(text).containsPattern("caution: oxygen overboard, [^:]*: vents gas richer in oxygen");
    }

    @Test
    void phasesThatShareTheLeastMarginAreCounted() {
        List<Finding> group = new ArrayList<>();
        for (String phase : List.of("fill", "start", "steady")) {
            group.add(Draft.of("k", "/passages/x", Scene.of(phase)).atLeast(1.5, 1));
        }
        assertThat(CheckText.leastPhase(group, 3)).isEqualTo("all phases");
        assertThat(CheckText.leastPhase(group, 5)).isEqualTo("fill and 2 others");
        assertThat(CheckText.leastPhase(group.subList(0, 2), 5)).isEqualTo("fill and 1 other");
        assertThat(CheckText.leastPhase(group.subList(0, 1), 1)).isEqualTo("fill");
        group.set(1, Draft.of("k", "/passages/x", Scene.of("start")).above0(3, 1));
        group.set(0, Draft.of("k", "/passages/x", Scene.of("fill")).above0(2, 1));
        group.set(2, Draft.of("k", "/passages/x", Scene.of("steady")).above0(4, 1));
        assertThat(CheckText.leastPhase(group, 3))
                .as("the value is not that of all")
                .isEqualTo("fill and 2 others");
        group.add(0, Draft.of("k", "/passages/x", Scene.of("abort")).atLeast(1.4, 1));
        assertThat(CheckText.leastPhase(group, 4)).isEqualTo("abort");
        assertThat(group).allMatch(f -> f.verdict() == Verdict.HOLDS);
    }
}
