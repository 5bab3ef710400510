package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.MinimalCase;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.FaultResult.Row;
import purgewright.hazard.fault.Loss;
import purgewright.hazard.finding.Evidence;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;

/** What wear does to margins, what time does after a loss, and what the ends of the bands say, with the real solver. */
class ClearanceLawTest {
    private static double leastMargin(Case model) {
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            CheckResult r = service.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
            return r.findings().stream()
                    .filter(f -> f.id().startsWith(BarrierRules.PRESSURE))
                    .mapToDouble(Finding::margin)
                    .min()
                    .orElseThrow();
        }
    }

    @Property(tries = 6, seed = "20261126")
    void aWiderRingOfTheBarrierNeverRaisesItsLeastMargin(
            @ForAll @DoubleRange(min = 15, max = 60) double ringA,
            @ForAll @DoubleRange(min = 15, max = 60) double ringB,
            @ForAll @DoubleRange(min = 1.05, max = 2) double wider) {
        double before = leastMargin(MinimalCase.model(3.5e6, 1.8e-3, 1e-6 * ringA, 1e-6 * ringB));
        double after = leastMargin(MinimalCase.model(3.5e6, 1.8e-3, 1e-6 * wider * ringA, 1e-6 * ringB));
        assertThat(after).isLessThan(before + 1e-9);
    }

    @Test
    void theReceiverBehindTheCheckValveHoldsLongerThanTheBarrierAloneAndNeitherLongEnough() {
        Case model = MinimalCase.model();
        List<String> only = List.of("plugged or shut: check valve", "plugged or shut: metering");
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            FaultResult r = service.fail(
                    Edit.onlyFaults(model, only),
                    Map.of(CaseService.STEADY, model),
                    (phase, set) -> model,
                    FailSettings.DEFAULT,
                    Progress.NONE);
            Loss receiver = row(r, only.get(0)).fastest();
            Loss bare = row(r, only.get(1)).fastest();
            for (Loss loss : List.of(receiver, bare)) {
                assertThat(loss.method()).as(loss.toString()).isEqualTo(Loss.Method.RUN);
                assertThat(loss.mixing()).isGreaterThan(loss.seconds());
                assertThat(loss.seenAfter()).isLessThan(loss.seconds());
                assertThat(loss.inTime()).isFalse();
            }
            // 20 cm3 empty in about 10 ms [design], 0.5 l in tenths of a second.
            assertThat(bare.seconds()).isBetween(2e-3, 30e-3);
            assertThat(receiver.seconds()).isBetween(0.2, 1.5);
            // Stored gas above the neighbour's pressure over the first flow is a lower bound of the time until mixing.
            FaultResult bound = service.fail(
                    Edit.onlyFaults(model, only),
                    Map.of(CaseService.STEADY, model),
                    (phase, set) -> model,
                    FailSettings.DEFAULT.withTimes(false),
                    Progress.NONE);
            Loss stored = row(bound, only.get(0)).fastest();
            assertThat(stored.method()).isEqualTo(Loss.Method.BOUND);
            assertThat(stored.seconds()).isPositive().isLessThan(receiver.mixing());
            assertThat(row(r, only.get(0)).weakestPath())
                    .startsWith("impeller back face")
                    .endsWith("disc cavity");
        }
    }

    private static Row row(FaultResult r, String scenario) {
        return r.rows().stream()
                .filter(x -> x.scenario().equals(scenario))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aMarginThatTheAdverseEndsTakeAwayIsThinAndSaysSo() {
        // The metering orifice is closed in until the criterion is met as computed by a hair.
        double low = 0.5e-3;
        double high = 1.8e-3;
        for (int i = 0; i < 12; i++) {
            double d = (low + high) / 2;
            if (leastMargin(MinimalCase.model(3.5e6, d, 25e-6, 35e-6)) > 0.05) {
                high = d;
            } else {
                low = d;
            }
        }
        Case model = MinimalCase.model(3.5e6, high, 25e-6, 35e-6);
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            CheckResult r = service.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
            Finding f = r.findings().stream()
                    .filter(x -> x.id().startsWith(BarrierRules.PRESSURE))
                    .min(Comparator.comparingDouble(Finding::margin))
                    .orElseThrow();
            Evidence e = f.evidence();
            assertThat(f.margin()).isBetween(0.04, 0.07);
            assertThat(e.adverse().margin()).as(f.toString()).isNegative();
            assertThat(f.verdict()).isEqualTo(Verdict.THIN);
            assertThat(f.caution()).contains("adverse ends");
            assertThat(e.flips()).isNotEmpty();
            assertThat(e.models())
                    .anySatisfy(m -> assertThat(m).startsWith("floating ring").contains("band of its flow"));
            assertThat(r.findings())
                    .filteredOn(x -> x.id().startsWith("barriers:"))
                    .allSatisfy(x -> assertThat(x.verdict()).isEqualTo(Verdict.THIN));
        }
    }

    @Test
    void aMarginThatAWiderSealRaisesIsExplainedByThePressures() {
        Case model = MinimalCase.model();
        double base = leastMargin(model);
        try (CaseService service = new CaseService(Engines.embedded(), 2)) {
            FaultResult r = service.fail(
                    model,
                    Map.of(CaseService.STEADY, model),
                    (phase, set) -> model,
                    FailSettings.DEFAULT.withTimes(false),
                    Progress.NONE);
            List<Row> wide = r.rows().stream()
                    .filter(x ->
                            x.scenario().startsWith("worn: ") || x.scenario().startsWith("failed open: "))
                    .toList();
            assertThat(wide).hasSizeGreaterThanOrEqualTo(8);
            assertThat(wide)
                    .filteredOn(x -> x.margins().getOrDefault(BarrierRules.PRESSURE, -1.0) > base + 1e-3)
                    .allSatisfy(x -> assertThat(x.notes()).as(x.scenario()).isNotEmpty());
            // More oxygen in its drain holds the barrier's gas back: the other ring is better off, and the note says by
            // which pressures.
            assertThat(row(r, "failed open: oxygen seal").notes()).anySatisfy(note -> assertThat(note)
                    .contains("ring B")
                    .contains("rises from")
                    .contains("MPa"));
        }
    }
}
