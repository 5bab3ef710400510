package purgewright.hazard.service;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.DesignPoints.Cell;
import purgewright.hazard.service.DesignPoints.Edit;
import purgewright.hazard.sizing.Evaluation;
import purgewright.hazard.sizing.Parameter;
import purgewright.hazard.sizing.PurgeWindow;
import purgewright.hazard.sizing.PurgeWindow.Band;
import purgewright.hazard.sizing.WindowSampler;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.SolveResult.Converged;

/** The purge window of a case. A number that a model cannot change by itself is changed in the document, which is read anew. */
final class WindowMap {
    /** Points at most: beyond it a boundary is too ragged to be followed, and the result says so. */
    private static final int BUDGET = 4000;

    private final DesignPoints points;
    private final CaseDocument document;

    /** @param document null for a case that was never text: then only what {@link Parameter} knows can vary */
    WindowMap(DesignPoints points, CaseDocument document) {
        this.points = points;
        this.document = document;
    }

    /** A place that may vary, with its value as stated, SI. */
    private record Side(String place, Parameter parameter, double stated) {}

    private Side side(String place) {
        Parameter p = Parameter.find(points.whole, place);
        if (p != null || document == null) {
            Parameter known = Parameter.of(points.whole, place);
            return new Side(place, known, known.get(points.whole));
        }
        String typed = document.text(place).orElse("");
        if (typed.isEmpty() || !Units.looksNumeric(typed)) {
            Parameter.of(points.whole, place); // says what would be right
        }
        Units.Quantity q = Units.parseAny(typed, points.whole.surroundings().pressure());
        return new Side(place, null, q.si());
    }

    PurgeWindow map(MapSettings settings, Progress progress) {
        Side x = side(settings.x());
        Side y = side(settings.y());
        List<Cell> cells = points.cells(settings.worn(), settings.extremes(), List.of(), null);
        Edit edit = x.parameter() != null && y.parameter() != null
                ? (phase, model, values) -> set(y, phase, set(x, phase, model, values[0]), values[1])
                : (phase, model, values) -> reread(List.of(x, y), phase, values);
        Set<String> judged = new TreeSet<>();
        cells.forEach(c -> judged.add(c.key()));
        AtomicInteger done = new AtomicInteger();
        int survey = settings.points() * settings.points();
        PurgeWindow w = WindowSampler.sample(
                list -> {
                    List<Evaluation> out = points.evaluate(list, edit, cells, judged, 0);
                    int n = done.addAndGet(list.size());
                    boolean first = n <= survey;
                    double share = settings.resolution() > 0
                            ? first ? 0.5 * n / survey : 0.5 + 0.5 * (1 - Math.exp(-(n - survey) / 150.0))
                            : (double) n / survey;
                    progress.at(share, first ? "survey" : "boundaries");
                    return out;
                },
                settings.x(),
                settings.y(),
                new WindowSampler.Settings(
                        settings.lowX(),
                        settings.highX(),
                        settings.lowY(),
                        settings.highY(),
                        settings.points(),
                        settings.resolution(),
                        BUDGET));
        progress.at(1, "done");
        return new PurgeWindow(
                w.x(),
                w.y(),
                w.xs(),
                w.ys(),
                w.criteria(),
                w.margins(),
                w.feasible(),
                w.purge(),
                w.governing(),
                x.stated(),
                y.stated(),
                w.samples(),
                w.boundaries(),
                w.contours(),
                w.region(),
                band(x),
                band(y),
                w.resolution(),
                w.complete());
    }

    private Case set(Side side, String phase, Case model, double value) {
        return points.applies(side.parameter(), phase) ? side.parameter().set(model, value) : model;
    }

    /** The case of a phase out of the document with both places typed anew, in SI. */
    private Case reread(List<Side> sides, String phase, double[] values) {
        CaseDocument changed = document;
        for (int i = 0; i < values.length; i++) {
            String unit = document.text(sides.get(i).place())
                    .map(t -> Units.parseAny(t, points.whole.surroundings().pressure())
                            .dimension()
                            .si())
                    .orElse("1");
            changed = changed.with(
                    sides.get(i).place(),
                    "1".equals(unit)
                            ? String.format(Locale.ROOT, "%.12g", values[i])
                            : String.format(Locale.ROOT, "%.12g %s", values[i], unit));
        }
        DutyPhase duty = points.duty(phase);
        return duty == null ? changed.toCase() : changed.toCase(duty);
    }

    /** What the regulator may do to a set pressure: accuracy both ways, droop at the purge flow downwards. */
    private Band band(Side side) {
        Supply supply = points.whole.supply();
        boolean pressure = side.parameter() != null
                && "cavities".equals(side.parameter().section())
                && "pressure".equals(side.parameter().field());
        if (!pressure
                || supply == null
                || supply.regulator() == null
                || !side.parameter().name().equals(supply.cavity())) {
            return new Band(side.stated(), side.stated());
        }
        double flow = 0;
        for (var e : points.models.entrySet()) {
            if (points.points.solve(e.getValue(), null) instanceof Converged c) {
                flow = Math.max(flow, Purge.flow(e.getValue(), c, points.layout));
            }
        }
        return new Band(
                side.stated()
                        - supply.regulator().accuracy()
                        - supply.regulator().droop() * flow,
                side.stated() + supply.regulator().accuracy());
    }
}
