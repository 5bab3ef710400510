package purgewright.fluids.burnt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyException;

/** What holds for every equilibrium, whatever the numbers. */
class EquilibriumLawTest {
    private record Inputs(
            String fuel,
            String oxidizer,
            double mixtureRatio,
            double pressure,
            double fuelTemperature,
            double oxidizerTemperature,
            boolean graphite)
            implements BurnConditions {}

    private static Map<String, Double> propellants(String fuel, double ratio, boolean air) {
        Map<String, Double> atoms = Elements.of(fuel);
        double mass = 12.0107 * atoms.getOrDefault("C", 0.0)
                + 1.00794 * atoms.getOrDefault("H", 0.0)
                + 15.9994 * atoms.getOrDefault("O", 0.0)
                + 14.0067 * atoms.getOrDefault("N", 0.0);
        Map<String, Double> moles = new LinkedHashMap<>();
        moles.put(fuel, 1 / mass);
        if (air) {
            double perKilogram = ratio / 28.965;
            moles.put("O2", 0.2096 * perKilogram);
            moles.put("N2", 0.7812 * perKilogram);
            moles.put("Ar", 0.0092 * perKilogram);
        } else {
            moles.put("O2", ratio / 31.9988);
        }
        return moles;
    }

    @ParameterizedTest
    @ValueSource(strings = {"CH4", "H2", "Jet-A", "C2H6O", "C3H8", "NH3", "CO"})
    void everyMixtureRatioAndTemperatureHasAnAnswerThatKeepsTheAtoms(String fuel) {
        for (boolean air : new boolean[] {false, true}) {
            for (boolean graphite : new boolean[] {false, true}) {
                for (double ratio = 0.05; ratio < 51; ratio *= 2.1) {
                    Map<String, Double> moles = propellants(fuel, ratio, air);
                    double last = Double.NEGATIVE_INFINITY;
                    for (double t = 200; t <= 4000; t *= 1.2) {
                        EquilibriumState state = Equilibrium.atPressureTemperature(moles, t, 5e6, graphite);
                        String where = fuel + " " + ratio + " " + t + " K " + graphite;
                        assertThat(atomsOff(moles, state)).as(where).isLessThan(1e-9);
                        assertThat(state.enthalpy()).as(where).isGreaterThan(last);
                        last = state.enthalpy();
                    }
                }
            }
        }
    }

    /**
     * Random propellants and diluents over all that a burner may be asked: counts printed. {@code purgewright.share} of 100 000 states and of
     * 20 000 burners.
     */
    @Test
    void nothingInTheWholeRangeIsLostAndTheCountsAreKnown() {
        double share = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
        Random random = new Random(5);
        String[] fuels = {"CH4", "H2", "Jet-A", "C2H6O", "C3H8", "NH3", "CO"};
        int states = (int) Math.max(500, 100_000 * share);
        for (int i = 0; i < states; i++) {
            Map<String, Double> moles = propellants(
                    fuels[random.nextInt(fuels.length)],
                    0.05 * Math.pow(1000, random.nextDouble()),
                    random.nextBoolean());
            if (random.nextBoolean()) {
                moles.merge(random.nextBoolean() ? "He" : "Ar", 0.1 * random.nextDouble(), Double::sum);
            }
            double t = 200 * Math.pow(20, random.nextDouble());
            double p = Math.pow(10, 4 + 3.5 * random.nextDouble());
            boolean graphite = random.nextBoolean();
            EquilibriumState state = Equilibrium.atPressureTemperature(moles, t, p, graphite);
            assertThat(atomsOff(moles, state)).as("%s %s K %s Pa", moles, t, p).isLessThan(1e-9);
            EquilibriumState back = Equilibrium.atPressureEnthalpy(moles, state.enthalpy(), p, graphite);
            assertThat(back.temperature()).as("%s %s K %s Pa", moles, t, p).isCloseTo(t, within(1e-6 * t));
        }
        int burners = (int) Math.max(100, 20_000 * share);
        int refused = 0;
        String[] named = {"methane", "hydrogen", "kerosene", "RP-1", "ethanol", "propane", "ammonia", "carbon-monoxide"
        };
        double[] coldest = {95, 20, 298, 298, 298, 200, 210, 90};
        for (int i = 0; i < burners; i++) {
            int fuel = random.nextInt(named.length);
            double ratio = 0.05 * Math.pow(1000, random.nextDouble());
            boolean air = random.nextBoolean();
            Inputs inputs = new Inputs(
                    named[fuel],
                    air ? "air" : "oxygen",
                    ratio,
                    Math.pow(10, 5 + 2.3 * random.nextDouble()),
                    coldest[fuel] + random.nextDouble() * (320 - coldest[fuel]),
                    air ? 298.15 : 60 + 240 * random.nextDouble(),
                    random.nextBoolean());
            try {
                BurntGas gas = Burner.burn(Engines.embedded(), inputs);
                assertThat(gas.temperature()).as("%s", inputs).isBetween(1.0, 4500.0);
                // Colder than the polynomials go: there is a number, and it is marked.
                assertThat(gas.extrapolated() || gas.temperature() >= 200)
                        .as("%s", inputs)
                        .isTrue();
                assertThat(gas.equilibrium().enthalpy())
                        .as("%s", inputs)
                        .isCloseTo(gas.enthalpy(), within(1e-6 * Math.abs(gas.enthalpy()) + 1));
            } catch (PropertyException e) {
                // So rich or lean, and so cold, that no gas holds so little enthalpy: a typed error, never a
                // temperature.
                assertThat(e.key()).as("%s", inputs).isEqualTo(PropertyException.Key.NO_SUCH_STATE);
                assertThat(ratio < 1 || ratio > 20).as("%s refused", inputs).isTrue();
                refused++;
            }
        }
        System.out.println("equilibrium: " + states + " states, none lost; burners: " + burners
                + ", refused as too cold: " + refused);
    }

    /** Largest error of an element as share of all atoms, counted from the answer. */
    private static double atomsOff(Map<String, Double> moles, EquilibriumState state) {
        Map<String, Double> wanted = Elements.of(moles);
        Map<String, Double> have = new LinkedHashMap<>(Elements.of(state.moles()));
        have.merge("C", state.graphite(), Double::sum);
        double all = wanted.values().stream().mapToDouble(x -> x).sum();
        double worst = 0;
        for (Map.Entry<String, Double> entry : wanted.entrySet()) {
            worst = Math.max(worst, Math.abs(have.getOrDefault(entry.getKey(), 0.0) - entry.getValue()));
        }
        return worst / all;
    }

    private static double gibbs(Map<String, Double> gas, double t, double p) {
        double total = gas.values().stream().mapToDouble(x -> x).sum();
        double sum = 0;
        for (Map.Entry<String, Double> entry : gas.entrySet()) {
            double n = entry.getValue();
            if (n > 0) {
                sum += n * (SpeciesTable.find(entry.getKey()).polynomial().gibbs(t) + Math.log(n / total * p / 1e5));
            }
        }
        return sum;
    }

    /** Reactions among the table's species: none may lower the Gibbs energy, either way. */
    @Test
    void noReactionLowersTheGibbsEnergy() {
        List<Map<String, Double>> reactions = List.of(
                Map.of("H2O", -1.0, "H2", 1.0, "O2", 0.5),
                Map.of("CO", -1.0, "H2O", -1.0, "CO2", 1.0, "H2", 1.0),
                Map.of("CH4", -1.0, "H2O", -1.0, "CO", 1.0, "H2", 3.0),
                Map.of("H2", -1.0, "H", 2.0),
                Map.of("CH4", -2.0, "C2H4", 1.0, "H2", 2.0),
                Map.of("N2", -1.0, "O2", -1.0, "NO", 2.0),
                Map.of("OH", -2.0, "H2O", 1.0, "O", 1.0));
        Random random = new Random(7);
        for (int i = 0; i < 60; i++) {
            double ratio = 0.2 * Math.pow(50, random.nextDouble());
            double t = 900 + 2600 * random.nextDouble();
            double p = Math.pow(10, 4.5 + 3 * random.nextDouble());
            EquilibriumState state =
                    Equilibrium.atPressureTemperature(propellants("CH4", ratio, random.nextBoolean()), t, p, false);
            double least = gibbs(state.moles(), t, p);
            for (Map<String, Double> reaction : reactions) {
                for (double direction : new double[] {-1, 1}) {
                    Map<String, Double> moved = moved(state.moles(), reaction, direction);
                    if (moved != null) {
                        assertThat(gibbs(moved, t, p)).isGreaterThanOrEqualTo(least - 1e-12 * Math.abs(least));
                    }
                }
            }
        }
    }

    /** A step along a reaction by a hundredth of its scarcest species, or null when one is missing. */
    private static Map<String, Double> moved(
            Map<String, Double> moles, Map<String, Double> reaction, double direction) {
        double step = Double.POSITIVE_INFINITY;
        for (Map.Entry<String, Double> entry : reaction.entrySet()) {
            Double n = moles.get(entry.getKey());
            if (n == null || n < 1e-15) {
                return null;
            }
            step = Math.min(step, 0.01 * n / Math.abs(entry.getValue()));
        }
        Map<String, Double> moved = new LinkedHashMap<>(moles);
        for (Map.Entry<String, Double> entry : reaction.entrySet()) {
            moved.merge(entry.getKey(), direction * step * entry.getValue(), Double::sum);
        }
        return moved;
    }

    @Test
    void soMuchEnthalpyGivesSoMuchTemperatureBack() {
        Random random = new Random(11);
        for (int i = 0; i < 40; i++) {
            Map<String, Double> moles = propellants(
                    random.nextBoolean() ? "CH4" : "Jet-A", 0.05 * Math.pow(1000, random.nextDouble()), false);
            double t = 250 * Math.pow(14, random.nextDouble());
            boolean graphite = random.nextBoolean();
            EquilibriumState state = Equilibrium.atPressureTemperature(moles, t, 3e6, graphite);
            EquilibriumState back = Equilibrium.atPressureEnthalpy(moles, state.enthalpy(), 3e6, graphite);
            assertThat(back.temperature()).isCloseTo(t, within(1e-6 * t));
        }
    }

    @Test
    void graphiteIsInEquilibriumWithTheGasWhereThereIsSome() {
        EquilibriumState state = Equilibrium.atPressureTemperature(Map.of("CH4", 1.0), 1200, 1e5, true);
        assertThat(state.graphite()).isPositive();
        assertThat(state.elementPotentials().get("C"))
                .isCloseTo(SpeciesTable.find("C(gr)").polynomial().gibbs(1200), within(1e-9));
        EquilibriumState lean = Equilibrium.atPressureTemperature(Map.of("CH4", 1.0, "O2", 2.0), 1200, 1e5, true);
        assertThat(lean.graphite()).isZero();
    }

    @Test
    void elementsAreReadFromFormulaeAndNames() {
        assertThat(Elements.of("C2H5OH")).isEqualTo(Map.of("C", 2.0, "H", 6.0, "O", 1.0));
        assertThat(Elements.of("carbon dioxide")).isEqualTo(Map.of("C", 1.0, "O", 2.0));
        assertThat(Elements.of("CH1.95")).isEqualTo(Map.of("C", 1.0, "H", 1.95));
        assertThat(Elements.oxygenBalance("methane")).isEqualTo(-2);
        assertThat(Elements.oxygenBalance("Jet-A")).isEqualTo(-17.75);
        assertThat(Elements.freeOxidizer(Map.of("oxygen", 0.3, "H2O", 0.7))).isEqualTo(0.3);
        assertThat(Elements.unburntFuel(Map.of("CH4", 0.2, "CO", 0.1, "water", 0.5, "CO2", 0.2)))
                .isCloseTo(0.3, within(1e-15));
        assertThatThrownBy(() -> Elements.of("kerosine?")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void burnerConservesEnthalpyAndAddsUp() {
        List<BurntGas> gases = new ArrayList<>();
        for (String fuel : List.of("methane", "hydrogen", "kerosene", "RP-1", "ethanol", "propane")) {
            for (String oxidizer : List.of("oxygen", "air")) {
                gases.add(Burner.burn(
                        Engines.embedded(),
                        new Inputs(fuel, oxidizer, 2.5, 4e6, fuel.equals("hydrogen") ? 30 : 295, 295, false)));
            }
        }
        for (BurntGas gas : gases) {
            assertThat(gas.equilibrium().enthalpy())
                    .isCloseTo(gas.enthalpy(), within(1e-6 * Math.abs(gas.enthalpy()) + 1));
            assertThat(gas.moleFractions().values().stream().mapToDouble(x -> x).sum())
                    .isCloseTo(1, within(1e-12));
            assertThat(gas.heatCapacityRatio()).isBetween(1.05, 1.45);
        }
    }

    @Test
    void theTemperatureOfABurnerPeaksOnceOverTheMixtureRatio() {
        for (boolean graphite : new boolean[] {false, true}) {
            double last = 0;
            int turns = 0;
            for (double ratio = 0.3; ratio < 50; ratio *= 1.17) {
                double t = Burner.burn(
                                Engines.embedded(), new Inputs("propane", "oxygen", ratio, 2e7, 231, 95, graphite))
                        .temperature();
                turns += ((t < last && turns % 2 == 0) || (t > last && turns % 2 == 1)) ? 1 : 0;
                last = t;
            }
            assertThat(turns).isEqualTo(1);
        }
    }

    @Test
    void soLittleEnthalpyThatNoGasCanHoldItIsRefused() {
        // Liquid hydrogen with a trace of oxygen stays liquid.
        assertThatThrownBy(() ->
                        Burner.burn(Engines.embedded(), new Inputs("hydrogen", "oxygen", 0.01, 5e6, 22, 95, false)))
                .isInstanceOfSatisfying(PropertyException.class, e -> assertThat(e.key())
                        .isEqualTo(PropertyException.Key.NO_SUCH_STATE));
    }

    @Test
    void aFuelWithoutFormationEnthalpyOrABadRatioIsRefused() {
        assertThatThrownBy(
                        () -> Burner.burn(Engines.embedded(), new Inputs("methane", "oxygen", 0, 4e6, 120, 95, false)))
                .isInstanceOfSatisfying(PropertyException.class, e -> assertThat(e.key())
                        .isEqualTo(PropertyException.Key.BAD_DEFINITION));
        assertThatThrownBy(
                        () -> Burner.burn(Engines.embedded(), new Inputs("methane", "oxygen", 1, 4e6, 20, 95, false)))
                .isInstanceOf(PropertyException.class);
    }
}
