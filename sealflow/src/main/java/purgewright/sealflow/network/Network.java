package purgewright.sealflow.network;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.Function;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.network.SolveResult.Reason;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.passage.PassageType;

/** A case turned into arrays: cavities and open passages by number, passages built, dead ends and loose parts found. */
final class Network {
    /** Where no boundary gives an end below, Pa (invented): as low as a run over time may go. */
    private static final double LEAST_PRESSURE = 1e-3;

    /** A case that cannot be solved whatever the iteration: reason and plain words. */
    static final class Refusal extends RuntimeException {
        private static final long serialVersionUID = 1L;
        final Reason reason;
        final String cavity;

        Refusal(Reason reason, String cavity, String detail) {
            super(detail);
            this.reason = reason;
            this.cavity = cavity;
        }
    }

    /** Share of the hottest temperature of a fluid's equations at which a cavity is held. */
    private static final double LIMIT_SHARE = 0.98;

    /** Share of the coldest boundary's temperature below which no cavity is sought. */
    private static final double COLD_SHARE = 0.3;

    final Case model;
    final SolverSettings settings;
    final StreamMixer mixer;
    final int streams;
    final double[] streamMolarMass;

    final int cavities;
    final Cavity[] cavity;
    final boolean[] fixed;
    /** Number among the unknowns; -1 for a fixed cavity and for a dead end. */
    final int[] unknown;
    /** Cavity of each unknown. */
    final int[] cavityOf;
    /** Dead ends, nearest to the flowing part first. */
    final int[] deadEnds;
    /** For a dead end, the link that leads to the flowing part; else -1. */
    final int[] leash;

    /** Angular speed of the core, rad/s; 0 where no radial gradient is taken. */
    final double[] swirl;
    /** True where the swirl is to be taken from the through-flow. */
    final boolean[] swirlFromFlow;

    /**
     * Pressures outside these are no solution and are not tried, Pa: the boundaries' hull, widened where something spins. There no share of a
     * boundary's pressure is an end below: inside a vortex a cavity may hold next to nothing but the vapour of what its cold wall condenses.
     */
    final double lowestPressure;

    final double highestPressure;

    private final boolean dynamic;
    private final double coldestBoundary;

    /** Open passages. */
    final int links;

    final int[] specOf;
    final int[] from;
    final int[] to;
    final Passage[] passage;
    /** Radius at which a link meets the cavity at its from end and to end, m; NaN: at the cavity's own radius. */
    final double[] radius;
    /** False for a link into a dead end, through which nothing flows. */
    final boolean[] flowing;
    /** beta of D_eff = D + beta U c. */
    final double[] stirring;
    /** Liquid over gas in what leaves a cavity, as a multiple of that in the cavity. */
    final double[] pickUp;
    /** The one species of a stream; null for a stream of several. */
    final String[] onlySpecies;

    /** Of every passage of the case, open or closed. */
    final RunningGap[] gap;

    final PassageType.SealKind[] kind;
    final double[] surfaceSpeed;

    /** Share of the heat of friction and windage that is put in; below 1 only on the way there. */
    double heatShare = 1;

    /** Flows through passages worked out so far: what a search has cost, the same on any machine. */
    long work;

    /** Walls: cavity, other cavity or -1, conductance, far temperature. */
    final int[] wallAt;

    final int[] wallOther;
    final double[] wallConductance;
    final double[] wallTemperature;

    /** Fixed cavities' fluids and states; null for the others. */
    final Fluid[] boundaryFluid;

    final FluidState[] boundaryState;
    final double[][] boundaryFractions;

    Network(
            Case model,
            Mixers mixers,
            SolverSettings settings,
            Function<String, PassageType> types,
            BiFunction<PassageSpec, Rotor, RunningGap> gaps) {
        this(model, mixers, settings, types, gaps, false);
    }

    /** @param dynamic true to keep dead ends and loose parts as unknowns: over time they fill and empty */
    Network(
            Case model,
            Mixers mixers,
            SolverSettings settings,
            Function<String, PassageType> types,
            BiFunction<PassageSpec, Rotor, RunningGap> gaps,
            boolean dynamic) {
        this.model = model;
        this.settings = settings;
        List<StreamDefinition> definitions = new ArrayList<>(model.streams());
        boolean needsAir = model.cavities().stream().anyMatch(c -> c.fixed() && c.stream() == null)
                && definitions.stream().noneMatch(s -> s.name().equals(Case.AIR));
        if (needsAir) {
            definitions.add(new StreamDefinition.Single(Case.AIR, Case.AIR));
        }
        mixer = mixers.of(List.copyOf(definitions));
        streams = mixer.size();
        streamMolarMass = new double[streams];
        onlySpecies = new String[streams];
        Map<String, Integer> streamNumber = new HashMap<>();
        for (int k = 0; k < streams; k++) {
            streamMolarMass[k] = mixer.molarMass(k);
            double[] alone = new double[streams];
            alone[k] = 1;
            Map<String, Double> species = new HashMap<>(mixer.speciesMassFractions(alone));
            species.values().removeIf(share -> !(share > 0));
            onlySpecies[k] = species.size() == 1 ? species.keySet().iterator().next() : null;
            streamNumber.put(mixer.name(k), k);
        }

        cavities = model.cavities().size();
        cavity = model.cavities().toArray(new Cavity[0]);
        fixed = new boolean[cavities];
        swirl = new double[cavities];
        swirlFromFlow = new boolean[cavities];
        boundaryFluid = new Fluid[cavities];
        boundaryState = new FluidState[cavities];
        boundaryFractions = new double[cavities][];
        Map<String, Integer> number = new HashMap<>();
        for (int i = 0; i < cavities; i++) {
            number.put(cavity[i].name(), i);
            fixed[i] = cavity[i].fixed();
            swirl[i] = statedSwirl(cavity[i]) * model.rotor().speed();
            swirlFromFlow[i] = cavity[i].disc() != null
                    && (settings.swirlFromThroughflow() || cavity[i].disc().swirlFromFlow())
                    && Double.isNaN(cavity[i].swirlRatio())
                    && !Double.isNaN(cavity[i].radius())
                    && model.rotor().speed() != 0;
            if (fixed[i]) {
                bound(i, streamNumber);
            }
        }

        int count = model.passages().size();
        gap = new RunningGap[count];
        kind = new PassageType.SealKind[count];
        surfaceSpeed = new double[count];
        Passage[] built = new Passage[count];
        List<Integer> open = new ArrayList<>();
        for (int j = 0; j < count; j++) {
            PassageSpec spec = model.passages().get(j);
            built[j] = build(spec, j, types, gaps, number);
            surfaceSpeed[j] = built[j].surfaceSpeed();
            if (!spec.closed()) {
                open.add(j);
            }
        }
        links = open.size();
        specOf = new int[links];
        from = new int[links];
        to = new int[links];
        passage = new Passage[links];
        radius = new double[links];
        flowing = new boolean[links];
        stirring = new double[links];
        pickUp = new double[links];
        for (int l = 0; l < links; l++) {
            specOf[l] = open.get(l);
            PassageSpec spec = model.passages().get(specOf[l]);
            from[l] = number.get(spec.from());
            to[l] = number.get(spec.to());
            passage[l] = built[specOf[l]];
            radius[l] = spec.radius();
            pickUp[l] = spec.pickUp();
            stirring[l] = Double.isNaN(spec.stirring()) ? settings.stirring() : spec.stirring();
        }

        List<Integer> walls = new ArrayList<>();
        for (int i = 0; i < cavities; i++) {
            Cavity.Wall wall = cavity[i].wall();
            if (wall == null || !(wall.conductance() > 0)) {
                continue;
            }
            if (wall.cavity() != null) {
                Integer other = number.get(wall.cavity());
                if (other == null || other == i) {
                    throw new Refusal(
                            Reason.BAD_GEOMETRY,
                            cavity[i].name(),
                            "the wall of '" + cavity[i].name() + "' leads to '" + wall.cavity()
                                    + "', which is no other cavity of the case");
                }
                Cavity.Wall back = cavity[other].wall();
                // One wall seen from both sides counts once, as the first of the two cavities states it.
                if (back != null && cavity[i].name().equals(back.cavity()) && other < i) {
                    continue;
                }
            }
            walls.add(i);
        }
        wallAt = walls.stream().mapToInt(Integer::intValue).toArray();
        wallOther = new int[wallAt.length];
        wallConductance = new double[wallAt.length];
        wallTemperature = new double[wallAt.length];
        for (int w = 0; w < wallAt.length; w++) {
            Cavity.Wall wall = cavity[wallAt[w]].wall();
            wallOther[w] = wall.cavity() == null ? -1 : number.get(wall.cavity());
            wallConductance[w] = wall.conductance();
            wallTemperature[w] = wall.temperature();
        }

        this.dynamic = dynamic;
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        double cold = Double.POSITIVE_INFINITY;
        for (int i = 0; i < cavities; i++) {
            if (fixed[i]) {
                low = Math.min(low, boundaryState[i].pressure());
                high = Math.max(high, boundaryState[i].pressure());
                cold = Math.min(cold, boundaryState[i].temperature());
            }
        }
        coldestBoundary = cold;
        boolean spins = Arrays.stream(swirl).anyMatch(w -> w != 0);
        lowestPressure = dynamic || spins ? LEAST_PRESSURE : low / 2;
        highestPressure = dynamic ? 1e10 : high * (spins ? 1000 : 2);

        leash = new int[cavities];
        deadEnds = dynamic ? new int[0] : findDeadEnds();
        unknown = new int[cavities];
        Arrays.fill(unknown, -1);
        boolean[] dead = new boolean[cavities];
        for (int i : deadEnds) {
            dead[i] = true;
        }
        List<Integer> free = new ArrayList<>();
        for (int i = 0; i < cavities; i++) {
            if (!fixed[i] && !dead[i]) {
                unknown[i] = free.size();
                free.add(i);
            }
        }
        for (int l = 0; l < links; l++) {
            flowing[l] = !dead[from[l]] && !dead[to[l]];
        }
        cavityOf = free.stream().mapToInt(Integer::intValue).toArray();
        if (!dynamic) {
            refuseLooseParts();
        }
    }

    private double statedSwirl(Cavity c) {
        if (Double.isNaN(c.radius())) {
            return 0;
        }
        if (!Double.isNaN(c.swirlRatio())) {
            return c.swirlRatio();
        }
        return c.disc() != null ? settings.swirlRatio() : 0;
    }

    private void bound(int i, Map<String, Integer> streamNumber) {
        String stream = cavity[i].stream() == null ? Case.AIR : cavity[i].stream();
        Integer k = streamNumber.get(stream);
        if (k == null) {
            throw new Refusal(
                    Reason.BAD_GEOMETRY,
                    cavity[i].name(),
                    "the cavity '" + cavity[i].name() + "' holds the stream '" + stream
                            + "', which the case does not describe");
        }
        double[] pure = new double[streams];
        pure[k] = 1;
        boundaryFractions[i] = pure;
        boundaryFluid[i] = mixer.mix(pure);
        double temperature = cavity[i].temperature();
        if (Double.isNaN(temperature)) {
            temperature = mixer.burnerTemperature(k);
        }
        if (Double.isNaN(temperature)) {
            temperature = model.surroundings().temperature();
        }
        try {
            boundaryState[i] = boundaryFluid[i].atPressureTemperature(cavity[i].pressure(), temperature);
        } catch (PropertyException e) {
            throw new Refusal(
                    Reason.PROPERTY_OUT_OF_RANGE,
                    cavity[i].name(),
                    "the fixed state of '" + cavity[i].name() + "' cannot be computed: " + Words.of(e));
        }
    }

    private Passage build(
            PassageSpec spec,
            int j,
            Function<String, PassageType> types,
            BiFunction<PassageSpec, Rotor, RunningGap> gaps,
            Map<String, Integer> number) {
        for (String end : List.of(spec.from(), spec.to())) {
            if (!number.containsKey(end)) {
                throw new Refusal(
                        Reason.BAD_GEOMETRY,
                        end,
                        "the passage '" + spec.name() + "' leads to '" + end + "', which is no cavity of the case");
            }
        }
        if (spec.from().equals(spec.to())) {
            throw new Refusal(
                    Reason.BAD_GEOMETRY,
                    spec.from(),
                    "the passage '" + spec.name() + "' begins and ends in '" + spec.from() + "'");
        }
        PassageType type = types.apply(spec.type());
        if (type == null) {
            throw new Refusal(
                    Reason.BAD_GEOMETRY,
                    spec.from(),
                    "the passage '" + spec.name() + "' is of the unknown type '" + spec.type() + "'");
        }
        try {
            kind[j] = type.kind();
            gap[j] = gaps.apply(spec, model.rotor());
            Conditions.Bound end = settings.bounds().getOrDefault(spec.name(), settings.bound());
            return type.build(
                    spec,
                    new Conditions(model.rotor().speed(), gap[j] == null ? spec.clearance() : gap[j].mean(), end));
        } catch (IllegalArgumentException e) {
            throw new Refusal(
                    Reason.BAD_GEOMETRY,
                    spec.from(),
                    "the passage '" + spec.name() + "' cannot be built: " + e.getMessage());
        }
    }

    /**
     * Temperature (K) at which a cavity is held rather than made hotter: a little inside what the fluid's equations give, so that
     * passages and slopes find states beside it. NaN over time, where a run ends at the range's end itself.
     */
    double hottest(Fluid fluid) {
        return dynamic ? Double.NaN : LIMIT_SHARE * fluid.hottest();
    }

    /**
     * The same at the cold end: far below all that goes in, and so far above the equations' end that what expands from there still has
     * a state.
     */
    double coldest(Fluid fluid) {
        return dynamic ? Double.NaN : Math.max(fluid.coldest() / LIMIT_SHARE, COLD_SHARE * coldestBoundary);
    }

    /** True when heat is put into the cavity by something that does not flow. */
    boolean heated(int i) {
        if (cavity[i].disc() != null && model.rotor().speed() != 0) {
            return true;
        }
        for (int w = 0; w < wallAt.length; w++) {
            if (wallAt[w] == i || wallOther[w] == i) {
                return true;
            }
        }
        return false;
    }

    private boolean walled(int i) {
        for (int w = 0; w < wallAt.length; w++) {
            if (wallAt[w] == i || wallOther[w] == i) {
                return true;
            }
        }
        return false;
    }

    /**
     * Free cavities that hang on the rest by one cavity only: nothing can flow into them in a steady state, and they have the
     * pressure, the enthalpy and the mixture of the cavity they hang on. In the order from there outward; {@code leash} is filled.
     */
    private int[] findDeadEnds() {
        Arrays.fill(leash, -1);
        boolean[] dead = new boolean[cavities];
        int[][] at = linksAt();
        for (int neck = 0; neck < cavities; neck++) {
            if (!dead[neck] && (at[neck].length > 0)) {
                hangOn(neck, at, dead);
            }
        }
        List<Integer> order = new ArrayList<>();
        Deque<Integer> queue = new ArrayDeque<>();
        for (int i = 0; i < cavities; i++) {
            if (!dead[i]) {
                queue.add(i);
            }
        }
        while (!queue.isEmpty()) {
            int i = queue.poll();
            for (int l : at[i]) {
                int other = from[l] == i ? to[l] : from[l];
                if (dead[other] && leash[other] < 0) {
                    leash[other] = l;
                    order.add(other);
                    queue.add(other);
                }
            }
        }
        return order.stream().mapToInt(Integer::intValue).toArray();
    }

    /** Links of each cavity, flowing or not. */
    int[][] linksAt() {
        List<List<Integer>> at = new ArrayList<>();
        for (int i = 0; i < cavities; i++) {
            at.add(new ArrayList<>());
        }
        for (int l = 0; l < links; l++) {
            at.get(from[l]).add(l);
            at.get(to[l]).add(l);
        }
        int[][] result = new int[cavities][];
        for (int i = 0; i < cavities; i++) {
            result[i] = at.get(i).stream().mapToInt(Integer::intValue).toArray();
        }
        return result;
    }

    /** Marks the parts that hang on {@code neck} alone. */
    private void hangOn(int neck, int[][] at, boolean[] dead) {
        boolean[] seen = new boolean[cavities];
        seen[neck] = true;
        for (int first : at[neck]) {
            int start = from[first] == neck ? to[first] : from[first];
            if (seen[start] || dead[start]) {
                continue;
            }
            // A long way round to a given pressure is found early; only a part without one is walked to its end.
            List<Integer> part = new ArrayList<>();
            Deque<Integer> queue = new ArrayDeque<>();
            queue.add(start);
            boolean given = fixed[start];
            seen[start] = true;
            while (!queue.isEmpty() && !given) {
                int i = queue.poll();
                part.add(i);
                for (int l : at[i]) {
                    int other = from[l] == i ? to[l] : from[l];
                    if (fixed[other] && other != neck) {
                        given = true;
                    } else if (!seen[other]) {
                        seen[other] = true;
                        queue.add(other);
                    }
                }
            }
            if (!given && still(neck, part, at)) {
                part.forEach(i -> dead[i] = true);
            }
            if (given) {
                // What is left of this part has been seen in vain by other starts: it leads to a given pressure as
                // well.
                spread(queue, at, seen, neck);
            }
        }
    }

    private void spread(Deque<Integer> queue, int[][] at, boolean[] seen, int neck) {
        while (!queue.isEmpty()) {
            int i = queue.poll();
            if (fixed[i]) {
                continue;
            }
            for (int l : at[i]) {
                int other = from[l] == i ? to[l] : from[l];
                if (!seen[other] && other != neck) {
                    seen[other] = true;
                    queue.add(other);
                }
            }
        }
    }

    /** True when nothing drives a flow inside a part that hangs on one cavity: no heat, and no spinning loop. */
    private boolean still(int neck, List<Integer> part, int[][] at) {
        boolean spins = swirl[neck] != 0;
        int ends = 0;
        int hot = -1;
        boolean walls = false;
        for (int i : part) {
            spins |= swirl[i] != 0;
            ends += at[i].length;
            hot = heated(i) ? i : hot;
            walls |= walled(i);
        }
        if (hot >= 0 && !walls) {
            throw new Refusal(
                    Reason.BAD_GEOMETRY,
                    cavity[hot].name(),
                    "'" + cavity[hot].name()
                            + "' is a dead end that a disc's windage heats, and nothing flows through it to "
                            + "carry the heat away; give it a wall or a second passage");
        }
        int necks = 0;
        for (int l : at[neck]) {
            int other = from[l] == neck ? to[l] : from[l];
            necks += part.contains(other) ? 1 : 0;
        }
        // Each inner link has two ends here, each link to the neck one; a tree has as many links as cavities.
        boolean tree = (ends - necks) / 2 + necks == part.size();
        return hot < 0 && (tree || !spins);
    }

    private void refuseLooseParts() {
        boolean[] reached = new boolean[cavities];
        Deque<Integer> queue = new ArrayDeque<>();
        for (int i = 0; i < cavities; i++) {
            if (fixed[i]) {
                reached[i] = true;
                queue.add(i);
            }
        }
        while (!queue.isEmpty()) {
            int i = queue.poll();
            for (int l = 0; l < links; l++) {
                int other = from[l] == i ? to[l] : to[l] == i ? from[l] : -1;
                if (other >= 0 && !reached[other]) {
                    reached[other] = true;
                    queue.add(other);
                }
            }
        }
        for (int i = 0; i < cavities; i++) {
            if (!reached[i]) {
                throw new Refusal(
                        Reason.ISOLATED_CAVITY,
                        cavity[i].name(),
                        "no open passage leads from '" + cavity[i].name()
                                + "' to a cavity of given pressure, so that its pressure is undetermined");
            }
        }
    }

    /** What flows through a link between two states, and counts it. */
    PassageFlow flow(int l, FluidState atFrom, FluidState atTo) {
        work++;
        return passage[l].flow(atFrom, atTo);
    }
}
