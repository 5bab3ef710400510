package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Supplier;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.gap.GapModel;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.network.Alternation.Aid;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.Reason;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;
import purgewright.sealflow.rotating.ForcedVortex;

/**
 * Steady pressures, enthalpies and mixtures of a case's free cavities. Immutable; threads may share it.
 *
 * <p>Newton with line search from the guess given, then from a first guess of the network's own. Where neither arrives, ways of other kinds have
 * their turns, each for some work and then again for more:
 *
 * <ul>
 *   <li>pressures and states in turn ({@link Alternation}): the quick way, the patient one and those with an aid ({@link Alternation.Aid}) that
 *       what was met so far asks for;
 *   <li>Newton with each cavity holding back (a pseudo-transient);
 *   <li>without the heat of friction and windage first, which is then put in step by step: where little flows, that heat decides
 *       the temperature, and a guess that does not know it is far off;
 *   <li>last, the boundary pressures moved from their common mean to their values, each step solved from the last.
 * </ul>
 *
 * <p>Each answer is checked by {@link Closure}, which knows only the result.
 *
 * <p>A solve ends early, as {@code CANCELLED}, when its thread is interrupted; the flag stays set.
 */
public final class NetworkSolver {
    private static final double PROMISED_CLOSURE = 1e-9;
    /** Smallest share of the heat that is put in at a time before the way is given up. */
    private static final double LEAST_HEAT = 0.02;

    /** Difference of the logarithms of two pressures below which a passage counts as about to turn. */
    private static final double TURNING = 0.02;

    private static final int NEAR_ITERATIONS = 20;

    /** What a way may cost in the first round, in flows through every passage; twice as much in the next, and so on. Invented. */
    private static final long FIRST_WORK = 500;

    /** How many rounds there are; what has not arrived after as many has cost 32,000. Invented. */
    private static final int ROUNDS = 7;

    private final SolverSettings settings;
    private final Function<String, PassageType> types;
    private final BiFunction<PassageSpec, Rotor, RunningGap> gaps;
    private final Mixers mixers;

    /**
     * A solver with the passage types and the gap model of the product.
     *
     * @param engine fluids
     * @param settings how to solve
     */
    public NetworkSolver(PropertyEngine engine, SolverSettings settings) {
        this(engine, settings, key -> PassageTypes.find(key).orElse(null));
    }

    /** A solver with other passage types than the usual; each says how its gap runs. */
    public NetworkSolver(PropertyEngine engine, SolverSettings settings, Function<String, PassageType> types) {
        this(engine, settings, types, (spec, rotor) -> {
            PassageType type = types.apply(spec.type());
            return type == null ? null : GapModel.running(type.gap(spec), spec, rotor);
        });
    }

    /**
     * A solver with other passage types or gap model than the usual: for trials of either.
     *
     * @param engine fluids
     * @param settings how to solve
     * @param types type by key, null when unknown
     * @param gaps running clearance of a passage, null for types without
     */
    public NetworkSolver(
            PropertyEngine engine,
            SolverSettings settings,
            Function<String, PassageType> types,
            BiFunction<PassageSpec, Rotor, RunningGap> gaps) {
        this.mixers = new Mixers(Objects.requireNonNull(engine));
        this.settings = Objects.requireNonNull(settings);
        this.types = Objects.requireNonNull(types);
        this.gaps = Objects.requireNonNull(gaps);
    }

    /**
     * Solves one operating point.
     *
     * @param model the case
     * @param guess result of a similar case to start from, or null; cavities it does not know start from the first guess
     * @return the states, or why there are none; never throws for what a case may contain
     */
    public SolveResult solve(Case model, Converged guess) {
        Network net;
        try {
            net = network(model);
        } catch (Network.Refusal e) {
            return refused(e.cavity, e.reason, e.getMessage());
        } catch (PropertyException e) {
            return refused("", Reason.PROPERTY_OUT_OF_RANGE, Words.of(e));
        }
        return new Search(net).from(guess);
    }

    /**
     * Solves a case next to some that are solved, from there alone: Newton and a pseudo-transient from the first, then Newton from the
     * others.
     * For sweeps over many neighbours, where one start from nothing costs more than ten neighbours; a failure here says only that the
     * ways from these guesses are barred.
     *
     * @param guesses results of similar cases, the nearest first; at least one
     */
    public SolveResult solveNear(Case model, List<Converged> guesses) {
        Network net;
        try {
            net = network(model);
        } catch (Network.Refusal e) {
            return refused(e.cavity, e.reason, e.getMessage());
        } catch (PropertyException e) {
            return refused("", Reason.PROPERTY_OUT_OF_RANGE, Words.of(e));
        }
        return new Search(net).near(guesses);
    }

    /** The case as this solver sees it. */
    Network network(Case model) {
        return new Network(model, mixers, settings, types, gaps);
    }

    /** The case as it changes over time. */
    Network dynamicNetwork(Case model) {
        return new Network(model, mixers, settings, types, gaps, true);
    }

    /** One passage as this solver builds it. */
    Passage passage(PassageSpec spec, Rotor rotor) {
        RunningGap gap = gaps.apply(spec, rotor);
        return types.apply(spec.type())
                .build(
                        spec,
                        new Conditions(
                                rotor.speed(),
                                gap == null ? spec.clearance() : gap.mean(),
                                settings.bounds().getOrDefault(spec.name(), settings.bound())));
    }

    /** The type of that key as this solver has it; null when unknown. */
    PassageType type(String key) {
        return types.apply(key);
    }

    private static NotConverged refused(String cavity, Reason reason, String detail) {
        return new NotConverged(
                new Convergence(Method.NONE, 0, Double.NaN, Double.NaN, Double.NaN, List.of()),
                cavity,
                reason,
                detail,
                Map.of());
    }

    /** One search; owned by one thread. */
    static final class Search {
        private final Network net;
        private final Linearized linear;
        private final List<Double> history = new ArrayList<>();
        private final Descent descent;
        /** What the ways gone so far have met that an aid of the alternation is for. */
        private final Set<Aid> wanted = EnumSet.noneOf(Aid.class);

        private Method answeredBy = Method.NONE;
        private Iterate answer;
        /** The network's own first guess, evaluated; null until it is asked for. */
        private Iterate own;
        /** How many ways have ended at the end of a range; what the first of them proves and its kind, null when none. */
        private int ends;

        private NotConverged held;
        private Method heldBy;
        /** Why the first way failed; null when none has. */
        private NotConverged first;
        /** What the heating way could tell about its failure; null when nothing. */
        private NotConverged warmest;

        Search(Network net) {
            this.net = net;
            linear = new Linearized(net);
            descent = new Descent(net, linear, history);
        }

        /**
         * Newton that has not arrived after 20 steps has met a kink on its way. In a sweep the other guesses lie on the same side of it
         * as the first, while a pseudo-transient goes through, for the price of one more stalled Newton.
         */
        SolveResult near(List<Converged> guesses) {
            List<Entrant> entrants = new ArrayList<>();
            for (Converged guess : guesses) {
                entrants.add(
                        once(Method.NEWTON, 0, () -> descent.newton(start(guess), NEAR_ITERATIONS, guess.memory())));
            }
            entrants.add(
                    1,
                    once(
                            Method.PSEUDO_TRANSIENT,
                            0,
                            () -> descent.pseudoTransient(start(guesses.get(0)), net.settings.maximumIterations())));
            return search(entrants, false);
        }

        SolveResult from(Converged guess) {
            // A guess from a neighbouring case may lie on the wrong side of a valve; the network's own guess does not.
            List<Entrant> entrants = new ArrayList<>();
            if (guess != null) {
                entrants.add(once(Method.NEWTON, 0, () -> newton(guess)));
            }
            entrants.add(once(Method.NEWTON, 0, () -> newton(null)));
            entrants.add(turns(0, 1, 1.5, false, Aid.NONE));
            entrants.add(new Entrant(Method.PSEUDO_TRANSIENT, Aid.NONE, 1, 1, this::pseudoTransient));
            entrants.add(turns(0, 2, 1.5, false, Aid.WALLED_ALONE));
            entrants.add(turns(0, 1, 1.1, true, Aid.NONE));
            entrants.add(once(Method.HEATING, 2, this::heating));
            entrants.add(turns(3, 0.125, 1.5, false, Aid.ENDS_APART));
            entrants.add(turns(3, 0.125, 1.1, true, Aid.ENDS_APART));
            entrants.add(turns(1, 1, 1.1, true, Aid.CAVITIES_ALONE));
            entrants.add(turns(3, 0.125, 1.5, false, Aid.OPENINGS_HELD));
            entrants.add(turns(3, 0.125, 1.1, true, Aid.OPENINGS_HELD));
            entrants.add(once(Method.HOMOTOPY, ROUNDS - 1, this::homotopy));
            return search(entrants, true);
        }

        private Entrant once(Method method, int round, Supplier<Descent.End> whole) {
            return new Entrant(method, Aid.NONE, round, 1, () -> new Way() {
                @Override
                public Descent.End go(long until) {
                    return whole.get();
                }

                @Override
                public Iterate at() {
                    return answer;
                }
            });
        }

        private Entrant turns(int round, double share, double regrowth, boolean holdsWalls, Aid aid) {
            Alternation.Manner manner = new Alternation.Manner(regrowth, holdsWalls, aid);
            return new Entrant(
                    Method.ALTERNATION,
                    aid,
                    round,
                    share,
                    () -> new Alternation(
                            net, linear, descent, manner, start(null), 10 * net.settings.maximumIterations()));
        }

        /** A way that takes part in the search, and what it has cost. */
        private final class Entrant {
            private final Method method;
            private final Aid aid;
            private final int round;
            private final double share;
            private final Supplier<Way> begin;
            private Way way;
            private boolean over;
            private long spent;

            /**
             * @param round the first round in which it has its turn
             * @param share how much it may cost beside the others: more where a flow costs it little, less where it costs much or is seldom the first
             */
            Entrant(Method method, Aid aid, int round, double share, Supplier<Way> begin) {
                this.method = method;
                this.aid = aid;
                this.round = round;
                this.share = share;
                this.begin = begin;
            }

            boolean takesPart(int now) {
                return !over
                        && now >= round
                        && (aid == Aid.NONE || wanted.contains(aid))
                        && (method != Method.HOMOTOPY || warmest == null);
            }

            /** What it may cost yet once a way of some kind has met the end of a range: nothing where it is of that kind, or a way with an aid. */
            long hearing(Method heldBy) {
                boolean plain = method == Method.ALTERNATION && aid == Aid.NONE;
                boolean other = method == Method.PSEUDO_TRANSIENT || method == Method.HEATING || plain;
                return over || method == heldBy || !other ? 0 : plain ? FIRST_WORK * net.links : Long.MAX_VALUE >> 1;
            }

            /** Goes on until it has cost so much in all. */
            Descent.End go(long allowance) {
                long start = net.work - spent;
                Descent.End end;
                try {
                    if (way == null) {
                        way = begin.get();
                    }
                    end = way.go(start + allowance);
                    answer = way.at();
                } catch (PropertyException e) {
                    descent.refusal = Words.of(e);
                    end = Descent.End.STALLED;
                }
                spent = net.work - start;
                over = end != Descent.End.PAUSED;
                if (way instanceof Alternation alternation) {
                    wanted.addAll(alternation.wanted());
                }
                return end;
            }
        }

        /**
         * All ways, each for so much work, then again for more: which one arrives, and after how long, differs from network to network by a hundred
         * times, and none need wait for the end of one that leads nowhere. The first that arrives answers.
         *
         * <p>Whatever balances everything inside the range is preferred to the end of a range: once a way has met one, those of other kinds are
         * heard, and the end of the range stands where none of them arrives inside.
         */
        private SolveResult search(List<Entrant> entrants, boolean fromNothing) {
            if (net.cavityOf.length == 0) {
                Iterate x = new Iterate(net);
                try {
                    x.evaluate();
                    x.refreshLagged();
                } catch (PropertyException e) {
                    return failed(null, x, Reason.PROPERTY_OUT_OF_RANGE, Words.of(e));
                }
                return accept(x, Method.NEWTON);
            }
            SolveResult found = null;
            for (int round = 0; round < ROUNDS && ends == 0 && found == null; round++) {
                long allowance = (FIRST_WORK * net.links) << round;
                for (Entrant e : entrants) {
                    if (found == null && ends < (fromNothing ? 1 : 2) && e.takesPart(round)) {
                        found = turn(e, (long) (allowance * e.share), fromNothing);
                    }
                }
            }
            for (Entrant e : entrants) {
                long hearing = found == null && fromNothing && ends == 1 ? e.hearing(heldBy) : 0;
                if (hearing > 0) {
                    found = turn(e, hearing, true);
                }
            }
            if (found == null) {
                found = held != null ? held : warmest != null ? warmest : withHistory(first);
            }
            return found;
        }

        /** One way's turn; null where the search has to go on. */
        private SolveResult turn(Entrant e, long allowance, boolean fromNothing) {
            Descent.End end = e.go(allowance);
            if (end == Descent.End.PAUSED) {
                return null;
            }
            if (end == Descent.End.CANCELLED) {
                return failed(null, answer, Reason.CANCELLED, "the solve was cancelled");
            }
            if (end == Descent.End.HELD) {
                ends++;
                if (held == null) {
                    held = beyondRange(answer);
                    heldBy = e.method;
                }
                return net.settings.fallbacks() ? null : held;
            }
            if (end == Descent.End.CLOSED) {
                SolveResult result = accept(answer, e.method);
                if (result instanceof Converged) {
                    return result;
                }
                first = first == null ? (NotConverged) result : first;
            } else if (first == null) {
                first = explain(answer, end);
            }
            if (!net.settings.fallbacks()) {
                return first;
            }
            return held == null && fromNothing ? deadPart(answer) : null;
        }

        /** A failure with all that the search has gone through since. */
        private NotConverged withHistory(NotConverged failure) {
            return new NotConverged(
                    new Convergence(
                            Method.NONE,
                            descent.iterations,
                            failure.convergence().massClosure(),
                            failure.convergence().energyClosure(),
                            failure.convergence().speciesClosure(),
                            List.copyOf(history),
                            failure.convergence().conditionEstimate(),
                            failure.convergence().choked()),
                    failure.worstCavity(),
                    failure.reason(),
                    failure.detail(),
                    failure.best());
        }

        /** One way by itself, for tests. */
        SolveResult only(Method method) {
            Descent.End end = method == Method.HEATING
                    ? heating()
                    : method == Method.HOMOTOPY
                            ? homotopy()
                            : method == Method.PSEUDO_TRANSIENT
                                    ? pseudoTransient().go(Long.MAX_VALUE)
                                    : newton(null);
            return end == Descent.End.CLOSED
                    ? accept(answer, method)
                    : end == Descent.End.HELD ? beyondRange(answer) : explain(answer, end);
        }

        private Iterate start(Converged guess) {
            Iterate x = null;
            if (guess != null) {
                x = warm(net, guess);
            }
            if (x == null) {
                x = new Iterate(net);
                x.adopt(ownGuess());
            }
            answer = x;
            return x;
        }

        private Iterate ownGuess() {
            if (own == null) {
                Iterate x = new FirstGuess(net).make();
                answer = x;
                x.evaluate();
                if (Alternation.anyWallCondenses(x)) {
                    wanted.add(Aid.WALLED_ALONE);
                }
                own = x;
            }
            return own;
        }

        /** The states of another result, mapped by the names of cavities and streams; null when they do not fit. */
        static Iterate warm(Network net, Converged guess) {
            Iterate x = new Iterate(net);
            double[] y = new double[net.streams];
            for (int i : net.cavityOf) {
                CavityState c = guess.cavities().get(net.cavity[i].name());
                if (c == null) {
                    return null;
                }
                double sum = 0;
                for (int k = 0; k < net.streams; k++) {
                    y[k] = c.streamFractions().getOrDefault(net.mixer.name(k), 0.0);
                    sum += y[k];
                }
                if (Math.abs(sum - 1) > 1e-9) {
                    return null;
                }
                x.set(i, c.state().pressure(), c.state().enthalpy(), y);
            }
            try {
                x.evaluate();
            } catch (PropertyException e) {
                return null;
            }
            return x;
        }

        private Descent.End newton(Converged guess) {
            Iterate x = start(guess);
            SlopeMemory memory = guess == null ? null : guess.memory();
            return descent.newton(x, net.settings.maximumIterations(), memory);
        }

        private Way pseudoTransient() {
            return descent.new PseudoTransient(start(null), 4 * net.settings.maximumIterations());
        }

        /**
         * First without the heat of friction and windage, then with more and more of it. Where it ends before all heat is in, the
         * cavity that the heat drives is named.
         */
        private Descent.End heating() {
            Iterate x = null;
            double done = 0;
            double stride = 1;
            boolean solved = false;
            Descent.End end;
            try {
                net.heatShare = 0;
                x = new FirstGuess(net).make();
                answer = x;
                x.evaluate();
                if (!heated(x)) {
                    return Descent.End.STALLED;
                }
                end = closeIn(x);
                solved = settled(end);
                while (settled(end) && done < 1) {
                    double next = Math.min(1, done + stride);
                    Iterate trial = new Iterate(net);
                    for (int i : net.cavityOf) {
                        trial.set(i, x.pressure[i], x.enthalpy[i], x.fraction[i]);
                    }
                    net.heatShare = next;
                    trial.evaluate();
                    Descent.End there = closeIn(trial);
                    if (there == Descent.End.CANCELLED) {
                        return there;
                    }
                    if (settled(there)) {
                        x = trial;
                        end = there;
                        done = next;
                        stride *= 2;
                    } else {
                        stride /= 4;
                        if (stride < LEAST_HEAT) {
                            end = there;
                        }
                    }
                }
            } finally {
                net.heatShare = 1;
            }
            answer = x;
            if (!settled(end) && end != Descent.End.CANCELLED && solved) {
                warmest = overheated(x, done);
            }
            return end;
        }

        private Descent.End closeIn(Iterate x) {
            try {
                Descent.End end = descent.newton(x, NEAR_ITERATIONS);
                return settled(end) || end == Descent.End.CANCELLED
                        ? end
                        : descent.pseudoTransient(x, 2 * NEAR_ITERATIONS);
            } catch (PropertyException e) {
                descent.refusal = Words.of(e);
                return Descent.End.STALLED;
            }
        }

        private static boolean settled(Descent.End end) {
            return end == Descent.End.CLOSED || end == Descent.End.HELD;
        }

        /**
         * The refusal of a network that has no steady state inside its fluids' range, with its proof: everything is balanced but for the
         * heat of some cavities, and those are as hot (or cold) as their fluids' equations go and still take up more.
         */
        private NotConverged beyondRange(Iterate x) {
            int worst = -1;
            int count = 0;
            for (int i : net.cavityOf) {
                if (x.held(i)) {
                    count++;
                    worst = worst < 0 || Math.abs(x.energy[i]) > Math.abs(x.energy[worst]) ? i : worst;
                }
            }
            String name = net.cavity[worst].name();
            boolean hot = x.atLimit[worst] > 0;
            return named(
                    name,
                    x,
                    Reason.BEYOND_RANGE,
                    String.format(
                            Locale.ROOT,
                            "no steady state inside the range of the property equations: with '%s' held at %.4g K, the %s they give"
                                    + " for it, everything else balances, and %.3g W more still go %s it than can %s it (%.3g kg/s"
                                    + " flow through)%s; %s",
                            name,
                            x.state[worst].temperature(),
                            hot ? "hottest" : "coldest",
                            Math.abs(x.energy[worst]),
                            hot ? "into" : "out of",
                            hot ? "leave" : "reach",
                            x.through[worst],
                            count == 1
                                    ? ""
                                    : "; " + (count - 1) + " more " + (count == 2 ? "cavity" : "cavities")
                                            + " likewise",
                            hot
                                    ? "more flow, or a wall that takes the heat, would settle it"
                                    : "a wall that brings heat, or less expansion, would settle it"));
        }

        /**
         * The refusal of a network of which a part can have no steady state, whatever the rest does; null where there is no such part, or the
         * best iterate knows nothing about it.
         */
        private NotConverged deadPart(Iterate x) {
            DeadParts.Heated part =
                    x == null ? null : new DeadParts(net).heated(x, PROMISED_CLOSURE * x.largestEnergyFlow);
            if (part == null) {
                return null;
            }
            String name = net.cavity[part.cavity()].name();
            return named(
                    name,
                    x,
                    Reason.BEYOND_RANGE,
                    String.format(
                            Locale.ROOT,
                            "no steady state: a single passage ties '%s' to all given pressures, so that nothing flows there, and %.3g W"
                                    + " of %s go into it that neither a flow nor a wall carries away; a second way, or a wall that takes"
                                    + " the heat, would settle it",
                            name,
                            part.heat(),
                            part.passage() < 0
                                    ? "windage"
                                    : "drag, most of it in '"
                                            + net.model
                                                    .passages()
                                                    .get(net.specOf[part.passage()])
                                                    .name()
                                            + "',"));
        }

        private boolean heated(Iterate x) {
            for (int l = 0; l < net.links; l++) {
                if (x.flow[l] != null && x.flow[l].heat() != 0) {
                    return true;
                }
            }
            for (int i : net.cavityOf) {
                if (x.windage[i] != 0 || net.cavity[i].disc() != null) {
                    return true;
                }
            }
            return false;
        }

        /** Names what is about to turn, or else the cavity whose heat is largest beside what flows through it. */
        private NotConverged overheated(Iterate x, double share) {
            double[] heat = new double[net.cavities];
            int turning = -1;
            double least = TURNING;
            for (int l = 0; l < net.links; l++) {
                if (!net.flowing[l]) {
                    continue;
                }
                heat[net.from[l]] += x.flow[l].heatAtFrom();
                heat[net.to[l]] += x.flow[l].heatAtTo();
                double drop = Math.abs(Math.log(x.endFrom[l].pressure() / x.endTo[l].pressure()));
                if (x.flow[l].heat() > 0 && drop < least) {
                    least = drop;
                    turning = l;
                }
            }
            String found = String.format(
                    Locale.ROOT,
                    "with %.2g %% of the heat of friction and windage a steady state is found, with all of it none; ",
                    100 * share);
            if (turning >= 0) {
                PassageSpec spec = net.model.passages().get(net.specOf[turning]);
                int i = net.unknown[net.from[turning]] >= 0 ? net.from[turning] : net.to[turning];
                return named(
                        net.cavity[i].name(),
                        x,
                        Reason.OVERHEATED,
                        String.format(
                                Locale.ROOT,
                                "%s'%s' between '%s' and '%s' stands at almost equal pressures (%.6g and %.6g Pa) and is about to"
                                        + " turn its flow: what little flows there cannot carry the heat away",
                                found,
                                spec.name(),
                                spec.from(),
                                spec.to(),
                                x.endFrom[turning].pressure(),
                                x.endTo[turning].pressure()));
            }
            int worst = net.cavityOf[0];
            double most = -1;
            for (int i : net.cavityOf) {
                double rise = (heat[i] + x.windage[i]) / Math.max(x.through[i], 1e-12 * x.largestFlow + 1e-300);
                if (rise > most) {
                    most = rise;
                    worst = i;
                }
            }
            String name = net.cavity[worst].name();
            return named(
                    name,
                    x,
                    Reason.OVERHEATED,
                    String.format(
                            Locale.ROOT,
                            "%sthat heat is largest beside the flow in '%s': %.3g W into %.3g kg/s at %.4g K; more flow, or a wall"
                                    + " that takes heat, would settle it",
                            found,
                            name,
                            heat[worst] + x.windage[worst],
                            x.through[worst],
                            x.state[worst].temperature()));
        }

        /** Boundary pressures from their geometric mean to their own, in steps that shrink where one fails. */
        private Descent.End homotopy() {
            double mean = 0;
            int count = 0;
            for (int i = 0; i < net.cavities; i++) {
                if (net.fixed[i]) {
                    mean += Math.log(net.boundaryState[i].pressure());
                    count++;
                }
            }
            mean = Math.exp(mean / count);
            FluidState[] real = net.boundaryState.clone();
            Iterate x = null;
            double done = 0;
            double stride = 0.1;
            Descent.End last = Descent.End.CLOSED;
            try {
                while (done < 1) {
                    double next = Math.min(1, done + stride);
                    Descent.End end;
                    Iterate trial = null;
                    try {
                        for (int i = 0; i < net.cavities; i++) {
                            if (net.fixed[i]) {
                                double p = mean * Math.pow(real[i].pressure() / mean, next);
                                net.boundaryState[i] = next == 1
                                        ? real[i]
                                        : real[i].fluid().atPressureTemperature(p, real[i].temperature());
                            }
                        }
                        if (x == null) {
                            trial = new FirstGuess(net).make();
                        } else {
                            trial = new Iterate(net);
                            for (int i : net.cavityOf) {
                                trial.set(i, x.pressure[i], x.enthalpy[i], x.fraction[i]);
                            }
                        }
                        trial.evaluate();
                        end = descent.newton(trial, net.settings.maximumIterations());
                        if (!settled(end) && end != Descent.End.CANCELLED) {
                            end = descent.pseudoTransient(trial, 2 * net.settings.maximumIterations());
                        }
                    } catch (PropertyException e) {
                        descent.refusal = Words.of(e);
                        end = Descent.End.STALLED;
                    }
                    answer = trial;
                    if (end == Descent.End.CANCELLED) {
                        return end;
                    }
                    if (settled(end)) {
                        x = trial;
                        last = end;
                        done = next;
                        stride *= 2;
                    } else {
                        stride /= 4;
                        if (stride < 2e-3) {
                            return end;
                        }
                    }
                }
            } finally {
                System.arraycopy(real, 0, net.boundaryState, 0, real.length);
            }
            return last;
        }

        private SolveResult accept(Iterate x, Method method) {
            answeredBy = method;
            Converged result;
            try {
                result = new Results(net, x)
                        .converged(
                                new Convergence(method, descent.iterations, 0, 0, 0, List.copyOf(history)),
                                linear.memory(x));
            } catch (PropertyException e) {
                return failed(null, x, Reason.PROPERTY_OUT_OF_RANGE, Words.of(e));
            }
            Closure closure = Closure.of(net.model, result, net.mixer);
            result = new Converged(
                    new Convergence(
                            answeredBy,
                            descent.iterations,
                            closure.mass(),
                            closure.energy(),
                            closure.species(),
                            List.copyOf(history),
                            linear.conditionEstimate(),
                            choked(x)),
                    result.cavities(),
                    result.passages(),
                    result.notices(),
                    result.memory());
            if (closure.mass() <= PROMISED_CLOSURE
                    && closure.energy() <= PROMISED_CLOSURE
                    && closure.species() <= PROMISED_CLOSURE) {
                return result;
            }
            return failed(
                    closure,
                    x,
                    Reason.ITERATION_LIMIT,
                    String.format(
                            Locale.ROOT,
                            "the balances do not close when they are added up again from the result: mass %.2g, energy %.2g, "
                                    + "species %.2g of the largest flow",
                            closure.mass(),
                            closure.energy(),
                            closure.species()));
        }

        private List<String> choked(Iterate x) {
            List<String> names = new ArrayList<>();
            for (int l = 0; l < net.links; l++) {
                if (x.flow[l] != null && x.flow[l].choked()) {
                    names.add(net.model.passages().get(net.specOf[l]).name());
                }
            }
            return List.copyOf(names);
        }

        private NotConverged explain(Iterate x, Descent.End end) {
            if (descent.refusal != null) {
                int at = descent.refusedAt >= 0 ? descent.refusedAt : x == null ? -1 : x.refusedAt;
                String where = at >= 0 ? net.cavity[at].name() : "";
                return named(
                        where,
                        x,
                        Reason.PROPERTY_OUT_OF_RANGE,
                        "the search was led to a state" + (where.isEmpty() ? "" : " in or next to '" + where + "'")
                                + " that the property equations refuse: " + descent.refusal);
            }
            String how = end == Descent.End.LIMIT
                    ? "the balances were not closed within " + net.settings.maximumIterations() + " iterations"
                    : "no step reduced the imbalance any further";
            return failed(null, x, Reason.ITERATION_LIMIT, how + boiling(x));
        }

        /**
         * What is most likely wrong where a disc turns a liquid: from a passage's radius in to its own the vortex takes as much pressure as there is
         * on the passage's other side, or more. A cavity that boils for that has rarely a steady state of this kind.
         */
        private String boiling(Iterate x) {
            for (int l = 0; x != null && l < net.links; l++) {
                for (int side = 0; side < 2; side++) {
                    int i = side == 0 ? net.from[l] : net.to[l];
                    int far = side == 0 ? net.to[l] : net.from[l];
                    FluidState end = side == 0 ? x.endTo[l] : x.endFrom[l];
                    double reference = net.cavity[i].radius();
                    if (!net.flowing[l]
                            || net.unknown[i] < 0
                            || !(net.radius[l] > reference)
                            || end == null
                            || !(end.density() > end.fluid().criticalDensity())) {
                        continue;
                    }
                    double taken = end.density() * ForcedVortex.enthalpyStep(x.swirl[i], reference, net.radius[l]);
                    if (taken >= end.pressure()) {
                        return String.format(
                                Locale.ROOT,
                                "; the vortex in '%s' takes %.3g MPa from '%s' to its reference radius, and '%s' gives %.3g MPa"
                                        + " there: its liquid would boil; more pressure, less speed or less swirl would settle it",
                                net.cavity[i].name(),
                                taken / 1e6,
                                net.model.passages().get(net.specOf[l]).name(),
                                net.cavity[far].name(),
                                end.pressure() / 1e6);
                    }
                }
            }
            return "";
        }

        private NotConverged failed(Closure closure, Iterate x, Reason reason, String detail) {
            int worst = -1;
            double most = -1;
            if (x != null) {
                for (int i : net.cavityOf) {
                    double r = (Math.abs(x.mass[i]) + Math.abs(x.energy[i]) / Linearized.ENTHALPY_UNIT)
                            / Math.max(x.through[i], 1e-12 * x.largestFlow + 1e-300);
                    // A balance that is no number is the worst there is.
                    if (r > most || (Double.isNaN(r) && most < Double.POSITIVE_INFINITY)) {
                        most = Double.isNaN(r) ? Double.POSITIVE_INFINITY : r;
                        worst = i;
                    }
                }
            }
            String name = worst < 0 ? "" : net.cavity[worst].name();
            String text = detail;
            if (worst >= 0 && reason == Reason.ITERATION_LIMIT) {
                text = String.format(
                        Locale.ROOT,
                        "%s; the balance is worst in '%s' (%.3g kg/s left over of %.3g kg/s through it, %.3g W)",
                        detail,
                        name,
                        x.mass[worst],
                        x.through[worst],
                        x.energy[worst]);
            }
            return named(name, x, reason, text, closure);
        }

        private NotConverged named(String name, Iterate x, Reason reason, String text) {
            return named(name, x, reason, text, null);
        }

        private NotConverged named(String name, Iterate x, Reason reason, String text, Closure closure) {
            return new NotConverged(
                    new Convergence(
                            Method.NONE,
                            descent.iterations,
                            closure == null ? Double.NaN : closure.mass(),
                            closure == null ? Double.NaN : closure.energy(),
                            closure == null ? Double.NaN : closure.species(),
                            List.copyOf(history),
                            linear.conditionEstimate(),
                            x == null ? List.of() : choked(x)),
                    name,
                    reason,
                    text,
                    x == null ? new LinkedHashMap<>() : new Results(net, x).best());
        }
    }
}
