package purgewright.sealflow.transients;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.NetworkDynamics;
import purgewright.sealflow.network.NetworkDynamics.Held;
import purgewright.sealflow.network.NetworkDynamics.Point;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.transients.TransientResult.Hit;
import purgewright.sealflow.transients.TransientResult.Outcome;
import purgewright.sealflow.transients.TransientResult.Rejection;
import purgewright.sealflow.transients.TransientResult.Step;

/**
 * Runs a case over time by TR-BDF2: the trapezoidal rule to a point inside the step, then the second backward formula to its end.
 * Both stages share one matrix, the pair is of second order and L-stable, so that a 5 cm3 pocket does not hold up a 5 l bottle.
 *
 * <pre>{@code
 * g = 2 - sqrt 2,  d = 1 - sqrt(1/2)
 * q_g = q_0 + d dt (F_0 + F_g)
 * q_1 = (q_g - (1 - g)^2 q_0) / (g (2 - g)) + d dt F_1
 * error = 2 k g dt (F_0/g - F_g/(g (1 - g)) + F_1/(1 - g)),  k = (-3 g^2 + 4 g - 2)/(12 (2 - g))
 * }</pre>
 *
 * <p>On a ramp (a speed that changes, a valve that opens slowly) each step has the case of its middle, second order like the formula.
 *
 * <p>Source: R. E. Bank and others, IEEE Trans. CAD 4 (1985) 436; M. E. Hosea, L. F. Shampine, Appl. Numer. Math. 20 (1996) 21
 * [from memory]. Held amounts are balanced, not states, so that mass is kept to the tolerance of the stages.
 */
public final class TransientSolver {
    private static final double G = 2 - Math.sqrt(2);
    private static final double D = 1 - Math.sqrt(0.5);
    private static final double K = (-3 * G * G + 4 * G - 2) / (12 * (2 - G));
    private static final double SMALLEST_SHARE = 1e-13;

    private final NetworkSolver solver;
    private final TransientSettings settings;

    /**
     * @param solver for the steady start, and for engine, passage types and settings of the network
     * @param settings of the run
     */
    public TransientSolver(NetworkSolver solver, TransientSettings settings) {
        this.solver = solver;
        this.settings = settings;
    }

    /**
     * Runs.
     *
     * @param schedule the case over time
     * @param start where every free cavity starts; null: the steady state of the case just before time 0
     * @param duration s
     * @param events what to look for
     * @throws IllegalArgumentException when the case cannot be built or its steady start is not found, with words
     */
    public TransientResult run(Schedule schedule, Converged start, double duration, List<Event> events) {
        Converged from = start == null ? steady(schedule.at(Math.nextDown(0.0))) : start;
        Run run = new Run(schedule, duration, events);
        return run.go(from);
    }

    private Converged steady(Case model) {
        SolveResult result = solver.solve(model, null);
        if (result instanceof Converged c) {
            return c;
        }
        throw new IllegalArgumentException(
                "the run has no steady start: " + ((SolveResult.NotConverged) result).detail());
    }

    /** One run; owned by one thread. */
    private final class Run {
        private final Schedule schedule;
        private final double duration;
        private final List<Event> events;
        private final List<Step> steps = new ArrayList<>();
        private final List<Hit> hits = new ArrayList<>();
        private final List<Rejection> rejections = new ArrayList<>();
        private NetworkDynamics network;
        private Case model;

        Run(Schedule schedule, double duration, List<Event> events) {
            this.schedule = schedule;
            this.duration = duration;
            this.events = events;
        }

        private void take(double time) {
            Case now = schedule.at(time);
            if (now != model) {
                model = now;
                network = new NetworkDynamics(solver, now, settings.defaultVolume());
            }
        }

        TransientResult go(Converged from) {
            double time = 0;
            take(time);
            Point z = network.point(from);
            network.set(z);
            Held first = network.held();
            double came = 0;
            double passed = first.total();
            double dt = Math.min(settings.firstStep(), duration);
            double[] values = values();
            Outcome outcome = Outcome.FINISHED;
            String detail = "";
            while (time < duration && outcome == Outcome.FINISHED) {
                if (Thread.currentThread().isInterrupted()) {
                    outcome = Outcome.CANCELLED;
                    break;
                }
                if (steps.size() >= settings.maximumSteps()) {
                    outcome = Outcome.TOO_MANY_STEPS;
                    detail = "the run stood at " + time + " s after " + steps.size() + " steps";
                    break;
                }
                double limit = Math.min(duration, schedule.nextJump(time));
                double ramp = schedule.rampStep(time);
                double h = Math.min(Math.min(Math.min(dt, settings.longestStep()), limit - time), ramp);
                boolean last = time + h >= limit * (1 - 1e-14) || limit - time - h < 1e-9 * h;
                double end = last ? limit : time + h;
                h = end - time;
                if (ramp < Double.POSITIVE_INFINITY) {
                    take(time + h / 2);
                    network.set(z);
                    network.outdate();
                }
                Trial trial = attempt(z, time, h);
                if (trial == null || trial.error() > settings.tolerance()) {
                    rejections.add(
                            new Rejection(time, h, trial == null ? Double.NaN : trial.error() / settings.tolerance()));
                    double cut =
                            trial == null ? 0.25 : Math.max(0.2, 0.8 * Math.cbrt(settings.tolerance() / trial.error()));
                    dt = h * cut;
                    if (!(dt > SMALLEST_SHARE * Math.max(duration, 1e-3))) {
                        outcome = Outcome.STEP_TOO_SMALL;
                        detail = "no step from " + time + " s is small enough to be solved";
                    }
                    network.set(z);
                    network.outdate();
                    continue;
                }
                Step step = new Step(time, time + G * h, end, z, trial.inside(), trial.end());
                steps.add(step);
                came -= trial.outflow();
                passed = Math.max(passed, Math.abs(trial.outflow()));
                double[] after = values();
                double stop = find(step, values, after);
                if (!Double.isNaN(stop)) {
                    outcome = Outcome.STOPPED_BY_EVENT;
                    break;
                }
                values = after;
                z = trial.end();
                time = end;
                dt = Math.min(
                        settings.longestStep(),
                        h
                                * Math.min(
                                        4,
                                        Math.max(
                                                0.3,
                                                0.85
                                                        * Math.cbrt(settings.tolerance()
                                                                / Math.max(
                                                                        trial.error(), 1e-3 * settings.tolerance())))));
                if (last && time < duration) {
                    take(time);
                    network.set(z);
                    network.outdate();
                    dt = Math.min(dt, settings.firstStep());
                    values = values();
                }
            }
            Held end = network.held();
            double defect = (end.total() - first.total() - came) / Math.max(Math.max(passed, end.total()), 1e-300);
            return new TransientResult(
                    outcome,
                    detail,
                    network.cavities(),
                    network.streams(),
                    List.copyOf(steps),
                    List.copyOf(hits),
                    List.copyOf(rejections),
                    settings.defaultVolume(),
                    network.assumedVolumes(),
                    defect);
        }

        private record Trial(Point inside, Point end, double error, double outflow) {}

        private Trial attempt(Point z, double time, double h) {
            try {
                Held q0 = network.held();
                Held f0 = network.rates();
                double out0 = network.outflow();
                double share = D * h;
                if (network.stage(q0.mix(1, f0, share), share) < 0) {
                    return null;
                }
                Point inside = network.point();
                Held qg = network.held();
                Held fg = network.rates();
                double outg = network.outflow();
                double own = 1 / (G * (2 - G));
                Held base = qg.mix(own, q0, -(1 - G) * (1 - G) * own);
                if (network.stage(base, share) < 0) {
                    return null;
                }
                Held f1 = network.rates();
                Held error = f0.mix(2 * K * h, fg, -2 * K * h / (1 - G)).mix(1, f1, 2 * K * G * h / (1 - G));
                double size = network.errorSize(error, share);
                // What crossed the boundary by the same formula, for the account of mass.
                double crossed = (own * share) * (out0 + outg) + share * network.outflow();
                // An error that is no number is no error estimate: accepted, it would make the next step no number
                // either.
                return Double.isFinite(size) && Double.isFinite(crossed)
                        ? new Trial(inside, network.point(), size, crossed)
                        : null;
            } catch (PropertyException e) {
                return null;
            }
        }

        private double[] values() {
            double[] v = new double[events.size()];
            for (int e = 0; e < v.length; e++) {
                v[e] = events.get(e).value().applyAsDouble(network);
            }
            return v;
        }

        /** Records the events of a step in order; returns the time of one that ends the run, or NaN. */
        private double find(Step step, double[] before, double[] after) {
            if (events.isEmpty()) {
                return Double.NaN;
            }
            List<Hit> found = new ArrayList<>();
            for (int e = 0; e < before.length; e++) {
                if (before[e] != 0 && Math.signum(before[e]) != Math.signum(after[e])) {
                    found.add(new Hit(
                            events.get(e).key(),
                            locate(step, events.get(e), before[e], after[e]),
                            after[e] > before[e]));
                }
            }
            found.sort(Comparator.comparingDouble(Hit::time));
            double stop = Double.NaN;
            for (Hit hit : found) {
                hits.add(hit);
                boolean ends = events.stream().anyMatch(e -> e.key().equals(hit.key()) && e.ends());
                if (ends) {
                    stop = hit.time();
                    break;
                }
            }
            network.set(step.to());
            return stop;
        }

        /**
         * Zero of an event within a step, by the Illinois variant of false position on the dense output; as close as a thousandth of the
         * tolerance of the run, in steps: closer than that the states themselves are not known.
         */
        private double locate(Step step, Event event, double before, double after) {
            double a = step.start();
            double b = step.end();
            double close = Math.max(1e-12 * Math.max(b, 1e-6), 1e-3 * settings.tolerance() * (b - a));
            double fa = before;
            double fb = after;
            for (int n = 0; n < 60 && b - a > close; n++) {
                double t = fb == fa ? (a + b) / 2 : Math.max(a, Math.min(b, b - fb * (b - a) / (fb - fa)));
                network.set(step.at(t));
                double f = event.value().applyAsDouble(network);
                if (f == 0) {
                    return t;
                }
                if (Math.signum(f) == Math.signum(fb)) {
                    b = t;
                    fb = f;
                    fa /= 2;
                } else {
                    a = t;
                    fa = f;
                    fb /= 2;
                }
                if (n > 20) {
                    // False position has had its chance.
                    fa = Math.signum(fa);
                    fb = Math.signum(fb);
                }
            }
            return (a + b) / 2;
        }
    }
}
