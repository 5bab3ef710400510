package purgewright.fluids.phase;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.CRC32;
import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;
import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;
import purgewright.fluids.transport.Anchors;
import purgewright.fluids.transport.Conductivity;
import purgewright.fluids.transport.Viscosity;

/**
 * A pure fluid from its published equation of state.
 *
 * <p>States are found on a written ladder: the saturation line (which cannot fail) says which side a state lies on and brackets it;
 * Newton's method with a good guess runs inside the bracket; a step that leaves the bracket or gains nothing becomes a bisection. A
 * state is therefore found or a typed error thrown; nothing hangs.
 *
 * <p>Limits: below the triple temperature, above the library's temperature or pressure, and beyond the melting line there is an error;
 * between the published limits and the library's the state is flagged {@code extrapolated}. Immutable and thread safe; each thread has
 * its own scratch memory.
 */
public final class EmbeddedFluid implements PureFluid {
    private static final int MAXIMUM_ITERATIONS = 100;
    /** Relative error of enthalpy or entropy at which a search ends: well inside what (p, T) states carry. */
    private static final double SETTLED = 1e-11;

    /** A state on a limit that comes back from another pair of properties is still on it. */
    private static final double ROUNDING = 1e-9;

    /** Share of the liquid-vapour gap by which a saturated density may be off and still bracket a root on the stable branch. */
    private static final double BRACKET_SLACK = 1e-3;

    /** Below this sqrt(1 - T/Tc) slopes of the saturation line come from the equation: the expansions' own are less sure there. */
    private static final double NEAR_CRITICAL = 0.1;

    private final String name;
    private final String formula;
    private final Coefficients coefficients;
    private final HelmholtzEquation equation;
    private final SaturationLine saturation;
    private final MeltingLine melting;
    private final Viscosity viscosity;
    private final Conductivity conductivity;
    private final double gasConstant;
    private final double tc;
    private final double pc;
    private final double rhoc;
    private final double minimumTemperature;
    private final double maximumTemperature;
    private final double maximumPressure;
    private final double publishedTemperature;
    private final double publishedPressure;
    private final double acentric;
    private final double criticalEnthalpy;
    private final double criticalEntropy;
    /** Above this pressure a supercritical state may be solid. */
    private final double leastSupercriticalMelting;

    private final double[][] surface;
    private final double surfaceCritical;
    private static final double GUESS_FINENESS = 0.7;
    /** Starting values for searches along isobars; null until {@link #prepare}. */
    private volatile TabulatedFluid guesses;

    private final ThreadLocal<Scratch> scratch = ThreadLocal.withInitial(Scratch::new);

    private final class Scratch {
        final Workspace main = equation.workspace();
        final Workspace other = equation.workspace();
        final StateBuffer buffer = new StateBuffer();
        final SaturationLine.Edge liquid = new SaturationLine.Edge();
        final SaturationLine.Edge vapour = new SaturationLine.Edge();
        final double[] guess = new double[2];
        /** Result of a density search besides the density: slopes are left in {@code main}. */
        double spinodalPressure;
    }

    private EmbeddedFluid(String name) {
        this.name = name;
        coefficients = Coefficients.read(name + ".eos");
        formula = coefficients.text("formula");
        equation = new HelmholtzEquation(coefficients);
        saturation = new SaturationLine(Coefficients.read(name + ".sat"));
        melting = new MeltingLine(coefficients);
        gasConstant = equation.gasConstant();
        tc = saturation.criticalTemperature();
        pc = saturation.criticalPressure();
        rhoc = saturation.criticalDensity();
        acentric = coefficients.number("acentric");
        criticalEnthalpy = saturation.liquidEnthalpy(0);
        criticalEntropy = saturation.liquidEntropy(0);
        minimumTemperature = coefficients.number("triple.temperature");
        maximumTemperature = coefficients.number("limit.temperature");
        maximumPressure = coefficients.number("limit.pressure");
        publishedTemperature = coefficients.number("published.temperature");
        publishedPressure = coefficients.number("published.pressure");
        leastSupercriticalMelting = melting.pressure(tc);
        surface = coefficients.table("surface.term");
        surfaceCritical = surface.length > 0 ? coefficients.number("surface.critical") : Double.NaN;
        Anchors anchors = new Anchors(tc, rhoc, saturation::vapourDensityAt);
        viscosity = Viscosity.of(coefficients, equation, anchors);
        conductivity = Conductivity.of(coefficients, equation, anchors);
    }

    /** Loads a fluid by its file's name, for instance {@code nitrogen}. */
    public static EmbeddedFluid load(String name) {
        return new EmbeddedFluid(name);
    }

    // ---- what it is ----

    @Override
    public String name() {
        return name;
    }

    @Override
    public double molarMass() {
        return equation.molarMass();
    }

    @Override
    public Map<String, Double> moleFractions() {
        return Map.of(name, 1.0);
    }

    @Override
    public double criticalTemperature() {
        return tc;
    }

    @Override
    public double criticalPressure() {
        return pc;
    }

    @Override
    public double criticalDensity() {
        return rhoc;
    }

    @Override
    public double tripleTemperature() {
        return minimumTemperature;
    }

    /** Pressure of the saturation line's cold end, Pa. */
    public double triplePressure() {
        return saturation.triplePressure();
    }

    @Override
    public double maximumTemperature() {
        return maximumTemperature;
    }

    @Override
    public double maximumPressure() {
        return maximumPressure;
    }

    @Override
    public double publishedMaximumTemperature() {
        return publishedTemperature;
    }

    @Override
    public double publishedMaximumPressure() {
        return publishedPressure;
    }

    @Override
    public String referenceState() {
        return coefficients.text("reference");
    }

    @Override
    public String equationSource() {
        return String.join("; ", coefficients.texts("source.equation"));
    }

    @Override
    public TransportSource transportSource() {
        return new TransportSource(
                viscosity.source(), viscosity.estimate(), conductivity.source(), conductivity.estimate());
    }

    /** Chemical formula. */
    public String formula() {
        return formula;
    }

    /** A number that changes with any coefficient or expansion of this fluid: what a stored table is bound to. */
    long fingerprint() {
        CRC32 crc = new CRC32();
        for (String file : new String[] {name + ".eos", name + ".sat"}) {
            try (InputStream stream = Coefficients.class.getResourceAsStream(file)) {
                crc.update(stream.readAllBytes());
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return crc.getValue();
    }

    /** How often this thread has evaluated the equation for this fluid's states: what its searches cost. */
    long evaluations() {
        Scratch s = scratch.get();
        return s.main.evaluations() + s.other.evaluations();
    }

    /** The equation behind the states. */
    public HelmholtzEquation equation() {
        return equation;
    }

    /** The saturation line behind the states. */
    public SaturationLine saturationLine() {
        return saturation;
    }

    // ---- limits ----

    private PropertyException error(Key key, Object... namesAndValues) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("fluid", name);
        for (int i = 0; i < namesAndValues.length; i += 2) {
            values.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return new PropertyException(key, values);
    }

    private void requirePressure(double pressure) {
        if (!(pressure > 0 && pressure <= maximumPressure * (1 + 1e-9))) {
            throw error(Key.PRESSURE_OUT_OF_RANGE, "pressure", pressure, "minimum", 0.0, "maximum", maximumPressure);
        }
    }

    private void requireTemperature(double temperature) {
        if (!(temperature >= minimumTemperature * (1 - ROUNDING)
                && temperature <= maximumTemperature * (1 + ROUNDING))) {
            throw error(
                    Key.TEMPERATURE_OUT_OF_RANGE,
                    "temperature",
                    temperature,
                    "minimum",
                    minimumTemperature,
                    "maximum",
                    maximumTemperature);
        }
    }

    private void requireFluid(double pressure, double temperature) {
        if (temperature < tc || pressure > leastSupercriticalMelting) {
            if (pressure > saturation.triplePressure() && pressure > melting.pressure(temperature) * (1 + 1e-9)) {
                throw error(Key.SOLID, "temperature", temperature, "pressure", pressure);
            }
        }
    }

    // ---- density on an isotherm ----

    /**
     * Density at a pressure on the isotherm set in the workspace, inside a bracket; pressure rises with density in it.
     *
     * @param low density at which pressure is below the asked one
     * @param high density at which it is above, may be infinite
     */
    private double density(Workspace w, double pressure, double low, double high, double guess) {
        double lo = low;
        double hi = high;
        double rho = guess;
        boolean third = equation.hasThirdDerivative();
        double lastError = Double.POSITIVE_INFINITY;
        for (int i = 0; i < MAXIMUM_ITERATIONS; i++) {
            equation.setDensityForPressure(w, rho);
            double error = equation.pressure(w) - pressure;
            double slope = equation.pressureSlope(w);
            if (error == 0) {
                return rho;
            }
            if (error < 0) {
                lo = rho;
            } else {
                hi = rho;
            }
            double size = Math.abs(error);
            double step = -error / slope;
            double settled = 1e-9;
            if (third) {
                double bend = 0.5 * step * equation.pressureCurvature(w) / slope;
                if (Math.abs(bend) < 0.5) {
                    step /= 1 + bend;
                    settled = 1e-7;
                }
            }
            double next = rho + step;
            boolean inside = slope > 0 && next > lo && next < hi;
            if (Math.abs(step) < 1e-14 * rho && slope > 0) {
                return rho;
            }
            if (Double.isInfinite(hi)) {
                // walk up in small strides: far beyond the answer an equation may bend down again
                double stride = rho + 0.25 * Math.max(rho, rhoc);
                next = inside ? Math.min(next, stride) : error < 0 ? stride : 0.5 * (lo + rho);
            } else if (!inside || (size > 0.7 * lastError && i > 3)) {
                next = 0.5 * (lo + hi);
                if (hi - lo <= 4e-16 * hi) {
                    return rho;
                }
            }
            lastError = size;
            if (Math.abs(next - rho) < settled * rho && next == rho + step) {
                return next;
            }
            if (next > 8 * rhoc) {
                break;
            }
            rho = next;
        }
        throw error(Key.NO_CONVERGENCE, "pressure", pressure, "temperature", w.temperature());
    }

    /** Density of the stable phase, with the isotherm set. */
    private double stableDensity(Workspace w, double pressure, double temperature) {
        if (temperature < tc) {
            double x = saturation.x(temperature);
            if (pressure > saturation.pressure(x)) {
                return liquidDensity(w, pressure, x);
            }
            return vapourDensity(w, pressure, temperature, x);
        }
        return supercriticalDensity(w, pressure, temperature);
    }

    private double liquidDensity(Workspace w, double pressure, double x) {
        double liquid = saturation.liquidDensity(x);
        double gap = liquid - saturation.vapourDensity(x);
        double slack = BRACKET_SLACK * gap;
        equation.setDensityForPressure(w, liquid);
        // Murnaghan's law: the bulk modulus of a liquid rises about sevenfold with pressure
        double modulus = liquid * equation.pressureSlope(w);
        double excess = Math.max(0, pressure - saturation.pressure(x));
        double guess = modulus > 0 ? liquid * Math.pow(1 + 7 * excess / modulus, 1.0 / 7) : liquid;
        if (!(guess < 1.5 * liquid)) {
            guess = 1.5 * liquid;
        }
        return density(w, pressure, liquid - slack, Double.POSITIVE_INFINITY, guess);
    }

    private double vapourDensity(Workspace w, double pressure, double temperature, double x) {
        double vapour = saturation.vapourDensity(x);
        double slack = BRACKET_SLACK * (saturation.liquidDensity(x) - vapour);
        double rt = gasConstant * temperature;
        double share = pressure / saturation.pressure(x);
        double compressibility = 1 + (saturation.pressure(x) / (vapour * rt) - 1) * share;
        double guess = Math.min(pressure / (rt * compressibility), vapour);
        return density(w, pressure, 0, vapour + slack, guess);
    }

    private double supercriticalDensity(Workspace w, double pressure, double temperature) {
        double ideal = pressure / (gasConstant * temperature);
        double b = equation.secondVirial(w) * ideal;
        double guess;
        if (Math.abs(b) < 0.1 && ideal < 0.5 * rhoc) {
            guess = ideal * 2 / (1 + Math.sqrt(1 + 4 * b));
        } else {
            guess = cubicGuess(pressure, temperature);
        }
        return density(w, pressure, 0, Double.POSITIVE_INFINITY, guess);
    }

    /** Density by the cubic equation of D.-Y. Peng and D. B. Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59; a guess only. */
    private double cubicGuess(double pressure, double temperature) {
        double kappa = Math.max(0.2, 0.37464 + 1.54226 * acentric - 0.26992 * acentric * acentric);
        double root = Math.max(0, 1 + kappa * (1 - Math.sqrt(temperature / tc)));
        double rt = gasConstant * temperature;
        double bigA = 0.45724 * root * root * gasConstant * gasConstant * tc * tc / pc * pressure / (rt * rt);
        double bigB = 0.0778 * gasConstant * tc / pc * pressure / rt;
        double c2 = bigB - 1;
        double c1 = bigA - 3 * bigB * bigB - 2 * bigB;
        double c0 = bigB * (bigB * bigB + bigB - bigA);
        double q = (c2 * c2 - 3 * c1) / 9;
        double r = (2 * c2 * c2 * c2 - 9 * c2 * c1 + 27 * c0) / 54;
        double z;
        double discriminant = r * r - q * q * q;
        if (discriminant < 0) {
            double theta = Math.acos(r / Math.sqrt(q * q * q));
            z = -2 * Math.sqrt(q) * Math.cos((theta + 2 * Math.PI) / 3) - c2 / 3; // largest root
        } else {
            double s = -Math.copySign(Math.cbrt(Math.abs(r) + Math.sqrt(discriminant)), r);
            z = s + (s == 0 ? 0 : q / s) - c2 / 3;
        }
        z = Math.max(z, 1.05 * bigB);
        return Math.min(pressure / (z * rt), 3.2 * rhoc);
    }

    // ---- filling states ----

    private void fill(Workspace w, double pressure, double temperature, double rho, StateBuffer out) {
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        equation.setDensity(w, rho);
        finish(w, pressure, temperature, rho, out);
    }

    private void finish(Workspace w, double pressure, double temperature, double rho, StateBuffer out) {
        double cv = equation.isochoricHeatCapacity(w);
        double slope = equation.pressureSlope(w);
        double overT = equation.pressureOverTemperature(w);
        double cp = cv + temperature * overT * overT / (rho * rho * slope);
        out.pressure = pressure;
        out.temperature = temperature;
        out.density = rho;
        out.enthalpy = equation.enthalpy(w);
        out.entropy = equation.entropy(w);
        out.cv = cv;
        out.cp = cp;
        out.soundSpeed = Math.sqrt(cp / cv * slope);
        out.pressureByTemperature = overT;
        if (temperature >= tc) {
            out.phase = pressure >= pc ? Phase.SUPERCRITICAL : Phase.GAS;
            out.quality = 1;
        } else if (rho > rhoc) {
            out.phase = Phase.LIQUID;
            out.quality = 0;
        } else {
            out.phase = Phase.GAS;
            out.quality = 1;
        }
        out.extrapolated = temperature > publishedTemperature || pressure > publishedPressure;
    }

    private void fillDome(Scratch s, double x, double pressure, double quality, StateBuffer out) {
        SaturationLine.Edge liquid = s.liquid;
        SaturationLine.Edge vapour = s.vapour;
        saturation.phases(x, liquid, vapour);
        double volume = (1 - quality) / liquid.density + quality / vapour.density;
        out.pressure = pressure;
        out.temperature = saturation.temperature(x);
        out.density = 1 / volume;
        out.enthalpy = liquid.enthalpy + quality * (vapour.enthalpy - liquid.enthalpy);
        out.entropy = liquid.entropy + quality * (vapour.entropy - liquid.entropy);
        out.cp = Double.NaN;
        out.cv = Double.NaN;
        out.quality = quality;
        out.phase = Phase.TWO_PHASE;
        out.extrapolated = false;
        // homogeneous equilibrium: w^2 = v^2 (dp/dT)^2 / (ds/dT)_v, each phase adding ds/dT - dp/dT dv/dT along the
        // line,
        // which is cv/T + ((dp/dT)_rho - dp/dT)^2/(rho^2 dp/drho) of the equation itself
        double slope = (vapour.entropy - liquid.entropy) / (1 / vapour.density - 1 / liquid.density);
        double heat = x > NEAR_CRITICAL
                ? (1 - quality) * heatAlongDome(liquid, slope) + quality * heatAlongDome(vapour, slope)
                : (1 - quality) * heatAlongDome(s, out.temperature, liquid.density, slope)
                        + quality * heatAlongDome(s, out.temperature, vapour.density, slope);
        out.soundSpeed = volume * slope / Math.sqrt(heat);
        out.pressureByTemperature = slope;
    }

    private static double heatAlongDome(SaturationLine.Edge phase, double slope) {
        return phase.entropyByTemperature + slope * phase.densityByTemperature / (phase.density * phase.density);
    }

    private double heatAlongDome(Scratch s, double temperature, double rho, double slope) {
        Workspace w = s.main;
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        equation.setDensity(w, rho);
        double difference = equation.pressureOverTemperature(w) - slope;
        return equation.isochoricHeatCapacity(w) / temperature
                + difference * difference / (rho * rho * equation.pressureSlope(w));
    }

    // ---- states ----

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        StateBuffer out = scratch.get().buffer;
        pressureTemperature(pressure, temperature, out);
        return out.toState(this);
    }

    /** As {@link #atPressureTemperature}, into a buffer. */
    public void pressureTemperature(double pressure, double temperature, StateBuffer out) {
        requirePressure(pressure);
        requireTemperature(temperature);
        requireFluid(pressure, temperature);
        Workspace w = scratch.get().main;
        equation.setTemperature(w, temperature);
        double rho = stableDensity(w, pressure, temperature);
        fill(w, pressure, temperature, rho, out);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        StateBuffer out = scratch.get().buffer;
        pressureEnthalpy(pressure, enthalpy, out);
        return out.toState(this);
    }

    /** As {@link #atPressureEnthalpy}, into a buffer. */
    public void pressureEnthalpy(double pressure, double enthalpy, StateBuffer out) {
        isobaric(pressure, enthalpy, false, true, null, out);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy, FluidState near) {
        return atPressureEnthalpy(pressure, enthalpy, Nearby.atPressureEnthalpy(pressure, enthalpy, near));
    }

    @Override
    public void atPressureEnthalpy(double pressure, double enthalpy, FluidState near, StateBuffer out) {
        near(pressure, enthalpy, false, Nearby.atPressureEnthalpy(pressure, enthalpy, near), out);
    }

    /** As {@link #atPressureEnthalpy(double, double)}, the search starting from a guess, or as usual when that is null. */
    public FluidState atPressureEnthalpy(double pressure, double enthalpy, Nearby guess) {
        StateBuffer out = scratch.get().buffer;
        near(pressure, enthalpy, false, guess, out);
        return out.toState(this);
    }

    /**
     * For building tables: as {@link #pressureEnthalpy} but on a given side of the dome, a hair across the saturation line or beyond the
     * limits included.
     *
     * @param side -1 liquid, 1 vapour or gas below the critical pressure, 0 above it
     * @param neighbour true when the buffer holds a near state of the same pressure to start from
     */
    void tableNode(double pressure, double enthalpy, int side, boolean neighbour, StateBuffer out) {
        Scratch s = scratch.get();
        double low = 0.97 * minimumTemperature;
        double high = 1.03 * maximumTemperature;
        double start = side == 0 ? 1.1 * tc : Math.max(minimumTemperature, 0.5 * tc);
        double rho = Double.NaN;
        if (side != 0 && pressure >= saturation.triplePressure() && pressure < pc) {
            double x = saturation.xAtPressure(pressure);
            double boiling = saturation.temperature(x);
            double edge = side < 0 ? saturation.liquidEnthalpy(x) : saturation.vapourEnthalpy(x);
            start = boiling;
            rho = side < 0 ? saturation.liquidDensity(x) : saturation.vapourDensity(x);
            // a hair from the critical pressure the two ways to the line's enthalpy differ by rounding
            double hair = pressure > pc * (1 - 1e-6) ? 1e-4 : 1e-9;
            if (side * (enthalpy - edge) < hair * gasConstant * tc) {
                fill(s.main, pressure, boiling, rho, out);
                return;
            }
            low = side > 0 ? boiling : low;
            high = side < 0 ? boiling : high;
        }
        if (neighbour && out.cp > 0) {
            double guess = out.temperature + (enthalpy - out.enthalpy) / out.cp;
            if (guess > low && guess < high && Math.abs(guess - out.temperature) < 0.1 * out.temperature) {
                start = guess;
                rho = out.density;
            }
        }
        solveIsobar(s, pressure, enthalpy, false, side, low, high, start, rho, out);
        if (!(Math.abs(out.enthalpy - enthalpy) <= 1e-10 * gasConstant * tc)) {
            solveIsobar(
                    s,
                    pressure,
                    enthalpy,
                    false,
                    side,
                    low,
                    high,
                    0.5 * (low + Math.min(high, 2 * tc)),
                    Double.NaN,
                    out);
            if (!(Math.abs(out.enthalpy - enthalpy) <= 1e-6 * gasConstant * tc)) {
                // close to the critical point, where temperature along an isobar tells little
                isobaric(pressure, enthalpy, false, false, null, out);
            }
        }
    }

    double criticalEnthalpy() {
        return criticalEnthalpy;
    }

    double criticalEntropy() {
        return criticalEntropy;
    }

    /** For building tables: {dp/dT along the line, and each phase's share of the entropy slope at constant volume} at a pressure. */
    double[] saturationSlopes(double pressure) {
        requireSaturatedPressure(pressure);
        Scratch s = scratch.get();
        double x = saturation.xAtPressure(pressure);
        double t = saturation.temperature(x);
        double liquid = saturation.liquidDensity(x);
        double vapour = saturation.vapourDensity(x);
        double slope = (saturation.vapourEntropy(x) - saturation.liquidEntropy(x)) / (1 / vapour - 1 / liquid);
        return new double[] {slope, heatAlongDome(s, t, liquid, slope), heatAlongDome(s, t, vapour, slope)};
    }

    /** For building tables: the state at pressure and temperature on one side of the dome, a little beyond the limits included. */
    void tableEnd(double pressure, double temperature, int side, StateBuffer out) {
        Workspace w = scratch.get().main;
        equation.setTemperature(w, temperature);
        double rho = isobarDensity(w, pressure, temperature, side, Double.NaN);
        fill(w, pressure, temperature, rho, out);
    }

    /** Viscosity (Pa s) of one phase at temperature (K) and density (kg/m3). */
    public double viscosityAt(double temperature, double density) {
        return viscosity(scratch.get(), temperature, density);
    }

    /** Thermal conductivity (W/(m K)) of one phase at temperature (K) and density (kg/m3). */
    public double conductivityAt(double temperature, double density) {
        return conductivity(scratch.get(), temperature, density);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        StateBuffer out = scratch.get().buffer;
        pressureEntropy(pressure, entropy, out);
        return out.toState(this);
    }

    /** As {@link #atPressureEntropy}, into a buffer. */
    public void pressureEntropy(double pressure, double entropy, StateBuffer out) {
        isobaric(pressure, entropy, true, true, null, out);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy, FluidState near) {
        return atPressureEntropy(pressure, entropy, Nearby.atPressureEntropy(pressure, entropy, near));
    }

    @Override
    public void atPressureEntropy(double pressure, double entropy, FluidState near, StateBuffer out) {
        near(pressure, entropy, true, Nearby.atPressureEntropy(pressure, entropy, near), out);
    }

    /** As {@link #atPressureEntropy(double, double)}, the search starting from a guess, or as usual when that is null. */
    public FluidState atPressureEntropy(double pressure, double entropy, Nearby guess) {
        StateBuffer out = scratch.get().buffer;
        near(pressure, entropy, true, guess, out);
        return out.toState(this);
    }

    /** A guess may lead astray; what it cannot do is refuse. */
    private void near(double pressure, double target, boolean entropy, Nearby guess, StateBuffer out) {
        if (guess != null) {
            try {
                isobaric(pressure, target, entropy, true, guess, out);
                return;
            } catch (PropertyException e) {
                boolean beyondHottest =
                        e.key() == Key.TEMPERATURE_OUT_OF_RANGE && out.temperature >= maximumTemperature;
                if (e.key() == Key.PRESSURE_OUT_OF_RANGE || beyondHottest) {
                    throw e; // so from any start
                }
            }
        }
        isobaric(pressure, target, entropy, true, null, out);
    }

    /**
     * @param strict false lets the state lie a little beyond the temperature limits and in the solid: for a search that checks its end
     * @param near where to start; null for the usual start
     */
    private void isobaric(
            double pressure, double target, boolean entropy, boolean strict, Nearby near, StateBuffer out) {
        requirePressure(pressure);
        if (!Double.isFinite(target)) {
            throw error(Key.NO_SUCH_STATE, "pressure", pressure, entropy ? "entropy" : "enthalpy", target);
        }
        Scratch s = scratch.get();
        // cold water cools when it is compressed: a search along its isentrope passes below the triple temperature
        double low = coldest(pressure) * (strict ? 1 : 0.99);
        double high = maximumTemperature * (1 + (strict ? ROUNDING : 1e-3));
        double temperature;
        double rho;
        int side;
        double x = Double.NaN;
        if (pressure < pc && pressure >= saturation.triplePressure()) {
            x = saturation.xAtPressure(pressure);
            double boiling = saturation.temperature(x);
            double liquid = entropy ? saturation.liquidEntropy(x) : saturation.liquidEnthalpy(x);
            double vapour = entropy ? saturation.vapourEntropy(x) : saturation.vapourEnthalpy(x);
            if (target > liquid && target < vapour) {
                fillDome(s, x, pressure, (target - liquid) / (vapour - liquid), out);
                return;
            }
            if (target <= liquid) {
                side = -1;
                high = boiling;
                rho = saturation.liquidDensity(x);
                temperature = boiling;
            } else {
                side = 1;
                low = boiling;
                rho = saturation.vapourDensity(x);
                temperature = boiling;
            }
        } else {
            side = pressure < pc ? 1 : 0;
            temperature = pressure < pc ? Math.max(minimumTemperature, 0.5 * tc) : Math.max(1.1 * tc, 1.05 * low);
            rho = Double.NaN;
        }
        TabulatedFluid table = guesses;
        if (near != null && near.temperature() > low && near.temperature() < high) {
            temperature = near.temperature();
            rho = near.density();
            s.guess[0] = temperature;
            s.guess[1] = rho;
        } else if (table != null
                && table.guess(pressure, target, entropy, s.guess)
                && s.guess[0] > low
                && s.guess[0] < high) {
            temperature = s.guess[0];
            rho = s.guess[1];
        } else {
            guess(s, pressure, target, entropy, side, x);
        }
        if (!direct(s, pressure, target, entropy, side, x, low, high, out)) {
            solveIsobar(s, pressure, target, entropy, side, low, high, temperature, rho, out);
        }
        if (strict) {
            requireFluid(pressure, out.temperature);
        }
    }

    /**
     * A first temperature and density without an evaluation of the residual part: a liquid from the saturation line at its own temperature,
     * a gas from the ideal gas with the departure it has on the saturation line at the same pressure, fading with temperature.
     *
     * @param x place on the saturation line at the pressure, NaN where there is none
     */
    private void guess(Scratch s, double pressure, double target, boolean entropy, int side, double x) {
        SaturationLine.Edge edge = s.liquid;
        if (side < 0 || (side == 0 && target < (entropy ? criticalEntropy : criticalEnthalpy))) {
            double t = side < 0 ? saturation.temperature(x) : 0.9 * tc;
            for (int i = 0; i < 3; i++) {
                saturation.liquid(t, edge);
                // dh = v dp - T (dv/dT) dp and ds = -(dv/dT) dp off the line
                double excess = pressure - edge.pressure;
                double expansion = -edge.densityByTemperature / (edge.density * edge.density);
                double value = entropy
                        ? edge.entropy - expansion * excess
                        : edge.enthalpy + (1 / edge.density - t * expansion) * excess;
                double step = (target - value) / (entropy ? edge.entropyByTemperature : edge.enthalpyByTemperature);
                t = Math.max(minimumTemperature, Math.min(0.98 * tc, t + Math.max(-0.3 * t, Math.min(0.3 * t, step))));
                if (Math.abs(step) < 0.01 * t) {
                    break;
                }
            }
            s.guess[0] = t;
            s.guess[1] = saturation.liquidDensity(saturation.x(t));
            return;
        }
        double boiling = 0;
        double departure = 0;
        double compression = 0;
        double t = Math.max(1.5 * tc, minimumTemperature);
        Workspace w = s.other;
        if (!Double.isNaN(x)) {
            boiling = saturation.temperature(x);
            double rho = saturation.vapourDensity(x);
            equation.setTemperature(w, boiling);
            equation.ideal(w);
            departure = entropy
                    ? saturation.vapourEntropy(x) - equation.idealEntropy(w, pressure / (gasConstant * boiling))
                    : saturation.vapourEnthalpy(x) - equation.idealEnthalpy(w);
            compression = pressure / (rho * gasConstant * boiling) - 1;
            t = 1.1 * boiling;
        }
        for (int i = 0; i < 12; i++) {
            equation.setTemperature(w, t);
            equation.ideal(w);
            double fade = boiling / t * (boiling / t);
            double cp = equation.idealIsochoricHeatCapacity(w) + gasConstant;
            double value = entropy
                    ? equation.idealEntropy(w, pressure / (gasConstant * t)) + departure * fade * boiling / t
                    : equation.idealEnthalpy(w) + departure * fade;
            double step = entropy ? t * Math.expm1((target - value) / cp) : (target - value) / cp;
            t = Math.max(Math.max(boiling, 0.7 * t), Math.min(3 * t, t + step));
            if (!(Math.abs(step) > 1e-3 * t)) {
                break;
            }
        }
        double fade = boiling / t;
        s.guess[0] = t;
        s.guess[1] = side == 0
                ? cubicGuess(pressure, t)
                : pressure / (gasConstant * t * (1 + compression * fade * fade * Math.sqrt(fade)));
    }

    /**
     * Newton's method in temperature and density together from the guess in the scratch; false, for the bracketed way, where it does not
     * settle in a few steps on the asked side of the dome.
     */
    private boolean direct(
            Scratch s,
            double pressure,
            double target,
            boolean entropy,
            int side,
            double x,
            double low,
            double high,
            StateBuffer out) {
        Workspace w = s.main;
        double t = s.guess[0];
        double rho = s.guess[1];
        if (!(t > low && t < high && rho > 0)) {
            return false;
        }
        for (int i = 0; i < 10; i++) {
            equation.setTemperature(w, t);
            equation.ideal(w);
            equation.setDensity(w, rho);
            double missP = pressure - equation.pressure(w);
            double miss = target - (entropy ? equation.entropy(w) : equation.enthalpy(w));
            double pT = equation.pressureOverTemperature(w);
            double pR = equation.pressureSlope(w);
            double cv = equation.isochoricHeatCapacity(w);
            double gT = entropy ? cv / t : cv + pT / rho;
            double gR = entropy ? -pT / (rho * rho) : (pR - t * pT / rho) / rho;
            double determinant = pT * gR - pR * gT;
            double dt = (missP * gR - pR * miss) / determinant;
            double dr = (pT * miss - missP * gT) / determinant;
            if (!(pR > 0 && Math.abs(dt) < 0.5 * t && Math.abs(dr) < 0.7 * rho)) {
                return false;
            }
            t += dt;
            rho += dr;
            if (!(t > low && t < high)) {
                return false;
            }
            double move = Math.max(Math.abs(dt) / t, Math.abs(dr) / rho);
            if (move < 1e-8) {
                if (!onSide(t, rho, side, x)) {
                    return false;
                }
                if (move > 1e-12) {
                    equation.setTemperature(w, t);
                    equation.ideal(w);
                    equation.setDensity(w, rho);
                }
                finish(w, pressure, t, rho, out);
                return true;
            }
        }
        return false;
    }

    /** Does a state that Newton's method found lie on the asked side of the dome, not between the phases? */
    private boolean onSide(double t, double rho, int side, double x) {
        if (side < 0) {
            return rho > saturation.liquidDensity(x) * (1 - 1e-3)
                    && rho > saturation.liquidDensity(saturation.x(t)) * (1 - 1e-9);
        }
        if (t >= tc) {
            return true;
        }
        return side > 0
                ? rho < saturation.vapourDensity(saturation.x(t)) * (1 + 1e-9)
                : rho > saturation.liquidDensity(saturation.x(t)) * (1 - 1e-9);
    }

    /**
     * Builds a table of starting values, after which (p, h) and (p, s) take a third to a half of the time. Takes some tenths of a second.
     * Not done by itself, because a state found from another start may differ in the last digits, and results must not depend on what was
     * asked before.
     */
    public void prepare() {
        if (guesses == null) {
            TabulatedFluid.Range range = new TabulatedFluid.Range(
                    1e3, Math.min(1e8, maximumPressure), minimumTemperature, maximumTemperature);
            guesses = TabulatedFluid.build(this, range, GUESS_FINENESS);
        }
    }

    /** Lowest temperature at a pressure: the triple point, or the melting line where it lies above the critical temperature. */
    private double coldest(double pressure) {
        double low = minimumTemperature * (1 - ROUNDING);
        if (pressure <= leastSupercriticalMelting) {
            return low;
        }
        double high = melting.maximumTemperature();
        if (pressure >= melting.pressure(high)) {
            return high;
        }
        for (int i = 0; i < 50 && high - low > 1e-10 * high; i++) {
            double middle = 0.5 * (low + high);
            if (melting.pressure(middle) < pressure) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low * (1 - ROUNDING);
    }

    /**
     * Newton's method for temperature along an isobar on one side of the dome, inside [low, high].
     *
     * @param side -1 liquid, 1 vapour or gas, 0 above the critical pressure
     */
    private void solveIsobar(
            Scratch s,
            double pressure,
            double target,
            boolean entropy,
            int side,
            double low,
            double high,
            double firstTemperature,
            double firstDensity,
            StateBuffer out) {
        Workspace w = s.main;
        double lo = low;
        double hi = high;
        double temperature = firstTemperature;
        double rho = firstDensity;
        double lastError = Double.POSITIVE_INFINITY;
        boolean belowEnd = false;
        boolean aboveEnd = false;
        for (int i = 0; i < MAXIMUM_ITERATIONS; i++) {
            equation.setTemperature(w, temperature);
            rho = isobarDensity(w, pressure, temperature, side, rho);
            fill(w, pressure, temperature, rho, out);
            double error = target - (entropy ? out.entropy : out.enthalpy);
            double slope = entropy ? out.cp / temperature : out.cp;
            if (error > 0) {
                lo = temperature;
                aboveEnd |= temperature >= high;
            } else {
                hi = temperature;
                belowEnd |= temperature <= low;
            }
            double scale = entropy ? out.cp : out.cp * temperature;
            if (Math.abs(error) <= SETTLED * (entropy ? out.cv : out.cv * temperature)) {
                break;
            }
            if (aboveEnd || belowEnd) {
                if (Math.abs(error) <= 1e-9 * scale) {
                    break; // rounding at the end of the range or on the saturation line
                }
                throw outside(pressure, target, entropy, aboveEnd, low);
            }
            double size = Math.abs(error);
            double step = entropy ? temperature * Math.expm1(error / out.cp) : error / slope;
            double next = temperature + step;
            if (!(next > lo && next < hi) || (size > 0.7 * lastError && i > 4)) {
                if (next >= high && hi == high) {
                    next = high; // see whether the end of the range is enough
                } else if (next <= low && lo == low) {
                    next = low;
                } else {
                    next = 0.5 * (lo + hi);
                }
            }
            double move = next - temperature;
            if (Math.abs(move) < 1e-14 * temperature) {
                break;
            }
            lastError = size;
            double overT = equation.pressureOverTemperature(w) / equation.pressureSlope(w);
            double predicted = rho - overT * move;
            rho = predicted > 0.5 * rho && predicted < 2 * rho ? predicted : Double.NaN;
            temperature = next;
        }
    }

    private PropertyException outside(double pressure, double target, boolean entropy, boolean above, double low) {
        if (above) {
            return error(
                    Key.TEMPERATURE_OUT_OF_RANGE,
                    "pressure",
                    pressure,
                    entropy ? "entropy" : "enthalpy",
                    target,
                    "minimum",
                    minimumTemperature,
                    "maximum",
                    maximumTemperature);
        }
        if (melting.known() && low > minimumTemperature) {
            return error(Key.SOLID, "temperature", low, "pressure", pressure);
        }
        return error(Key.NO_SUCH_STATE, "pressure", pressure, entropy ? "entropy" : "enthalpy", target);
    }

    private double isobarDensity(Workspace w, double pressure, double temperature, int side, double guess) {
        if (side == 0) {
            if (temperature < tc) {
                double x = saturation.x(temperature);
                if (guess > saturation.liquidDensity(x)) {
                    return density(w, pressure, saturation.liquidDensity(x), Double.POSITIVE_INFINITY, guess);
                }
                return liquidDensity(w, pressure, x);
            }
            return guess > 0
                    ? density(w, pressure, 0, Double.POSITIVE_INFINITY, guess)
                    : supercriticalDensity(w, pressure, temperature);
        }
        if (side < 0) {
            double x = saturation.x(temperature);
            double liquid = saturation.liquidDensity(x);
            double slack = BRACKET_SLACK * (liquid - saturation.vapourDensity(x));
            return guess > liquid - slack
                    ? density(w, pressure, liquid - slack, Double.POSITIVE_INFINITY, guess)
                    : liquidDensity(w, pressure, x);
        }
        if (temperature < tc) {
            double x = saturation.x(temperature);
            double vapour = saturation.vapourDensity(x);
            double slack = BRACKET_SLACK * (saturation.liquidDensity(x) - vapour);
            return guess < vapour + slack
                    ? density(w, pressure, 0, vapour + slack, guess)
                    : vapourDensity(w, pressure, temperature, x);
        }
        return guess > 0
                ? density(w, pressure, 0, Double.POSITIVE_INFINITY, guess)
                : supercriticalDensity(w, pressure, temperature);
    }

    @Override
    public FluidState atDensityTemperature(double density, double temperature) {
        if (!(density > 0)) {
            throw error(Key.NO_SUCH_STATE, "density", density, "temperature", temperature);
        }
        requireTemperature(temperature);
        Scratch s = scratch.get();
        if (temperature < tc) {
            double x = saturation.x(temperature);
            double liquid = saturation.liquidDensity(x);
            double vapour = saturation.vapourDensity(x);
            if (density < liquid && density > vapour) {
                double quality = (1 / density - 1 / liquid) / (1 / vapour - 1 / liquid);
                fillDome(s, x, saturation.pressure(x), quality, s.buffer);
                return s.buffer.toState(this);
            }
        }
        Workspace w = s.main;
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        equation.setDensity(w, density);
        double pressure = equation.pressure(w);
        requirePressure(pressure);
        requireFluid(pressure, temperature);
        finish(w, pressure, temperature, density, s.buffer);
        return s.buffer.toState(this);
    }

    @Override
    public FluidState atPressureDensity(double pressure, double density) {
        requirePressure(pressure);
        if (!(density > 0)) {
            throw error(Key.NO_SUCH_STATE, "pressure", pressure, "density", density);
        }
        Scratch s = scratch.get();
        double low = coldest(pressure);
        double high = maximumTemperature * (1 + ROUNDING);
        if (pressure < pc && pressure >= saturation.triplePressure()) {
            double x = saturation.xAtPressure(pressure);
            double liquid = saturation.liquidDensity(x);
            double vapour = saturation.vapourDensity(x);
            if (density <= liquid && density >= vapour) {
                double quality = (1 / density - 1 / liquid) / (1 / vapour - 1 / liquid);
                fillDome(s, x, pressure, quality, s.buffer);
                return s.buffer.toState(this);
            }
            if (density > liquid) {
                high = saturation.temperature(x) * (1 + ROUNDING);
                low = Math.max(low, saturation.temperature(saturation.xAtLiquidDensity(density)));
            } else {
                low = saturation.temperature(x) * (1 - ROUNDING);
            }
        } else if (density < saturation.liquidDensity(saturation.x(minimumTemperature))) {
            // the isochore leaves the dome where this density is saturated
            double x = density > rhoc ? saturation.xAtLiquidDensity(density) : saturation.xAtVapourDensity(density);
            low = Math.max(low, saturation.temperature(x) * (1 - ROUNDING));
        }
        Workspace w = s.main;
        double lo = low;
        double hi = high;
        double temperature =
                Math.max(low, Math.min(high, density < rhoc ? pressure / (density * gasConstant) : Math.min(high, tc)));
        double lastError = Double.POSITIVE_INFINITY;
        for (int i = 0; i < MAXIMUM_ITERATIONS; i++) {
            equation.setTemperature(w, temperature);
            equation.setDensity(w, density);
            double error = pressure - equation.pressure(w);
            double slope = equation.pressureOverTemperature(w);
            boolean end = (temperature >= high && error > 0) || (temperature <= low && error < 0);
            double size = Math.abs(error);
            if (end && size > 1e-9 * (pressure + density * gasConstant * temperature)) {
                throw temperature >= high && high > maximumTemperature
                        ? error(
                                Key.TEMPERATURE_OUT_OF_RANGE,
                                "pressure",
                                pressure,
                                "density",
                                density,
                                "minimum",
                                minimumTemperature,
                                "maximum",
                                maximumTemperature)
                        : error(Key.NO_SUCH_STATE, "pressure", pressure, "density", density);
            }
            if (error > 0) {
                lo = temperature;
            } else {
                hi = temperature;
            }
            double next = temperature + error / slope;
            if (!(slope > 0) || !(next > lo && next < hi) || (size > 0.7 * lastError && i > 4)) {
                next = next >= high && hi == high ? high : next <= low && lo == low ? low : 0.5 * (lo + hi);
            }
            lastError = size;
            if (end || error == 0 || Math.abs(next - temperature) < 1e-14 * temperature) {
                break;
            }
            temperature = next;
        }
        requireFluid(pressure, temperature);
        fill(w, pressure, temperature, density, s.buffer);
        return s.buffer.toState(this);
    }

    @Override
    public FluidState atEnthalpyEntropy(double enthalpy, double entropy) {
        // along an isentrope dh = v dp, so enthalpy rises with pressure: a safeguarded Newton method in ln p
        Scratch s = scratch.get();
        StateBuffer out = s.buffer;
        double thinnest = Math.log(1e-6 * saturation.triplePressure());
        double densest = Math.log(maximumPressure * (1 + ROUNDING));
        double lo = thinnest;
        double hi = densest;
        double log = Math.log(0.3 * pc);
        double lastError = Double.POSITIVE_INFINITY;
        PropertyException trouble = null;
        // did the isentrope itself set the bracket's ends?
        boolean measuredLow = false;
        boolean measuredHigh = false;
        for (int i = 0; i < 2 * MAXIMUM_ITERATIONS; i++) {
            double pressure = Math.exp(log);
            double next;
            try {
                isobaric(pressure, entropy, true, false, null, out);
                double error = enthalpy - out.enthalpy;
                if (error > 0) {
                    lo = log;
                    measuredLow = true;
                } else {
                    hi = log;
                    measuredHigh = true;
                }
                double step = error * out.density / pressure;
                double heat = (out.cv > 0 ? out.cv : gasConstant) * out.temperature;
                if (Math.abs(step) < 1e-2 && out.phase != Phase.TWO_PHASE && polish(s.main, enthalpy, entropy, out)) {
                    requirePressure(out.pressure);
                    requireTemperature(out.temperature);
                    requireFluid(out.pressure, out.temperature);
                    return out.toState(this);
                }
                if (Math.abs(error) <= 1e-15 * heat || Math.abs(step) < 1e-14 || hi - lo < 1e-15 * Math.abs(hi)) {
                    if (Math.abs(error) <= 1e-9 * heat) {
                        requirePressure(out.pressure);
                        requireTemperature(out.temperature);
                        requireFluid(out.pressure, out.temperature);
                        return out.toState(this);
                    }
                    break;
                }
                next = log + Math.max(-3, Math.min(3, step));
                if (!(next > lo && next < hi) || (Math.abs(error) > 0.7 * lastError && i > 8)) {
                    next = 0.5 * (lo + hi);
                }
                lastError = Math.abs(error);
            } catch (PropertyException e) {
                if (hi - lo < 1e-12) {
                    throw e;
                }
                // along an isentrope temperature rises with pressure, and a liquid meets its melting line on the way up
                trouble = e;
                if (e.key() == Key.TEMPERATURE_OUT_OF_RANGE || e.key() == Key.SOLID || e.key() == Key.NO_CONVERGENCE) {
                    hi = log;
                    measuredHigh = false;
                } else {
                    lo = log;
                    measuredLow = false;
                }
                next = 0.5 * (lo + hi);
                lastError = Double.POSITIVE_INFINITY;
                if (hi - lo < 1e-15 * Math.abs(hi)) {
                    break;
                }
            }
            log = next;
        }
        if (hi - lo < 1e-9 && ((hi == densest && measuredLow) || (lo == thinnest && measuredHigh))) {
            // enthalpy rises with pressure all along the isentrope, and at the end of the range it has not come to the
            // asked one
            throw error(
                    Key.PRESSURE_OUT_OF_RANGE,
                    "enthalpy",
                    enthalpy,
                    "entropy",
                    entropy,
                    "minimum",
                    Math.exp(thinnest),
                    "maximum",
                    maximumPressure);
        }
        throw trouble != null && trouble.key() != Key.NO_CONVERGENCE
                ? error(Key.NO_SUCH_STATE, "enthalpy", enthalpy, "entropy", entropy)
                : error(Key.NO_CONVERGENCE, "enthalpy", enthalpy, "entropy", entropy);
    }

    /**
     * Newton's method in temperature and density from a near state; well conditioned even at the critical point, where the
     * determinant is cv w^2/T. False, and the buffer as it was, when it doesn't settle outside the dome.
     */
    private boolean polish(Workspace w, double enthalpy, double entropy, StateBuffer out) {
        double temperature = out.temperature;
        double rho = out.density;
        for (int i = 0; i < 12; i++) {
            equation.setTemperature(w, temperature);
            equation.ideal(w);
            equation.setDensity(w, rho);
            double entropyError = entropy - equation.entropy(w);
            double pressureError = rho * (enthalpy - equation.enthalpy(w) - temperature * entropyError);
            double cv = equation.isochoricHeatCapacity(w);
            double overT = equation.pressureOverTemperature(w);
            double slope = equation.pressureSlope(w);
            double determinant = cv / temperature * slope + overT * overT / (rho * rho);
            if (!(determinant > 0)) {
                return false;
            }
            double dt = (entropyError * slope + pressureError * overT / (rho * rho)) / determinant;
            double dr = (cv / temperature * pressureError - overT * entropyError) / determinant;
            if (!(Math.abs(dt) < 0.1 * temperature && Math.abs(dr) < 0.3 * rho)) {
                return false;
            }
            temperature += dt;
            rho += dr;
            if (Math.abs(dt) < 1e-9 * temperature && Math.abs(dr) < 1e-9 * rho) {
                if (temperature < tc) {
                    double x = saturation.x(temperature);
                    if (rho < saturation.liquidDensity(x) * (1 - 1e-12)
                            && rho > saturation.vapourDensity(x) * (1 + 1e-12)) {
                        return false;
                    }
                }
                equation.setTemperature(w, temperature);
                equation.ideal(w);
                equation.setDensity(w, rho);
                finish(w, equation.pressure(w), temperature, rho, out);
                return true;
            }
        }
        return false;
    }

    @Override
    public FluidState atTemperatureQuality(double temperature, double quality) {
        requireSaturated(temperature);
        Scratch s = scratch.get();
        double x = saturation.x(temperature);
        return onLine(s, x, saturation.pressure(x), quality);
    }

    @Override
    public FluidState atPressureQuality(double pressure, double quality) {
        requireSaturatedPressure(pressure);
        return onLine(scratch.get(), saturation.xAtPressure(pressure), pressure, quality);
    }

    private FluidState onLine(Scratch s, double x, double pressure, double quality) {
        if (!(quality >= 0 && quality <= 1)) {
            throw error(Key.NO_SUCH_STATE, "pressure", pressure, "quality", quality);
        }
        if (quality == 0 || quality == 1) {
            // the edge of the dome, seen from the phase itself: heat capacities and its own speed of sound
            double rho = quality == 0 ? saturation.liquidDensity(x) : saturation.vapourDensity(x);
            fill(s.main, pressure, saturation.temperature(x), rho, s.buffer);
            s.buffer.quality = quality;
        } else {
            fillDome(s, x, pressure, quality, s.buffer);
        }
        return s.buffer.toState(this);
    }

    private void requireSaturated(double temperature) {
        if (!(temperature >= minimumTemperature * (1 - 1e-12) && temperature <= tc * (1 + 1e-12))) {
            throw error(
                    Key.TEMPERATURE_OUT_OF_RANGE,
                    "temperature",
                    temperature,
                    "minimum",
                    minimumTemperature,
                    "maximum",
                    tc);
        }
    }

    private void requireSaturatedPressure(double pressure) {
        if (!(pressure >= saturation.triplePressure() * (1 - 1e-9) && pressure <= pc * (1 + 1e-12))) {
            throw error(
                    Key.PRESSURE_OUT_OF_RANGE,
                    "pressure",
                    pressure,
                    "minimum",
                    saturation.triplePressure(),
                    "maximum",
                    pc);
        }
    }

    @Override
    public double saturationPressure(double temperature) {
        requireSaturated(temperature);
        return saturation.pressure(saturation.x(temperature));
    }

    @Override
    public double saturationTemperature(double pressure) {
        requireSaturatedPressure(pressure);
        return saturation.temperature(saturation.xAtPressure(pressure));
    }

    @Override
    public FluidState metastable(Phase phase, double pressure, double temperature) {
        if (phase != Phase.LIQUID && phase != Phase.GAS) {
            throw new IllegalArgumentException("metastable: LIQUID or GAS, not " + phase);
        }
        requireTemperature(temperature);
        if (!(temperature < tc) || !Double.isFinite(pressure)) {
            throw error(Key.NO_SUCH_STATE, "pressure", pressure, "temperature", temperature, "phase", phase.name());
        }
        if (pressure > maximumPressure) {
            requirePressure(pressure);
        }
        Scratch s = scratch.get();
        Workspace w = s.main;
        equation.setTemperature(w, temperature);
        double x = saturation.x(temperature);
        double saturated = saturation.pressure(x);
        double rho;
        if (phase == Phase.LIQUID) {
            if (pressure >= saturated) {
                requireFluid(pressure, temperature);
                rho = liquidDensity(w, pressure, x);
            } else {
                double liquid = saturation.liquidDensity(x);
                double limit = spinodal(s, w, liquid, saturation.vapourDensity(x));
                if (pressure < s.spinodalPressure) {
                    throw error(
                            Key.NO_SUCH_STATE,
                            "pressure",
                            pressure,
                            "temperature",
                            temperature,
                            "phase",
                            phase.name(),
                            "minimum",
                            s.spinodalPressure);
                }
                rho = density(w, pressure, limit, liquid * (1 + 1e-6), 0.5 * (limit + liquid));
            }
        } else {
            if (!(pressure > 0)) {
                requirePressure(pressure);
            }
            if (pressure <= saturated) {
                rho = vapourDensity(w, pressure, temperature, x);
            } else {
                double vapour = saturation.vapourDensity(x);
                double limit = spinodal(s, w, vapour, saturation.liquidDensity(x));
                if (pressure > s.spinodalPressure) {
                    throw error(
                            Key.NO_SUCH_STATE,
                            "pressure",
                            pressure,
                            "temperature",
                            temperature,
                            "phase",
                            phase.name(),
                            "maximum",
                            s.spinodalPressure);
                }
                rho = density(w, pressure, vapour * (1 - 1e-6), limit, 0.5 * (limit + vapour));
            }
        }
        fill(w, pressure, temperature, rho, s.buffer);
        s.buffer.phase = phase;
        s.buffer.quality = phase == Phase.LIQUID ? 0 : 1;
        return s.buffer.toState(this);
    }

    /**
     * Density where the metastable branch ends on the way from one phase to the other, its pressure left in the scratch: where pressure
     * stops changing (the spinodal), or where its slope stops falling. Equations with sharp terms near the critical point (nitrogen)
     * wiggle between the phases; a slope that rises again before it has reached zero is no longer physical.
     */
    private double spinodal(Scratch s, Workspace w, double from, double to) {
        int strides = 400;
        equation.setDensityForPressure(w, from);
        double stable = from;
        double lastSlope = equation.pressureSlope(w);
        double unstable = Double.NaN;
        for (int i = 1; i <= strides; i++) {
            double rho = from + (to - from) * i / strides;
            equation.setDensityForPressure(w, rho);
            double slope = equation.pressureSlope(w);
            if (!(slope > 0)) {
                unstable = rho;
                break;
            }
            if (slope > lastSlope) {
                break;
            }
            stable = rho;
            lastSlope = slope;
        }
        for (int i = 0; i < 60 && !Double.isNaN(unstable); i++) {
            double middle = 0.5 * (stable + unstable);
            equation.setDensityForPressure(w, middle);
            if (equation.pressureSlope(w) > 0) {
                stable = middle;
            } else {
                unstable = middle;
            }
        }
        equation.setDensityForPressure(w, stable);
        s.spinodalPressure = equation.pressure(w);
        return stable;
    }

    // ---- ideal gas, surface, melting, transport ----

    @Override
    public double idealGasEnthalpy(double temperature) {
        Workspace w = scratch.get().other;
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        return equation.idealEnthalpy(w);
    }

    /** Specific entropy of the ideal gas at temperature (K) and density (kg/m3), J/(kg K), on the same reference as the states. */
    public double idealGasEntropy(double temperature, double density) {
        Workspace w = scratch.get().other;
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        return equation.idealEntropy(w, density);
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        Workspace w = scratch.get().other;
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        return 1 + gasConstant / equation.idealIsochoricHeatCapacity(w);
    }

    @Override
    public double surfaceTension(double temperature) {
        requireSaturated(temperature);
        if (surface.length == 0) {
            throw error(Key.NO_MODEL, "property", "surface tension");
        }
        double theta = Math.max(0, 1 - temperature / surfaceCritical);
        double sum = 0;
        for (double[] term : surface) {
            sum += term[0] * Math.pow(theta, term[1]);
        }
        return Math.max(sum, 0); // methane's correlation dips below zero within 1e-4 of its end
    }

    @Override
    public double meltingPressure(double temperature) {
        return melting.pressure(temperature);
    }

    @Override
    public double viscosity(FluidState state) {
        return viscosity(state.phase(), state.temperature(), state.density(), state.quality());
    }

    @Override
    public double viscosity(StateBuffer state) {
        return viscosity(state.phase, state.temperature, state.density, state.quality);
    }

    private double viscosity(Phase phase, double temperature, double density, double quality) {
        Scratch s = scratch.get();
        if (phase == Phase.TWO_PHASE) {
            double x = saturation.x(temperature);
            double liquid = viscosity(s, temperature, saturation.liquidDensity(x));
            double vapour = viscosity(s, temperature, saturation.vapourDensity(x));
            return 1 / ((1 - quality) / liquid + quality / vapour);
        }
        return viscosity(s, temperature, density);
    }

    private double viscosity(Scratch s, double temperature, double rho) {
        set(s.main, temperature, rho);
        return viscosity.value(equation, s.main, s.other);
    }

    /** Thermal conductivity, W/(m K); in the dome weighted by the volume of the phases. */
    @Override
    public double conductivity(FluidState state) {
        Scratch s = scratch.get();
        if (state.phase() == Phase.TWO_PHASE) {
            double x = saturation.x(state.temperature());
            double rhol = saturation.liquidDensity(x);
            double rhov = saturation.vapourDensity(x);
            double liquid = conductivity(s, state.temperature(), rhol);
            double vapour = conductivity(s, state.temperature(), rhov);
            double share = state.quality() / rhov * state.density();
            return (1 - share) * liquid + share * vapour;
        }
        return conductivity(s, state.temperature(), state.density());
    }

    private double conductivity(Scratch s, double temperature, double rho) {
        set(s.main, temperature, rho);
        double eta = viscosity.value(equation, s.main, s.other);
        set(s.main, temperature, rho);
        return conductivity.value(equation, s.main, s.other, eta);
    }

    private void set(Workspace w, double temperature, double rho) {
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        equation.setDensity(w, rho);
    }

    @Override
    public String toString() {
        return name;
    }
}
