package purgewright.hazard.barrier;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.passage.PassageType.SealKind;

@DisplayName("Where barriers are, how many stand between two streams, and which streams must not meet")
class BarriersTest {
    private static StreamTable streams(Case m) {
        return StreamTable.of(new Fakes.Engine().mixer(m.streams()));
    }

    private static SealKind kind(PassageSpec p) {
        return switch (p.type()) {
            case "floating ring", "face" -> SealKind.CLOSE;
            case "labyrinth", "rim" -> SealKind.OPEN;
            default -> SealKind.DUCT;
        };
    }

    private static BarrierLayout layout(Case m) {
        return BarrierLayout.of(m, streams(m), BarriersTest::kind);
    }

    private static List<String> names(List<PassageSpec> passages) {
        return passages.stream().map(PassageSpec::name).toList();
    }

    @Test
    void thePumpHasOneBarrierFedFromItsBottle() {
        Case m = Fakes.pump();
        BarrierLayout l = layout(m);
        assertThat(l.sources()).containsExactly("bottle");
        assertThat(l.supply()).containsExactly("bottle", "inlet");
        assertThat(l.units()).containsExactly(Set.of("barrier"));
        assertThat(l.feeds()).containsExactlyInAnyOrderEntriesOf(Map.of("valve", true, "metering", true));
        assertThat(names(l.boundary(m, Set.of("barrier")))).containsExactly("ring A", "ring B");
        assertThat(l.inertFed("barrier")).isTrue();
        assertThat(l.inertFed("inlet")).isTrue();
        assertThat(l.inertFed("hot drain")).isFalse();
        assertThat(l.barrierCavities()).containsExactly("barrier");
    }

    @Test
    void aFeedDrawnTheOtherWayRoundRunsFromItsToEnd() {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("metering", "barrier", "inlet", "orifice"));
        assertThat(layout(m).feeds()).containsEntry("metering", false).containsEntry("valve", true);
    }

    @Test
    void aShutValveDoesNotUnmakeABarrierButAShutSealIsNoBoundary() {
        Case m = Fakes.pump();
        Case shut = Pumps.passage(m, Pumps.closed(m.passage("valve")));
        assertThat(layout(shut).units()).containsExactly(Set.of("barrier"));
        Case sealed = Pumps.passage(m, Pumps.closed(m.passage("ring A")));
        assertThat(names(layout(sealed).boundary(sealed, Set.of("barrier")))).containsExactly("ring B");
    }

    @Test
    void aCrossFeedBetweenTwoUsersAtOneDistanceCountsTheSupplySideAsSource() {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.free("second", Role.BARRIER));
        m = Pumps.cavity(m, Fakes.free("stub", Role.SUPPLY));
        m = Pumps.passage(m, Fakes.passage("feed 2", "inlet", "second", "orifice"));
        m = Pumps.passage(m, Fakes.passage("feed 3", "inlet", "stub", "orifice"));
        Case ab = Pumps.passage(m, Fakes.passage("cross", "stub", "second", "line"));
        assertThat(layout(ab).feeds()).containsEntry("cross", true);
        Case ba = Pumps.passage(m, Fakes.passage("cross", "second", "stub", "line"));
        assertThat(layout(ba).feeds()).containsEntry("cross", false);
        // Joined directly they are one unit.
        Case joined = Pumps.passage(m, Fakes.passage("joint", "second", "barrier", "labyrinth"));
        assertThat(layout(joined).units()).containsExactly(Set.of("barrier", "second"));
        assertThat(names(layout(joined).boundary(joined, Set.of("barrier", "second"))))
                .containsExactly("ring A", "ring B");
        assertThat(layout(m).units()).containsExactly(Set.of("barrier"), Set.of("second"));
    }

    @ParameterizedTest
    @EnumSource(
            value = Role.class,
            names = {"VENT", "DRAIN", "BEARING"})
    void aVentADrainAndABearingGiveNoBarrierGas(Role role) {
        Case m = Fakes.pump();
        m = Pumps.cavity(m, Pumps.role(m.cavity("bottle"), role));
        assertThat(layout(m).sources()).isEmpty();
        assertThat(layout(m).units()).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(
            value = Role.class,
            names = {"DRAIN", "VENT", "OXIDIZER", "FUEL", "HOT_GAS"})
    void inertGasLedIntoADrainOrAWorkingCavityMakesNoBarrierOfIt(Role role) {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.free("barrier", role));
        assertThat(layout(m).units()).isEmpty();
        assertThat(layout(m).supply()).containsExactly("bottle", "inlet");
    }

    @Test
    void aFedCavityWithoutASealIsSupplyUnlessItIsCalledBarrier() {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.free("stub", Role.OTHER));
        m = Pumps.passage(m, Fakes.passage("feed 2", "inlet", "stub", "orifice"));
        assertThat(layout(m).supply()).contains("stub");
        Case called = Pumps.cavity(m, Fakes.free("stub", Role.BARRIER));
        assertThat(layout(called).units()).contains(Set.of("stub"));
        Case sealed = Pumps.passage(m, Fakes.passage("ring", "stub", "hot drain", "floating ring"));
        assertThat(layout(sealed).units()).contains(Set.of("stub"));
    }

    @Test
    void theOtherEndOfAPassage() {
        PassageSpec p = Fakes.passage("p", "a", "b", "line");
        assertThat(BarrierLayout.other(p, "a")).isEqualTo("b");
        assertThat(BarrierLayout.other(p, "b")).isEqualTo("a");
        assertThat(BarrierLayout.other(p, "c")).isNull();
    }

    @Test
    void aUnitLosesTheCavitiesBehindABadPassageOneAfterTheOther() {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.free("second", Role.BARRIER));
        m = Pumps.passage(m, Fakes.passage("ring B", "second", "hot drain", "floating ring"));
        m = Pumps.passage(m, Fakes.passage("joint", "barrier", "second", "labyrinth"));
        m = Pumps.passage(m, Fakes.passage("feed 2", "inlet", "second", "orifice"));
        Case model = m;
        BarrierLayout l = layout(m);
        assertThat(BarrierCount.holding(model, l, (p, inside) -> true)).containsExactly(Set.of("barrier", "second"));
        assertThat(BarrierCount.holding(model, l, (p, inside) -> !p.name().equals("ring B")))
                .containsExactly(Set.of("barrier"));
        // Once the joint is a boundary it is judged too.
        assertThat(BarrierCount.holding(
                        model,
                        l,
                        (p, inside) -> !p.name().equals("ring B") && !p.name().equals("joint")))
                .isEmpty();
        List<String> asked = new ArrayList<>();
        BarrierCount.holding(model, l, (p, inside) -> asked.add(p.name() + " from " + inside));
        assertThat(asked).containsExactly("ring A from barrier", "ring B from second");
    }

    @Test
    void theCountIsThatOfTheWeakestPathAndAWayAroundCountsNothing() {
        Case m = Fakes.pump();
        BarrierCount one = BarrierCount.between(m, "feed oxygen", "drive gas", List.of(Set.of("barrier")));
        assertThat(one.count()).isEqualTo(1);
        assertThat(one.path()).containsExactly("pump", "oxygen drain", "barrier", "hot drain", "turbine");
        assertThat(BarrierCount.between(m, "feed oxygen", "drive gas", List.of())
                        .count())
                .isZero();
        Case around = Pumps.passage(m, Fakes.passage("leak", "oxygen drain", "hot drain", "line"));
        BarrierCount none = BarrierCount.between(around, "feed oxygen", "drive gas", List.of(Set.of("barrier")));
        assertThat(none.count()).isZero();
        assertThat(none.path()).containsExactly("pump", "oxygen drain", "hot drain", "turbine");
        Case shut = Pumps.passage(around, Pumps.closed(around.passage("leak")));
        assertThat(BarrierCount.between(shut, "feed oxygen", "drive gas", List.of(Set.of("barrier")))
                        .count())
                .isEqualTo(1);
    }

    @Test
    void aPathThroughTwoUnitsCountsTwoAndAUnitCountsOnceHoweverManyOfItsCavitiesAreCrossed() {
        Case m = Pumps.cavity(Fakes.pump(), Fakes.free("second", Role.BARRIER));
        m = Pumps.passage(m, Fakes.passage("ring B", "second", "hot drain", "floating ring"));
        m = Pumps.passage(m, Fakes.passage("joint", "barrier", "second", "labyrinth"));
        assertThat(BarrierCount.between(m, "feed oxygen", "drive gas", List.of(Set.of("barrier", "second")))
                        .count())
                .isEqualTo(1);
        assertThat(BarrierCount.between(m, "feed oxygen", "drive gas", List.of(Set.of("barrier"), Set.of("second")))
                        .count())
                .isEqualTo(2);
        // Entering, leaving and entering another again.
        Case far = Pumps.cavity(m, Fakes.free("middle", Role.DRAIN));
        far = Pumps.passage(far, Fakes.passage("joint", "barrier", "middle", "labyrinth"));
        far = Pumps.passage(far, Fakes.passage("joint 2", "second", "middle", "labyrinth"));
        assertThat(BarrierCount.between(far, "feed oxygen", "drive gas", List.of(Set.of("barrier", "second")))
                        .count())
                .as("one supply, one unit: but met twice")
                .isEqualTo(2);
    }

    @Test
    void withoutAPathTheTwoAreUnconnected() {
        Case m = Fakes.pump();
        Case parted = Pumps.passage(m, Pumps.closed(m.passage("hot seal")));
        assertThat(BarrierCount.between(parted, "feed oxygen", "drive gas", List.of()))
                .isEqualTo(BarrierCount.UNCONNECTED);
        assertThat(BarrierCount.UNCONNECTED.count()).isEqualTo(Integer.MAX_VALUE);
    }

    @Test
    void pairsAreMadeFromElementsNotFromRoles() {
        Case m = Fakes.pump();
        assertThat(Pair.of(m, streams(m))).containsExactly(new Pair("feed oxygen", "drive gas", true));
        assertThat(new Pair("a", "b", false).name()).isEqualTo("a | b");
        // Hydrogen and methane only contaminate each other.
        Case fuels = Pumps.stream(m, new StreamDefinition.Single("feed oxygen", "hydrogen"));
        assertThat(Pair.of(fuels, streams(fuels))).containsExactly(new Pair("feed oxygen", "drive gas", false));
        Case turned = Pumps.stream(fuels, new StreamDefinition.Single("drive gas", "oxygen"));
        assertThat(Pair.of(turned, streams(turned))).containsExactly(new Pair("feed oxygen", "drive gas", true));
        Case alike = Pumps.stream(m, new StreamDefinition.Single("drive gas", "oxygen"));
        assertThat(Pair.of(alike, streams(alike))).as("one fluid").isEmpty();
        Case contaminating =
                Pumps.stream(m, new StreamDefinition.Mix("drive gas", Map.of("oxygen", 0.5, "argon", 0.5), true));
        assertThat(Pair.of(contaminating, streams(contaminating)))
                .containsExactly(new Pair("feed oxygen", "drive gas", false));
    }

    @Test
    void namesOfOneSpeciesAreOneFluid() {
        StreamTable t = StreamTable.of(Map.of(
                "pumped", Map.of("parahydrogen", 1.0),
                "drive", Map.of("hydrogen", 0.6, "orthohydrogen", 0.4),
                "other", Map.of("hydrogen", 0.99, "helium", 0.01)));
        assertThat(t.same("pumped", "drive")).isTrue();
        assertThat(t.same("pumped", "other")).isFalse();
    }

    @Test
    void aFuelAloneIsHeldAgainstTheAirBehindABarrierAndNotAgainstItsOwnVent() {
        Case m = Pumps.stream(Fakes.pump(), new StreamDefinition.Single("feed oxygen", "methane"));
        Pair pair = new Pair("feed oxygen", Case.AIR, true);
        assertThat(Pair.of(m, streams(m))).containsExactly(pair, new Pair("drive gas", Case.AIR, true));
        assertThat(pair.withAir()).isTrue();
        assertThat(new Pair("feed oxygen", "drive gas", true).withAir()).isFalse();
        // The vent of its own drain is where it is meant to go; the one beyond the barrier is not.
        BarrierCount one = BarrierCount.between(m, pair, layout(m), List.of(Set.of("barrier")));
        assertThat(one.count()).isEqualTo(1);
        assertThat(one.path()).containsExactly("pump", "oxygen drain", "barrier", "hot drain", "fuel vent");
        assertThat(BarrierCount.between(m, pair, layout(m), List.of()).count()).isZero();
        Case parted = Pumps.passage(m, Pumps.closed(m.passage("ring B")));
        assertThat(BarrierCount.between(parted, pair, layout(parted), List.of(Set.of("barrier"))))
                .as("no vent behind a barrier")
                .isEqualTo(BarrierCount.UNCONNECTED);
        Pair plain = new Pair("feed oxygen", "drive gas", true);
        assertThat(BarrierCount.between(Fakes.pump(), plain, layout(Fakes.pump()), List.of(Set.of("barrier")))
                        .count())
                .isEqualTo(1);
    }

    @Test
    void whatAVentIsStatedToHoldIsAPartnerOfWhatItReactsWith() {
        Case m = Pumps.stream(Fakes.pump(), new StreamDefinition.Single("drive gas", "nitrogen"));
        m = Pumps.stream(m, new StreamDefinition.Single("flare gas", "hydrogen"));
        m = Pumps.cavity(m, Fakes.fixed("oxygen vent", Role.VENT, "flare gas", 101325, 288));
        Pair flare = new Pair("feed oxygen", "flare gas", true);
        assertThat(Pair.of(m, streams(m))).containsExactly(new Pair("feed oxygen", "drive gas", false), flare);
        assertThat(BarrierCount.between(m, flare, layout(m), List.of(Set.of("barrier"))))
                .as("the drain's own line leads there")
                .isEqualTo(new BarrierCount(0, List.of("pump", "oxygen drain", "oxygen vent")));
        // Two fuels in one flare are its purpose, and air by another name makes no pair.
        Case fuels = Pumps.stream(m, new StreamDefinition.Single("feed oxygen", "methane"));
        assertThat(Pair.of(fuels, streams(fuels))).noneMatch(p -> p.second().equals("flare gas"));
        Case yard =
                Pumps.stream(m, new StreamDefinition.Mix("flare gas", Map.of("oxygen", 0.2, "nitrogen", 0.8), true));
        assertThat(Pair.of(yard, streams(yard))).noneMatch(p -> p.second().equals("flare gas"));
        // A fuel alone keeps its pair with the air, whatever stands in a vent.
        Case alone = Pumps.stream(Fakes.pump(), new StreamDefinition.Single("feed oxygen", "methane"));
        alone = Pumps.stream(alone, new StreamDefinition.Single("stack", "oxygen"));
        alone = Pumps.cavity(alone, Fakes.fixed("oxygen vent", Role.VENT, "stack", 101325, 288));
        assertThat(Pair.of(alone, streams(alone)))
                .contains(new Pair("feed oxygen", Case.AIR, true), new Pair("feed oxygen", "stack", true));
    }

    @Test
    void anOxidizerAloneIsHeldAgainstNothing() {
        Case m = Pumps.stream(Fakes.pump(), new StreamDefinition.Single("drive gas", "oxygen"));
        assertThat(Pair.of(m, streams(m))).isEmpty();
    }

    @Test
    void aStreamIsWhatItsElementsAre() {
        assertThat(StreamKind.of(Map.of("oxygen", 1.0))).isEqualTo(StreamKind.OXIDIZER);
        assertThat(StreamKind.of(Map.of("methane", 1.0))).isEqualTo(StreamKind.FUEL);
        assertThat(StreamKind.of(Map.of("helium", 1.0))).isEqualTo(StreamKind.INERT);
        assertThat(StreamKind.of(Map.of("nitrogen", 0.79, "oxygen", 0.21))).isEqualTo(StreamKind.OXIDIZER);
        // CH4 + 2 O2: balanced is inert by its elements, whatever a spark does.
        assertThat(StreamKind.oxygenDemand(Map.of("methane", 1.0 / 3, "oxygen", 2.0 / 3)))
                .isCloseTo(0, within(1e-12));
        assertThat(StreamKind.oxygenDemand(Map.of("methane", 1.0))).isEqualTo(2);
        assertThat(StreamKind.oxygenDemand(Map.of("hydrogen", 1.0))).isEqualTo(0.5);
        assertThat(StreamKind.oxygenDemand(Map.of("oxygen", 0.5, "helium", 0.5)))
                .isEqualTo(-0.5);
        // The trace is a part in a thousand of oxygen taken or given, itself inert.
        assertThat(StreamKind.of(Map.of("oxygen", 0.001, "helium", 0.999))).isEqualTo(StreamKind.INERT);
        assertThat(StreamKind.of(Map.of("oxygen", 0.0011, "helium", 0.9989))).isEqualTo(StreamKind.OXIDIZER);
        assertThat(StreamKind.of(Map.of("hydrogen", 0.002, "helium", 0.998))).isEqualTo(StreamKind.INERT);
        assertThat(StreamKind.of(Map.of("hydrogen", 0.0021, "helium", 0.9979))).isEqualTo(StreamKind.FUEL);
        assertThatThrownBy(() -> StreamKind.of(Map.of("unobtainium", 1.0)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("unobtainium");
    }

    @Test
    void streamsAreComparedWithinAPartInAThousand() {
        StreamTable t = StreamTable.of(Map.of(
                "a", Map.of("oxygen", 0.21, "nitrogen", 0.79),
                "b", Map.of("oxygen", 0.2109, "nitrogen", 0.7891),
                "c", Map.of("oxygen", 0.212, "nitrogen", 0.788),
                "helium", Map.of("helium", 1.0),
                "argon", Map.of("argon", 1.0),
                "odd", Map.of("unobtainium", 1.0)));
        assertThat(t.same("a", "b")).isTrue();
        assertThat(t.same("a", "c")).isFalse();
        assertThat(t.same("a", "a")).isTrue();
        assertThat(t.same("helium", "argon")).isFalse();
        assertThat(t.inert("helium")).isTrue();
        assertThat(t.inert("a")).isFalse();
        assertThat(t.inert("odd")).isFalse();
        assertThat(t.kinds()).doesNotContainKey("odd");
        assertThat(t.unknown()).containsOnlyKeys("odd");
        assertThat(t.burners()).isEmpty();
        assertThat(t.inertShare(Map.of("helium", 0.3, "argon", 0.2, "a", 0.5))).isCloseTo(0.5, within(1e-15));
        assertThat(t.inertShare(Map.of())).isZero();
    }
}
