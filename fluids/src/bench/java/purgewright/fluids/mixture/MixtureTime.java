package purgewright.fluids.mixture;

import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;

/**
 * What a state of a mixture costs, by the processor time of the thread: least of 30 batches of 2000 calls over 500 random states. One
 * line a mixture: (p,T), (p,h), (p,s), viscosity, conductivity; microseconds a call, and bytes allocated a call of (p,h).
 */
public final class MixtureTime {
    private static final int STATES = 500;

    private MixtureTime() {}

    private record Mixture(String name, double[] shares, double pressure, double temperature) {}

    /** @param arguments {@code tables} to take the tabulated engine */
    public static void main(String[] arguments) {
        PropertyEngine engine = Engines.embedded();
        StreamMixer mixer = engine.mixer(List.of(
                new StreamDefinition.Single("helium", "helium"),
                new StreamDefinition.Single("oxygen", "oxygen"),
                new StreamDefinition.Burn("drive gas", "methane", "oxygen", 0.4, 6e6, 120, 95, false),
                new StreamDefinition.Single("air", "air")));
        List<Mixture> mixtures = List.of(
                new Mixture("helium alone", new double[] {1, 0, 0, 0}, 1e6, 290),
                new Mixture("oxygen alone, gas", new double[] {0, 1, 0, 0}, 4e5, 200),
                new Mixture("oxygen alone, liquid", new double[] {0, 1, 0, 0}, 1e6, 95),
                new Mixture("helium + oxygen", new double[] {0.4, 0.6, 0, 0}, 4e5, 250),
                new Mixture("helium + oxygen, cold", new double[] {0.4, 0.6, 0, 0}, 4e5, 140),
                new Mixture("drive gas", new double[] {0, 0, 1, 0}, 1e6, 900),
                new Mixture("helium + drive gas", new double[] {0.5, 0, 0.5, 0}, 5e5, 600),
                new Mixture("helium + drive gas, damp", new double[] {0.5, 0, 0.5, 0}, 5e5, 340),
                new Mixture("air", new double[] {0, 0, 0, 1}, 1e5, 290),
                new Mixture("all four", new double[] {0.3, 0.3, 0.3, 0.1}, 4e5, 500),
                new Mixture("oxygen + 1 % helium, wet", new double[] {0.01, 0.99, 0, 0}, 4e5, 85),
                new Mixture("oxygen + 20 % helium, wet", new double[] {0.2, 0.8, 0, 0}, 4e5, 85),
                new Mixture("liquid oxygen + 10 % drive gas", new double[] {0, 0.9, 0.1, 0}, 4e5, 90));
        System.out.println("| mixture | (p,T) | (p,h) | (p,s) | viscosity | conductivity | bytes |");
        System.out.println("|---|---|---|---|---|---|---|");
        for (Mixture m : mixtures) {
            run(mixer, m);
        }
    }

    private static void run(StreamMixer mixer, Mixture m) {
        Fluid fluid = mixer.mix(m.shares());
        SplittableRandom random = new SplittableRandom(7);
        FluidState[] states = new FluidState[STATES];
        for (int i = 0; i < STATES; i++) {
            double p = m.pressure() * random.nextDouble(0.8, 1.2);
            double t = m.temperature() * random.nextDouble(0.95, 1.05);
            states[i] = fluid.atPressureTemperature(p, t);
        }
        System.out.printf(
                Locale.ROOT,
                "| %s | %.2f | %.2f | %.2f | %.2f | %.2f | %d |%n",
                m.name(),
                time(i -> fluid.atPressureTemperature(states[i].pressure(), states[i].temperature()).density()),
                time(i -> fluid.atPressureEnthalpy(states[i].pressure(), states[i].enthalpy()).density()),
                time(i -> fluid.atPressureEntropy(states[i].pressure(), states[i].entropy()).density()),
                time(i -> fluid.viscosity(states[i])),
                time(i -> fluid.conductivity(states[i])),
                bytes(i -> fluid.atPressureEnthalpy(states[i].pressure(), states[i].enthalpy()).density()));
    }

    private static long now() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static double time(IntToDoubleFunction call) {
        double least = Double.POSITIVE_INFINITY;
        double sum = 0;
        for (int batch = 0; batch < 30; batch++) {
            long start = now();
            for (int i = 0; i < 4 * STATES; i++) {
                sum += call.applyAsDouble(i % STATES);
            }
            least = Math.min(least, (now() - start) / (4.0 * STATES));
        }
        return Double.isNaN(sum) ? Double.NaN : 1e-3 * least;
    }

    private static long bytes(IntToDoubleFunction call) {
        com.sun.management.ThreadMXBean threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        double sum = 0;
        long before = threads.getCurrentThreadAllocatedBytes();
        for (int i = 0; i < STATES; i++) {
            sum += call.applyAsDouble(i);
        }
        long used = threads.getCurrentThreadAllocatedBytes() - before;
        return Double.isNaN(sum) ? -1 : used / STATES;
    }
}
