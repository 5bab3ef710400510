package purgewright.fluids.phase;

import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleSupplier;

/**
 * The same calls as {@link PureFluidBenchmark}, timed by the processor time of the thread: for a machine that others use too, where wall
 * time tells mostly how busy they are. Least of 40 batches of 20 000 calls.
 */
public final class ProcessorTime {
    private ProcessorTime() {}

    /** @param arguments fluids, none for a choice */
    public static void main(String[] arguments) {
        List<String> fluids = arguments.length > 0
                ? List.of(arguments)
                : List.of("helium", "nitrogen", "oxygen", "methane", "parahydrogen", "argon", "water");
        System.out.println("| fluid | region | (p,T) | (p,h) | (p,s) | table T, rho | table look-up | table state | table isentrope | table built in |");
        System.out.println("|---|---|---|---|---|---|---|---|---|---|");
        for (String fluid : fluids) {
            for (String region : List.of("gas", "liquid")) {
                PureFluidBenchmark b = new PureFluidBenchmark();
                b.fluid = fluid;
                b.region = region;
                b.prepare();
                long start = now();
                EmbeddedFluid exact = EmbeddedFluid.load(fluid);
                TabulatedFluid.build(exact, TabulatedFluid.Range.of(exact));
                double built = (now() - start) * 1e-9;
                System.out.printf(
                        Locale.ROOT,
                        "| %s | %s | %.0f | %.0f | %.0f | %.0f | %.0f | %.0f | %.0f | %.2f s |%n",
                        fluid,
                        region,
                        time(b::equationPressureTemperature),
                        time(b::equationPressureEnthalpy),
                        time(b::equationPressureEntropy),
                        time(b::tableTemperatureAndDensity),
                        time(b::tableLookUp),
                        time(() -> b.tableState().density()),
                        time(b::tableIsentrope),
                        built);
            }
        }
    }

    private static long now() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static double time(DoubleSupplier call) {
        double least = Double.POSITIVE_INFINITY;
        double sum = 0;
        int calls = 20_000;
        for (int batch = 0; batch < 40; batch++) {
            long start = now();
            for (int i = 0; i < calls; i++) {
                sum += call.getAsDouble();
            }
            least = Math.min(least, (now() - start) / (double) calls);
        }
        return Double.isNaN(sum) ? Double.NaN : least;
    }
}
