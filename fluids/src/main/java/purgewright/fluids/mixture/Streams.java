package purgewright.fluids.mixture;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;
import purgewright.fluids.burnt.Burner;
import purgewright.fluids.burnt.BurntGas;
import purgewright.fluids.burnt.Formation;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.burnt.SpeciesTable;

/**
 * A case's streams, and their mixtures in any proportion.
 *
 * <p>Each library fluid among the streams is one component, shared by all streams that hold it; the dry gas of each burnt or measured
 * stream is one ideal-gas component of frozen composition; the water of burnt gas is the library's water, so that it condenses.
 * Carbon that the burner left as graphite is not carried on.
 *
 * <p>{@code air} is nitrogen, oxygen and argon, mole fractions 0.7812, 0.2096, 0.0092: E. W. Lemmon, R. T. Jacobsen,
 * S. G. Penoncello, D. G. Friend, J. Phys. Chem. Ref. Data 29 (2000) 331 [published, value recalled from memory].
 *
 * <p>Species carry the library's name where the engine has the fluid ("hydrogen", also for the H2 of a burnt gas), else the formula.
 */
public final class Streams implements StreamMixer {
    /** Mole fractions of dry air. */
    public static final Map<String, Double> AIR = air();

    /** Mass fraction below which a stream or component counts as absent. */
    static final double ABSENT = 1e-12;

    private static final double SPECIES_FLOOR = 1e-9; // of a burnt gas, mole fraction

    private final String[] names;
    private final Fluid[] streams;
    private final double[] burnerTemperatures;
    private final Component[] components;
    /** Mass fraction of component k in stream i: [i][k]. */
    private final double[][] composition;

    private final double[] molarMasses;
    private final Map<String, String> keys;
    private final String[] species; // names as shown
    private final String[] formulae; // for diffusion
    /** Laws of the pairs of species met so far; two threads may make the same one, and either will do. */
    private final DoubleUnaryOperator[][] diffusion;

    private final double[] speciesMolarMass;
    /** Mole fraction of species a in stream i: [i][a]. */
    private final double[][] moles;

    private Streams(PropertyEngine engine, List<StreamDefinition> definitions) {
        int n = definitions.size();
        this.names = new String[n];
        this.burnerTemperatures = new double[n];
        this.keys = new LinkedHashMap<>();
        Map<String, RealComponent> real = new LinkedHashMap<>();
        List<Component> all = new ArrayList<>();
        List<Map<Component, Double>> masses = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            StreamDefinition definition = definitions.get(i);
            names[i] = definition.name();
            burnerTemperatures[i] = Double.NaN;
            Map<Component, Double> mass = new LinkedHashMap<>();
            if (definition instanceof StreamDefinition.Single single) {
                addFluid(engine, single.fluid(), 1, true, real, all, mass);
            } else if (definition instanceof StreamDefinition.Mix mix) {
                checkFractions(mix.name(), mix.fractions());
                mix.fractions().forEach((fluid, f) -> addFluid(engine, fluid, f, mix.byMole(), real, all, mass));
            } else if (definition instanceof StreamDefinition.Burn burn) {
                BurntGas gas = Burner.burn(engine, burn);
                burnerTemperatures[i] = gas.temperature();
                addGas(engine, burn.name(), gas.moleFractions(), real, all, mass);
            } else if (definition instanceof StreamDefinition.Measured measured) {
                checkFractions(measured.name(), measured.moleFractions());
                Map<String, Double> gas = new LinkedHashMap<>();
                measured.moleFractions().forEach((key, x) -> gas.merge(tabled(measured.name(), key), x, Double::sum));
                addGas(engine, measured.name(), gas, real, all, mass);
            }
            masses.add(mass);
        }
        this.components = all.toArray(new Component[0]);
        this.composition = new double[n][components.length];
        this.molarMasses = new double[n];
        for (int i = 0; i < n; i++) {
            double sum = 0;
            for (double m : masses.get(i).values()) {
                sum += m;
            }
            double perMole = 0;
            for (int k = 0; k < components.length; k++) {
                composition[i][k] = masses.get(i).getOrDefault(components[k], 0.0) / sum;
                perMole += composition[i][k] / components[k].molarMass();
            }
            molarMasses[i] = 1 / perMole;
        }

        Map<String, Integer> index = new LinkedHashMap<>();
        List<String> formula = new ArrayList<>();
        for (Component component : components) {
            for (String one : component.species().keySet()) {
                String key = key(one);
                if (index.putIfAbsent(key, index.size()) == null) {
                    formula.add(Formation.formula(one));
                }
            }
        }
        this.species = index.keySet().toArray(new String[0]);
        this.formulae = formula.toArray(new String[0]);
        this.diffusion = new DoubleUnaryOperator[formulae.length][formulae.length];
        this.moles = new double[n][species.length];
        this.speciesMolarMass = new double[species.length];
        for (Component component : components) {
            component.species().forEach((one, x) -> {
                int a = index.get(key(one));
                speciesMolarMass[a] = component instanceof RealComponent
                        ? component.molarMass()
                        : SpeciesTable.find(one).molarMass();
            });
        }
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < components.length; k++) {
                double x = composition[i][k] / components[k].molarMass() * molarMasses[i];
                if (x > 0) {
                    for (Map.Entry<String, Double> entry :
                            components[k].species().entrySet()) {
                        moles[i][index.get(key(entry.getKey()))] += x * entry.getValue();
                    }
                }
            }
        }

        this.streams = new Fluid[n];
        for (int i = 0; i < n; i++) {
            double[] alone = new double[n];
            alone[i] = 1;
            streams[i] = fluid(names[i], alone);
        }
    }

    /**
     * A mixer for a case's streams.
     *
     * @throws PropertyException when a definition cannot be met: unknown fluid, fractions that do not add up, a burner without an
     *     answer
     */
    public static StreamMixer mixer(PropertyEngine engine, List<StreamDefinition> definitions) {
        return new Streams(engine, definitions);
    }

    private static Map<String, Double> air() {
        Map<String, Double> air = new LinkedHashMap<>();
        air.put("nitrogen", 0.7812);
        air.put("oxygen", 0.2096);
        air.put("argon", 0.0092);
        return Collections.unmodifiableMap(air);
    }

    private static boolean isAir(String fluid) {
        return "air".equals(fluid.strip().toLowerCase(Locale.ROOT));
    }

    private static void checkFractions(String stream, Map<String, Double> fractions) {
        double sum = 0;
        for (Map.Entry<String, Double> entry : fractions.entrySet()) {
            double f = entry.getValue();
            if (!(f >= 0)) {
                throw bad("fraction of " + entry.getKey() + " below zero", stream, "fraction", f);
            }
            sum += f;
        }
        if (!(Math.abs(sum - 1) <= 1e-6)) {
            throw bad("fractions do not add up to 1", stream, "sum", sum);
        }
    }

    private static PropertyException bad(String what, String stream, String figure, double value) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("what", what);
        values.put("stream", stream);
        values.put(figure, value);
        return new PropertyException(Key.BAD_DEFINITION, values);
    }

    /** A species of the table from a formula or a library name. */
    private static String tabled(String stream, String key) {
        String formula = SpeciesTable.find(key) != null ? key : Formation.formula(key);
        if (SpeciesTable.find(formula) == null || SpeciesTable.find(formula).condensed()) {
            Map<String, Object> values = new LinkedHashMap<>();
            values.put("what", "not a gas of the species table");
            values.put("stream", stream);
            values.put("species", key);
            throw new PropertyException(Key.BAD_DEFINITION, values);
        }
        return formula;
    }

    private void addFluid(
            PropertyEngine engine,
            String fluid,
            double fraction,
            boolean byMole,
            Map<String, RealComponent> real,
            List<Component> all,
            Map<Component, Double> mass) {
        if (!(fraction > 0)) {
            return;
        }
        if (isAir(fluid)) {
            double mean = 0;
            for (Map.Entry<String, Double> entry : AIR.entrySet()) {
                mean += entry.getValue() * engine.pure(entry.getKey()).molarMass();
            }
            double airMoles = byMole ? fraction : fraction / mean;
            AIR.forEach((part, x) -> addFluid(engine, part, x * airMoles, true, real, all, mass));
            return;
        }
        RealComponent component = component(engine, fluid, real, all);
        // Masses on one scale: air inside a mix by mass comes here by mole, and x M is a mass again.
        mass.merge(component, byMole ? fraction * component.molarMass() : fraction, Double::sum);
    }

    private RealComponent component(
            PropertyEngine engine, String fluid, Map<String, RealComponent> real, List<Component> all) {
        PureFluid pure = engine.pure(fluid);
        RealComponent component = real.get(pure.name());
        if (component == null) {
            component = new RealComponent(pure);
            real.put(pure.name(), component);
            all.add(component);
            keys.put(pure.name(), pure.name());
        }
        return component;
    }

    private void addGas(
            PropertyEngine engine,
            String name,
            Map<String, Double> moleFractions,
            Map<String, RealComponent> real,
            List<Component> all,
            Map<Component, Double> mass) {
        Map<String, Double> dry = new LinkedHashMap<>();
        double dryMoles = 0;
        double water = 0;
        for (Map.Entry<String, Double> entry : moleFractions.entrySet()) {
            double x = entry.getValue();
            if (!(x >= SPECIES_FLOOR)) {
                continue;
            }
            if ("H2O".equals(entry.getKey())) {
                water = x;
            } else {
                dry.put(entry.getKey(), x);
                dryMoles += x;
                keys.put(entry.getKey(), libraryName(engine, entry.getKey()));
            }
        }
        if (dryMoles > 0) {
            double total = dryMoles;
            dry.replaceAll((key, x) -> x / total);
            IdealComponent gas = new IdealComponent(name, dry);
            all.add(gas);
            mass.put(gas, dryMoles * gas.molarMass());
        }
        if (water > 0) {
            RealComponent component = component(engine, "water", real, all);
            mass.merge(component, water * component.molarMass(), Double::sum);
        }
    }

    /** The engine's name for a formula where it has that fluid (ordinary hydrogen for H2), else the formula. */
    private static String libraryName(PropertyEngine engine, String formula) {
        for (String fluid : engine.fluidNames()) {
            if (Formation.formula(fluid).equals(formula)
                    && !fluid.toLowerCase(Locale.ROOT).startsWith("para")) {
                return fluid;
            }
        }
        return formula;
    }

    /** The name under which a species or component is shown. */
    String key(String component) {
        return keys.getOrDefault(component, component);
    }

    /** For instance "0.3 feed oxygen + 0.7 barrier gas", by mass. */
    String describe(double[] fractions) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < fractions.length; i++) {
            if (fractions[i] >= ABSENT) {
                text.append(text.length() == 0 ? "" : " + ")
                        .append(String.format(Locale.ROOT, "%.4g %s", fractions[i], names[i]));
            }
        }
        return text.toString();
    }

    @Override
    public int size() {
        return names.length;
    }

    @Override
    public String name(int stream) {
        return names[stream];
    }

    @Override
    public Fluid stream(int stream) {
        return streams[stream];
    }

    @Override
    public double burnerTemperature(int stream) {
        return burnerTemperatures[stream];
    }

    @Override
    public double molarMass(int stream) {
        return molarMasses[stream];
    }

    @Override
    public Fluid mix(double[] massFractions) {
        checkShares(massFractions);
        return fluid(null, massFractions.clone());
    }

    private void checkShares(double[] massFractions) {
        if (massFractions.length != names.length) {
            throw new IllegalArgumentException(
                    "need " + names.length + " mass fractions, one a stream, got " + massFractions.length);
        }
        double sum = 0;
        for (double f : massFractions) {
            if (!(f >= 0)) {
                throw new IllegalArgumentException("a mass fraction is " + f + ", below 0");
            }
            sum += f;
        }
        if (!(Math.abs(sum - 1) <= 1e-9)) {
            throw new IllegalArgumentException("mass fractions add up to " + sum + ", not to 1");
        }
    }

    private Fluid fluid(String name, double[] fractions) {
        double[] share = new double[components.length];
        double sum = 0;
        for (int k = 0; k < share.length; k++) {
            for (int i = 0; i < fractions.length; i++) {
                if (fractions[i] >= ABSENT) {
                    share[k] += fractions[i] * composition[i][k];
                }
            }
            sum += share[k];
        }
        int present = 0;
        double kept = 0;
        for (double s : share) {
            if (s >= ABSENT * sum) {
                present++;
                kept += s;
            }
        }
        Component[] parts = new Component[present];
        double[] shares = new double[present];
        int at = 0;
        for (int k = 0; k < share.length; k++) {
            if (share[k] >= ABSENT * sum) {
                parts[at] = components[k];
                shares[at++] = present == 1 ? 1 : share[k] / kept;
            }
        }
        return new MixtureFluid(this, name, parts, shares, fractions);
    }

    /** Moles of each species per kilogram. */
    private double[] amounts(double[] massFractions) {
        double[] amounts = new double[species.length];
        for (int i = 0; i < massFractions.length; i++) {
            if (massFractions[i] > 0) {
                double n = massFractions[i] / molarMasses[i];
                for (int a = 0; a < amounts.length; a++) {
                    amounts[a] += n * moles[i][a];
                }
            }
        }
        return amounts;
    }

    @Override
    public Map<String, Double> speciesMassFractions(double[] massFractions) {
        double[] amounts = amounts(massFractions);
        for (int a = 0; a < amounts.length; a++) {
            amounts[a] *= speciesMolarMass[a];
        }
        return normalised(amounts);
    }

    @Override
    public Map<String, Double> speciesMoleFractions(double[] massFractions) {
        return normalised(amounts(massFractions));
    }

    private Map<String, Double> normalised(double[] amounts) {
        double sum = 0;
        for (double amount : amounts) {
            sum += amount;
        }
        Map<String, Double> map = new LinkedHashMap<>();
        for (int a = 0; a < amounts.length; a++) {
            if (amounts[a] > 0) {
                map.put(species[a], amounts[a] / sum);
            }
        }
        return map;
    }

    /**
     * {@inheritDoc}
     *
     * <p>Each species of the stream diffuses into the species of the other streams (Blanc); the stream's resistance is the
     * mole-weighted mean of theirs. A stream alone diffuses into an even mix of the others, or into itself. The coefficient is the
     * dilute gas's; a caller that knows the state to be liquid takes zero instead.
     */
    @Override
    public double molarDiffusivity(int stream, double[] massFractions, double temperature) {
        int n = species.length;
        double[] rest = new double[n];
        double total = 0;
        for (int i = 0; i < names.length; i++) {
            if (i != stream && massFractions[i] > 0) {
                for (int a = 0; a < n; a++) {
                    double amount = massFractions[i] / molarMasses[i] * moles[i][a];
                    rest[a] += amount;
                    total += amount;
                }
            }
        }
        if (!(total > 0)) {
            for (int i = 0; i < names.length; i++) {
                if (i != stream || names.length == 1) {
                    for (int a = 0; a < n; a++) {
                        rest[a] += moles[i][a];
                        total += moles[i][a];
                    }
                }
            }
        }
        double p = Diffusion.ATMOSPHERE;
        double resistance = 0;
        double weight = 0;
        for (int a = 0; a < n; a++) {
            double x = moles[stream][a];
            if (x > 1e-6) {
                double sum = 0;
                double others = 0;
                for (int b = 0; b < n; b++) {
                    if (rest[b] > 1e-6 * total) {
                        sum += rest[b] / diffusion(a, b).applyAsDouble(temperature);
                        others += rest[b];
                    }
                }
                resistance += x * sum / others;
                weight += x;
            }
        }
        double coefficient = weight / resistance;
        return p / (Nasa7.GAS_CONSTANT * temperature) * coefficient;
    }

    /** The law of a pair of species; no two of a stream's species need one before they meet. */
    private DoubleUnaryOperator diffusion(int a, int b) {
        DoubleUnaryOperator law = diffusion[a][b];
        if (law == null) {
            law = Diffusion.law(formulae[a], formulae[b]);
            diffusion[a][b] = law;
        }
        return law;
    }

    @Override
    public PhaseSplit split(FluidState state) {
        return own(state).split(state);
    }

    @Override
    public double unlikeError(FluidState state) {
        return own(state).unlikeError(state);
    }

    private static MixtureFluid own(FluidState state) {
        if (state.fluid() instanceof MixtureFluid own) {
            return own;
        }
        throw new IllegalArgumentException("the state is of " + state.fluid().name() + ", which no mixer made");
    }
}
