package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.Phase;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.Notice;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;

@DisplayName("Each rule on its limit, on both sides of it, and where it has nothing to say")
class RulesAtTheirLimitsTest {
    private static final Map<String, Double> HELIUM = Map.of("barrier gas", 1.0);
    private static final Map<String, Double> OXYGEN = Map.of("feed oxygen", 1.0);
    private static final Map<String, Double> METHANE = Map.of("drive gas", 1.0);

    private static Finding at(List<Finding> findings, String where) {
        List<Finding> found =
                findings.stream().filter(f -> f.where().endsWith("/" + where)).toList();
        assertThat(found).as("at %s among %s", where, findings).hasSize(1);
        return found.get(0);
    }

    private static Setting pump(Fakes.Answer answer) {
        return Pumps.setting(Fakes.pump(), answer.solved());
    }

    private static Fakes.Answer atWork() {
        return Fakes.atWork(Fakes.pump());
    }

    private static Case open() {
        return Pumps.passage(Fakes.pump(), Fakes.passage("ring B", "barrier", "hot drain", "labyrinth"));
    }

    // --- barrier: pressure

    @Test
    void aCloseSealNeedsTheLargerOfExcessAndRatio() {
        // Against 0.33 MPa the excess of 0.14 MPa rules, against 2 MPa the ratio of 1.10; they meet at 1.4 MPa.
        Finding low = at(BarrierRules.pressure(pump(atWork())), "ring A");
        assertThat(low.limit()).isCloseTo(0.47e6, within(1e-3));
        assertThat(low.value()).isEqualTo(1.7e6);
        assertThat(low.source()).isEqualTo(Limit.BARRIER_EXCESS.origin());
        assertThat(low.how()).contains("plus the barrier excess").doesNotContain("circumference");
        Finding high = at(BarrierRules.pressure(pump(atWork().cavity("oxygen drain", 2e6, 94, OXYGEN))), "ring A");
        assertThat(high.limit()).isCloseTo(2.2e6, within(1e-3));
        assertThat(high.source()).isEqualTo(Limit.BARRIER_RATIO.origin());
        assertThat(high.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(high.what()).isEqualTo("Pressure of barrier against oxygen drain across ring A");
    }

    @Test
    void aSealDrawnFromTheOutsideIsJudgedAlike() {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("ring A", "oxygen drain", "barrier", "floating ring"));
        Finding f = at(
                BarrierRules.pressure(
                        Pumps.setting(m, Fakes.atWork(m).flow("ring A", -0.003).solved())),
                "ring A");
        assertThat(f.value()).isEqualTo(1.7e6);
        assertThat(f.limit()).isCloseTo(0.47e6, within(1e-3));
        assertThat(f.what()).isEqualTo("Pressure of barrier against oxygen drain across ring A");
    }

    @Test
    void theVariationAroundTheCircumferenceOfBothSidesIsAdded() {
        Case m = Fakes.pump();
        m = Pumps.cavity(m, Pumps.uneven(m.cavity("barrier"), 0.01e6));
        m = Pumps.cavity(m, Pumps.uneven(m.cavity("oxygen drain"), 0.02e6));
        Finding f = at(BarrierRules.pressure(Pumps.setting(m, Fakes.atWork(m).solved())), "ring A");
        assertThat(f.limit()).isCloseTo(0.50e6, within(1e-3));
        assertThat(f.how()).contains("plus the variation around the circumference");
    }

    @Test
    void anOpenGapIsNotJudgedByPressureAndACheckValveOnlyAsSuch() {
        Case m = open();
        assertThat(BarrierRules.pressure(Pumps.setting(m, Fakes.atWork(m).solved())))
                .extracting(Finding::where)
                .containsExactly("/passages/ring A");
        Case valve = Pumps.passage(Fakes.pump(), Fakes.passage("ring A", "barrier", "oxygen drain", "check valve"));
        Setting s = Pumps.setting(valve, Fakes.atWork(valve).solved());
        assertThat(BarrierRules.pressure(s)).extracting(Finding::where).containsExactly("/passages/ring B");
        Finding f = at(BarrierRules.valves(s), "ring A");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.what()).isEqualTo("Only the check valve ring A stands between barrier and oxygen drain");
        assertThat(BarrierRules.valves(pump(atWork()))).isEmpty();
    }

    // --- barrier: velocity and difference of open gaps

    @ParameterizedTest
    @CsvSource({"100, 10", "50, 5", "20, 5", "0, 5"})
    void theLeastVelocityIsTheLargerOfTheFloorAndTheShareOfTheSurfaceSpeed(double speed, double limit) {
        Case m = open();
        Converged solved =
                Pumps.passage(Fakes.atWork(m).velocity("ring B", 8).solved(), "ring B", p -> Pumps.speed(p, speed));
        Finding f = at(BarrierRules.velocity(Pumps.setting(m, solved)), "ring B");
        assertThat(f.limit()).isEqualTo(limit);
        assertThat(f.value()).isEqualTo(8);
        assertThat(f.source()).isEqualTo((speed <= 50 ? Limit.GAP_VELOCITY : Limit.GAP_VELOCITY_SHARE).origin());
        assertThat(f.what()).contains("with all barrier seals opened");
    }

    @Test
    void theVelocityIsThatOfTheOpenedNetworkCountedOutward() {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("ring B", "hot drain", "barrier", "labyrinth"));
        Converged tight =
                Fakes.atWork(m).flow("ring B", -0.004).velocity("ring B", -30).solved();
        Converged wide =
                Fakes.atWork(m).flow("ring B", -0.004).velocity("ring B", -12).solved();
        Finding f = at(BarrierRules.velocity(Pumps.setting(m, tight, wide, Criteria.DEFAULT)), "ring B");
        assertThat(f.value()).isEqualTo(12);
        SolveResult failed = new SolveResult.NotConverged(
                tight.convergence(), "barrier", SolveResult.Reason.ITERATION_LIMIT, "", Map.of());
        for (SolveResult none : new SolveResult[] {failed, Pumps.without(wide, "ring B"), null}) {
            Finding unknown = at(BarrierRules.velocity(Pumps.setting(m, tight, none, Criteria.DEFAULT)), "ring B");
            assertThat(unknown.verdict()).isEqualTo(Verdict.NOT_CONVERGED);
            assertThat(unknown.limit()).isEqualTo(10);
            assertThat(unknown.caution()).contains("not solved");
        }
    }

    @Test
    void theDifferenceOverAnOpenGapCoversVariationAndReading() {
        Case m = open();
        m = Pumps.cavity(m, Pumps.uneven(m.cavity("hot drain"), 0.1e6));
        Finding f = at(BarrierRules.difference(Pumps.setting(m, Fakes.atWork(m).solved())), "ring B");
        assertThat(f.value()).isCloseTo(1.5e6, within(1e-3));
        assertThat(f.limit()).isCloseTo(0.135e6, within(1e-3));
        Finding back = at(
                BarrierRules.difference(Pumps.setting(
                        m,
                        Fakes.atWork(m).cavity("hot drain", 1.8e6, 700, METHANE).solved())),
                "ring B");
        assertThat(back.value()).isCloseTo(-0.1e6, within(1e-3));
        assertThat(back.verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    // --- barrier: direction, purity, supply

    @Test
    void directionIsMeasuredByAThousandthOfTheGreatestBoundaryFlow() {
        List<Finding> good = BarrierRules.direction(pump(atWork()));
        assertThat(good)
                .hasSize(2)
                .allMatch(f -> f.verdict() == Verdict.HOLDS && f.what().startsWith("Purge flows"));
        // 0.1 % of 4 g/s is 4 mg/s: a tenth of it is thin.
        Finding thin = at(BarrierRules.direction(pump(atWork().flow("ring A", 4e-7))), "ring A");
        assertThat(thin.margin()).isCloseTo(0.1, within(1e-12));
        assertThat(thin.verdict()).isEqualTo(Verdict.THIN);
        Finding in = at(BarrierRules.direction(pump(atWork().flow("ring A", -1e-3))), "ring A");
        assertThat(in.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(in.what()).isEqualTo("Flow comes INTO the barrier through ring A between barrier and oxygen drain");
        assertThat(in.value()).isEqualTo(-1e-3);
        // The greatest flow counts by its size.
        Finding against =
                at(BarrierRules.direction(pump(atWork().flow("ring A", -1).flow("ring B", 2e-4))), "ring B");
        assertThat(against.margin()).isCloseTo(0.2, within(1e-12));
        assertThat(at(BarrierRules.direction(pump(atWork().flow("ring A", 0).flow("ring B", 0))), "ring A")
                        .verdict())
                .isEqualTo(Verdict.FALLS_SHORT);
        assertThat(BarrierRules.direction(Pumps.setting(Fakes.pump(), Pumps.without(atWork().solved(), "ring A"))))
                .hasSize(1);
    }

    @Test
    void aBarrierIsPureUpToTheTraceLimitOfAllForeignStreamsTogether() {
        Finding pure = at(BarrierRules.purity(pump(atWork())), "barrier");
        assertThat(pure.what()).isEqualTo("Only purge gas in barrier");
        assertThat(pure.value()).isZero();
        assertThat(pure.margin()).isEqualTo(1);
        Map<String, Double> both = Map.of("barrier gas", 1 - 1.2e-6, "feed oxygen", 0.5e-6, "drive gas", 0.7e-6);
        Finding f = at(BarrierRules.purity(pump(atWork().cavity("barrier", 1.7e6, 288, both))), "barrier");
        assertThat(f.value()).isCloseTo(1.2e-6, within(1e-15));
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.what()).isEqualTo("Foreign fluid in barrier, mostly drive gas");
        Map<String, Double> limit = Map.of("barrier gas", 1 - 1e-6, "feed oxygen", 1e-6);
        Finding on = at(BarrierRules.purity(pump(atWork().cavity("barrier", 1.7e6, 288, limit))), "barrier");
        assertThat(on.verdict()).isEqualTo(Verdict.THIN);
        assertThat(on.what()).isEqualTo("Only purge gas in barrier");
    }

    @Test
    void flowBackIntoTheSupplyFallsShortBeyondTheSolversNoise() {
        assertThat(BarrierRules.reverse(pump(atWork()))).isEmpty();
        assertThat(BarrierRules.reverse(pump(atWork().flow("valve", 0)))).isEmpty();
        // A billionth of the greatest flow (0.353 kg/s) is noise.
        assertThat(BarrierRules.reverse(pump(atWork().flow("valve", -3.5e-10)))).isEmpty();
        Finding f = at(BarrierRules.reverse(pump(atWork().flow("valve", -3.6e-10))), "valve");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.value()).isEqualTo(-3.6e-10);
        Case turned = Pumps.passage(Fakes.pump(), Fakes.passage("metering", "barrier", "inlet", "orifice"));
        assertThat(BarrierRules.reverse(Pumps.setting(
                        turned, Fakes.atWork(turned).flow("metering", -0.007).solved())))
                .isEmpty();
        assertThat(at(
                                BarrierRules.reverse(Pumps.setting(
                                        turned,
                                        Fakes.atWork(turned)
                                                .flow("metering", 0.007)
                                                .solved())),
                                "metering")
                        .value())
                .isEqualTo(-0.007);
        Case shut = Pumps.passage(Fakes.pump(), Pumps.closed(Fakes.pump().passage("valve")));
        assertThat(BarrierRules.reverse(
                        Pumps.setting(shut, Fakes.atWork(shut).flow("valve", -1).solved())))
                .isEmpty();
    }

    // --- counting

    private static Finding count(Setting s, Finding... judged) {
        List<Finding> all = CountRules.count(s, List.of(judged));
        assertThat(all).hasSize(1);
        return all.get(0);
    }

    private static Finding judged(String key, String place, Verdict v) {
        return Draft.of(key, place, Scene.of("steady")).as(v);
    }

    @ParameterizedTest
    @CsvSource({
        "barrier-pressure, /passages/ring A, FALLS_SHORT, 0, FALLS_SHORT",
        "barrier-pressure, /passages/ring A, NOT_ESTABLISHED, 0, NOT_ESTABLISHED",
        "gap-velocity, /passages/ring B, NOT_CONVERGED, 0, NOT_ESTABLISHED",
        "gap-difference, /passages/ring B, FALLS_SHORT, 0, FALLS_SHORT",
        "flow-direction, /passages/ring A, FALLS_SHORT, 0, FALLS_SHORT",
        "barrier-valve, /passages/ring A, FALLS_SHORT, 0, FALLS_SHORT",
        "barrier-purity, /cavities/barrier, FALLS_SHORT, 0, FALLS_SHORT",
        "barrier-pressure, /passages/ring A, THIN, 1, HOLDS",
        "barrier-purity, /cavities/hot drain, FALLS_SHORT, 1, HOLDS",
        "barrier-purity, /passages/ring A, FALLS_SHORT, 1, HOLDS",
        "barrier-pressure, /passages/hot seal, FALLS_SHORT, 1, HOLDS",
        "barrier-pressure, /cavities/barrier, FALLS_SHORT, 1, HOLDS",
        "mist, /passages/ring A, FALLS_SHORT, 1, HOLDS"
    })
    void aBarrierCountsOnlyWhenEveryCriterionOfItsOwnIsMet(
            String key, String place, Verdict found, int count, Verdict verdict) {
        Finding f = count(pump(atWork()), judged(key, place, found));
        assertThat(f.value()).isEqualTo(count);
        assertThat(f.verdict()).isEqualTo(verdict);
        assertThat(f.limit()).isEqualTo(1);
    }

    @Test
    void theCountNamesItsPairPathAndWhatIsLeft() {
        Setting s = pump(atWork());
        Finding one = count(s);
        assertThat(one.what()).isEqualTo("Independent barriers between the reactive pair feed oxygen | drive gas");
        assertThat(one.caution()).isEqualTo("one barrier left: nothing stands behind it");
        assertThat(one.margin()).isZero();
        assertThat(CountRules.weakestPath(one))
                .containsExactly("pump", "oxygen drain", "barrier", "hot drain", "turbine");
        assertThat(CountRules.weakestPath(judged("k", "/x", Verdict.THIN))).isEmpty();
        Setting two = Pumps.setting(Fakes.pump(), atWork().solved(), null, Criteria.of(Map.of("barriers", 2.0)));
        assertThat(count(two).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(count(two).margin()).isEqualTo(-0.5);
        Setting none = Pumps.setting(Fakes.pump(), atWork().solved(), null, Criteria.of(Map.of("barriers", 0.0)));
        assertThat(count(none).margin()).isEqualTo(1);
        assertThat(count(none, judged("flow-direction", "/passages/ring A", Verdict.FALLS_SHORT))
                        .margin())
                .isZero();
        Case parted = Pumps.passage(Fakes.pump(), Pumps.closed(Fakes.pump().passage("hot seal")));
        Finding no = count(Pumps.setting(parted, Fakes.atWork(parted).solved()));
        assertThat(no.what()).isEqualTo("No open path joins the reactive pair feed oxygen | drive gas");
        assertThat(no.verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(CountRules.nothingToKeepApart(Scene.of("steady")).verdict()).isEqualTo(Verdict.THIN);
    }

    @Test
    void aPairThatNoStatedPassageTiesIsNotEstablishedSinceASealMayHaveBeenLeftOut() {
        Case m = Fakes.pump();
        List<PassageSpec> left = new ArrayList<>(m.passages());
        left.removeIf(p -> p.name().equals("ring A"));
        Case forgotten = Pumps.with(m, m.streams(), m.cavities(), left);
        Finding f = count(Pumps.setting(forgotten, Fakes.atWork(forgotten).solved()));
        assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(f.what()).isEqualTo("No stated passage ties the reactive pair feed oxygen | drive gas");
        assertThat(f.caution()).isEqualTo("a seal left out of the case looks like this");
        Case mild = Pumps.stream(forgotten, new StreamDefinition.Single("feed oxygen", "hydrogen"));
        assertThat(count(Pumps.setting(mild, Fakes.atWork(mild).solved())).verdict())
                .isEqualTo(Verdict.THIN);
        // A passage that is stated, but shut, ties the two: then it is said that no open path does.
        Case shut = Pumps.passage(m, Pumps.closed(m.passage("ring A")));
        assertThat(count(Pumps.setting(shut, Fakes.atWork(shut).solved())).what())
                .startsWith("No open path");
    }

    @Test
    void aPairThatOnlyContaminatesHasItsOwnLimitAndSaysSo() {
        Case m = Pumps.stream(Fakes.pump(), new StreamDefinition.Single("feed oxygen", "hydrogen"));
        Setting s =
                Pumps.setting(m, Fakes.atWork(m).solved(), null, Criteria.of(Map.of("barriers contamination", 2.0)));
        Finding f = count(s);
        assertThat(f.limit()).isEqualTo(2);
        assertThat(f.what()).contains("contaminating pair feed oxygen | drive gas");
        assertThat(f.caution()).contains("do not react");
        assertThat(f.source()).contains("/criteria/barriers contamination");
    }

    @Test
    void aShutPassageThatAloneKeepsAPairApartIsNoBarrier() {
        Case bypass = Pumps.passage(Fakes.pump(), Pumps.closed(Fakes.passage("bypass", "pump", "turbine", "orifice")));
        Finding f = count(Pumps.setting(bypass, Fakes.atWork(bypass).solved()));
        assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(f.what())
                .isEqualTo("Only the shut passage bypass keeps apart the reactive pair feed oxygen | drive gas");
        assertThat(f.value()).as("what is left when it opens").isZero();
        assertThat(f.limit()).isEqualTo(1);
        assertThat(f.margin()).isNaN();
        assertThat(f.caution()).contains("one shut valve is no barrier");
        assertThat(f.mend()).contains("a second shut valve");
        // Around the barrier's own seal it takes nothing away: the hot drain's side of it still stands.
        Case harmless =
                Pumps.passage(Fakes.pump(), Pumps.closed(Fakes.passage("bypass", "pump", "oxygen drain", "orifice")));
        assertThat(count(Pumps.setting(harmless, Fakes.atWork(harmless).solved()))
                        .verdict())
                .isEqualTo(Verdict.HOLDS);
        // Where the barrier itself fails, that is what is said.
        Finding fails = count(
                Pumps.setting(bypass, Fakes.atWork(bypass).solved()),
                judged("flow-direction", "/passages/ring A", Verdict.FALLS_SHORT));
        assertThat(fails.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        // A pair that only contaminates is thin.
        Case mild = Pumps.stream(bypass, new StreamDefinition.Single("feed oxygen", "hydrogen"));
        assertThat(count(Pumps.setting(mild, Fakes.atWork(mild).solved())).verdict())
                .isEqualTo(Verdict.THIN);
    }

    /** A fuel alone: the machine's other end holds helium. */
    private static Case fuelAlone() {
        return Pumps.stream(Fakes.pump(), new StreamDefinition.Single("feed oxygen", "methane"));
    }

    @Test
    void aFuelAloneIsHeldAgainstTheAirAndWhereNoPathIsThatIsThinOrNotEstablished() {
        List<Finding> behind = CountRules.count(
                Pumps.setting(fuelAlone(), Fakes.atWork(fuelAlone()).solved()), List.of());
        assertThat(behind)
                .extracting(Finding::what)
                .containsExactly(
                        "Independent barriers between the reactive pair feed oxygen | air",
                        "Independent barriers between the reactive pair drive gas | air");
        assertThat(behind).extracting(Finding::value).containsExactly(1.0, 1.0);
        Case m = fuelAlone();
        for (String line : List.of("oxygen line", "fuel line")) {
            m = Pumps.passage(m, Pumps.closed(m.passage(line)));
        }
        m = Pumps.passage(m, Pumps.closed(m.passage("ring A")));
        m = Pumps.passage(m, Pumps.closed(m.passage("ring B")));
        List<Finding> parted = CountRules.count(Pumps.setting(m, Fakes.atWork(m).solved()), List.of());
        assertThat(parted).isNotEmpty().allSatisfy(f -> {
            assertThat(f.verdict()).isIn(Verdict.THIN, Verdict.NOT_ESTABLISHED);
            assertThat(f.caution()).isNotBlank();
        });
    }

    // --- vents and ingestion

    @Test
    void aVentIsSharedOnlyByOxidizerAndFuelTogetherAboveTheTrace() {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("fuel line", "hot drain", "oxygen vent", "line"));
        Finding f = at(CountRules.sharedVents(Pumps.setting(m, Fakes.atWork(m).solved())), "oxygen vent");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.what()).contains("feed oxygen").contains("drive gas").doesNotContain("barrier gas");
        assertThat(CountRules.sharedVents(pump(atWork()))).isEmpty();
        // What runs out of the vent does not run into it.
        assertThat(CountRules.sharedVents(Pumps.setting(
                        m, Fakes.atWork(m).flow("fuel line", -0.025).solved())))
                .isEmpty();
        // A trace of fuel: 1e-6 of what the vent takes.
        for (double share : new double[] {0.9e-6, 1.1e-6}) {
            Map<String, Double> trace = new LinkedHashMap<>(Map.of("feed oxygen", 1 - share, "drive gas", share));
            Setting s = pump(atWork().cavity("oxygen drain", 0.33e6, 94, trace));
            assertThat(CountRules.sharedVents(s)).hasSize(share > 1e-6 ? 1 : 0);
        }
        Case turned = Pumps.passage(Fakes.pump(), Fakes.passage("fuel line", "oxygen vent", "hot drain", "line"));
        assertThat(CountRules.sharedVents(Pumps.setting(
                        turned, Fakes.atWork(turned).flow("fuel line", -0.025).solved())))
                .hasSize(1);
    }

    /** The pump with something stated to stand in a vent. */
    private static Case stands(String vent, String stream) {
        return Pumps.cavity(Fakes.pump(), Fakes.fixed(vent, Role.VENT, stream, 101325, 288));
    }

    @Test
    void whatAVentHoldsCountsAsMuchAsWhatRunsIntoIt() {
        Case flare = stands("oxygen vent", "drive gas");
        Setting s = Pumps.setting(flare, Fakes.atWork(flare).solved());
        Finding f = at(CountRules.sharedVents(s), "oxygen vent");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.what()).isEqualTo("Vent oxygen vent, where drive gas stands, takes feed oxygen");
        Finding gas = at(FlammabilityRules.vents(s), "oxygen vent");
        assertThat(gas.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(gas.what()).isEqualTo("The gas that leaves by oxygen vent runs into drive gas");
        Case stack = stands("fuel vent", "feed oxygen");
        Setting o = Pumps.setting(stack, Fakes.atWork(stack).solved());
        assertThat(at(CountRules.sharedVents(o), "fuel vent").verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Finding fuel = at(FlammabilityRules.vents(o), "fuel vent");
        assertThat(fuel.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(fuel.caution()).startsWith("holds feed oxygen, not air").doesNotContain("with air");
        // Its own kind may stand there, and what runs out of it does not run in; a trace is none.
        Case own = stands("fuel vent", "drive gas");
        Setting same = Pumps.setting(own, Fakes.atWork(own).solved());
        assertThat(CountRules.sharedVents(same)).isEmpty();
        assertThat(at(FlammabilityRules.vents(same), "fuel vent").caution()).startsWith("holds drive gas, not air");
        assertThat(CountRules.sharedVents(Pumps.setting(
                        flare, Fakes.atWork(flare).flow("oxygen line", -0.3).solved())))
                .isEmpty();
        for (double share : new double[] {0.9e-6, 1.1e-6}) {
            Map<String, Double> trace = Map.of("barrier gas", 1 - share, "feed oxygen", share);
            assertThat(CountRules.sharedVents(Pumps.setting(
                            flare,
                            Fakes.atWork(flare)
                                    .cavity("oxygen drain", 0.33e6, 200, trace)
                                    .solved())))
                    .hasSize(share > 1e-6 ? 1 : 0);
        }
    }

    @Test
    void airThatRunsIntoAFlareAndAirUnderAnotherNameAreTakenForWhatTheyAre() {
        // Air on its way through the hot drain into a vent full of fuel; into one that holds air it is nothing.
        Map<String, Double> air = Map.of(Case.AIR, 1.0);
        Case flare = stands("fuel vent", "drive gas");
        assertThat(CountRules.sharedVents(Pumps.setting(
                        flare,
                        Fakes.atWork(flare).cavity("hot drain", 0.2e6, 300, air).solved())))
                .extracting(Finding::what)
                .containsExactly("Vent fuel vent, where drive gas stands, takes air");
        assertThat(CountRules.sharedVents(pump(atWork().cavity("hot drain", 0.2e6, 300, air))))
                .isEmpty();
        // A stated gas no richer than 23.5 % oxygen is air for a fuel vent; a richer one is not.
        for (double oxygen : new double[] {0.234, 0.236}) {
            Case named = Pumps.stream(
                    stands("fuel vent", "yard"),
                    new StreamDefinition.Mix("yard", Map.of("nitrogen", 1 - oxygen, "oxygen", oxygen), true));
            assertThat(CountRules.sharedVents(
                            Pumps.setting(named, Fakes.atWork(named).solved())))
                    .hasSize(oxygen > 0.235 ? 1 : 0);
        }
    }

    @Test
    void oxidizerAndFuelMeetInABoundaryOfInertGasAsInAVent() {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.fixed("sump", Role.DRAIN, "barrier gas", 101325, 288));
        m = Pumps.passage(m, Fakes.passage("oxygen line", "oxygen drain", "sump", "line"));
        Case one = m;
        assertThat(CountRules.sharedVents(Pumps.setting(one, Fakes.atWork(one).solved())))
                .isEmpty();
        m = Pumps.passage(m, Fakes.passage("fuel line", "hot drain", "sump", "line"));
        Finding f = at(CountRules.sharedVents(Pumps.setting(m, Fakes.atWork(m).solved())), "sump");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.what()).startsWith("sump takes oxidizer and fuel together");
    }

    @Test
    void aPartnerThatRunsIntoAWorkingCavityIsIngestion() {
        assertThat(CountRules.ingestion(pump(atWork()))).isEmpty();
        Setting s = pump(atWork().cavity("oxygen drain", 0.33e6, 200, METHANE).flow("oxygen seal", -0.001));
        Finding f = at(CountRules.ingestion(s), "pump");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.value()).isEqualTo(0.001);
        assertThat(f.what()).isEqualTo("drive gas runs into pump, where feed oxygen is");
        Setting hot = pump(atWork().cavity("hot drain", 0.2e6, 700, OXYGEN).flow("hot seal", -0.002));
        assertThat(at(CountRules.ingestion(hot), "turbine").what())
                .isEqualTo("feed oxygen runs into turbine, where drive gas is");
        // Below a billionth of the greatest flow it is noise.
        assertThat(CountRules.ingestion(
                        pump(atWork().cavity("hot drain", 0.2e6, 700, OXYGEN).flow("hot seal", -0.35e-9))))
                .isEmpty();
    }

    @Test
    void purgeCarriedIntoALiquidIsJudgedByItsVolume() {
        Setting s = pump(atWork().cavity("oxygen drain", 0.33e6, 288, HELIUM).flow("oxygen seal", -0.001));
        Finding f = at(CountRules.ingestion(s), "oxygen seal");
        assertThat(f.id()).startsWith(CountRules.PURGE_IN_LIQUID);
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.value()).isEqualTo(1);
        // Liquid in the drain, with a hundredth of purge by mass: by the homogeneous rule, 1 - (1 - 0) rho /
        // rho_liquid.
        Map<String, Double> wet = Map.of("feed oxygen", 0.99, "barrier gas", 0.01);
        Setting mixed = pump(atWork().cavity("oxygen drain", 2.6e6, 97, wet).flow("oxygen seal", -0.001));
        CavityState up = mixed.cavity("oxygen drain");
        CavityState in = mixed.cavity("pump");
        assertThat(up.state().phase()).isEqualTo(Phase.LIQUID);
        assertThat(at(CountRules.ingestion(mixed), "oxygen seal").value())
                .isCloseTo(1 - up.state().density() / in.state().density(), within(1e-12));
        // No purge in it, no finding; into a gas none either.
        assertThat(CountRules.ingestion(
                        pump(atWork().cavity("oxygen drain", 2.7e6, 97, OXYGEN).flow("oxygen seal", -0.001))))
                .isEmpty();
        assertThat(CountRules.ingestion(
                        pump(atWork().cavity("hot drain", 2.7e6, 288, HELIUM).flow("hot seal", -0.001))))
                .isEmpty();
    }

    @Test
    void airThatComesBackThroughAVentFallsShortEitherWayTheLineIsDrawn() {
        assertThat(CountRules.ventReverse(pump(atWork()))).isEmpty();
        Finding f = at(CountRules.ventReverse(pump(atWork().flow("fuel line", -0.01))), "fuel line");
        assertThat(f.value()).isEqualTo(-0.01);
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(CountRules.ventReverse(pump(atWork().flow("fuel line", -0.35e-9))))
                .isEmpty();
        assertThat(CountRules.ventReverse(pump(atWork().flow("fuel line", -0.36e-9))))
                .hasSize(1);
        Case turned = Pumps.passage(Fakes.pump(), Fakes.passage("fuel line", "fuel vent", "hot drain", "line"));
        assertThat(CountRules.ventReverse(Pumps.setting(
                        turned, Fakes.atWork(turned).flow("fuel line", 0.01).solved())))
                .hasSize(1);
        assertThat(CountRules.ventReverse(Pumps.setting(
                        turned, Fakes.atWork(turned).flow("fuel line", -0.01).solved())))
                .isEmpty();
        Case between = Pumps.passage(Fakes.pump(), Fakes.passage("pipe", "fuel vent", "oxygen vent", "line"));
        assertThat(CountRules.ventReverse(Pumps.setting(
                        between, Fakes.atWork(between).flow("pipe", -1).solved())))
                .isEmpty();
    }

    // --- working seals, hot backflow, roles, burners

    @Test
    void aDrainThatRunsBackIntoItsWorkingCavityIsThin() {
        assertThat(ReversalRules.seals(pump(atWork()))).isEmpty();
        Finding f = at(ReversalRules.seals(pump(atWork().flow("hot seal", -0.001))), "hot seal");
        assertThat(f.verdict()).isEqualTo(Verdict.THIN);
        assertThat(f.value()).isEqualTo(0.001);
        assertThat(f.what()).isEqualTo("The seal hot seal runs the wrong way: hot drain into turbine");
        // Its own fluid may come back.
        assertThat(ReversalRules.seals(
                        pump(atWork().cavity("hot drain", 0.2e6, 700, METHANE).flow("hot seal", -0.001))))
                .isEmpty();
        Map<String, Double> trace = Map.of("drive gas", 1 - 0.9e-6, "barrier gas", 0.9e-6);
        assertThat(ReversalRules.seals(
                        pump(atWork().cavity("hot drain", 0.2e6, 700, trace).flow("hot seal", -0.001))))
                .isEmpty();
        assertThat(ReversalRules.seals(pump(atWork().flow("hot seal", -0.35e-9))))
                .isEmpty();
        assertThat(ReversalRules.seals(pump(atWork().flow("hot seal", -0.36e-9))))
                .hasSize(1);
        Case turned = Pumps.passage(Fakes.pump(), Fakes.passage("hot seal", "hot drain", "turbine", "labyrinth"));
        assertThat(ReversalRules.seals(Pumps.setting(
                        turned, Fakes.atWork(turned).flow("hot seal", 0.001).solved())))
                .hasSize(1);
        Case duct = Pumps.passage(Fakes.pump(), Fakes.passage("hot seal", "turbine", "hot drain", "line"));
        assertThat(ReversalRules.seals(Pumps.setting(
                        duct, Fakes.atWork(duct).flow("hot seal", -0.001).solved())))
                .isEmpty();
        Case shut = Pumps.passage(Fakes.pump(), Pumps.closed(Fakes.pump().passage("hot seal")));
        assertThat(ReversalRules.seals(Pumps.setting(
                        shut, Fakes.atWork(shut).flow("hot seal", -0.001).solved())))
                .isEmpty();
        Case other = Pumps.cavity(Fakes.pump(), Fakes.free("hot drain", Role.OTHER));
        assertThat(ReversalRules.seals(Pumps.setting(
                        other, Fakes.atWork(other).flow("hot seal", -0.001).solved())))
                .isEmpty();
    }

    @Test
    void hotGasBesideSomethingColdIsAtMostTheTrace() {
        Setting clean = pump(atWork());
        assertThat(ReversalRules.hotBackflow(clean)).isEmpty();
        Map<String, Double> mixed = Map.of("feed oxygen", 0.9, "drive gas", 0.1);
        Finding f = at(
                ReversalRules.hotBackflow(pump(atWork().cavity("oxygen drain", 0.33e6, 200, mixed))), "oxygen drain");
        assertThat(f.value()).isEqualTo(0.1);
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.what()).isEqualTo("Hot gas comes back into oxygen drain, beside pump");
        Map<String, Double> trace = Map.of("feed oxygen", 1 - 1e-6, "drive gas", 1e-6);
        assertThat(ReversalRules.hotBackflow(pump(atWork().cavity("oxygen drain", 0.33e6, 200, trace))))
                .isEmpty();
        // The same drive gas at 600 K is not hot; a pump at 250 K and no liquid is not cold.
        for (double hot : new double[] {600, 600.1}) {
            Case m = Pumps.cavity(Fakes.pump(), Fakes.fixed("turbine", Role.HOT_GAS, "drive gas", 1.9e6, hot));
            assertThat(ReversalRules.hotBackflow(Pumps.setting(
                            m,
                            Fakes.atWork(m)
                                    .cavity("oxygen drain", 0.33e6, 200, mixed)
                                    .solved())))
                    .hasSize(hot > 600 ? 1 : 0);
        }
        for (double cold : new double[] {249.9, 250}) {
            Case m = Pumps.cavity(Fakes.pump(), Fakes.fixed("pump", Role.OXIDIZER, "feed oxygen", 2.6e6, cold));
            assertThat(ReversalRules.hotBackflow(Pumps.setting(
                            m,
                            Fakes.atWork(m)
                                    .cavity("oxygen drain", 0.33e6, 200, mixed)
                                    .solved())))
                    .hasSize(cold < 250 ? 1 : 0);
        }
    }

    @Test
    void aRoleThatSaysTheOppositeOfTheStreamIsNotEstablished() {
        assertThat(ReversalRules.roles(pump(atWork()))).isEmpty();
        Object[][] wrong = {
            {"pump", Role.FUEL, "gives oxygen"},
            {"pump", Role.BARRIER, "gives oxygen"},
            {"turbine", Role.OXIDIZER, "takes oxygen"},
            {"turbine", Role.BARRIER, "takes oxygen"}
        };
        for (Object[] each : wrong) {
            Case m = Fakes.pump();
            m = Pumps.cavity(m, Pumps.role(m.cavity((String) each[0]), (Role) each[1]));
            Finding f = at(ReversalRules.roles(Pumps.setting(m, Fakes.atWork(m).solved())), (String) each[0]);
            assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
            assertThat(f.what()).endsWith((String) each[2]);
        }
        Case right = Pumps.cavity(Fakes.pump(), Fakes.fixed("turbine", Role.FUEL, "drive gas", 1.9e6, 300));
        assertThat(ReversalRules.roles(Pumps.setting(right, Fakes.atWork(right).solved())))
                .isEmpty();
        // A supply of methane that leads to a barrier is a mistake, one that leads elsewhere is not.
        Case fed = Pumps.stream(Fakes.pump(), new StreamDefinition.Single("barrier gas", "methane"));
        assertThat(at(ReversalRules.roles(Pumps.setting(fed, Fakes.atWork(fed).solved())), "bottle")
                        .verdict())
                .isEqualTo(Verdict.NOT_ESTABLISHED);
        Case elsewhere = Pumps.passage(fed, Fakes.passage("metering", "inlet", "hot drain", "orifice"));
        assertThat(ReversalRules.roles(
                        Pumps.setting(elsewhere, Fakes.atWork(elsewhere).solved())))
                .isEmpty();
    }

    // --- clearances, rubbing seals, faces

    private static Setting gap(double least, double cold, double contact) {
        PassageSpec spec = new PassageSpec(
                "ring A",
                "barrier",
                "oxygen drain",
                "floating ring",
                1,
                0.025,
                cold,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                false,
                Map.of());
        Case m = Pumps.passage(Fakes.pump(), spec);
        return Pumps.setting(
                m,
                Pumps.passage(
                        Fakes.atWork(m).solved(),
                        "ring A",
                        p -> Pumps.gap(p, new RunningGap(least + 5e-6, least, contact))));
    }

    @Test
    void theLeastClearanceIsTenMicrometresOrATenthOfTheColdOne() {
        Finding absolute = at(ClearanceRules.clearance(gap(20e-6, 50e-6, 10e-6)), "ring A");
        assertThat(absolute.limit()).isEqualTo(10e-6);
        assertThat(absolute.margin()).isCloseTo(1, within(1e-12));
        assertThat(absolute.source()).isEqualTo(Limit.CONTACT_LIMIT.origin());
        assertThat(absolute.what()).isEqualTo("Least running clearance of ring A");
        assertThat(absolute.caution()).as("oxygen beside it").contains("no metal-to-metal rub");
        Finding share = at(ClearanceRules.clearance(gap(20e-6, 300e-6, 10e-6)), "ring A");
        assertThat(share.limit()).isCloseTo(30e-6, within(1e-12));
        assertThat(share.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(share.what()).isEqualTo("ring A rubs in oxygen");
        assertThat(share.source()).isEqualTo(Limit.CONTACT_LIMIT_SHARE.origin());
        // A film that runs at a few micrometres by design carries its own limit.
        assertThat(at(ClearanceRules.clearance(gap(4e-6, 10e-6, 2e-6)), "ring A")
                        .limit())
                .isEqualTo(2e-6);
        assertThat(at(ClearanceRules.clearance(gap(4e-6, 10.1e-6, 2e-6)), "ring A")
                        .limit())
                .isEqualTo(10e-6);
        assertThat(at(ClearanceRules.clearance(gap(4e-6, 8e-6, 12e-6)), "ring A")
                        .limit())
                .isEqualTo(10e-6);
        assertThat(ClearanceRules.clearance(gap(Double.NaN, 50e-6, 10e-6))).isEmpty();
        // On the limit it does not rub; a share equal to the contact limit is that limit; away from oxygen it is a rub
        // and no more.
        assertThat(at(ClearanceRules.clearance(gap(10e-6, 50e-6, 10e-6)), "ring A")
                        .what())
                .isEqualTo("Least running clearance of ring A");
        Case m = Fakes.pump();
        Converged hot =
                Pumps.passage(Fakes.atWork(m).solved(), "ring B", p -> Pumps.gap(p, new RunningGap(1e-6, 1e-6, 10e-6)));
        Finding dry = at(ClearanceRules.clearance(Pumps.setting(m, hot)), "ring B");
        assertThat(dry.what()).isEqualTo("ring B rubs");
        assertThat(dry.caution()).doesNotContain("oxygen");
        Converged from = Pumps.passage(
                Fakes.atWork(m).solved(), "oxygen seal", p -> Pumps.gap(p, new RunningGap(1e-6, 1e-6, 10e-6)));
        assertThat(at(ClearanceRules.clearance(Pumps.setting(m, from)), "oxygen seal")
                        .what())
                .isEqualTo("oxygen seal rubs in oxygen");
        assertThat(ClearanceRules.clearance(pump(atWork()))).isEmpty();
        assertThat(at(ClearanceRules.clearance(gap(10e-6, 50e-6, 10e-6)), "ring A")
                        .verdict())
                .isEqualTo(Verdict.THIN);
    }

    @Test
    void aRubbingSealHasALowerSpeedLimitInLiquidOxygen() {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("ring A", "barrier", "oxygen drain", "segmented ring"));
        Setting s = Pumps.setting(m, Fakes.atWork(m).solved());
        List<Finding> all = ClearanceRules.rubbing(s);
        Finding speed = all.get(0);
        assertThat(speed.limit()).as("liquid in the drain").isEqualTo(61);
        assertThat(speed.value()).isEqualTo(100);
        Finding pressure = all.get(1);
        assertThat(pressure.id()).startsWith(ClearanceRules.SEGMENTED);
        assertThat(pressure.value()).isCloseTo(1.37e6, within(1e-3));
        assertThat(pressure.limit()).isEqualTo(0.69e6);
        Setting warm = Pumps.setting(
                m, Fakes.atWork(m).cavity("oxygen drain", 2.0e6, 300, OXYGEN).solved());
        assertThat(ClearanceRules.rubbing(warm).get(0).limit()).isEqualTo(152);
        assertThat(ClearanceRules.rubbing(warm).get(1).value()).isCloseTo(0.3e6, within(1e-3));
        assertThat(ClearanceRules.rubbing(pump(atWork()))).isEmpty();
        // At rest nothing rubs: no speed is no pass.
        Converged rest = Pumps.passage(Fakes.atWork(m).solved(), "ring A", p -> Pumps.speed(p, 0));
        assertThat(ClearanceRules.rubbing(Pumps.setting(m, rest)))
                .extracting(f -> f.id().substring(0, f.id().indexOf(':')))
                .containsExactly(ClearanceRules.SEGMENTED);
    }

    private static Notice notice(Notice.Key key, String place, Map<String, Object> values) {
        return new Notice(key, place, values);
    }

    @Test
    void aFaceInContactIsJudgedByItsLoadTimesSpeed() {
        Case m = Fakes.pump();
        Converged r = Pumps.notices(
                Fakes.atWork(m).solved(),
                notice(
                        Notice.Key.ESTIMATE,
                        "/passages/oxygen seal",
                        Map.of("constant", "PV, Pa m/s", "value", 40e6, "model", "face")),
                notice(Notice.Key.ESTIMATE, "/passages/hot seal", Map.of("constant", "beta", "value", 1.0)),
                notice(Notice.Key.CHOKED, "/passages/hot seal", Map.of("constant", "PV, Pa m/s", "value", 1.0)),
                notice(
                        Notice.Key.ESTIMATE,
                        "/passages/ring A",
                        Map.of("constant", "PV, Pa m/s", "value", 1e6, "model", "face")));
        List<Finding> all = ClearanceRules.contact(Pumps.setting(m, r));
        assertThat(all).hasSize(2);
        Finding oxygen = at(all, "oxygen seal");
        assertThat(oxygen.value()).isEqualTo(40e6);
        assertThat(oxygen.limit()).isCloseTo(52.5e6, within(0.1e6));
        assertThat(oxygen.verdict()).isEqualTo(Verdict.THIN);
        assertThat(at(all, "ring A").verdict())
                .as("helium is not in the source")
                .isEqualTo(Verdict.NOT_ESTABLISHED);
    }

    /** 1 psi ft/s is 2101.5 Pa m/s. */
    @ParameterizedTest
    @CsvSource({
        "oxygen, 0.91, LIQUID, 52.5e6",
        "oxygen, 0.9, LIQUID, NaN",
        "oxygen, 0.91, GAS, NaN",
        "n-dodecane, 0.91, LIQUID, 52.5e6",
        "n-dodecane, 0.9, LIQUID, NaN",
        "n-dodecane, 0.91, GAS, NaN",
        "hydrogen, 0.96, LIQUID, 105.1e6",
        "hydrogen, 0.96, GAS, 42.0e6",
        "hydrogen, 0.95, GAS, NaN",
        "methane, 0.96, LIQUID, NaN"
    })
    void theContactLimitIsThatOfTheFluidInTheSource(String species, double share, Phase phase, double limit) {
        Map<String, Double> x = Map.of(species, share, "nitrogen", 1 - share);
        double found = ClearanceRules.contactLimit(x, phase);
        if (Double.isNaN(limit)) {
            assertThat(found).isNaN();
        } else {
            assertThat(found).isCloseTo(limit, within(0.1e6));
        }
    }

    @Test
    void hydrogenAndSteamTogetherAreTheHotGasOfTheSource() {
        Map<String, Double> gas = Map.of("hydrogen", 0.5, "water", 0.46, "nitrogen", 0.04);
        assertThat(ClearanceRules.contactLimit(gas, Phase.GAS)).isCloseTo(21.0e6, within(0.1e6));
        assertThat(ClearanceRules.contactLimit(gas, Phase.LIQUID)).isNaN();
        assertThat(ClearanceRules.contactLimit(Map.of("hydrogen", 0.5, "water", 0.45, "nitrogen", 0.05), Phase.GAS))
                .isNaN();
    }

    @Test
    void aRubThatTheSolverReportsFallsShortOnceOnly() {
        Notice rub = notice(Notice.Key.RUB, "/passages/ring A", Map.of("least", -1e-6, "limit", 10e-6));
        Case m = Fakes.pump();
        Converged r = Pumps.notices(Fakes.atWork(m).solved(), rub);
        Finding f = at(ClearanceRules.rubNotices(Pumps.setting(m, r)), "ring A");
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.value()).isEqualTo(-1e-6);
        assertThat(f.limit()).isEqualTo(10e-6);
        assertThat(f.what()).isEqualTo("Rub at ring A");
        assertThat(ClearanceRules.rubNotices(
                        Pumps.setting(m, Pumps.notices(r, notice(Notice.Key.CHOKED, "/passages/ring A", Map.of())))))
                .isEmpty();
        assertThat(ClearanceRules.rubNotices(Pumps.setting(m, Pumps.without(r, "ring A"))))
                .as("a passage without a state")
                .hasSize(1);
        Converged withGap = Pumps.passage(r, "ring A", p -> Pumps.gap(p, new RunningGap(1e-6, -1e-6, 10e-6)));
        assertThat(ClearanceRules.rubNotices(Pumps.setting(m, withGap)))
                .as("the clearance rule has it")
                .isEmpty();
        assertThat(ClearanceRules.number("x")).isNaN();
        assertThat(ClearanceRules.number(3)).isEqualTo(3);
    }

    // --- notices

    @Test
    void noticesBecomeFindingsOrCautions() {
        Case m = Fakes.pump();
        Notice regime = notice(Notice.Key.NOT_ESTABLISHED, "/passages/ring A", Map.of("model", "film", "reason", "Kn"));
        Notice bare = notice(Notice.Key.NOT_ESTABLISHED, "/passages/ring B", Map.of("model", "film"));
        Notice ice = notice(
                Notice.Key.FREEZES,
                "/cavities/hot drain",
                Map.of("species", "water", "temperature", 260.0, "tripleTemperature", 273.16));
        List<Finding> all =
                NoticeRules.judge(Pumps.setting(m, Pumps.notices(Fakes.atWork(m).solved(), regime, regime, bare, ice)));
        assertThat(all).hasSize(3);
        assertThat(at(all, "ring A").what()).isEqualTo("No model covers the regime at ring A: Kn");
        assertThat(at(all, "ring A").verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(at(all, "ring B").what()).endsWith(": film");
        Finding frozen = at(all, "hot drain");
        assertThat(frozen.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(frozen.margin()).isCloseTo((260 - 273.16) / 273.16, within(1e-12));
        assertThat(frozen.what()).isEqualTo("water would freeze at hot drain");
        Notice edge = notice(
                Notice.Key.FREEZES,
                "/cavities/hot drain",
                Map.of("species", "water", "temperature", 273.16, "tripleTemperature", 273.16));
        assertThat(at(
                                NoticeRules.judge(Pumps.setting(
                                        m, Pumps.notices(Fakes.atWork(m).solved(), edge))),
                                "hot drain")
                        .margin())
                .isEqualTo(-Double.MIN_NORMAL);

        assertThat(NoticeRules.cautions(List.of(
                        regime,
                        notice(Notice.Key.OUT_OF_RANGE, "/passages/b", Map.of("model", "Vermes", "quantity", "Re")),
                        notice(Notice.Key.OUT_OF_RANGE, "/passages/a", Map.of("model", "Vermes", "quantity", "Re")),
                        notice(Notice.Key.OUT_OF_RANGE, "/passages/a", Map.of("model", "Vermes", "quantity", "Re")),
                        notice(Notice.Key.EXTRAPOLATED, "", Map.of("fluid", "oxygen")),
                        notice(Notice.Key.ESTIMATE, "/passages/c", Map.of("model", "stirring", "constant", "beta")))))
                .containsExactly(
                        "Estimated constant in use: stirring, beta: c.",
                        "Outside the range of Vermes (Re): a, b.",
                        "Properties of oxygen are used outside the range of their equation.");
    }

    // --- oxygen

    @ParameterizedTest(name = "{0} Pa: {1} and {2} m/s")
    @CsvSource({
        "0.2099e6, Infinity, Infinity",
        "0.21e6, 30, 60",
        "1.5e6, 30, 60",
        "1.50001e6, 29.9998, 53.33298",
        "4.5e6, 10, 17.77778",
        "10e6, 4.5, 8",
        "10.001e6, 4.5, 8",
        "20e6, 4.5, 8",
        "20.0001e6, NaN, NaN",
        "NaN, NaN, NaN"
    })
    @DisplayName("EIGA Doc 13/20, figs. 2 and 3 (transcription)")
    void oxygenVelocities(double pressure, double impingement, double straight) {
        if (Double.isFinite(impingement)) {
            assertThat(OxygenRules.impingementLimit(pressure)).isCloseTo(impingement, within(1e-4));
            assertThat(OxygenRules.straightLimit(pressure)).isCloseTo(straight, within(1e-4));
        } else {
            assertThat(OxygenRules.impingementLimit(pressure)).isEqualTo(Double.valueOf(impingement));
            assertThat(OxygenRules.straightLimit(pressure)).isEqualTo(Double.valueOf(straight));
        }
    }

    private static Setting oxygenGas(double share, double p, double v, double flow) {
        Map<String, Double> x = new LinkedHashMap<>();
        // by mass, for a mole fraction "share" of oxygen in helium
        double o = share * 0.032;
        double h = (1 - share) * 0.0040026;
        x.put("feed oxygen", o / (o + h));
        x.put("barrier gas", h / (o + h));
        return pump(atWork().cavity("oxygen drain", p, 288, x)
                .flow("oxygen line", flow)
                .velocity("oxygen line", v));
    }

    @Test
    void oxygenGasIsJudgedByTheImpactCurveAboveItsContentPressureAndFlow() {
        Finding f = at(OxygenRules.velocity(oxygenGas(0.9, 4.5e6, -8, 0.1)), "oxygen line");
        // 8 m/s at the inlet of a line that ends in the open: at its end the gas is as fast as sound, and that is what
        // strikes.
        assertThat(f.value()).isGreaterThan(250);
        assertThat(f.limit()).isCloseTo(10, within(1e-12));
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Finding slow = at(OxygenRules.velocity(oxygenGas(0.9, 4.5e6, -0.1, 0.1)), "oxygen line");
        assertThat(slow.value()).isCloseTo(0.1 * 4.5e6 / 101325, within(1e-9));
        assertThat(slow.verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(f.caution()).contains("nickel");
        assertThat(OxygenRules.velocity(oxygenGas(0.3499, 4.5e6, 8, 0.1))).isEmpty();
        assertThat(OxygenRules.velocity(oxygenGas(0.3501, 4.5e6, 8, 0.1))).hasSize(1);
        assertThat(OxygenRules.velocity(oxygenGas(0.9, 0.2099e6, 8, 0.1))).isEmpty();
        assertThat(OxygenRules.velocity(oxygenGas(0.9, 0.21e6, 8, 0.1))).hasSize(1);
        assertThat(OxygenRules.velocity(oxygenGas(0.9, 4.5e6, 8, 0.34e-9))).isEmpty();
        assertThat(at(OxygenRules.velocity(oxygenGas(0.9, 21e6, 8, 0.1)), "oxygen line")
                        .verdict())
                .isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(OxygenRules.velocity(pump(atWork()))).as("liquid").isEmpty();
        // Denser than the fluid's critical density it is no gas either: 400 kg/m3 here.
        assertThat(OxygenRules.velocity(oxygenGas(1, 31e6, 8, 0.1))).isEmpty();
    }

    @Test
    @DisplayName("T1 (p2/p1)^((k-1)/k): perfect gas, closed form")
    void compressionIntoADeadEnd() {
        assertThat(OxygenRules.compressed(300, 1, 1.4)).isEqualTo(300);
        assertThat(OxygenRules.compressed(300, Math.pow(2, 3.5), 1.4)).isCloseTo(600, within(1e-9));
        Case m = Pumps.passage(Fakes.pump(), Pumps.closed(Fakes.pump().passage("oxygen line")));
        Setting s = Pumps.setting(
                m,
                Fakes.atWork(m)
                        .cavity("oxygen drain", 101325 * Math.pow(2, 1.75), 288, OXYGEN)
                        .solved());
        Finding f = at(OxygenRules.deadEnds(s), "oxygen line");
        assertThat(f.value()).isCloseTo(288 * Math.sqrt(2), within(1e-9));
        assertThat(f.limit()).isEqualTo(450);
        assertThat(f.verdict()).isEqualTo(Verdict.THIN);
        assertThat(OxygenRules.deadEnds(Pumps.setting(m, Fakes.atWork(m).solved())))
                .as("liquid")
                .isEmpty();
        assertThat(OxygenRules.deadEnds(Pumps.setting(
                        m,
                        Fakes.atWork(m)
                                .cavity("oxygen drain", 101325, 288, OXYGEN)
                                .solved())))
                .as("no pressure to compress it")
                .isEmpty();
        assertThat(OxygenRules.deadEnds(Pumps.setting(
                        m,
                        Fakes.atWork(m).cavity("oxygen drain", 1e6, 288, HELIUM).solved())))
                .isEmpty();
        assertThat(OxygenRules.deadEnds(pump(atWork()))).as("open").isEmpty();
    }

    @Test
    void metalsAreExemptUpToTheirPressureAndFromTheirThickness() {
        assertThat(OxygenMaterials.all()).isNotEmpty();
        for (OxygenMaterials.Material m : OxygenMaterials.all()) {
            assertThat(OxygenMaterials.exemptUpTo(m.name(), m.thickness())).isGreaterThanOrEqualTo(m.pressure());
            if (m.pressure() > 0) {
                assertThat(OxygenMaterials.exemptAt(m.pressure() * 0.999)).contains(m.name());
            }
        }
        assertThat(OxygenMaterials.exemptUpTo("cheese", 1)).isZero();
        assertThat(OxygenMaterials.exemptAt(1e9)).isEqualTo("none in the table");
    }

    // --- axial force

    @Test
    @DisplayName("|dF| <= sum of pi (ro^2 - ri^2) |dp|")
    void theChangeOfAxialForceAgainstTheBearing() {
        Case m = Fakes.pump();
        m = Pumps.cavity(m, Pumps.disc(m.cavity("hot drain"), 0.03, 0.05));
        m = Pumps.cavity(m, Pumps.disc(m.cavity("barrier"), 0, 0.01));
        Converged after = Fakes.atWork(m)
                .cavity("hot drain", 0.7e6, 700, METHANE)
                .cavity("barrier", 1.6e6, 288, HELIUM)
                .solved();
        double a = Math.PI * (0.0025 - 0.0009) * 0.5e6;
        double b = Math.PI * 1e-4 * 0.1e6;
        Finding f = axial(m, after, 4000);
        assertThat(f.value()).isCloseTo(a + b, within(1e-9));
        assertThat(f.margin()).isCloseTo((4000 - a - b) / 4000, within(1e-12));
        assertThat(f.what()).endsWith("hot drain");
        assertThat(f.how()).contains("at least " + Math.round(a - b) + " N");
        // Between the bounds nobody knows; below the lower one it surely falls short.
        assertThat(axial(m, after, a).verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(axial(m, after, a - b - 1).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(axial(m, after, a - b + 1e-6).verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(axial(m, after, a + b + 1e-6).verdict()).isEqualTo(Verdict.THIN);
        assertThat(AxialForce.judge(Pumps.setting(m, Fakes.atWork(m).solved()), after, Scene.of("p")))
                .as("no capacity stated")
                .isEmpty();
        Case flat = Fakes.pump();
        assertThat(AxialForce.judge(
                        Pumps.setting(
                                flat,
                                Fakes.atWork(flat).solved(),
                                null,
                                Criteria.of(Map.of("axial force capacity", 1.0))),
                        after,
                        Scene.of("p")))
                .as("no disc")
                .isEmpty();
    }

    /** The drain's pressure rises by 0.5 MPa, the barrier's falls by 0.1. */
    @Test
    void facesThatSayWhichWayTheyLookAddUpExactly() {
        double a = Math.PI * (0.0025 - 0.0009) * 0.5e6;
        double b = Math.PI * 1e-4 * 0.1e6;
        Finding same = looking(Cavity.Looks.FORWARD, Cavity.Looks.FORWARD, 1e6);
        assertThat(same.value()).isCloseTo(a - b, within(1e-9));
        assertThat(same.how()).endsWith("added with the way each looks");
        assertThat(looking(Cavity.Looks.FORWARD, Cavity.Looks.AFT, 1e6).value()).isCloseTo(a + b, within(1e-9));
        // One that does not say counts with the sign that hurts.
        assertThat(looking(Cavity.Looks.FORWARD, Cavity.Looks.UNSTATED, 1e6).value())
                .isCloseTo(a + b, within(1e-9));
        assertThat(looking(Cavity.Looks.FORWARD, Cavity.Looks.UNSTATED, a).verdict())
                .isEqualTo(Verdict.NOT_ESTABLISHED);
        // No doubt is left between the bounds.
        assertThat(looking(Cavity.Looks.AFT, Cavity.Looks.AFT, a - b - 1).verdict())
                .isEqualTo(Verdict.FALLS_SHORT);
        assertThat(looking(Cavity.Looks.AFT, Cavity.Looks.AFT, a - b + 1).verdict())
                .isEqualTo(Verdict.THIN);
        assertThat(looking(Cavity.Looks.FORWARD, Cavity.Looks.AFT, a + b - 1).verdict())
                .isEqualTo(Verdict.FALLS_SHORT);
    }

    private static Finding looking(Cavity.Looks drain, Cavity.Looks barrier, double capacity) {
        Case m = Fakes.pump();
        m = Pumps.cavity(m, Pumps.disc(m.cavity("hot drain"), 0.03, 0.05, drain));
        m = Pumps.cavity(m, Pumps.disc(m.cavity("barrier"), 0, 0.01, barrier));
        Converged after = Fakes.atWork(m)
                .cavity("hot drain", 0.7e6, 700, METHANE)
                .cavity("barrier", 1.6e6, 288, HELIUM)
                .solved();
        return axial(m, after, capacity);
    }

    private static Finding axial(Case m, Converged after, double capacity) {
        List<Finding> all = AxialForce.judge(
                Pumps.setting(m, Fakes.atWork(m).solved(), null, Criteria.of(Map.of("axial force capacity", capacity))),
                after,
                Scene.of("p"));
        assertThat(all).hasSize(1);
        return all.get(0);
    }
}
