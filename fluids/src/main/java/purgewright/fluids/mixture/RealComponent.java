package purgewright.fluids.mixture;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.Nearby;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.burnt.Formation;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.phase.EmbeddedFluid;
import purgewright.fluids.phase.SaturationLine;
import purgewright.fluids.phase.StateBuffer;
import purgewright.fluids.phase.TabulatedFluid;

/**
 * A library fluid as a component: its own equation between the triple point and its highest temperature, and beyond them a
 * continuation that is flagged {@code extrapolated}, so that no trace makes a mixture's state unsolvable.
 *
 * <p><b>Above the highest temperature</b> the residual Helmholtz energy is continued on its tangent in temperature: pressure stays
 * linear in T along an isochore, residual energy and entropy keep the values they have there, and the ideal part goes on with
 * {@link HotGas}. Pressure is C1 in T, energy too but for the residual heat capacity that ends there (0.05 % of cp for methane at
 * 20 MPa), the relations between the derivatives hold exactly, and all tends to the ideal gas as the density falls.
 *
 * <p><b>Below the triple point</b> the liquid is continued with held heat capacity and density, the vapour with held ideal heat
 * capacity and a second virial term linear in T that meets the saturated vapour at the triple point, and the vapour pressure
 * follows from equal Gibbs energy of the two. So the component goes on condensing: nothing jumps at the triple point, where an ideal
 * gas would give back the whole latent heat. The heat of freezing is left out.
 */
final class RealComponent extends Component {
    /** Denser than this many critical densities nothing is asked: equations may bend down again there. */
    private static final double DENSEST = 6;

    private static final double STEP = 1e-6; // of temperature, for slopes that have no closed form

    private final PureFluid fluid;
    /** The embedded engine's fluid (also behind its tables), evaluated without the detour over a state object; null with another engine. */
    private final EmbeddedFluid embedded;

    private final HelmholtzEquation equation;
    private final ThreadLocal<Kernel> kernel;
    private final String formula;
    private final double criticalDensity;
    private final double criticalTemperature;
    private final double triple;
    private final double maximum;
    private final double maximumPressure;
    private final double datumShift;
    private final HotGas hot;
    private final double[] criticalConstants;

    // At the triple point: saturated vapour and liquid, and what continues them.
    private final double triplePressure;
    private final double vapourDensity;
    private final double vapourEntropy;
    private final double vapourIdealEnthalpy;
    private final double coldCp;
    private final double virialEnergy;
    private final double virialEntropy;
    private final double liquidEnthalpy;
    private final double liquidEntropy;
    private final double liquidCp;
    private final double tripleLiquidDensity;

    RealComponent(PureFluid fluid) {
        super(fluid.name(), fluid.molarMass(), specificGasConstant(fluid));
        this.fluid = fluid;
        this.formula = Formation.formula(fluid.name());
        this.criticalDensity = fluid.criticalDensity();
        PureFluid exact = fluid instanceof TabulatedFluid table ? table.exact() : fluid;
        this.embedded = exact instanceof EmbeddedFluid known ? known : null;
        this.equation = embedded == null ? null : embedded.equation();
        this.kernel = embedded == null ? null : ThreadLocal.withInitial(() -> new Kernel(equation.workspace()));
        this.criticalTemperature = fluid.criticalTemperature();
        this.triple = fluid.tripleTemperature();
        // Acentric factor by its definition, the vapour pressure at 0.7 Tc; where the triple point is warmer, along the
        // line's slope.
        double share = Math.max(0.7, triple / criticalTemperature);
        double log = Math.log10(fluid.saturationPressure(share * criticalTemperature) / fluid.criticalPressure());
        this.criticalConstants = new double[] {
            criticalTemperature,
            fluid.criticalPressure(),
            molarMass() / criticalDensity,
            -log * (1 / 0.7 - 1) / (1 / share - 1) - 1
        };
        this.maximum = fluid.maximumTemperature();
        this.maximumPressure = fluid.maximumPressure();
        double formation = Formation.enthalpy(fluid.name());
        // Without a formation enthalpy the ideal gas at 298.15 K is the datum: mixing is right, burning is refused
        // elsewhere.
        this.datumShift = (Double.isNaN(formation) ? 0 : formation / fluid.molarMass())
                - fluid.idealGasEnthalpy(Nasa7.DATUM_TEMPERATURE);
        double r = gasConstant();
        this.hot = HotGas.above(fluid, formula, maximum, r);

        FluidState vapour = fluid.atTemperatureQuality(triple, 1);
        FluidState liquid = fluid.atTemperatureQuality(triple, 0);
        this.triplePressure = vapour.pressure();
        this.vapourDensity = vapour.density();
        double kappa = fluid.idealGasHeatCapacityRatio(triple);
        this.coldCp = r * kappa / (kappa - 1);
        this.vapourIdealEnthalpy = fluid.idealGasEnthalpy(triple) + datumShift;
        // Residual Helmholtz energy density*(e - T f): energy e*density, entropy f*density, pressure density^2 (e - T
        // f).
        double second = (triplePressure / (vapourDensity * r * triple) - 1) * r * triple / vapourDensity;
        double departure = (vapour.enthalpy() + datumShift - vapourIdealEnthalpy) / vapourDensity;
        this.virialEnergy = departure - second;
        this.virialEntropy = (virialEnergy - second) / triple;
        this.vapourEntropy = vapour.entropy() - virialEntropy * vapourDensity;
        this.liquidEnthalpy = liquid.enthalpy() + datumShift;
        this.liquidEntropy = liquid.entropy();
        this.tripleLiquidDensity = liquid.density();
        Point point = new Point();
        fromLiquid(justLiquid(triple), point);
        this.liquidCp = point.cp;
    }

    /** Scratch memory of one thread. */
    private static final class Kernel {
        final HelmholtzEquation.Workspace workspace;
        final SaturationLine.Edge vapour = new SaturationLine.Edge();
        final SaturationLine.Edge liquid = new SaturationLine.Edge();
        final StateBuffer state = new StateBuffer();

        Kernel(HelmholtzEquation.Workspace workspace) {
            this.workspace = workspace;
        }
    }

    /** A liquid next to saturation whose derivatives exist, on the warm side of the triple point. */
    private FluidState justLiquid(double temperature) {
        double t = Math.max(temperature, triple * (1 + 1e-6));
        return fluid.atPressureTemperature(fluid.saturationPressure(t) * (1 + 1e-6) + 1, t);
    }

    private static double specificGasConstant(PureFluid fluid) {
        double temperature = Math.max(fluid.tripleTemperature(), 0.9 * fluid.maximumTemperature());
        double density = 1e-7 * fluid.criticalDensity();
        FluidState dilute = fluid.atDensityTemperature(density, temperature);
        return dilute.pressure() / (density * temperature);
    }

    PureFluid fluid() {
        return fluid;
    }

    /** Of the fluid itself, on its own datum; the search starts from the guess unless that is null. */
    FluidState atPressureEnthalpy(double pressure, double enthalpy, Nearby guess) {
        return guess != null && fluid == embedded
                ? embedded.atPressureEnthalpy(pressure, enthalpy, guess)
                : fluid.atPressureEnthalpy(pressure, enthalpy);
    }

    /** Of the fluid itself; the search starts from the guess unless that is null. */
    FluidState atPressureEntropy(double pressure, double entropy, Nearby guess) {
        return guess != null && fluid == embedded
                ? embedded.atPressureEntropy(pressure, entropy, guess)
                : fluid.atPressureEntropy(pressure, entropy);
    }

    /** Added to the engine's enthalpy to reach the formation datum, J/kg. */
    double datumShift() {
        return datumShift;
    }

    /** Does the fluid's own equation cover this temperature (K)? */
    boolean covers(double temperature) {
        return temperature >= triple && temperature <= maximum;
    }

    /** Does a temperature (K) lie above all that the fluid's own equation covers, by more than rounding? */
    boolean hotter(double temperature) {
        return temperature > maximum * (1 + 1e-8);
    }

    @Override
    Map<String, Double> species() {
        return Map.of(name(), 1.0);
    }

    @Override
    boolean condensable(double temperature) {
        return temperature < criticalTemperature;
    }

    @Override
    double criticalTemperature() {
        return criticalTemperature;
    }

    @Override
    double criticalPressure() {
        return fluid.criticalPressure();
    }

    @Override
    double criticalMolarVolume() {
        return molarMass() / fluid.criticalDensity();
    }

    @Override
    double[] criticalConstants() {
        return criticalConstants;
    }

    @Override
    double tripleTemperature() {
        return triple;
    }

    @Override
    void gas(double temperature, double density, Point point) {
        point.density = density;
        point.saturated = false;
        if (temperature < triple) {
            coldGas(temperature, density, point);
            return;
        }
        if (temperature < criticalTemperature) {
            if (density >= criticalDensity || (embedded != null && density > dewDensity(temperature))) {
                point.saturated = true;
                return;
            }
        } else if (density > DENSEST * criticalDensity) {
            throw beyond(temperature, density);
        }
        double t = Math.min(temperature, maximum);
        if (embedded != null) {
            evaluate(t, density, point);
        } else {
            FluidState state = fluid.atDensityTemperature(density, t);
            if (temperature < criticalTemperature
                    && (state.phase() == Phase.TWO_PHASE || state.phase() == Phase.LIQUID)) {
                point.saturated = true;
                return;
            }
            fromGas(state, t, density, point);
        }
        if (temperature > maximum) {
            heat(temperature, point);
        }
    }

    @Override
    void gasPressure(double temperature, double density, Point point) {
        if (embedded == null || temperature < triple || temperature > maximum) {
            super.gasPressure(temperature, density, point);
            return;
        }
        point.saturated = false;
        if (temperature < criticalTemperature) {
            if (density >= criticalDensity || density > dewDensity(temperature)) {
                point.saturated = true;
                point.saturationPressure = fluid.saturationPressure(temperature);
                return;
            }
        } else if (density > DENSEST * criticalDensity) {
            throw beyond(temperature, density);
        }
        HelmholtzEquation.Workspace w = kernel.get().workspace;
        equation.setTemperature(w, temperature);
        equation.setDensityForPressure(w, density);
        point.pressure = equation.pressure(w);
        point.pressureByDensity = equation.pressureSlope(w);
    }

    private double dewDensity(double temperature) {
        return embedded.saturationLine().vapourDensityAt(temperature);
    }

    private PropertyException beyond(double temperature, double density) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("fluid", name());
        values.put("temperature", temperature);
        values.put("density", density);
        return new PropertyException(PropertyException.Key.NO_SUCH_STATE, values);
    }

    /** The equation itself, gas side. */
    private void evaluate(double temperature, double density, Point point) {
        Kernel k = kernel.get();
        HelmholtzEquation.Workspace w = k.workspace;
        equation.setTemperature(w, temperature);
        equation.ideal(w);
        equation.setDensity(w, density);
        point.pressure = equation.pressure(w);
        point.pressureByTemperature = equation.pressureOverTemperature(w);
        point.pressureByDensity = equation.pressureSlope(w);
        point.enthalpy = equation.enthalpy(w) + datumShift;
        point.entropy = equation.entropy(w);
        point.cv = equation.isochoricHeatCapacity(w);
        point.extrapolated = temperature > embedded.publishedMaximumTemperature()
                || point.pressure > embedded.publishedMaximumPressure();
    }

    private void fromGas(FluidState state, double temperature, double density, Point point) {
        double byDensity = state.soundSpeed() * state.soundSpeed() * state.cv() / state.cp();
        point.pressure = state.pressure();
        point.pressureByDensity = byDensity;
        point.pressureByTemperature =
                density * Math.sqrt(Math.max(0, (state.cp() - state.cv()) * byDensity / temperature));
        point.enthalpy = state.enthalpy() + datumShift;
        point.entropy = state.entropy();
        point.cv = state.cv();
        point.extrapolated = state.extrapolated();
    }

    /** From the state at the highest temperature to a hotter one at the same density. */
    private void heat(double temperature, Point point) {
        double density = point.density;
        double rise = temperature - maximum;
        double r = gasConstant();
        double slope = point.pressureByTemperature;
        double energy = point.enthalpy - point.pressure / density + hot.enthalpyRise(temperature) - r * rise;
        point.pressure += rise * slope;
        // The slope is R rho (1 + c rho) to second order, so its own slope with density is 2 slope/rho - R.
        point.pressureByDensity += rise * (2 * slope / density - r);
        point.enthalpy = energy + point.pressure / density;
        point.entropy += hot.entropyRise(temperature) - r * Math.log(temperature / maximum);
        point.cv = hot.heatCapacity(temperature) - r;
        point.extrapolated = true;
    }

    private void coldGas(double temperature, double density, Point point) {
        double dew = coldVapourDensity(temperature);
        if (density > dew) {
            point.saturated = true;
            return;
        }
        coldVapour(temperature, density, point);
    }

    private void coldVapour(double temperature, double density, Point point) {
        double r = gasConstant();
        double virial = virialEnergy - temperature * virialEntropy;
        double pressure = density * (r * temperature + density * virial);
        point.density = density;
        point.pressure = pressure;
        point.pressureByTemperature = density * (r - density * virialEntropy);
        point.pressureByDensity = r * temperature + 2 * density * virial;
        point.enthalpy = vapourIdealEnthalpy + coldCp * (temperature - triple) + density * (virialEnergy + virial);
        point.entropy = vapourEntropy
                + (coldCp - r) * Math.log(temperature / triple)
                - r * Math.log(density / vapourDensity)
                + density * virialEntropy;
        point.cv = coldCp - r;
        point.extrapolated = true;
    }

    /** Saturated vapour density below the triple point by equal Gibbs energy, kg/m3; at least 1e-300. */
    private double coldVapourDensity(double temperature) {
        double r = gasConstant();
        double rise = temperature - triple;
        double log = Math.log(temperature / triple);
        double liquidGibbs = liquidEnthalpy + liquidCp * rise - temperature * (liquidEntropy + liquidCp * log);
        double idealGibbs = vapourIdealEnthalpy + coldCp * rise - temperature * (vapourEntropy + (coldCp - r) * log);
        double virial = 2 * (virialEnergy - temperature * virialEntropy);
        double base = (liquidGibbs - idealGibbs) / (r * temperature);
        double density = vapourDensity * Math.exp(base);
        for (int i = 0; i < 8; i++) {
            double next = vapourDensity * Math.exp(base - virial * density / (r * temperature));
            boolean settled = Math.abs(next - density) <= 1e-13 * next;
            density = next;
            if (settled) {
                break;
            }
        }
        return Math.max(density, 1e-300);
    }

    @Override
    double saturationPressure(double temperature) {
        if (temperature < triple) {
            double density = coldVapourDensity(temperature);
            double virial = virialEnergy - temperature * virialEntropy;
            return density * (gasConstant() * temperature + density * virial);
        }
        return fluid.saturationPressure(temperature);
    }

    @Override
    void saturatedVapour(double temperature, Point point) {
        if (embedded != null && temperature >= triple) {
            SaturationLine.Edge edge = kernel.get().vapour;
            embedded.saturationLine().vapour(temperature, edge);
            point.saturated = true;
            point.density = edge.density;
            point.pressure = edge.pressure;
            point.saturationPressure = edge.pressure;
            point.enthalpy = edge.enthalpy + datumShift;
            point.entropy = edge.entropy;
            point.saturationSlope = edge.pressureByTemperature;
            point.densityByTemperature = edge.densityByTemperature;
            point.enthalpyByTemperature = edge.enthalpyByTemperature;
            point.entropyByTemperature = edge.entropyByTemperature;
            point.extrapolated = temperature > embedded.publishedMaximumTemperature();
            return;
        }
        if (temperature < triple) {
            coldSaturated(temperature, point);
            return;
        }
        double dt = STEP * temperature;
        plainVapour(temperature + (temperature + dt < criticalTemperature ? dt : -dt), point);
        if (temperature + dt >= criticalTemperature) {
            dt = -dt;
        }
        double pressure = point.saturationPressure;
        double density = point.density;
        double enthalpy = point.enthalpy;
        double entropy = point.entropy;
        plainVapour(temperature, point);
        point.saturationSlope = (pressure - point.saturationPressure) / dt;
        point.densityByTemperature = (density - point.density) / dt;
        point.enthalpyByTemperature = (enthalpy - point.enthalpy) / dt;
        point.entropyByTemperature = (entropy - point.entropy) / dt;
    }

    /** The vapour on the continued line, and its slopes along it: of ln rho = b(T) - 2 B(T) rho/(R T). */
    private void coldSaturated(double temperature, Point point) {
        double r = gasConstant();
        double density = coldVapourDensity(temperature);
        coldVapour(temperature, density, point);
        point.saturated = true;
        point.saturationPressure = point.pressure;
        double rise = temperature - triple;
        // d(g/T)/dT = -h/T^2, of the liquid and of the ideal vapour at a held density (whose u stands for h).
        double liquid = liquidEnthalpy + liquidCp * rise;
        double ideal = vapourIdealEnthalpy + coldCp * rise - r * temperature;
        double baseByT = (ideal - liquid) / (r * temperature * temperature);
        double virial = virialEnergy - temperature * virialEntropy;
        double bend = 2 * density * virial / (r * temperature);
        double byT = density * (baseByT + 2 * density * virialEnergy / (r * temperature * temperature)) / (1 + bend);
        point.densityByTemperature = byT;
        point.saturationSlope = point.pressureByTemperature + point.pressureByDensity * byT;
        point.enthalpyByTemperature = coldCp - density * virialEntropy + byT * (virialEnergy + virial);
        point.entropyByTemperature = (coldCp - r) / temperature + byT * (virialEntropy - r / density);
    }

    /** Without slopes. */
    private void plainVapour(double temperature, Point point) {
        point.saturated = true;
        if (temperature < triple) {
            coldVapour(temperature, coldVapourDensity(temperature), point);
            point.saturationPressure = point.pressure;
            return;
        }
        FluidState state = fluid.atTemperatureQuality(temperature, 1);
        point.density = state.density();
        point.pressure = state.pressure();
        point.saturationPressure = state.pressure();
        point.enthalpy = state.enthalpy() + datumShift;
        point.entropy = state.entropy();
        point.extrapolated = state.extrapolated();
    }

    @Override
    boolean edges(double temperature, boolean entropic, Point liquid, Point vapour) {
        if (embedded == null) {
            return false;
        }
        if (temperature < triple) {
            plainVapour(temperature, vapour);
            liquid.density = tripleLiquidDensity;
            liquid.enthalpy = liquidEnthalpy + liquidCp * (temperature - triple);
            liquid.entropy = liquidEntropy + liquidCp * Math.log(temperature / triple);
            return true;
        }
        Kernel k = kernel.get();
        embedded.saturationLine().values(temperature, entropic, k.liquid, k.vapour);
        vapour.saturationPressure = k.vapour.pressure;
        vapour.density = k.vapour.density;
        vapour.enthalpy = k.vapour.enthalpy + datumShift;
        vapour.entropy = k.vapour.entropy;
        liquid.density = k.liquid.density;
        liquid.enthalpy = k.liquid.enthalpy + datumShift;
        liquid.entropy = k.liquid.entropy;
        return true;
    }

    @Override
    void liquid(double temperature, double pressure, Point point) {
        double base = freezing(Math.max(temperature, triple), pressure);
        if (embedded == null) {
            FluidState state = compressed(base, pressure);
            fromLiquid(state == null ? justLiquid(base) : state, point);
        } else {
            StateBuffer state = kernel.get().state;
            if (compressed(base, Math.min(pressure, maximumPressure), state)) {
                fromLiquid(state, point);
            } else {
                fromLiquid(justLiquid(base), point);
            }
        }
        if (point.pressure < pressure * (1 - 1e-8)) {
            // Off the equation: the last liquid, carried on in pressure at constant volume.
            point.enthalpy += (pressure - point.pressure) / point.density;
            point.pressure = pressure;
            point.extrapolated = true;
        }
        if (base > temperature) {
            // Frozen: the liquid where it freezes, carried on in temperature at constant heat capacity and volume.
            point.enthalpy += point.cp * (temperature - base);
            point.entropy += point.cp * Math.log(temperature / base);
            point.cv = point.cp;
            point.volumeByTemperature = 0;
            point.extrapolated = true;
        }
    }

    /** The temperature itself, or where the liquid of that pressure freezes if that is warmer (K). */
    private double freezing(double temperature, double pressure) {
        if (embedded == null || !(pressure > embedded.meltingPressure(temperature))) {
            return temperature;
        }
        double low = temperature;
        double high = Math.min(maximum, 2 * temperature);
        while (high - low > 1e-13 * high) {
            double middle = (low + high) / 2;
            if (middle == low || middle == high) {
                break;
            }
            if (embedded.meltingPressure(middle) < pressure) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high * (1 + 1e-9);
    }

    /** The liquid at T and p, or null where the equation gives none. */
    private FluidState compressed(double temperature, double pressure) {
        try {
            FluidState state = fluid.atPressureTemperature(pressure, temperature);
            if (state.phase() == Phase.LIQUID && !Double.isNaN(state.cp())) {
                return state;
            }
            // A hair below the vapour pressure by rounding, or so close to it that the answer is the dome.
            return pressure < 1.001 * fluid.saturationPressure(temperature) ? justLiquid(temperature) : null;
        } catch (PropertyException e) {
            return null;
        }
    }

    /** As {@link #compressed(double, double)}, into a buffer; false where the equation gives none. */
    private boolean compressed(double temperature, double pressure, StateBuffer state) {
        try {
            embedded.pressureTemperature(pressure, temperature, state);
            if (state.phase() == Phase.LIQUID && !Double.isNaN(state.cp())) {
                return true;
            }
            double t = Math.max(temperature, triple * (1 + 1e-6));
            if (pressure < 1.001 * fluid.saturationPressure(temperature)) {
                embedded.pressureTemperature(fluid.saturationPressure(t) * (1 + 1e-6) + 1, t, state);
                return true;
            }
            return false;
        } catch (PropertyException e) {
            return false;
        }
    }

    private void fromLiquid(StateBuffer state, Point point) {
        double density = state.density();
        double byDensity = state.soundSpeed() * state.soundSpeed() * state.cv() / state.cp();
        point.density = density;
        point.pressure = state.pressure();
        point.enthalpy = state.enthalpy() + datumShift;
        point.entropy = state.entropy();
        point.cp = state.cp();
        point.cv = state.cv();
        point.volumeByPressure = -1 / (density * density * byDensity);
        point.volumeByTemperature = -point.volumeByPressure * state.pressureByTemperature();
        point.extrapolated = state.extrapolated();
    }

    private void fromLiquid(FluidState state, Point point) {
        double density = state.density();
        double cp = state.cp();
        double cv = state.cv();
        double byDensity = state.soundSpeed() * state.soundSpeed() * cv / cp;
        point.density = density;
        point.pressure = state.pressure();
        point.enthalpy = state.enthalpy() + datumShift;
        point.entropy = state.entropy();
        point.cp = cp;
        point.cv = cv;
        point.volumeByPressure = -1 / (density * density * byDensity);
        // cp - cv = -T (dv/dT)^2 / (dv/dp); expansion counts as positive (water below 4 degC: the square hardly differs
        // from 0).
        point.volumeByTemperature = Math.sqrt(Math.max(0, (cp - cv) * -point.volumeByPressure / state.temperature()));
        point.extrapolated = state.extrapolated();
    }

    @Override
    double idealEnthalpy(double temperature) {
        if (temperature < triple) {
            return vapourIdealEnthalpy + coldCp * (temperature - triple);
        }
        if (temperature > maximum) {
            return fluid.idealGasEnthalpy(maximum) + datumShift + hot.enthalpyRise(temperature);
        }
        return fluid.idealGasEnthalpy(temperature) + datumShift;
    }

    @Override
    double idealEntropy(double temperature, double density) {
        double r = gasConstant();
        if (temperature < triple) {
            return vapourEntropy
                    + (coldCp - r) * Math.log(temperature / triple)
                    - r * Math.log(density / vapourDensity);
        }
        if (temperature > maximum) {
            return idealEntropy(maximum, density) + hot.entropyRise(temperature) - r * Math.log(temperature / maximum);
        }
        if (embedded != null) {
            return embedded.idealGasEntropy(temperature, density);
        }
        double dilute = 1e-6 * criticalDensity;
        return fluid.atDensityTemperature(dilute, temperature).entropy() - r * Math.log(density / dilute);
    }

    @Override
    double idealHeatCapacity(double temperature) {
        if (temperature < triple) {
            return coldCp;
        }
        if (temperature > maximum) {
            return hot.heatCapacity(temperature);
        }
        double kappa = fluid.idealGasHeatCapacityRatio(temperature);
        return gasConstant() * kappa / (kappa - 1);
    }

    /** Temperature for transport inside the equation's range, K. */
    private double transportTemperature(double temperature) {
        return Math.max(triple, Math.min(maximum, temperature));
    }

    /** Viscosity (or conductivity) inside the equation's range, of a gas never denser than at its dew point. */
    private double transport(double t, double given, boolean viscosity) {
        double density = Math.max(given, 1e-12 * criticalDensity); // a dilute gas long before numbers run out
        if (embedded != null) {
            double inside = t < criticalTemperature ? Math.min(density, dewDensity(t)) : density;
            return viscosity ? embedded.viscosityAt(t, inside) : embedded.conductivityAt(t, inside);
        }
        FluidState state = null;
        if (t < criticalTemperature) {
            FluidState dew = fluid.atTemperatureQuality(t, 1);
            state = density >= dew.density() ? dew : null;
        }
        if (state == null) {
            state = fluid.atDensityTemperature(density, t);
        }
        return viscosity ? fluid.viscosity(state) : fluid.conductivity(state);
    }

    @Override
    double gasViscosity(double temperature, double density) {
        double t = transportTemperature(temperature);
        double viscosity = transport(t, density, true);
        return t == temperature
                ? viscosity
                : viscosity
                        * Potentials.viscosity(formula, molarMass(), temperature)
                        / Potentials.viscosity(formula, molarMass(), t);
    }

    @Override
    double gasConductivity(double temperature, double density) {
        double t = transportTemperature(temperature);
        double conductivity = transport(t, density, false);
        return t == temperature
                ? conductivity
                : conductivity
                        * Potentials.conductivity(formula, molarMass(), temperature, idealHeatCapacity(temperature))
                        / Potentials.conductivity(formula, molarMass(), t, idealHeatCapacity(t));
    }

    private FluidState transportLiquid(double temperature, double pressure) {
        double t = Math.max(temperature, triple * (1 + 1e-6));
        FluidState state = compressed(t, pressure);
        return state == null ? justLiquid(t) : state;
    }

    @Override
    double liquidViscosity(double temperature, double pressure) {
        return fluid.viscosity(transportLiquid(temperature, pressure));
    }

    @Override
    double liquidConductivity(double temperature, double pressure) {
        return fluid.conductivity(transportLiquid(temperature, pressure));
    }
}
