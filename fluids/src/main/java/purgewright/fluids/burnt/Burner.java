package purgewright.fluids.burnt;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;

/**
 * Adiabatic burner at constant pressure: propellants from their real states to equilibrium products.
 *
 * <p>A propellant's enthalpy is its engine's, moved to the formation datum. Kerosene is Jet-A, C12H23, -303.403 kJ/mol as liquid at
 * 298.15 K; RP-1 is CH1.95, -24.717 kJ per mol of carbon: NASA Glenn thermodynamic data, NASA TP-2002-211556
 * [published, value recalled from memory]; both take the change of enthalpy with temperature and pressure from n-dodecane. Hydrogen
 * colder than 100 K is parahydrogen, which liquid hydrogen turns into.
 */
public final class Burner {
    private static final double PARA_BELOW = 100; // K
    private static final double JET_A_MASS = 167.31102e-3;
    private static final double JET_A_LIQUID = -303.403e3;
    private static final double RP1_MASS = 12.0107e-3 + 1.95 * 1.00794e-3;
    private static final double RP1_LIQUID = -24.717e3;
    private static final double ATMOSPHERE = 101325;
    private static final double SHOWN = 1e-9; // mole fraction

    private Burner() {}

    /** One propellant: moles of species per kilogram, enthalpy. */
    private record Inlet(Map<String, Double> moles, double enthalpy) {}

    /**
     * Equilibrium products.
     *
     * @throws PropertyException {@code BAD_DEFINITION} for a fuel without formula or formation enthalpy here (give its products as
     *     measured), {@code UNKNOWN_FLUID}, or a range error of an inlet state
     */
    public static BurntGas burn(PropertyEngine engine, BurnConditions conditions) {
        double ratio = conditions.mixtureRatio();
        if (!(ratio > 0 && ratio < Double.POSITIVE_INFINITY)) {
            throw bad("mixture ratio must be above zero", "mixture ratio", ratio);
        }
        if (!(conditions.pressure() > 0 && conditions.pressure() < Double.POSITIVE_INFINITY)) {
            throw bad("burner pressure must be above zero", "pressure", conditions.pressure());
        }
        Inlet fuel = inlet(engine, conditions.fuel(), conditions.fuelTemperature(), conditions.pressure());
        Inlet oxidizer = inlet(engine, conditions.oxidizer(), conditions.oxidizerTemperature(), conditions.pressure());
        double fuelShare = 1 / (1 + ratio);
        double enthalpy = fuelShare * fuel.enthalpy() + (1 - fuelShare) * oxidizer.enthalpy();
        Map<String, Double> moles = new LinkedHashMap<>();
        fuel.moles().forEach((name, n) -> moles.merge(name, n * fuelShare, Double::sum));
        oxidizer.moles().forEach((name, n) -> moles.merge(name, n * (1 - fuelShare), Double::sum));
        EquilibriumState state =
                Equilibrium.atPressureEnthalpy(moles, enthalpy, conditions.pressure(), conditions.graphite());

        double kept = 0;
        for (Map.Entry<String, Double> entry : state.moleFractions().entrySet()) {
            if (entry.getValue() >= SHOWN) {
                kept += entry.getValue();
            }
        }
        Map<String, Double> fractions = new LinkedHashMap<>();
        double molarMass = 0;
        double heat = 0;
        for (Map.Entry<String, Double> entry : state.moleFractions().entrySet()) {
            if (entry.getValue() >= SHOWN) {
                double x = entry.getValue() / kept;
                Species species = SpeciesTable.find(entry.getKey());
                fractions.put(entry.getKey(), x);
                molarMass += x * species.molarMass();
                heat += x * species.polynomial().heatCapacity(state.temperature());
            }
        }
        double carbon = state.graphite() * SpeciesTable.find("C(gr)").molarMass();
        return new BurntGas(
                state.temperature(),
                conditions.pressure(),
                molarMass,
                fractions,
                conditions.graphite(),
                carbon,
                enthalpy,
                heat * Nasa7.GAS_CONSTANT / molarMass,
                heat / (heat - 1),
                state,
                state.temperature() < 200);
    }

    private static PropertyException bad(String what, String figure, Object value) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("what", what);
        values.put(figure, value);
        return new PropertyException(Key.BAD_DEFINITION, values);
    }

    /** The inlet of one propellant, per kilogram. */
    private static Inlet inlet(PropertyEngine engine, String name, double temperature, double pressure) {
        String plain = name.strip().toLowerCase(Locale.ROOT).replace("-", "").replace(" ", "");
        switch (plain) {
            case "kerosene", "jeta", "jeta1", "jp8":
                return liquidFuel(engine, "Jet-A", JET_A_MASS, JET_A_LIQUID, temperature, pressure);
            case "rp1":
                return liquidFuel(engine, "CH1.95", RP1_MASS, RP1_LIQUID, temperature, pressure);
            case "air":
                return air(engine, temperature, pressure);
            default:
                break;
        }
        PureFluid fluid = engine.pure(name);
        String formula = Formation.formula(fluid.name());
        double formation = Formation.enthalpy(fluid.name());
        if (Double.isNaN(formation)) {
            throw bad("no formation enthalpy for this propellant; give its products as measured", "fluid", name);
        }
        PureFluid cold = "H2".equals(formula) && temperature < PARA_BELOW ? engine.pure("parahydrogen") : fluid;
        double enthalpy = cold.atPressureTemperature(pressure, temperature).enthalpy()
                - cold.idealGasEnthalpy(Nasa7.DATUM_TEMPERATURE)
                + formation / cold.molarMass();
        return new Inlet(Map.of(formula, 1 / fluid.molarMass()), enthalpy);
    }

    private static Inlet liquidFuel(
            PropertyEngine engine, String formula, double mass, double formation, double temperature, double pressure) {
        PureFluid stand = engine.pure("n-dodecane");
        double change = stand.atPressureTemperature(pressure, temperature).enthalpy()
                - stand.atPressureTemperature(ATMOSPHERE, Nasa7.DATUM_TEMPERATURE)
                        .enthalpy();
        return new Inlet(Map.of(formula, 1 / mass), formation / mass + change);
    }

    /** Air as its components at their partial pressures: an oxidizer gas. Mole fractions as the streams'. */
    private static Inlet air(PropertyEngine engine, double temperature, double pressure) {
        Map<String, Double> parts = new LinkedHashMap<>();
        parts.put("nitrogen", 0.7812);
        parts.put("oxygen", 0.2096);
        parts.put("argon", 0.0092);
        double mass = 0;
        for (Map.Entry<String, Double> part : parts.entrySet()) {
            mass += part.getValue() * engine.pure(part.getKey()).molarMass();
        }
        Map<String, Double> moles = new LinkedHashMap<>();
        double enthalpy = 0;
        for (Map.Entry<String, Double> part : parts.entrySet()) {
            Fluid gas = engine.pure(part.getKey());
            double x = part.getValue();
            moles.put(Formation.formula(part.getKey()), x / mass);
            enthalpy += x
                    * gas.molarMass()
                    / mass
                    * (gas.atPressureTemperature(x * pressure, temperature).enthalpy()
                            - engine.pure(part.getKey()).idealGasEnthalpy(Nasa7.DATUM_TEMPERATURE));
        }
        return new Inlet(moles, enthalpy);
    }
}
