package purgewright.fluids.mixture;

import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

/**
 * A library fluid as another engine would give it: by the questions of {@link PureFluid} alone, so that a component of it takes the ways that
 * are not made for the embedded engine. Its ideal gas may stop answering above a temperature, as another engine's does.
 */
record PlainFluid(PureFluid inside, double idealGasEnds) implements PureFluid {
    PlainFluid(PureFluid inside) {
        this(inside, Double.POSITIVE_INFINITY);
    }

    @Override
    public String name() {
        return inside.name();
    }

    @Override
    public double molarMass() {
        return inside.molarMass();
    }

    @Override
    public Map<String, Double> moleFractions() {
        return inside.moleFractions();
    }

    @Override
    public double criticalDensity() {
        return inside.criticalDensity();
    }

    @Override
    public double criticalTemperature() {
        return inside.criticalTemperature();
    }

    @Override
    public double criticalPressure() {
        return inside.criticalPressure();
    }

    @Override
    public double tripleTemperature() {
        return inside.tripleTemperature();
    }

    @Override
    public double maximumTemperature() {
        return inside.maximumTemperature();
    }

    @Override
    public double maximumPressure() {
        return inside.maximumPressure();
    }

    @Override
    public String referenceState() {
        return inside.referenceState();
    }

    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        return inside.atPressureTemperature(pressure, temperature);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double enthalpy) {
        return inside.atPressureEnthalpy(pressure, enthalpy);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return inside.atPressureEntropy(pressure, entropy);
    }

    @Override
    public FluidState atDensityTemperature(double density, double temperature) {
        return inside.atDensityTemperature(density, temperature);
    }

    @Override
    public FluidState atPressureDensity(double pressure, double density) {
        return inside.atPressureDensity(pressure, density);
    }

    @Override
    public FluidState atEnthalpyEntropy(double enthalpy, double entropy) {
        return inside.atEnthalpyEntropy(enthalpy, entropy);
    }

    @Override
    public FluidState atTemperatureQuality(double temperature, double quality) {
        return inside.atTemperatureQuality(temperature, quality);
    }

    @Override
    public FluidState atPressureQuality(double pressure, double quality) {
        return inside.atPressureQuality(pressure, quality);
    }

    @Override
    public double saturationPressure(double temperature) {
        return inside.saturationPressure(temperature);
    }

    @Override
    public double saturationTemperature(double pressure) {
        return inside.saturationTemperature(pressure);
    }

    @Override
    public double idealGasEnthalpy(double temperature) {
        return inside.idealGasEnthalpy(temperature);
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        if (temperature > idealGasEnds) {
            throw new PropertyException(
                    PropertyException.Key.TEMPERATURE_OUT_OF_RANGE,
                    Map.of("fluid", name(), "temperature", temperature));
        }
        return inside.idealGasHeatCapacityRatio(temperature);
    }

    @Override
    public double viscosity(FluidState state) {
        return inside.viscosity(state);
    }

    @Override
    public double conductivity(FluidState state) {
        return inside.conductivity(state);
    }
}
