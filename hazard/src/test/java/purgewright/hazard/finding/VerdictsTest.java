package purgewright.hazard.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class VerdictsTest {
    private static Finding of(Verdict v, int n) {
        return Draft.of("k" + n, "/x", Scene.of("steady")).as(v);
    }

    @Test
    void precedenceIsFallsShortNotConvergedNotEstablishedThinHolds() {
        List<Finding> all = new ArrayList<>();
        for (int i = Verdict.values().length - 1; i >= 0; i--) {
            all.add(of(Verdict.values()[i], i));
            assertThat(Verdicts.of(all)).isEqualTo(Verdict.values()[i]);
        }
        assertThat(Verdict.values())
                .containsExactly(
                        Verdict.FALLS_SHORT,
                        Verdict.NOT_CONVERGED,
                        Verdict.NOT_ESTABLISHED,
                        Verdict.THIN,
                        Verdict.HOLDS);
    }

    @Test
    void theLineNamesEveryKindThatOccurs() {
        List<Finding> all = List.of(
                of(Verdict.THIN, 1), of(Verdict.NOT_ESTABLISHED, 2), of(Verdict.FALLS_SHORT, 3), of(Verdict.HOLDS, 4));
        assertThat(Verdicts.line(all, false))
                .isEqualTo("falls short: 1 falls short, 1 not established, 1 thin; faults not examined");
        assertThat(Verdicts.line(List.of(of(Verdict.HOLDS, 1)), true)).isEqualTo("holds: 1 holds");
    }

    @Test
    void theLineSaysHowManySomebodyHasAcceptedAndTheVerdictStands() {
        List<Finding> all = List.of(
                of(Verdict.FALLS_SHORT, 1).withWaiver(new Waiver("A", "2026-03-14", "tested")),
                of(Verdict.FALLS_SHORT, 2),
                of(Verdict.THIN, 3));
        assertThat(Verdicts.of(all)).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(Verdicts.line(all, true)).isEqualTo("falls short: 2 falls short (1 waived), 1 thin");
    }

    @Test
    void nothingJudgedIsNeverHolds() {
        assertThat(Verdicts.of(List.of())).isEqualTo(Verdict.NOT_ESTABLISHED);
    }

    @Property(tries = 50, seed = "20261126")
    void theOrderOfFindingsDoesNotMatter(@ForAll long seed) {
        Random random = new Random(seed);
        List<Finding> all = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            all.add(Draft.of("k" + i, "/x", Scene.of("steady")).atLeast(random.nextDouble(), 0.5));
        }
        List<Finding> shuffled = new ArrayList<>(all);
        Collections.shuffle(shuffled, random);
        assertThat(Verdicts.sorted(shuffled)).isEqualTo(Verdicts.sorted(all));
        assertThat(Verdicts.line(shuffled, true)).isEqualTo(Verdicts.line(all, true));
    }

    @Test
    void aMarginBelowAQuarterIsThinAndNaNIsNotEstablished() {
        Draft d = Draft.of("k", "/x", Scene.of("steady"));
        assertThat(d.atLeast(1.24, 1).verdict()).isEqualTo(Verdict.THIN);
        assertThat(d.atLeast(1.26, 1).verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(d.atMost(1.01, 1).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(d.atLeast(Double.NaN, 1).verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(d.above0(0, 1).verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    /** What is the same in each phase is no property of the one that comes first in the alphabet. */
    @Test
    void aTieIsShownInTheCasesOrderOfPhases() {
        List<String> phases = List.of("pre-purge", "steady", "abort");
        List<Finding> all = new ArrayList<>();
        for (String place : List.of("/b", "/a")) {
            for (String phase : List.of("abort", "steady", "pre-purge")) {
                all.add(Draft.of("k", place, Scene.of(phase)).atLeast(1.6 + 1e-9 * phase.length(), 1));
            }
        }
        all.add(Draft.of("k", "/c", Scene.of("abort")).atLeast(1.3, 1));
        all.add(Draft.of("k", "/c", Scene.of("steady")).atLeast(1.4, 1));
        List<Finding> sorted = Verdicts.sorted(all, phases);
        assertThat(sorted.stream().map(f -> f.where() + " " + f.phase()))
                .containsExactly(
                        "/c abort",
                        "/c steady",
                        "/a pre-purge",
                        "/a steady",
                        "/a abort",
                        "/b pre-purge",
                        "/b steady",
                        "/b abort");
        Collections.shuffle(all, new Random(1));
        assertThat(Verdicts.sorted(all, phases)).isEqualTo(sorted);
        assertThat(Verdicts.tied(sorted.subList(0, 2))).containsExactly(sorted.get(0));
        assertThat(Verdicts.tied(sorted.subList(2, 5))).hasSize(3);
    }
}
