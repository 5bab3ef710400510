package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Verdict;

class FlammabilityLawTest {
    private static FlammabilityRules.Answer assess(Map<String, Double> x, double t, double p) {
        return FlammabilityRules.assess(
                new FlammabilityRules.Mixture(x, t, p, 3.5 * 8.314, false, true), Criteria.DEFAULT);
    }

    private static Map<String, Double> diluted(
            String fuel, String inert, double fuelShare, double oxygenShare, double keep) {
        Map<String, Double> x = new LinkedHashMap<>();
        x.put(fuel, fuelShare * keep);
        x.put("oxygen", oxygenShare * keep);
        x.put(inert, 1 - (fuelShare + oxygenShare) * keep);
        return x;
    }

    /** Once a mixture is outside the limits, more nitrogen never brings it back in. */
    @Property(tries = 300, seed = "20261126")
    void addingInertAlongADilutionPathNeverMakesItWorse(
            @ForAll @DoubleRange(min = 0.001, max = 0.6) @Scale(4) double fuel,
            @ForAll @DoubleRange(min = 0.001, max = 0.39) @Scale(4) double oxygen,
            @ForAll @DoubleRange(min = 0.01, max = 0.99) double less) {
        for (String name : new String[] {"methane", "hydrogen", "propane", "carbon-monoxide"}) {
            for (double[] state : new double[][] {{298.15, 101325}, {150, 0.4e6}}) {
                FlammabilityRules.Answer before =
                        assess(diluted(name, "nitrogen", fuel, oxygen, 1), state[0], state[1]);
                FlammabilityRules.Answer after =
                        assess(diluted(name, "nitrogen", fuel, oxygen, less), state[0], state[1]);
                if (before.margin() >= 0) {
                    assertThat(after.margin())
                            .as("%s fuel %s oxygen %s kept %s at %s", name, fuel, oxygen, less, state[0])
                            .isGreaterThanOrEqualTo(0);
                }
            }
        }
    }

    /** The heat capacity that goes with the composition: a monatomic gas takes up less heat than nitrogen. */
    private static FlammabilityRules.Answer assessed(Map<String, Double> x, double t, double p) {
        double cp = 0;
        for (Map.Entry<String, Double> e : x.entrySet()) {
            boolean monatomic = e.getKey().equals("helium") || e.getKey().equals("argon");
            cp += e.getValue() * (monatomic ? 2.5 : e.getKey().equals("carbon-dioxide") ? 4.5 : 3.5) * 8.314462618;
        }
        return FlammabilityRules.assess(new FlammabilityRules.Mixture(x, t, p, cp, false, true), Criteria.DEFAULT);
    }

    /**
     * Outside the limits, more of the inert that is there never brings a mixture back in; and helium and argon never hold by a limiting
     * oxygen that was measured in nitrogen.
     */
    @Property(tries = 150, seed = "20261126")
    void addingHeliumArgonOrCarbonDioxideNeverMakesItWorse(
            @ForAll @DoubleRange(min = 0.001, max = 0.6) @Scale(4) double fuel,
            @ForAll @DoubleRange(min = 0.001, max = 0.39) @Scale(4) double oxygen,
            @ForAll @DoubleRange(min = 0.01, max = 0.99) double less) {
        for (String inert : List.of("helium", "argon", "carbon-dioxide")) {
            for (String name : List.of("methane", "hydrogen", "propane", "carbon-monoxide")) {
                for (double[] state : new double[][] {{298.15, 101325}, {330, 0.4e6}}) {
                    Answers a = new Answers(
                            assessed(diluted(name, inert, fuel, oxygen, 1), state[0], state[1]),
                            assessed(diluted(name, inert, fuel, oxygen, less), state[0], state[1]));
                    String as = String.format("%s in %s: %s", name, inert, a);
                    if (a.before().margin() >= 0) {
                        assertThat(a.after().margin()).as(as).isGreaterThanOrEqualTo(0);
                    } else if (Double.isNaN(a.before().margin())) {
                        // Not established may become held, never flammable.
                        assertThat(a.after().margin() < 0).as(as).isFalse();
                    }
                    if (!inert.equals("carbon-dioxide")) {
                        assertThat(a.after().margin() >= 0 && a.after().how().contains("limiting oxygen"))
                                .as(as)
                                .isFalse();
                    }
                }
            }
        }
    }

    /** Where fuel and oxygen run out together, the last digit of a share must not decide which rules speak. */
    @Test
    void theStoichiometricMixtureIsLeanWithAnyShareOfInert() {
        FlammabilityRules.Answer whole = assessed(diluted("propane", "helium", 0.001, 0.005, 1), 330, 0.4e6);
        assertThat(whole.how()).contains("lower limit");
        assertThat(whole.margin()).isGreaterThan(0);
        for (double keep = 0.99; keep > 0.01; keep -= 0.01) {
            assertThat(assessed(diluted("propane", "helium", 0.001, 0.005, keep), 330, 0.4e6)
                            .margin())
                    .as("kept %s", keep)
                    .isGreaterThan(0);
        }
    }

    private record Answers(FlammabilityRules.Answer before, FlammabilityRules.Answer after) {}

    /**
     * Nitrogen that is held by its limiting oxygen, then diluted with another inert: what nitrogen's table says no longer holds with
     * helium or argon, and is then not established; it is never called flammable for it.
     */
    @Property(tries = 100, seed = "20261126")
    void anotherInertIntoNitrogenNeverMakesItFlammable(
            @ForAll @DoubleRange(min = 0.02, max = 0.6) double fuel,
            @ForAll @DoubleRange(min = 0.001, max = 0.3) @Scale(4) double oxygen,
            @ForAll @DoubleRange(min = 0.01, max = 0.99) double less) {
        for (String inert : List.of("helium", "argon", "carbon-dioxide")) {
            for (String name : List.of("methane", "hydrogen", "propane")) {
                Map<String, Double> before = diluted(name, "nitrogen", fuel, oxygen, 1);
                Map<String, Double> after = new LinkedHashMap<>();
                before.forEach((k, v) -> after.put(k, v * less));
                after.put(inert, 1 - less);
                if (assessed(before, 298.15, 101325).margin() >= 0) {
                    double margin = assessed(after, 298.15, 101325).margin();
                    assertThat(margin < 0).as("%s %s %s", name, before, after).isFalse();
                    if (inert.equals("carbon-dioxide")) {
                        assertThat(margin).isGreaterThanOrEqualTo(0);
                    }
                }
            }
        }
    }

    @Test
    void carbonDioxideIsHeldToNitrogensLimitAndItsOwnIsTold() {
        FlammabilityRules.Answer a = assess(diluted("methane", "carbon-dioxide", 0.30, 0.06, 1), 298.15, 101325);
        assertThat(a.limit()).isCloseTo(0.6 * 0.107, within(1e-12));
        assertThat(a.source()).contains("in carbon dioxide 13.0 %, not credited");
        assertThat(assess(diluted("methane", "nitrogen", 0.30, 0.06, 1), 298.15, 101325)
                        .source())
                .doesNotContain("not credited");
    }

    @Test
    void helium() {
        // 5 % oxygen in methane and helium: under the nitrogen limit, over the rise limit, and no table for helium.
        Map<String, Double> x = diluted("methane", "helium", 0.30, 0.05, 1);
        FlammabilityRules.Answer a = assess(x, 298.15, 101325);
        assertThat(Draft.verdict(a.margin())).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(a.how()).contains("lower bound");
        assertThat(a.limit()).isBetween(0.04, 0.0642);
        // A trace of oxygen that cannot heat the gas by 50 K needs no table.
        assertThat(assess(diluted("methane", "helium", 0.30, 0.001, 1), 298.15, 101325)
                        .margin())
                .isGreaterThan(0);
        // Above the nitrogen limit with fuel above its own: flammable whatever the inert.
        assertThat(assess(diluted("methane", "helium", 0.10, 0.20, 1), 298.15, 101325)
                        .margin())
                .isLessThan(0);
    }

    @Test
    void hotGasIsNotJudgedByTablesAndAFlowOfOxygenIntoItFallsShort() {
        Map<String, Double> x = diluted("methane", "nitrogen", 0.6, 1e-4, 1);
        assertThat(assess(x, 900, 0.2e6).margin()).isLessThan(0);
        FlammabilityRules.Answer diffused = FlammabilityRules.assess(
                new FlammabilityRules.Mixture(x, 900, 0.2e6, 40, false, false), Criteria.DEFAULT);
        assertThat(diffused.margin()).isGreaterThan(0);
        assertThat(diffused.unit()).isEqualTo("K difference");
    }

    @Test
    void hydrocarbonInLiquidOxygenFallsShortAlongTheFlow() {
        Map<String, Double> x = Map.of("oxygen", 0.999999, "methane", 1e-6);
        assertThat(FlammabilityRules.assess(
                                new FlammabilityRules.Mixture(x, 94, 0.3e6, Double.NaN, true, true), Criteria.DEFAULT)
                        .margin())
                .isLessThan(0);
        assertThat(FlammabilityRules.assess(
                                new FlammabilityRules.Mixture(x, 94, 0.3e6, Double.NaN, true, false), Criteria.DEFAULT)
                        .margin())
                .isGreaterThan(0);
    }

    @Test
    void theStoichiometricMixtureBurnsAndPureGasesDoNot() {
        assertThat(assess(Map.of("methane", 0.095, "oxygen", 0.19, "nitrogen", 0.715), 298.15, 101325)
                        .margin())
                .isLessThan(0);
        assertThat(assess(Map.of("hydrogen", 0.30, "oxygen", 0.15, "nitrogen", 0.55), 298.15, 101325)
                        .margin())
                .isLessThan(0);
        assertThat(assess(Map.of("oxygen", 1.0), 298.15, 101325).margin()).isGreaterThan(0);
        assertThat(assess(Map.of("methane", 1.0), 298.15, 101325).margin()).isGreaterThan(0);
    }

    @Test
    void aQuarterOfTheLowerLimitIsTheLineForFuelInAir() {
        double line = 0.25 * 0.044;
        Map<String, Double> below = Map.of("methane", 0.9 * line, "oxygen", 0.20, "nitrogen", 0.80 - 0.9 * line);
        Map<String, Double> above = Map.of("methane", 1.1 * line, "oxygen", 0.20, "nitrogen", 0.80 - 1.1 * line);
        assertThat(assess(below, 298.15, 101325).margin()).isGreaterThan(0);
        assertThat(assess(above, 298.15, 101325).margin()).isLessThan(0);
    }

    @Test
    void aFuelWithoutDataIsNotEstablishedRatherThanSafe() {
        FlammabilityRules.Answer a = assess(Map.of("HCN", 0.2, "oxygen", 0.05, "nitrogen", 0.75), 298.15, 101325);
        assertThat(Draft.verdict(a.margin())).isIn(Verdict.NOT_ESTABLISHED, Verdict.FALLS_SHORT);
    }

    private static final Setting REAL = new Setting(Engines.embedded(), null, null, null, null, null, null, null, null);

    @Test
    void theGasOverMuchLiquidIsJudgedByItself() {
        // Nine moles of liquid kerosene to one of air: two per cent oxygen over all, twenty-one in the gas between the
        // drops.
        Map<String, Double> x = Map.of("n-dodecane", 0.9, "oxygen", 0.021, "nitrogen", 0.079);
        Map<String, Double> gas = FlammabilityRules.gas(REAL, x, 290, 101325);
        assertThat(gas.get("oxygen")).isCloseTo(0.21, within(1e-3));
        assertThat(gas.get("n-dodecane")).isLessThan(1e-3);
        // A little hydrogen over liquid oxygen: most of what is gas.
        Map<String, Double> wet = Map.of("oxygen", 0.998, "hydrogen", 0.002);
        Map<String, Double> over = FlammabilityRules.gas(REAL, wet, 80, 101325);
        assertThat(over.get("hydrogen")).isGreaterThan(0.6);
        assertThat(over.values().stream().mapToDouble(Double::doubleValue).sum())
                .isCloseTo(1, within(1e-12));
        // Nothing liquid: the same mixture.
        assertThat(FlammabilityRules.gas(REAL, Map.of("helium", 0.5, "oxygen", 0.5), 288, 101325))
                .isEqualTo(Map.of("helium", 0.5, "oxygen", 0.5));
    }

    @Test
    void whatIsNotKnownIsNotEstablished() {
        for (Map<String, Double> x : List.of(
                Map.of("UF6", 0.5, "nitrogen", 0.5),
                Map.of("methane", Double.NaN, "oxygen", 0.1, "nitrogen", 0.8),
                Map.of("methane", 0.1, "oxygen", Double.NaN))) {
            assertThat(Draft.verdict(assess(x, 298.15, 101325).margin()))
                    .as(x.toString())
                    .isEqualTo(Verdict.NOT_ESTABLISHED);
        }
        Map<String, Double> lean = Map.of("methane", 0.005, "oxygen", 0.2, "nitrogen", 0.795);
        assertThat(assess(lean, Double.NaN, 101325).margin()).isNaN();
        assertThat(assess(lean, 298.15, Double.NaN).margin()).isNaN();
    }

    @Test
    void nitrogenWithMuchArgonIsNotJudgedByNitrogensTable() {
        Map<String, Double> nitrogen = Map.of("methane", 0.3, "oxygen", 0.055, "nitrogen", 0.645);
        assertThat(assess(nitrogen, 298.15, 101325).margin()).isGreaterThanOrEqualTo(0);
        Map<String, Double> blend = Map.of("methane", 0.3, "oxygen", 0.055, "nitrogen", 0.345, "argon", 0.3);
        FlammabilityRules.Answer a = assess(blend, 298.15, 101325);
        assertThat(a.margin()).isNaN();
        assertThat(a.limit()).isLessThan(0.06);
    }

    /** The flame's temperature at a limit hardly moves with the mixture's own: what is warm already may rise less. */
    @Property(tries = 100, seed = "20261126")
    void aWarmerMixtureOfTheSameGasIsNeverBetterByTheFlameRule(
            @ForAll @DoubleRange(min = 0.001, max = 0.02) @Scale(4) double hydrogen,
            @ForAll @DoubleRange(min = 300, max = 660) double temperature,
            @ForAll @DoubleRange(min = 0.5, max = 1) double colder) {
        Map<String, Double> x = Map.of("hydrogen", hydrogen, "oxygen", 0.2, "nitrogen", 0.8 - hydrogen);
        double cold = Math.max(298.15, temperature * colder);
        if (assess(x, temperature, 0.5e6).margin() >= 0) {
            assertThat(assess(x, cold, 0.5e6).margin()).isGreaterThan(-0.01);
        }
    }

    @Test
    void onePerCentOfHydrogenInHotAirIsNotHeldByTheRiseOfColdLimits() {
        // 82 K would be allowed at 25 C; at 640 K the flame would be past the 627 K of the published lean limit.
        Map<String, Double> x = Map.of("hydrogen", 0.008, "oxygen", 0.2, "nitrogen", 0.792);
        assertThat(assess(x, 640, 0.5e6).margin()).isLessThan(0);
    }
}
