package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.hazard.criteria.BarrierRules;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Limit;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.finding.Evidence;
import purgewright.hazard.finding.Evidence.Ends;
import purgewright.hazard.finding.Evidence.Flip;
import purgewright.hazard.finding.Evidence.State;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.finding.Verdicts;
import purgewright.hazard.service.PhaseSolve.Point;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.Sensitivities;
import purgewright.sealflow.network.Sensitivities.Sensitivity;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Conditions.Bound;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/**
 * What the findings of one operating point rest on, and whether they stand at the ends of the models' bands.
 *
 * <p>For each barrier the boundary passage with the least margin governs. Each passage's model is taken at the end of its band that
 * lowers the barrier's pressure over the neighbour across that passage (sign from the adjoint), each swirl that is not stated at the
 * worse end of 0.2 to 0.7, stirring where none is stated at the upper end of 0 to 0.05, and the network is solved and judged again; the
 * same with the other ends. A finding that is met as computed
 * and falls short at the adverse ends of any barrier is thin; one that falls short and is met at the favourable ends stays, with a word.
 */
final class Evidences {
    private static final double[] SWIRL = {0.2, 0.7};
    private static final int FLIPS = 3;
    private static final double FARTHEST = 1;

    private static final Set<String> GOVERNING =
            Set.of(BarrierRules.PRESSURE, BarrierRules.VELOCITY, BarrierRules.DIFFERENCE);

    /** Criteria that are a number of the passage's own model. */
    private static final Set<String> JUDGED_BY_MODEL =
            Set.of(BarrierRules.PRESSURE, BarrierRules.VELOCITY, BarrierRules.DIFFERENCE, BarrierRules.DIRECTION);

    /** Constant of stirring at the ends of its band: beta 0 to 0.05 [invented]. */
    private static final double MOST_STIRRING = 0.05;

    private final Map<String, List<String>> known = new HashMap<>();

    private final PhaseSolve points;
    private final Point point;
    private final Setting setting;
    private final Criteria criteria;

    private Evidences(PhaseSolve points, Point point, Criteria criteria) {
        this.points = points;
        this.point = point;
        this.setting = point.setting();
        this.criteria = criteria;
    }

    /**
     * The findings of a point as stated, with their evidence.
     *
     * @param bounds whether to solve at the ends of the bands too
     */
    static List<Finding> of(PhaseSolve points, String engine, Point point, Criteria criteria, boolean bounds) {
        if (point.setting() == null || point.converged() == null) {
            return point.findings();
        }
        Evidences e = new Evidences(points, point, criteria);
        List<Finding> out = new ArrayList<>();
        for (Finding f : point.findings()) {
            List<String> models = e.models(f.where());
            Finding with = f.withEvidence(new Evidence(
                    e.states(f.where()),
                    models,
                    engine,
                    closure(point.converged().convergence()),
                    null,
                    null,
                    List.of()));
            out.add(
                    f.verdict() == Verdict.HOLDS && JUDGED_BY_MODEL.contains(FaultSweep.key(f)) && e.outside(f.where())
                            ? with.withVerdict(
                                    Verdict.THIN, "met as computed, but the model is used outside its range here")
                            : with);
        }
        if (bounds && points.network() != null) {
            out = e.atEnds(out);
        }
        return Verdicts.sorted(out);
    }

    /** What every accepted result closes to; how far beyond, stands with the phase. */
    private static String closure(Convergence c) {
        return "mass, energy and species close to 1e-9 of the largest flow, added up again from the result ("
                + c.answeredBy().name().toLowerCase(Locale.ROOT).replace('_', ' ') + ")";
    }

    private List<State> states(String where) {
        List<State> out = new ArrayList<>();
        String name = where.substring(where.lastIndexOf('/') + 1);
        PassageState p = where.startsWith("/passages/") ? setting.passage(name) : null;
        if (p != null) {
            out.add(new State(where, "flow", p.flow().massFlow(), "kg/s"));
            out.add(new State(where, "velocity", p.flow().gapVelocity(), "m/s"));
            end(out, Setting.cavityPlace(p.from()), p.fromState());
            end(out, Setting.cavityPlace(p.to()), p.toState());
        }
        CavityState c = where.startsWith("/cavities/") ? setting.cavity(name) : null;
        if (c != null) {
            end(out, where, c.state());
            c.moleFractions().entrySet().stream()
                    .filter(x -> x.getValue() >= 1e-6)
                    .sorted(Map.Entry.<String, Double>comparingByValue()
                            .reversed()
                            .thenComparing(Map.Entry.comparingByKey()))
                    .limit(5)
                    .forEach(x -> out.add(new State(where, "mole fraction of " + x.getKey(), x.getValue(), "1")));
        }
        return out;
    }

    /** Whether a correlation of the model at a place is used outside its range. */
    private boolean outside(String where) {
        return point.converged().notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE && n.place().equals(where));
    }

    /** What computed the states at a place; the same list for every finding there. */
    private List<String> models(String where) {
        return known.computeIfAbsent(where, this::modelsAt);
    }

    private List<String> modelsAt(String where) {
        List<String> out = new ArrayList<>();
        String name = where.substring(where.lastIndexOf('/') + 1);
        PassageState p = where.startsWith("/passages/") ? setting.passage(name) : null;
        PassageSpec spec = p == null ? null : setting.model().passage(name);
        PassageType type = spec == null ? null : PassageTypes.find(spec.type()).orElse(null);
        if (type != null) {
            StringBuilder text = new StringBuilder(spec.type());
            String method = type.method(spec);
            text.append(method.isEmpty() ? "" : ", method " + method);
            text.append(spec.calibrationFactor() == 1 ? "" : ", calibration factor " + spec.calibrationFactor());
            double low = flowAt(type, spec, p, Bound.LOW);
            double high = flowAt(type, spec, p, Bound.HIGH);
            double nominal = flowAt(type, spec, p, Bound.NOMINAL);
            if (nominal != 0 && Double.isFinite(low / nominal) && Double.isFinite(high / nominal)) {
                text.append(String.format(
                        Locale.ROOT,
                        "; band of its flow between these pressures %+.0f to %+.0f %%",
                        100 * (Math.min(low, high) / nominal - 1),
                        100 * (Math.max(low, high) / nominal - 1)));
            }
            out.add(text.toString());
        }
        CavityState c = where.startsWith("/cavities/") ? setting.cavity(name) : null;
        if (c != null) {
            out.add(
                    c.fixed()
                            ? "state as the case gives it"
                            : "one pressure, temperature and mixture: balance of mass, energy and streams, convection and diffusion");
            if (c.state().extrapolated()) {
                out.add("properties beyond the range of an equation of state");
            }
        }
        for (Notice n : point.converged().notices()) {
            if (!n.place().equals(where)) {
                continue;
            }
            if (n.key() == Notice.Key.OUT_OF_RANGE) {
                out.add("outside the range of " + n.values().get("model") + " ("
                        + n.values().get("quantity") + range(n) + ")");
            } else if (n.key() == Notice.Key.ESTIMATE) {
                out.add("estimated: " + n.values().get("model") + ", "
                        + n.values().get("constant") + " " + figure(n.values().get("value"))
                        + (n.values().get("origin") instanceof String origin ? " (" + origin + ")" : ""));
            }
        }
        return out.stream().distinct().toList();
    }

    private static String range(Notice n) {
        return n.values().containsKey("value")
                ? " " + figure(n.values().get("value")) + ", known "
                        + figure(n.values().get("minimum")) + " to "
                        + figure(n.values().get("maximum"))
                : "";
    }

    private static String figure(Object value) {
        return value instanceof Number number
                ? String.format(Locale.ROOT, "%.3g", number.doubleValue())
                : String.valueOf(value);
    }

    /** Flow of the passage's model at an end of its band, kg/s, between the solved states; NaN where it gives none. */
    private double flowAt(PassageType type, PassageSpec spec, PassageState p, Bound end) {
        try {
            double clearance = p.gap() == null || Double.isNaN(p.gap().least())
                    ? spec.clearance()
                    : p.gap().mean();
            return type.build(spec, new Conditions(setting.model().rotor().speed(), clearance, end))
                    .flow(p.fromState(), p.toState())
                    .massFlow();
        } catch (IllegalArgumentException | PropertyException e) {
            return Double.NaN;
        }
    }

    private static void end(List<State> out, String place, FluidState state) {
        out.add(new State(place, "pressure", state.pressure(), "Pa"));
        out.add(new State(place, "temperature", state.temperature(), "K"));
        out.add(new State(place, "density", state.density(), "kg/m3"));
    }

    /** Where a barrier is weakest: the boundary passage whose criterion has the least margin. */
    private record Governing(Finding finding, String inside, String outside) {}

    private List<Governing> governing(List<Finding> findings) {
        List<Governing> out = new ArrayList<>();
        for (Set<String> unit : setting.layout().units()) {
            Governing least = null;
            for (PassageSpec p : setting.layout().boundary(setting.model(), unit)) {
                for (Finding f : findings) {
                    if (f.where().equals(Setting.passagePlace(p.name()))
                            && GOVERNING.contains(FaultSweep.key(f))
                            && !Double.isNaN(f.margin())
                            && (least == null || f.margin() < least.finding().margin())) {
                        boolean from = unit.contains(p.from());
                        least = new Governing(f, from ? p.from() : p.to(), from ? p.to() : p.from());
                    }
                }
            }
            if (least != null) {
                out.add(least);
            }
        }
        return out;
    }

    private List<Finding> atEnds(List<Finding> findings) {
        Map<String, Ends> adverse = new HashMap<>();
        Map<String, Ends> favourable = new HashMap<>();
        Map<String, Finding> only = new LinkedHashMap<>();
        Map<String, List<Flip>> flips = new LinkedHashMap<>();
        List<String> unsolved = new ArrayList<>();
        // The ends that help are of interest only where something falls short.
        boolean anyShort = findings.stream().anyMatch(f -> f.verdict() == Verdict.FALLS_SHORT);
        for (Governing g : governing(findings)) {
            Sensitivities s;
            try {
                s = Sensitivities.of(points.network(), setting.model(), point.converged());
            } catch (IllegalArgumentException | PropertyException e) {
                unsolved.add(g.inside());
                continue;
            }
            flips.put(g.finding().id(), flips(s, g));
            boolean solved = false;
            for (double swirl : swirls()) {
                Point hurt = solved(s.adverse(g.inside(), g.outside()), swirl, MOST_STIRRING);
                solved |= hurt.converged() != null;
                collect(adverse, hurt, true);
                if (hurt.converged() != null) {
                    hurt.findings().stream()
                            .filter(f -> f.verdict() == Verdict.FALLS_SHORT)
                            .forEach(f -> only.putIfAbsent(f.id(), f));
                }
                if (anyShort) {
                    collect(favourable, solved(s.favourable(g.inside(), g.outside()), swirl, 0), false);
                }
            }
            if (!solved) {
                unsolved.add(g.inside());
            }
        }
        List<Finding> out = new ArrayList<>();
        for (Finding f : findings) {
            Ends hurt = adverse.get(f.id());
            Ends help = favourable.get(f.id());
            Finding with =
                    f.withEvidence(f.evidence().withEnds(hurt, help).withFlips(flips.getOrDefault(f.id(), List.of())));
            boolean met = f.verdict() == Verdict.HOLDS || f.verdict() == Verdict.THIN;
            only.remove(f.id());
            if (f.verdict() == Verdict.HOLDS
                    && hurt != null
                    && (hurt.verdict() == Verdict.NOT_ESTABLISHED || hurt.verdict() == Verdict.NOT_CONVERGED)) {
                with = with.withVerdict(
                        Verdict.THIN,
                        "met as computed, but not established with the seal models at their adverse ends");
            } else if (met && hurt != null && hurt.verdict() == Verdict.FALLS_SHORT) {
                with = with.withVerdict(
                        Verdict.THIN, "met as computed, but falls short with the seal models at their adverse ends");
            } else if (f.verdict() == Verdict.FALLS_SHORT && help != null && help.margin() >= 0) {
                with = with.withAnother("met with the seal models at their favourable ends; the verdict stands");
            } else if (met && GOVERNING.contains(FaultSweep.key(f)) && !unsolved.isEmpty()) {
                with = with.withVerdict(
                        Verdict.THIN, "met as computed, but the adverse ends of the seal models could not be solved");
            }
            out.add(with);
        }
        // What the case as computed gives no finding of at all: a flow that turns round, say.
        only.values()
                .forEach(f -> out.add(f.withVerdict(
                        Verdict.THIN, "not as computed, but with the seal models at their adverse ends")));
        return out;
    }

    /** Swirls to look at: one that means nothing when no free cavity's swirl is open. */
    private double[] swirls() {
        boolean open = setting.model().cavities().stream()
                .anyMatch(c -> !c.fixed() && c.disc() != null && Double.isNaN(c.swirlRatio()));
        return open ? SWIRL : new double[] {SolverSettings.DEFAULT.swirlRatio()};
    }

    private Point solved(Map<String, Bound> bounds, double swirl, double stirring) {
        NetworkSolver solver = new NetworkSolver(
                points.engine(),
                SolverSettings.DEFAULT
                        .withBounds(Bound.NOMINAL, bounds)
                        .withSwirlRatio(swirl)
                        .withStirring(stirring));
        Case model = setting.model();
        return points.with(solver::solve).judge(model, point.converged(), setting.scene(), criteria);
    }

    /** Keeps the worst (or the best) of the ends of several barriers. */
    private static void collect(Map<String, Ends> ends, Point at, boolean worst) {
        if (at.converged() == null) {
            return;
        }
        for (Finding f : at.findings()) {
            Ends now = new Ends(f.value(), f.margin(), f.verdict());
            ends.merge(f.id(), now, (a, b) -> (a.verdict().compareTo(b.verdict()) <= 0) == worst ? a : b);
        }
    }

    /** Inputs that bring the pressure margin to 0 by themselves. */
    private List<Flip> flips(Sensitivities s, Governing g) {
        PassageState p = setting.passage(g.finding().where().substring("/passages/".length()));
        if (p == null || BarrierRules.VELOCITY.equals(FaultSweep.key(g.finding()))) {
            return List.of();
        }
        double ratio = criteria.get(Limit.BARRIER_RATIO);
        CavityState out = setting.cavity(g.outside());
        boolean byRatio = BarrierRules.PRESSURE.equals(FaultSweep.key(g.finding()))
                && out != null
                && ratio * out.state().pressure() > out.state().pressure() + criteria.get(Limit.BARRIER_EXCESS);
        Map<String, Double> slope = new LinkedHashMap<>();
        Map<String, Double> value = new LinkedHashMap<>();
        for (Sensitivity x : s.pressure(g.inside())) {
            slope.merge(x.place(), x.perShare(), Double::sum);
            value.put(x.place(), x.value());
        }
        for (Sensitivity x : s.pressure(g.outside())) {
            slope.merge(x.place(), -(byRatio ? ratio : 1) * x.perShare(), Double::sum);
            value.put(x.place(), x.value());
        }
        double distance = g.finding().value() - g.finding().limit();
        List<Flip> found = new ArrayList<>();
        slope.forEach((place, perShare) -> {
            double share = -distance / perShare;
            if (Math.abs(share) <= FARTHEST) {
                found.add(new Flip(place, value.get(place), share));
            }
        });
        found.sort(Comparator.comparingDouble((Flip f) -> Math.abs(f.share())).thenComparing(Flip::place));
        return found.subList(0, Math.min(FLIPS, found.size()));
    }
}
