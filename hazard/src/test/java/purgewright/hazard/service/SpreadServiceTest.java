package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.studies.SpreadResult;
import purgewright.hazard.studies.SpreadResult.Counts;
import purgewright.hazard.studies.SpreadResult.Probability;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SpreadSettings.Part;
import purgewright.hazard.studies.SpreadSettings.Studies;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

class SpreadServiceTest {
    private static final CaseDocument MINIMAL = CaseDocument.read(Path.of("../samples/cases/minimal.json"));

    private static final CaseDocument UNCERTAIN = MINIMAL.withJson(
            "/uncertain",
            "{\"/passages/ring A/clearance\": {\"distribution\": \"normal\", \"mean\": \"25 um\", \"sigma\": \"3 um\"},"
                    + " \"/cavities/bottle line/pressure\": {\"distribution\": \"uniform\", \"low\": \"3.2 MPa\", \"high\": \"3.7 MPa\"},"
                    + " \"/passages/oxygen seal/radius\": {\"distribution\": \"uniform\", \"low\": \"25.9 mm\", \"high\": \"26.1 mm\"},"
                    + " \"/passages/hot seal\": {\"distribution\": \"model form\"}}");

    private static final SpreadSettings FEW =
            SpreadSettings.DEFAULT.withSamples(24).withStudies(Studies.NONE);

    private static SpreadResult run(CaseDocument document, SpreadSettings settings, int threads) {
        try (CaseService service = new CaseService(Engines.embedded(), threads)) {
            return new SpreadService(service).run(document, settings, Progress.NONE);
        }
    }

    /** Arrays compare by what they are, not by what is in them: everything but the samples kept. */
    private static List<Object> parts(SpreadResult r) {
        List<Object> all = new ArrayList<>(List.of(
                r.identity(),
                r.inputs(),
                r.counts(),
                r.holds(),
                r.criteria(),
                r.outputs(),
                r.ranks(),
                r.verdictLine()));
        r.kept().outputs().forEach(o -> all.add(SpreadService.list(o)));
        return all;
    }

    @Test
    void threadsHaveNoSayAndPartsAreTheWhole() {
        SpreadResult one = run(UNCERTAIN, FEW, 1);
        assertThat(parts(run(UNCERTAIN, FEW, 3))).isEqualTo(parts(one));
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            SpreadService spread = new SpreadService(service);
            List<SpreadPart> all = new ArrayList<>();
            for (int k : new int[] {3, 1, 2}) {
                all.add(spread.part(UNCERTAIN, FEW.withPart(new Part(k, 3)), Progress.NONE));
            }
            assertThat(parts(spread.merge(all, Progress.NONE))).isEqualTo(parts(one));
            assertThatThrownBy(() -> spread.merge(all.subList(0, 2), Progress.NONE))
                    .isInstanceOf(CaseException.class)
                    .hasMessageContaining("missing");
            assertThatThrownBy(() -> spread.merge(List.of(all.get(0), all.get(0)), Progress.NONE))
                    .hasMessageContaining("twice");
        }
        assertThat(one.counts().done()).isEqualTo(24);
        assertThat(one.counts().good()).isEqualTo(24);
        assertThat(one.verdict()).isNull();
    }

    @Test
    void drawsRoundAnotherValueThanTheStatedOneEstablishNothing() {
        CaseDocument worn = MINIMAL.with("/passages/ring A/clearance", "0.2 mm")
                .withJson(
                        "/uncertain",
                        "{\"/passages/ring A/clearance\": {\"distribution\": \"uniform\", \"low\": \"23 um\", \"high\": \"27 um\"}}");
        SpreadResult r = run(worn, SpreadSettings.DEFAULT.withSamples(8).withStudies(Studies.NONE), 2);
        assertThat(r.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(r.verdictLine())
                .startsWith(
                        "not established: the value stated for /passages/ring A/clearance lies outside its own distribution")
                .contains("as stated: falls short");
        SpreadResult inside = run(
                worn.with("/passages/ring A/clearance", "26.95 um"),
                SpreadSettings.DEFAULT.withSamples(8).withStudies(Studies.NONE),
                2);
        assertThat(inside.verdict()).isNull();
        assertThat(inside.verdictLine()).startsWith("8 of 8 draws hold; at least 0.67 with 95 % confidence");
        assertThat(inside.remarks()).anyMatch(m -> m.endsWith("outside the middle 90 % of its own distribution"));
    }

    @Test
    void countsAreSaidWithTheirBoundRoundedOutwards() {
        assertThat(words(50, 50)).isEqualTo("50 of 50 draws hold; at least 0.928 with 95 % confidence");
        // Wilson for 48 of 50: 0.8654 to 0.98896.
        assertThat(words(50, 48)).isEqualTo("48 of 50 draws hold; 0.86 to 0.989 with 95 % confidence");
        assertThat(words(50, 0)).isEqualTo("0 of 50 draws hold; at most 0.072 with 95 % confidence");
        assertThat(words(0, 0)).isEqualTo("no draw was done");
        assertThat(purgewright.hazard.studies.Intervals.atLeast(0.999987)).isEqualTo("0.999987");
        assertThat(purgewright.hazard.studies.Intervals.atLeast(0)).isEqualTo("0");
        assertThat(purgewright.hazard.studies.Intervals.atMost(1)).isEqualTo("1");
    }

    private static String words(long done, long good) {
        return purgewright.hazard.studies.Intervals.words(
                done,
                good,
                purgewright.hazard.studies.Intervals.probability(
                        SpreadSettings.DEFAULT.interval(), done, good, 0, 0.95),
                0.95);
    }

    @Test
    void aValueSetInTheModelIsTheValueReadFromTheText() {
        for (String place : List.of(
                "/passages/ring A/clearance",
                "/cavities/disc cavity/temperature",
                "/passages/metering/diameter",
                "/passages/hot seal/pitch",
                "/rotor/speed")) {
            double nominal = purgewright.fluids.unit.Units.parse(
                    MINIMAL.text(place).orElseThrow(),
                    MINIMAL.range(place).orElseThrow().dimension());
            try (CaseService service = new CaseService(Engines.embedded(), 1)) {
                var range = MINIMAL.range(place).orElseThrow();
                var sweep = new SpreadService(service)
                        .sweep(
                                MINIMAL,
                                new SweepSettings(
                                        List.of(new SweepSettings.Axis(place, 0.97 * nominal, 1.02 * nominal, 2)),
                                        List.of(),
                                        List.of("/cavities/barrier/pressure", "/cavities/hot drain/temperature")),
                                Progress.NONE);
                double value = sweep.points().get(1).at().get(0);
                CaseDocument typed =
                        MINIMAL.with(place, value + " " + range.dimension().si());
                CheckResult check = service.check(typed, CheckSettings.DEFAULT, Progress.NONE);
                var solved = (purgewright.sealflow.network.SolveResult.Converged)
                        check.phases().get(0).solve();
                assertThat(sweep.points().get(1).outputs().get(0))
                        .as(place)
                        .isCloseTo(solved.cavities().get("barrier").state().pressure(), within(1e-2));
                assertThat(sweep.points().get(1).verdict()).isEqualTo(check.verdict());
            }
        }
    }

    @Test
    void aCancelGivesWhatIsDoneSoFar() {
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            Thread here = Thread.currentThread();
            SpreadResult partial = new SpreadService(service).run(UNCERTAIN, FEW.withSamples(400), (share, what) -> {
                if (share > 0 && share < 1) {
                    here.interrupt();
                }
            });
            assertThat(Thread.interrupted()).isFalse();
            assertThat(partial.complete()).isFalse();
            assertThat(partial.counts().done()).isEqualTo(256);
            assertThat(partial.stopped()).contains("cancelled");
        }
    }

    @Test
    void aClearanceThatWouldFallBelowZeroIsCutAndSaidSo() {
        CaseDocument wide = MINIMAL.withJson(
                "/uncertain",
                "{\"/passages/ring A/clearance\": {\"distribution\": \"normal\", \"mean\": \"25 um\", \"sigma\": \"40 um\"}}");
        SpreadResult r = run(wide, FEW.withSamples(4), 1);
        assertThat(r.inputs().get(0).cut()).isCloseTo(0.266, within(1e-3));
        assertThat(r.remarks()).anyMatch(m -> m.contains("26.6 %") && m.contains("cut away"));
        assertThat(r.kept().inputs()).allMatch(x -> x[0] > 0);
    }

    private static void refused(String section, String json, Consumer<String> message) {
        assertThatThrownBy(() ->
                        run((section.isEmpty() ? MINIMAL : UNCERTAIN.withJson(section, json)), FEW.withSamples(1), 1))
                .isInstanceOfSatisfying(
                        CaseException.class,
                        e -> message.accept(e.problems().get(0).place() + " "
                                + e.problems().get(0).message() + " "
                                + e.problems().get(0).suggestion()));
    }

    @Test
    void whatMakesNoSenseIsNamedWithWhatWouldBeRight() {
        refused("", "", m -> assertThat(m)
                .contains("no value that is uncertain")
                .contains("for instance"));
        refused(
                "/uncertain/~1passages~1ring A~1clearence",
                "{\"distribution\": \"uniform\", \"low\": \"1 um\", \"high\": \"2 um\"}",
                m -> assertThat(m).contains("no place").contains("clearance"));
        refused(
                "/correlations",
                "[{\"between\": [\"/passages/ring A/clearance\", \"/cavities/bottle line/pressure\"], \"coefficient\": 0.9},"
                        + " {\"between\": [\"/passages/ring A/clearance\", \"/passages/oxygen seal/radius\"], \"coefficient\": 0.9},"
                        + " {\"between\": [\"/cavities/bottle line/pressure\", \"/passages/oxygen seal/radius\"], \"coefficient\": -0.9}]",
                m -> assertThat(m).contains("not positive definite").contains("the nearest that is possible"));
        assertThatThrownBy(() -> FEW.withSamples(0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> run(UNCERTAIN, FEW.withScope(List.of(), List.of("/cavities/barier/pressure")), 1))
                .isInstanceOfSatisfying(
                        CaseException.class,
                        e -> assertThat(e.problems().get(0).suggestion()).contains("barrier"));
    }

    @Test
    void whatIsNotKnownNeverCountsAsHolding() {
        Counts half = new Counts(100, 90, 0, 0, 10, 0);
        Probability p = purgewright.hazard.studies.Intervals.probability(
                SpreadSettings.Interval.WILSON, 100, half.good(), half.unknown(), 0.95);
        assertThat(p.estimate()).isEqualTo(0.9);
        assertThat(SpreadService.verdict(0.97, half, p, null)).isEqualTo(Verdict.NOT_CONVERGED);
        assertThat(SpreadService.verdict(0.8, half, p, null)).isEqualTo(Verdict.HOLDS);
        Counts bad = new Counts(100, 50, 0, 50, 0, 0);
        Probability q = purgewright.hazard.studies.Intervals.probability(
                SpreadSettings.Interval.WILSON, 100, bad.good(), 0, 0.95);
        assertThat(SpreadService.verdict(0.97, bad, q, null)).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(SpreadService.verdict(0.5, bad, q, null)).isEqualTo(Verdict.NOT_ESTABLISHED);
    }
}
