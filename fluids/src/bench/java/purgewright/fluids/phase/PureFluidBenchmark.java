package purgewright.fluids.phase;

import java.util.SplittableRandom;
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
import purgewright.fluids.FluidState;

/**
 * What one state costs: 1024 random states of gas (1.05 to 3 critical temperatures at least, 0.1 to 20 MPa) or of subcooled liquid, one
 * after the other.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
@State(Scope.Thread)
public class PureFluidBenchmark {
    private static final int STATES = 1024;

    @Param({"helium", "nitrogen", "oxygen", "methane", "parahydrogen", "argon", "water"})
    public String fluid;

    @Param({"gas", "liquid"})
    public String region;

    private EmbeddedFluid exact;
    private TabulatedFluid table;
    private final StateBuffer buffer = new StateBuffer();
    private final double[] out = new double[6];
    private final double[] pressure = new double[STATES];
    private final double[] temperature = new double[STATES];
    private final double[] enthalpy = new double[STATES];
    private final double[] entropy = new double[STATES];
    private int at;

    @Setup
    public void prepare() {
        exact = EmbeddedFluid.load(fluid);
        exact.prepare();
        table = TabulatedFluid.build(exact, TabulatedFluid.Range.of(exact));
        SplittableRandom random = new SplittableRandom(1);
        double tc = exact.criticalTemperature();
        double low = exact.tripleTemperature();
        for (int i = 0; i < STATES; i++) {
            if (region.equals("gas")) {
                double coldest = Math.max(1.05 * tc, fluid.equals("helium") ? 60 : 0);
                double hottest = Math.min(Math.max(3 * tc, 700), exact.publishedMaximumTemperature());
                temperature[i] = coldest + random.nextDouble() * (hottest - coldest);
                pressure[i] = 1e5 * Math.pow(200, random.nextDouble());
            } else {
                temperature[i] = 1.1 * low + random.nextDouble() * (0.9 * tc - 1.1 * low);
                pressure[i] = exact.saturationPressure(temperature[i])
                        + exact.criticalPressure() * (0.1 + 2 * random.nextDouble());
            }
            FluidState s = exact.atPressureTemperature(pressure[i], temperature[i]);
            enthalpy[i] = s.enthalpy();
            entropy[i] = s.entropy();
        }
    }

    private int next() {
        at = (at + 1) & (STATES - 1);
        return at;
    }

    @Benchmark
    public double equationPressureTemperature() {
        int i = next();
        exact.pressureTemperature(pressure[i], temperature[i], buffer);
        return buffer.density();
    }

    @Benchmark
    public double equationPressureEnthalpy() {
        int i = next();
        exact.pressureEnthalpy(pressure[i], enthalpy[i], buffer);
        return buffer.density();
    }

    @Benchmark
    public double equationPressureEntropy() {
        int i = next();
        exact.pressureEntropy(pressure[i], entropy[i], buffer);
        return buffer.density();
    }

    @Benchmark
    public double tableLookUp() {
        int i = next();
        table.lookUp(pressure[i], enthalpy[i], out);
        return out[1];
    }

    @Benchmark
    public double tableTemperatureAndDensity() {
        int i = next();
        table.temperatureAndDensity(pressure[i], enthalpy[i], out);
        return out[1];
    }

    @Benchmark
    public FluidState tableState() {
        int i = next();
        return table.atPressureEnthalpy(pressure[i], enthalpy[i]);
    }

    @Benchmark
    public double tableIsentrope() {
        int i = next();
        table.isentrope(pressure[i], entropy[i], out);
        return out[0];
    }
}
