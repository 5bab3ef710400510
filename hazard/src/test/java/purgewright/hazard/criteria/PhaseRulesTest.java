package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.Converged;

@DisplayName(
        "Condensing, freezing, air on cold lines, gas hotter than its burner: on the limit and on both sides of it")
class PhaseRulesTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final PureFluid NITROGEN = ENGINE.pure("nitrogen");
    private static final Map<String, Double> PURGE = Map.of("barrier gas", 1.0);

    private static Setting setting(PropertyEngine engine, Case m, Converged solved) {
        StreamTable streams = StreamTable.of(new Fakes.Engine().mixer(m.streams()));
        return Setting.of(
                engine,
                m,
                solved,
                solved,
                Criteria.DEFAULT,
                streams,
                Setting.layout(m, solved, streams),
                Scene.of("steady"));
    }

    private static Case purgedWithNitrogen() {
        return Pumps.stream(Fakes.pump(), new StreamDefinition.Single("barrier gas", "nitrogen"));
    }

    private static List<Finding> condensing(PropertyEngine engine, Case m, double drain, double pressure) {
        Converged solved = Fakes.atWork(m)
                .cavity("barrier", pressure, 288, PURGE)
                .cavity("oxygen drain", 0.2e6, drain, Map.of("feed oxygen", 1.0))
                .solved();
        return PhaseRules.condensing(setting(engine, m, solved));
    }

    // --- air

    @ParameterizedTest
    @ValueSource(doubles = {30e3, 101325, 300e3})
    void theFirstDropsOfAirHoldBothVapourPressures(double pressure) {
        PhaseRules.AirDew dew = PhaseRules.airDew(ENGINE, pressure);
        double oxygen = 0.2095 * pressure / ENGINE.pure("oxygen").saturationPressure(dew.temperature());
        double nitrogen = 0.7905 * pressure / NITROGEN.saturationPressure(dew.temperature());
        assertThat(oxygen + nitrogen).isCloseTo(1, within(1e-9));
        assertThat(dew.oxygen()).isCloseTo(oxygen, within(1e-12));
    }

    // --- purge that condenses

    @Test
    void nitrogenBesideALiquidOxygenDrainIsJudgedAtTheColdestNeighbour() {
        double limit = NITROGEN.saturationPressure(94);
        Finding f = only(condensing(ENGINE, purgedWithNitrogen(), 94, 1.7e6));
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.value()).isEqualTo(1.7e6);
        assertThat(f.limit()).isEqualTo(limit);
        assertThat(f.unit()).isEqualTo("Pa");
        assertThat(f.where()).isEqualTo("/cavities/barrier");
        assertThat(f.what()).contains("nitrogen").contains("oxygen drain");
        assertThat(f.how()).contains("in barrier").contains("of oxygen drain");
        assertThat(only(condensing(ENGINE, purgedWithNitrogen(), 94, 0.5 * limit))
                        .verdict())
                .isEqualTo(Verdict.HOLDS);
        assertThat(only(condensing(ENGINE, purgedWithNitrogen(), 94, limit)).verdict())
                .as("on the limit, without margin")
                .isEqualTo(Verdict.THIN);
    }

    @Test
    void aboveTheCriticalTemperatureThereIsNothingToCondense() {
        double critical = NITROGEN.criticalTemperature();
        assertThat(condensing(ENGINE, purgedWithNitrogen(), critical, 1.7e6)).isEmpty();
        assertThat(condensing(ENGINE, purgedWithNitrogen(), critical - 0.01, 1.7e6))
                .hasSize(1);
        assertThat(condensing(ENGINE, purgedWithNitrogen(), 288, 1.7e6)).isEmpty();
    }

    @Test
    void belowTheTriplePointItFreezes() {
        double triple = NITROGEN.tripleTemperature();
        Finding f = only(condensing(ENGINE, purgedWithNitrogen(), triple - 0.01, 1e3));
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.value()).isEqualTo(triple - 0.01);
        assertThat(f.limit()).isEqualTo(triple);
        assertThat(f.margin()).isEqualTo(-1);
        assertThat(f.unit()).as("two temperatures are compared").isEqualTo("K");
        assertThat(f.how()).contains("triple point of nitrogen");
        assertThat(f.what()).contains("can freeze at oxygen drain");
        assertThat(only(condensing(ENGINE, purgedWithNitrogen(), triple, 1e3)).what())
                .contains("against condensing");
    }

    @Test
    void aTraceIsNotAskedAndAPartCountsByItsPartialPressure() {
        for (double share : new double[] {0.005, 0.02}) {
            Case m = Pumps.stream(
                    Fakes.pump(),
                    new StreamDefinition.Mix("barrier gas", Map.of("helium", 1 - share, "nitrogen", share), true));
            List<Finding> found = condensing(ENGINE, m, 94, 1.7e6);
            if (share < 0.01) {
                assertThat(found).isEmpty();
            } else {
                assertThat(only(found).value()).isCloseTo(0.02 * 1.7e6, within(1e-3));
            }
        }
        assertThat(condensing(ENGINE, Fakes.pump(), 60, 1.7e6)).as("helium").isEmpty();
    }

    @Test
    void aGasOfWhichNothingIsKnownIsNotEstablishedBesideTheCold() {
        PropertyEngine none = new Fakes.Engine();
        Finding f = only(condensing(none, purgedWithNitrogen(), 249.9, 1.7e6));
        assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(f.value()).isEqualTo(249.9);
        assertThat(f.limit()).isNaN();
        assertThat(f.unit()).isEqualTo("K");
        assertThat(f.what()).contains("nitrogen").contains("oxygen drain");
        assertThat(condensing(none, purgedWithNitrogen(), 250, 1.7e6)).isEmpty();
        assertThat(condensing(none, Fakes.pump(), 94, 1.7e6)).as("helium").isEmpty();
    }

    @Test
    void aShutPassageIsNoNeighbourAndAWallIsOneEitherWay() {
        Case m = purgedWithNitrogen();
        Case shut = Pumps.passage(m, Pumps.closed(m.passage("ring A")));
        assertThat(condensing(ENGINE, shut, 94, 1.7e6)).isEmpty();
        Case wall = Pumps.cavity(shut, Pumps.wall(shut.cavity("barrier"), "pump"));
        assertThat(only(condensing(ENGINE, wall, 94, 1.7e6)).how()).contains("of pump");
        Case other = Pumps.cavity(shut, Pumps.wall(shut.cavity("pump"), "barrier"));
        assertThat(only(condensing(ENGINE, other, 94, 1.7e6)).limit()).isEqualTo(NITROGEN.saturationPressure(97));
        Case elsewhere = Pumps.cavity(shut, Pumps.wall(shut.cavity("pump"), "hot drain"));
        assertThat(condensing(ENGINE, elsewhere, 94, 1.7e6)).isEmpty();
    }

    // --- neighbours that freeze

    private static List<Finding> freezing(double pump, double methane) {
        Case m = Fakes.pump();
        Converged solved = Fakes.atWork(m)
                .cavity("pump", 2.6e6, pump, Map.of("feed oxygen", 1.0))
                .cavity("oxygen drain", 0.2e6, 300, Map.of("drive gas", methane, "barrier gas", 1 - methane))
                .solved();
        return PhaseRules.freezingNeighbours(setting(ENGINE, m, solved));
    }

    @Test
    void liquidOxygenThatFreezesMethaneBesideIt() {
        double triple = ENGINE.pure("methane").tripleTemperature();
        Finding f = only(freezing(90, 0.5));
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.where()).isEqualTo("/cavities/oxygen drain");
        assertThat(f.value()).isEqualTo(90);
        assertThat(f.limit()).isEqualTo(triple);
        assertThat(f.what()).isEqualTo("pump is cold enough to freeze methane in oxygen drain");
        assertThat(freezing(triple, 0.5)).isEmpty();
        assertThat(freezing(97, 0.5)).isEmpty();
        assertThat(freezing(triple - 1e-6, 0.5)).hasSize(1);
        assertThat(freezing(90, 0.01)).as("0.3 % by mole").isEmpty();
        assertThat(freezing(130, 0.5)).as("no liquid").isEmpty();
    }

    /** Liquid in the oxygen drain, colder than nitrogen's triple point, beside the vent full of air. */
    private static List<Finding> drained(Case m, double flow, double velocity) {
        Converged solved = Fakes.atWork(m)
                .cavity("oxygen drain", 0.2e6, 60, Map.of("feed oxygen", 1.0))
                .flow("oxygen line", flow)
                .velocity("oxygen line", velocity)
                .solved();
        return PhaseRules.freezingNeighbours(setting(ENGINE, m, solved)).stream()
                .filter(f -> f.where().equals("/cavities/oxygen vent"))
                .toList();
    }

    @Test
    void aSteadyOutflowKeepsTheAirOfAVentAwayFromTheCold() {
        Case m = Fakes.pump();
        Finding kept = only(drained(m, 0.35, 5));
        assertThat(kept.verdict()).isEqualTo(Verdict.THIN);
        assertThat(kept.what()).isEqualTo("oxygen drain is cold enough to freeze nitrogen in oxygen vent");
        assertThat(kept.caution()).contains("5 m/s").contains("[invented]").contains("ice");
        assertThat(kept.margin()).isNaN();
        assertThat(only(drained(m, 0.35, 4.99)).verdict()).as("too slow").isEqualTo(Verdict.FALLS_SHORT);
        assertThat(only(drained(m, 0, 0)).verdict()).as("at rest").isEqualTo(Verdict.FALLS_SHORT);
        assertThat(only(drained(m, -0.35, -50)).verdict()).as("inward").isEqualTo(Verdict.FALLS_SHORT);
        // Every open passage must: a second line at rest lets the air in. A wall is kept from by nothing.
        Case two = Pumps.passage(m, Fakes.passage("second line", "oxygen vent", "oxygen drain", "line"));
        assertThat(only(drained(two, 0.35, 50)).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Case wall = Pumps.cavity(m, Pumps.wall(m.cavity("oxygen vent"), "oxygen drain"));
        assertThat(only(drained(wall, 0.35, 50)).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        // A neighbour that is no vent is not kept out by its own leak: the two mix there.
        assertThat(only(freezing(90, 0.5)).verdict()).isEqualTo(Verdict.FALLS_SHORT);
    }

    // --- air on lines

    private static List<Finding> lines(PropertyEngine engine, Case m, double temperature) {
        Converged solved = Fakes.atWork(m)
                .cavity("oxygen drain", 0.2e6, temperature, Map.of("feed oxygen", 1.0))
                .solved();
        return PhaseRules.coldLines(setting(engine, m, solved));
    }

    @Test
    void airLiquefiesOnALineColderThanItsDewPoint() {
        PhaseRules.AirDew dew = PhaseRules.airDew(ENGINE, 101325);
        assertThat(dew.temperature()).isBetween(81.0, 82.5);
        Finding f = only(lines(ENGINE, Fakes.pump(), 80));
        assertThat(f.verdict()).isEqualTo(Verdict.THIN);
        assertThat(f.where()).isEqualTo("/passages/oxygen line");
        assertThat(f.value()).isEqualTo(80);
        assertThat(f.limit()).isEqualTo(dew.temperature());
        assertThat(f.caution()).contains(Math.round(100 * dew.oxygen()) + " mol % oxygen");
        assertThat(lines(ENGINE, Fakes.pump(), dew.temperature())).isEmpty();
        assertThat(lines(ENGINE, Fakes.pump(), dew.temperature() - 1e-6)).hasSize(1);
        assertThat(lines(ENGINE, Fakes.pump(), 288)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"81.9, true", "82, false", "109, false"})
    void withoutItsGasesThePublishedDewPointStands(double temperature, boolean found) {
        List<Finding> all = lines(new Fakes.Engine(), Fakes.pump(), temperature);
        assertThat(all).hasSize(found ? 1 : 0);
        if (found) {
            assertThat(all.get(0).limit()).isEqualTo(82);
            assertThat(all.get(0).caution()).contains("53 mol % oxygen");
        }
    }

    @Test
    void onlyLinesAndOnlySolvedOnesAreAsked() {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("oxygen line", "oxygen drain", "oxygen vent", "orifice"));
        assertThat(lines(ENGINE, m, 80)).isEmpty();
        Converged without = Pumps.without(
                Fakes.atWork(Fakes.pump())
                        .cavity("oxygen drain", 0.2e6, 80, Map.of("feed oxygen", 1.0))
                        .solved(),
                "oxygen line");
        assertThat(PhaseRules.coldLines(setting(ENGINE, Fakes.pump(), without))).isEmpty();
    }

    // --- hotter than the burner

    private static List<Finding> hotter(double temperature, double share) {
        Case m = Fakes.pump();
        Converged solved = Fakes.atWork(m)
                .cavity("hot drain", 0.2e6, temperature, Map.of("drive gas", share, "barrier gas", 1 - share))
                .solved();
        StreamTable known = StreamTable.of(new Fakes.Engine().mixer(m.streams()));
        StreamTable streams =
                new StreamTable(known.moleFractions(), known.kinds(), known.unknown(), Map.of("drive gas", 1000.0));
        return StreamRules.hotterThanBurner(Setting.of(
                ENGINE,
                m,
                solved,
                solved,
                Criteria.DEFAULT,
                streams,
                Setting.layout(m, solved, streams),
                Scene.of("steady")));
    }

    @Test
    void burntGasHotterThanItsBurnerIsNotEstablished() {
        Finding f = only(hotter(1155, 0.5));
        assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(f.where()).isEqualTo("/cavities/hot drain");
        assertThat(f.value()).isEqualTo(1155);
        assertThat(f.limit()).isEqualTo(1050);
        assertThat(f.margin()).isCloseTo(-0.1, within(1e-12));
        assertThat(hotter(1050, 0.5)).isEmpty();
        assertThat(hotter(1050.001, 0.5)).hasSize(1);
        assertThat(hotter(1155, 0.01)).isEmpty();
        assertThat(hotter(1155, 0.0101)).hasSize(1);
        assertThat(hotter(Double.NaN, 0.5)).as("what is no number fails").hasSize(1);
    }

    private static Finding only(List<Finding> found) {
        assertThat(found).hasSize(1);
        return found.get(0);
    }
}
