package purgewright.sealflow.passage;

import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;

/**
 * The calls of {@link PassageBenchmark}, timed by the processor time of the thread and with the bytes it allocates: for a machine that
 * others use too, where wall time tells mostly how busy they are. Least of 30 batches.
 */
public final class PassageTimes {
    private PassageTimes() {}

    /** @param arguments engine (tables or equations), then types and points to leave the others out */
    public static void main(String[] arguments) {
        String engine = arguments.length > 0 ? arguments[0] : "tables";
        List<String> only = List.of(arguments);
        String[] types = {"orifice", "labyrinth", "floating ring", "line", "face"};
        String[] points = {
            "perfect open",
            "perfect choked",
            "nitrogen open",
            "nitrogen choked",
            "oxygen liquid",
            "oxygen flashing",
            "oxygen two-phase",
            "mixture two-phase"
        };
        System.out.println("| passage | point | us an evaluation | bytes |");
        System.out.println("|---|---|---|---|");
        for (String type : types) {
            for (String point : points) {
                boolean named = only.size() < 2 || only.contains(type) || only.contains(point);
                if (named) {
                    PassageBenchmark b = new PassageBenchmark();
                    b.type = type;
                    b.point = point;
                    b.engine = engine;
                    b.prepare();
                    print(b);
                }
            }
        }
    }

    private static void print(PassageBenchmark b) {
        long once = System.nanoTime();
        int warm = 0;
        while (System.nanoTime() - once < 1_000_000_000L) {
            b.flow();
            warm++;
        }
        int calls = Math.max(10, warm / 40);
        double least = Double.POSITIVE_INFINITY;
        long bytes = bytes();
        for (int batch = 0; batch < 30; batch++) {
            long start = now();
            for (int i = 0; i < calls; i++) {
                b.flow();
            }
            least = Math.min(least, (now() - start) / (double) calls);
        }
        double each = (bytes() - bytes) / (30.0 * calls);
        System.out.printf(Locale.ROOT, "| %s | %s | %.2f | %.0f |%n", b.type, b.point, least * 1e-3, each);
    }

    private static long now() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static long bytes() {
        return ((com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean())
                .getThreadAllocatedBytes(Thread.currentThread().getId());
    }
}
