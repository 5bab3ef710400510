package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.phase.QuickLog;
import purgewright.fluids.phase.StateBuffer;

/**
 * States near one line of constant enthalpy, from some ten to fifty states of the fluid: what the chambers and jets of a labyrinth are asked
 * for over and over.
 *
 * <p>On the line all is polynomial: v, s, T, w^2 in p for a liquid, p v, s, T, w^2 and quality in ln p for the dome and for gas, through
 * Chebyshev-Lobatto points. Off the line, at given pressure, v and quality are linear in h, with {@code dv/dh = -(dv0/dp + v^2/w^2)/v} from
 * the line itself; {@code h = h0 + T ds + T ds^2 / (2 cp)} for a liquid and {@code h0 + T ds} in the dome. In the dome of a pure fluid this is
 * exact; a liquid's jet stays so near the line (some kJ/kg) that it is good to 1e-4.
 *
 * <p>A wet mixture warms with enthalpy at a pressure: {@code h = h0 + cp T (exp(k ds/cp) - 1)}; cp, k (the slope of h with s over T, off 1
 * where the mixture's own laws are no exact thermodynamics) and dv/dh come from states 500 J/kg beside the line at three places. Gas likewise,
 * with k = 1 and {@code 1/cp = (T dv/dh - dT/dp) / v}. Fluxes are within 0.3 % of those of the mixture itself, half of them within 1e-5.
 *
 * <p>Where no one polynomial will do from end to end (a component of a mixture that is used up or begins to condense on the way; a range
 * near the critical point) a mixture's line is a chain of pieces. A corner between two pieces lies where their volumes cross. Off the line it
 * lies elsewhere: there the larger volume counts, or the smaller, as it does on the line, each piece going straight on beyond its corner.
 * Fluxes are within 1 % then, half of them within 1e-4; where a chamber is just about to dry, within 2 %.
 *
 * <p>Where the line dries, jets of the dry chambers meet the dome again beside it, however far below the corner. The piece that dries goes on
 * there by states of that dome: half way between the dew line and the jet that starts at the corner. Labyrinths that dry are within 0.7 %.
 * Where a gas's line condenses, its jets do so before it, and the piece that is wet goes on above its points likewise. Of such labyrinths half are
 * within 4e-5 and nine in ten within 0.1 %.
 *
 * <p>Below the lowest point the line goes on straight in ln p. Refused for light liquids, for gases that stay gas, and where twelve pieces
 * do not do. Not shared between threads, and used again and again: {@link #set} begins a new line.
 */
final class LineStates implements StateSource {
    /** How far beside the line a mixture's states are taken, J/kg. */
    static final double BESIDE = 500;

    private static final double FIT = 1e-6;
    /** Least relative span of the liquid's points. */
    private static final double LEAST_SPAN = 1e-4;
    /** Cosines of the liquid's points, those of four first. */
    private static final double[] LIQUID_PLACE = {
        1, -1, 0.5, -0.5, Math.cos(Math.PI / 6), 0, -Math.cos(Math.PI / 6),
    };

    private static final int VOLUME = 0;
    private static final int ENTROPY = 1;
    private static final int TEMPERATURE = 2;
    private static final int SOUND = 3;
    private static final int QUALITY = 4;

    private static final int QUALITY_SLOPE = 0;
    private static final int WARMING = 1;
    private static final int HEAT = 2;
    private static final int GROWTH = 3;

    private static final int MOST_PIECES = 12;
    /** Points of the dome beside a line that has dried. */
    private static final int SHADE = 5;

    /** Width in ln p within which a corner is closed in on by states; the rest of the way the pieces' volumes tell. */
    private static final double CORNER = 2e-3;
    /** Step of ln w^2 beyond what the slopes beside it explain that is taken for a corner. */
    private static final double STEP = 0.02;

    /** How far from a corner, in ln p, the piece beyond it is looked at. */
    private static final double NEIGHBOUR = 0.3;

    private final FluidSource source = new FluidSource();
    private final StateBuffer at = new StateBuffer();
    private final StateBuffer first = new StateBuffer();
    private final StateBuffer low = new StateBuffer();
    private final DomeEdge dome = new DomeEdge();
    private final Piece[] piece = new Piece[MOST_PIECES];
    private int count;
    /** The dome beside the line where that has dried: what the piece that dries goes on as below its points. */
    private final Piece shade = new Piece();

    /** Pressure below which that is so. */
    private double shadeTop;

    /** The dome beside a gas's line before that condenses: what the piece that is wet goes on as above its points. */
    private final Piece haze = new Piece();

    /** Number of the piece that is wet then; 0 where there is none. */
    private int hazed;

    /** Pressures between which that is so: jets from the line's start condense at the upper one. */
    private double hazeTop;

    private double hazeBottom;

    private FluidState up;
    private double enthalpy;
    /** Whether temperature stays as enthalpy changes at a pressure in the dome. */
    private boolean pure;
    /** Whether it may be of several pieces. */
    private boolean chains;
    /** Pressure that the pieces in ln p count from. */
    private double top;

    // Answers of a piece.
    private double volume;
    private double temperature;
    private double shift;
    private double entropy;

    /** One stretch of the line. */
    private static final class Piece {
        final double[] node = new double[SlotPath.PLACE.length];
        final double[][] term = new double[5][SlotPath.PLACE.length];
        int size;
        Phase phase;
        /** Whether its polynomials are in p, else in ln(p / top). */
        boolean liquid;
        /** Highest and lowest of its points, in its own coordinate. */
        double high;

        double low;
        /** Pressure from which on downwards it holds. */
        double from;
        /** Its logarithm over the pressure that the pieces count from. */
        double fromLog;
        /** Which volume counts where it meets the piece before: 1 the larger, -1 the smaller, 0 as the pressure says. */
        int larger;
        /** By how much ln p of that corner moves with enthalpy beside the line, kg/J. */
        double move;
        /** Whether its temperature follows the enthalpy at given pressure. */
        boolean warms;
        /** Of a liquid. */
        double heatCapacity;

        /** Answers of {@link #beside}. */
        double pv;

        double pvSlope;
        double lift;
        double liftSlope;

        double shiftHigh;
        double shiftLow;
        /** Of a wet piece, by parabolas in ln(p / top): dq/dh; of a mixture dT/dh, (dh/ds)/T and dv/dh over what the line tells, all at constant pressure. */
        final double[][] off = new double[4][3];

        double middle;
        /** Whether it goes on as the dome beside the line. */
        boolean shaded;
        /** Whether it is that dome, whose p v is that of no states: then GROWTH is p dv/dh itself. */
        boolean shade;

        double off(int what, double x) {
            double[] t = off[what];
            double y = x - high;
            return t[0] + y * (t[1] + (y - middle) * t[2]);
        }

        double offSlope(int what, double x) {
            double[] t = off[what];
            return t[1] + (2 * (x - high) - middle) * t[2];
        }

        double value(int what, double x) {
            double[] t = term[what];
            double y = t[size - 1];
            for (int k = size - 2; k >= 0; k--) {
                y = y * (x - node[k]) + t[k];
            }
            return y;
        }

        double slope(int what, double x) {
            double[] t = term[what];
            double y = t[size - 1];
            double dy = 0;
            for (int k = size - 2; k >= 0; k--) {
                double d = x - node[k];
                dy = dy * d + y;
                y = y * d + t[k];
            }
            return dy;
        }

        /** dv/dh at constant pressure as the line tells it, not of a liquid. */
        double growth(double x, double p) {
            double pv = value(VOLUME, x);
            double v = pv / p;
            return -((slope(VOLUME, x) - pv) / (p * p * v) + v / Math.max(1, value(SOUND, x)));
        }

        /** Straight on beyond its points: polynomials through points far off say nothing. */
        double straight(int what, double held, double x) {
            double y = value(what, held);
            return x == held ? y : y + (x - held) * slope(what, held);
        }
    }

    LineStates() {
        for (int i = 0; i < piece.length; i++) {
            piece[i] = new Piece();
        }
    }

    /** Begins the line of a liquid or two-phase fluid down to a pressure; false where it is not to be had this way. */
    boolean set(FluidState from, double down) {
        boolean wet = from.phase() == Phase.TWO_PHASE;
        if (!wet && !(from.density() > 1.8 * from.fluid().criticalDensity())) {
            return false;
        }
        begin(from);
        try {
            boolean known = wetOrLiquid(wet, down);
            if (known) {
                lookBeside();
            }
            return known;
        } catch (PropertyException e) {
            return false;
        }
    }

    /** Begins that of a gas which condenses on the way. */
    boolean setCondensing(FluidState from, double down) {
        if (from.phase() == Phase.TWO_PHASE || Throttle.dense(from)) {
            return false;
        }
        begin(from);
        try {
            boolean known = gas(down);
            if (known) {
                lookBeside();
            }
            return known;
        } catch (PropertyException e) {
            return false;
        }
    }

    /** Begins the part from a state in the dome down to a pressure, in pieces where it dries on the way. */
    boolean setWet(FluidState from, StateBuffer edge, double lowest) {
        begin(from);
        chains = true;
        top = edge.pressure();
        first.set(edge);
        try {
            return through(lowest);
        } catch (PropertyException e) {
            return false;
        }
    }

    /** p v on the line, J/kg, and p dv/dh beside it at a pressure, with their derivatives by ln p; answers of {@link #atFlux} and {@link #atShift}. */
    double work;

    double workSlope;
    double lift;
    double liftSlope;

    /** Looks at the line's piece that counts at a pressure for what flows with a flux, of which G^2 is given: {@code dh = -(G v)^2 / 2}. */
    void atFlux(double p, double flux2) {
        look(chooseBeside(p, Double.NaN, flux2), p);
    }

    /** Looks at the line's piece that counts at a pressure and so much enthalpy beside the line. */
    void atShift(double p, double dh) {
        look(chooseBeside(p, dh, 0), p);
    }

    private void look(int chosen, double p) {
        // Looked at already, to be chosen.
        Piece here = piece[chosen];
        double y = QuickLog.of(p / top);
        double within = within(here, y);
        work = here.pv + (y - within) * here.pvSlope;
        workSlope = here.pvSlope;
        lift = here.lift;
        liftSlope = y == within ? here.liftSlope : 0;
    }

    /**
     * p v of a piece at a place within its points and p dv/dh at constant pressure, with their derivatives by ln p: with w = p v, its derivative w'
     * and the square c of the sound speed
     *
     * <pre>{@code p dv/dh = 1 - w'/w - w/c}</pre>
     *
     * from the line itself, times what states beside it say of a mixture.
     */
    private static void beside(Piece here, double y) {
        double[] t = here.term[VOLUME];
        double[] u = here.term[SOUND];
        int last = here.size - 1;
        double w = t[last];
        double dw = 0;
        double ddw = 0;
        double c = u[last];
        double dc = 0;
        for (int k = last - 1; k >= 0; k--) {
            double d = y - here.node[k];
            ddw = ddw * d + 2 * dw;
            dw = dw * d + w;
            w = w * d + t[k];
            dc = dc * d + c;
            c = c * d + u[k];
        }
        if (c < 1) {
            c = 1;
            dc = 0;
        }
        here.pv = w;
        here.pvSlope = dw;
        if (here.shade) {
            // Its p v is that of no states, which could tell the lift.
            here.lift = here.off(GROWTH, y);
            here.liftSlope = here.offSlope(GROWTH, y);
            return;
        }
        double lift = 1 - dw / w - w / c;
        double slope = -ddw / w + dw * dw / (w * w) - dw / c + w * dc / (c * c);
        if (here.warms && here.phase == Phase.TWO_PHASE) {
            double factor = here.off(GROWTH, y);
            slope = slope * factor + lift * here.offSlope(GROWTH, y);
            lift *= factor;
        }
        here.lift = lift;
        here.liftSlope = slope;
    }

    /** p dv/dh at constant pressure beside the line, of a piece in ln p: that at the end of its points beyond them. */
    private double lift(Piece here, double y) {
        beside(here, within(here, y));
        return here.lift;
    }

    /** The place within a piece's points that a coordinate goes straight on from. */
    private double within(Piece here, double y) {
        return Math.max(here == piece[0] ? y : Math.min(y, here.high), here.low);
    }

    private void begin(FluidState from) {
        up = from;
        enthalpy = from.enthalpy();
        source.from(from);
        pure = from.fluid() instanceof PureFluid;
        chains = !pure;
        count = 0;
        hazed = 0;
    }

    private boolean wetOrLiquid(boolean wet, double down) {
        if (wet) {
            top = up.pressure();
            first.set(up);
            return through(Math.max(0.6 * down, 0.04 * top));
        }
        if (!known(down, low)) {
            return false;
        }
        if (low.phase() != Phase.TWO_PHASE) {
            return low.density() > 1.8 * source.criticalDensity() && liquid(low);
        }
        first.set(up);
        dome.find(first, low, source, false, enthalpy);
        top = dome.edge.pressure();
        if (!known(top * (1 - 1e-6), first)
                || first.phase() != Phase.TWO_PHASE
                || !(dome.edge.density() > 1.8 * source.criticalDensity())) {
            return false;
        }
        // The last states that are named liquid hold a trace of vapour where several liquids boil: the liquid's points
        // keep off them.
        boolean whole = pure ? liquid(dome.edge) : known(top * (1 + LEAST_SPAN), low) && liquid(low);
        return whole && through(Math.max(0.6 * down, 0.04 * top));
    }

    /** A gas that condenses on the way. */
    private boolean gas(double down) {
        top = up.pressure();
        first.set(up);
        return known(down, low)
                && low.phase() == Phase.TWO_PHASE
                && through(Math.max(0.6 * down, 0.04 * top))
                // A start just above its dew line would be taken for wet.
                && piece[0].phase != Phase.TWO_PHASE;
    }

    private boolean known(double p, StateBuffer out) {
        return source.atPressureEnthalpy(p, enthalpy, out);
    }

    private boolean liquid(StateBuffer end) {
        Piece here = piece[count];
        double p1 = end.pressure();
        // Differences of states nearer than that are noise: then the points begin above the upstream pressure.
        double p0 = Math.max(up.pressure(), (1 + LEAST_SPAN) * p1);
        double half = 0.5 * (p0 - p1);
        int most = LIQUID_PLACE.length;
        for (int j = 0; j < most; j++) {
            double p = j == 0 ? p0 : j == 1 ? p1 : p1 + half * (1 + LIQUID_PLACE[j]);
            if (p == up.pressure()) {
                at.set(up);
            } else if (j == 1) {
                at.set(end);
            } else if (!known(p, at)) {
                return false;
            }
            if (at.phase() == Phase.TWO_PHASE) {
                return false;
            }
            here.node[j] = p;
            here.term[VOLUME][j] = 1 / at.density();
            sample(here, j);
            double size = 2 * Math.pow(0.5 * half, j);
            boolean enough = Math.abs(here.term[VOLUME][j]) * size < FIT * here.term[VOLUME][0]
                    && Math.abs(here.term[SOUND][j]) * size < 1e-2 * here.term[SOUND][0];
            if ((j == 3 || j == most - 1) && (enough || half < 1e-6 * p0)) {
                here.size = j + 1;
                here.liquid = true;
                here.shaded = false;
                here.phase = up.phase();
                here.high = p0;
                here.low = p1;
                here.from = p0;
                here.larger = 0;
                here.heatCapacity = up.cp();
                here.shiftHigh = liquidShift(here, p0);
                here.shiftLow = half > 1e-3 * p0 ? liquidShift(here, p1) : here.shiftHigh;
                count++;
                return here.heatCapacity > 0;
            }
        }
        return false;
    }

    /** The values of the state in the buffer but the volume, then Newton's divided differences of all. */
    private void sample(Piece here, int j) {
        here.term[ENTROPY][j] = at.entropy();
        here.term[TEMPERATURE][j] = at.temperature();
        here.term[SOUND][j] = at.soundSpeed() * at.soundSpeed();
        here.term[QUALITY][j] = at.quality();
        for (double[] each : here.term) {
            difference(here.node, each, j);
        }
    }

    /** dv/dh at constant pressure. */
    private static double liquidShift(Piece here, double p) {
        double v = here.value(VOLUME, p);
        double dv = here.slope(VOLUME, p);
        return -(dv / v + v / here.value(SOUND, p));
    }

    /** From the pressure {@code top}, whose state is in {@code first}, to the lowest one: in one piece, else in several. */
    private boolean through(double lowest) {
        double end = Math.log(Math.min(lowest, 0.98 * top) / top);
        int before = count;
        if (!chains) {
            boolean whole = fit(first, 0, end);
            piece[before].from = top;
            piece[before].larger = 1;
            return whole;
        }
        if (!cover(0, end, 0)) {
            return false;
        }
        for (int i = before; i < count; i++) {
            join(i, before);
        }
        return true;
    }

    /** A polynomial through 5, 9 or 17 points of one phase between two places; false where it will not do. */
    private boolean fit(StateBuffer start, double high, double end) {
        if (count == piece.length) {
            return false;
        }
        Piece here = piece[count];
        int most = SlotPath.PLACE.length;
        double half = 0.5 * (end - high);
        double least = Double.POSITIVE_INFINITY;
        here.size = 0;
        for (int j = 0; j < most; j++) {
            double y = j == 0 ? high : j == 1 ? end : high + half * (1 - SlotPath.PLACE[j]);
            double p = top * Math.exp(y);
            if (j == 0) {
                at.set(start);
                here.phase = at.phase();
            } else if (!known(p, at)) {
                return false;
            }
            note(j, y);
            if (at.phase() != here.phase || (!chains && at.phase() != Phase.TWO_PHASE)) {
                return false;
            }
            double pv = p / at.density();
            least = Math.min(least, pv);
            here.node[j] = y;
            here.term[VOLUME][j] = pv;
            if (j < 3 && here.phase == Phase.TWO_PHASE) {
                byEnthalpy(here, j, p);
            }
            sample(here, j);
            boolean enough = 2 * Math.abs(here.term[VOLUME][j]) * Math.pow(-0.5 * half, j) < FIT * least;
            if ((j == 4 || j == 8 || j == 16) && enough) {
                here.size = j + 1;
                here.liquid = false;
                here.high = high;
                here.low = end;
                here.warms = !pure || here.phase != Phase.TWO_PHASE;
                here.shaded = false;
                here.middle = half;
                if (here.phase == Phase.TWO_PHASE) {
                    offTheLine(here, high, end, half);
                }
                count++;
                return true;
            }
        }
        return false;
    }

    /** How the state in the buffer, which is left as it is, changes with enthalpy at its pressure. */
    private void byEnthalpy(Piece here, int j, double p) {
        double step = -BESIDE;
        source.atPressureEnthalpy(p, enthalpy + step, low);
        if (low.phase() != Phase.TWO_PHASE) {
            step = BESIDE;
            source.atPressureEnthalpy(p, enthalpy + step, low);
        }
        here.off[QUALITY_SLOPE][j] = (low.quality() - at.quality()) / step;
        if (!pure) {
            here.off[WARMING][j] = Math.max(0, (low.temperature() - at.temperature()) / step);
            double mean = 0.5 * (low.temperature() + at.temperature());
            here.off[HEAT][j] = step / ((low.entropy() - at.entropy()) * mean);
            here.off[GROWTH][j] = (1 / low.density() - 1 / at.density()) / step;
        }
    }

    /** Parabolas through what {@link #byEnthalpy} found at both ends and in the middle. */
    private void offTheLine(Piece here, double high, double end, double half) {
        if (!pure) {
            for (int j = 0; j < 3; j++) {
                here.off[GROWTH][j] /= here.growth(here.node[j], top * Math.exp(here.node[j]));
            }
        }
        parabolas(here, high, end, half);
    }

    private static void parabolas(Piece here, double high, double end, double half) {
        for (double[] t : here.off) {
            double first1 = (t[2] - t[0]) / half;
            double whole = (t[1] - t[0]) / (end - high);
            t[1] = first1;
            t[2] = (whole - first1) / (end - high - half);
        }
    }

    // What the last fit has seen, by falling pressure.
    private final double[] seen = new double[SlotPath.PLACE.length];
    private final double[] seenSound = new double[SlotPath.PLACE.length];
    private final boolean[] seenWet = new boolean[SlotPath.PLACE.length];
    private int looks;

    private void note(int j, double y) {
        looks = j == 0 ? 0 : looks;
        int i = looks++;
        while (i > 0 && seen[i - 1] < y) {
            seen[i] = seen[i - 1];
            seenSound[i] = seenSound[i - 1];
            seenWet[i] = seenWet[i - 1];
            i--;
        }
        seen[i] = y;
        seenSound[i] = 2 * Math.log(at.soundSpeed());
        seenWet[i] = at.phase() == Phase.TWO_PHASE;
    }

    /** Pieces from one place down to another. */
    private boolean cover(double high, double end, int depth) {
        if (depth > MOST_PIECES || (high != 0 && !known(top * Math.exp(high), first))) {
            return false;
        }
        if (fit(first, high, end)) {
            return true;
        }
        if (count == piece.length || looks < 2) {
            return false;
        }
        int i = corner();
        if (i < 0) {
            return halves(high, end, depth);
        }
        double above = seen[i];
        double below = seen[i + 1];
        double aboveSound = seenSound[i];
        double belowSound = seenSound[i + 1];
        boolean aboveWet = seenWet[i];
        boolean change = aboveWet != seenWet[i + 1];
        while (above - below > CORNER) {
            double y = 0.5 * (above + below);
            if (!known(top * Math.exp(y), at)) {
                return false;
            }
            double sound = 2 * Math.log(at.soundSpeed());
            boolean wet = at.phase() == Phase.TWO_PHASE;
            boolean onThisSide = change ? wet == aboveWet : Math.abs(sound - aboveSound) < Math.abs(sound - belowSound);
            if (onThisSide) {
                above = y;
                aboveSound = sound;
            } else {
                below = y;
                belowSound = sound;
            }
        }
        if (!change && (high - above < CORNER || below - end < CORNER)) {
            return halves(high, end, depth); // a steep end, no corner
        }
        boolean leading = high - above < 1e-9 || cover(high, above, depth + 1);
        return leading && (below - end < 1e-9 || cover(below, end, depth + 1));
    }

    private boolean halves(double high, double end, int depth) {
        double middle = 0.5 * (high + end);
        return middle - end > 1e-3 && cover(high, middle, depth + 1) && cover(middle, end, depth + 1);
    }

    /**
     * The point seen before the first change of phase, else before the step of the sound speed that its neighbours' slopes explain least; -1
     * where there is none.
     */
    private int corner() {
        int largest = -1;
        double most = STEP;
        for (int i = 0; i + 1 < looks; i++) {
            if (seenWet[i] != seenWet[i + 1]) {
                return i;
            }
            double before = i > 0 ? soundSlope(i - 1) : soundSlope(Math.min(i + 1, looks - 2));
            double after = i + 2 < looks ? soundSlope(i + 1) : before;
            double step = Math.abs(soundSlope(i) - 0.5 * (before + after)) * (seen[i] - seen[i + 1]);
            if (looks > 3 && step > most) {
                most = step;
                largest = i;
            }
        }
        return largest;
    }

    private double soundSlope(int i) {
        return (seenSound[i] - seenSound[i + 1]) / (seen[i] - seen[i + 1]);
    }

    /** Where a piece takes over from the one before, and whose volume counts near there. */
    private void join(int i, int before) {
        Piece here = piece[i];
        if (i == 0 || (i == before && piece[i - 1].liquid)) {
            here.fromLog = 0;
            here.from = top;
            here.larger = 1;
            return;
        }
        Piece last = piece[i - 1];
        if (last.low - here.high < 1e-12) {
            here.fromLog = here.high;
            here.from = top * Math.exp(here.high);
            here.larger = 0;
            return;
        }
        // The volumes cross between the two: a secant.
        double a = last.low;
        double b = here.high;
        double fa = here.straight(VOLUME, here.high, a) - last.value(VOLUME, a);
        double fb = here.value(VOLUME, b) - last.straight(VOLUME, last.low, b);
        double y = fa * fb < 0 ? a - fa * (b - a) / (fb - fa) : 0.5 * (a + b);
        here.fromLog = y;
        here.from = top * Math.exp(y);
        double probe = Math.max(here.low, b - 0.02);
        double excess = here.value(VOLUME, probe) - last.straight(VOLUME, last.low, probe);
        here.larger = excess > 0 ? 1 : -1;
        double bend = here.slope(VOLUME, within(here, y)) - last.slope(VOLUME, within(last, y));
        here.move = bend == 0 ? 0 : (lift(last, y) - lift(here, y)) / bend;
    }

    /** Finds the dome beside the line where that first dries, if it does, and where it first condenses. */
    private void lookBeside() {
        boolean dried = false;
        for (int i = 1; i < count; i++) {
            Piece last = piece[i - 1];
            boolean wet = piece[i].phase == Phase.TWO_PHASE;
            if (last.phase == Phase.TWO_PHASE && !wet && !dried) {
                last.shaded = shade(last, piece[count - 1].low);
                dried = true;
            } else if (last.phase != Phase.TWO_PHASE && !last.liquid && wet && hazed == 0 && !dried) {
                hazed = haze(piece[i]) ? i : 0;
            }
        }
    }

    /**
     * The dome beside the line from the end of the piece that dries to a place below: there jets of dry chambers condense. (The piece that dries,
     * straight on by itself, is up to 2 % off in volume.) False where it is not to be had.
     */
    private boolean shade(Piece last, double end) {
        shadeTop = top * Math.exp(last.low);
        return besideTheLine(shade, last, last.low, last.low, end, last.value(ENTROPY, last.low));
    }

    /**
     * The dome beside the line from where jets of its start condense to the piece that begins wet: jets of dry chambers condense there before the line
     * does. False where none do, or it is not to be had.
     */
    private boolean haze(Piece next) {
        hazeBottom = top * Math.exp(next.high);
        first.set(up);
        if (!source.atPressureEntropy(hazeBottom, up.entropy(), low) || low.phase() != Phase.TWO_PHASE) {
            return false;
        }
        dome.find(first, low, source, true, up.entropy());
        hazeTop = dome.edge.pressure();
        double high = Math.log(hazeTop / top) - LEAST_SPAN;
        return high > next.high + CORNER && besideTheLine(haze, next, next.high, high, next.high, up.entropy());
    }

    /**
     * Fills a piece of the dome beside the line: its states are taken half way between the dew line and a jet, and go straight to the line with their
     * slopes by enthalpy. Where it meets its neighbour it is that: no step between the two.
     *
     * @param joint where it meets the neighbour, its high or its low end
     * @param jet entropy of the wettest jet, J/(kg K)
     */
    private boolean besideTheLine(Piece out, Piece neighbour, double joint, double high, double end, double jet) {
        double half = 0.5 * (end - high);
        out.shade = true;
        out.size = SHADE;
        out.phase = Phase.TWO_PHASE;
        out.liquid = false;
        out.warms = true;
        out.high = high;
        out.low = end;
        out.middle = half;
        for (int j = 0; j < SHADE; j++) {
            double y = j == 0 ? high : j == 1 ? end : high + half * (1 - SlotPath.PLACE[j]);
            double p = top * Math.exp(y);
            out.node[j] = y;
            if (y == joint) {
                goOn(out, j, neighbour, y);
            } else if (!besideDew(p, jet) || !toTheLine(out, j, p)) {
                return false;
            }
            for (double[] each : out.term) {
                difference(out.node, each, j);
            }
        }
        parabolas(out, high, end, half);
        return true;
    }

    private void goOn(Piece out, int j, Piece neighbour, double y) {
        for (int what = 0; what < neighbour.term.length; what++) {
            out.term[what][j] = neighbour.value(what, y);
        }
        out.off[QUALITY_SLOPE][j] = neighbour.off(QUALITY_SLOPE, y);
        out.off[WARMING][j] = neighbour.off(WARMING, y);
        out.off[HEAT][j] = neighbour.off(HEAT, y);
        out.off[GROWTH][j] = lift(neighbour, y);
    }

    /** Two states of the dome at a pressure, half way from the dew line to an entropy and 500 J/kg below that; false where there are none. */
    private boolean besideDew(double p, double jet) {
        if (!source.atPressureEntropy(p, jet, low) || low.phase() != Phase.TWO_PHASE) {
            return false;
        }
        double deep = low.enthalpy();
        double wetness = 1 - low.quality();
        if (!source.atPressureEnthalpy(p, deep - BESIDE, at)) {
            return false;
        }
        double drying = (low.quality() - at.quality()) / BESIDE;
        double way = drying > 0 ? Math.min(enthalpy - deep, 0.5 * wetness / drying) : 0;
        // Far down, where little vapour is left, the dew line is nearer than the slope there says.
        for (int i = 0; i < 5; i++) {
            if (!source.atPressureEnthalpy(p, deep + way, at)) {
                return false;
            }
            if (at.phase() == Phase.TWO_PHASE) {
                return source.atPressureEnthalpy(p, at.enthalpy() - BESIDE, low) && low.phase() == Phase.TWO_PHASE;
            }
            way *= 0.5;
        }
        return false;
    }

    /** Values on the line that give the two states beside it again. */
    private boolean toTheLine(Piece out, int j, double p) {
        double way = enthalpy - at.enthalpy();
        double warming = (at.temperature() - low.temperature()) / BESIDE;
        double mean = 0.5 * (at.temperature() + low.temperature());
        double heatHere = BESIDE / ((at.entropy() - low.entropy()) * mean);
        double growth = (1 / at.density() - 1 / low.density()) / BESIDE;
        double drying = (at.quality() - low.quality()) / BESIDE;
        double t = at.temperature() + warming * way;
        if (j < 3) {
            out.off[QUALITY_SLOPE][j] = drying;
            out.off[WARMING][j] = warming;
            out.off[HEAT][j] = heatHere;
            out.off[GROWTH][j] = p * growth;
        }
        out.term[VOLUME][j] = p * (1 / at.density() + growth * way);
        out.term[ENTROPY][j] = at.entropy() + Math.log(t / at.temperature()) / (warming * heatHere);
        out.term[TEMPERATURE][j] = t;
        out.term[SOUND][j] = at.soundSpeed() * at.soundSpeed();
        out.term[QUALITY][j] = at.quality() + drying * way;
        return warming > 0 && heatHere > 0;
    }

    /** A piece, or below its points or above them what it goes on as. */
    private Piece stretch(int k, double p) {
        return piece[k].shaded && p < shadeTop ? shade : piece[k];
    }

    /** Turns the value at point j into Newton's divided difference. */
    private static void difference(double[] node, double[] term, int j) {
        double d = term[j];
        for (int k = 0; k < j; k++) {
            d = (d - term[k]) / (node[j] - node[k]);
        }
        term[j] = d;
    }

    /** Of how many pieces the line is made. */
    int pieces() {
        return count;
    }

    /** The state that the line starts from, as the line has it. */
    void start(StateBuffer out) {
        atPressureEnthalpy(up.pressure(), enthalpy, out);
    }

    @Override
    public boolean atPressureEnthalpy(double pressure, double h, StateBuffer out) {
        state(pressure, h - enthalpy, Double.NaN, out);
        return true;
    }

    @Override
    public boolean atPressureEntropy(double pressure, double s, StateBuffer out) {
        state(pressure, Double.NaN, s, out);
        return true;
    }

    private void state(double p, double dh, double s, StateBuffer out) {
        int k = at(p);
        if (k < hazed) {
            Piece counts = piece[k];
            if (p < hazeTop) {
                evaluate(haze, p, dh, s);
                double quality = haze.straight(QUALITY, held, x) + haze.off(QUALITY_SLOPE, held) * shift;
                counts = quality < 1 ? haze : counts;
            }
            evaluate(counts, p, dh, s);
            write(counts, p, dh, s, out);
            return;
        }
        // A corner lies elsewhere off the line: beyond it the neighbour's volume may be the one that counts.
        boolean looksUp = k > 0 && near(piece[k - 1], piece[k], p);
        if (looksUp) {
            evaluate(stretch(k - 1, p), p, dh, s);
        }
        double other = volume;
        evaluate(stretch(k, p), p, dh, s);
        int chosen = k;
        if (looksUp && !(piece[k].larger * (volume - other) > 0)) {
            chosen = upwards(k - 1, p, dh, s);
        } else if (k < count - 1 && !piece[k].liquid && near(piece[k + 1], piece[k + 1], p)) {
            chosen = downwards(k, p, dh, s);
        }
        write(stretch(chosen, p), p, dh, s, out);
    }

    /** The piece whose stretch of the line a pressure lies in. */
    private int at(double p) {
        int k = count - 1;
        while (k > 0 && p >= piece[k].from) {
            k--;
        }
        return k;
    }

    /**
     * The piece that counts at a pressure for so much enthalpy beside the line, or for the square of a flux: the neighbour where it lies no
     * further beyond the corner than twice what the enthalpy moves that by, and its volume is the one that counts.
     */
    private int chooseBeside(double p, double dh, double flux2) {
        int chosen = at(p);
        volume(piece[chosen], p, dh, flux2);
        int way = 0;
        for (int k = chosen; ; k = chosen) {
            double here = volume;
            int other = -1;
            if (way <= 0 && k > 0 && reaches(piece[k], p)) {
                volume(piece[k - 1], p, dh, flux2);
                other = piece[k].larger * (here - volume) > 0 ? -1 : k - 1;
            }
            if (other < 0 && way >= 0 && k < count - 1 && reaches(piece[k + 1], p)) {
                volume(piece[k + 1], p, dh, flux2);
                other = piece[k + 1].larger * (volume - here) > 0 ? k + 1 : -1;
            }
            if (other < 0) {
                return chosen;
            }
            way = other - chosen;
            chosen = other;
        }
    }

    /** Volume of a piece at a pressure, so much enthalpy beside the line or for the square of a flux, and that enthalpy. */
    private void volume(Piece here, double p, double dh, double flux2) {
        double y = QuickLog.of(p / top);
        double within = within(here, y);
        beside(here, within);
        double onLine = (here.pv + (y - within) * here.pvSlope) / p;
        if (flux2 > 0) {
            double root = Math.sqrt(Math.max(1e-12, 1 + 2 * here.lift / p * flux2 * onLine));
            double v = 2 * onLine / (1 + root);
            shift = -0.5 * flux2 * v * v;
        } else {
            shift = dh;
        }
        volume = onLine + here.lift / p * shift;
    }

    /** Whether a pressure lies no further from the corner at which a piece begins than twice what the shift of the piece evaluated last moves it. */
    private boolean reaches(Piece lower, double p) {
        return lower.larger != 0 && Math.abs(QuickLog.of(p / lower.from)) < CORNER + 2 * Math.abs(lower.move * shift);
    }

    /** The piece that counts, at or before one that does against its successor; it is the last to be evaluated. */
    private int upwards(int from, double p, double dh, double s) {
        int chosen = from;
        evaluate(stretch(chosen, p), p, dh, s);
        while (chosen > 0 && near(piece[chosen - 1], piece[chosen], p)) {
            double here = volume;
            evaluate(stretch(chosen - 1, p), p, dh, s);
            if (piece[chosen].larger * (here - volume) > 0) {
                evaluate(stretch(chosen, p), p, dh, s);
                break;
            }
            chosen--;
        }
        return chosen;
    }

    /** The same at or after a piece. */
    private int downwards(int from, double p, double dh, double s) {
        int chosen = from;
        while (chosen < count - 1 && near(piece[chosen + 1], piece[chosen + 1], p)) {
            double here = volume;
            evaluate(stretch(chosen + 1, p), p, dh, s);
            if (!(piece[chosen + 1].larger * (volume - here) > 0)) {
                evaluate(stretch(chosen, p), p, dh, s);
                break;
            }
            chosen++;
        }
        return chosen;
    }

    /**
     * Whether a pressure is so near the corner of a piece with the one before that the other one is looked at. The dome beside a line that has
     * dried is always looked at: a jet of a dry chamber condenses however far below that corner the chamber is.
     */
    private boolean near(Piece other, Piece lower, double p) {
        return lower.larger != 0
                && (other.liquid
                        || (other.shaded && p < lower.from)
                        || Math.abs(QuickLog.of(p / lower.from)) < NEIGHBOUR);
    }

    private void evaluate(Piece here, double p, double dh, double s) {
        if (here.liquid) {
            // Below its lowest point straight on.
            held = Math.max(p, here.low);
            entropy = here.straight(ENTROPY, held, p);
            temperature = here.straight(TEMPERATURE, held, p);
            double ds = s - entropy;
            shift = Double.isNaN(dh) ? temperature * ds * (1 + 0.5 * ds / here.heatCapacity) : dh;
            double t = (p - here.low) / (here.high - here.low);
            double byEnthalpy = here.shiftLow + (here.shiftHigh - here.shiftLow) * t;
            volume = here.straight(VOLUME, held, p) + byEnthalpy * shift;
            return;
        }
        x = QuickLog.of(p / top);
        held = within(here, x);
        beside(here, held);
        double pv = here.pv + (x - held) * here.pvSlope;
        sound = Math.max(1, here.value(SOUND, held));
        double onLine = pv / p;
        entropy = here.straight(ENTROPY, held, x);
        double onLineTemperature = here.straight(TEMPERATURE, held, x);
        double byEnthalpy = here.lift / p;
        boolean wet = here.phase == Phase.TWO_PHASE;
        inverseHeatCapacity = 0;
        heat = 1;
        if (here.warms && wet) {
            inverseHeatCapacity = Math.max(0, here.off(WARMING, held));
            heat = here.off(HEAT, held);
        } else if (here.warms) {
            double cooling = here.slope(TEMPERATURE, held) / p;
            inverseHeatCapacity = Math.max(0, (onLineTemperature * byEnthalpy - cooling) / onLine);
        }
        if (!Double.isNaN(dh)) {
            shift = dh;
        } else {
            double ds = s - entropy;
            double z = ds * heat * inverseHeatCapacity;
            shift = onLineTemperature * (Math.abs(z) < 1e-9 ? heat * ds : Math.expm1(z) / inverseHeatCapacity);
        }
        temperature = onLineTemperature + shift * inverseHeatCapacity;
        onLineVolume = onLine;
        volume = onLine + byEnthalpy * shift;
    }

    // Of the piece evaluated last: its coordinate, that within its points, and what else it takes to write a state.
    private double x;
    private double held;
    private double sound;
    private double inverseHeatCapacity;
    private double heat;
    private double onLineVolume;

    private void write(Piece here, double p, double dh, double s, StateBuffer out) {
        boolean byEnthalpy = !Double.isNaN(dh);
        if (here.liquid) {
            out.set(
                    p,
                    temperature + shift / here.heatCapacity,
                    1 / volume,
                    enthalpy + shift,
                    byEnthalpy ? entropy + dh / temperature : s,
                    here.heatCapacity,
                    up.cv(),
                    Math.sqrt(Math.max(1, here.straight(SOUND, held, p))),
                    0,
                    here.phase,
                    false);
            return;
        }
        boolean wet = here.phase == Phase.TWO_PHASE;
        double quality = wet ? here.straight(QUALITY, held, x) + here.off(QUALITY_SLOPE, held) * shift : 1;
        double w2 = sound * (wet ? 1 : volume / onLineVolume);
        double sNow = s;
        if (byEnthalpy) {
            double z = dh * inverseHeatCapacity / temperature;
            sNow = entropy + (Math.abs(z) < 1e-9 ? dh / temperature : -Math.log1p(-z) / inverseHeatCapacity) / heat;
        }
        out.set(
                p,
                temperature,
                1 / volume,
                enthalpy + shift,
                sNow,
                wet ? Double.NaN : 1 / inverseHeatCapacity,
                wet ? Double.NaN : up.cv(),
                Math.sqrt(w2),
                Math.max(0, Math.min(1, quality)),
                here.phase,
                false);
    }

    @Override
    public double criticalDensity() {
        return source.criticalDensity();
    }

    @Override
    public double molarMass() {
        return source.molarMass();
    }
}
