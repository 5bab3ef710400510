package purgewright.result;

import java.util.Locale;
import purgewright.hazard.service.RunResult;
import purgewright.sealflow.campaign.Channel;

/** {@code run -o}: one line a moment, SI; the unit stands in each column's head, as such a table is read. */
public final class RunCsv {
    private RunCsv() {}

    /**
     * The whole file.
     *
     * @param hash of the case
     * @param version of this program
     */
    public static String write(RunResult run, String hash, String version, String engine) {
        StringBuilder text = new StringBuilder();
        text.append("# purgewright run, version ").append(version).append('\n');
        text.append("# case ").append(hash).append('\n');
        text.append("# properties ").append(engine).append('\n');
        text.append("time [s]");
        for (Channel c : run.channels()) {
            text.append(',').append(CsvText.cell(title(c) + " [" + c.unit() + "]"));
        }
        text.append('\n');
        int rows = run.channels().isEmpty() ? 0 : run.channels().get(0).size();
        for (int i = 0; i < rows; i++) {
            text.append(number(run.channels().get(0).time(i)));
            for (Channel c : run.channels()) {
                text.append(',').append(number(c.value(i)));
            }
            text.append('\n');
        }
        return text.toString();
    }

    /** What has a place of its own in the case is called by it, so that the file can be laid over another run. */
    private static String title(Channel c) {
        boolean placed = c.kind() == Channel.Kind.PRESSURE
                || c.kind() == Channel.Kind.TEMPERATURE
                || c.kind() == Channel.Kind.FLOW
                || c.kind() == Channel.Kind.SPEED;
        return placed ? c.place() : c.kind() == Channel.Kind.MARGIN ? "margin " + c.name() : c.name();
    }

    static String number(double value) {
        return Double.isFinite(value) ? String.format(Locale.ROOT, "%.9g", value) : "";
    }
}
