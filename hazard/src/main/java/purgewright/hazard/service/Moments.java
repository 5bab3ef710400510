package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.RunResult.Cause;
import purgewright.hazard.service.RunResult.Least;
import purgewright.hazard.service.RunResult.Timed;
import purgewright.sealflow.campaign.DutyClock;
import purgewright.sealflow.campaign.DutyRun.Instant;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;

/** Judges the moments of a run and finds out why the least margin is least. Owned by one run. */
final class Moments {
    /** A change smaller than this share is no cause. */
    private static final double SMALL = 1e-3;

    /** Undoing a change must give back at least this share of what was lost to be called the cause. */
    private static final double CAUSE_SHARE = 0.25;

    private final PhaseSolve points;
    private final DutyClock clock;
    private final boolean judging;
    private final List<Instant> instants = new ArrayList<>();
    private final List<Map<String, Finding>> judged = new ArrayList<>();
    /** Of each leg: a cavity that is purged before a start may hold a working fluid afterwards. */
    private final Map<Integer, BarrierLayout> layouts = new HashMap<>();

    private Converged opened;

    Moments(PhaseSolve points, DutyClock clock, boolean judging) {
        this.points = points;
        this.clock = clock;
        this.judging = judging;
    }

    /** A finding's id without its phase: the name of its margin over time. */
    static String key(Finding f) {
        String end = ":" + f.phase();
        return f.id().endsWith(end) ? f.id().substring(0, f.id().length() - end.length()) : f.id();
    }

    void add(Instant moment) {
        instants.add(moment);
        Map<String, Finding> found = new TreeMap<>();
        if (judging) {
            for (Finding f : judge(moment.leg(), moment.model(), moment.solve(), moment.inTransient())) {
                found.merge(key(f), f, (a, b) -> Verdicts.WORST_FIRST.compare(a, b) <= 0 ? a : b);
            }
        }
        judged.add(found);
    }

    private List<Finding> judge(int leg, Case model, Converged solve, boolean filling) {
        PhaseSolve.Point p = points.judgeSolved(
                model,
                solve,
                filling ? null : opened,
                Scene.of(clock.legs().get(leg).name()),
                Criteria.of(model.criteria()),
                layouts.get(leg),
                filling);
        if (!layouts.containsKey(leg) && p.setting() != null) {
            layouts.put(leg, Setting.layout(model, solve, points.streams(model.streams())));
        }
        if (!filling && p.setting() != null && p.setting().opened() instanceof Converged c) {
            opened = c;
        }
        return p.findings();
    }

    List<Instant> instants() {
        return instants;
    }

    /** Findings of a moment by key. */
    Map<String, Finding> at(int i) {
        return judged.get(i);
    }

    /** Worst finding of each key and when it was, worst first. */
    List<Timed> worst() {
        Map<String, Timed> worst = new LinkedHashMap<>();
        for (int i = 0; i < judged.size(); i++) {
            double time = instants.get(i).time();
            judged.get(i)
                    .forEach((key, f) -> worst.merge(
                            key,
                            new Timed(time, f),
                            (a, b) -> Verdicts.WORSE.compare(b.finding(), a.finding()) < 0 ? b : a));
        }
        return worst.values().stream()
                .sorted((a, b) -> Verdicts.WORST_FIRST.compare(a.finding(), b.finding()))
                .toList();
    }

    /** True for a margin that can grow and shrink: a count that is just met holds, and says nothing of how near its loss is. */
    static boolean continuous(Finding f) {
        return !Double.isNaN(f.margin()) && !(f.verdict() == Verdict.HOLDS && f.margin() < Draft.THIN_MARGIN);
    }

    /** Number of the moment with the least margin; -1 when none has one. */
    private int leastMoment() {
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < judged.size(); i++) {
            for (Finding f : judged.get(i).values()) {
                if (continuous(f) && f.margin() < least) {
                    least = f.margin();
                    best = i;
                }
            }
        }
        return best;
    }

    /** The least margin and its cause; null when nothing was judged. */
    Least least() {
        int at = leastMoment();
        if (at < 0) {
            return null;
        }
        Finding worst = null;
        for (Finding f : judged.get(at).values()) {
            if (continuous(f) && (worst == null || f.margin() < worst.margin())) {
                worst = f;
            }
        }
        return worst == null ? null : least(at, worst);
    }

    private Least least(int at, Finding worst) {
        String id = worst.id();
        return new Least(
                instants.get(at).time(),
                worst.phase(),
                id.substring(0, id.indexOf(':')),
                worst.where(),
                worst.margin(),
                worst,
                cause(at, key(worst), worst.margin()));
    }

    /** One thing that differs between two moments. */
    private record Change(String place, String what, double from, double to, String unit, Case undone) {}

    private Cause cause(int at, String key, double margin) {
        int best = -1;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < judged.size(); i++) {
            Finding f = judged.get(i).get(key);
            if (f != null && f.margin() > greatest && !instants.get(i).inTransient()) {
                greatest = f.margin();
                best = i;
            }
        }
        if (best < 0 || !(greatest > margin + 1e-6)) {
            return null;
        }
        Instant least = instants.get(at);
        Instant easy = instants.get(best);
        List<Change> changes = changes(easy.model(), least.model());
        double top = greatest;
        if (least.inTransient()) {
            // While volumes empty, the valve that moved is the cause; a steady solve could not tell.
            return changes.stream()
                    .filter(c -> c.what().startsWith("valve"))
                    .findFirst()
                    .map(c -> new Cause(c.place(), c.what(), c.from(), c.to(), c.unit(), easy.time(), top, Double.NaN))
                    .orElse(null);
        }
        Change found = null;
        double most = Double.NEGATIVE_INFINITY;
        for (Change c : changes) {
            double without = margin(least.leg(), c.undone(), least.solve(), key);
            if (without > most) {
                most = without;
                found = c;
            }
        }
        if (found == null || !(most - margin >= CAUSE_SHARE * (greatest - margin))) {
            return null;
        }
        return new Cause(
                found.place(), found.what(), found.from(), found.to(), found.unit(), easy.time(), greatest, most);
    }

    /** The margin of one criterion at a changed case; NaN when it cannot be had. */
    double margin(int leg, Case model, Converged guess, String key) {
        SolveResult solve = points.solve(model, guess);
        if (!(solve instanceof Converged c)) {
            return Double.NaN;
        }
        for (Finding f : judge(leg, model, c, false)) {
            if (key(f).equals(key)) {
                return f.margin();
            }
        }
        return Double.NaN;
    }

    private static boolean differs(double a, double b) {
        return Math.abs(a - b) > SMALL * Math.max(Math.abs(a), Math.abs(b));
    }

    private static List<Change> changes(Case from, Case to) {
        List<Change> out = new ArrayList<>();
        if (differs(from.rotor().speed(), to.rotor().speed())) {
            out.add(new Change(
                    "/rotor/speed",
                    "speed of the rotor",
                    from.rotor().speed(),
                    to.rotor().speed(),
                    "rad/s",
                    CaseValue.rotor(to, from.rotor())));
        }
        for (Cavity b : to.cavities()) {
            Cavity a = from.cavity(b.name());
            if (a == null || !a.fixed() || !b.fixed()) {
                continue;
            }
            Case undone = CaseValue.cavity(to, b.name(), c -> a);
            boolean pressure = differs(a.pressure(), b.pressure());
            if (pressure) {
                out.add(new Change(
                        "/cavities/" + b.name() + "/pressure",
                        "pressure of " + b.name(),
                        a.pressure(),
                        b.pressure(),
                        "Pa",
                        undone));
            } else if (differs(a.temperature(), b.temperature())) {
                out.add(new Change(
                        "/cavities/" + b.name() + "/temperature",
                        "temperature of " + b.name(),
                        a.temperature(),
                        b.temperature(),
                        "K",
                        undone));
            }
        }
        for (PassageSpec b : to.passages()) {
            PassageSpec a = from.passage(b.name());
            if (a == null || a.equals(b)) {
                continue;
            }
            Case undone = CaseValue.passage(to, b.name(), q -> a);
            if (a.closed() != b.closed()) {
                out.add(new Change(
                        "/passages/" + b.name() + "/closed",
                        "valve " + b.name() + (b.closed() ? " shut" : " opened"),
                        Double.NaN,
                        Double.NaN,
                        "",
                        undone));
            } else {
                out.add(new Change(
                        "/passages/" + b.name(), "geometry of " + b.name(), Double.NaN, Double.NaN, "", undone));
            }
        }
        return out;
    }
}
