package purgewright.hazard.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName(
        "From a value and its limit to a margin and a word: on the line, on both sides of it, and without a number")
class DraftTest {
    private static final Draft PLAIN = Draft.of("key", "/passages/ring A", Scene.of("steady"));

    private static Draft full(Scene scene) {
        return Draft.of("key", "/passages/ring A", scene)
                .what("what")
                .unit("Pa")
                .how("how")
                .source("source")
                .mend("mend")
                .caution("caution");
    }

    @ParameterizedTest
    @CsvSource({
        "-1e-300, FALLS_SHORT",
        "-0.0, THIN",
        "0, THIN",
        "0.2499999, THIN",
        "0.25, HOLDS",
        "Infinity, HOLDS",
        "-Infinity, FALLS_SHORT",
        "NaN, NOT_ESTABLISHED"
    })
    void theWordOfAMargin(double margin, Verdict verdict) {
        assertThat(Draft.verdict(margin)).isEqualTo(verdict);
        assertThat(PLAIN.judged(3, 2, margin).verdict()).isEqualTo(verdict);
        assertThat(PLAIN.judged(3, 2, margin).margin()).isEqualTo(Double.valueOf(margin));
    }

    @Test
    void marginsAreRelativeToTheLimitOnBothKinds() {
        assertThat(PLAIN.atLeast(3, 2).margin()).isCloseTo(0.5, within(1e-15));
        assertThat(PLAIN.atLeast(1, 2).margin()).isCloseTo(-0.5, within(1e-15));
        assertThat(PLAIN.atMost(3, 2).margin()).isCloseTo(-0.5, within(1e-15));
        assertThat(PLAIN.atMost(1, 2).margin()).isCloseTo(0.5, within(1e-15));
        Finding f = PLAIN.atMost(1, 2);
        assertThat(f.value()).isEqualTo(1);
        assertThat(f.limit()).isEqualTo(2);
    }

    @ParameterizedTest
    @CsvSource({
        "1, 4, 0.25, HOLDS",
        "0.9, 4, 0.225, THIN",
        "8, 4, 1, HOLDS",
        "-1, 4, -0.25, FALLS_SHORT",
        "-8, 4, -1, FALLS_SHORT",
        "NaN, 4, NaN, NOT_ESTABLISHED"
    })
    void aboveZeroIsMeasuredByItsBandAndHeldBetweenMinusOneAndOne(
            double value, double band, double margin, Verdict verdict) {
        Finding f = PLAIN.above0(value, band);
        assertThat(f.margin()).isEqualTo(Double.valueOf(margin));
        assertThat(f.verdict()).isEqualTo(verdict);
        assertThat(f.limit()).isZero();
    }

    @Test
    void exactlyZeroFallsShortThoughItsMarginIsHardlyBelowZero() {
        assertThat(PLAIN.above0(0, 1).margin()).isEqualTo(-Double.MIN_NORMAL);
        assertThat(PLAIN.above0(-0.0, 1).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(PLAIN.above0(Double.MIN_VALUE, 1).verdict()).isEqualTo(Verdict.THIN);
    }

    @Test
    void everythingSaidIsInTheFindingAndWhatHoldsNeedsNoMending() {
        Finding f = full(Scene.of("start")).atLeast(1, 2);
        assertThat(f)
                .isEqualTo(new Finding(
                        "key:ring A:start",
                        Verdict.FALLS_SHORT,
                        "what",
                        "/passages/ring A",
                        "start",
                        Scene.AS_STATED,
                        1,
                        2,
                        -0.5,
                        "Pa",
                        "how",
                        "source",
                        "mend",
                        "caution"));
        assertThat(full(Scene.of("start")).atLeast(2.1, 2).mend()).as("thin").isEqualTo("mend");
        assertThat(full(Scene.of("start")).atLeast(4, 2).mend()).as("holds").isEmpty();
        assertThat(PLAIN.atLeast(1, 2).unit()).isEqualTo("1");
        Finding plain = PLAIN.as(Verdict.THIN);
        assertThat(plain.value()).isNaN();
        assertThat(plain.limit()).isNaN();
        assertThat(plain.margin()).isNaN();
        assertThat(plain.verdict()).isEqualTo(Verdict.THIN);
    }

    @Test
    void theIdNamesKeyPlacePartPhaseAndFault() {
        assertThat(full(Scene.of("p")).as(Verdict.HOLDS).id()).isEqualTo("key:ring A:p");
        assertThat(full(Scene.of("p")).part("x").as(Verdict.HOLDS).id()).isEqualTo("key:ring A:x:p");
        Scene failed = new Scene("p", "drain blocked");
        assertThat(full(failed).as(Verdict.HOLDS).id()).isEqualTo("key:ring A:p:drain blocked");
        assertThat(full(failed).part("x").as(Verdict.HOLDS).id()).isEqualTo("key:ring A:x:p:drain blocked");
        assertThat(full(failed).as(Verdict.HOLDS).scenario()).isEqualTo("drain blocked");
        assertThat(Draft.of("k", "no slash", Scene.of("p")).as(Verdict.HOLDS).id())
                .isEqualTo("k:no slash:p");
        assertThat(Scene.of("p").asStated()).isTrue();
        assertThat(failed.asStated()).isFalse();
    }

    @Test
    void aFindingChangesOneThingAtATime() {
        Finding f = full(Scene.of("p")).atLeast(1, 2);
        assertThat(f.withCaution("other").caution()).isEqualTo("other");
        assertThat(f.withAnother("more").caution()).isEqualTo("caution; more");
        assertThat(f.withCaution("").withAnother("more").caution()).isEqualTo("more");
        Finding word = f.withVerdict(Verdict.THIN, "why");
        assertThat(word.verdict()).isEqualTo(Verdict.THIN);
        assertThat(word.caution()).isEqualTo("caution; why");
        assertThat(word.margin()).isEqualTo(f.margin());
        Evidence.State state = new Evidence.State("/cavities/x", "pressure", 1, "Pa");
        Evidence e = new Evidence(List.of(state), List.of("model"), "engine", "closed", null, null, List.of());
        assertThat(f.evidence()).isSameAs(Evidence.NONE);
        assertThat(f.withEvidence(e).evidence()).isSameAs(e);
        assertThat(f.withEvidence(e).withCaution("x").evidence()).isSameAs(e);
    }

    @Test
    void evidenceIsCopiedAndChangesOneThingAtATime() {
        List<Evidence.State> states = new ArrayList<>(List.of(new Evidence.State("/cavities/x", "pressure", 1, "Pa")));
        List<Evidence.Flip> flips = new ArrayList<>(List.of(new Evidence.Flip("/rotor/speed", 1, 0.1)));
        Evidence e = new Evidence(states, List.of("model"), "engine", "closed", null, null, flips);
        states.clear();
        flips.clear();
        assertThat(e.states()).hasSize(1);
        assertThat(e.flips()).hasSize(1);
        Evidence.Ends hurt = new Evidence.Ends(1, -1, Verdict.FALLS_SHORT);
        Evidence.Ends help = new Evidence.Ends(2, 1, Verdict.HOLDS);
        assertThat(e.withEnds(hurt, help))
                .isEqualTo(new Evidence(e.states(), List.of("model"), "engine", "closed", hurt, help, e.flips()));
        assertThat(e.withFlips(List.of()).flips()).isEmpty();
        assertThat(e.withEnds(hurt, help).withFlips(List.of()).adverse()).isSameAs(hurt);
    }

    @ParameterizedTest
    @CsvSource({
        "FALLS_SHORT, falls short, 1",
        "NOT_CONVERGED, not converged, 3",
        "NOT_ESTABLISHED, not established, 4",
        "THIN, thin, 0",
        "HOLDS, holds, 0"
    })
    void wordsAndExitCodesAreThoseOfTheManual(Verdict v, String word, int code) {
        assertThat(v.word()).isEqualTo(word);
        assertThat(v.exitCode()).isEqualTo(code);
    }

    @Test
    void worstIsFirstAndAmongEqualsTheSmallestMarginAndThenTheName() {
        Finding a = Draft.of("a", "/x", Scene.of("p")).judged(1, 1, -0.5);
        Finding b = Draft.of("b", "/x", Scene.of("p")).judged(1, 1, -0.1);
        Finding none = Draft.of("0", "/x", Scene.of("p")).as(Verdict.FALLS_SHORT);
        Finding same = Draft.of("c", "/x", Scene.of("p")).judged(1, 1, -0.1);
        Finding good = Draft.of("0", "/x", Scene.of("p")).judged(1, 1, 3);
        assertThat(Verdicts.sorted(List.of(good, same, none, b, a))).containsExactly(a, b, same, none, good);
        assertThat(Verdicts.line(List.of(), false))
                .isEqualTo("not established: nothing was judged; faults not examined");
        assertThat(Verdicts.line(List.of(a, b, good), true)).isEqualTo("falls short: 2 falls short");
        assertThat(Cautions.ALWAYS).hasSize(3);
    }
}
