package purgewright.result;

import java.util.List;
import java.util.Locale;
import purgewright.fluids.validation.Check;

/** {@code validate --json}: ours against theirs. */
public final class ValidationJson {
    private ValidationJson() {}

    /**
     * A check that was run.
     *
     * @param computed our number; NaN when the computation failed
     * @param failure why it failed; empty when it did not
     */
    public record Line(Check check, double computed, String failure) {
        /** True when our number lies within the tolerance. */
        public boolean passes() {
            return failure.isEmpty() && check.passes(computed);
        }
    }

    /** All checks in order. */
    public static String write(List<Line> lines, String version, String engine) {
        long failed = lines.stream().filter(line -> !line.passes()).count();
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT).field("version", version).field("engine", engine);
            json.field("checks", lines.size()).field("failed", (int) failed);
            json.objects("lines", lines, (j, line) -> {
                Check check = line.check();
                j.field("id", check.id())
                        .field("quantity", check.quantity())
                        .field("source", check.source())
                        .field("label", check.label().text())
                        .field("kind", check.kind().name().toLowerCase(Locale.ROOT))
                        .field("expected", check.expected())
                        .field("computed", line.computed())
                        .field("deviation", check.deviation(line.computed()))
                        .field("tolerance", check.tolerance())
                        .field("relative", check.relative())
                        .field("unit", check.unit())
                        .field("passes", line.passes())
                        .field("failure", line.failure());
            });
        });
    }
}
