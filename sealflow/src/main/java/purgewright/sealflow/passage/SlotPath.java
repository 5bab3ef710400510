package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.phase.StateBuffer;

/**
 * Specific volume and viscosity along the adiabatic path of a duct: {@code v(p, h0 - G^2 v^2 / 2)} for any flux G, from a few states.
 *
 * <p>At given pressure v is taken linear in h: exact for a perfect gas and in the dome of a pure fluid. So {@code v + a G^2 v^2/2 = v0} with
 * v0 the volume at h0 and {@code a = dv/dh at p = -(dv0/dp + v^2/w^2)/v} from the line itself (dh = T ds + v dp and the sound speed). p v0
 * (for a liquid, v0) is a polynomial in p through Chebyshev-Lobatto points, four if the last term is below 1e-6, else seven. Through the
 * dome p v0 is a polynomial in ln p through five such points if the last term is below 1e-6 of the least value, else nine or seventeen, and where that
 * will not do, in pieces (a mixture's component that is used up on the way, a path that leaves the dome again), else a monotone cubic. A liquid's path takes the larger of the liquid's (below the dome's
 * edge, straight on) and the dome's volume, so the flash point moves with the kinetic energy. The viscosity is that at h0: what the velocity
 * cools is left out of it.
 *
 * <p>A mixture's dv/dh comes from the searches of its states, or by states 500 J/kg beside the line; in pieces, each goes by its own, so that a corner moves with the kinetic
 * energy too ({@link LineStates}). Of 109 random wet mixtures with corners nine in ten have their volume within 0.3 %, the worst is 5 % off.
 *
 * <p>Frozen, a wet start's volume is {@code v_f + N (v - v_f)}: v_f of the liquid as it is and vapour that expands by itself, N the share of vapour
 * that forms at once by the quality upstream, so that nothing jumps with the first trace of vapour.
 *
 * <p>Not shared between threads, and used again and again: {@link #set} begins a new path, {@link #at} leaves its answer in the fields.
 */
final class SlotPath {
    private static final double[] DOME_GRID = {
        0, -0.005, -0.015, -0.03, -0.055, -0.09, -0.14, -0.21, -0.31, -0.45, -0.65, -0.95, -1.4, -2.0, -2.8, -3.8, -5,
        -6.5
    };
    /** Places of the nodes, -1 low to 1 high: ends, middle and quarters first, then what makes nine of five, and seventeen. */
    static final double[] PLACE = {
        1,
        -1,
        0,
        Math.cos(Math.PI / 4),
        -Math.cos(Math.PI / 4),
        Math.cos(Math.PI / 8),
        -Math.cos(Math.PI / 8),
        Math.cos(3 * Math.PI / 8),
        -Math.cos(3 * Math.PI / 8),
        Math.cos(Math.PI / 16),
        -Math.cos(Math.PI / 16),
        Math.cos(7 * Math.PI / 16),
        -Math.cos(7 * Math.PI / 16),
        Math.cos(3 * Math.PI / 16),
        -Math.cos(3 * Math.PI / 16),
        Math.cos(5 * Math.PI / 16),
        -Math.cos(5 * Math.PI / 16)
    };

    private static final int SLOW = 5;
    /**
     * Least relative span of the polynomial ahead of the dome: where less lies between, it begins above the upstream pressure. Differences of
     * states nearer than that are noise.
     */
    private static final double LEAST_SPAN = 1e-4;

    /** Relative pressure range in which the upstream compressibility serves for the whole path. */
    private static final double HAIR = 1e-5;
    /** The same for a start in the dome, whose states are less precise. */
    private static final double WET_HAIR = 3e-5;
    /** Largest last term of the dome's polynomial, over its least value. */
    private static final double FIT = 1e-6;

    /** Least compressibility times pressure of a start without a gas; a liquid's is of that order. */
    private static final double LEAST_COMPRESSIBILITY = 1e-4;

    /** Most points of the polynomial outside the dome. */
    private static final int MOST = 13;
    /** Chebyshev-Lobatto points between the ends, from the high pressure on: of four, seven and thirteen. */
    private static final double[][] INNER = {inner(4), inner(7), inner(MOST)};

    private final StateBuffer buffer = new StateBuffer();
    private final StateBuffer first = new StateBuffer();
    private final StateBuffer low = new StateBuffer();
    /** A state of the path in the dome, where one has been met. */
    private final StateBuffer within = new StateBuffer();

    private boolean met;
    /** Of the dome: the first points of its polynomial, or all of its table. */
    private final StateBuffer[] states = new StateBuffer[DOME_GRID.length];
    /** Which of them what varies slowly goes through. */
    private final int[] some = new int[SLOW];

    private final double[] rowSlope = new double[DOME_GRID.length];
    private final FluidSource source = new FluidSource();
    private final DomeEdge domeEdge = new DomeEdge();
    private FluidState up;
    private double lowest;
    private boolean dense;
    // Polynomial (Newton form) of v0 (dense) or p v0 (gas) in p.
    private final double[] node = new double[MOST];
    private final double[] term = new double[MOST];
    private int count;
    /** dv/dh (times p for a gas), in Newton's form through the same points; one value over a narrow range. */
    private final double[] byEnthalpy = new double[MOST];

    private boolean narrow;
    private double viscosity0;
    private double viscosity1;
    private double density0;
    private double density1;
    private double viscosityByDensity;
    // Dome: p v0 in y = ln(p / edge), as a polynomial in Newton's form or as a table; p a and ln mu by parabolas.
    private double edge;
    private boolean liquidBefore;
    private boolean gasBefore;
    private double wetExponent;
    private boolean wet;
    private final double[] x = new double[Math.max(PLACE.length, DOME_GRID.length)];
    private final double[] curve = new double[Math.max(PLACE.length, DOME_GRID.length)];
    /** As the curve, of the temperature: where a mixture's next state is looked for. */
    private final double[] temperature = new double[PLACE.length];
    /** Points of the dome's polynomial or table; 0 where there is none. */
    private int points;

    private double[] tableSlope;
    /** Pieces of the dome, and whether they hold. */
    private final LineStates line = new LineStates();

    private boolean chained;
    /** What varies slowly, in Newton's form through five points: p dv/dh and ln mu. */
    private final double[] place = new double[SLOW];

    private final double[] shift = new double[SLOW];
    private final double[] logViscosity = new double[SLOW];
    private boolean extrapolated;
    /** Of a wet start in which as little vapour forms as can be: the share of the volume that forms none, and what vapour it has, m3/kg. */
    private double frozen;

    private double vapour;

    /** How often the path was asked for a volume since it began: what a search along it costs. */
    int asked;

    /** Specific volume, m3/kg, and its derivative by pressure along the path; answers of {@link #at}. */
    double volume;

    double slope;
    /** Derivatives of both by the square of the flux at that pressure. */
    double volumeByFlux2;

    double slopeByFlux2;

    SlotPath() {
        for (int i = 0; i < states.length; i++) {
            states[i] = new StateBuffer();
        }
    }

    private static double[] inner(int points) {
        double[] place = new double[points];
        for (int j = 0; j < points; j++) {
            place[j] = Math.cos(Math.PI * j / (points - 1));
        }
        return place;
    }

    /** Begins the path from {@code up} down to a pressure. */
    void set(FluidState from, double down, Throttle.Flashing flashing) {
        up = from;
        lowest = Math.max(down, 2e-3 * up.pressure());
        dense = Throttle.dense(up);
        edge = Double.NaN;
        liquidBefore = false;
        gasBefore = false;
        wetExponent = Double.NaN;
        wet = false;
        points = 0;
        tableSlope = null;
        chained = false;
        extrapolated = false;
        frozen = 0;
        asked = 0;
        double dp = up.pressure() - lowest;
        if (up.phase() == Phase.TWO_PHASE) {
            if (dp < WET_HAIR * up.pressure()) {
                // The sound speed says how the volume grows better than differences of nearly equal volumes do.
                dense = true;
                frozen(dp);
                return;
            }
            dome(up.pressure());
            if (flashing == Throttle.Flashing.FROZEN && points > 0) {
                frozen = 1 - Jet.generation(up.quality());
                double molar = source.from(up).molarMass();
                vapour = Jet.vapourShare(up.quality(), up.temperature(), up.pressure(), up.density(), molar);
            }
            return;
        }
        first.set(up);
        if (!known(lowest, up.enthalpy(), low)) {
            extrapolated = true;
            frozen(dp);
            return;
        }
        met = low.phase() == Phase.TWO_PHASE;
        if (met) {
            within.set(low);
            crossing(dp, flashing);
            return;
        }
        if (dp < HAIR * up.pressure()) {
            // Differences of density are below the digits of the property equations here.
            frozen(dp);
            return;
        }
        if (!polynomial(first, low, 0, false) && !polynomial(first, low, 1, false) && (met || !dense(up.pressure()))) {
            crossing(dp, flashing);
        }
    }

    /** A path that meets the dome on its way, in the state {@link #within}, and ends in it or, as that of hot kerosene, beyond it. */
    private void crossing(double dp, Throttle.Flashing flashing) {
        if (dense && flashing == Throttle.Flashing.FROZEN) {
            frozen(dp);
            return;
        }
        domeEdge.find(first, within, source.from(up), false, up.enthalpy());
        StateBuffer before = domeEdge.edge;
        liquidBefore = dense;
        gasBefore = !dense;
        boolean apart = before.pressure() * (1 + LEAST_SPAN) <= up.pressure();
        if (!apart && !known(before.pressure() * (1 + LEAST_SPAN), up.enthalpy(), first)) {
            frozen(dp);
        } else if (!polynomial(first, before, 0, false) && !polynomial(first, before, 1, false)) {
            polynomial(first, before, 2, true);
        }
        dome(before.pressure());
    }

    double lowest() {
        return lowest;
    }

    boolean extrapolated() {
        return extrapolated;
    }

    /** True for a liquid up to where it flashes: its inlet cannot choke before. */
    boolean noChokeBefore() {
        return dense
                && (!wet || liquidBefore)
                && up.density() > 1.8 * up.fluid().criticalDensity();
    }

    /** True where the sound speed may have a low place on the way: a dense fluid that is no plain liquid, or a crossing of the dome. */
    boolean uneven() {
        return (dense && !noChokeBefore()) || gasBefore || tableSlope != null || chained;
    }

    /** True for a path with corners inside the dome, or at its lower end. */
    boolean inPieces() {
        return chained;
    }

    /** True for a path that is in the dome, or too near it for a polynomial, from its start. */
    boolean wetFromStart() {
        return wet && !liquidBefore && !gasBefore;
    }

    /** True where a liquid's path begins to flash near this pressure: within what its kinetic energy and the rounding may shift. */
    boolean flashesNear(double pressure) {
        if (!dense || (points == 0 && wet)) {
            return false;
        }
        if (liquidBefore) {
            return pressure > 0.8 * edge;
        }
        if (wet || pressure >= 0.999 * up.pressure()) {
            return false;
        }
        try {
            up.fluid().atPressureEnthalpy(0.985 * pressure, up.enthalpy(), up, buffer);
            return buffer.phase() == Phase.TWO_PHASE;
        } catch (PropertyException e) {
            return false;
        }
    }

    /** Pressure below which the path may be in the dome; NaN when it has no liquid part. */
    double edge() {
        return liquidBefore || gasBefore ? edge : Double.NaN;
    }

    /** True where the path enters the dome from the gas: the dome's volume takes over at the edge itself. */
    boolean sharpEdge() {
        return gasBefore;
    }

    /** Isentropic exponent of the fluid where it has just entered the dome; NaN where it does not. */
    double wetExponent() {
        return wetExponent;
    }

    /** A liquid that stays liquid, or a gas whose state could not be had: the upstream compressibility carries on. */
    private void frozen(double dp) {
        double v0 = 1 / up.density();
        if (dense) {
            node[0] = up.pressure();
            node[1] = up.pressure() - dp;
            double z = up.density() * up.soundSpeed();
            term[0] = v0;
            term[1] = -1 / (z * z);
            count = 2;
        } else {
            node[0] = up.pressure();
            term[0] = up.pressure() * v0;
            count = 1;
        }
        narrow = true;
        byEnthalpy[0] = dense ? 0 : 0.2;
        density0 = up.density();
        density1 = up.density();
        viscosity0 = up.fluid().viscosity(up);
        viscosity1 = viscosity0;
        viscosityByDensity = 0;
    }

    /**
     * v or p v from the pressure of {@code top} to that of {@code low} through 4, 7 or 13 points (fineness 0, 1, 2); false when that is not near
     * enough.
     */
    private boolean polynomial(StateBuffer top, StateBuffer end, int fineness, boolean whatever) {
        double[] places = INNER[fineness];
        int size = places.length;
        double p0 = top.pressure();
        double p1 = end.pressure();
        double[] sound = byEnthalpy;
        double middle = 0.5 * (p0 + p1);
        double half = 0.5 * (p0 - p1);
        count = size;
        for (int j = 0; j < size; j++) {
            double density;
            double w;
            if (j == 0 || j == size - 1) {
                StateBuffer at = j == 0 ? top : end;
                node[j] = at.pressure();
                density = at.density();
                w = at.soundSpeed();
            } else {
                double p = middle + half * places[j];
                try {
                    up.fluid().atPressureEnthalpy(p, up.enthalpy(), up, buffer);
                } catch (PropertyException e) {
                    return false;
                }
                if (meets(buffer) && !liquidBefore && !gasBefore) {
                    return false;
                }
                node[j] = p;
                density = buffer.density();
                w = buffer.soundSpeed();
            }
            term[j] = (dense ? 1 : node[j]) / density;
            sound[j] = w * w;
        }
        double scale = Math.abs(term[size - 1]);
        differences(node, term, size);
        // Largest value of the last term is about 2 (range/4)^(n-1) times its coefficient.
        double last = 2 * Math.abs(term[size - 1]) * Math.pow(half / 2, size - 1);
        if (!whatever && !(last < FIT * scale) && half > 1e-6 * p0) {
            return false;
        }
        narrow = half < 1e-3 * p0;
        for (int j = narrow ? size - 1 : 0; j < size; j++) {
            double p = narrow ? p0 : node[j];
            evaluate(p);
            double v = dense ? value : value / p;
            double dv = dense ? derivative : (derivative - v) / p;
            double shifted = -(dv / v + v / sound[narrow ? 0 : j]) * (dense ? 1 : p);
            sound[narrow ? 0 : j] = shifted;
        }
        if (!narrow) {
            differences(node, sound, size);
        }
        viscosity0 = up.fluid().viscosity(top);
        viscosity1 = half > 1e-4 * p0 ? up.fluid().viscosity(end) : viscosity0;
        density0 = top.density();
        density1 = end.density();
        viscosityByDensity = (viscosity0 - viscosity1) / (density0 - density1);
        return true;
    }

    private static void differences(double[] nodes, double[] values, int size) {
        for (int k = 1; k < size; k++) {
            for (int j = size - 1; j >= k; j--) {
                values[j] = (values[j] - values[j - 1]) / (nodes[j] - nodes[j - k]);
            }
        }
    }

    /** dv/dh (times p for a gas) on the polynomial, and its slope in the field. */
    private double byEnthalpy(double p) {
        if (narrow) {
            shiftSlope = 0;
            return byEnthalpy[0];
        }
        double held = held(p);
        double y = byEnthalpy[count - 1];
        double dy = 0;
        for (int k = count - 2; k >= 0; k--) {
            double d = held - node[k];
            dy = dy * d + y;
            y = y * d + byEnthalpy[k];
        }
        shiftSlope = dy;
        return y + dy * (p - held);
    }

    private double value;
    private double derivative;

    /** The pressure down to which a liquid's polynomials are asked: below the dome's edge they go on straight, for through points far off they say nothing. */
    private double held(double p) {
        return liquidBefore && p < edge ? edge : p;
    }

    /** The single-phase polynomial and its derivative. */
    private void evaluate(double p) {
        double held = held(p);
        double y = term[count - 1];
        double dy = 0;
        for (int k = count - 2; k >= 0; k--) {
            double d = held - node[k];
            dy = dy * d + y;
            y = y * d + term[k];
        }
        value = y + dy * (p - held);
        derivative = dy;
    }

    /** Through the dome by a polynomial in ln p, or in pieces, else by a table. */
    private void dome(double from) {
        edge = from;
        wet = true;
        double end = Math.log(lowest / from);
        if (!(end < -1e-7) || !(curve(end, true) || chain(end))) {
            tabulate(from, end);
        }
    }

    /** The same through gas so dense that no polynomial in p will do; false where that meets the dome. */
    private boolean dense(double from) {
        edge = from;
        wet = true;
        double end = Math.log(lowest / from);
        if (!(end < -1e-7) || !curve(end, false)) {
            if (met) {
                wet = false;
                return false;
            }
            tabulate(from, end);
        }
        return true;
    }

    /** Whether a state is in the dome; the first that is is kept. */
    private boolean meets(StateBuffer at) {
        boolean here = at.phase() == Phase.TWO_PHASE;
        if (here && !met) {
            met = true;
            within.set(at);
        }
        return here;
    }

    /** The dome in pieces, where a mixture's component is used up on the way, or the path leaves the dome again. */
    private boolean chain(double end) {
        // From just inside, or the wet state upstream itself.
        if (!domeState(0, states[0]) || !line.setWet(up, states[0], lowest)) {
            return false;
        }
        entered(states[0]);
        for (int j = 0; j < SLOW; j++) {
            place[j] = 0.5 * end * (1 - Math.cos(Math.PI * j / (SLOW - 1)));
            some[j] = j;
            if (j > 0 && !domeState(place[j], states[j])) {
                return false;
            }
        }
        chained = true;
        points = SLOW;
        viscosities();
        return true;
    }

    private void entered(StateBuffer at) {
        if ((liquidBefore || gasBefore) && at.phase() == Phase.TWO_PHASE) {
            wetExponent = at.density() * at.soundSpeed() * at.soundSpeed() / at.pressure();
        }
    }

    private boolean domeState(double y, StateBuffer out) {
        if (y == 0) {
            // A liquid or gas upstream may itself be the last state ahead of the dome.
            if (liquidBefore || gasBefore) {
                return known(edge * (1 - 1e-6), up.enthalpy(), out);
            }
            out.set(up);
            return true;
        }
        return known(edge * Math.exp(y), up.enthalpy(), out);
    }

    private boolean curve(double end, boolean through) {
        int most = PLACE.length;
        double[] y = x;
        double[] q = curve;
        boolean mixed = !(up.fluid() instanceof PureFluid);
        double least = Double.POSITIVE_INFINITY;
        double scale = 1;
        for (int j = 0; j < most; j++) {
            y[j] = j == 0 ? 0 : j == 1 ? end : 0.5 * end * (1 - PLACE[j]);
            StateBuffer at = j < SLOW ? states[j] : buffer;
            double p = edge * Math.exp(y[j]);
            boolean searched = mixed && (j > 0 || wetFromStart());
            boolean found = searched ? known(p, up.enthalpy(), start(p, j), at) : domeState(y[j], at);
            if (!found || (j > 0 && meets(at) != through)) {
                return false;
            }
            if (j == 0) {
                entered(at);
            }
            if (j < SLOW) {
                place[j] = y[j];
                some[j] = j;
            }
            double here = p / at.density();
            least = Math.min(least, here);
            double d = divided(q, j, here);
            if (mixed) {
                divided(temperature, j, at.temperature());
            }
            scale *= j == 0 ? 1 : -0.25 * end;
            boolean enough = 2 * Math.abs(d) * scale < FIT * least;
            if ((j == 4 || j == 8 || j == 16) && enough) {
                points = j + 1;
                slow();
                return true;
            }
        }
        return false;
    }

    /** Where a mixture's state is looked for: at node {@code j} by those before it, null where they say nothing. */
    private Nearby start(double p, int j) {
        if (j == 0) {
            return new Nearby(up.temperature(), up.density());
        }
        return j == 1 ? null : new Nearby(along(temperature, j), p / along(curve, j));
    }

    /** Newton's divided differences, one node more: the highest of them. */
    private double divided(double[] differences, int j, double value) {
        double d = value;
        for (int k = 0; k < j; k++) {
            d = (d - differences[k]) / (x[j] - x[k]);
        }
        differences[j] = d;
        return d;
    }

    /** At node {@code j}, by those before it. */
    private double along(double[] differences, int j) {
        double value = differences[j - 1];
        for (int k = j - 2; k >= 0; k--) {
            value = value * (x[j] - x[k]) + differences[k];
        }
        return value;
    }

    /** p a and ln mu through five states. */
    private void slow() {
        for (int j = 0; j < SLOW; j++) {
            shift[j] = domeShift(states[some[j]], place[j]);
        }
        if (tableSlope == null && wet && !(up.fluid() instanceof PureFluid)) {
            growth();
        }
        differences(place, shift, SLOW);
        viscosities();
    }

    /**
     * A mixture's dv/dh is not quite what the line of constant enthalpy tells, for its temperature follows the enthalpy: as its search came by
     * it, or by states a little beside the line at both ends and in the middle, as in {@link LineStates}.
     */
    private void growth() {
        if (grown()) {
            return;
        }
        double[] factor = new double[3];
        for (int j = 0; j < 3; j++) {
            StateBuffer at = states[some[j]];
            if (at.phase() != Phase.TWO_PHASE || !(shift[j] > 0)) {
                return;
            }
            factor[j] = at.pressure() * byDifference(at, LineStates.BESIDE) / shift[j];
        }
        double first = (factor[2] - factor[0]) / (place[2] - place[0]);
        double whole = (factor[1] - factor[0]) / (place[1] - place[0]);
        double bend = (whole - first) / (place[1] - place[2]);
        for (int j = 0; j < SLOW; j++) {
            double y = place[j] - place[0];
            shift[j] *= factor[0] + y * (first + (place[j] - place[2]) * bend);
        }
    }

    private boolean grown() {
        for (int j = 0; j < SLOW; j++) {
            StateBuffer at = states[some[j]];
            if (at.phase() != Phase.TWO_PHASE || !(at.volumeByEnthalpy() > 0)) {
                return false;
            }
        }
        for (int j = 0; j < SLOW; j++) {
            shift[j] = states[some[j]].pressure() * states[some[j]].volumeByEnthalpy();
        }
        return true;
    }

    private void viscosities() {
        for (int j = 0; j < SLOW; j++) {
            logViscosity[j] = Math.log(up.fluid().viscosity(states[some[j]]));
        }
        differences(place, logViscosity, SLOW);
    }

    private double shiftAt(double y) {
        double b = shift[SLOW - 1];
        double db = 0;
        for (int k = SLOW - 2; k >= 0; k--) {
            double d = y - place[k];
            db = db * d + b;
            b = b * d + shift[k];
        }
        shiftSlope = db;
        return b;
    }

    private double shiftSlope;

    /** p dv/dh in the dome. */
    private double domeShift(StateBuffer at, double y) {
        domeCurve(y);
        double v = 1 / at.density();
        double w = at.soundSpeed();
        double p = at.pressure();
        return -((derivative / p - v) / v + p * v / (w * w));
    }

    private void domeCurve(double y) {
        if (tableSlope != null) {
            int i = Pchip.interval(x, points, y);
            value = Pchip.value(x, curve, tableSlope, i, y);
            derivative = Pchip.derivative(x, curve, tableSlope, i, y);
            return;
        }
        double q = curve[points - 1];
        double dq = 0;
        for (int k = points - 2; k >= 0; k--) {
            double d = y - x[k];
            dq = dq * d + q;
            q = q * d + curve[k];
        }
        value = q;
        derivative = dq;
    }

    /**
     * The dome's curve at a pressure, for the square of a flux or, where that is not given, of a velocity: p v and its derivative by ln p in the
     * fields; returns p dv/dh, whose derivative goes into a field too.
     */
    private double wetCurve(double p, double g2, double u2) {
        double lift;
        if (chained) {
            if (Double.isNaN(g2)) {
                line.atShift(p, -0.5 * u2);
            } else {
                line.atFlux(p, g2);
            }
            value = line.work;
            derivative = line.workSlope;
            shiftSlope = line.liftSlope;
            lift = line.lift;
        } else {
            double y = Math.log(p / edge);
            domeCurve(y);
            lift = shiftAt(y);
        }
        if (frozen > 0) {
            // The liquid as it is, the vapour expanding by itself.
            double gas = vapour * Math.pow(up.pressure() / p, 1 / Jet.FROZEN_EXPONENT);
            double liquid = 1 / up.density() - vapour;
            value = (1 - frozen) * value + frozen * p * (liquid + gas);
            derivative = (1 - frozen) * derivative + frozen * p * (liquid + gas * (1 - 1 / Jet.FROZEN_EXPONENT));
            lift *= 1 - frozen;
            shiftSlope *= 1 - frozen;
        }
        return lift;
    }

    /** Isentropic exponent of what the inlet sees: its compressibility's inverse, the frozen share's counted for itself. */
    double inletExponent() {
        double both = up.pressure() / (up.density() * up.soundSpeed() * up.soundSpeed());
        double whole = (1 - frozen) * both + frozen * vapour * up.density() / Jet.FROZEN_EXPONENT;
        return 1 / Math.max(whole, LEAST_COMPRESSIBILITY);
    }

    private void tabulate(double from, double end) {
        int size = 1;
        while (size < DOME_GRID.length && DOME_GRID[size - 1] > end) {
            size++;
        }
        size = Math.min(DOME_GRID.length, Math.max(SLOW, size + 1));
        int filled = 0;
        for (int k = 0; k < size; k++) {
            StateBuffer at = states[k];
            if (!domeState(DOME_GRID[k], at)) {
                extrapolated = true;
                break;
            }
            if (k == 0) {
                entered(at);
            }
            x[k] = DOME_GRID[k];
            curve[k] = from * Math.exp(DOME_GRID[k]) / at.density();
            filled++;
        }
        if (filled < SLOW) {
            edge = Double.NaN;
            liquidBefore = false;
            gasBefore = false;
            wet = false;
            frozen(up.pressure() - lowest);
            return;
        }
        points = filled;
        tableSlope = rowSlope;
        Pchip.slopes(x, curve, filled, tableSlope);
        int i = 0;
        for (int j = 0; j < SLOW; j++) {
            // The row next to a Chebyshev-Lobatto point of the range: the table's own rows crowd at the edge.
            double target = 0.5 * x[filled - 1] * (1 - Math.cos(Math.PI * j / (SLOW - 1)));
            while (i < filled - SLOW + j && Math.abs(x[i + 1] - target) < Math.abs(x[i] - target)) {
                i++;
            }
            some[j] = i;
            place[j] = x[i++];
        }
        slow();
        // The table's slopes are too rough for the line's own relation: dv/dh by differences.
        double w2 = up.soundSpeed() * up.soundSpeed();
        double most = 0.2 * w2;
        double scale = (up.pressure() - lowest) / up.density() + 0.002 * w2;
        double step = most * scale / (scale + most);
        for (int j = 0; j < SLOW; j++) {
            StateBuffer at = states[some[j]];
            shift[j] = at.pressure() * byDifference(at, step);
        }
        differences(place, shift, SLOW);
    }

    /** dv/dh at constant pressure by a one-sided difference towards lower enthalpy, or towards higher where there is no such state. */
    private double byDifference(StateBuffer at, double step) {
        boolean wet = at.phase() == Phase.TWO_PHASE;
        Nearby here = new Nearby(at.temperature(), at.density());
        boolean known = known(at.pressure(), at.enthalpy() - step, here, buffer);
        if (!known || (buffer.phase() == Phase.TWO_PHASE) != wet) {
            if (known(at.pressure(), at.enthalpy() + step, here, low)) {
                return byDifference(at, low);
            }
        }
        return known ? byDifference(at, buffer) : 0;
    }

    private static double byDifference(StateBuffer a, StateBuffer b) {
        return (1 / a.density() - 1 / b.density()) / (a.enthalpy() - b.enthalpy());
    }

    private boolean known(double pressure, double enthalpy, StateBuffer out) {
        try {
            up.fluid().atPressureEnthalpy(pressure, enthalpy, up, out);
            return true;
        } catch (PropertyException e) {
            return false;
        }
    }

    /** A mixture's state is looked for where it is thought to be (or from nothing if that is null); a pure fluid's needs no search. */
    private boolean known(double pressure, double enthalpy, Nearby start, StateBuffer out) {
        if (up.fluid() instanceof PureFluid) {
            return known(pressure, enthalpy, out);
        }
        try {
            up.fluid().atPressureEnthalpyFrom(start, pressure, enthalpy, out);
            return true;
        } catch (PropertyException e) {
            return false;
        }
    }

    /** Volume and slope at a pressure for a flux; into the fields. */
    void at(double p, double flux) {
        asked++;
        double g2 = flux * flux;
        if (!wet || ((liquidBefore || gasBefore) && p >= edge)) {
            smooth(p, g2);
            return;
        }
        inDome(p, g2);
        if (!liquidBefore) {
            return;
        }
        double wetVolume = volume;
        double wetSlope = slope;
        double wetVolumeByFlux2 = volumeByFlux2;
        double wetSlopeByFlux2 = slopeByFlux2;
        smooth(p, g2);
        if (wetVolume > volume) {
            volume = wetVolume;
            slope = wetSlope;
            volumeByFlux2 = wetVolumeByFlux2;
            slopeByFlux2 = wetSlopeByFlux2;
        }
    }

    /** Derivatives of the volume behind an inlet by pressure and by the square of the velocity; answers of {@link #volumeAtVelocity}. */
    double inletByPressure;

    double inletByVelocity2;

    /** Volume behind an inlet: at a pressure and the square of the velocity reached there. */
    double volumeAtVelocity(double p, double u2) {
        if (!wet || ((liquidBefore || gasBefore) && p >= edge)) {
            return smoothAtVelocity(p, u2);
        }
        double dry = liquidBefore ? smoothAtVelocity(p, u2) : 0;
        double b = wetCurve(p, Double.NaN, u2);
        double v = (value - 0.5 * u2 * b) / p;
        if (v > dry) {
            inletByPressure = (derivative - 0.5 * u2 * shiftSlope) / (p * p) - v / p;
            inletByVelocity2 = -0.5 * b / p;
            return v;
        }
        return dry;
    }

    private double smoothAtVelocity(double p, double u2) {
        evaluate(p);
        double s = byEnthalpy(p);
        double v = value - 0.5 * u2 * s;
        inletByPressure = derivative - 0.5 * u2 * shiftSlope;
        inletByVelocity2 = -0.5 * s;
        if (!dense) {
            v /= p;
            inletByPressure = (inletByPressure - v) / p;
            inletByVelocity2 /= p;
        }
        return v;
    }

    private void inDome(double p, double g2) {
        double b = wetCurve(p, g2, 0);
        double db = shiftSlope;
        kinetic(value / p, (derivative - value) / (p * p), b / p, (db - b) / (p * p), g2);
    }

    private void smooth(double p, double g2) {
        evaluate(p);
        double s = byEnthalpy(p);
        double ds = shiftSlope;
        if (dense) {
            kinetic(value, derivative, s, ds, g2);
        } else {
            double inverse = 1 / p;
            double v0 = value * inverse;
            double byH = s * inverse;
            kinetic(v0, (derivative - v0) * inverse, byH, (ds - byH) * inverse, g2);
        }
    }

    private void kinetic(double v0, double dv0, double s, double ds, double g2) {
        double root = Math.sqrt(Math.max(1e-12, 1 + 2 * s * g2 * v0));
        double both = 1 / (root * (1 + root));
        double v = 2 * v0 * root * both;
        double inverse = (1 + root) * both; // 1/root; root is 1 + s g2 v
        double v2 = v * v;
        volume = v;
        slope = (dv0 - 0.5 * ds * g2 * v2) * inverse;
        volumeByFlux2 = -0.5 * s * v2 * inverse;
        slopeByFlux2 = -(0.5 * ds * (v2 + 2 * g2 * v * volumeByFlux2) + slope * s * v0 * inverse) * inverse;
    }

    /** Viscosity at a pressure on the path, Pa s. */
    double viscosity(double p) {
        if (wet && (p < edge || !(liquidBefore || gasBefore))) {
            double y = Math.log(p / edge);
            double m = logViscosity[SLOW - 1];
            for (int k = SLOW - 2; k >= 0; k--) {
                m = m * (y - place[k]) + logViscosity[k];
            }
            return Math.exp(m);
        }
        // Nearly linear in density along the line, for gases as for dense fluids.
        double range = density0 - density1;
        if (Math.abs(range) < 1e-9 * density0) {
            return viscosity0;
        }
        evaluate(p);
        return viscosityAlong(p);
    }

    /** The same at the pressure that {@link #at} was asked for last. */
    double viscosityHere(double p) {
        // Where the dome's curve was the last to be evaluated, the fluid's may not have been.
        return wet || !(Math.abs(density0 - density1) >= 1e-9 * density0) ? viscosity(p) : viscosityAlong(p);
    }

    private double viscosityAlong(double p) {
        double density = (dense ? 1 : p) / value;
        return viscosity1 + viscosityByDensity * (density - density1);
    }

    /** Volume of the dome less that of the liquid; above 0 where the liquid has begun to flash at this pressure and flux. */
    double flash(double p, double flux) {
        if (!liquidBefore || p >= edge) {
            return -1;
        }
        asked++;
        double g2 = flux * flux;
        inDome(p, g2);
        double both = volume;
        smooth(p, g2);
        return both - volume;
    }
}
