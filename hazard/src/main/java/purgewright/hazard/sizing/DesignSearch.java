package purgewright.hazard.sizing;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.PointValuePair;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;

/**
 * The design with the least of an objective that meets every criterion.
 *
 * <p>Every margin is a smooth function of the free values for itself; their minimum is not. So the search works with the single
 * margins: at a point it takes the slopes of all of them and of ln(objective) by differences, and solves
 *
 * <pre>{@code minimise  g d + 10 t   subject to   m_k + s_k d + t >= wanted,  |d_i| <= radius,  t >= 0}</pre>
 *
 * <p>(a linear programme), takes the step where it lowers {@code ln(objective) + 10 shortfall}, and else shrinks the radius. Values are
 * taken as shares of their range, logarithmic. It starts from the best points of a survey of the whole range, so that one valley does
 * not hide another, and with one free value closes in by bisection, for which nothing need be smooth. Listed values (drills, whole
 * numbers) are first relaxed to any value, then their neighbours are tried with the other values sought anew.
 *
 * <p>Among designs of nearly the same objective the one with less of {@link Objective#second} is taken: an orifice and a set pressure
 * can be traded for each other at the same flow.
 *
 * <p>What it cannot do: prove that no better valley lies between the points of the survey. The tests compare it with dense grids.
 */
public final class DesignSearch {
    /** Weight of the second objective: a per cent more of the first is worth fifty times as much as a per cent of the second. */
    private static final double SECOND = 0.02;

    private static final double PENALTY = 10;

    /** What counts as a shortfall where a criterion is not met and has no number. */
    private static final double UNMET = 0.5;

    private static final double PROBE = 0.01;

    /** Digits of a free value in the answer. */
    private static final int DIGITS = 4;

    private final Evaluation.Batch batch;
    private final List<Variable> variables;
    private final Objective objective;
    private final double wanted;
    private final Settings settings;
    private final Map<List<Double>, Evaluation> known = new LinkedHashMap<>();
    private List<Double> best;
    private List<Double> closest;

    private DesignSearch(
            Evaluation.Batch batch, List<Variable> variables, Objective objective, double wanted, Settings settings) {
        this.batch = batch;
        this.variables = List.copyOf(variables);
        this.objective = objective;
        this.wanted = wanted;
        this.settings = settings;
    }

    /**
     * @param survey points along the range of a single value, at least 3; several values get 5 (two values) or 8 a value
     * @param tolerance of the answer as a share of each range
     * @param steps of the search at most, from each start
     */
    public record Settings(int survey, double tolerance, int steps) {
        /** 13 points: steps of a fifth over a decade. 1e-4: far below what a regulator or a drill can be set to. */
        public static final Settings DEFAULT = new Settings(13, 1e-4, 25);
    }

    /**
     * The answer.
     *
     * @param feasible false when no point was found that meets every criterion
     * @param values one for each variable, SI; when infeasible the point that comes closest
     * @param at evaluation there
     * @param below just outside, where a criterion is lost: it names what governs; null when the bounds alone stop the objective
     * @param monotone with one free value: feasible values are all on one side; true when there are several
     * @param price objective's unit per unit of margin, by criterion key: what one more unit of its margin costs; empty when infeasible
     * @param wants when infeasible: for each criterion that stands in the way, which way it wants each value moved
     * @param evaluations made
     */
    public record Result(
            boolean feasible,
            List<Double> values,
            Evaluation at,
            Evaluation below,
            boolean monotone,
            Map<String, Double> price,
            Map<String, List<String>> wants,
            int evaluations) {}

    /**
     * Searches.
     *
     * @param wanted margin that {@link Margin#met} stands for
     * @param stated values to begin with, SI; outside the bounds is no harm
     */
    public static Result find(
            Evaluation.Batch batch,
            List<Variable> variables,
            Objective objective,
            double wanted,
            List<Double> stated,
            Settings settings) {
        if (variables.isEmpty()) {
            throw new IllegalArgumentException("nothing is free");
        }
        return new DesignSearch(batch, variables, objective, wanted, settings).run(stated);
    }

    private int n() {
        return variables.size();
    }

    private Result run(List<Double> stated) {
        survey(stated);
        boolean monotone = true;
        boolean allListed = variables.stream().allMatch(Variable::listed);
        Evaluation below = null;
        if (n() == 1 && !allListed) {
            monotone = monotone();
            below = line();
        } else if (!allListed || product() > settings.survey() * 5L) {
            descend(List.copyOf(starts()));
        }
        if (variables.stream().anyMatch(Variable::listed)) {
            lists();
            if (n() == 1) {
                monotone = monotone();
                below = neighbour();
            }
        }
        List<Double> point = best == null ? closest : rounded();
        Evaluation at = known.get(point);
        boolean feasible = best != null;
        Linear here = feasible || n() > 0 ? slopes(point, 0) : null;
        if (feasible && below == null) {
            below = n() == 1 ? null : outside(point, here);
        }
        return new Result(
                feasible,
                point,
                at,
                below,
                monotone,
                feasible ? prices(here) : Map.of(),
                feasible ? Map.of() : wants(point, here),
                known.size());
    }

    /**
     * The best design with its free values at {@value #DIGITS} significant digits, so that it can be typed: of the roundings up and down the
     * cheapest that is met; the design itself when none is.
     */
    private List<Double> rounded() {
        List<double[]> designs = new ArrayList<>();
        int free = 0;
        for (Variable v : variables) {
            free += v.listed() ? 0 : 1;
        }
        for (int mask = 0; mask < 1 << Math.min(free, 5); mask++) {
            double[] d = new double[n()];
            int bit = 0;
            for (int i = 0; i < n(); i++) {
                Variable v = variables.get(i);
                d[i] = best.get(i);
                if (!v.listed()) {
                    boolean up = (mask >> Math.min(bit++, 4) & 1) == 1;
                    BigDecimal exact = BigDecimal.valueOf(d[i]);
                    double r = exact.round(new MathContext(DIGITS, up ? RoundingMode.CEILING : RoundingMode.FLOOR))
                            .doubleValue();
                    d[i] = Math.max(v.lower(), Math.min(v.upper(), r));
                }
            }
            designs.add(d);
        }
        List<Double> exact = best;
        List<Evaluation> found = evaluate(designs);
        List<Double> answer = exact;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < found.size(); i++) {
            if (found.get(i).feasible() && cost(found.get(i)) < least) {
                least = cost(found.get(i));
                answer = key(designs.get(i));
            }
        }
        return answer;
    }

    private long product() {
        long p = 1;
        for (Variable v : variables) {
            p = Math.min(1_000_000, p * Math.max(1, v.choices().size()));
        }
        return p;
    }

    // --- evaluating
    // ---------------------------------------------------------------------------------------------------------

    private static List<Double> key(double[] values) {
        List<Double> out = new ArrayList<>();
        for (double v : values) {
            out.add(v);
        }
        return out;
    }

    private List<Evaluation> evaluate(List<double[]> designs) {
        List<double[]> fresh = new ArrayList<>();
        Set<List<Double>> asked = new LinkedHashSet<>();
        for (double[] d : designs) {
            if (!known.containsKey(key(d)) && asked.add(key(d))) {
                fresh.add(d);
            }
        }
        if (!fresh.isEmpty()) {
            List<Evaluation> found = batch.at(fresh);
            for (int i = 0; i < fresh.size(); i++) {
                known.put(key(fresh.get(i)), found.get(i));
                note(key(fresh.get(i)));
            }
        }
        return designs.stream().map(d -> known.get(key(d))).toList();
    }

    private Evaluation evaluate(double[] design) {
        return evaluate(List.of(design)).get(0);
    }

    /** Keeps the best feasible and the closest infeasible point among those that may be an answer. */
    private void note(List<Double> point) {
        Evaluation e = known.get(point);
        for (int i = 0; i < n(); i++) {
            Variable v = variables.get(i);
            double value = point.get(i);
            if (v.listed() && v.choices().stream().noneMatch(c -> c == value)) {
                return;
            }
        }
        if (e.feasible() && !Double.isNaN(cost(e)) && (best == null || cost(e) < cost(known.get(best)))) {
            best = point;
        }
        if (closest == null || replaces(e, known.get(closest))) {
            closest = point;
        }
    }

    /** True when a design takes the place of the closest so far: one with a cost before one without, else the closer. */
    private boolean replaces(Evaluation e, Evaluation held) {
        boolean costs = !Double.isNaN(cost(e));
        boolean heldCosts = !Double.isNaN(cost(held));
        return costs == heldCosts ? closer(e, held, wanted) : costs;
    }

    /** ln of the objective, with a little of the second one. */
    private double cost(Evaluation e) {
        double first = Math.log(objective.of(e));
        double other = objective.second().of(e);
        return first + (other > 0 ? SECOND * Math.log(other) : 0);
    }

    /**
     * True when the first falls less short: by its greatest shortfall, and where another phase or scenario holds that up all the same, by the
     * sum of all.
     */
    public static boolean closer(Evaluation a, Evaluation b, double wanted) {
        double first = shortfall(a, wanted);
        double second = shortfall(b, wanted);
        double same = 1e-9 * Math.max(1, second);
        if (Math.abs(first - second) > same) {
            return first < second;
        }
        return total(a, wanted) < total(b, wanted) - same;
    }

    /** Greatest shortfall of a margin. Findings without a number mostly follow from one with: they count when no number falls short. */
    private static double shortfall(Evaluation e, double wanted) {
        double most = 0;
        boolean unmet = false;
        for (Margin m : e.each()) {
            if (!m.met()) {
                unmet = true;
                most = Math.max(most, m.value() < wanted ? wanted - m.value() : 0);
            }
        }
        return unmet && most == 0 ? UNMET : most;
    }

    /** All shortfalls together, none for more than a whole. */
    private static double total(Evaluation e, double wanted) {
        double sum = 0;
        for (Margin m : e.each()) {
            if (!m.met()) {
                sum += m.value() < wanted ? Math.min(1, wanted - m.value()) : UNMET;
            }
        }
        return sum;
    }

    private double shortfall(Evaluation e) {
        return shortfall(e, wanted) + (Double.isNaN(cost(e)) ? 10 : 0);
    }

    private double merit(Evaluation e) {
        double c = cost(e);
        return (Double.isNaN(c) ? 0 : c) + PENALTY * shortfall(e);
    }

    private double[] values(double[] shares) {
        double[] out = new double[n()];
        for (int i = 0; i < n(); i++) {
            out[i] = variables.get(i).at(shares[i]);
        }
        return out;
    }

    private double[] shares(List<Double> point) {
        double[] out = new double[n()];
        for (int i = 0; i < n(); i++) {
            out[i] = variables.get(i).share(point.get(i));
        }
        return out;
    }

    // --- survey
    // -------------------------------------------------------------------------------------------------------------

    private void survey(List<Double> stated) {
        List<double[]> designs = new ArrayList<>();
        double[] first = new double[n()];
        for (int i = 0; i < n(); i++) {
            Variable v = variables.get(i);
            double s = Math.max(v.lower(), Math.min(v.upper(), stated.get(i)));
            first[i] = v.listed() ? v.choices().get(v.ceiling(s)) : s;
        }
        if (n() == 1) {
            Variable v = variables.get(0);
            if (v.listed() && v.choices().size() <= settings.survey() * 5) {
                v.choices().forEach(c -> designs.add(new double[] {c}));
            } else {
                for (int i = 0; i < settings.survey(); i++) {
                    designs.add(new double[] {v.at((double) i / (settings.survey() - 1))});
                }
            }
        } else if (variables.stream().allMatch(Variable::listed) && product() <= settings.survey() * 5L) {
            product(designs, new double[n()], 0);
        } else {
            designs.add(first);
            if (n() == 2) {
                for (int i = 0; i < 5; i++) {
                    for (int j = 0; j < 5; j++) {
                        designs.add(values(new double[] {i / 4.0, j / 4.0}));
                    }
                }
            } else {
                for (int corner = 0; corner < 1 << Math.min(n(), 4); corner++) {
                    double[] s = new double[n()];
                    for (int i = 0; i < n(); i++) {
                        s[i] = (corner >> Math.min(i, 3) & 1) == 1 ? 1 : 0;
                    }
                    designs.add(values(s));
                }
                for (int i = 1; i <= 8 * n(); i++) {
                    double[] s = new double[n()];
                    for (int k = 0; k < n(); k++) {
                        s[k] = halton(i, PRIMES[k % PRIMES.length]);
                    }
                    designs.add(values(s));
                }
            }
        }
        evaluate(designs);
    }

    private static final int[] PRIMES = {2, 3, 5, 7, 11, 13, 17, 19};

    private static double halton(int index, int base) {
        double f = 1;
        double r = 0;
        for (int i = index; i > 0; i /= base) {
            f /= base;
            r += f * (i % base);
        }
        return r;
    }

    private void product(List<double[]> out, double[] design, int i) {
        if (i == n()) {
            out.add(design.clone());
            return;
        }
        for (double v : variables.get(i).choices()) {
            design[i] = v;
            product(out, design, i + 1);
        }
    }

    // --- one free value
    // -----------------------------------------------------------------------------------------------------

    private List<Double> sorted() {
        return known.keySet().stream().map(k -> k.get(0)).sorted().toList();
    }

    private Evaluation at(double value) {
        return known.get(List.of(value));
    }

    private boolean monotone() {
        int changes = 0;
        List<Double> values = sorted();
        for (int i = 1; i < values.size(); i++) {
            if (at(values.get(i)).feasible() != at(values.get(i - 1)).feasible()) {
                changes++;
            }
        }
        return changes <= 1;
    }

    /** From the best point of the survey towards where the objective falls: bisection against what is lost, else golden section. */
    private Evaluation line() {
        if (best == null) {
            closeIn();
            return null;
        }
        Variable v = variables.get(0);
        List<Double> values = sorted();
        int i = values.indexOf(best.get(0));
        Evaluation lost = null;
        for (int side : new int[] {-1, 1}) {
            int j = i + side;
            if (j < 0 || j >= values.size()) {
                continue;
            }
            if (at(values.get(j)).feasible()) {
                golden(values.get(i), values.get(j));
            } else if (towards(values.get(i), values.get(j))) {
                double in = v.share(values.get(i));
                double out = v.share(values.get(j));
                lost = at(values.get(j));
                while (Math.abs(in - out) * Math.log(v.upper() / Math.max(v.lower(), v.upper() * 1e-6))
                        > settings.tolerance()) {
                    double middle = 0.5 * (in + out);
                    Evaluation e = evaluate(new double[] {v.at(middle)});
                    if (e.feasible()) {
                        in = middle;
                    } else {
                        out = middle;
                        lost = e;
                    }
                }
            }
        }
        return lost;
    }

    /** Whether the objective falls from a feasible value towards an infeasible neighbour. */
    private boolean towards(double from, double to) {
        double a = cost(at(from));
        double b = cost(at(to));
        return Double.isNaN(b) || b < a;
    }

    /** Least of the objective between two feasible values, when it is not at one of them. */
    private void golden(double from, double to) {
        Variable v = variables.get(0);
        double a = v.share(from);
        double b = v.share(to);
        Evaluation e = evaluate(new double[] {v.at(a + 0.05 * (b - a))});
        if (!(cost(e) < cost(at(from)))) {
            return;
        }
        double low = a;
        double high = b;
        double g = 0.381966;
        for (int k = 0; k < 12; k++) {
            double x = low + g * (high - low);
            double y = high - g * (high - low);
            List<Evaluation> two = evaluate(List.of(new double[] {v.at(x)}, new double[] {v.at(y)}));
            if (merit(two.get(0)) < merit(two.get(1))) {
                high = y;
            } else {
                low = x;
            }
        }
    }

    /** Infeasible with one value: the least shortfall, by golden section around the best point of the survey. */
    private void closeIn() {
        Variable v = variables.get(0);
        List<Double> values = sorted();
        int i = values.indexOf(closest.get(0));
        double low = v.share(values.get(Math.max(0, i - 1)));
        double high = v.share(values.get(Math.min(values.size() - 1, i + 1)));
        double g = 0.381966;
        for (int k = 0; k < 10 && best == null; k++) {
            double x = low + g * (high - low);
            double y = high - g * (high - low);
            List<Evaluation> two = evaluate(List.of(new double[] {v.at(x)}, new double[] {v.at(y)}));
            if (shortfall(two.get(0)) < shortfall(two.get(1))) {
                high = y;
            } else {
                low = x;
            }
        }
        if (best != null) {
            line();
        }
    }

    /** Of one listed value: the next smaller or larger one that is not feasible and costs less. */
    private Evaluation neighbour() {
        if (best == null) {
            return null;
        }
        List<Double> choices = variables.get(0).choices();
        int i = choices.indexOf(best.get(0));
        for (int side : new int[] {-1, 1}) {
            int j = i + side;
            if (j >= 0 && j < choices.size()) {
                Evaluation e = evaluate(new double[] {choices.get(j)});
                if (!e.feasible() && !(cost(e) > cost(known.get(best)))) {
                    return e;
                }
            }
        }
        return null;
    }

    // --- several free values
    // ------------------------------------------------------------------------------------------------

    /** The best two feasible points and the closest of the survey. */
    private Set<double[]> starts() {
        List<List<Double>> points = new ArrayList<>(known.keySet());
        points.sort((a, b) -> Double.compare(merit(known.get(a)), merit(known.get(b))));
        Set<double[]> out = new LinkedHashSet<>();
        for (List<Double> p : points.subList(0, Math.min(2, points.size()))) {
            out.add(shares(p));
        }
        return out;
    }

    private void descend(List<double[]> starts) {
        List<Integer> free = Collections.nCopies(n(), -1);
        for (double[] start : starts) {
            descend(start, new boolean[n()], free);
        }
    }

    /** Margins and cost at a point with their slopes over the shares. */
    private record Linear(
            double[] at, Evaluation here, List<Margin> margins, double[][] slopes, double cost, double[] costSlope) {}

    private Linear slopes(List<Double> point, double probe) {
        return slopes(point, shares(point), new boolean[n()], probe > 0 ? probe : PROBE * 0.3);
    }

    private Linear slopes(List<Double> point, double[] x, boolean[] fixed, double probe) {
        List<double[]> designs = new ArrayList<>();
        double[] offset = new double[n()];
        for (int i = 0; i < n(); i++) {
            if (!fixed[i]) {
                offset[i] = x[i] + probe <= 1 ? probe : -probe;
                double[] y = x.clone();
                y[i] += offset[i];
                double[] v = values(y);
                for (int k = 0; k < n(); k++) {
                    if (k != i) {
                        v[k] = point.get(k);
                    }
                }
                designs.add(v);
            }
        }
        double[] own = new double[n()];
        for (int i = 0; i < n(); i++) {
            own[i] = point.get(i);
        }
        Evaluation here = evaluate(own);
        List<Evaluation> beside = evaluate(designs);
        Map<String, Integer> rows = new LinkedHashMap<>();
        List<Margin> margins = new ArrayList<>();
        for (Margin m : here.each()) {
            if (!Double.isNaN(m.value())) {
                Integer row = rows.get(m.id());
                if (row == null) {
                    rows.put(m.id(), margins.size());
                    margins.add(m);
                } else if (m.value() < margins.get(row).value()) {
                    margins.set(row, m);
                }
            }
        }
        double[][] slopes = new double[margins.size()][n()];
        double[] costSlope = new double[n()];
        int column = 0;
        for (int i = 0; i < n(); i++) {
            if (fixed[i]) {
                continue;
            }
            Evaluation e = beside.get(column++);
            double c = (cost(e) - cost(here)) / offset[i];
            costSlope[i] = Double.isFinite(c) ? c : 0;
            double[] value = new double[margins.size()];
            Arrays.fill(value, Double.NaN);
            for (Margin m : e.each()) {
                Integer row = rows.get(m.id());
                if (row != null && !(m.value() >= value[row])) {
                    value[row] = m.value();
                }
            }
            for (int k = 0; k < value.length; k++) {
                double s = (value[k] - margins.get(k).value()) / offset[i];
                slopes[k][i] = Double.isFinite(s) ? s : 0;
            }
        }
        return new Linear(x, here, margins, slopes, cost(here), costSlope);
    }

    /**
     * The step of the linear programme; null when it has none.
     *
     * @param more margin wanted on top, by criterion key
     */
    private double[] step(Linear at, boolean[] fixed, double radius, Map<String, Double> more) {
        int n = n();
        // d = y - radius below, so that every unknown is at least zero.
        double[] low = new double[n];
        double[] high = new double[n];
        for (int i = 0; i < n; i++) {
            low[i] = fixed[i] ? 0 : Math.max(-radius, -at.at()[i]);
            high[i] = fixed[i] ? 0 : Math.min(radius, 1 - at.at()[i]);
        }
        List<LinearConstraint> rows = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            double[] c = new double[n + 1];
            c[i] = 1;
            rows.add(new LinearConstraint(c, Relationship.LEQ, Math.max(0, high[i] - low[i])));
        }
        for (int k = 0; k < at.margins().size(); k++) {
            Margin m = at.margins().get(k);
            double need = wanted + more.getOrDefault(m.criterion(), 0.0) + 2e-6 - m.value();
            double[] c = new double[n + 1];
            double least = 0;
            double shift = 0;
            for (int i = 0; i < n; i++) {
                c[i] = at.slopes()[k][i];
                least += Math.min(c[i] * low[i], c[i] * high[i]);
                shift += c[i] * low[i];
            }
            if (least >= need) {
                continue; // it cannot be lost within the radius
            }
            c[n] = 1;
            rows.add(new LinearConstraint(c, Relationship.GEQ, need - shift));
        }
        double[] goal = new double[n + 1];
        System.arraycopy(at.costSlope(), 0, goal, 0, n);
        goal[n] = PENALTY;
        try {
            PointValuePair found = new SimplexSolver(1e-9, 10)
                    .optimize(
                            new MaxIter(2000),
                            new LinearObjectiveFunction(goal, 0),
                            new LinearConstraintSet(rows),
                            GoalType.MINIMIZE,
                            new NonNegativeConstraint(true));
            double[] d = new double[n];
            for (int i = 0; i < n; i++) {
                d[i] = found.getPoint()[i] + low[i];
            }
            return d;
        } catch (MathIllegalStateException e) {
            return null; // too many iterations or no solution: the caller keeps its point
        }
    }

    /** Listed values: the neighbours of the relaxed answer, the other values sought anew, until no neighbour is better. */
    private void lists() {
        if (variables.stream().allMatch(Variable::listed) && product() <= settings.survey() * 5L) {
            return; // the survey has seen them all
        }
        List<List<Double>> points = new ArrayList<>(known.keySet());
        points.sort((a, b) -> Double.compare(merit(known.get(a)), merit(known.get(b))));
        double[] relaxed = shares(points.get(0));
        Set<List<Integer>> seen = new TreeSet<>((a, b) -> a.toString().compareTo(b.toString()));
        int listed = (int) variables.stream().filter(Variable::listed).count();
        List<Integer> base = new ArrayList<>();
        for (int i = 0; i < n(); i++) {
            base.add(
                    variables.get(i).listed()
                            ? variables.get(i).ceiling(variables.get(i).at(relaxed[i]))
                            : -1);
        }
        List<Integer> winner = null;
        double least = Double.POSITIVE_INFINITY;
        for (int mask = 0; mask < 1 << Math.min(listed, 4); mask++) {
            List<Integer> pick = new ArrayList<>(base);
            int bit = 0;
            for (int i = 0; i < n(); i++) {
                if (variables.get(i).listed()) {
                    pick.set(i, Math.max(0, base.get(i) - (mask >> Math.min(bit, 3) & 1)));
                    bit++;
                }
            }
            double m = seen.add(pick) ? solveListed(pick, relaxed) : Double.POSITIVE_INFINITY;
            if (m < least) {
                least = m;
                winner = pick;
            }
        }
        boolean better = winner != null;
        for (int round = 0; better && round < 6; round++) {
            better = false;
            List<Integer> centre = winner;
            for (int i = 0; i < n(); i++) {
                for (int side : new int[] {-1, 1}) {
                    List<Integer> pick = new ArrayList<>(centre);
                    if (!variables.get(i).listed()) {
                        continue;
                    }
                    int j = centre.get(i) + side;
                    if (j < 0 || j >= variables.get(i).choices().size()) {
                        continue;
                    }
                    pick.set(i, j);
                    double m = seen.add(pick) ? solveListed(pick, relaxed) : Double.POSITIVE_INFINITY;
                    if (m < least - 1e-9) {
                        least = m;
                        winner = pick;
                        better = true;
                    }
                }
            }
        }
    }

    /** Merit of the best point found with the listed values held. */
    private double solveListed(List<Integer> pick, double[] relaxed) {
        double[] x = relaxed.clone();
        boolean[] fixed = new boolean[n()];
        boolean free = false;
        for (int i = 0; i < n(); i++) {
            fixed[i] = pick.get(i) >= 0;
            free |= !fixed[i];
            if (fixed[i]) {
                x[i] = variables.get(i).share(variables.get(i).choices().get(pick.get(i)));
            }
        }
        double[] v = held(x, pick);
        if (!free) {
            return merit(evaluate(v));
        }
        double[] end = descend(x, fixed, pick);
        return merit(evaluate(end));
    }

    private double[] held(double[] x, List<Integer> pick) {
        double[] v = values(x);
        for (int i = 0; i < n(); i++) {
            if (pick.get(i) >= 0) {
                v[i] = variables.get(i).choices().get(pick.get(i));
            }
        }
        return v;
    }

    /**
     * A descent with some values held exactly; gives the values where it ends.
     *
     * @param pick index of the listed value, or -1 for a value that is sought
     */
    private double[] descend(double[] start, boolean[] fixed, List<Integer> pick) {
        double[] x = start.clone();
        double[] at = held(x, pick);
        Evaluation here = evaluate(at);
        double radius = 0.15;
        Linear linear = null;
        for (int k = 0; k < settings.steps() && radius > settings.tolerance(); k++) {
            if (linear == null) {
                linear = slopes(key(at), x, fixed, PROBE * Math.min(1, Math.max(0.1, radius / 0.05)));
            }
            double[] step = step(linear, fixed, radius, Map.of());
            if (step == null) {
                break;
            }
            double[] next = x.clone();
            double length = 0;
            for (int i = 0; i < n(); i++) {
                next[i] = fixed[i] ? x[i] : Math.max(0, Math.min(1, x[i] + step[i]));
                length = Math.max(length, Math.abs(next[i] - x[i]));
            }
            if (length < 0.1 * settings.tolerance()) {
                radius *= 0.1;
                linear = null; // the slopes again, from nearer by
                continue;
            }
            double[] there = held(next, pick);
            Evaluation e = evaluate(there);
            if (merit(e) < merit(here) - 1e-9) {
                x = next;
                at = there;
                here = e;
                linear = null;
                radius = Math.min(0.4, radius * 1.6);
            } else {
                radius = Math.min(radius, length) * 0.35;
            }
        }
        return at;
    }

    // --- what it costs, what stands in the way
    // -----------------------------------------------------------------------------

    /** Just outside the answer where the objective falls: one probe along minus the cost's slope, feasible or not. */
    private Evaluation outside(List<Double> point, Linear here) {
        double[] x = here.at().clone();
        double size = 0;
        for (double s : here.costSlope()) {
            size = Math.max(size, Math.abs(s));
        }
        if (!(size > 0)) {
            return null;
        }
        for (int i = 0; i < n(); i++) {
            if (!variables.get(i).listed()) {
                x[i] = Math.max(0, Math.min(1, x[i] - 0.01 * here.costSlope()[i] / size));
            }
        }
        double[] v = values(x);
        for (int i = 0; i < n(); i++) {
            if (variables.get(i).listed()) {
                v[i] = point.get(i);
            }
        }
        Evaluation e = evaluate(v);
        return e.feasible() ? null : e;
    }

    /** Change of the objective per unit of margin by criterion, first order: the linear programme solved again with more wanted. */
    private Map<String, Double> prices(Linear here) {
        boolean[] fixed = new boolean[n()];
        for (int i = 0; i < n(); i++) {
            fixed[i] = variables.get(i).listed();
        }
        Map<String, Double> out = new TreeMap<>();
        double radius = 0.1;
        double more = 0.02;
        double[] plain = step(here, fixed, radius, Map.of());
        double value = objective.of(here.here());
        Set<String> keys = new TreeSet<>(here.here().margins().keySet());
        for (String key : keys) {
            double[] d = plain == null ? null : step(here, fixed, radius, Map.of(key, more));
            out.put(key, d == null ? Double.NaN : price(here, plain, d, key, more) * value / more);
        }
        return out;
    }

    /** Change of ln(objective); NaN where the free values cannot give that margin within the radius. */
    private double price(Linear here, double[] plain, double[] d, String key, double more) {
        double change = 0;
        for (int i = 0; i < n(); i++) {
            change += here.costSlope()[i] * (d[i] - plain[i]);
        }
        for (int k = 0; k < here.margins().size(); k++) {
            Margin m = here.margins().get(k);
            double reached = m.value();
            for (int i = 0; i < n(); i++) {
                reached += here.slopes()[k][i] * d[i];
            }
            if (m.criterion().equals(key) && reached < wanted + more - 1e-5) {
                return Double.NaN;
            }
        }
        return Math.abs(change) < 1e-12 ? 0 : change;
    }

    /** For each margin that stands in the way, or would if the others were met: which way it wants each value to go. */
    private Map<String, List<String>> wants(List<Double> point, Linear here) {
        double worst = shortfall(here.here());
        Map<String, List<String>> out = new LinkedHashMap<>();
        List<Margin> short1 = new ArrayList<>();
        for (Margin m : here.margins()) {
            if (m.value() - wanted < Math.max(0.02, 0.05 * worst) && !Double.isNaN(m.value())) {
                short1.add(m);
            }
        }
        Collections.sort(short1, (a, b) -> Double.compare(a.value(), b.value()));
        for (Margin m : short1.subList(0, Math.min(6, short1.size()))) {
            List<String> ways = new ArrayList<>();
            double[] s = here.slopes()[here.margins().indexOf(m)];
            for (int i = 0; i < n(); i++) {
                if (Math.abs(s[i]) > 1e-4) {
                    boolean more = s[i] > 0;
                    Variable v = variables.get(i);
                    boolean stopped =
                            more ? point.get(i) >= v.upper() * (1 - 1e-9) : point.get(i) <= v.lower() * (1 + 1e-9);
                    ways.add((more ? "more " : "less ") + v.place() + (stopped ? ", which is at its bound" : ""));
                }
            }
            out.put(m.words(), ways);
        }
        for (Margin m : here.here().each()) {
            if (!m.met() && Double.isNaN(m.value()) && out.size() < 8) {
                out.putIfAbsent(m.words(), List.of());
            }
        }
        return out;
    }
}
