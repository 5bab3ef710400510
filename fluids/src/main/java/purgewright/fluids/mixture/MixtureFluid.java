package purgewright.fluids.mixture;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;
import purgewright.fluids.phase.StateBuffer;

/**
 * Components in one volume, each at its own partial density.
 *
 * <pre>{@code p = sum_k p_k(T, m_k/V),   h = sum_k w_k h_k(T, m_k/V),   s likewise}</pre>
 *
 * <p>V is the gas volume of one kilogram of mixture. A component below its critical temperature whose share of V would be denser
 * than its saturated vapour is <em>saturated</em>: it adds its vapour pressure, fills V with saturated vapour, and the rest of it is
 * pure liquid at the mixture's pressure. No gas dissolves in a liquid, and liquids do not mix. When every component can condense and
 * the vapour pressures together do not reach p, all is liquid and there is no V. Where they reach p exactly the mixture boils at one
 * temperature and V is free: (p,h) and (p,s) are then found through the vapour's share.
 *
 * <p>Not for phase equilibria of solutions: liquid air boils here at the temperature where the vapour pressures of its components add
 * up to p, about 3 K too cold at 0.1 MPa. A mixture of one component is exactly that component.
 *
 * <p>A share of liquid or gas below {@link #TRACE} of the mass does not set the phase's name.
 */
final class MixtureFluid implements Fluid {
    /** Mass share of a second phase below which the state keeps the first one's name. */
    static final double TRACE = 1e-6;

    private static final int EDGE =
            4; // numbers a component: dew density, vapour pressure, the target's value of vapour and of liquid
    /** Two liquids above this mass share each are a solution, of which nothing is known here. */
    private static final double SOLUTION = 0.01;

    private static final double DRIER = 1e-9; // share of its dew's density by which a vapour is not saturated
    private static final double SETTLED = 2e-12; // residuals of a solve, relative
    private static final double UNSETTLED = 1e-10; // those that no solve may leave

    /** Share of y that Newton's last step may be where y serves transport and phases: what is left is some 1e-14. */
    private static final double LAST_STEP = 1e-8;

    /** How far beside a wet state another is looked for at its own temperature: a share of the pressure, and J/kg. Invented; guards of a search. */
    private static final double BESIDE_PRESSURE = 1e-3;

    private static final double BESIDE_ENTHALPY = 2000;
    /** How far from its start a state may be found, as a share of the temperature. Invented; a guard of a search. */
    private static final double BESIDE_TEMPERATURE = 0.01;

    private final Streams streams; // for names of species; may be null in a component's own test
    private final Component[] components;
    private final double[] shares;
    private final double[] streamFractions;
    private final double gasConstant;
    private final double molarMass;
    private final String givenName;

    /**
     * @param components those present
     * @param shares mass fractions, sum 1
     */
    MixtureFluid(Streams streams, String givenName, Component[] components, double[] shares, double[] streamFractions) {
        this.streams = streams;
        this.givenName = givenName;
        this.components = components;
        this.shares = shares;
        this.streamFractions = streamFractions;
        double moles = 0;
        double r = 0;
        for (int k = 0; k < components.length; k++) {
            moles += shares[k] / components[k].molarMass();
            r += shares[k] * components[k].gasConstant();
        }
        this.molarMass = 1 / moles;
        this.gasConstant = r;
    }

    /** Sums over the components at one temperature and gas volume, and their slopes. One a thread, owned by the solve under way. */
    static final class Sums {
        static final ThreadLocal<Sums> OF_THREAD = ThreadLocal.withInitial(Sums::new);

        final Point point = new Point();
        final Point vapour = new Point();
        final Point liquid = new Point();

        /** How often components were added up so far. */
        long evaluations;

        double pressure;
        double pressureByT;
        double pressureByY;
        double enthalpy;
        double enthalpyByT;
        double enthalpyByY;
        double entropy;
        double entropyByT;
        double entropyByY;
        double volume;
        double volumeByT;
        double volumeByY;
        /** Of the liquid parts, by pressure. */
        double volumeByP;

        double entropyByP;
        double cv; // of gases and liquids as they are; of no use where anything is saturated
        /** Slopes of pressure from the gases, nothing evaporating. */
        double gasPressureByT;

        double gasPressureByY;
        double inverseVolume; // of the gas, kg/m3
        /** Of the last wet state that Newton's method found, at constant pressure, m3/J. */
        double volumeByEnthalpy;

        double gasMass;
        /** What {@link #wetMiss} keeps of each component at one temperature. */
        private double[] edges = new double[0];

        double[] edges(int components) {
            if (edges.length < EDGE * components) {
                edges = new double[EDGE * components];
            }
            return edges;
        }

        /** Inverse gas volume that goes with the guess of temperature, kg/m3; infinite when all is liquid there. */
        double guessedY;

        boolean saturated;
        boolean extrapolated;

        double target(boolean entropic) {
            return entropic ? entropy : enthalpy;
        }

        /** Heat capacity at constant pressure along the equilibrium, J/(kg K). */
        double slopeAtPressure(boolean entropic) {
            return entropic
                    ? entropyByT - entropyByY * pressureByT / pressureByY
                    : enthalpyByT - enthalpyByY * pressureByT / pressureByY;
        }
    }

    @Override
    public String name() {
        if (givenName != null) {
            return givenName;
        }
        return streams.describe(streamFractions);
    }

    @Override
    public double molarMass() {
        return molarMass;
    }

    @Override
    public Map<String, Double> moleFractions() {
        return streams.speciesMoleFractions(streamFractions);
    }

    /** Components present, in order. */
    Component[] components() {
        return components;
    }

    /** Mass fractions of the components. */
    double[] shares() {
        return shares;
    }

    /** How often this thread has added up components: what searches cost. */
    static long evaluations() {
        return Sums.OF_THREAD.get().evaluations;
    }

    // ---------------------------------------------------------------- sums

    /** Pressure alone and its slope with y, at temperature T and inverse gas volume y (kg of mixture per m3 of gas). */
    private void pressure(double t, double y, Sums sums) {
        sums.evaluations++;
        double p = 0;
        double slope = 0;
        for (int k = 0; k < components.length; k++) {
            Point point = sums.point;
            components[k].gasPressure(t, shares[k] * y, point);
            if (point.saturated) {
                p += point.saturationPressure;
            } else {
                p += point.pressure;
                slope += shares[k] * point.pressureByDensity;
            }
        }
        sums.pressure = p;
        sums.pressureByY = slope;
    }

    /** All sums at T and y; liquids at pressure p. */
    private void sum(double t, double y, double p, Sums sums) {
        sum(t, y, p, false, sums);
    }

    /** @param boiling true takes every component as saturated, where the vapour pressures add up to p and y is free */
    private void sum(double t, double y, double p, boolean boiling, Sums sums) {
        sums.evaluations++;
        clear(sums);
        double gasVolume = 1 / y;
        sums.inverseVolume = y;
        sums.volume = gasVolume;
        sums.volumeByY = -gasVolume * gasVolume;
        Point point = sums.point;
        for (int k = 0; k < components.length; k++) {
            double w = shares[k];
            double density = w * y;
            if (!boiling) {
                components[k].gas(t, density, point);
            }
            if (boiling || point.saturated) {
                sums.saturated = true;
                Point vapour = sums.vapour;
                Point liquid = sums.liquid;
                components[k].saturatedVapour(t, vapour);
                components[k].liquid(t, p, liquid);
                // The dew point moves by rounding: never more vapour than there is.
                double asVapour = Math.min(w, vapour.density * gasVolume);
                addLiquid(w - asVapour, t, liquid, sums);
                sums.pressure += vapour.saturationPressure;
                sums.enthalpy += asVapour * vapour.enthalpy;
                sums.entropy += asVapour * vapour.entropy;
                sums.gasMass += asVapour;
                double enthalpyStep = vapour.enthalpy - liquid.enthalpy;
                double entropyStep = vapour.entropy - liquid.entropy;
                double byT = vapour.densityByTemperature * gasVolume;
                sums.pressureByT += vapour.saturationSlope;
                sums.enthalpyByT += asVapour * vapour.enthalpyByTemperature + byT * enthalpyStep;
                sums.entropyByT += asVapour * vapour.entropyByTemperature + byT * entropyStep;
                sums.volumeByT -= byT / liquid.density;
                double byY = -asVapour * gasVolume;
                sums.enthalpyByY += byY * enthalpyStep;
                sums.entropyByY += byY * entropyStep;
                sums.volumeByY -= byY / liquid.density;
                sums.extrapolated |= vapour.extrapolated || liquid.extrapolated;
                continue;
            }
            sums.pressure += point.pressure;
            sums.pressureByT += point.pressureByTemperature;
            sums.pressureByY += w * point.pressureByDensity;
            sums.enthalpy += w * point.enthalpy;
            sums.enthalpyByT += w * (point.cv + point.pressureByTemperature / density);
            sums.enthalpyByY += w * (point.pressureByDensity - t * point.pressureByTemperature / density) * gasVolume;
            sums.entropy += w * point.entropy;
            sums.entropyByT += w * point.cv / t;
            sums.entropyByY -= point.pressureByTemperature * gasVolume * gasVolume;
            sums.cv += w * point.cv;
            sums.gasMass += w;
            sums.extrapolated |= point.extrapolated;
        }
    }

    private static void clear(Sums sums) {
        sums.pressure = 0;
        sums.pressureByT = 0;
        sums.pressureByY = 0;
        sums.enthalpy = 0;
        sums.enthalpyByT = 0;
        sums.enthalpyByY = 0;
        sums.entropy = 0;
        sums.entropyByT = 0;
        sums.entropyByY = 0;
        sums.volume = 0;
        sums.volumeByT = 0;
        sums.volumeByY = 0;
        sums.volumeByP = 0;
        sums.entropyByP = 0;
        sums.cv = 0;
        sums.gasMass = 0;
        sums.saturated = false;
        sums.extrapolated = false;
    }

    /** All liquid at T and p. */
    private void liquidSum(double t, double p, Sums sums) {
        clear(sums);
        for (int k = 0; k < components.length; k++) {
            components[k].liquid(t, p, sums.liquid);
            addLiquid(shares[k], t, sums.liquid, sums);
            sums.extrapolated |= sums.liquid.extrapolated;
        }
        sums.pressure = p;
    }

    private static void addLiquid(double mass, double t, Point liquid, Sums sums) {
        sums.volume += mass / liquid.density;
        sums.volumeByP += mass * liquid.volumeByPressure;
        sums.volumeByT += mass * liquid.volumeByTemperature;
        sums.entropyByP -= mass * liquid.volumeByTemperature;
        sums.enthalpy += mass * liquid.enthalpy;
        sums.entropy += mass * liquid.entropy;
        sums.enthalpyByT += mass * liquid.cp;
        sums.entropyByT += mass * liquid.cp / t;
        sums.cv += mass * liquid.cv;
    }

    // ---------------------------------------------------------------- solves

    private boolean allCondensable(double t) {
        for (Component component : components) {
            if (!component.condensable(t)) {
                return false;
            }
        }
        return true;
    }

    private double vapourPressures(double t) {
        double sum = 0;
        for (Component component : components) {
            sum += component.saturationPressure(t);
        }
        return sum;
    }

    /**
     * Inverse gas volume at T and p, kg/m3; infinite when all is liquid. Bracketed Newton on the monotone pressure.
     *
     * @param guess a first y, or NaN
     */
    double inverseVolume(double t, double p, double guess, Sums sums) {
        return inverseVolume(t, p, guess, 4e-15, sums);
    }

    /** @param enough last step, as a share of y */
    private double inverseVolume(double t, double p, double guess, double enough, Sums sums) {
        if (allCondensable(t) && p >= vapourPressures(t)) {
            return Double.POSITIVE_INFINITY;
        }
        double low = 0;
        double high = Double.POSITIVE_INFINITY;
        double y = guess > 0 && guess < Double.POSITIVE_INFINITY ? guess : p / (gasConstant * t);
        for (int i = 0; i < 200; i++) {
            double slope;
            double miss;
            try {
                pressure(t, y, sums);
                miss = sums.pressure - p;
                slope = sums.pressureByY;
            } catch (PropertyException e) {
                // Denser than the equation goes: too much pressure.
                if (low == 0 && i > 60) {
                    throw e;
                }
                miss = Double.POSITIVE_INFINITY;
                slope = 0;
            }
            if (Math.abs(miss) <= 1e-14 * p) {
                return y;
            }
            if (miss < 0) {
                low = y;
            } else {
                high = y; // NaN lands here too
            }
            double next = y - miss / slope;
            if (!(next > low && next < high)) {
                next = high == Double.POSITIVE_INFINITY ? 2 * y : low == 0 ? high / 4 : (low + high) / 2;
            }
            if (Math.abs(next - y) <= enough * y || high - low <= 1e-15 * low) {
                return next;
            }
            y = next;
        }
        throw failure(Key.NO_CONVERGENCE, "pressure", p, "temperature", t);
    }

    private PropertyException failure(Key key, String first, double a, String second, double b) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("fluid", name());
        values.put(first, a);
        values.put(second, b);
        return new PropertyException(key, values);
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        check(pressure, "temperature", temperature);
        if (!(temperature >= Component.COLDEST && temperature <= Component.HOTTEST)) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("fluid", name());
            values.put("temperature", temperature);
            values.put("minimum", Component.COLDEST);
            values.put("maximum", Component.HOTTEST);
            throw new PropertyException(Key.TEMPERATURE_OUT_OF_RANGE, values);
        }
        RealComponent alone = alone();
        if (alone != null && alone.covers(temperature)) {
            return shifted(alone, alone.fluid().atPressureTemperature(pressure, temperature));
        }
        Sums sums = Sums.OF_THREAD.get();
        double y = inverseVolume(temperature, pressure, Double.NaN, sums);
        return stateAt(temperature, y, pressure, sums);
    }

    @Override
    public double coldest() {
        return Component.COLDEST;
    }

    @Override
    public double hottest() {
        return Component.HOTTEST;
    }

    private void check(double pressure, String other, double value) {
        if (!(pressure > 0 && pressure < Double.POSITIVE_INFINITY) || Double.isNaN(value)) {
            throw failure(Key.NO_SUCH_STATE, "pressure", pressure, other, value);
        }
    }

    /** The only component when there is one and it is real, else null. */
    private RealComponent alone() {
        return components.length == 1 && components[0] instanceof RealComponent ? (RealComponent) components[0] : null;
    }

    private FluidState shifted(RealComponent alone, FluidState s) {
        return new FluidState(
                this,
                s.pressure(),
                s.temperature(),
                s.density(),
                s.enthalpy() + alone.datumShift(),
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                s.extrapolated());
    }

    private FluidState stateAt(double t, double y, double p, Sums sums) {
        if (y == Double.POSITIVE_INFINITY) {
            liquidSum(t, p, sums);
            return liquidState(t, p, sums);
        }
        sum(t, y, p, sums);
        return state(t, p, sums);
    }

    private FluidState liquidState(double t, double p, Sums sums) {
        double cp = sums.enthalpyByT;
        double v = sums.volume;
        double isentropic = sums.volumeByP + t * sums.volumeByT * sums.volumeByT / cp;
        double sound = v / Math.sqrt(-isentropic);
        return new FluidState(
                this, p, t, 1 / v, sums.enthalpy, sums.entropy, cp, sums.cv, sound, 0, Phase.LIQUID, sums.extrapolated);
    }

    /** State with some gas, from filled sums. */
    private FluidState state(double t, double p, Sums sums) {
        double v = sums.volume;
        if (!sums.saturated) {
            double byVolume = sums.pressureByY / sums.volumeByY;
            double cv = sums.cv;
            double lift = t * sums.pressureByT * sums.pressureByT;
            double cp = cv - lift / byVolume;
            double sound = v * Math.sqrt(lift / cv - byVolume);
            return new FluidState(
                    this,
                    p,
                    t,
                    1 / v,
                    sums.enthalpy,
                    sums.entropy,
                    cp,
                    cv,
                    sound,
                    1,
                    gasPhase(t, p),
                    sums.extrapolated);
        }
        if (sums.gasMass < TRACE) {
            return traceOfGas(t, p, sums);
        }
        double sound = equilibriumSound(sums);
        boolean mostlyGas = sums.gasMass > 1 - TRACE;
        double cp = Double.NaN;
        double cv = Double.NaN;
        if (mostlyGas) {
            // Of the phase that names the state, to a trace; the sound speed of the dome, a fifth lower, would begin
            // before the dome.
            double y = sums.inverseVolume;
            gasSlopes(t, y, sums);
            double stiffness = sums.gasPressureByY * y * y;
            double lift = t * sums.gasPressureByT * sums.gasPressureByT;
            cv = sums.cv;
            cp = cv + lift / stiffness;
            sound = v * Math.sqrt(lift / cv + stiffness);
        }
        return new FluidState(
                this,
                p,
                t,
                1 / v,
                sums.enthalpy,
                sums.entropy,
                cp,
                cv,
                sound,
                mostlyGas ? 1 : sums.gasMass,
                mostlyGas ? gasPhase(t, p) : Phase.TWO_PHASE,
                sums.extrapolated);
    }

    /** Slopes and heat capacity of the gases of a state that is gas but for a trace: each at its density, or just drier than its own dew. */
    private void gasSlopes(double t, double y, Sums sums) {
        Point point = sums.point;
        sums.gasPressureByT = 0;
        sums.gasPressureByY = 0;
        sums.cv = 0;
        for (int k = 0; k < components.length; k++) {
            double w = shares[k];
            components[k].gas(t, w * y, point);
            if (point.saturated) {
                components[k].saturatedVapour(t, sums.vapour);
                components[k].gas(t, sums.vapour.density * (1 - DRIER), point);
            }
            sums.gasPressureByT += point.pressureByTemperature;
            sums.gasPressureByY += w * point.pressureByDensity;
            sums.cv += w * point.cv;
        }
    }

    /**
     * A state named after its liquids has their heat capacities and sound speed; with a trace of vapour in equilibrium the sound speed would
     * be that of the dome.
     */
    private FluidState traceOfGas(double t, double p, Sums sums) {
        Point liquid = sums.liquid;
        double volume = 0;
        double byP = 0;
        double byT = 0;
        double cp = 0;
        double cv = 0;
        for (int k = 0; k < components.length; k++) {
            if (components[k].condensable(t)) {
                components[k].liquid(t, p, liquid);
                volume += shares[k] / liquid.density;
                byP += shares[k] * liquid.volumeByPressure;
                byT += shares[k] * liquid.volumeByTemperature;
                cp += shares[k] * liquid.cp;
                cv += shares[k] * liquid.cv;
            }
        }
        double sound = volume / Math.sqrt(-(byP + t * byT * byT / cp));
        return new FluidState(
                this,
                p,
                t,
                1 / sums.volume,
                sums.enthalpy,
                sums.entropy,
                cp,
                cv,
                sound,
                0,
                Phase.LIQUID,
                sums.extrapolated);
    }

    /** Homogeneous equilibrium: v^2 over -(dv/dp) at constant s, along the equilibrium surface. */
    private static double equilibriumSound(Sums sums) {
        double pT = sums.pressureByT;
        double pY = sums.pressureByY;
        double sT = sums.entropyByT + sums.entropyByP * pT;
        double sY = sums.entropyByY + sums.entropyByP * pY;
        double vT = sums.volumeByT + sums.volumeByP * pT;
        double vY = sums.volumeByY + sums.volumeByP * pY;
        double isentropic = (vT * sY - vY * sT) / (pT * sY - pY * sT);
        return sums.volume / Math.sqrt(-isentropic);
    }

    /** Kay's mole-weighted pseudo-critical point decides what a dense gas is called; nothing else hangs on it. */
    private Phase gasPhase(double t, double p) {
        double critical = 0;
        double criticalPressure = 0;
        for (int k = 0; k < components.length; k++) {
            double x = shares[k] / components[k].molarMass() * molarMass;
            critical += x * components[k].criticalTemperature();
            criticalPressure += x * components[k].criticalPressure();
        }
        return critical > 0 && t > critical && p > criticalPressure ? Phase.SUPERCRITICAL : Phase.GAS;
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return atPressureEnthalpy(pressure, enthalpy, null);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy, FluidState nearOrNull) {
        check(pressure, "enthalpy", enthalpy);
        RealComponent alone = alone();
        if (alone == null && nearOrNull != null && nearOrNull.phase() == Phase.TWO_PHASE) {
            // A wet state says where its nearest neighbours are, and nothing else.
            double up = pressure / nearOrNull.pressure();
            boolean near =
                    Math.abs(up - 1) < BESIDE_PRESSURE && Math.abs(enthalpy - nearOrNull.enthalpy()) < BESIDE_ENTHALPY;
            return from(
                    near ? new Nearby(nearOrNull.temperature(), nearOrNull.density() * up) : null,
                    pressure,
                    enthalpy,
                    false);
        }
        Nearby near = nearOrNull == null ? null : Nearby.atPressureEnthalpy(pressure, enthalpy, nearOrNull);
        if (alone != null) {
            FluidState hotter = hotter(alone, pressure, enthalpy, false, near);
            if (hotter != null) {
                return hotter;
            }
            try {
                FluidState state = alone.atPressureEnthalpy(pressure, enthalpy - alone.datumShift(), near);
                if (alone.covers(state.temperature())) {
                    return shifted(alone, state);
                }
            } catch (PropertyException e) {
                if (e.key() == Key.PRESSURE_OUT_OF_RANGE) {
                    throw e;
                }
                // Beyond the equation: the continuation below.
            }
        }
        return find(pressure, enthalpy, false, near);
    }

    @Override
    public void atPressureEnthalpyFrom(Nearby start, double pressure, double enthalpy, StateBuffer out) {
        check(pressure, "enthalpy", enthalpy);
        Sums sums = Sums.OF_THREAD.get();
        sums.volumeByEnthalpy = Double.NaN;
        FluidState state =
                alone() == null ? from(start, pressure, enthalpy, false) : atPressureEnthalpy(pressure, enthalpy, null);
        out.set(state, sums.volumeByEnthalpy);
    }

    @Override
    public void atPressureEntropyFrom(Nearby start, double pressure, double entropy, FluidState near, StateBuffer out) {
        check(pressure, "entropy", entropy);
        out.set(
                start != null && alone() == null
                        ? from(start, pressure, entropy, true)
                        : atPressureEntropy(pressure, entropy, near));
    }

    /**
     * By Newton from a start that is next to the state, else from nothing: about a component's critical temperature the sums can have a wet state
     * and a hotter, dry one, and from nothing it is always the same one.
     */
    private FluidState from(Nearby start, double pressure, double target, boolean entropic) {
        if (start != null && start.density() > 0) {
            Sums sums = Sums.OF_THREAD.get();
            double t = start.temperature();
            sums.guessedY = inverseVolumeAtDensity(t, start.density(), sums);
            FluidState state = settled(pressure, target, entropic, t, sums);
            if (state != null && Math.abs(state.temperature() - t) < BESIDE_TEMPERATURE * t) {
                return state;
            }
            sums.volumeByEnthalpy = Double.NaN;
        }
        return find(pressure, target, entropic, null);
    }

    /** Inverse gas volume at a temperature and a density of the whole, the liquids as they are where they boil. */
    private double inverseVolumeAtDensity(double t, double density, Sums sums) {
        double free = 1 / density;
        double gas = 1;
        for (int k = 0; k < components.length; k++) {
            if (components[k].condensable(t)
                    && components[k].edges(t, false, sums.liquid, sums.vapour)
                    && shares[k] * density > sums.vapour.density) {
                free -= shares[k] / sums.liquid.density;
                gas -= sums.vapour.density / sums.liquid.density;
            }
        }
        return free > 0 ? gas / free : density;
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return atPressureEntropy(pressure, entropy, null);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy, FluidState nearOrNull) {
        check(pressure, "entropy", entropy);
        Nearby near = nearOrNull == null ? null : Nearby.atPressureEntropy(pressure, entropy, nearOrNull);
        RealComponent alone = alone();
        if (alone != null) {
            FluidState hotter = hotter(alone, pressure, entropy, true, near);
            if (hotter != null) {
                return hotter;
            }
            try {
                FluidState state = alone.atPressureEntropy(pressure, entropy, near);
                if (alone.covers(state.temperature())) {
                    return shifted(alone, state);
                }
            } catch (PropertyException e) {
                if (e.key() == Key.PRESSURE_OUT_OF_RANGE) {
                    throw e;
                }
            }
        }
        return find(pressure, entropy, true, near);
    }

    /**
     * The state that {@link #find} would come to from a guess beyond the hottest temperature of a single component's equation, if it lies there
     * itself: the equation, which could only fail, is not asked. Null otherwise.
     */
    private FluidState hotter(RealComponent alone, double p, double target, boolean entropic, Nearby near) {
        if (near == null || !alone.hotter(near.temperature()) || !(near.temperature() < Component.HOTTEST)) {
            return null;
        }
        Sums sums = Sums.OF_THREAD.get();
        sums.guessedY = near.density();
        FluidState state = settled(p, target, entropic, near.temperature(), sums);
        return state != null && alone.hotter(state.temperature()) ? state : null;
    }

    /** First Newton on T and y together from a good guess, then the bracketed way; the bracketed one never depends on the guess. */
    private FluidState find(double p, double target, boolean entropic, Nearby near) {
        Sums sums = Sums.OF_THREAD.get();
        if (near != null && near.temperature() > Component.COLDEST && near.temperature() < Component.HOTTEST) {
            sums.guessedY = near.density();
            FluidState state = settled(p, target, entropic, near.temperature(), sums);
            if (state != null) {
                return state;
            }
        }
        double guess = guess(p, target, entropic, sums);
        FluidState state = settled(p, target, entropic, guess, sums);
        return state != null ? state : bracketed(p, target, entropic, guess, sums);
    }

    /** A temperature from the ideal gas; where something would condense there, from saturated phases. The volume goes with it. */
    private double guess(double p, double target, boolean entropic, Sums sums) {
        double t = 300;
        for (int i = 0; i < 8; i++) {
            double ideal = 0;
            double heat = 0;
            double y = p / (gasConstant * t);
            for (int k = 0; k < components.length; k++) {
                double w = shares[k];
                ideal += w * (entropic ? components[k].idealEntropy(t, w * y) : components[k].idealEnthalpy(t));
                heat += w * components[k].idealHeatCapacity(t);
            }
            double next = clamp(entropic ? t * Math.exp((target - ideal) / heat) : t + (target - ideal) / heat);
            boolean near = Math.abs(next - t) < 1e-3 * t;
            t = next;
            if (near) {
                break;
            }
        }
        sums.guessedY = p / (gasConstant * t);
        double dew = 0;
        boolean known = true;
        for (int k = 0; k < components.length; k++) {
            Component component = components[k];
            if (component.condensable(t)) {
                double partial = p * shares[k] / component.molarMass() * molarMass;
                if (component.saturationPressure(t) < partial) {
                    dew = Math.max(dew, dewTemperature(component, partial, t));
                    known &= component.edges(t, entropic, sums.liquid, sums.vapour);
                }
            }
        }
        if (!(dew > 0)) {
            return t;
        }
        // On the condensing side of the dew point the slopes hold the latent heat.
        double wet = 0.99 * dew;
        return known ? wetGuess(p, target, entropic, t, dew, sums) : volumeGuess(wet, p, sums);
    }

    private double volumeGuess(double t, double p, Sums sums) {
        sums.guessedY = inverseVolume(t, p, p / (gasConstant * t), sums);
        return t;
    }

    /**
     * Temperature of a wet mixture within about a thousandth, between bounds: ideal gas where a component is not saturated, the phases on
     * its saturation line where it is.
     */
    private double wetGuess(double p, double target, boolean entropic, double cold, double dew, Sums sums) {
        double low = cold;
        double high = Math.max(dew, cold * (1 + 1e-6));
        double missHigh = wetMiss(high, p, target, entropic, sums);
        if (!(missHigh < 0)) {
            return high; // hotter than the dew point after all
        }
        double missLow = wetMiss(low, p, target, entropic, sums);
        if (!(missLow > 0)) {
            return low;
        }
        double t = high;
        int side = 0;
        for (int i = 0; i < 40 && high - low > 1e-3 * low; i++) {
            double before = t;
            t = (low * missHigh - high * missLow) / (missHigh - missLow);
            double miss = wetMiss(t, p, target, entropic, sums);
            if (miss > 0) {
                low = t;
                missLow = miss;
                missHigh = side > 0 ? missHigh / 2 : missHigh;
                side = 1;
            } else {
                high = t;
                missHigh = miss;
                missLow = side < 0 ? missLow / 2 : missLow;
                side = -1;
            }
            if (Math.abs(t - before) <= 3e-4 * t) {
                break;
            }
        }
        return t;
    }

    /** How far the target lies above the estimate at a temperature; leaves the estimate of the volume. */
    private double wetMiss(double t, double p, double target, boolean entropic, Sums sums) {
        int n = components.length;
        double[] edge = sums.edges(n);
        for (int k = 0; k < n; k++) {
            int at = EDGE * k;
            boolean known = components[k].condensable(t) && components[k].edges(t, entropic, sums.liquid, sums.vapour);
            edge[at] = known ? sums.vapour.density : Double.POSITIVE_INFINITY;
            if (known) {
                double below = entropic ? 0 : (p - sums.vapour.saturationPressure) / sums.liquid.density;
                edge[at + 1] = sums.vapour.saturationPressure;
                edge[at + 2] = entropic ? sums.vapour.entropy : sums.vapour.enthalpy;
                edge[at + 3] = entropic ? sums.liquid.entropy : sums.liquid.enthalpy + below;
            }
        }
        // Volume: start with nothing saturated; whoever is denser than its dew adds its vapour pressure instead.
        double y = p / (gasConstant * t);
        for (int pass = 0; pass <= n; pass++) {
            double gas = 0;
            double free = p;
            for (int k = 0; k < n; k++) {
                if (shares[k] * y > edge[EDGE * k]) {
                    free -= edge[EDGE * k + 1];
                } else {
                    gas += shares[k] * components[k].gasConstant();
                }
            }
            double next = free > 0 ? free / (gas * t) : y; // infinite when all is liquid
            boolean settled = Math.abs(next - y) <= 1e-9 * y;
            y = next;
            if (settled || y == Double.POSITIVE_INFINITY) {
                break;
            }
        }
        sums.guessedY = y;
        double value = 0;
        for (int k = 0; k < n; k++) {
            double w = shares[k];
            int at = EDGE * k;
            if (w * y > edge[at]) {
                double asVapour = Math.min(w, edge[at] / y);
                value += asVapour * edge[at + 2] + (w - asVapour) * edge[at + 3];
            } else {
                value += w * (entropic ? components[k].idealEntropy(t, w * y) : components[k].idealEnthalpy(t));
            }
        }
        return target - value;
    }

    private static double clamp(double t) {
        return Math.max(1.5 * Component.COLDEST, Math.min(0.999 * Component.HOTTEST, t));
    }

    /** Where the vapour pressure reaches the partial pressure, roughly: a straight line in ln p over 1/T. */
    private static double dewTemperature(Component component, double partial, double from) {
        double low = from;
        double high = 0.999 * component.criticalTemperature();
        if (component.saturationPressure(high) <= partial) {
            return high;
        }
        double ln = Math.log(partial);
        double x0 = 1 / low;
        double f0 = Math.log(Math.max(1e-290, component.saturationPressure(low))) - ln;
        double x1 = 1 / high;
        double f1 = Math.log(component.saturationPressure(high)) - ln;
        for (int i = 0; i < 6; i++) {
            double x = x0 - f0 * (x1 - x0) / (f1 - f0);
            double f = Math.log(Math.max(1e-290, component.saturationPressure(1 / x))) - ln;
            if (Math.abs(f) < 0.01) {
                return 1 / x;
            }
            if (f < 0) {
                x0 = x;
                f0 = f;
                f1 /= 2;
            } else {
                x1 = x;
                f1 = f;
                f0 /= 2;
            }
        }
        return 2 / (x0 + x1);
    }

    /** Newton's method that suits the start; null when it does not settle. */
    private FluidState settled(double p, double target, boolean entropic, double start, Sums sums) {
        return allLiquid(start, p)
                ? liquidNewton(p, target, entropic, start, sums)
                : newton(p, target, entropic, start, sums);
    }

    private boolean allLiquid(double t, double p) {
        return components.length > 1 && allCondensable(t) && p > vapourPressures(t);
    }

    /** Newton on T with everything liquid; null when it does not settle, or where something boils. */
    private FluidState liquidNewton(double p, double target, boolean entropic, double start, Sums sums) {
        double t = start;
        double before = Double.POSITIVE_INFINITY;
        try {
            for (int i = 0; i < 12; i++) {
                liquidSum(t, p, sums);
                double slope = entropic ? sums.enthalpyByT / t : sums.enthalpyByT;
                double miss = target - sums.target(entropic);
                double relative = Math.abs(miss) / (Math.abs(slope) * t);
                // Liquids near their melting line are known to 1e-11 only.
                if (relative <= 1e-13 || (relative <= 1e-11 && relative >= before)) {
                    return allLiquid(t, p) ? liquidState(t, p, sums) : null;
                }
                before = relative;
                double next = t + miss / slope;
                if (!(next > 0.9 * t && next < 1.1 * t) || !allCondensable(next)) {
                    return null;
                }
                t = next;
            }
        } catch (PropertyException e) {
            return null;
        }
        return null;
    }

    /** Newton on (T, y); null when it does not settle on a state with gas in it. */
    private FluidState newton(double p, double target, boolean entropic, double start, Sums sums) {
        double t = start;
        double y = sums.guessedY;
        double before = Double.POSITIVE_INFINITY;
        if (!(y > 0 && y < Double.POSITIVE_INFINITY)) {
            return null;
        }
        try {
            for (int i = 0; i < 25; i++) {
                sum(t, y, p, sums);
                double missP = p - sums.pressure;
                double missT = target - sums.target(entropic);
                double pT = sums.pressureByT;
                double pY = sums.pressureByY;
                double gT = entropic ? sums.entropyByT : sums.enthalpyByT;
                double gY = entropic ? sums.entropyByY : sums.enthalpyByY;
                double heat = Math.abs(gT);
                double relative = Math.max(Math.abs(missP) / p, Math.abs(missT) / (heat * t));
                double determinant = pT * gY - pY * gT;
                if (relative <= SETTLED || (relative <= UNSETTLED && relative >= before)) {
                    sums.volumeByEnthalpy = entropic || !sums.saturated
                            ? Double.NaN
                            : (sums.volumeByY * pT - sums.volumeByT * pY) / determinant;
                    return state(t, p, sums);
                }
                double dt = (missP * gY - pY * missT) / determinant;
                double dy = (pT * missT - missP * gT) / determinant;
                if (!(Math.abs(dt) < Double.POSITIVE_INFINITY && Math.abs(dy) < Double.POSITIVE_INFINITY)) {
                    return null;
                }
                before = relative;
                t = Math.max(0.6 * t, Math.min(1.6 * t, t + dt));
                y = Math.max(0.2 * y, Math.min(5 * y, y + dy));
                if (t < Component.COLDEST || t > Component.HOTTEST) {
                    return null;
                }
                if (i > 3 && allCondensable(t) && p >= vapourPressures(t)) {
                    return null;
                }
            }
        } catch (PropertyException e) {
            return null;
        }
        return null;
    }

    /** Temperature (K) at which the vapour pressures add up to p, or NaN: some component never condenses or p is above all that. */
    double boilingTemperature(double p) {
        double upper = Component.HOTTEST;
        for (Component component : components) {
            upper = Math.min(upper, component.criticalTemperature());
        }
        if (!(upper > 0)) {
            return Double.NaN;
        }
        double b = upper * (1 - 1e-9);
        double fb = Math.log(vapourPressures(b) / p);
        if (!(fb > 0)) {
            return Double.NaN;
        }
        double a = Component.COLDEST;
        double fa = Math.log(Math.max(1e-290, vapourPressures(a)) / p);
        if (!(fa < 0)) {
            return Double.NaN;
        }
        // Illinois in 1/T, along which ln p is nearly straight, with a halving of T when it drags.
        double xa = 1 / a;
        double xb = 1 / b;
        for (int i = 0; i < 100; i++) {
            double x = i % 8 == 7 ? (xa + xb) / 2 : xb - fb * (xb - xa) / (fb - fa);
            double f = Math.log(Math.max(1e-290, vapourPressures(1 / x)) / p);
            if (Math.abs(f) <= 1e-14 || Math.abs(xa - xb) <= 1e-15 * xb) {
                return 1 / x;
            }
            if (f < 0) {
                xa = x;
                fa = f;
                fb /= 2;
            } else {
                xb = x;
                fb = f;
                fa /= 2;
            }
        }
        return 2 / (xa + xb);
    }

    /** The way that always ends: bracket in T, gas volume inside, boiling at one temperature by the vapour's share. */
    FluidState bracketed(double p, double target, boolean entropic, double guess, Sums sums) {
        double low = Component.COLDEST;
        double high = Component.HOTTEST;
        double boiling = boilingTemperature(p);
        if (!Double.isNaN(boiling)) {
            liquidSum(boiling, p, sums);
            double wet = sums.target(entropic);
            double full = boiledVolume(boiling);
            sum(boiling, 1 / full, p, true, sums);
            double dry = sums.target(entropic);
            if (target >= wet && target <= dry) {
                double share = (target - wet) / (dry - wet);
                return boilingState(boiling, p, share, full, sums);
            }
            if (target < wet) {
                high = boiling;
            } else {
                low = boiling;
            }
        }
        double t = Math.max(low, Math.min(high, guess));
        if (t <= low) {
            t = Math.min(1.02 * low, (low + high) / 2);
        } else if (t >= high) {
            t = Math.max(0.98 * high, (low + high) / 2);
        }
        double y = Double.NaN;
        boolean lowSet = false;
        boolean highSet = false;
        double factor = 1.1;
        int dragging = 0;
        for (int i = 0; i < 300; i++) {
            y = inverseVolume(t, p, y, sums);
            double slope;
            if (y == Double.POSITIVE_INFINITY) {
                liquidSum(t, p, sums);
                slope = entropic ? sums.enthalpyByT / t : sums.enthalpyByT;
            } else {
                sum(t, y, p, sums);
                slope = sums.slopeAtPressure(entropic);
            }
            double miss = target - sums.target(entropic);
            double scale = Math.abs(slope) * t;
            // Liquids near their melting line are known to 1e-11 only.
            if (Math.abs(miss) <= (i < 20 ? 1e-13 : 1e-11) * scale) {
                return found(t, y, p, target, entropic, sums);
            }
            double width = high - low;
            if (miss > 0) {
                low = t;
                lowSet = true;
            } else {
                high = t;
                highSet = true;
            }
            if (high - low <= 4e-15 * high) {
                return Math.abs(miss) <= 1e-9 * scale
                        ? found(t, y, p, target, entropic, sums)
                        : between(low, high, p, target, entropic, sums);
            }
            dragging = high - low > 0.5 * width ? dragging + 1 : 0;
            double next = slope > 0 ? t + miss / slope : Double.NaN;
            if (lowSet && highSet) {
                if (!(next > low && next < high) || dragging > 3 || i > 60) {
                    next = (low + high) / 2;
                    dragging = 0;
                }
            } else {
                double reach = miss > 0 ? Math.min(high, t * factor) : Math.max(low, t / factor);
                factor = Math.min(4, factor * 1.3);
                if (!(next > low && next < high) || (next - t) / (reach - t) > 1) {
                    next = reach;
                }
                if (next >= high || next <= low) {
                    next = (t + (miss > 0 ? high : low)) / 2;
                }
                if (Math.abs(next - t) <= 1e-13 * t) {
                    if (miss > 0 ? high == boiling : low == boiling) {
                        return found(t, y, p, target, entropic, sums);
                    }
                    throw failure(Key.NO_SUCH_STATE, "pressure", p, entropic ? "entropy" : "enthalpy", target);
                }
            }
            if (Math.abs(next - t) <= 1e-15 * t && Math.abs(miss) <= 1e-9 * scale) {
                return found(t, y, p, target, entropic, sums);
            }
            t = next;
        }
        throw failure(Key.NO_CONVERGENCE, "pressure", p, entropic ? "entropy" : "enthalpy", target);
    }

    /**
     * The state at T and y, which {@code sums} holds, or a closer one where its entropy or enthalpy is still off: the dome of a mixture that is
     * one component but for a trace is so narrow in T (1e-10 for 1e-8 of helium) that the last digits of T leave its quality open by some
     * thousandths. T and y together tell it.
     */
    private FluidState found(double t, double y, double p, double target, boolean entropic, Sums sums) {
        if (y == Double.POSITIVE_INFINITY) {
            return liquidState(t, p, sums);
        }
        double heat = Math.abs(entropic ? sums.entropyByT : sums.enthalpyByT);
        if (Math.abs(target - sums.target(entropic)) > UNSETTLED * heat * t) {
            sums.guessedY = y;
            FluidState closer = newton(p, target, entropic, t, sums);
            if (closer != null) {
                return closer;
            }
            sum(t, y, p, sums);
        }
        return state(t, p, sums);
    }

    /** The gas volume at which the first component of a boiling mixture is used up, m3 per kg of mixture. */
    private double boiledVolume(double t) {
        Point vapour = new Point();
        double volume = Double.POSITIVE_INFINITY;
        for (int k = 0; k < components.length; k++) {
            components[k].saturatedVapour(t, vapour);
            volume = Math.min(volume, shares[k] / vapour.density);
        }
        return volume;
    }

    private FluidState boilingState(double t, double p, double share, double full, Sums sums) {
        double volume = Math.max(share, 1e-9) * full; // slopes need some vapour
        sum(t, 1 / volume, p, true, sums);
        if (sums.gasMass < TRACE) {
            return traceOfGas(t, p, sums); // named as its neighbours are
        }
        double sound = equilibriumSound(sums);
        return new FluidState(
                this,
                p,
                t,
                1 / sums.volume,
                sums.enthalpy,
                sums.entropy,
                Double.NaN,
                Double.NaN,
                sound,
                sums.gasMass,
                Phase.TWO_PHASE,
                sums.extrapolated);
    }

    /** A jump between two neighbouring temperatures (a component's critical temperature): both states side by side. */
    private FluidState between(double low, double high, double p, double target, boolean entropic, Sums sums) {
        FluidState cold = stateAt(low, inverseVolume(low, p, Double.NaN, sums), p, sums);
        FluidState warm = stateAt(high, inverseVolume(high, p, Double.NaN, sums), p, sums);
        double from = entropic ? cold.entropy() : cold.enthalpy();
        double to = entropic ? warm.entropy() : warm.enthalpy();
        double share = Math.max(0, Math.min(1, (target - from) / (to - from)));
        double v = (1 - share) / cold.density() + share / warm.density();
        double compress = (1 - share) / Math.pow(cold.density() * cold.soundSpeed(), 2)
                + share / Math.pow(warm.density() * warm.soundSpeed(), 2);
        return new FluidState(
                this,
                p,
                high,
                1 / v,
                (1 - share) * cold.enthalpy() + share * warm.enthalpy(),
                (1 - share) * cold.entropy() + share * warm.entropy(),
                Double.NaN,
                Double.NaN,
                v / Math.sqrt(compress),
                (1 - share) * cold.quality() + share * warm.quality(),
                Phase.TWO_PHASE,
                cold.extrapolated() || warm.extrapolated());
    }

    // ---------------------------------------------------------------- phases and transport

    /**
     * Inverse gas volume of a state of this fluid, kg/m3; infinite for a liquid. From the state's density, so that a boiling state
     * is told from its neighbours.
     */
    private double inverseVolume(FluidState state) {
        double t = state.temperature();
        Sums sums = Sums.OF_THREAD.get();
        if (state.phase() == Phase.LIQUID && state.quality() == 0 && allCondensable(t)) {
            return Double.POSITIVE_INFINITY;
        }
        boolean free = allCondensable(t) && Math.abs(vapourPressures(t) - state.pressure()) <= 1e-7 * state.pressure();
        if (!free) {
            return inverseVolume(t, state.pressure(), state.density(), LAST_STEP, sums);
        }
        // Boiling: the volume is linear in the gas volume.
        double full = boiledVolume(t);
        sum(t, 1 / full, state.pressure(), true, sums);
        double dry = sums.volume;
        liquidSum(t, state.pressure(), sums);
        double wet = sums.volume;
        double share = (1 / state.density() - wet) / (dry - wet);
        if (share > 1) {
            return inverseVolume(t, state.pressure(), state.density(), LAST_STEP, sums);
        }
        return share <= 0 ? Double.POSITIVE_INFINITY : 1 / (share * full);
    }

    /** What the gas and the liquids of a state hold, by component: masses as shares of the whole. */
    private double[][] masses(FluidState state, double y) {
        double[] gas = new double[components.length];
        double[] liquid = new double[components.length];
        Point point = new Point();
        for (int k = 0; k < components.length; k++) {
            gas[k] = shares[k];
            if (y == Double.POSITIVE_INFINITY) {
                gas[k] = 0;
            } else {
                components[k].gas(state.temperature(), shares[k] * y, point);
                if (point.saturated) {
                    components[k].saturatedVapour(state.temperature(), point);
                    gas[k] = Math.min(shares[k], point.density / y);
                }
            }
            liquid[k] = shares[k] - gas[k];
        }
        return new double[][] {gas, liquid};
    }

    /** See {@link StreamMixer#split}. */
    StreamMixer.PhaseSplit split(FluidState state) {
        double[][] masses;
        RealComponent alone = alone();
        if (alone != null && alone.covers(state.temperature())) {
            double quality = state.phase() == Phase.LIQUID ? 0 : state.phase() == Phase.TWO_PHASE ? state.quality() : 1;
            masses = new double[][] {{quality}, {1 - quality}};
        } else {
            masses = masses(state, inverseVolume(state));
        }
        Map<String, Double> gas = new LinkedHashMap<>();
        Map<String, Double> condensed = new LinkedHashMap<>();
        Map<String, Double> frozen = new LinkedHashMap<>();
        double moles = 0;
        for (int k = 0; k < components.length; k++) {
            moles += masses[0][k] / components[k].molarMass();
        }
        for (int k = 0; k < components.length; k++) {
            Component component = components[k];
            double x = moles > 0 ? masses[0][k] / component.molarMass() / moles : 0;
            if (x > 0) {
                component.species().forEach((name, part) -> gas.merge(streams.key(name), x * part, Double::sum));
            }
            if (masses[1][k] > 0) {
                condensed.merge(streams.key(component.name()), masses[1][k], Double::sum);
            }
            if (state.temperature() < component.tripleTemperature()) {
                frozen.put(streams.key(component.name()), component.tripleTemperature());
            }
        }
        return new StreamMixer.PhaseSplit(gas, condensed, frozen);
    }

    /** See {@link StreamMixer#unlikeError}. */
    double unlikeError(FluidState state) {
        if (components.length == 1) {
            return 0;
        }
        double t = state.temperature();
        double y = state.phase() == Phase.GAS || state.phase() == Phase.SUPERCRITICAL
                ? state.density()
                : inverseVolume(state);
        double[][] masses = masses(state, y);
        int liquids = 0;
        for (double liquid : masses[1]) {
            liquids += liquid > SOLUTION ? 1 : 0;
        }
        if (liquids > 1) {
            return Double.NaN;
        }
        double sum = 0;
        for (int i = 0; i < components.length; i++) {
            for (int j = i + 1; j < components.length; j++) {
                double[] a = components[i].criticalConstants();
                double[] b = components[j].criticalConstants();
                double moles = masses[0][i] / components[i].molarMass() * masses[0][j] / components[j].molarMass();
                if (moles > 0) {
                    sum += 2 * moles * UnlikePairs.virial(t, a, b);
                }
            }
        }
        double gasMoles = 0;
        double gasMass = 0;
        for (int k = 0; k < components.length; k++) {
            gasMass += masses[0][k];
            gasMoles += masses[0][k] / components[k].molarMass();
        }
        // Of the gas; in a wet state of the share of the volume that gas has.
        double share = gasMass > 0 && y < Double.POSITIVE_INFINITY ? Math.min(1, state.density() / y) : 0;
        return gasMoles > 0 ? share * sum / gasMoles * y : 0;
    }

    @Override
    public double viscosity(FluidState state) {
        return transport(state, true);
    }

    @Override
    public double conductivity(FluidState state) {
        return transport(state, false);
    }

    private double transport(FluidState state, boolean viscosity) {
        double t = state.temperature();
        double p = state.pressure();
        RealComponent alone = alone();
        if (alone != null && alone.covers(t)) {
            PureFluid fluid = alone.fluid();
            FluidState own = new FluidState(
                    fluid,
                    p,
                    t,
                    state.density(),
                    state.enthalpy() - alone.datumShift(),
                    state.entropy(),
                    state.cp(),
                    state.cv(),
                    state.soundSpeed(),
                    state.quality(),
                    state.phase(),
                    state.extrapolated());
            return viscosity ? fluid.viscosity(own) : fluid.conductivity(own);
        }
        boolean gasOnly = state.phase() == Phase.GAS || state.phase() == Phase.SUPERCRITICAL;
        double y = gasOnly ? state.density() : inverseVolume(state);
        double[][] masses = masses(state, y);
        double gasMass = 0;
        double moles = 0;
        for (int k = 0; k < components.length; k++) {
            gasMass += masses[0][k];
            moles += masses[0][k] / components[k].molarMass();
        }
        double sum = 0;
        if (gasMass > 0) {
            double gas = gasTransport(t, y, masses[0], moles, viscosity);
            sum = viscosity ? gasMass / gas : gasMass * gas;
        }
        for (int k = 0; k < components.length; k++) {
            double mass = masses[1][k];
            if (mass > 0) {
                sum += viscosity
                        ? mass / components[k].liquidViscosity(t, p)
                        : mass * components[k].liquidConductivity(t, p);
            }
        }
        return viscosity ? 1 / sum : sum;
    }

    private double gasTransport(double t, double y, double[] gas, double moles, boolean viscosity) {
        int n = components.length;
        double[] fractions = new double[n];
        double[] viscosities = new double[n];
        double[] conductivities = new double[n];
        double[] molarMasses = new double[n];
        for (int k = 0; k < n; k++) {
            double density = gas[k] * y;
            molarMasses[k] = components[k].molarMass();
            fractions[k] = gas[k] / molarMasses[k] / moles;
            if (!(fractions[k] > 0)) {
                continue;
            }
            viscosities[k] = components[k].gasViscosity(t, density);
            if (!viscosity) {
                conductivities[k] = components[k].gasConductivity(t, density);
            }
        }
        return viscosity
                ? GasTransport.wilke(fractions, viscosities, molarMasses)
                : GasTransport.masonSaxena(fractions, viscosities, conductivities, molarMasses);
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        double cp = 0;
        for (int k = 0; k < components.length; k++) {
            cp += shares[k] * components[k].idealHeatCapacity(temperature);
        }
        return cp / (cp - gasConstant);
    }

    @Override
    public double criticalDensity() {
        RealComponent alone = alone();
        if (alone != null) {
            return alone.fluid().criticalDensity();
        }
        double volume = 0; // m3 per kg
        for (int k = 0; k < components.length; k++) {
            volume += shares[k] / components[k].molarMass() * components[k].criticalMolarVolume();
        }
        return 1 / volume;
    }
}
