package purgewright.result;

import java.util.List;
import java.util.Locale;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.studies.Sample;
import purgewright.hazard.studies.SpreadResult.Identity;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SweepResult;

/**
 * Samples and sweeps as CSV, one line a point, SI, what is not known is an empty cell. Lines of the heading begin with #. A column's
 * title never begins with a sign that a spreadsheet would take for a formula.
 */
public final class SpreadCsv {
    private SpreadCsv() {}

    /** The heading of a file of samples. */
    public static String samplesHead(
            Identity identity, SpreadSettings settings, String version, List<String> inputs, List<String> outputs) {
        StringBuilder text = new StringBuilder();
        head(text, "spread", identity, version);
        text.append("# seed ").append(settings.seed());
        text.append("\n# sampling ").append(settings.sampling().word());
        text.append(", ").append(settings.samples()).append(" samples planned, part ");
        text.append(settings.part().number()).append('/').append(settings.part().of());
        text.append("\nsample,verdict,margin,governing");
        inputs.forEach(i -> text.append(',').append(CsvText.cell("in " + i)));
        outputs.forEach(o -> text.append(',').append(CsvText.cell("out " + o)));
        return text.append('\n').toString();
    }

    /** One line of a file of samples. */
    public static String sample(Sample s) {
        StringBuilder text = new StringBuilder();
        text.append(s.index())
                .append(',')
                .append(s.verdict().word())
                .append(',')
                .append(number(s.margin()));
        text.append(',').append(CsvText.cell(s.governing()));
        for (double x : s.inputs()) {
            text.append(',').append(number(x));
        }
        for (double x : s.outputs()) {
            text.append(',').append(number(x));
        }
        return text.append('\n').toString();
    }

    /** A whole sweep. */
    public static String sweep(SweepResult r, String version) {
        StringBuilder text = new StringBuilder();
        head(text, "sweep", r.identity(), version);
        text.append("# seed none: nothing is drawn\n");
        r.axes().forEach(a -> text.append(CsvText.cell("at " + a.place() + " [" + Dimension.si(a.unit()) + "]"))
                .append(','));
        text.append("verdict,margin,governing");
        for (int i = 0; i < r.outputs().size(); i++) {
            text.append(',')
                    .append(CsvText.cell(
                            "out " + r.outputs().get(i) + " [" + r.units().get(i) + "]"));
        }
        text.append('\n');
        for (SweepResult.Point p : r.points()) {
            p.at().forEach(x -> text.append(number(x)).append(','));
            text.append(p.verdict().word()).append(',').append(number(p.margin()));
            text.append(',').append(CsvText.cell(p.governing()));
            p.outputs().forEach(x -> text.append(',').append(number(x)));
            text.append('\n');
        }
        return text.toString();
    }

    private static void head(StringBuilder text, String kind, Identity identity, String version) {
        text.append("# purgewright ").append(kind).append(", version ").append(version);
        text.append("\n# case ").append(identity.hash());
        text.append("\n# title ").append(CsvText.line(identity.title()));
        text.append("\n# properties ").append(identity.engine()).append('\n');
    }

    private static String number(double value) {
        return Double.isFinite(value) ? String.format(Locale.ROOT, "%.9g", value) : "";
    }
}
