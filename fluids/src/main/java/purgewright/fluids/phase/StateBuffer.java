package purgewright.fluids.phase;

import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;

/**
 * A state that is written over: what a hot loop passes in so that nothing is allocated. Owned by one thread. Units as in {@link
 * FluidState}.
 */
public final class StateBuffer {
    double pressure;
    double temperature;
    double density;
    double enthalpy;
    double entropy;
    double cp;
    double cv;
    double soundSpeed;
    double pressureByTemperature;
    double volumeByEnthalpy;
    double quality;
    Phase phase;
    boolean extrapolated;

    /** Absolute pressure, Pa. */
    public double pressure() {
        return pressure;
    }

    /** Temperature, K. */
    public double temperature() {
        return temperature;
    }

    /** Density, kg/m3. */
    public double density() {
        return density;
    }

    /** Specific enthalpy, J/kg. */
    public double enthalpy() {
        return enthalpy;
    }

    /** Specific entropy, J/(kg K). */
    public double entropy() {
        return entropy;
    }

    /** Isobaric heat capacity, J/(kg K); NaN in the dome. */
    public double cp() {
        return cp;
    }

    /** Isochoric heat capacity, J/(kg K); NaN in the dome. */
    public double cv() {
        return cv;
    }

    /** Speed of sound, m/s; homogeneous equilibrium in the dome. */
    public double soundSpeed() {
        return soundSpeed;
    }

    /** Slope of pressure with temperature at constant density, Pa/K; in the dome that of the saturation line. */
    public double pressureByTemperature() {
        return pressureByTemperature;
    }

    /** Slope of the specific volume with enthalpy at constant pressure, m3/J; NaN where the search did not come by it. */
    public double volumeByEnthalpy() {
        return volumeByEnthalpy;
    }

    /** Vapour's share of the mass, 0 liquid to 1 gas or supercritical. */
    public double quality() {
        return quality;
    }

    /** Where the state lies. */
    public Phase phase() {
        return phase;
    }

    /** True outside the range the equation was published for. */
    public boolean extrapolated() {
        return extrapolated;
    }

    /** Takes over a state and the slope of its volume with enthalpy, m3/J; NaN where that is not known. */
    public void set(FluidState state, double slope) {
        set(state);
        volumeByEnthalpy = slope;
    }

    /** Takes over a state; the slopes are not known then. */
    public void set(FluidState state) {
        set(
                state.pressure(),
                state.temperature(),
                state.density(),
                state.enthalpy(),
                state.entropy(),
                state.cp(),
                state.cv(),
                state.soundSpeed(),
                state.quality(),
                state.phase(),
                state.extrapolated());
    }

    /** Takes over another buffer's state. */
    public void set(StateBuffer state) {
        set(
                state.pressure,
                state.temperature,
                state.density,
                state.enthalpy,
                state.entropy,
                state.cp,
                state.cv,
                state.soundSpeed,
                state.quality,
                state.phase,
                state.extrapolated);
        pressureByTemperature = state.pressureByTemperature;
        volumeByEnthalpy = state.volumeByEnthalpy;
    }

    /** Takes over a state's values; the slopes are not known then. */
    public void set(
            double newPressure,
            double newTemperature,
            double newDensity,
            double newEnthalpy,
            double newEntropy,
            double newCp,
            double newCv,
            double newSoundSpeed,
            double newQuality,
            Phase newPhase,
            boolean isExtrapolated) {
        pressure = newPressure;
        temperature = newTemperature;
        density = newDensity;
        enthalpy = newEnthalpy;
        entropy = newEntropy;
        cp = newCp;
        cv = newCv;
        soundSpeed = newSoundSpeed;
        pressureByTemperature = Double.NaN;
        volumeByEnthalpy = Double.NaN;
        quality = newQuality;
        phase = newPhase;
        extrapolated = isExtrapolated;
    }

    /** The state as an immutable record. */
    public FluidState toState(Fluid fluid) {
        return new FluidState(
                fluid,
                pressure,
                temperature,
                density,
                enthalpy,
                entropy,
                cp,
                cv,
                soundSpeed,
                quality,
                phase,
                extrapolated);
    }
}
