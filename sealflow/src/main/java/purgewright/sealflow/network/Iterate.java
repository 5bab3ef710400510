package purgewright.sealflow.network;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.rotating.CoreSwirl;
import purgewright.sealflow.rotating.DiscFriction;
import purgewright.sealflow.rotating.ForcedVortex;

/**
 * One guess at the state of a network, and what flows and what is left over there. Arrays by cavity and by link of {@link Network};
 * owned by one solve.
 *
 * <p>What a passage's law gives is the mass flow m of the upstream fluid; in moles N = m / M_up. What crosses is that many moles in all:
 * a bulk flow B, which carries the mixture of the side it comes from, and on top what diffuses (see {@link Diffusion}). B is such
 * that the moles of all streams add up to N; where all streams diffuse alike, and where nothing diffuses, B = N:
 *
 * <pre>{@code
 * B + sum_k G_k(|B|) (x_a,k - x_b,k) = N,   d_k = M_k G_k (x_a,k - x_b,k)
 * F_k = B M_up y_k,up + d_k,    F = sum_k F_k
 * E   = B M_up h_up + sum_k d_k h_k
 * }</pre>
 *
 * <p>up is the side of B, h_k a stream's own enthalpy where it comes from. Each term goes to zero before it changes sides, so that
 * F_k and E run through N = 0 and B = 0 without a jump.
 *
 * <p>Balances of a cavity, all flows inward positive:
 *
 * <pre>{@code
 * mass    R  = sum F
 * energy  Re = sum E + Q - h R
 * stream  Rk = sum F_k - y_k R
 * }</pre>
 *
 * The terms with R are zero in a solution; without one they make energy and composition follow what flows in, whatever the
 * pressure is still doing.
 */
final class Iterate {
    /** A stream below this share of the mass is left out of a cavity's properties (not of its balances). */
    static final double PROPERTY_TRACE = 1e-9;

    /** Share of its temperature within which the end of a fluid's range is looked for: temperatures found from enthalpies are off by less. */
    private static final double NEAR_LIMIT = 1e-3;

    /** How close to the end of a fluid's range an enthalpy counts as at it, J/kg: some hundredths of a millikelvin. */
    private static final double AT_LIMIT = 0.1;

    /** Step of a temperature for the heat capacity of a wet mixture, K. */
    private static final double WARMING = 1e-3;

    /** How closely the last state before a solid is looked for, K. */
    private static final double END_CLOSENESS = 1e-6;

    final Network net;
    final double[] pressure;
    final double[] enthalpy;
    final double[][] fraction;
    final Fluid[] fluid;
    final FluidState[] state;
    final double[] molarMass;
    final FluidState[] endFrom;
    final FluidState[] endTo;
    final PassageFlow[] flow;
    /** Mass flow of each passage's law, kg/s, reconciled where pressure differences are below the digits of a pressure. */
    final double[] massFlow;

    /** Lagged: refreshed once per iteration, shared by the trials of its line search. */
    double[][] conductance;

    /** Of the carried enthalpy of each stream: value, slope by temperature, and the temperature they are meant at. */
    double[][] carriedEnthalpy;

    double[][] carriedSlope;
    double[][] carriedTemperature;
    /** True where a stream diffuses from the from end, by link and stream. */
    boolean[][] fromSide;

    double[] swirl;

    final double[][] streamFlow;
    final double[] total;
    /** Mass flow of the bulk, which carries the mixture of the end it comes from, kg/s. */
    final double[] bulk;

    final double[] energyFlow;
    final double[] mass;
    final double[] energy;
    final double[][] stream;
    final double[] through;
    final double[] windage;
    double largestFlow;
    /** Largest flow of energy, by what flows or as heat of drag, of discs and through walls, W. */
    double largestEnergyFlow;
    /** How far what each cavity holds lets anything diffuse, 0 to 1. */
    final double[] open;

    /** What the rounding of temperatures makes of the heat through a cavity's walls, W; see {@link Closure#wallRounding}. */
    final double[] wallRounding;

    /** Cavity whose state could not be computed, for the words of a failure; -1 when none. */
    int refusedAt = -1;

    /** 1 where a cavity stands at the hottest state that its fluid's equations give, -1 at the coldest, else 0. */
    final int[] atLimit;

    /** What the property engine refused, or null. */
    PropertyException refusal;

    /** What leaves a cavity by a link where a separate liquid is picked up unevenly, from end then to end; null: what the cavity holds. */
    final Leaving[] leaving;

    private final boolean[] stale;
    private final double[] beyondFlow;
    private final double[] difference;

    Iterate(Network net) {
        this.net = net;
        int n = net.cavities;
        int l = net.links;
        int k = net.streams;
        pressure = new double[n];
        enthalpy = new double[n];
        fraction = new double[n][k];
        fluid = new Fluid[n];
        state = new FluidState[n];
        molarMass = new double[n];
        endFrom = new FluidState[l];
        endTo = new FluidState[l];
        flow = new PassageFlow[l];
        massFlow = new double[l];
        conductance = new double[l][];
        carriedEnthalpy = new double[l][];
        carriedSlope = new double[l][];
        carriedTemperature = new double[l][];
        fromSide = new boolean[l][];
        swirl = net.swirl.clone();
        open = new double[n];
        wallRounding = new double[n];
        streamFlow = new double[l][k];
        total = new double[l];
        bulk = new double[l];
        energyFlow = new double[l];
        mass = new double[n];
        energy = new double[n];
        stream = new double[n][k];
        through = new double[n];
        windage = new double[n];
        beyondFlow = new double[k];
        difference = new double[k];
        atLimit = new int[n];
        leaving = new Leaving[2 * l];
        stale = new boolean[n];
        Arrays.fill(stale, true);
        for (int i = 0; i < n; i++) {
            if (net.fixed[i]) {
                setBoundary(i, net.boundaryState[i]);
            }
        }
    }

    /** Puts another state at a fixed cavity (the fallback that moves boundary pressures uses this). */
    void setBoundary(int i, FluidState s) {
        fluid[i] = s.fluid();
        state[i] = s;
        pressure[i] = s.pressure();
        enthalpy[i] = s.enthalpy();
        System.arraycopy(net.boundaryFractions[i], 0, fraction[i], 0, net.streams);
        molarMass[i] = molarMass(fraction[i]);
        stale[i] = true;
    }

    /** Takes over everything, so that a step can be tried from here. */
    void copyFrom(Iterate other) {
        System.arraycopy(other.pressure, 0, pressure, 0, pressure.length);
        System.arraycopy(other.enthalpy, 0, enthalpy, 0, enthalpy.length);
        for (int i = 0; i < fraction.length; i++) {
            System.arraycopy(other.fraction[i], 0, fraction[i], 0, net.streams);
        }
        System.arraycopy(other.fluid, 0, fluid, 0, fluid.length);
        System.arraycopy(other.state, 0, state, 0, state.length);
        System.arraycopy(other.molarMass, 0, molarMass, 0, molarMass.length);
        System.arraycopy(other.endFrom, 0, endFrom, 0, endFrom.length);
        System.arraycopy(other.endTo, 0, endTo, 0, endTo.length);
        System.arraycopy(other.flow, 0, flow, 0, flow.length);
        System.arraycopy(other.massFlow, 0, massFlow, 0, massFlow.length);
        System.arraycopy(other.leaving, 0, leaving, 0, leaving.length);
        System.arraycopy(other.stale, 0, stale, 0, stale.length);
        System.arraycopy(other.open, 0, open, 0, open.length);
        System.arraycopy(other.windage, 0, windage, 0, windage.length);
        System.arraycopy(other.atLimit, 0, atLimit, 0, atLimit.length);
        conductance = other.conductance;
        carriedEnthalpy = other.carriedEnthalpy;
        carriedSlope = other.carriedSlope;
        carriedTemperature = other.carriedTemperature;
        fromSide = other.fromSide;
        swirl = other.swirl;
        refusedAt = -1;
    }

    /** Takes over the balances too, which {@link #copyFrom} leaves to the next evaluation. */
    void adopt(Iterate other) {
        copyFrom(other);
        balances();
    }

    /** Sets the unknowns of a free cavity; its state and its passages are computed again only if something differs. */
    void set(int i, double p, double h, double[] y) {
        boolean sameMix = fluid[i] != null && Arrays.equals(y, fraction[i]);
        if (sameMix && p == pressure[i] && h == enthalpy[i] && !stale[i]) {
            return;
        }
        if (!sameMix) {
            System.arraycopy(y, 0, fraction[i], 0, net.streams);
            fluid[i] = fluidOf(y);
            molarMass[i] = molarMass(y);
        }
        pressure[i] = p;
        enthalpy[i] = h;
        state[i] = null;
        stale[i] = true;
    }

    /** Puts a free cavity at the end of its fluid's range: {@code side} 1 the hot one, -1 the cold one. */
    void setAtLimit(int i, double p, double[] y, int side) {
        set(i, p, enthalpy[i], y);
        if (state[i] == null) {
            limit(i, side);
        }
    }

    /** Another state for a free cavity of {@code x}, which this is a copy of; where that is held at the end of its range, it stays there. */
    void setKeepingEnd(int i, double p, double h, double[] y, Iterate x) {
        if (x.held(i)) {
            setAtLimit(i, p, y, x.atLimit[i]);
        } else {
            set(i, p, h, y);
        }
    }

    /**
     * A share of a step of a cavity's mixture and enthalpy, taken in mole fractions and enthalpy by mole: mixtures of gases are linear in those.
     *
     * @param step by unknowns, those of the cavity from {@code at} on
     * @param y filled with the mass fractions it leads to
     * @return enthalpy it leads to, J/kg
     */
    double moveByMoles(int i, double[] step, int at, double share, double[] y) {
        double molar = molarMass[i];
        double growth = 0;
        for (int k = 0; k < net.streams; k++) {
            growth -= molar * step[at + 2 + k] / net.streamMolarMass[k];
        }
        double mass = 0;
        double moles = 0;
        for (int k = 0; k < net.streams; k++) {
            double perMole = molar / net.streamMolarMass[k];
            double next = fraction[i][k] * perMole + share * perMole * (step[at + 2 + k] + fraction[i][k] * growth);
            y[k] = next > 1e-300 ? next * net.streamMolarMass[k] : 0;
            mass += y[k];
            moles += y[k] / net.streamMolarMass[k];
        }
        for (int k = 0; k < net.streams; k++) {
            y[k] /= mass;
        }
        return molar * (enthalpy[i] + share * (step[at + 1] + enthalpy[i] * growth)) * moles / mass;
    }

    /** Enthalpy at the hot (1) or cold (-1) end of the range of a mixture in a cavity, at its pressure, J/kg; NaN where there is none. */
    double enthalpyLimit(int i, double[] y, int side) {
        try {
            return end(Arrays.equals(y, fraction[i]) ? fluid[i] : fluidOf(y), pressure[i], side)
                    .enthalpy();
        } catch (PropertyException e) {
            return Double.NaN;
        }
    }

    /** The hot (1) or cold (-1) end of a fluid's range; where there is no state (it would be solid), the last one before. */
    private FluidState end(Fluid f, double p, int side) {
        double end = side > 0 ? net.hottest(f) : net.coldest(f);
        try {
            return f.atPressureTemperature(p, end);
        } catch (PropertyException e) {
            double refused = end;
            double known = Math.sqrt(net.hottest(f) * net.coldest(f));
            FluidState last = f.atPressureTemperature(p, known);
            while (Math.abs(known - refused) > END_CLOSENESS) {
                double between = (known + refused) / 2;
                try {
                    last = f.atPressureTemperature(p, between);
                    known = between;
                } catch (PropertyException none) {
                    refused = between;
                }
            }
            return last;
        }
    }

    private void limit(int i, int side) {
        FluidState s = end(fluid[i], pressure[i], side);
        state[i] = s;
        enthalpy[i] = s.enthalpy();
        atLimit[i] = side;
    }

    /**
     * True where more heat goes into a cavity than can leave it even at the hottest state there is (or the reverse at the coldest): no
     * temperature balances it, and it is held at that limit with the surplus in {@link #energy}.
     */
    boolean held(int i) {
        return atLimit[i] != 0 && atLimit[i] * energy[i] > 0;
    }

    /** True when any cavity is held at a limit of its fluid's range. */
    boolean anyHeld() {
        for (int i : net.cavityOf) {
            if (held(i)) {
                return true;
            }
        }
        return false;
    }

    /** The state of a free cavity; where its enthalpy lies beyond the range of the equations, the end of that range. */
    private void find(int i) {
        atLimit[i] = 0;
        double hottest = net.hottest(fluid[i]);
        double coldest = net.coldest(fluid[i]);
        FluidState s;
        try {
            s = fluid[i].atPressureEnthalpy(pressure[i], enthalpy[i]);
        } catch (PropertyException e) {
            if (Double.isNaN(hottest)
                    || Double.isNaN(coldest)
                    || e.key() == PropertyException.Key.PRESSURE_OUT_OF_RANGE) {
                throw e;
            }
            double hot = end(fluid[i], pressure[i], 1).enthalpy();
            if (enthalpy[i] < hot
                    && enthalpy[i] > end(fluid[i], pressure[i], -1).enthalpy()) {
                throw e;
            }
            limit(i, enthalpy[i] >= hot ? 1 : -1);
            return;
        }
        boolean hot = s.temperature() > hottest * (1 - NEAR_LIMIT);
        if (hot || s.temperature() < coldest * (1 + NEAR_LIMIT)) {
            double end = end(fluid[i], pressure[i], hot ? 1 : -1).enthalpy();
            if (hot ? enthalpy[i] >= end - AT_LIMIT : enthalpy[i] <= end + AT_LIMIT) {
                limit(i, hot ? 1 : -1);
                return;
            }
        }
        state[i] = s;
    }

    double molarMass(double[] y) {
        double moles = 0;
        for (int k = 0; k < y.length; k++) {
            moles += y[k] / net.streamMolarMass[k];
        }
        return 1 / moles;
    }

    /** The mixture, traces left out. */
    Fluid fluidOf(double[] y) {
        double[] clean = new double[y.length];
        double sum = 0;
        for (int k = 0; k < y.length; k++) {
            clean[k] = y[k] < PROPERTY_TRACE ? 0 : y[k];
            sum += clean[k];
        }
        for (int k = 0; k < y.length; k++) {
            clean[k] /= sum;
        }
        return net.mixer.mix(clean);
    }

    /** Mass fractions of what a link's bulk carries. */
    double[] carriedFractions(int l) {
        Leaving out = leaving[bulk[l] >= 0 ? 2 * l : 2 * l + 1];
        return out != null ? out.fractions() : fraction[bulk[l] >= 0 ? net.from[l] : net.to[l]];
    }

    /** Specific enthalpy of what a link's bulk carries. */
    double carriedEnthalpy(int l) {
        Leaving out = leaving[bulk[l] >= 0 ? 2 * l : 2 * l + 1];
        return out != null ? out.state().enthalpy() : enthalpy[bulk[l] >= 0 ? net.from[l] : net.to[l]];
    }

    /** What leaves a cavity by a link, at the link's radius; null where it is what the cavity holds. */
    Leaving leaving(int i, int link, FluidState s, double[] y) {
        if (net.pickUp[link] == 1 || net.fixed[i]) {
            return null;
        }
        Leaving out = Leaving.of(net, net.pickUp[link], s, y, this::fluidOf);
        return out == null ? null : new Leaving(atRadius(i, link, out.state()), out.fractions());
    }

    /** True where a separate liquid leaves a cavity unevenly. */
    boolean picksUp(int i) {
        for (int l = 0; l < net.links; l++) {
            if ((net.from[l] == i && leaving[2 * l] != null) || (net.to[l] == i && leaving[2 * l + 1] != null)) {
                return true;
            }
        }
        return false;
    }

    /** What a passage sees at its end in a cavity as it stands, but for its state. */
    FluidState endState(int i, int link, FluidState s) {
        return endState(i, link, s, fraction[i]);
    }

    /** What a passage sees at its end in a cavity of that state and mixture. */
    FluidState endState(int i, int link, FluidState s, double[] y) {
        Leaving out = leaving(i, link, s, y);
        return out != null ? out.state() : atRadius(i, link, s);
    }

    /** True where a vortex stands between what a cavity holds and the end of a link in it. */
    boolean turns(int i, int link) {
        double r = net.radius[link];
        double reference = net.cavity[i].radius();
        return swirl[i] != 0 && !Double.isNaN(r) && !Double.isNaN(reference) && r != reference;
    }

    /** State at a passage's own radius: the vortex moves the pressure, the enthalpy stays. */
    private FluidState atRadius(int i, int link, FluidState s) {
        if (!turns(i, link)) {
            return s;
        }
        double p = ForcedVortex.pressure(s, swirl[i], net.cavity[i].radius(), net.radius[link]);
        return s.fluid().atPressureEnthalpy(p, s.enthalpy(), s);
    }

    /** Computes states and flows where an unknown has changed, then all balances. */
    void evaluate() {
        int at = -1;
        try {
            for (int i = 0; i < net.cavities; i++) {
                at = i;
                if (state[i] == null && net.unknown[i] >= 0) {
                    find(i);
                }
                followState(i);
            }
            for (int l = 0; l < net.links; l++) {
                if (!net.flowing[l]) {
                    continue;
                }
                int a = net.from[l];
                int b = net.to[l];
                if (stale[a] || stale[b] || flow[l] == null) {
                    at = a;
                    if (stale[a] || endFrom[l] == null) {
                        leaving[2 * l] = leaving(a, l, state[a], fraction[a]);
                        endFrom[l] = leaving[2 * l] != null ? leaving[2 * l].state() : atRadius(a, l, state[a]);
                    }
                    at = b;
                    if (stale[b] || endTo[l] == null) {
                        leaving[2 * l + 1] = leaving(b, l, state[b], fraction[b]);
                        endTo[l] = leaving[2 * l + 1] != null ? leaving[2 * l + 1].state() : atRadius(b, l, state[b]);
                    }
                    at = pressure[a] >= pressure[b] ? a : b;
                    PassageFlow there = net.flow(l, endFrom[l], endTo[l]);
                    if (!Double.isFinite(there.massFlow()) || !Double.isFinite(there.heat())) {
                        throw noFlow(l);
                    }
                    flow[l] = there;
                    massFlow[l] = there.massFlow();
                }
            }
        } catch (PropertyException e) {
            refusedAt = at;
            Arrays.fill(stale, true);
            throw e;
        }
        Arrays.fill(stale, false);
        balances();
    }

    /**
     * What a cavity's state alone decides: how far it is open for diffusion, and the power of its disc. A cavity with one way only has no
     * state until all is solved, and nothing diffuses through that way.
     */
    private void followState(int i) {
        if (stale[i]) {
            open[i] = state[i] == null ? 0 : Diffusion.openness(state[i]);
            windage[i] = windage(i, state[i]);
        }
    }

    /** A flow that is no number would spread through every balance unseen. */
    private PropertyException noFlow(int l) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put(
                "fluid",
                "what flows through '" + net.model.passages().get(net.specOf[l]).name() + "'");
        values.put("from pressure", endFrom[l].pressure());
        values.put("from temperature", endFrom[l].temperature());
        values.put("to pressure", endTo[l].pressure());
        values.put("to temperature", endTo[l].temperature());
        return new PropertyException(PropertyException.Key.NO_CONVERGENCE, values);
    }

    /**
     * Takes a step too small to show in the pressures: the flows follow their slopes instead of their passages. Two wide passages
     * beside a narrow one may need pressure differences below the sixteenth digit, which only the slopes know.
     *
     * @param changes of each link's mass flow, kg/s
     */
    void reconcile(double[] changes) {
        for (int i : net.cavityOf) {
            if (state[i] == null) {
                find(i);
            }
            followState(i);
            stale[i] = false;
        }
        for (int l = 0; l < net.links; l++) {
            massFlow[l] += changes[l];
        }
        balances();
    }

    /** Everything that is kept fixed during a step: diffusion, carried enthalpies, swirl by through-flow. */
    void refreshLagged() {
        refreshSwirl();
        double[][] g = new double[net.links][];
        carriedEnthalpy = new double[net.links][];
        carriedSlope = new double[net.links][];
        carriedTemperature = new double[net.links][];
        fromSide = new boolean[net.links][];
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            g[l] = conductances(l);
            if (g[l] != null) {
                carry(l, g[l]);
            }
        }
        conductance = g;
        balances();
    }

    /** Molar conductance c D A / L of each stream, mol/s; null where nothing diffuses. */
    double[] conductances(int l) {
        double area = net.passage[l].diffusionArea();
        double length = net.passage[l].diffusionLength();
        int a = net.from[l];
        int b = net.to[l];
        if (!(area > 0)
                || !(length > 0)
                || net.streams < 2
                || leaving[2 * l] != null
                || leaving[2 * l + 1] != null
                || Diffusion.barred(state[a])
                || Diffusion.barred(state[b])) {
            return null;
        }
        boolean same = true;
        for (int k = 0; k < net.streams; k++) {
            same &= fraction[a][k] == fraction[b][k];
        }
        // What has diffused once keeps its conductance: without it the next guess would not know what holds the
        // mixtures together.
        boolean known = conductance[l] != null;
        if (same && !known) {
            return null;
        }
        double[] mean = new double[net.streams];
        for (int k = 0; k < net.streams; k++) {
            mean[k] = (fraction[a][k] + fraction[b][k]) / 2;
        }
        double temperature = (endFrom[l].temperature() + endTo[l].temperature()) / 2;
        // Molar concentration times beta U c: the stirred part of the diffusivity.
        double concentration = (endFrom[l].density() / molarMass[a] + endTo[l].density() / molarMass[b]) / 2;
        double speed = net.passage[l].surfaceSpeed();
        double stirred = speed > 0 ? concentration * net.stirring[l] * speed * net.passage[l].gap() : 0;
        double[] g = new double[net.streams];
        for (int k = 0; k < net.streams; k++) {
            if (!known && fraction[a][k] == 0 && fraction[b][k] == 0) {
                continue;
            }
            double molecular = net.mixer.molarDiffusivity(k, mean, temperature);
            g[k] = (molecular + stirred) * area / length;
        }
        return g;
    }

    /** Molar conductances of a link as they are with what its two cavities hold, mol/s; null where nothing diffuses. */
    double[] openConductances(int l) {
        return shareOf(conductance[l], opening(l));
    }

    /** How far both ends of a link are open for diffusion, 0 to 1. */
    double opening(int l) {
        return open[net.from[l]] * open[net.to[l]];
    }

    /** @param share how far the way is open, 0 to 1 */
    static double[] shareOf(double[] g, double share) {
        if (g == null || share == 1) {
            return g;
        }
        double[] part = new double[g.length];
        for (int k = 0; k < g.length; k++) {
            part[k] = share * g[k];
        }
        return part;
    }

    /** Specific enthalpy with which each stream diffuses: its own at the temperature of the side it comes from. */
    private void carry(int l, double[] g) {
        int a = net.from[l];
        int b = net.to[l];
        double[] h = new double[net.streams];
        double[] slope = new double[net.streams];
        double[] temperature = new double[net.streams];
        boolean[] side = new boolean[net.streams];
        double carrier = diffuse(massFlow[l], shareOf(g, opening(l)), fraction[a], fraction[b], beyondFlow);
        double fallback = state[carrier >= 0 ? a : b].enthalpy();
        for (int k = 0; k < net.streams; k++) {
            h[k] = fallback;
            double xa = fraction[a][k] / net.streamMolarMass[k] * molarMass[a];
            double xb = fraction[b][k] / net.streamMolarMass[k] * molarMass[b];
            double moved = beyondFlow[k];
            if (Math.abs(moved) <= 1e-16 * largestFlow) {
                continue;
            }
            side[k] = moved > 0;
            FluidState source = side[k] ? endFrom[l] : endTo[l];
            double partial = Math.max(1, source.pressure() * (side[k] ? xa : xb));
            try {
                FluidState own = Diffusion.carrier(net.mixer.stream(k), partial, source.temperature());
                h[k] = own.enthalpy();
                slope[k] = own.cp();
                if (Double.isNaN(slope[k])) {
                    // A wet mixture by itself has no cp, and condenses by the hair that a temperature is off.
                    double warmer = source.temperature() + WARMING;
                    FluidState next = Diffusion.carrier(net.mixer.stream(k), partial, warmer);
                    slope[k] = (next.enthalpy() - own.enthalpy()) / WARMING;
                }
                temperature[k] = source.temperature();
            } catch (PropertyException e) {
                // No state of the stream by itself at this temperature: it is taken to carry the upstream enthalpy.
                h[k] = fallback;
            }
        }
        carriedEnthalpy[l] = h;
        carriedSlope[l] = slope;
        carriedTemperature[l] = temperature;
        fromSide[l] = side;
    }

    /** Enthalpy that a stream diffuses with, at the present temperatures. */
    double carried(int l, int k) {
        double slope = carriedSlope[l][k];
        return slope == 0
                ? carriedEnthalpy[l][k]
                : carriedEnthalpy[l][k]
                        + slope * ((fromSide[l][k] ? endFrom[l] : endTo[l]).temperature() - carriedTemperature[l][k]);
    }

    private void refreshSwirl() {
        double speed = net.model.rotor().speed();
        boolean changed = false;
        double[] next = swirl.clone();
        for (int i = 0; i < net.cavities; i++) {
            if (!net.swirlFromFlow[i] || net.fixed[i]) {
                continue;
            }
            double ratio = CoreSwirl.ratio(swirlCoefficient(i));
            // Half a step: the swirl moves the pressures that move the through-flow.
            double relaxed = (swirl[i] + ratio * speed) / 2;
            if (Math.abs(relaxed - swirl[i]) > 1e-9 * Math.abs(speed)) {
                next[i] = relaxed;
                changed = true;
            }
        }
        if (changed) {
            swirl = next;
            for (int i = 0; i < net.cavities; i++) {
                stale[i] |= net.swirlFromFlow[i];
            }
            evaluate();
        }
    }

    /**
     * Flow-rate coefficient of the radial through-flow, at the radius that halves the disc's face: one swirl stands for the whole gap.
     */
    double swirlCoefficient(int i) {
        double mu = fluid[i].viscosity(state[i]);
        Cavity.Disc disc = net.cavity[i].disc();
        double radius =
                Math.sqrt(0.5 * (disc.innerRadius() * disc.innerRadius() + disc.outerRadius() * disc.outerRadius()));
        return CoreSwirl.coefficient(outwardFlow(i), radius, net.model.rotor().speed(), state[i].density(), mu);
    }

    /**
     * Mass flow outward along the disc, kg/s: what comes in nearer to the shaft than the cavity's radius passes the face inside of it, what
     * goes out farther from the shaft passes the face outside of it; the mean of the two by area. A passage without a radius ends at
     * the cavity's own.
     */
    private double outwardFlow(int i) {
        double reference = net.cavity[i].radius();
        double inside = 0;
        double outside = 0;
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l] || (net.from[l] != i && net.to[l] != i)) {
                continue;
            }
            double inward = net.to[l] == i ? massFlow[l] : -massFlow[l];
            if (net.radius[l] < reference) {
                inside += inward;
            } else if (net.radius[l] > reference) {
                outside -= inward;
            }
        }
        Cavity.Disc disc = net.cavity[i].disc();
        double inner = disc.innerRadius() * disc.innerRadius();
        double outer = disc.outerRadius() * disc.outerRadius();
        double share = Math.max(0, Math.min(1, (outer - reference * reference) / (outer - inner)));
        return share * outside + (1 - share) * inside;
    }

    private void balances() {
        Arrays.fill(mass, 0);
        Arrays.fill(energy, 0);
        Arrays.fill(through, 0);
        Arrays.fill(wallRounding, 0);
        for (double[] row : stream) {
            Arrays.fill(row, 0);
        }
        largestFlow = 0;
        largestEnergyFlow = 0;
        int streams = net.streams;
        for (int l = 0; l < net.links; l++) {
            if (!net.flowing[l]) {
                continue;
            }
            int a = net.from[l];
            int b = net.to[l];
            double[] g = openConductances(l);
            double[] f = streamFlow[l];
            double carrier = massFlow[l];
            if (g != null) {
                carrier = diffuse(massFlow[l], g, fraction[a], fraction[b], beyondFlow);
            }
            bulk[l] = carrier;
            double[] up = carriedFractions(l);
            double upEnthalpy = carriedEnthalpy(l);
            double extra = 0;
            double diffusedEnergy = 0;
            if (g != null) {
                for (int k = 0; k < streams; k++) {
                    extra += beyondFlow[k];
                    diffusedEnergy += beyondFlow[k] * carried(l, k);
                }
            }
            double all = carrier + extra;
            total[l] = all;
            for (int k = 0; k < streams; k++) {
                double diffused = g == null ? 0 : beyondFlow[k];
                f[k] = carrier * up[k] + diffused;
                stream[a][k] -= carrier * (up[k] - fraction[a][k]) + diffused - extra * fraction[a][k];
                stream[b][k] += carrier * (up[k] - fraction[b][k]) + diffused - extra * fraction[b][k];
            }
            energyFlow[l] = carrier * upEnthalpy + diffusedEnergy;
            largestFlow = Math.max(largestFlow, Math.abs(all));
            largestEnergyFlow = Math.max(
                    largestEnergyFlow, Math.max(Math.abs(energyFlow[l]), net.heatShare * Math.abs(flow[l].heat())));
            mass[a] -= all;
            mass[b] += all;
            through[a] += Math.abs(all) / 2;
            through[b] += Math.abs(all) / 2;
            energy[a] -= carrier * (upEnthalpy - enthalpy[a]) + diffusedEnergy - extra * enthalpy[a];
            energy[b] += carrier * (upEnthalpy - enthalpy[b]) + diffusedEnergy - extra * enthalpy[b];
            energy[a] += net.heatShare * flow[l].heatAtFrom();
            energy[b] += net.heatShare * flow[l].heatAtTo();
        }
        for (int i = 0; i < net.cavities; i++) {
            energy[i] += net.heatShare * windage[i];
            largestEnergyFlow = Math.max(largestEnergyFlow, net.heatShare * Math.abs(windage[i]));
        }
        for (int w = 0; w < net.wallAt.length; w++) {
            int i = net.wallAt[w];
            int j = net.wallOther[w];
            double far = j < 0 ? net.wallTemperature[w] : state[j] == null ? Double.NaN : state[j].temperature();
            if (state[i] != null && !Double.isNaN(far)) {
                double heat = net.wallConductance[w] * (far - state[i].temperature());
                energy[i] += heat;
                largestEnergyFlow = Math.max(largestEnergyFlow, Math.abs(heat));
                double rounding = Closure.wallRounding(net.wallConductance[w], far, state[i].temperature());
                wallRounding[i] += rounding;
                if (j >= 0) {
                    wallRounding[j] += rounding;
                    energy[j] -= heat;
                }
            }
        }
    }

    /**
     * Bulk flow of a link, kg/s, and the mass of each stream that diffuses on top of it, kg/s.
     *
     * @param m mass flow of the passage's law
     * @param g molar conductances
     * @param ya mass fractions at the from end
     * @param yb mass fractions at the to end
     * @param crossing filled with what diffuses
     */
    double diffuse(double m, double[] g, double[] ya, double[] yb, double[] crossing) {
        double molarA = molarMass(ya);
        double molarB = molarMass(yb);
        for (int k = 0; k < net.streams; k++) {
            difference[k] = (ya[k] * molarA - yb[k] * molarB) / net.streamMolarMass[k];
        }
        double b = Diffusion.bulk(m / (m >= 0 ? molarA : molarB), g, difference);
        for (int k = 0; k < net.streams; k++) {
            crossing[k] = net.streamMolarMass[k] * Diffusion.beyondUpwind(b, g[k]) * difference[k];
        }
        return b * (b >= 0 ? molarA : molarB);
    }

    /** Disc power into a free cavity at a state, W. */
    double windage(int i, FluidState s) {
        Cavity.Disc disc = net.cavity[i].disc();
        double speed = net.model.rotor().speed();
        if (disc == null || speed == 0 || s == null || net.unknown[i] < 0) {
            return 0;
        }
        return DiscFriction.faceTorque(
                        disc.innerRadius(),
                        disc.outerRadius(),
                        disc.gap(),
                        speed,
                        s.density(),
                        s.fluid().viscosity(s))
                * Math.abs(speed);
    }
}
