package purgewright.fluids.mixture;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;

/** Mixes a case's streams in any proportion. Immutable; threads may share it. Streams are numbered as they were given. */
public interface StreamMixer {
    /** Number of streams. */
    int size();

    /** Name of a stream. */
    String name(int stream);

    /** A stream by itself; enthalpy on the formation datum. */
    Fluid stream(int stream);

    /** Temperature (K) of the burner for a burnt stream, else NaN. */
    double burnerTemperature(int stream);

    /**
     * The mixture with the given mass fractions of the streams (sum 1 within 1e-9; each at least 0). A fraction below 1e-12 counts
     * as absent for properties, so that a trace never makes a state unsolvable.
     */
    Fluid mix(double[] massFractions);

    /** Mass fractions of species, in a stable order, for mass fractions of streams. */
    Map<String, Double> speciesMassFractions(double[] massFractions);

    /** Mole fractions of species, in a stable order, for mass fractions of streams. */
    Map<String, Double> speciesMoleFractions(double[] massFractions);

    /** Mean molar mass (kg/mol) of a stream. */
    double molarMass(int stream);

    /**
     * Product c D of total molar concentration and the diffusion coefficient of one stream into the rest of the mixture,
     * mol/(m s); independent of pressure. Blanc's rule over the species. Zero where the state is liquid.
     */
    double molarDiffusivity(int stream, double[] massFractions, double temperature);

    /** What is in the gas and what is condensed in a state of a fluid that came from {@link #mix}. */
    PhaseSplit split(FluidState state);

    /**
     * By what share of itself the density of a state is estimated to be off because unlike molecules do not attract each other in the model;
     * positive where the state is too dense. NaN where two or more liquids are mixed, of which nothing is known. Zero for one component.
     */
    default double unlikeError(FluidState state) {
        return 0;
    }

    /**
     * The phases of one state.
     *
     * @param gasMoleFractions species in the gas phase, sum 1, empty when there is no gas
     * @param condensedMassFractions species condensed, as share of the whole mass, empty when nothing is
     * @param belowTriple species that would freeze at this temperature: name to triple-point temperature, K
     */
    record PhaseSplit(
            Map<String, Double> gasMoleFractions,
            Map<String, Double> condensedMassFractions,
            Map<String, Double> belowTriple) {}
}
