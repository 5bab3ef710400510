package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.flammability.Flame;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.LimitTable;
import purgewright.hazard.flammability.Species;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;

@DisplayName("Flammability on both sides of each of its limits, with the published limits as data")
class FlammabilityRulesTest {
    private static final double CP = 3.5 * 8.314462618;
    private static final double LOWER = 0.044; // methane in air, the least of the published
    private static final double LIMITING = 0.107; // methane in nitrogen, the least of the published

    private static Map<String, Double> mix(Object... parts) {
        Map<String, Double> x = new LinkedHashMap<>();
        double rest = 1;
        for (int i = 0; i + 1 < parts.length; i += 2) {
            x.put((String) parts[i], (Double) parts[i + 1]);
            rest -= (Double) parts[i + 1];
        }
        x.put((String) parts[parts.length - 1], rest);
        return x;
    }

    private static FlammabilityRules.Answer at(Map<String, Double> x, double t, double p, Criteria criteria) {
        return FlammabilityRules.assess(new FlammabilityRules.Mixture(x, t, p, CP, false, true), criteria);
    }

    private static FlammabilityRules.Answer at(Map<String, Double> x, double t, double p) {
        return at(x, t, p, Criteria.DEFAULT);
    }

    private static FlammabilityRules.Answer room(Map<String, Double> x) {
        return at(x, 298.15, 101325);
    }

    private static void is(double value, double expected) {
        assertThat(value).isCloseTo(expected, within(1e-9 * Math.abs(expected)));
    }

    @Test
    void theAllowedOxygenIsAShareOrADistanceByTheLimitAndByWhetherItIsMonitored() {
        Criteria monitored = Criteria.of(Map.of(Criteria.MONITORED, true));
        is(FlammabilityRules.allowed(0.107, Criteria.DEFAULT), 0.6 * 0.107);
        is(FlammabilityRules.allowed(0.107, monitored), 0.087);
        is(FlammabilityRules.allowed(0.046, Criteria.DEFAULT), 0.4 * 0.046);
        is(FlammabilityRules.allowed(0.046, monitored), 0.6 * 0.046);
        is(FlammabilityRules.allowed(0.05, Criteria.DEFAULT), 0.6 * 0.05);
        is(FlammabilityRules.allowed(0.05, monitored), 0.03);
    }

    @Test
    void belowOneInTenMillionFuelOrOxygenIsAbsent() {
        for (String which : new String[] {"methane", "oxygen"}) {
            String other = which.equals("methane") ? "oxygen" : "methane";
            FlammabilityRules.Answer a = room(mix(which, 0.5e-7, other, 0.3, "nitrogen"));
            is(a.value(), 0.5e-7);
            is(a.limit(), 1e-7);
            assertThat(a.margin()).isEqualTo(1);
            assertThat(room(mix(which, 0.9e-7, other, 0.3, "nitrogen")).margin())
                    .isEqualTo(Draft.THIN_MARGIN);
            assertThat(room(mix(which, 1.1e-7, other, 0.3, "nitrogen")).limit()).isNotEqualTo(1e-7);
        }
    }

    @Test
    void hydrocarbonInLiquidOxygenIsHeldToItsTraceUpToTheCriticalTemperature() {
        for (double x : new double[] {3e-6, 3e-5}) {
            Map<String, Double> mixture = mix("methane", x, "oxygen");
            FlammabilityRules.Answer still = FlammabilityRules.assess(
                    new FlammabilityRules.Mixture(mixture, 100, 1e6, Double.NaN, true, false), Criteria.DEFAULT);
            is(still.value(), x);
            is(still.limit(), 1e-5);
            is(still.margin(), 1 - x / 1e-5);
            assertThat(still.how()).startsWith("mole fraction of hydrocarbon");
            FlammabilityRules.Answer flows = FlammabilityRules.assess(
                    new FlammabilityRules.Mixture(mixture, 100, 1e6, Double.NaN, true, true), Criteria.DEFAULT);
            is(flows.margin(), Math.min(-1e-9, 1 - x / 1e-5));
            assertThat(flows.how()).contains("along the flow");
            assertThat(flows.caution()).contains("explode by shock");
        }
        FlammabilityRules.Answer warm = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(mix("methane", 3e-6, "oxygen"), 155, 1e6, CP, true, true),
                Criteria.DEFAULT);
        assertThat(warm.how()).doesNotContain("hydrocarbon");
        FlammabilityRules.Answer hydrogen = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(mix("hydrogen", 3e-6, "oxygen"), 100, 1e6, CP, true, true),
                Criteria.DEFAULT);
        assertThat(hydrogen.how()).doesNotContain("hydrocarbon");
        // more fuel than the oxygen takes: no liquid oxygen with a trace in it
        FlammabilityRules.Answer rich = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(mix("methane", 0.9, "oxygen"), 100, 1e6, CP, true, true),
                Criteria.DEFAULT);
        assertThat(rich.how()).doesNotContain("liquid oxygen");
    }

    @Test
    void theRiseWhenAllBurnsNeedsNoTable() {
        Map<String, Double> x = mix("methane", 0.5, "oxygen", 1e-4, "helium");
        FlammabilityRules.Answer a = room(x);
        double rise = Flammability.temperatureRise(x, CP);
        is(a.value(), rise);
        is(a.limit(), 50);
        is(a.margin(), 1 - rise / 50);
        assertThat(a.unit()).isEqualTo("K difference");
        assertThat(a.how()).endsWith("without dissociation");
        Map<String, Double> hot = mix("hydrogen", 0.66, "oxygen");
        FlammabilityRules.Answer burns = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(hot, 900, 1e6, CP, false, false), Criteria.DEFAULT);
        assertThat(burns.value()).isGreaterThan(3000);
        assertThat(burns.how()).contains("far below such a rise");
    }

    @Test
    void nearAutoignitionNoTableApplies() {
        // methane: 600 C less 100 K
        Map<String, Double> x = mix("methane", 0.6, "oxygen", 1e-4, "nitrogen");
        FlammabilityRules.Answer hot = at(x, 774, 0.2e6);
        assertThat(hot.margin()).isEqualTo(Math.min(-1e-9, 1 - Flammability.temperatureRise(x, CP) / 50));
        assertThat(hot.how()).startsWith("hot:");
        assertThat(hot.caution()).contains("no table applies");
        FlammabilityRules.Answer below = at(x, 772, 0.2e6);
        assertThat(below.margin()).isPositive();
        FlammabilityRules.Answer diffuses = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(x, 774, 0.2e6, CP, false, false), Criteria.DEFAULT);
        is(diffuses.margin(), 1 - Flammability.temperatureRise(x, CP) / 50);
        is(FlammabilityRules.autoignition(Map.of("methane", 0.1)), 873.15);
        is(FlammabilityRules.autoignition(Map.of("methane", 0.1, "hydrogen", 0.1)), 773.15);
        assertThat(FlammabilityRules.autoignition(Map.of("methane", 0.1, "H", 0.1)))
                .isNaN();
        is(FlammabilityRules.autoignition(Map.of("methane", 0.1, "H", 1e-8)), 873.15);
        FlammabilityRules.Answer untabled = room(mix("H", 0.1, "oxygen", 0.2, "nitrogen"));
        assertThat(untabled.margin() >= 0).isFalse();
    }

    @Test
    void fuelInAirIsHeldToAQuarterOfItsLowerLimitThatFallsWithTemperature() {
        double heat = Species.find("methane").heat();
        for (double t : new double[] {280, 298.15, 400, 470}) {
            double lower = t > 298.15 ? Flammability.lowerLimitAt(LOWER, t, heat) : LOWER;
            double x = 0.9 * 0.25 * lower;
            FlammabilityRules.Answer a = at(mix("methane", x, "oxygen", 0.2, "nitrogen"), t, 101325);
            is(a.value(), x);
            is(a.limit(), 0.25 * lower);
            is(a.margin(), 1 - x / (0.25 * lower));
            assertThat(a.source()).contains("methane: ");
        }
        // Le Chatelier of two
        double both =
                0.02 / (0.01 / 0.044 + 0.01 / LimitTable.lowerLimit("hydrogen").si());
        FlammabilityRules.Answer two = room(mix("methane", 0.002, "hydrogen", 0.002, "oxygen", 0.2, "nitrogen"));
        is(two.limit(), 0.25 * both);
        is(two.value(), 0.004);
        assertThat(two.source()).contains("methane: ").contains("; hydrogen: ");
    }

    @Test
    void oxygenAmongFuelIsHeldToItsShareOfTheLeastLimitingOxygen() {
        for (double oxygen : new double[] {0.05, 0.08}) {
            FlammabilityRules.Answer a = room(mix("methane", 0.3, "oxygen", oxygen, "nitrogen"));
            is(a.value(), oxygen);
            is(a.limit(), 0.6 * LIMITING);
            is(a.margin(), 1 - oxygen / (0.6 * LIMITING));
            assertThat(a.how()).contains("limiting oxygen of methane in nitrogen");
            assertThat(a.source()).startsWith(Criteria.DEFAULT.origin(Limit.OXYGEN_LIMIT_SHARE));
        }
        double hydrogen = LimitTable.limitingOxygen("hydrogen").si();
        assertThat(hydrogen).isLessThan(0.05);
        FlammabilityRules.Answer both = room(mix("methane", 0.3, "hydrogen", 0.1, "oxygen", 0.017, "nitrogen"));
        is(both.limit(), 0.4 * hydrogen);
        assertThat(both.how()).contains("of hydrogen in nitrogen");
        // no correction for temperature: up to 100 C, then not known
        Map<String, Double> x = mix("methane", 0.3, "oxygen", 0.05, "nitrogen");
        is(at(x, 373, 101325).limit(), 0.6 * LIMITING);
        assertThat(at(x, 374, 101325).margin()).isNaN();
        // Above both it burns, for certain.
        assertThat(room(mix("methane", 0.3, "oxygen", 0.12, "nitrogen")).margin())
                .isNegative();
        // helium: not tabled, a lower bound by the nitrogen equivalence
        Map<String, Double> helium = mix("methane", 0.30, "oxygen", 0.05, "helium");
        FlammabilityRules.Answer bound = room(helium);
        assertThat(bound.margin()).isNaN();
        is(
                bound.limit(),
                0.6
                        * Flammability.limitingOxygenBound(
                                LIMITING,
                                2,
                                Math.min(
                                        1,
                                        LimitTable.value("helium", LimitTable.Quantity.INERT_COEFFICIENT)
                                                .si())));
        assertThat(bound.how()).contains("in helium is not tabled");
        // a tenth of the inerts may be weaker
        assertThat(room(mix("methane", 0.30, "oxygen", 0.05, "helium", 0.06, "nitrogen"))
                        .margin())
                .isPositive();
        assertThat(room(mix("methane", 0.30, "oxygen", 0.05, "helium", 0.07, "nitrogen"))
                        .margin())
                .isNaN();
        assertThat(room(mix("methane", 0.30, "oxygen", 0.05, "helium", 0.1, "argon", 0.2, "nitrogen"))
                        .how())
                .contains("in argon is not tabled");
    }

    @Test
    void outsideTheTablesTheFlamesTemperatureCounts() {
        double[][] outside = {{272, 101325}, {474, 101325}, {300, 79e3}, {300, 121e3}};
        double[][] inside = {{274, 101325}, {472, 101325}, {300, 81e3}, {300, 119e3}};
        Map<String, Double> lean = mix("methane", 0.008, "oxygen", 0.2, "nitrogen");
        for (double[] s : outside) {
            FlammabilityRules.Answer a = at(lean, s[0], s[1]);
            double rise = Flame.temperature(lean, s[0], s[1]) - s[0];
            is(a.value(), rise);
            is(a.limit(), 0.25 * (1440 - Math.max(298.15, s[0])));
            is(a.margin(), 1 - rise / a.limit());
            assertThat(a.how()).contains("lower limit has");
            assertThat(a.how().contains("less what the mixture is warmer")).isEqualTo(s[0] > 298.15);
        }
        for (double[] s : inside) {
            assertThat(at(lean, s[0], s[1]).unit()).isEqualTo("1");
        }
        Map<String, Double> rich = mix("methane", 0.5, "oxygen", 0.05, "nitrogen");
        FlammabilityRules.Answer a = at(rich, 250, 0.5e6);
        double burnt = Flame.temperature(rich, 250, 0.5e6) - 250;
        double complete = Flammability.temperatureRise(rich, CP);
        is(a.value(), Math.max(burnt, complete));
        is(a.limit(), 0.6 * (1558 - 298.15));
        assertThat(a.how()).contains(burnt >= complete ? "by equilibrium" : "to equilibrium,");
        // hydrogen has the lower share
        Map<String, Double> hydrogen = mix("hydrogen", 0.5, "oxygen", 0.02, "nitrogen");
        is(at(hydrogen, 350, 0.5e6).limit(), 0.4 * (1042 - 350));
        // helium keeps to the limiting oxygen, which it has not
        assertThat(at(mix("methane", 0.5, "oxygen", 0.05, "helium"), 250, 0.5e6).margin())
                .isNaN();
        // liquid is not judged by tables
        FlammabilityRules.Answer liquid = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(lean, 298.15, 101325, CP, true, true), Criteria.DEFAULT);
        assertThat(liquid.unit()).isEqualTo("K difference");
    }

    @Test
    void belowItsFlashPointAFuelMayBeAMist() {
        Map<String, Double> x = mix("n-dodecane", 1e-4, "oxygen", 0.2, "nitrogen");
        assertThat(room(x).caution()).contains("n-dodecane is below its flash point");
        assertThat(at(x, 350, 101325).caution()).doesNotContain("flash point");
    }

    @Test
    void limitsOfDetonationAreSaidWhereTheyAreMet() {
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.3, "oxygen", 0.147, "nitrogen")))
                .contains("of hydrogen in air");
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.19, "oxygen", 0.17, "nitrogen")))
                .contains("in air");
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.17, "oxygen", 0.174, "nitrogen")))
                .isEmpty();
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.6, "oxygen", 0.084, "nitrogen")))
                .isEmpty();
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.5, "oxygen", 0.5, "nitrogen")))
                .contains("in oxygen");
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.14, "oxygen", 0.86, "nitrogen")))
                .isEmpty();
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.91, "oxygen", 0.09, "nitrogen")))
                .isEmpty();
        // too little oxygen of what is not fuel
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.1, "oxygen", 0.1, "nitrogen")))
                .isEmpty();
        assertThat(FlammabilityRules.detonable(mix("methane", 0.095, "oxygen", 0.19, "nitrogen")))
                .contains("of methane in air");
        assertThat(FlammabilityRules.detonable(mix("methane", 0.16, "oxygen", 0.176, "nitrogen")))
                .isEmpty();
        assertThat(FlammabilityRules.detonable(mix("nitrogen", 1.0, "helium"))).isEmpty();
    }

    private static Finding one(List<Finding> all, String place) {
        List<Finding> found =
                all.stream().filter(f -> f.where().endsWith("/" + place)).toList();
        assertThat(found).as(place).hasSize(1);
        return found.get(0);
    }

    @Test
    void everySolvedCavityIsJudgedAndAStatedOneThatHoldsBoth() {
        Case m = Fakes.pump();
        List<Finding> all =
                FlammabilityRules.cavities(Pumps.setting(m, Fakes.atWork(m).solved()));
        assertThat(all)
                .extracting(f -> f.where().substring(f.where().lastIndexOf('/') + 1))
                .containsExactlyInAnyOrder("oxygen drain", "barrier", "hot drain", "inlet");
        assertThat(one(all, "hot drain").what()).isEqualTo("Mixture in hot drain cannot burn");
        assertThat(one(all, "hot drain").verdict()).isEqualTo(Verdict.HOLDS);
        // a tenth of oxygen in the hot drain
        Fakes.Answer wet =
                Fakes.atWork(m).cavity("hot drain", 0.2e6, 700, Map.of("drive gas", 0.5, "feed oxygen", 0.5));
        Finding burns = one(FlammabilityRules.cavities(Pumps.setting(m, wet.solved())), "hot drain");
        assertThat(burns.what()).isEqualTo("Mixture in hot drain can burn or heat up too much");
        assertThat(burns.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(burns.mend()).contains("keep the scarcer");
        // a stated mixture of both
        Case stated =
                Pumps.stream(m, new StreamDefinition.Mix("drive gas", Map.of("methane", 0.4, "oxygen", 0.6), true));
        Finding turbine = one(
                FlammabilityRules.cavities(
                        Pumps.setting(stated, Fakes.atWork(stated).solved())),
                "turbine");
        assertThat(turbine.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        Case vent = Pumps.cavity(stated, Fakes.fixed("turbine", Role.VENT, "drive gas", 1.9e6, 960));
        assertThat(FlammabilityRules.cavities(
                        Pumps.setting(vent, Fakes.atWork(vent).solved())))
                .noneMatch(f -> f.where().endsWith("/turbine"));
    }

    @Test
    void whatArrivesAlongTheFlowIsToldFromWhatDiffuses() {
        // Hot drain at 900 K with a trace of oxygen that heats by less than 50 K: held if it came by diffusion alone.
        Case m = Fakes.pump();
        Map<String, Double> trace = Map.of("drive gas", 0.84, "barrier gas", 0.1599, "feed oxygen", 1e-4);
        Fakes.Answer pure = Fakes.atWork(m).cavity("hot drain", 0.2e6, 900, trace);
        Finding held = one(FlammabilityRules.cavities(Pumps.setting(m, pure.solved())), "hot drain");
        assertThat(held.verdict()).isNotEqualTo(Verdict.FALLS_SHORT);
        Fakes.Answer carried = Fakes.atWork(m)
                .cavity("hot drain", 0.2e6, 900, trace)
                .cavity("barrier", 1.7e6, 288, Map.of("barrier gas", 0.999, "feed oxygen", 1e-3));
        Finding flows = one(FlammabilityRules.cavities(Pumps.setting(m, carried.solved())), "hot drain");
        assertThat(flows.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(flows.how()).contains("arrives along the flow");
        // below the trace limit of a stream it counts as none; and so does no flow at all, or one the other way
        Fakes.Answer least = Fakes.atWork(m)
                .cavity("hot drain", 0.2e6, 900, trace)
                .cavity("barrier", 1.7e6, 288, Map.of("barrier gas", 1 - 0.5e-6, "feed oxygen", 0.5e-6));
        assertThat(one(FlammabilityRules.cavities(Pumps.setting(m, least.solved())), "hot drain")
                        .how())
                .doesNotContain("arrives along");
        for (double flow : new double[] {0, -0.004}) {
            assertThat(one(
                                    FlammabilityRules.cavities(Pumps.setting(
                                            m, carried.flow("ring B", flow).solved())),
                                    "hot drain")
                            .how())
                    .doesNotContain("arrives along");
        }
    }

    @Test
    void whatLeavesByAVentIsMixedByMolesAndItsPlumeTold() {
        Case m = Fakes.pump();
        Fakes.Answer work =
                Fakes.atWork(m).cavity("hot drain", 0.2e6, 400, Map.of("drive gas", 0.84, "barrier gas", 0.16));
        List<Finding> all = FlammabilityRules.vents(Pumps.setting(m, work.solved()));
        Finding fuel = one(all, "fuel vent");
        assertThat(fuel.what()).isEqualTo("Mixture in the gas that leaves by fuel vent cannot burn");
        assertThat(fuel.caution()).contains("forms a flammable cloud with air");
        Finding hot = one(
                FlammabilityRules.vents(Pumps.setting(
                        m,
                        Fakes.atWork(m)
                                .cavity("hot drain", 0.2e6, 800, Map.of("drive gas", 0.84, "barrier gas", 0.16))
                                .solved())),
                "fuel vent");
        assertThat(hot.caution()).contains("burns where it meets the air");
        Finding thin = one(
                FlammabilityRules.vents(Pumps.setting(
                        m,
                        Fakes.atWork(m)
                                .cavity("hot drain", 0.2e6, 400, Map.of("drive gas", 0.02, "barrier gas", 0.98))
                                .solved())),
                "fuel vent");
        assertThat(thin.caution()).contains("no dilution with air makes the vented gas flammable");
        Finding inert = one(
                FlammabilityRules.vents(Pumps.setting(
                        m,
                        Fakes.atWork(m)
                                .cavity("hot drain", 0.2e6, 400, Map.of("barrier gas", 1.0))
                                .solved())),
                "fuel vent");
        assertThat(inert.caution()).isEmpty();
        Finding oxygen = one(
                FlammabilityRules.vents(Pumps.setting(
                        m,
                        Fakes.atWork(m)
                                .cavity("oxygen drain", 0.33e6, 300, Map.of("feed oxygen", 0.9, "barrier gas", 0.1))
                                .solved())),
                "oxygen vent");
        assertThat(oxygen.caution()).contains("richer in oxygen than 23.5 %");
        // Two drains into one vent: by moles, 1 kg of methane with 1 kg of oxygen.
        Case both = Pumps.passage(m, Fakes.passage("oxygen line", "oxygen drain", "fuel vent", "line"));
        Fakes.Answer joined = Fakes.atWork(both)
                .cavity("oxygen drain", 0.33e6, 300, Map.of("feed oxygen", 1.0))
                .cavity("hot drain", 0.2e6, 300, Map.of("drive gas", 1.0))
                .flow("oxygen line", 0.01)
                .flow("fuel line", 0.01);
        List<Finding> vents = FlammabilityRules.vents(Pumps.setting(both, joined.solved()));
        assertThat(vents).noneMatch(f -> f.where().endsWith("/oxygen vent"));
        Finding one = one(vents, "fuel vent");
        double n1 = 0.01 / 0.032;
        double n2 = 0.01 / 0.01604;
        Map<String, Double> x = Map.of("oxygen", n1 / (n1 + n2), "methane", n2 / (n1 + n2));
        FlammabilityRules.Answer a = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(x, 300, 101325, CP, false, true), Criteria.DEFAULT);
        is(one.value(), a.value());
        is(one.limit(), a.limit());
        assertThat(one.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        // A passage drawn from the vent counts by its sign; what comes in from it does not.
        Case turned = Pumps.passage(m, Fakes.passage("fuel line", "fuel vent", "hot drain", "line"));
        assertThat(FlammabilityRules.vents(Pumps.setting(
                        turned, Fakes.atWork(turned).flow("fuel line", -0.025).solved())))
                .anyMatch(f -> f.where().endsWith("/fuel vent"));
        assertThat(FlammabilityRules.vents(Pumps.setting(
                        m, Fakes.atWork(m).flow("fuel line", -0.025).solved())))
                .noneMatch(f -> f.where().endsWith("/fuel vent"));
    }

    private static final PropertyEngine ENGINE = Engines.embedded();

    private static Setting sump(double fuelMass, double oxygenMass, double temperature, boolean fixed) {
        List<StreamDefinition> streams = List.of(
                new StreamDefinition.Single("fuel", "n-dodecane"),
                new StreamDefinition.Single("oxygen", "oxygen"),
                new StreamDefinition.Single("inert", "nitrogen"));
        Fluid fluid = ENGINE.mixer(streams).mix(new double[] {fuelMass, oxygenMass, 1 - fuelMass - oxygenMass});
        FluidState state = fluid.atPressureTemperature(101325, temperature);
        CavityState c = new CavityState("sump", fixed, state, Map.of(), Map.of(), fluid.moleFractions(), 0, 0);
        Converged solve = new Converged(
                new Convergence(Method.NEWTON, 5, 1e-12, 1e-12, 1e-12, List.of()),
                Map.of("sump", c),
                Map.of(),
                List.of());
        return new Setting(ENGINE, null, solve, null, Criteria.DEFAULT, null, null, null, Scene.of("steady"));
    }

    @Test
    void aMistIsJudgedByItsWholeMassUnlessInerted() {
        for (double mass : new double[] {0.002, 0.01, 0.2}) {
            Setting s = sump(mass, 0.2, 290, false);
            Finding f = one(FlammabilityRules.mists(s), "sump");
            // mass of fuel by volume; 5 g/m3 is the line
            double density = s.solve().cavities().get("sump").state().density() * mass;
            assertThat(f.value()).isCloseTo(density, within(2e-3 * density));
            assertThat(f.limit()).isEqualTo(0.005);
            assertThat(f.margin()).isCloseTo(1 - density / 0.005, within(0.01 * Math.abs(density / 0.005)));
            assertThat(f.verdict()).isEqualTo(density > 0.005 ? Verdict.FALLS_SHORT : Verdict.THIN);
            assertThat(f.what()).contains("n-dodecane below its flash point in the gas of sump");
        }
        // kerosene's limiting oxygen is 10 % less a tube's part: six tenths of it is allowed
        double allowed = 0.6 * LimitTable.limitingOxygen("n-dodecane").si();
        Finding inerted = one(FlammabilityRules.mists(sump(0.02, 0.9 * allowed, 290, false)), "sump");
        assertThat(inerted.verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(inerted.what()).endsWith("inerted");
        Finding not = one(FlammabilityRules.mists(sump(0.02, 1.3 * allowed, 290, false)), "sump");
        assertThat(not.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(FlammabilityRules.mists(sump(0.02, 0.2, 360, false)))
                .as("above its flash point")
                .isEmpty();
        assertThat(FlammabilityRules.mists(sump(0.02, 0, 290, false)))
                .as("no oxygen")
                .isEmpty();
        assertThat(FlammabilityRules.mists(sump(0, 0.2, 290, false)))
                .as("no fuel")
                .isEmpty();
        assertThat(FlammabilityRules.mists(sump(0.02, 0.2, 290, true)))
                .as("stated")
                .isEmpty();
    }

    @Test
    void theGasOverALiquidIsJudgedWhereItIsWorse() {
        // Much liquid kerosene and a little air: over all a rich mixture, in the gas nearly air with its vapour.
        Setting s = sump(0.9, 0.02, 330, false);
        Finding f = one(FlammabilityRules.cavities(sumpWithModel(s)), "sump");
        Map<String, Double> whole = s.solve().cavities().get("sump").moleFractions();
        Map<String, Double> gas = FlammabilityRules.gas(s, whole, 330, 101325);
        double vapour = ENGINE.pure("n-dodecane").saturationPressure(330) / 101325;
        is(gas.get("n-dodecane"), vapour);
        assertThat(gas.get("oxygen") / gas.get("nitrogen"))
                .isCloseTo(whole.get("oxygen") / whole.get("nitrogen"), within(1e-9));
        FlammabilityRules.Answer over = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(gas, 330, 101325, Double.NaN, false, false), Criteria.DEFAULT);
        FlammabilityRules.Answer all = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(
                        whole,
                        330,
                        101325,
                        s.solve().cavities().get("sump").state().cp(),
                        true,
                        false),
                Criteria.DEFAULT);
        boolean worse = Draft.verdict(over.margin()).compareTo(Draft.verdict(all.margin())) < 0
                || (Draft.verdict(over.margin()) == Draft.verdict(all.margin()) && over.margin() < all.margin());
        assertThat(f.how().startsWith("the gas over the liquid: ")).isEqualTo(worse);
    }

    @Test
    void onItsLimitItselfARuleSaysWhatItSaysBelowOrAbove() {
        Map<String, Double> lean = mix("methane", 0.008, "oxygen", 0.2, "nitrogen");
        for (double[] s : new double[][] {{273.15, 101325}, {473.15, 101325}, {300, 80e3}, {300, 120e3}}) {
            assertThat(at(lean, s[0], s[1]).unit()).as("a table's end is in it").isEqualTo("1");
        }
        Map<String, Double> rich = mix("methane", 0.3, "oxygen", 0.05, "nitrogen");
        is(at(rich, 373.15, 101325).limit(), 0.6 * LIMITING);
        is(room(mix("methane", 1e-7, "oxygen", 0.3, "nitrogen")).limit(), 1e-7);
        // a hundred degrees below 600 C itself is not hotter than that
        assertThat(at(mix("methane", 0.6, "oxygen", 1e-4, "nitrogen"), 773.15, 0.2e6)
                        .how())
                .doesNotStartWith("hot:");
        FlammabilityRules.Answer critical = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(mix("methane", 3e-6, "oxygen"), 154.6, 1e6, CP, true, false),
                Criteria.DEFAULT);
        assertThat(critical.how()).doesNotContain("liquid oxygen");
        // stoichiometric is lean: what the fuel takes is there
        Map<String, Double> even = mix("methane", 0.1, "oxygen", 0.2, "nitrogen");
        FlammabilityRules.Answer flame = at(even, 250, 0.5e6);
        assertThat(flame.margin()).isNegative();
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.15, "oxygen", 0.85, "nitrogen")))
                .contains("in oxygen");
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.9, "oxygen", 0.1, "nitrogen")))
                .contains("in oxygen");
        // three tenths of the fuel with half as much of anything else as of oxygen: still judged in oxygen
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 0.25, "oxygen", 0.5, "nitrogen")))
                .contains("in oxygen");
        // 18.2 % of hydrogen and air: with pure nitrogen's air, 21 % by the table's 20.95
        double air = 0.817;
        assertThat(FlammabilityRules.detonable(mix("hydrogen", 1 - air, "oxygen", air * 0.2095, "nitrogen")))
                .contains("in air");
    }

    @Test
    void whatHasNoDataIsNotEstablishedAndSaysWhy() {
        assertThat(room(Map.of("UF6", 0.5, "nitrogen", 0.5)).how()).isEqualTo("elements of UF6 are not known");
        assertThat(room(Map.of("UF6", 1e-8, "methane", 1e-9, "nitrogen", 1 - 1.1e-8))
                        .margin())
                .isPositive();
        assertThat(room(Map.of("methane", Double.NaN, "oxygen", 0.1)).how()).contains("share of methane is not known");
        for (double[] state :
                new double[][] {{Double.NaN, 101325}, {298.15, Double.NaN}, {0, 101325}, {298.15, 0}, {-1, 1e5}}) {
            FlammabilityRules.Answer a = at(mix("methane", 0.3, "oxygen", 0.05, "nitrogen"), state[0], state[1]);
            assertThat(a.margin()).isNaN();
            assertThat(a.how()).contains("composition or state is not known");
        }
        FlammabilityRules.Answer untabled = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(
                        mix("H", 0.1, "oxygen", 0.2, "nitrogen"), 298.15, 101325, Double.NaN, false, true),
                Criteria.DEFAULT);
        assertThat(untabled.margin() >= 0).isFalse();
        // hydrogen's own, low limit has its own origin
        assertThat(room(mix("hydrogen", 0.3, "oxygen", 0.017, "nitrogen")).source())
                .startsWith(Criteria.DEFAULT.origin(Limit.OXYGEN_LIMIT_SHARE_LOW));
        // carbon dioxide's own limiting oxygen is told where it is more than half of the inerts
        FlammabilityRules.Answer carbon = room(mix("methane", 0.3, "oxygen", 0.05, "nitrogen", 0.2, "carbon-dioxide"));
        assertThat(carbon.source()).contains("in carbon dioxide 13 %, not credited".replace("13 %", carbonDioxide()));
        assertThat(room(mix("methane", 0.3, "oxygen", 0.05, "carbon-dioxide", 0.3, "nitrogen"))
                        .source())
                .doesNotContain("not credited");
        // both limits exceeded: flammable whatever the inert
        assertThat(room(mix("methane", 0.10, "oxygen", 0.20, "helium")).margin())
                .isNegative();
        assertThat(room(mix("methane", 0.10, "oxygen", 0.09, "helium")).margin())
                .isNaN();
    }

    private static String carbonDioxide() {
        return String.format(
                java.util.Locale.ROOT,
                "%.3g %%",
                100 * LimitTable.limitingOxygenCarbonDioxide("methane").si());
    }

    @Test
    void aVentsGasIsMixedWithItsHeatAndWhatItSaysIsJoined() {
        // 0.1 kg/s at 300 K and 0.3 kg/s at 500 K of one gas: 450 K; a caution of its own goes before the plume's.
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("oxygen line", "oxygen drain", "fuel vent", "line"));
        Fakes.Answer joined = Fakes.atWork(m)
                .cavity("oxygen drain", 0.33e6, 300, Map.of("drive gas", 0.5, "feed oxygen", 0.5))
                .cavity("hot drain", 0.2e6, 500, Map.of("drive gas", 0.5, "feed oxygen", 0.5))
                .flow("oxygen line", 0.1)
                .flow("fuel line", 0.3);
        Finding f = one(FlammabilityRules.vents(Pumps.setting(m, joined.solved())), "fuel vent");
        double n1 = 0.5 / 0.032;
        double n2 = 0.5 / 0.01604;
        Map<String, Double> x = new LinkedHashMap<>();
        x.put("oxygen", n1 / (n1 + n2));
        x.put("methane", n2 / (n1 + n2));
        FlammabilityRules.Answer a = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(x, 450, 101325, CP, false, true), Criteria.DEFAULT);
        is(f.value(), a.value());
        is(f.margin(), a.margin());
        // a mixture that detonates says so, and what its plume does
        Fakes.Answer knock = Fakes.atWork(m)
                .cavity("oxygen drain", 0.33e6, 300, Map.of("drive gas", 1.0))
                .cavity("hot drain", 0.2e6, 300, Map.of("barrier gas", 1.0))
                .flow("oxygen line", 0.1)
                .flow("fuel line", 0.0);
        Finding pure = one(FlammabilityRules.vents(Pumps.setting(m, knock.solved())), "fuel vent");
        assertThat(pure.caution()).startsWith("the vented gas forms a flammable cloud");
    }

    @Test
    void theGasOverALiquidKeepsEachVapourPressureAndTheSum() {
        Setting s = sump(0.9, 0.02, 330, false);
        Map<String, Double> two = new LinkedHashMap<>();
        two.put("n-dodecane", 0.5);
        two.put("water", 0.4);
        two.put("oxygen", 0.03);
        two.put("nitrogen", 0.07);
        Map<String, Double> gas = FlammabilityRules.gas(s, two, 330, 101325);
        double dodecane = ENGINE.pure("n-dodecane").saturationPressure(330) / 101325;
        double water = ENGINE.pure("water").saturationPressure(330) / 101325;
        is(gas.get("n-dodecane"), dodecane);
        is(gas.get("water"), water);
        is(gas.get("oxygen"), 0.3 * (1 - dodecane - water));
        is(gas.get("nitrogen"), 0.7 * (1 - dodecane - water));
        // all of it liquid: what there is of gas is its own vapour, as parts of one
        Map<String, Double> wet = new LinkedHashMap<>();
        wet.put("n-dodecane", 0.5);
        wet.put("water", 0.5);
        Map<String, Double> vapour = FlammabilityRules.gas(s, wet, 330, 101325);
        is(vapour.get("water"), water / (water + dodecane));
        is(vapour.get("n-dodecane"), dodecane / (water + dodecane));
    }

    private static Setting sumpWithModel(Setting s) {
        Case m = Fakes.pump();
        return new Setting(
                ENGINE,
                m,
                s.solve(),
                null,
                Criteria.DEFAULT,
                Pumps.setting(m, Fakes.atWork(m).solved()).streams(),
                null,
                null,
                s.scene());
    }
}
