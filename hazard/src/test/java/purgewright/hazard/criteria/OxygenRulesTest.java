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
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.Fakes;
import purgewright.hazard.Pumps;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;

@DisplayName("Velocity of oxygen-rich gas over liquid: by the gas's own content and its share of the volume")
class OxygenRulesTest {
    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final double PRESSURE = 0.35e6;

    /** The pump whose oxygen drain holds this much helium by mass at this temperature, with its line at a velocity. */
    private static Setting drain(double helium, double temperature, double pressure, double velocity) {
        return drain(helium, temperature, pressure, velocity, "line");
    }

    private static Setting drain(double helium, double temperature, double pressure, double velocity, String type) {
        Case m = Pumps.passage(Fakes.pump(), Fakes.passage("oxygen line", "oxygen drain", "oxygen vent", type));
        Fluid mix = ENGINE.mixer(List.of(
                        new StreamDefinition.Single("feed oxygen", "oxygen"),
                        new StreamDefinition.Single("barrier gas", "helium")))
                .mix(new double[] {1 - helium, helium});
        FluidState state = Double.isNaN(temperature)
                ? mix.atPressureEnthalpy(pressure, halfBoiled(mix, pressure))
                : mix.atPressureTemperature(pressure, temperature);
        Converged solved = Fakes.atWork(m)
                .velocity("oxygen line", velocity)
                .flow("ring A", 0)
                .flow("oxygen seal", 0)
                .solved();
        Map<String, CavityState> cavities = new LinkedHashMap<>(solved.cavities());
        cavities.put(
                "oxygen drain",
                new CavityState(
                        "oxygen drain",
                        false,
                        state,
                        Map.of("feed oxygen", 1 - helium, "barrier gas", helium),
                        Map.of(),
                        mix.moleFractions(),
                        0,
                        0));
        Converged real = new Converged(solved.convergence(), cavities, solved.passages(), solved.notices());
        StreamTable streams = StreamTable.of(new Fakes.Engine().mixer(m.streams()));
        return Setting.of(
                ENGINE, m, real, real, Criteria.DEFAULT, streams, Setting.layout(m, real, streams), Scene.of("steady"));
    }

    /** Enthalpy between those just below and above the boiling point of oxygen. */
    private static double halfBoiled(Fluid oxygen, double pressure) {
        double boils = ENGINE.pure("oxygen").saturationTemperature(pressure);
        return (oxygen.atPressureTemperature(pressure, boils - 0.1).enthalpy()
                        + oxygen.atPressureTemperature(pressure, boils + 0.1).enthalpy())
                / 2;
    }

    private static double share(Setting s) {
        CavityState c = s.cavity("oxygen drain");
        assertThat(c.state().phase()).isEqualTo(Phase.TWO_PHASE);
        return OxygenRules.gasVolume(s, c);
    }

    @Test
    void gasWithFewDropsIsJudgedAsGasAndNearlyAsOnTheDrySideOfTheDewPoint() {
        // A little oxygen is liquid: 97 K, gas of 0.55 oxygen.
        Setting wet = drain(0.08, 97, PRESSURE, 72);
        assertThat(share(wet)).isBetween(0.99, 1.0);
        Finding f = only(OxygenRules.velocity(wet));
        assertThat(f.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(f.limit()).isEqualTo(30);
        assertThat(f.what()).isEqualTo("Velocity of oxygen-rich gas over liquid in oxygen line");
        Setting dry = drain(0.08, 110, PRESSURE, 72);
        assertThat(dry.cavity("oxygen drain").state().phase()).isNotEqualTo(Phase.TWO_PHASE);
        assertThat(only(OxygenRules.velocity(dry)).verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(only(OxygenRules.velocity(drain(0.08, 97, PRESSURE, 1))).verdict())
                .isEqualTo(Verdict.HOLDS);
    }

    @Test
    void theShareOfTheVolumeIsThatOfThePhases() {
        // By hand: helium alone has the rest of the pressure, oxygen its vapour pressure, the rest of it is liquid.
        Setting s = drain(0.01, 95, PRESSURE, 72);
        double vapour = ENGINE.pure("oxygen").saturationPressure(95);
        double molesHelium = 0.01 / 0.0040026;
        double volume = molesHelium * 8.314462618 * 95 / (PRESSURE - vapour);
        double oxygenGas = ENGINE.pure("oxygen").atTemperatureQuality(95, 1).density() * volume;
        double liquid = (0.99 - oxygenGas)
                / ENGINE.pure("oxygen").atTemperatureQuality(95, 0).density();
        assertThat(share(s)).isCloseTo(volume / (volume + liquid), within(2e-3));
    }

    @Test
    void gasFullOfDropsIsToldOnceAndNotUnderEveryFault() {
        Scene fault = new Scene("steady", "worn: ring A");
        Setting drops = drain(0.01, 95, PRESSURE, 72);
        assertThat(OxygenRules.velocity(scene(drops, fault))).isEmpty();
        assertThat(only(OxygenRules.velocity(scene(drain(0.08, 97, PRESSURE, 72), fault)))
                        .verdict())
                .as("as good as gas")
                .isEqualTo(Verdict.FALLS_SHORT);
    }

    private static Setting scene(Setting s, Scene scene) {
        return Setting.of(s.engine(), s.model(), s.solve(), s.opened(), s.criteria(), s.streams(), s.layout(), scene);
    }

    @Test
    void boilingOxygenAloneHasAShareOfTheVolumeToo() {
        Setting s = drain(0, Double.NaN, PRESSURE, 72);
        double boils = ENGINE.pure("oxygen").saturationTemperature(PRESSURE);
        double quality = s.cavity("oxygen drain").state().quality();
        double gas =
                quality / ENGINE.pure("oxygen").atTemperatureQuality(boils, 1).density();
        double liquid = (1 - quality)
                / ENGINE.pure("oxygen").atTemperatureQuality(boils, 0).density();
        assertThat(share(s)).isBetween(0.9, 0.999).isCloseTo(gas / (gas + liquid), within(1e-6));
    }

    @Test
    void gasFullOfDropsAboveTheCurveIsThinAndLiquidWithBubblesIsNotAsked() {
        Setting drops = drain(0.01, 95, PRESSURE, 72);
        assertThat(share(drops)).isBetween(0.5, 0.99);
        Finding f = only(OxygenRules.velocity(drops));
        assertThat(f.verdict()).isEqualTo(Verdict.THIN);
        assertThat(f.value()).isGreaterThan(f.limit());
        assertThat(f.caution()).contains("the curve is published for gas");
        assertThat(only(OxygenRules.velocity(drain(0.01, 95, PRESSURE, 1))).verdict())
                .isEqualTo(Verdict.HOLDS);
        Setting seal = drain(0.01, 95, PRESSURE, 72, "labyrinth");
        assertThat(OxygenRules.velocity(seal))
                .as("liquid oxygen in a labyrinth")
                .isEmpty();
        Setting bubbles = drain(1e-4, 95, PRESSURE, 72);
        assertThat(share(bubbles)).isLessThan(0.5);
        assertThat(OxygenRules.velocity(bubbles)).isEmpty();
        // Colder the gas is nearly all helium, whatever the liquid is; and below 0.21 MPa the curve does not apply.
        assertThat(OxygenRules.velocity(drain(0.01, 80, PRESSURE, 72))).isEmpty();
        assertThat(OxygenRules.velocity(drain(0.01, 88, 0.2e6, 72))).isEmpty();
    }

    private static Finding only(List<Finding> found) {
        assertThat(found).hasSize(1);
        return found.get(0);
    }
}
