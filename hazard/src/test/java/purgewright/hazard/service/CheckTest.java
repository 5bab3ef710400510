package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.criteria.CountRules;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;

class CheckTest {
    private static CheckResult check(Case model, SolveResult answer) {
        try (CaseService service = new CaseService(new Fakes.Engine(), 1, (c, g) -> answer)) {
            return service.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
        }
    }

    private static Finding only(CheckResult r, String key, String where) {
        List<Finding> found = r.findings().stream()
                .filter(f -> f.id().startsWith(key + ":") && f.where().endsWith(where))
                .toList();
        assertThat(found).as("%s at %s among %s", key, where, r.findings()).hasSize(1);
        return found.get(0);
    }

    @Test
    void aBarrierAtWorkHoldsAndSaysThatFaultsWereNotExamined() {
        Case pump = Fakes.pump();
        CheckResult r = check(pump, Fakes.atWork(pump).solved());
        assertThat(r.findings())
                .allSatisfy(f -> assertThat(f.verdict()).as(f.toString()).isIn(Verdict.HOLDS, Verdict.THIN));
        assertThat(r.verdictLine()).contains("faults not examined");
        Finding count = only(r, CountRules.COUNT, "feed oxygen");
        assertThat(count.value()).isEqualTo(1);
        assertThat(count.how()).contains("pump - oxygen drain - barrier - hot drain - turbine");
        assertThat(count.caution()).contains("one barrier left");
        assertThat(r.purge().flow()).isEqualTo(0.007, within(1e-12));
        assertThat(r.purge().gas()).isEqualTo("helium");
    }

    @Test
    void whatIsTakenForGrantedStandsAmongTheCautions() {
        Case pump = Pumps.cavity(Fakes.pump(), Fakes.fixed("barrier", Role.BARRIER, "barrier gas", 1.7e6, 288));
        CheckResult r = check(pump, Fakes.atWork(pump).solved());
        assertThat(r.cautions())
                .anyMatch(c -> c.startsWith("No supply feeds barrier:"))
                .anyMatch(c -> c.startsWith("The case states no speed of the rotor"))
                .anyMatch(c -> c.startsWith("Least clearances were judged without"));
    }

    @Test
    void theMarginOfACloseSealIsRelativeToTheLargerOfExcessAndRatio() {
        Case pump = Fakes.pump();
        CheckResult r = check(pump, Fakes.atWork(pump).solved());
        Finding a = only(r, BarrierRules.PRESSURE, "ring A");
        assertThat(a.limit()).isEqualTo(0.33e6 + 0.14e6, within(1e-6));
        assertThat(a.margin()).isEqualTo((1.7e6 - 0.47e6) / 0.47e6, within(1e-12));
        assertThat(a.source()).contains("API 682");
    }

    @Test
    void aBarrierBelowTheExcessFallsShortAndNoLongerCounts() {
        Case pump = Fakes.pump();
        CheckResult r = check(
                pump,
                Fakes.atWork(pump)
                        .cavity("barrier", 0.40e6, 288, Map.of("barrier gas", 1.0))
                        .solved());
        assertThat(only(r, BarrierRules.PRESSURE, "ring A").verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(only(r, CountRules.COUNT, "feed oxygen").value()).isZero();
        assertThat(r.verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    @Test
    void flowIntoTheBarrierOrBackIntoTheSupplyFallsShort() {
        Case pump = Fakes.pump();
        CheckResult r = check(
                pump,
                Fakes.atWork(pump).flow("ring B", -0.001).flow("valve", -0.001).solved());
        assertThat(only(r, BarrierRules.DIRECTION, "ring B").verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(only(r, BarrierRules.REVERSE, "valve").verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    @Test
    void aVentSharedByOxygenAndFuelIsFoundAndGoesAroundTheBarrier() {
        Case pump = Fakes.pump();
        List<PassageSpec> passages = new ArrayList<>(pump.passages());
        passages.set(7, Fakes.passage("fuel line", "hot drain", "oxygen vent", "line"));
        Case shared = new Case(
                pump.about(),
                pump.surroundings(),
                pump.rotor(),
                pump.streams(),
                pump.cavities(),
                passages,
                List.of(),
                Map.of(),
                Map.of());
        CheckResult r = check(shared, Fakes.atWork(shared).solved());
        assertThat(only(r, CountRules.SHARED_VENT, "oxygen vent").verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Finding count = only(r, CountRules.COUNT, "feed oxygen");
        assertThat(count.value()).isZero();
        assertThat(count.how()).contains("oxygen vent");
    }

    @Test
    void anOpenGapIsJudgedByItsVelocityWithAllSealsOpened() {
        Case pump = Fakes.pump();
        List<PassageSpec> passages = new ArrayList<>(pump.passages());
        passages.set(2, Fakes.passage("ring B", "barrier", "hot drain", "labyrinth"));
        Case open = new Case(
                pump.about(),
                pump.surroundings(),
                pump.rotor(),
                pump.streams(),
                pump.cavities(),
                passages,
                List.of(),
                Map.of(),
                Map.of());
        SolveResult answer = Fakes.atWork(open).velocity("ring B", 8).solved();
        Finding f = only(check(open, answer), BarrierRules.VELOCITY, "ring B");
        // Surface speed 100 m/s: a tenth of it, 10 m/s, is above 5 m/s.
        assertThat(f.limit()).isEqualTo(10);
        assertThat(f.margin()).isEqualTo(-0.2, within(1e-12));
    }

    @Test
    void withoutAnyInertFeedAReactivePairHasNoBarrier() {
        Case pump = Fakes.pump();
        List<StreamDefinition> streams = new ArrayList<>(pump.streams());
        streams.set(2, new StreamDefinition.Single("barrier gas", "methane"));
        Case wrong = new Case(
                pump.about(),
                pump.surroundings(),
                pump.rotor(),
                streams,
                pump.cavities(),
                pump.passages(),
                List.of(),
                Map.of(),
                Map.of());
        CheckResult r = check(wrong, Fakes.atWork(wrong).solved());
        assertThat(only(r, CountRules.COUNT + ":feed oxygen:drive gas", "feed oxygen")
                        .verdict())
                .isEqualTo(Verdict.FALLS_SHORT);
    }

    @Test
    void aFailedSolveIsAFindingThatNamesTheCavity() {
        Case pump = Fakes.pump();
        SolveResult failed = new SolveResult.NotConverged(
                new SolveResult.Convergence(SolveResult.Method.NONE, 40, 1, 1, 1, List.of()),
                "hot drain",
                SolveResult.Reason.ITERATION_LIMIT,
                "the residual stopped falling",
                Map.of());
        CheckResult r = check(pump, failed);
        assertThat(r.verdict()).isEqualTo(Verdict.NOT_CONVERGED);
        assertThat(r.findings().get(0).where()).isEqualTo("/cavities/hot drain");
        assertThat(r.findings().get(0).what()).contains("the residual stopped falling");
    }

    @Test
    void aCancelledSolveThrowsAndLeavesNoResult() {
        Case pump = Fakes.pump();
        SolveResult cancelled = new SolveResult.NotConverged(
                new SolveResult.Convergence(SolveResult.Method.NONE, 1, 1, 1, 1, List.of()),
                "",
                SolveResult.Reason.CANCELLED,
                "",
                Map.of());
        assertThatThrownBy(() -> check(pump, cancelled)).isInstanceOf(CancellationException.class);
    }

    @Test
    void twoBarriersInSeriesCountTwiceEvenOverTheirCommonManifold() {
        Case pump = Fakes.pump();
        List<Cavity> cavities = new ArrayList<>(pump.cavities());
        cavities.add(Fakes.free("second", Role.BARRIER));
        cavities.add(Fakes.free("middle", Role.DRAIN));
        List<PassageSpec> passages = new ArrayList<>(pump.passages());
        passages.set(2, Fakes.passage("ring B", "barrier", "middle", "floating ring"));
        passages.add(Fakes.passage("ring C", "second", "middle", "floating ring"));
        passages.add(Fakes.passage("ring D", "second", "hot drain", "floating ring"));
        passages.add(Fakes.passage("feed 2", "inlet", "second", "orifice"));
        Case two = new Case(
                pump.about(),
                pump.surroundings(),
                pump.rotor(),
                pump.streams(),
                cavities,
                passages,
                List.of(),
                Map.of(),
                Map.of());
        Fakes.Answer answer = Fakes.atWork(two)
                .cavity("second", 1.6e6, 288, Map.of("barrier gas", 1.0))
                .cavity("middle", 0.2e6, 288, Map.of("barrier gas", 1.0))
                .flow("ring C", 0.001)
                .flow("ring D", 0.001)
                .flow("feed 2", 0.002);
        Finding count = only(check(two, answer.solved()), CountRules.COUNT, "feed oxygen");
        assertThat(count.value()).isEqualTo(2);
        Finding one = only(check(two, answer.flow("ring D", -0.001).solved()), CountRules.COUNT, "feed oxygen");
        assertThat(one.value()).isEqualTo(1);
        BarrierLayout layout = BarrierLayout.of(
                two,
                StreamTable.of(new Fakes.Engine().mixer(two.streams())),
                p -> answer.solved().passages().get(p.name()).kind());
        assertThat(layout.units()).hasSize(2);
        assertThat(layout.supply()).containsExactlyInAnyOrder("bottle", "inlet");
    }

    @Test
    void aSealWhoseModelIsOutsideItsRangeIsThin() {
        Case model = Fakes.pump();
        Converged sound = Fakes.atWork(model).solved();
        Converged outside = new Converged(
                sound.convergence(),
                sound.cavities(),
                sound.passages(),
                List.of(new Notice(
                        Notice.Key.OUT_OF_RANGE,
                        "/passages/ring A",
                        Map.of("model", "some law", "quantity", "Re", "value", 9.0, "minimum", 1.0, "maximum", 5.0))));
        try (CaseService service = new CaseService(new Fakes.Engine(), 1, (c, g) -> outside)) {
            CheckResult r = service.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
            Finding a = of(r, "barrier-pressure:ring A");
            assertThat(a.verdict()).isEqualTo(Verdict.THIN);
            assertThat(a.evidence().models()).contains("outside the range of some law (Re 9.00, known 1.00 to 5.00)");
            assertThat(of(r, "barrier-pressure:ring B").verdict()).isEqualTo(Verdict.HOLDS);
        }
    }

    private static Finding of(CheckResult r, String id) {
        return r.findings().stream()
                .filter(f -> f.id().startsWith(id))
                .findFirst()
                .orElseThrow();
    }
}
