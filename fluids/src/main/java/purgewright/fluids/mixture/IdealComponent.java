package purgewright.fluids.mixture;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.burnt.Species;
import purgewright.fluids.burnt.SpeciesTable;

/** The dry gas of a burnt or measured stream: one ideal gas of frozen composition, after the species table's polynomials. */
final class IdealComponent extends Component {
    private static final double STANDARD_PRESSURE = 1e5; // of the table's entropies, Pa

    private final Map<String, Double> species;
    private final Nasa7 polynomial;
    private final String[] names;
    private final double[] fractions;
    private final double[] molarMasses;
    private final GasTransport.MassPairs pairs;
    private final Nasa7[] polynomials;
    private final double[] diameters;
    private final double[] wellDepths;

    IdealComponent(String name, Map<String, Double> moleFractions) {
        super(name, meanMolarMass(moleFractions), Nasa7.GAS_CONSTANT / meanMolarMass(moleFractions));
        this.species = new LinkedHashMap<>(moleFractions);
        int n = moleFractions.size();
        this.names = moleFractions.keySet().toArray(new String[0]);
        this.fractions = new double[n];
        this.molarMasses = new double[n];
        this.polynomials = new Nasa7[n];
        this.diameters = new double[n];
        this.wellDepths = new double[n];
        for (int k = 0; k < n; k++) {
            Species one = SpeciesTable.find(names[k]);
            fractions[k] = moleFractions.get(names[k]);
            molarMasses[k] = one.molarMass();
            polynomials[k] = one.polynomial();
            diameters[k] = Potentials.diameter(names[k]);
            wellDepths[k] = Potentials.wellDepth(names[k]);
        }
        this.pairs = new GasTransport.MassPairs(molarMasses);
        this.polynomial = Species.mixed(moleFractions);
    }

    private static double meanMolarMass(Map<String, Double> moleFractions) {
        double mean = 0;
        for (Map.Entry<String, Double> entry : moleFractions.entrySet()) {
            mean += entry.getValue() * SpeciesTable.find(entry.getKey()).molarMass();
        }
        return mean;
    }

    @Override
    Map<String, Double> species() {
        return species;
    }

    @Override
    boolean condensable(double temperature) {
        return false;
    }

    @Override
    double criticalTemperature() {
        return 0;
    }

    @Override
    double criticalPressure() {
        return 0;
    }

    @Override
    double criticalMolarVolume() {
        double volume = 0;
        for (int k = 0; k < names.length; k++) {
            volume += fractions[k] * Potentials.criticalMolarVolume(names[k]);
        }
        return volume;
    }

    @Override
    double[] criticalConstants() {
        // A mean molecule: from the collision diameters and well depths (Tc = 1.2593 eps/k), zc 0.29, round.
        double t = 0;
        for (int k = 0; k < names.length; k++) {
            t += fractions[k] * 1.2593 * Potentials.wellDepth(names[k]);
        }
        double volume = criticalMolarVolume();
        return new double[] {t, 0.29 * Nasa7.GAS_CONSTANT * t / volume, volume, 0};
    }

    @Override
    double tripleTemperature() {
        return 0;
    }

    @Override
    void gas(double temperature, double density, Point point) {
        double r = gasConstant();
        double cp = polynomial.heatCapacity(temperature) * r;
        point.density = density;
        point.pressure = density * r * temperature;
        point.pressureByTemperature = density * r;
        point.pressureByDensity = r * temperature;
        point.enthalpy = polynomial.enthalpy(temperature) * r;
        point.entropy = r * (polynomial.entropy(temperature) - Math.log(point.pressure / STANDARD_PRESSURE));
        point.cv = cp - r;
        point.saturated = false;
        point.extrapolated = temperature > polynomial.maximum() || temperature < polynomial.minimum();
    }

    @Override
    double saturationPressure(double temperature) {
        throw new IllegalStateException(name() + " is an ideal gas here and has no vapour pressure");
    }

    @Override
    void saturatedVapour(double temperature, Point point) {
        throw new IllegalStateException(name() + " is an ideal gas here and never saturated");
    }

    @Override
    void liquid(double temperature, double pressure, Point point) {
        throw new IllegalStateException(name() + " is an ideal gas here and never liquid");
    }

    @Override
    double idealEnthalpy(double temperature) {
        return polynomial.enthalpy(temperature) * gasConstant();
    }

    @Override
    double idealEntropy(double temperature, double density) {
        double r = gasConstant();
        return r * (polynomial.entropy(temperature) - Math.log(density * r * temperature / STANDARD_PRESSURE));
    }

    @Override
    double idealHeatCapacity(double temperature) {
        return polynomial.heatCapacity(temperature) * gasConstant();
    }

    @Override
    double gasViscosity(double temperature, double density) {
        return GasTransport.wilke(fractions, viscosities(temperature), pairs);
    }

    /** Of each species, dilute, Pa s. */
    private double[] viscosities(double temperature) {
        double[] viscosities = new double[names.length];
        for (int k = 0; k < names.length; k++) {
            viscosities[k] =
                    GasTransport.chapmanEnskogViscosity(molarMasses[k], temperature, diameters[k], wellDepths[k]);
        }
        return viscosities;
    }

    @Override
    double gasConductivity(double temperature, double density) {
        double[] viscosities = viscosities(temperature);
        double[] conductivities = new double[names.length];
        for (int k = 0; k < names.length; k++) {
            double cv = polynomials[k].heatCapacity(temperature) - 1;
            conductivities[k] = GasTransport.modifiedEucken(viscosities[k], molarMasses[k], cv);
        }
        return GasTransport.masonSaxena(fractions, viscosities, conductivities, pairs);
    }

    @Override
    double liquidViscosity(double temperature, double pressure) {
        throw new IllegalStateException(name() + " is an ideal gas here and never liquid");
    }

    @Override
    double liquidConductivity(double temperature, double pressure) {
        throw new IllegalStateException(name() + " is an ideal gas here and never liquid");
    }
}
