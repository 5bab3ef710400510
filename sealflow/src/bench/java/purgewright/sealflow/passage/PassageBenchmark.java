package purgewright.sealflow.passage;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.fluids.phase.TableStore;
import purgewright.sealflow.model.PassageSpec;

/** What one evaluation of a passage costs: 64 back pressures around a working point, one after the other. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
@State(Scope.Thread)
public class PassageBenchmark {
    private static final int STATES = 64;
    private static final PropertyEngine TABLES = Engines.tabulated(TableStore.ofUser());

    @Param({"orifice", "labyrinth", "floating ring", "line", "face"})
    public String type;

    @Param({
        "perfect open",
        "perfect choked",
        "nitrogen open",
        "nitrogen choked",
        "oxygen liquid",
        "oxygen flashing",
        "oxygen two-phase",
        "mixture two-phase"
    })
    public String point;

    /** Through the tables, or with the equations. */
    @Param({"tables"})
    public String engine;

    private Passage passage;
    private FluidState up;
    private final FluidState[] down = new FluidState[STATES];
    private int at;

    @Setup
    public void prepare() {
        Map<String, Object> fields = new HashMap<>(Map.of("length", 6e-3, "inner radius", 0.025, "outer radius", 0.03));
        double clearance = Double.NaN;
        switch (type) {
            case "orifice":
                fields.put("diameter", 1.8e-3);
                break;
            case "line":
                fields.put("diameter", 16e-3);
                fields.put("length", 3.0);
                break;
            case "labyrinth":
                clearance = 0.09e-3;
                fields.putAll(Map.of("teeth", 6.0, "pitch", 2.5e-3, "tip", 0.25e-3, "arrangement", "straight"));
                break;
            case "face":
                fields.put("gap", 8e-6);
                break;
            default:
                clearance = 0.03e-3;
                break;
        }
        PassageSpec spec = PassageChecks.spec(type, 0.025, clearance, fields);
        passage = PassageTypes.find(type)
                .orElseThrow()
                .build(spec, new Conditions(3350, Double.NaN, Conditions.Bound.NOMINAL));
        PropertyEngine properties = engine.equals("tables") ? TABLES : Engines.embedded();
        double high;
        double back;
        switch (point) {
            case "perfect open":
            case "nitrogen open":
                high = 1.0e6;
                back = 0.7e6;
                break;
            case "perfect choked":
            case "nitrogen choked":
                high = 1.0e6;
                back = 0.1e6;
                break;
            case "oxygen two-phase":
            case "mixture two-phase":
                high = 0.35e6;
                back = 0.11e6;
                break;
            default:
                high = 2.6e6;
                back = 0.35e6;
                break;
        }
        Fluid fluid = point.startsWith("perfect")
                ? new PerfectGas("nitrogen", 296.8, 1.4, 17.8e-6)
                : point.startsWith("mixture") ? wet(properties) : properties.pure(point.substring(0, point.indexOf(' ')));
        double temperature = point.startsWith("oxygen") ? point.endsWith("flashing") ? 120 : 97 : 300;
        up = point.startsWith("mixture")
                ? fluid.atPressureTemperature(high, 94)
                : fluid.atPressureTemperature(high, temperature);
        if (point.equals("oxygen two-phase")) {
            FluidState liquid = fluid.atPressureTemperature(2.6e6, 110);
            up = fluid.atPressureEnthalpy(high, liquid.enthalpy());
        }
        for (int i = 0; i < STATES; i++) {
            double p = back * (1 + 0.1 * i / STATES);
            down[i] = fluid.atPressureEnthalpy(p, up.enthalpy());
        }
    }

    /** Liquid oxygen with helium, as an oxygen drain has it. */
    private static Fluid wet(PropertyEngine properties) {
        StreamMixer mixer = properties.mixer(List.of(
                new StreamDefinition.Single("oxygen", "oxygen"), new StreamDefinition.Single("helium", "helium")));
        return mixer.mix(new double[] {0.985, 0.015});
    }

    @Benchmark
    public PassageFlow flow() {
        at = (at + 1) & (STATES - 1);
        return passage.flow(up, down[at]);
    }
}
