package purgewright.sealflow.network;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;

/**
 * Perfect gases of constant heat capacity, viscosity and diffusivity: what closed forms of a network are written for. Used by the
 * checks of this room alone, never to judge a case.
 *
 * <p>Gas constants, J/(kg K), as usual in gas dynamics [common practice]: air 287.05, nitrogen 296.80, helium 2077.26, oxygen 259.84 J/(kg K).
 */
public final class PerfectGases implements PropertyEngine {
    static final double MOLAR_GAS_CONSTANT = 8.31446261815324;
    private static final double REFERENCE_TEMPERATURE = 298.15;
    private static final double REFERENCE_PRESSURE = 1e5;

    /**
     * One gas.
     *
     * @param name of the fluid
     * @param gasConstant J/(kg K)
     * @param cp J/(kg K)
     * @param viscosity Pa s
     */
    record Gas(String name, double gasConstant, double cp, double viscosity) {}

    /** Diffusivity of every pair at 101325 Pa and 300 K, m2/s; c D is taken as constant. */
    static final double DIFFUSIVITY = 0.73e-4;

    private static final List<Gas> GASES = List.of(
            new Gas("air", 287.05, 287.05 * 3.5, 1.85e-5),
            new Gas("nitrogen", 296.80, 296.80 * 3.5, 1.78e-5),
            new Gas("helium", 2077.26, 5193, 1.99e-5),
            new Gas("oxygen", 259.84, 918, 2.07e-5));

    @Override
    public String name() {
        return "perfect gases";
    }

    @Override
    public List<String> fluidNames() {
        return GASES.stream().map(Gas::name).sorted().toList();
    }

    @Override
    public PureFluid pure(String name) {
        throw new PropertyException(PropertyException.Key.UNKNOWN_FLUID, Map.of("name", name, "suggestion", ""));
    }

    private static Gas gas(String name) {
        return GASES.stream()
                .filter(g -> g.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new PropertyException(
                        PropertyException.Key.UNKNOWN_FLUID, Map.of("name", name, "suggestion", "")));
    }

    @Override
    public StreamMixer mixer(List<StreamDefinition> streams) {
        Gas[] gases = new Gas[streams.size()];
        for (int k = 0; k < gases.length; k++) {
            if (!(streams.get(k) instanceof StreamDefinition.Single single)) {
                throw new PropertyException(
                        PropertyException.Key.BAD_DEFINITION, Map.of("what", "perfect gases know single fluids only"));
            }
            gases[k] = gas(single.fluid());
        }
        return new Mixer(streams.stream().map(StreamDefinition::name).toArray(String[]::new), gases);
    }

    private record Mixer(String[] names, Gas[] gases) implements StreamMixer {
        @Override
        public int size() {
            return gases.length;
        }

        @Override
        public String name(int stream) {
            return names[stream];
        }

        @Override
        public Fluid stream(int stream) {
            double[] y = new double[gases.length];
            y[stream] = 1;
            return mix(y);
        }

        @Override
        public double burnerTemperature(int stream) {
            return Double.NaN;
        }

        @Override
        public Fluid mix(double[] y) {
            double gasConstant = 0;
            double cp = 0;
            double viscosity = 0;
            for (int k = 0; k < y.length; k++) {
                gasConstant += y[k] * gases[k].gasConstant();
                cp += y[k] * gases[k].cp();
                viscosity += y[k] * gases[k].viscosity();
            }
            return new PerfectGas("perfect gas", gasConstant, cp, viscosity, speciesMoleFractions(y));
        }

        @Override
        public Map<String, Double> speciesMassFractions(double[] y) {
            Map<String, Double> result = new LinkedHashMap<>();
            for (int k = 0; k < y.length; k++) {
                result.merge(gases[k].name(), y[k], Double::sum);
            }
            return result;
        }

        @Override
        public Map<String, Double> speciesMoleFractions(double[] y) {
            double moles = 0;
            for (int k = 0; k < y.length; k++) {
                moles += y[k] * gases[k].gasConstant();
            }
            Map<String, Double> result = new LinkedHashMap<>();
            for (int k = 0; k < y.length; k++) {
                result.merge(gases[k].name(), y[k] * gases[k].gasConstant() / moles, Double::sum);
            }
            return result;
        }

        @Override
        public double molarMass(int stream) {
            return MOLAR_GAS_CONSTANT / gases[stream].gasConstant();
        }

        @Override
        public double molarDiffusivity(int stream, double[] y, double temperature) {
            return 101325 / (MOLAR_GAS_CONSTANT * 300) * DIFFUSIVITY;
        }

        @Override
        public PhaseSplit split(FluidState state) {
            return new PhaseSplit(state.fluid().moleFractions(), Map.of(), Map.of());
        }
    }

    /** A perfect gas; h = cp (T - 298.15 K). */
    private record PerfectGas(String name, double gasConstant, double cp, double mu, Map<String, Double> moleFractions)
            implements Fluid {
        @Override
        public double molarMass() {
            return MOLAR_GAS_CONSTANT / gasConstant;
        }

        @Override
        public FluidState atPressureTemperature(double p, double t) {
            if (!(t > 0) || !(p > 0)) {
                throw new PropertyException(
                        PropertyException.Key.NO_SUCH_STATE, Map.of("fluid", name, "pressure", p, "temperature", t));
            }
            double ratio = cp / (cp - gasConstant);
            return new FluidState(
                    this,
                    p,
                    t,
                    p / (gasConstant * t),
                    cp * (t - REFERENCE_TEMPERATURE),
                    cp * Math.log(t / REFERENCE_TEMPERATURE) - gasConstant * Math.log(p / REFERENCE_PRESSURE),
                    cp,
                    cp - gasConstant,
                    Math.sqrt(ratio * gasConstant * t),
                    1,
                    Phase.GAS,
                    false);
        }

        @Override
        public FluidState atPressureEnthalpy(double p, double h) {
            return atPressureTemperature(p, REFERENCE_TEMPERATURE + h / cp);
        }

        @Override
        public FluidState atPressureEntropy(double p, double s) {
            return atPressureTemperature(
                    p, REFERENCE_TEMPERATURE * Math.exp((s + gasConstant * Math.log(p / REFERENCE_PRESSURE)) / cp));
        }

        @Override
        public double viscosity(FluidState state) {
            return mu;
        }

        @Override
        public double conductivity(FluidState state) {
            return mu * cp / 0.7;
        }

        @Override
        public double idealGasHeatCapacityRatio(double temperature) {
            return cp / (cp - gasConstant);
        }

        @Override
        public double criticalDensity() {
            return Double.POSITIVE_INFINITY;
        }
    }
}
