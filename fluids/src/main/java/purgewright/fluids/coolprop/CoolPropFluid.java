package purgewright.fluids.coolprop;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;
import purgewright.fluids.coolprop.NativeStates.State;

/** One fluid of the library, on the library's default reference state. */
final class CoolPropFluid implements PureFluid {
    private static final double DILUTE = 1e-8; // of the critical density: an ideal gas to rounding
    private static final double STEP = 1e-4; // of pressure, for the sound speed in the dome

    private final NativeStates states;
    private final String name;
    private final String nativeName;
    private final String engine;

    private final int pressureTemperature;
    private final int enthalpyPressure;
    private final int pressureEntropy;
    private final int densityTemperature;
    private final int densityPressure;
    private final int enthalpyEntropy;
    private final int qualityTemperature;
    private final int pressureQuality;
    private final int[] outputs;
    private final int viscosity;
    private final int conductivity;

    private final double molarMass;
    private final double criticalTemperature;
    private final double criticalPressure;
    private final double criticalDensity;
    private final double tripleTemperature;
    private final double maximumTemperature;
    private final double maximumPressure;

    CoolPropFluid(NativeStates states, String name, String nativeName, String engine) {
        this.states = states;
        this.name = name;
        this.nativeName = nativeName;
        this.engine = engine;
        this.pressureTemperature = states.pair("PT_INPUTS");
        this.enthalpyPressure = states.pair("HmassP_INPUTS");
        this.pressureEntropy = states.pair("PSmass_INPUTS");
        this.densityTemperature = states.pair("DmassT_INPUTS");
        this.densityPressure = states.pair("DmassP_INPUTS");
        this.enthalpyEntropy = states.pair("HmassSmass_INPUTS");
        this.qualityTemperature = states.pair("QT_INPUTS");
        this.pressureQuality = states.pair("PQ_INPUTS");
        this.outputs = new int[] {
            states.parameter("P"),
            states.parameter("T"),
            states.parameter("Dmass"),
            states.parameter("Hmass"),
            states.parameter("Smass"),
            states.parameter("Cpmass"),
            states.parameter("Cvmass"),
            states.parameter("speed_of_sound"),
            states.parameter("Q"),
            states.parameter("Phase")
        };
        this.viscosity = states.parameter("viscosity");
        this.conductivity = states.parameter("conductivity");
        double[] constants = states.lend(nativeName, state -> new double[] {
            state.output(states.parameter("molar_mass"), false, "molar mass"),
            state.output(states.parameter("T_critical"), false, "critical temperature"),
            state.output(states.parameter("p_critical"), false, "critical pressure"),
            state.output(states.parameter("rhomass_critical"), false, "critical density"),
            state.output(states.parameter("T_triple"), false, "triple temperature"),
            state.output(states.parameter("T_max"), false, "highest temperature"),
            state.output(states.parameter("P_max"), false, "highest pressure")
        });
        this.molarMass = constants[0];
        this.criticalTemperature = constants[1];
        this.criticalPressure = constants[2];
        this.criticalDensity = constants[3];
        this.tripleTemperature = constants[4];
        this.maximumTemperature = constants[5];
        this.maximumPressure = constants[6];
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double molarMass() {
        return molarMass;
    }

    @Override
    public Map<String, Double> moleFractions() {
        return Map.of(name, 1.0);
    }

    @Override
    public double criticalTemperature() {
        return criticalTemperature;
    }

    @Override
    public double criticalPressure() {
        return criticalPressure;
    }

    @Override
    public double criticalDensity() {
        return criticalDensity;
    }

    @Override
    public double tripleTemperature() {
        return tripleTemperature;
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
    public String referenceState() {
        return "the default reference state of " + engine;
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        return state(pressureTemperature, pressure, temperature, "pressure", "temperature");
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return state(enthalpyPressure, enthalpy, pressure, "enthalpy", "pressure");
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return state(pressureEntropy, pressure, entropy, "pressure", "entropy");
    }

    @Override
    public FluidState atDensityTemperature(double density, double temperature) {
        return state(densityTemperature, density, temperature, "density", "temperature");
    }

    @Override
    public FluidState atPressureDensity(double pressure, double density) {
        return state(densityPressure, density, pressure, "density", "pressure");
    }

    @Override
    public FluidState atEnthalpyEntropy(double enthalpy, double entropy) {
        return state(enthalpyEntropy, enthalpy, entropy, "enthalpy", "entropy");
    }

    @Override
    public FluidState atTemperatureQuality(double temperature, double quality) {
        return state(qualityTemperature, quality, temperature, "quality", "temperature");
    }

    @Override
    public FluidState atPressureQuality(double pressure, double quality) {
        return state(pressureQuality, pressure, quality, "pressure", "quality");
    }

    @Override
    public double saturationPressure(double temperature) {
        return states.lend(nativeName, state -> {
            state.update(qualityTemperature, 0, temperature, "quality", "temperature");
            return state.output(outputs[0], false, "pressure");
        });
    }

    @Override
    public double saturationTemperature(double pressure) {
        return states.lend(nativeName, state -> {
            state.update(pressureQuality, pressure, 0, "pressure", "quality");
            return state.output(outputs[1], false, "temperature");
        });
    }

    @Override
    public double idealGasEnthalpy(double temperature) {
        return states.lend(nativeName, state -> {
            state.update(densityTemperature, DILUTE * criticalDensity, temperature, "density", "temperature");
            return state.output(outputs[3], false, "enthalpy");
        });
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return states.lend(nativeName, state -> {
            state.update(densityTemperature, DILUTE * criticalDensity, temperature, "density", "temperature");
            return state.output(outputs[5], false, "cp") / state.output(outputs[6], false, "cv");
        });
    }

    private FluidState state(int pair, double first, double second, String firstName, String secondName) {
        return states.lend(nativeName, state -> {
            state.update(pair, first, second, firstName, secondName);
            double p = state.output(outputs[0], false, "pressure");
            double t = state.output(outputs[1], false, "temperature");
            double density = state.output(outputs[2], false, "density");
            double enthalpy = state.output(outputs[3], false, "enthalpy");
            double entropy = state.output(outputs[4], false, "entropy");
            double quality = state.output(outputs[8], true, "quality");
            int code = (int) state.output(outputs[9], false, "phase");
            Phase phase = phase(code, p, t, density);
            if (phase == Phase.TWO_PHASE && quality > 0 && quality < 1) {
                double sound = domeSound(state, p, entropy, density);
                return new FluidState(
                        this, p, t, density, enthalpy, entropy, Double.NaN, Double.NaN, sound, quality, phase, false);
            }
            if (phase == Phase.TWO_PHASE) {
                // On the saturation line the library gives the phase's own derivatives.
                phase = quality < 0.5 ? Phase.LIQUID : Phase.GAS;
            }
            return new FluidState(
                    this,
                    p,
                    t,
                    density,
                    enthalpy,
                    entropy,
                    state.output(outputs[5], false, "cp"),
                    state.output(outputs[6], false, "cv"),
                    state.output(outputs[7], false, "sound speed"),
                    phase == Phase.LIQUID ? 0 : 1,
                    phase,
                    false);
        });
    }

    /** The library has no sound speed in the dome: homogeneous equilibrium by difference along the isentrope. */
    private double domeSound(State state, double p, double entropy, double density) {
        double low = p * (1 - STEP);
        state.update(pressureEntropy, low, entropy, "pressure", "entropy");
        double below = state.output(outputs[2], false, "density");
        return Math.sqrt((p - low) / (density - below));
    }

    /** The library's numbering: liquid, supercritical, supercritical gas, supercritical liquid, critical, gas, two-phase, unknown. */
    private Phase phase(int code, double p, double t, double density) {
        return switch (code) {
            case 0, 3 -> Phase.LIQUID;
            case 1, 4 -> Phase.SUPERCRITICAL;
            case 2, 5 -> Phase.GAS;
            case 6 -> Phase.TWO_PHASE;
            default ->
                t >= criticalTemperature
                        ? p > criticalPressure ? Phase.SUPERCRITICAL : Phase.GAS
                        : density > criticalDensity ? Phase.LIQUID : Phase.GAS;
        };
    }

    @Override
    public double viscosity(FluidState state) {
        if (state.phase() == Phase.TWO_PHASE) {
            double liquid = saturated(viscosity, "viscosity", state.temperature(), 0);
            double vapour = saturated(viscosity, "viscosity", state.temperature(), 1);
            return 1 / (state.quality() / vapour + (1 - state.quality()) / liquid);
        }
        return single(viscosity, "viscosity", state);
    }

    @Override
    public double conductivity(FluidState state) {
        if (state.phase() == Phase.TWO_PHASE) {
            double liquid = saturated(conductivity, "conductivity", state.temperature(), 0);
            double vapour = saturated(conductivity, "conductivity", state.temperature(), 1);
            return state.quality() * vapour + (1 - state.quality()) * liquid;
        }
        return single(conductivity, "conductivity", state);
    }

    private double saturated(int parameter, String what, double temperature, double quality) {
        return states.lend(nativeName, state -> {
            state.update(qualityTemperature, quality, temperature, "quality", "temperature");
            return state.output(parameter, false, what);
        });
    }

    private double single(int parameter, String what, FluidState at) {
        if (!(at.density() > 0)) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("fluid", name);
            values.put("density", at.density());
            throw new PropertyException(Key.NO_SUCH_STATE, values);
        }
        return states.lend(nativeName, state -> {
            state.update(densityTemperature, at.density(), at.temperature(), "density", "temperature");
            return state.output(parameter, false, what);
        });
    }
}
