package purgewright.sealflow.campaign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;

/**
 * The case at every moment of a duty. Streams, valves and what is fixed change at a phase's start; pressures, temperatures, speed,
 * clearances and the passages' own numbers go linearly from those before to the phase's own within its ramp. A history drives its
 * places from the phase's start on, whatever the ramp says; before its first and after its last time it holds.
 */
public final class DutyClock {
    /** Points kept of a history of a million rows: more would not be seen in a plot. */
    static final int MOST_BREAKS = 60;

    /** A history's bends smaller than this share of its own range are not moments of their own. */
    private static final double BEND = 0.01;

    private final List<Leg> legs;
    private final double[] start;
    private final Case[] before;
    private final List<List<CaseValue>> driven = new ArrayList<>();

    /** @param legs in order, at least one */
    public DutyClock(List<Leg> legs) {
        if (legs.isEmpty()) {
            throw new IllegalArgumentException("a duty needs at least one phase");
        }
        this.legs = List.copyOf(legs);
        start = new double[legs.size() + 1];
        before = new Case[legs.size()];
        for (int i = 0; i < legs.size(); i++) {
            Leg leg = legs.get(i);
            start[i + 1] = start[i] + leg.duration();
            List<CaseValue> places = new ArrayList<>();
            for (Channel c : leg.history()) {
                CaseValue value = CaseValue.find(leg.model(), c.place());
                if (value == null) {
                    throw new IllegalArgumentException(
                            "phase " + leg.name() + ": " + c.place() + " is no number of the case that can be driven");
                }
                places.add(value);
            }
            driven.add(List.copyOf(places));
            before[i] = i == 0 ? leg.model() : at(i - 1, legs.get(i - 1).duration());
        }
    }

    /** The phases. */
    public List<Leg> legs() {
        return legs;
    }

    /** When a phase begins, s; for the number of phases, the end of the last. */
    public double start(int leg) {
        return start[leg];
    }

    /** The case a time after a phase's start, s. */
    public Case at(int leg, double since) {
        Leg l = legs.get(leg);
        Case c = l.model();
        if (l.ramp() > 0 && since < l.ramp() && leg > 0) {
            c = between(before[leg], c, Math.max(0, since / l.ramp()));
        }
        for (int k = 0; k < l.history().size(); k++) {
            c = driven.get(leg).get(k).set(c, l.history().get(k).at(since));
        }
        return c;
    }

    /** The regulator's set pressure a time after a phase's start, Pa; NaN without a regulator. */
    public double setPressure(int leg, double since) {
        Leg l = legs.get(leg);
        double own = l.setPressure();
        for (Channel c : l.history()) {
            if (c.place().equals("/supply/regulator/set pressure")) {
                return c.at(since);
            }
        }
        if (leg == 0 || !(l.ramp() > 0) || since >= l.ramp()) {
            return own;
        }
        double last = setPressure(leg - 1, legs.get(leg - 1).duration());
        return last + (own - last) * Math.max(0, since / l.ramp());
    }

    /** True when a phase shuts or opens a passage, or changes what a cavity is fixed to, against the one before. */
    public boolean jumps(int leg) {
        if (leg == 0) {
            return false;
        }
        Case a = before[leg];
        Case b = at(leg, 0);
        for (int i = 0; i < b.passages().size(); i++) {
            if (a.passages().get(i).closed() != b.passages().get(i).closed()) {
                return true;
            }
        }
        return false;
    }

    /** Moments within a phase at which something bends: the ramp's end, the corners of a history; ascending, both ends left out. */
    public List<Double> breaks(int leg) {
        Leg l = legs.get(leg);
        TreeSet<Double> out = new TreeSet<>();
        if (leg > 0 && l.ramp() > 0) {
            out.add(l.ramp());
        }
        for (Channel c : l.history()) {
            out.addAll(corners(c, l.duration()));
        }
        return out.stream().filter(t -> t > 0 && t < l.duration()).toList();
    }

    /** True when boundary values move within the phase. */
    public boolean moves(int leg) {
        return (leg > 0 && legs.get(leg).ramp() > 0) || !legs.get(leg).history().isEmpty();
    }

    /**
     * The points that draw a curve: greatest distance from the chord first (Ramer, Douglas, Peucker), until the distance is below a
     * hundredth of its range.
     */
    static List<Double> corners(Channel c, double duration) {
        int n = c.size();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            low = Math.min(low, c.value(i));
            high = Math.max(high, c.value(i));
        }
        double limit = BEND * (high - low);
        TreeSet<Integer> kept = new TreeSet<>(List.of(0, n - 1));
        while (kept.size() < MOST_BREAKS) {
            int worst = -1;
            double most = limit;
            Integer a = kept.first();
            for (Integer b = kept.higher(a); b != null; a = b, b = kept.higher(a)) {
                double span = c.time(b) - c.time(a);
                for (int i = a + 1; i < b; i++) {
                    double share = span > 0 ? (c.time(i) - c.time(a)) / span : 0.5;
                    double d = Math.abs(c.value(i) - c.value(a) - share * (c.value(b) - c.value(a)));
                    if (d > most) {
                        most = d;
                        worst = i;
                    }
                }
            }
            if (worst < 0) {
                break;
            }
            kept.add(worst);
        }
        List<Double> times = new ArrayList<>();
        for (int i : kept) {
            if (c.time(i) < duration) {
                times.add(c.time(i));
            }
        }
        return times;
    }

    private static Case between(Case a, Case b, double share) {
        List<Cavity> cavities = new ArrayList<>();
        for (int i = 0; i < b.cavities().size(); i++) {
            Cavity x = a.cavities().get(i);
            Cavity y = b.cavities().get(i);
            cavities.add(
                    x.fixed() && y.fixed()
                            ? CaseValue.state(
                                    y,
                                    mix(x.pressure(), y.pressure(), share),
                                    mix(x.temperature(), y.temperature(), share))
                            : y);
        }
        List<PassageSpec> passages = new ArrayList<>();
        for (int i = 0; i < b.passages().size(); i++) {
            passages.add(between(a.passages().get(i), b.passages().get(i), share));
        }
        return CaseValue.parts(b, between(a.rotor(), b.rotor(), share), List.copyOf(cavities), List.copyOf(passages));
    }

    private static Rotor between(Rotor a, Rotor b, double share) {
        List<Rotor.Segment> segments = new ArrayList<>();
        for (int i = 0; i < b.segments().size(); i++) {
            Rotor.Segment x = a.segments().get(i);
            Rotor.Segment y = b.segments().get(i);
            segments.add(new Rotor.Segment(
                    y.name(),
                    y.boreRadius(),
                    y.outerRadius(),
                    mix(x.temperature(), y.temperature(), share),
                    y.modulus(),
                    y.poisson(),
                    y.density(),
                    y.expansion(),
                    y.thin()));
        }
        return new Rotor(
                mix(a.speed(), b.speed(), share),
                b.whirl(),
                b.bearingPlay(),
                b.runOut(),
                b.offset(),
                b.tolerance(),
                b.thrustMovement(),
                List.copyOf(segments));
    }

    private static PassageSpec between(PassageSpec a, PassageSpec b, double share) {
        if (a.equals(b)) {
            return b;
        }
        Map<String, Object> fields = new LinkedHashMap<>(b.fields());
        b.fields().forEach((name, value) -> {
            if (value instanceof Double y && a.fields().get(name) instanceof Double x) {
                fields.put(name, mix(x, y, share));
            }
        });
        return CaseValue.copy(
                b,
                mix(a.clearance(), b.clearance(), share),
                mix(a.clearanceGrowth(), b.clearanceGrowth(), share),
                mix(a.calibrationFactor(), b.calibrationFactor(), share),
                b.closed(),
                fields);
    }

    private static double mix(double a, double b, double share) {
        if (Double.isNaN(a) || Double.isNaN(b)) {
            return b;
        }
        return a + share * (b - a);
    }
}
