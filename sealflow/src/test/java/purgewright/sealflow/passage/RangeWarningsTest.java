package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;

/** Every type of seal says so when it is asked for what its law was not made for. A new type must be named here. */
class RangeWarningsTest {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);

    private record Beyond(
            double speed, double clearance, double temperature, double high, Map<String, Object> fields) {}

    private static Map<String, Beyond> beyond() {
        Map<String, Beyond> all = new LinkedHashMap<>();
        // Clearance over pitch 0.25.
        all.put("labyrinth", new Beyond(0, 1e-3, 300, 1e6, Map.of("teeth", 4.0, "pitch", 4e-3, "tip", 0.3e-3)));
        // A gap a fifth of the radius.
        all.put("bushing", new Beyond(0, 10e-3, 300, 1e6, Map.of("length", 6e-3)));
        all.put("floating ring", new Beyond(0, 10e-3, 300, 1e6, Map.of("length", 6e-3)));
        // A gas whose molecules fly farther than the film is thick.
        all.put(
                "face",
                new Beyond(0, Double.NaN, 900, 2e3, Map.of("inner radius", 0.04, "outer radius", 0.05, "gap", 1e-6)));
        // 5000 rad/s at 55 mm is 275 m/s.
        all.put("hydrodynamic face", new Beyond(5000, Double.NaN, 300, 2e6, SealTypesTest.GROOVED_FACE));
        all.put("segmented ring", new Beyond(0, Double.NaN, 900, 2e3, Map.of("segments", 3.0)));
        all.put("brush", new Beyond(0, Double.NaN, 1200, 1e6, Map.of("effective clearance", 50e-6)));
        all.put("rim", new Beyond(2000, Double.NaN, 300, 1.01e6, Map.of("gap", 0.3e-3, "overlap", 2e-3)));
        // Gap Reynolds number above 1000.
        all.put(
                "slinger",
                new Beyond(
                        5000,
                        Double.NaN,
                        300,
                        5e6,
                        Map.of(
                                "inner radius",
                                0.05,
                                "outer radius",
                                0.05,
                                "gap",
                                0.5e-3,
                                "surface",
                                "grooved",
                                "length",
                                0.03)));
        // Above the pressures of the test.
        all.put(
                "measured",
                new Beyond(
                        0,
                        Double.NaN,
                        300,
                        2e6,
                        Map.of(
                                "table",
                                "0.4 MPa > 0.1 MPa: 1.2 g/s",
                                "test gas",
                                "nitrogen",
                                "test temperature",
                                300.0)));
        return all;
    }

    @Test
    void everySealBeyondItsRangeSaysSo() {
        Map<String, Beyond> all = beyond();
        for (PassageType type : PassageTypes.all()) {
            if (type.kind() == PassageType.SealKind.DUCT || type.key().equals("static seal")) {
                // A static seal is one stated point: it has no law with a range of its own.
                continue;
            }
            Beyond b = all.get(type.key());
            assertThat(b).as("a case beyond the range of " + type.key()).isNotNull();
            FluidState up = AIR.atPressureTemperature(b.high(), b.temperature());
            FluidState down = AIR.atPressureTemperature(0.1 * b.high(), b.temperature());
            List<Notice> notices = type.build(
                            PassageChecks.spec(type.key(), 0.05, b.clearance(), b.fields()),
                            new Conditions(b.speed(), Double.NaN, Conditions.Bound.NOMINAL))
                    .flow(up, down)
                    .notices();
            assertThat(notices)
                    .as(type.key())
                    .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE
                            || n.key() == Notice.Key.NOT_ESTABLISHED
                            || (type.key().equals("rim") && n.key() == Notice.Key.ESTIMATE));
        }
    }
}
