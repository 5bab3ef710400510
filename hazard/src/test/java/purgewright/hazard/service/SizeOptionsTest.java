package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.sizing.DesignSearch;
import purgewright.hazard.sizing.Objective;
import purgewright.hazard.sizing.SizeResult;
import purgewright.sealflow.casefile.CaseDocument;

/** Each thing that sizing may release and each objective, against what the ordinary check says of the neighbours. */
@DisplayName("What sizing may release: orifice, drain, clearance, number of rings; three objectives")
class SizeOptionsTest {
    private static final CaseService SERVICE = new CaseService(Engines.embedded(), 2);
    private static final String PANEL = "/cavities/bottle line/pressure";

    @AfterAll
    static void close() {
        SERVICE.close();
    }

    private static CaseDocument minimal() throws IOException {
        return CaseDocument.parse(Files.readString(Path.of("..", "samples", "cases", "minimal.json")));
    }

    private static SizeSettings quick(String place, double low, double high) {
        return SizeSettings.DEFAULT
                .withParameter(place, low, high)
                .withScenarios(false, false)
                .withWear(false)
                .withReleases(false)
                .withSearch(new DesignSearch.Settings(4, 2e-3, 12));
    }

    private static SizeResult size(CaseDocument document, SizeSettings settings) {
        return SERVICE.size(document, settings, Progress.NONE);
    }

    /** The check of the case as it would be typed. */
    private static CheckResult check(CaseDocument document, String place, String text) {
        return SERVICE.check(document.with(place, text), CheckSettings.DEFAULT, Progress.NONE);
    }

    private static boolean met(CaseDocument document, String place, String text) {
        return check(document, place, text).verdict().compareTo(Verdict.THIN) >= 0;
    }

    @Test
    void anyOrificeIsAsSmallAsItMayBe() throws IOException {
        CaseDocument document = minimal();
        String place = "/passages/metering/diameter";
        SizeResult r = size(document, quick(place, 0.2e-3, 1.8e-3));
        double least = r.design().get(0).value();
        assertThat(least).isBetween(0.22e-3, 1.7e-3);
        assertThat(met(document, place, least * 1e3 + " mm")).isTrue();
        assertThat(met(document, place, 0.98 * least * 1e3 + " mm")).isFalse();
        assertThat(r.value())
                .isCloseTo(check(document, place, least * 1e3 + " mm").purge().flow(), within(2e-4 * r.value()));
    }

    /** A tighter ring saves gas until its least clearance in running is lost: that governs, not the pressure. */
    @Test
    void aClearanceGoesDownToWhereTheRunningGapIsLost() throws IOException {
        CaseDocument document = minimal();
        String place = "/passages/ring A/clearance";
        SizeResult r = size(document, quick(place, 6e-6, 60e-6));
        double least = r.design().get(0).value();
        assertThat(r.governs().governing()).isEqualTo("least-clearance");
        assertThat(met(document, place, least * 1e6 + " um")).isTrue();
        assertThat(met(document, place, 0.98 * least * 1e6 + " um")).isFalse();
        assertThat(r.value())
                .isLessThan(check(document, place, 1.3 * least * 1e6 + " um")
                        .purge()
                        .flow());
    }

    @Test
    void ringsComeInWholeNumbersAndMoreOfThemSaveGas() throws IOException {
        CaseDocument document = minimal().withJson("/passages/ring A/rings", "1");
        SizeResult r = size(document, quick("/passages/ring A/rings", 1, 4));
        assertThat(r.design().get(0).variable().choices()).containsExactly(1.0, 2.0, 3.0, 4.0);
        double best = Double.POSITIVE_INFINITY;
        double of = 0;
        for (int n = 1; n <= 4; n++) {
            CheckResult c = check(document, "/passages/ring A/rings", Integer.toString(n));
            if (c.verdict().compareTo(Verdict.THIN) >= 0 && c.purge().flow() < best) {
                best = c.purge().flow();
                of = n;
            }
        }
        assertThat(r.design().get(0).value()).isEqualTo(of);
        assertThat(r.value()).isCloseTo(best, within(2e-4 * best));
    }

    /** Lower drains want a lower barrier: the widest drain gives the least set pressure, and no point of a grid has a lower one. */
    @Tag("long")
    @Test
    void aDrainAndThePressureTogetherForTheLeastSetPressure() throws IOException {
        CaseDocument document = minimal();
        String drain = "/passages/oxygen drain line/diameter";
        SizeResult r = size(
                document,
                quick(PANEL, 0.15e6, 3.5e6)
                        .with(new SizeSettings.Free(drain, 10e-3, 20e-3, ""))
                        .withObjective(Objective.SET_PRESSURE));
        assertThat(r.feasible()).as(r.line()).isTrue();
        assertThat(r.value()).isEqualTo(r.design().get(0).value());
        for (double mm : new double[] {12, 16, 20}) {
            CaseDocument wide = document.with(drain, mm + " mm");
            String below = 0.985 * r.value() / 1e6 + " MPa";
            assertThat(met(wide, PANEL, below)).as("%s mm at %s", mm, below).isFalse();
        }
    }

    /** Two phases of 10 s and 30 s: the gas of a run is the flows times the durations, and least where the flow of both is. */
    @Tag("long")
    @Test
    void theGasOfARunIsTheSumOverThePhases() throws IOException {
        CaseDocument document = CaseDocument.parse(
                Files.readString(Path.of("..", "samples", "cases", "minimal.json"))
                        .replace(
                                "\"purgewright\": 1,",
                                "\"purgewright\": 1, \"duty\": [{\"name\": \"low\", \"duration\": \"10 s\", \"set\":"
                                        + " {\"/cavities/disc cavity/pressure\": \"1 MPa\"}}, {\"name\": \"full\", \"duration\": \"30 s\"}],"));
        SizeResult r = size(document, quick(PANEL, 0.2e6, 3.5e6).withObjective(Objective.GAS_PER_RUN));
        double set = r.design().get(0).value();
        CheckResult c = check(document, PANEL, set / 1e6 + " MPa");
        double sum = 10 * c.purge().flowByPhase().get("low")
                + 30 * c.purge().flowByPhase().get("full");
        assertThat(r.value()).isCloseTo(sum, within(3e-4 * sum));
        assertThat(met(document, PANEL, set / 1e6 + " MPa")).isTrue();
        assertThat(met(document, PANEL, 0.985 * set / 1e6 + " MPa")).isFalse();
    }
}
