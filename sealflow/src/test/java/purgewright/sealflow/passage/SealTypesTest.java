package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.PassageSpec;

class SealTypesTest {
    /** Fields of a grooved face. */
    static final Map<String, Object> GROOVED_FACE = Map.of(
            "inner radius",
            0.04,
            "outer radius",
            0.055,
            "groove radius",
            0.047,
            "groove depth",
            8e-6,
            "balance radius",
            0.042,
            "spring force",
            30.0);

    private static final PropertyEngine ENGINE = Engines.embedded();
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final PerfectGas NITROGEN = new PerfectGas("nitrogen", 296.80, 1.4, 1.78e-5);

    private static Passage make(
            String type, double radius, double clearance, double speed, Map<String, Object> fields) {
        return PassageTypes.find(type)
                .orElseThrow()
                .build(
                        PassageChecks.spec(type, radius, clearance, fields),
                        new Conditions(speed, Double.NaN, Conditions.Bound.NOMINAL));
    }

    private static PassageFlow flow(Passage passage, PerfectGas gas, double from, double to) {
        return passage.flow(gas.atPressureTemperature(from, 300), gas.atPressureTemperature(to, 300));
    }

    @Test
    void keysAndFieldNamesAreUnique() {
        Set<String> keys = new HashSet<>();
        for (PassageType type : PassageTypes.all()) {
            assertThat(keys.add(type.key())).as(type.key()).isTrue();
            Set<String> names = new HashSet<>();
            type.fields().forEach(f -> assertThat(names.add(f.name()))
                    .as(type.key() + " " + f.name())
                    .isTrue());
            assertThat(type.description()).endsWith(".");
        }
    }

    @Test
    void countAndCalibrationMultiplyAndAShutValvePassesNothing() {
        PassageSpec one = PassageChecks.spec("orifice", Double.NaN, Double.NaN, Map.of("diameter", 1e-3));
        PassageSpec three = new PassageSpec(
                "o",
                "a",
                "b",
                "orifice",
                3,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                1.1,
                Double.NaN,
                false,
                one.fields());
        PassageSpec shut = new PassageSpec(
                "o",
                "a",
                "b",
                "orifice",
                1,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                true,
                one.fields());
        Conditions still = new Conditions(0, Double.NaN, Conditions.Bound.NOMINAL);
        PassageType type = PassageTypes.find("orifice").orElseThrow();
        double single = flow(type.build(one, still), HELIUM, 1e6, 1e5).massFlow();
        assertThat(flow(type.build(three, still), HELIUM, 1e6, 1e5).massFlow()).isCloseTo(3.3 * single, within(1e-12));
        assertThat(flow(type.build(shut, still), HELIUM, 1e6, 1e5).massFlow()).isZero();
        assertThat(type.build(shut, still).diffusionArea()).isZero();
    }

    @Test
    void aLiquidLineHoldsItsHead() {
        Passage line =
                make("line", Double.NaN, Double.NaN, 0, Map.of("diameter", 0.02, "length", 10.0, "elevation", 10.0));
        FluidState low = StiffLiquid.WATER.atPressureTemperature(2e5 + 9.80665 * 10 * 1003.7, 293);
        FluidState top = StiffLiquid.WATER.atPressureTemperature(2e5, 293);
        double density = 0.5 * (low.density() + top.density());
        FluidState even = StiffLiquid.WATER.atPressureTemperature(2e5 + 9.80665 * 10 * density, 293);
        double pushed = line.flow(StiffLiquid.WATER.atPressureTemperature(2.5e5, 293), top)
                .massFlow();
        assertThat(Math.abs(line.flow(even, top).massFlow())).isLessThan(1e-3);
        assertThat(pushed).isLessThan(0);
    }

    @Test
    void aSlingerHoldsLiquidUpToItsPressureAndLeaksAbove() {
        double speed = 3000;
        Passage slinger = make(
                "slinger",
                Double.NaN,
                Double.NaN,
                speed,
                Map.of("inner radius", 0.03, "outer radius", 0.04, "gap", 0.2e-3));
        double density = StiffLiquid.WATER.atPressureTemperature(2e6, 295).density();
        double held = 0.5 * density * Math.pow(0.9 * speed, 2) * (0.04 * 0.04 - 0.03 * 0.03);
        FluidState back = StiffLiquid.WATER.atPressureTemperature(2e5, 295);
        double below = slinger.flow(StiffLiquid.WATER.atPressureTemperature(2e5 + 0.8 * held, 295), back)
                .massFlow();
        double above = slinger.flow(StiffLiquid.WATER.atPressureTemperature(2e5 + 1.2 * held, 295), back)
                .massFlow();
        assertThat(below).isPositive().isLessThan(0.01 * above);
    }

    @Test
    void aConedFaceFindsItsStableGapAndAnUnstableConeDoesNot() {
        Map<String, Object> fields = new HashMap<>(Map.of(
                "inner radius",
                0.025,
                "outer radius",
                0.030,
                "balance radius",
                0.0262,
                "spring force",
                20.0,
                "coning",
                2e-6));
        PassageFlow converging = flow(make("face", Double.NaN, Double.NaN, 2000, fields), NITROGEN, 1e6, 1e5);
        assertThat(value(converging, "face balance")).isBetween(0.3e-6, 30e-6);
        fields.put("coning", -2e-6);
        PassageFlow diverging = flow(make("face", Double.NaN, Double.NaN, 2000, fields), NITROGEN, 1e6, 1e5);
        assertThat(value(diverging, "face in contact")).isCloseTo(5.08e-6, within(1e-12));
        fields.put("balance radius", 0.0299);
        fields.put("coning", 0.0);
        fields.put("spring force", 0.0);
        PassageFlow open = flow(make("face", Double.NaN, Double.NaN, 2000, fields), NITROGEN, 1e6, 1e5);
        assertThat(open.notices()).anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED);
    }

    @Test
    void aLightlyLoadedGroovedFaceNamesTheGapAtWhichForcesMeetAndAFaceWithoutOneSaysSo() {
        // Closing force between that of the open film and of the thin one: grooves hold it where the thrust falls to
        // it.
        Map<String, Object> fields = new HashMap<>(GROOVED_FACE);
        PassageFlow held = flow(make("hydrodynamic face", Double.NaN, Double.NaN, 1500, fields), NITROGEN, 2e6, 1e5);
        assertThat(value(held, "hydrodynamic face")).isBetween(0.5e-6, 20e-6);
        // A cone open to the low pressure closes when it is close and opens when it is wide: nothing holds it.
        Map<String, Object> diverging = Map.of(
                "inner radius",
                0.025,
                "outer radius",
                0.030,
                "balance radius",
                0.0276,
                "spring force",
                0.0,
                "coning",
                -2e-6);
        PassageFlow blown = flow(make("face", Double.NaN, Double.NaN, 0, diverging), NITROGEN, 1e6, 1e5);
        assertThat(blown.notices())
                .anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED
                        || "face in contact".equals(n.values().get("model")));
    }

    @Test
    void spiralGroovesLiftAFaceMoreWhenItTurnsFaster() {
        Map<String, Object> fields = GROOVED_FACE;
        double slow = value(
                flow(make("hydrodynamic face", Double.NaN, Double.NaN, 500, fields), NITROGEN, 2e6, 1e5),
                "hydrodynamic face");
        double fast = value(
                flow(make("hydrodynamic face", Double.NaN, Double.NaN, 1500, fields), NITROGEN, 2e6, 1e5),
                "hydrodynamic face");
        assertThat(slow).isBetween(0.5e-6, 10e-6);
        assertThat(fast).isGreaterThan(slow);
    }

    private static double value(PassageFlow flow, String model) {
        return flow.notices().stream()
                .filter(n -> model.equals(n.values().get("model")))
                .map(n -> (Double) n.values().get("value"))
                .findFirst()
                .orElse(Double.NaN);
    }

    @Test
    void aMeasuredTableGivesItsOwnPointsBackAndScalesToHelium() {
        Passage passage = make(
                "measured",
                Double.NaN,
                Double.NaN,
                0,
                Map.of(
                        "table",
                        "0.4 MPa > 0.1 MPa: 1.2 g/s; 0.2 MPa > 0.1 MPa: 0.5 g/s",
                        "test gas",
                        "nitrogen",
                        "test temperature",
                        300.0));
        assertThat(flow(passage, NITROGEN, 0.4e6, 0.1e6).massFlow()).isCloseTo(1.2e-3, within(1e-6));
        assertThat(flow(passage, NITROGEN, 0.2e6, 0.1e6).massFlow()).isCloseTo(0.5e-3, within(1e-6));
        double ratio = flow(passage, HELIUM, 0.4e6, 0.1e6).massFlow()
                / flow(passage, NITROGEN, 0.4e6, 0.1e6).massFlow();
        assertThat(ratio).isCloseTo(Math.sqrt(296.80 / 2077.26), within(1e-3));
        assertThat(flow(passage, NITROGEN, 0.9e6, 0.1e6).notices()).anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE);
        assertThatThrownBy(() -> make("measured", Double.NaN, Double.NaN, 0, Map.of("table", "0.4 MPa: 1.2 g/s")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("upstream > downstream");
    }

    @Test
    void aBrushRefusesToSpeakOfLiquid() {
        Passage brush = make("brush", 0.05, Double.NaN, 1000, Map.of("effective clearance", 50e-6));
        FluidState liquid = ENGINE.pure("nitrogen").atPressureTemperature(1e6, 80);
        PassageFlow flow = brush.flow(liquid, ENGINE.pure("nitrogen").atPressureTemperature(2e5, 90));
        assertThat(flow.notices()).anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED);
    }

    @Test
    void aRimGapSaysHowFarItsFlowHoldsOutWhatAPressureVariationOutsideWouldPushIn() {
        Map<String, Object> fields = new HashMap<>(Map.of("gap", 0.3e-3, "overlap", 2e-3, "pressure variation", 20e3));
        PassageFlow weak = flow(make("rim", 0.1, Double.NaN, 2000, fields), NITROGEN, 1.01e6, 1e6);
        PassageFlow strong = flow(make("rim", 0.1, Double.NaN, 2000, fields), NITROGEN, 1.2e6, 1e6);
        assertThat(effectiveness(weak)).isBetween(0.1, 0.99);
        assertThat(effectiveness(strong)).isEqualTo(1);
        fields.remove("pressure variation");
        assertThat(effectiveness(flow(make("rim", 0.1, Double.NaN, 2000, fields), NITROGEN, 1.01e6, 1e6)))
                .isNaN();
    }

    private static double effectiveness(PassageFlow flow) {
        return flow.notices().stream()
                .filter(n -> "rim seal, pressure variation".equals(n.values().get("model"))
                        && "effectiveness".equals(n.values().get("constant")))
                .map(n -> (Double) n.values().get("value"))
                .findFirst()
                .orElse(Double.NaN);
    }

    @Test
    void sealingEffectivenessIsZeroWithoutFlowAndFullAtTheLeastFlow() {
        for (RimSealing.Shape shape : RimSealing.Shape.values()) {
            assertThat(RimSealing.effectivenessPumping(shape, 0)).isZero();
            assertThat(RimSealing.effectivenessPumping(shape, 1)).isEqualTo(1);
            assertThat(RimSealing.effectivenessExternal(shape, 1)).isEqualTo(1);
            double before = 0;
            for (double x = 0.05; x < 1; x += 0.05) {
                double e = RimSealing.effectivenessPumping(shape, x);
                assertThat(e).isGreaterThan(before).isLessThan(1);
                before = e;
            }
        }
    }

    @Test
    void realFlashingPassagesKeepTheirSenseOfPressure() {
        FluidState up = ENGINE.pure("oxygen").atPressureTemperature(2e6, 115);
        Map<String, Object> fields = Map.of(
                "diameter",
                2e-3,
                "length",
                8e-3,
                "teeth",
                5.0,
                "pitch",
                3e-3,
                "tip",
                0.25e-3,
                "gap",
                8e-6,
                "inner radius",
                0.025,
                "outer radius",
                0.03);
        for (String type : new String[] {"orifice", "line", "labyrinth", "floating ring", "face"}) {
            for (Conditions.Bound bound : Conditions.Bound.values()) {
                Passage passage = PassageTypes.find(type)
                        .orElseThrow()
                        .build(PassageChecks.spec(type, 0.03, 40e-6, fields), new Conditions(2000, Double.NaN, bound));
                double last = Double.POSITIVE_INFINITY;
                for (double down = 0.1e6; down < 2e6; down += 0.1e6) {
                    FluidState to = ENGINE.pure("oxygen").atPressureTemperature(down, 115);
                    double m = passage.flow(up, to).massFlow();
                    assertThat(m).as("%s %s to %s Pa", type, bound, down).isLessThanOrEqualTo(last * (1 + 2e-5));
                    last = m;
                }
            }
        }
    }
}
