package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.DesignPoints.Cell;
import purgewright.hazard.service.DesignPoints.Edit;
import purgewright.hazard.service.DesignPoints.Outcome;
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
        AtomicInteger done = new AtomicInteger();
        int survey = settings.points() * settings.points();
        Looker looker = new Looker(settings, cells, edit, x.parameter(), y.parameter());
        PurgeWindow w = WindowSampler.sample(
                list -> {
                    List<Evaluation> out = looker.look(list, true);
                    double share = (double) done.addAndGet(list.size()) / survey;
                    progress.at(settings.resolution() > 0 ? 0.5 * share : share, "survey");
                    return out;
                },
                list -> {
                    List<Evaluation> out = looker.look(list, false);
                    int n = done.addAndGet(list.size()) - survey;
                    progress.at(0.5 + 0.5 * (1 - Math.exp(-n / 150.0)), "boundaries");
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

    /**
     * Looks at points. A phase that states one of the two numbers itself is solved once for each value of the other; and a point along a
     * boundary is judged in the phases and scenarios alone that give the least margin of some criterion, or miss one, at one of the
     * four points of the survey around it.
     */
    private final class Looker {
        private final MapSettings settings;
        private final List<Cell> cells;
        private final Edit edit;
        private final Map<String, boolean[]> moved = new HashMap<>();
        private final Map<List<Object>, Outcome> known = new HashMap<>();
        private final Map<List<Integer>, Set<String>> governing = new HashMap<>();

        Looker(MapSettings settings, List<Cell> cells, Edit edit, Parameter xOrNull, Parameter yOrNull) {
            this.settings = settings;
            this.cells = cells;
            this.edit = edit;
            for (Cell c : cells) {
                // What is typed anew in the document is not known to stay out of a phase.
                boolean typed = xOrNull == null || yOrNull == null;
                moved.put(c.phase(), new boolean[] {
                    typed || points.applies(xOrNull, c.phase()), typed || points.applies(yOrNull, c.phase())
                });
            }
        }

        List<Evaluation> look(List<double[]> designs, boolean everywhere) {
            List<List<Cell>> wanted = new ArrayList<>();
            List<List<Cell>> fresh = new ArrayList<>();
            Set<List<Object>> claimed = new HashSet<>();
            for (double[] d : designs) {
                Set<String> keys = everywhere ? null : around(d);
                List<Cell> mine = cells.stream()
                        .filter(c -> keys == null || keys.contains(c.key()))
                        .toList();
                wanted.add(mine);
                fresh.add(mine.stream()
                        .filter(c -> !known.containsKey(key(c, d)) && claimed.add(key(c, d)))
                        .toList());
            }
            List<List<Outcome>> solved = points.solve(designs, edit, fresh, null, true);
            Map<List<Object>, Outcome> now = new HashMap<>();
            for (int i = 0; i < designs.size(); i++) {
                for (Outcome o : solved.get(i)) {
                    boolean[] both = moved.get(o.cell().phase());
                    (both[0] && both[1] ? now : known).put(key(o.cell(), designs.get(i)), o);
                }
            }
            List<Evaluation> out = new ArrayList<>();
            for (int i = 0; i < designs.size(); i++) {
                List<Outcome> mine = new ArrayList<>();
                for (Cell c : wanted.get(i)) {
                    List<Object> key = key(c, designs.get(i));
                    mine.add(now.containsKey(key) ? now.get(key) : known.get(key));
                }
                Evaluation e = points.evaluation(mine, 0);
                if (everywhere) {
                    governing.put(node(designs.get(i), 0.5), points.governing(mine, e));
                }
                out.add(e);
            }
            return out;
        }

        private List<Object> key(Cell cell, double[] design) {
            boolean[] both = moved.get(cell.phase());
            return List.of(cell.key(), both[0] ? design[0] : Double.NaN, both[1] ? design[1] : Double.NaN);
        }

        /** Index of the node of the survey at, or below, a point. */
        private List<Integer> node(double[] v, double rounding) {
            int n = settings.points() - 1;
            double i = (v[0] - settings.lowX()) / (settings.highX() - settings.lowX()) * n + rounding;
            double j = (v[1] - settings.lowY()) / (settings.highY() - settings.lowY()) * n + rounding;
            return List.of((int) Math.floor(i), (int) Math.floor(j));
        }

        private Set<String> around(double[] v) {
            List<Integer> low = node(v, 1e-9);
            Set<String> out = new HashSet<>();
            for (int i = 0; i <= 1; i++) {
                for (int j = 0; j <= 1; j++) {
                    out.addAll(governing.getOrDefault(List.of(low.get(0) + i, low.get(1) + j), Set.of()));
                }
            }
            return out;
        }
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
