package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import purgewright.hazard.Fakes;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.fault.Fault;
import purgewright.hazard.fault.FaultResult;
import purgewright.hazard.fault.Faults;
import purgewright.hazard.fault.Scenario;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult;

class FaultLawTest {
    private static List<Fault> faults() {
        Case model = Fakes.pump();
        StreamTable streams = StreamTable.of(new Fakes.Engine().mixer(model.streams()));
        return Faults.automatic(model, BarrierLayout.of(model, streams, Faults::kind), Criteria.DEFAULT);
    }

    /** A stand-in that feels its inputs: the barrier's pressure follows the supply and the rings. */
    private static SolveResult answer(Case model) {
        Cavity bottle = model.cavity("bottle");
        PassageSpec ringA = model.passage("ring A");
        boolean fed = bottle.fixed()
                && !model.passage("metering").closed()
                && !model.passage("valve").closed();
        double p = fed ? bottle.pressure() * 0.48 * 50e-6 / ringA.clearance() : 0.15e6;
        return Fakes.atWork(model)
                .cavity("barrier", Math.max(p, 0.15e6), 288, Map.of("barrier gas", 1.0))
                .flow("ring A", fed ? 0.003 : -0.001)
                .solved();
    }

    private static FaultResult sweep(int threads) {
        Case model = Fakes.pump();
        try (CaseService service = new CaseService(new Fakes.Engine(), threads, (c, g) -> answer(c))) {
            return service.fail(
                    model,
                    Map.of(CaseService.STEADY, model),
                    (p, s) -> model,
                    FailSettings.DEFAULT.withPairs(true),
                    Progress.NONE);
        }
    }

    @Property(tries = 40, seed = "20261126")
    void theOrderOfFaultsInAScenarioDoesNotMatter(@ForAll long seed) {
        List<Fault> all = new ArrayList<>(faults());
        Random random = new Random(seed);
        Collections.shuffle(all, random);
        List<Fault> few = new ArrayList<>();
        for (Fault f : all) {
            if (few.size() < 3 && few.stream().noneMatch(x -> x.place().equals(f.place()))) {
                few.add(f);
            }
        }
        List<Fault> turned = new ArrayList<>(few);
        Collections.reverse(turned);
        assertThat(new Scenario("a", turned).apply(Fakes.pump())).isEqualTo(new Scenario("a", few).apply(Fakes.pump()));
    }

    @Test
    void theNumberOfThreadsChangesNothing() {
        FaultResult one = sweep(1);
        FaultResult two = sweep(2);
        assertThat(two.rows()).isEqualTo(one.rows());
        assertThat(two.ranking()).isEqualTo(one.ranking());
        assertThat(two.verdictLine()).isEqualTo(one.verdictLine());
    }

    @Test
    void everyPlaceIsFailedAndPairsLeaveOutOnePlaceTwice() {
        List<Fault> all = faults();
        assertThat(all).extracting(Fault::name).doesNotHaveDuplicates();
        assertThat(all)
                .extracting(Fault::name)
                .contains(
                        "worn: ring A",
                        "failed open: ring B",
                        "plugged or shut: metering",
                        "blocked: oxygen line",
                        "broken: fuel line",
                        "bottle empty: bottle",
                        "regulator low: bottle",
                        "regulator failed open: bottle",
                        "wrong gas: nitrogen as barrier gas",
                        "pressure high: pump",
                        "sensor biased: bottle");
        assertThat(Scenario.of(all, true)).allSatisfy(s -> assertThat(
                        s.faults().stream().map(Fault::place).distinct().count())
                .isEqualTo(s.faults().size()));
    }

    @Test
    void aLostSupplyLosesTheReactivePairAndAWornRingDoesNot() {
        FaultResult r = sweep(2);
        FaultResult.Row empty = r.rows().stream()
                .filter(x -> x.scenario().equals("plugged or shut: metering"))
                .findFirst()
                .orElseThrow();
        assertThat(empty.pairsLost()).containsExactly("feed oxygen | drive gas");
        assertThat(empty.seenBy()).contains("pressure of barrier");
        assertThat(empty.hidden()).isFalse();
        FaultResult.Row worn = r.rows().stream()
                .filter(x -> x.scenario().equals("worn: ring A"))
                .findFirst()
                .orElseThrow();
        assertThat(worn.pairsLost()).isEmpty();
    }

    @Test
    void aFaultWithoutASolutionIsNotConvergedAndTheSweepNeverHolds() {
        Case model = Fakes.pump();
        double drawn = model.passage("ring A").clearance();
        // Everything as good as can be, but for the worn ring, which nothing solves.
        CaseSolver givesUp = (c, g) -> c.passage("ring A").clearance() > drawn
                ? new SolveResult.NotConverged(
                        new SolveResult.Convergence(SolveResult.Method.NONE, 40, 1, 1, 1, List.of()),
                        "barrier",
                        SolveResult.Reason.ITERATION_LIMIT,
                        "the residual stopped falling",
                        Map.of())
                : Fakes.atWork(model).solved();
        FaultResult r;
        try (CaseService service = new CaseService(new Fakes.Engine(), 2, givesUp)) {
            r = service.fail(
                    model,
                    Map.of(CaseService.STEADY, model),
                    (p, s) -> model,
                    FailSettings.DEFAULT.withPairs(true),
                    Progress.NONE);
        }
        FaultResult.Row worn = r.rows().stream()
                .filter(x -> x.scenario().equals("worn: ring A"))
                .findFirst()
                .orElseThrow();
        assertThat(worn.verdict()).isEqualTo(Verdict.NOT_CONVERGED);
        assertThat(worn.findings()).anySatisfy(f -> {
            assertThat(f.where()).isEqualTo("/cavities/barrier");
            assertThat(f.what()).contains("the residual stopped falling");
        });
        assertThat(r.verdict()).isNotIn(Verdict.HOLDS, Verdict.THIN);
        assertThat(r.verdictLine()).contains("not converged");
        assertThat(r.rows())
                .filteredOn(x ->
                        x.scenario().contains("worn: ring A") || x.scenario().contains("failed open: ring A"))
                .isNotEmpty()
                .allSatisfy(x -> assertThat(x.verdict()).isNotIn(Verdict.HOLDS, Verdict.THIN));
    }

    @Test
    void aCancelledSweepGivesWhatIsDoneAndSaysWhatIsNot() {
        Case model = Fakes.pump();
        Thread caller = Thread.currentThread();
        AtomicInteger calls = new AtomicInteger();
        CaseSolver stopsAfterAFew = (c, g) -> {
            if (Thread.currentThread() != caller && calls.incrementAndGet() > 5) {
                caller.interrupt();
                try {
                    new CountDownLatch(1).await(); // until the sweep takes its work back
                } catch (InterruptedException e) {
                    throw new CancellationException("taken back");
                }
            }
            return answer(c);
        };
        FaultResult whole = sweep(2);
        FaultResult part;
        try (CaseService service = new CaseService(new Fakes.Engine(), 1, stopsAfterAFew)) {
            part = service.fail(
                    model,
                    Map.of(CaseService.STEADY, model),
                    (p, s) -> model,
                    FailSettings.DEFAULT.withPairs(true),
                    Progress.NONE);
        } finally {
            Thread.interrupted();
        }
        assertThat(part.rows()).hasSizeBetween(1, 5);
        theSameButForTimes(whole, part);
        assertThat(part.notExamined()).hasSize(whole.rows().size() - part.rows().size());
        assertThat(part.verdictLine()).contains("INCOMPLETE").contains("were not examined");
        assertThat(part.verdict()).isNotIn(Verdict.HOLDS, Verdict.THIN);
    }

    /** What was examined says the same as in the whole sweep; only why a time is a bound differs. */
    private static void theSameButForTimes(FaultResult whole, FaultResult part) {
        for (FaultResult.Row row : part.rows()) {
            FaultResult.Row same = whole.rows().stream()
                    .filter(r -> r.scenario().equals(row.scenario()))
                    .findFirst()
                    .orElseThrow();
            assertThat(row.verdicts()).isEqualTo(same.verdicts());
            assertThat(row.margins()).isEqualTo(same.margins());
            assertThat(row.lost()).isEqualTo(same.lost());
        }
    }
}
