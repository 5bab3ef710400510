package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.Reason;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.Conditions;

/**
 * The samples, a phase of their duty or the case as stated, after one to four edits at random: a clearance, diameter or length up to five
 * times smaller or larger, a boundary's pressure or temperature, an orifice more, a passage less; at either end of the models' bands or
 * between. The draws are invented.
 */
@DisplayName("A sample edited at random is solved, or refused with what is wrong with it")
class EditedSamplesTest {
    private static final List<String> SAMPLES = List.of(
            "minimal",
            "nitrogen-compressor",
            "shared-rotor-hub-fed",
            "shared-rotor-kerosene",
            "shared-rotor-lox",
            "spaced-lox-methane",
            "falls-short");

    /** Refusals that say what no solver could mend. */
    private static final Set<Reason> PROVEN =
            EnumSet.of(Reason.BEYOND_RANGE, Reason.ISOLATED_CAVITY, Reason.BAD_GEOMETRY);

    /** So many draws as a share of 20,000. */
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));

    private record Draw(String what, CaseDocument document, Conditions.Bound bound) {
        SolveResult solve() {
            SolverSettings settings = SolverSettings.DEFAULT.withBounds(bound, Map.of());
            return new NetworkSolver(Engines.embedded(), settings).solve(document.toCase(), null);
        }
    }

    private static double log(Random random, double low, double high) {
        return Math.exp(Math.log(low) + random.nextDouble() * Math.log(high / low));
    }

    /** An edited sample; the same for the same seed; null where the edits do not apply. */
    private static Draw draw(long seed) {
        Random random = new Random(seed * 7919 + 13);
        String name = SAMPLES.get(random.nextInt(SAMPLES.size()));
        StringBuilder what = new StringBuilder(seed + ": " + name);
        CaseDocument document = CaseDocument.read(Path.of("cases", name + ".json"));
        List<DutyPhase> duty = document.toCase().duty();
        DutyPhase phase = duty.isEmpty() || random.nextInt(3) == 0 ? null : duty.get(random.nextInt(duty.size()));
        if (phase != null) {
            what.append(" in ").append(phase.name());
            document = document.with(phase);
        }
        int edits = 1 + random.nextInt(4);
        try {
            for (int i = 0; i < edits; i++) {
                document = edit(document, i, random, what);
            }
            Conditions.Bound bound = Conditions.Bound.values()[random.nextInt(3)];
            document.toCase();
            return new Draw(what + "; " + bound, document, bound);
        } catch (CaseException refused) {
            return null;
        }
    }

    private static <T> T one(List<T> of, Random random) {
        return of.get(random.nextInt(of.size()));
    }

    private static CaseDocument edit(CaseDocument document, int number, Random random, StringBuilder what) {
        Case model = document.toCase();
        List<Cavity> boundaries =
                model.cavities().stream().filter(Cavity::fixed).toList();
        int kind = random.nextInt(10);
        if (kind < 4) {
            return resized(document, one(model.passages(), random), random, what);
        }
        if (kind < 7) {
            Cavity at = one(boundaries, random);
            boolean pressure = kind < 6;
            String place = "/cavities/" + at.name() + (pressure ? "/pressure" : "/temperature");
            String value = pressure
                    ? at.pressure() * log(random, 0.1, 3) + " Pa"
                    : at.temperature() * log(random, 0.8, 1.25) + " K";
            what.append("; ").append(place).append(' ').append(value);
            return document.with(place, value);
        }
        if (kind < 9) {
            Cavity from = one(model.cavities(), random);
            Cavity to = one(model.cavities(), random);
            if (from == to) {
                return document;
            }
            double diameter = log(random, 2e-4, 3e-3);
            what.append("; orifice ").append(from.name()).append(" to ").append(to.name() + " " + diameter);
            return document.withJson(
                    "/passages/-",
                    "{\"name\":\"extra " + number + "\",\"from\":\"" + from.name() + "\",\"to\":\"" + to.name()
                            + "\",\"type\":\"orifice\",\"diameter\":\"" + diameter + " m\"}");
        }
        PassageSpec gone = one(model.passages(), random);
        what.append("; without ").append(gone.name());
        return document.without("/passages/" + gone.name());
    }

    private static CaseDocument resized(CaseDocument document, PassageSpec passage, Random random, StringBuilder what) {
        List<String> sizes = new ArrayList<>();
        for (String field : List.of("clearance", "diameter", "length", "gap", "area")) {
            if (document.has("/passages/" + passage.name() + "/" + field)) {
                sizes.add(field);
            }
        }
        if (sizes.isEmpty()) {
            return document;
        }
        String field = one(sizes, random);
        if (!(passage.fields().get(field) instanceof Number size)) {
            return document;
        }
        double value = size.doubleValue() * log(random, 0.2, 5);
        what.append("; ").append(passage.name()).append(' ').append(field + " " + value);
        return document.with(
                "/passages/" + passage.name() + "/" + field, value + ("area".equals(field) ? " m2" : " m"));
    }

    /** 99.9 % of those not refused with a reason, 200 draws by default. */
    @Test
    void oneToFourEditsAtRandom() {
        int draws = (int) (20_000 * SHARE);
        int solved = 0;
        List<String> failed = new ArrayList<>();
        for (long seed = 0; seed < draws; seed++) {
            Draw draw = draw(seed);
            if (draw == null) {
                continue;
            }
            SolveResult result = draw.solve();
            if (result instanceof NotConverged not) {
                assertThat(not.reason()).as(draw.what).isNotNull();
                assertThat(not.detail()).as(draw.what).isNotBlank();
                if (!PROVEN.contains(not.reason())) {
                    failed.add(draw.what + ": " + not.reason() + ", " + not.detail());
                }
            } else {
                solved++;
            }
        }
        assertThat(solved).isGreaterThan(draws * 7 / 10);
        assertThat(failed.size()).as("%s", failed).isLessThanOrEqualTo(solved / 1000);
    }

    /**
     * Those that were not solved while a wet duct's upper bound jumped with the first trace of vapour, or its dv/dh where a component is used up
     * on the way.
     */
    @ParameterizedTest
    @ValueSource(
            longs = {
                729, 1367, 1955, 2021, 3393, 3641, 4497, 4923, 5074, 5301, 6078, 6080, 7294, 7392, 7818, 8059, 9284,
                9810
            })
    void drainsWithATraceOfGasAndBarriersFullOfSpray(long seed) {
        Draw draw = draw(seed);
        assertThat(draw).isNotNull();
        SolveResult result = draw.solve();
        if (result instanceof NotConverged not) {
            assertThat(not.reason()).as(draw.what + ": " + not.detail()).isIn(PROVEN);
        }
    }
}
