package purgewright.hazard.flammability;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The closed rules of flammability. Concentrations are mole fractions; temperatures K. Room-temperature, one-atmosphere rules unless
 * said; none of them knows pressure.
 */
public final class Flammability {
    /** Oxygen in the standard dry air of the limit tables. */
    public static final double OXYGEN_IN_AIR = 0.2095;

    private static final double CALORIE = 4.184;
    private static final double REFERENCE = 298.15;

    private Flammability() {}

    /**
     * Le Chatelier's rule: {@code L = sum(x_i) / sum(x_i / L_i)}. For lower limits good within a few percent for hydrocarbons, hydrogen
     * and carbon monoxide; for upper limits rough.
     *
     * @param fractions of the fuels, any scale
     * @param limits of each, same keys
     * @return limit of the fuel blend; NaN when a limit is missing
     */
    public static double leChatelier(Map<String, Double> fractions, Map<String, Double> limits) {
        double sum = 0;
        double parts = 0;
        for (Map.Entry<String, Double> e : fractions.entrySet()) {
            sum += e.getValue();
            parts += e.getValue() / limits.getOrDefault(e.getKey(), Double.NaN);
        }
        return sum / parts;
    }

    /**
     * Lower limit at temperature, modified Burgess-Wheeler: {@code LFL(T) = LFL - 0.75 (T - 25 C) / dHc}, vol % and kcal/mol.
     * A bound on the safe side for hydrogen.
     *
     * @param lowerLimit at 25 C, fraction
     * @param temperature K
     * @param heat net heat of combustion, J/mol
     * @return fraction, not below 0
     */
    public static double lowerLimitAt(double lowerLimit, double temperature, double heat) {
        double kilocalories = heat / CALORIE / 1e3;
        return Math.max(0, lowerLimit - 0.01 * 0.75 * (temperature - REFERENCE) / kilocalories);
    }

    /** Lower limit at temperature, Zabetakis' form for hydrocarbons: {@code LFL (1 - 0.000721 (T - 25 C))}. */
    public static double lowerLimitZabetakis(double lowerLimit, double temperature) {
        return lowerLimit * (1 - 0.000721 * (temperature - REFERENCE));
    }

    /** Stoichiometric share of a fuel in a gas with this oxygen fraction: {@code 1 / (1 + nu / oxygen)}. */
    public static double stoichiometric(Species fuel, double oxygen) {
        return 1 / (1 + fuel.oxygenDemand() / oxygen);
    }

    /** Estimate of the limiting oxygen, {@code nu LFL}: good to 20 % for hydrocarbons, useless for hydrogen. */
    public static double limitingOxygenEstimate(Species fuel, double lowerLimit) {
        return fuel.oxygenDemand() * lowerLimit;
    }

    /** Jones' estimate of a lower limit, {@code 0.55 Cst} in air. */
    public static double jones(Species fuel) {
        return 0.55 * stoichiometric(fuel, OXYGEN_IN_AIR);
    }

    /**
     * Lower limit of a gas that holds inert parts, ISO 10156:2017:
     *
     * <pre>{@code
     * L'_i = L_i (1 - Lm - (1 - K) (B/A) Lm) / (1 - Lm),   L_mix = 1 / sum(A_i / L'_i)
     * }</pre>
     *
     * with Lm by Le Chatelier of the fuels alone, A the fuels' share, B the inerts' share (oxygen and nitrogen counted with K = 1), K the
     * mean coefficient of the inerts.
     *
     * @param fuels fraction by species
     * @param inerts fraction by species
     * @param limits lower limit of each fuel, fraction
     * @param coefficients nitrogen equivalence of each inert
     * @return lower limit of the whole gas in air, fraction; NaN when a limit or coefficient is missing
     */
    public static double lowerLimitWithInert(
            Map<String, Double> fuels,
            Map<String, Double> inerts,
            Map<String, Double> limits,
            Map<String, Double> coefficients) {
        double a = fuels.values().stream().mapToDouble(Double::doubleValue).sum();
        double b = 0;
        double kb = 0;
        for (Map.Entry<String, Double> e : inerts.entrySet()) {
            b += e.getValue();
            kb += e.getValue() * coefficients.getOrDefault(e.getKey(), Double.NaN);
        }
        double lm = leChatelier(fuels, limits);
        double k = b > 0 ? kb / b : 1;
        double factor = (1 - lm - (1 - k) * (b / a) * lm) / (1 - lm);
        double sum = 0;
        for (Map.Entry<String, Double> e : fuels.entrySet()) {
            sum += e.getValue() / (limits.getOrDefault(e.getKey(), Double.NaN) * factor);
        }
        return 1 / sum;
    }

    /**
     * Index of ISO 10156:2010: {@code sum(A'_i / Tc_i)} with {@code A'_i = A_i / (sum A + sum K_k B_k)}. At most 1 means that no dilution
     * with air makes the gas flammable.
     *
     * @return index; NaN when a Tc or coefficient is missing
     */
    public static double airDilutionIndex(Map<String, Double> fuels, Map<String, Double> inerts) {
        double sum = fuels.values().stream().mapToDouble(Double::doubleValue).sum();
        for (Map.Entry<String, Double> e : inerts.entrySet()) {
            sum += e.getValue()
                    * LimitTable.value(e.getKey(), LimitTable.Quantity.INERT_COEFFICIENT)
                            .si();
        }
        double index = 0;
        for (Map.Entry<String, Double> e : fuels.entrySet()) {
            index += e.getValue()
                    / sum
                    / LimitTable.value(e.getKey(), LimitTable.Quantity.TCI_NITROGEN)
                            .si();
        }
        return index;
    }

    /**
     * Lower bound of the limiting oxygen in another inert, which no table has: the inert of the limiting mixture is made more by 1/K, so
     * that {@code LOC_K = LOC / (1 + (1 - LOC - f) (1/K - 1))} with the fuel f in proportion to oxygen, {@code f = LOC / nu}. For K below
     * 1 only (helium, argon); from the equivalence rule of ISO 10156, not a measurement.
     */
    public static double limitingOxygenBound(double limitingOxygen, double oxygenDemand, double coefficient) {
        double inert = 1 - limitingOxygen - limitingOxygen / oxygenDemand;
        return limitingOxygen / (1 + inert * (1 / Math.min(1, coefficient) - 1));
    }

    /** Moles of free oxygen in one mole of mixture: {@code sum of -nu_i x_i} over the oxidizers. */
    public static double freeOxygen(Map<String, Double> moleFractions) {
        double sum = 0;
        for (Map.Entry<String, Double> e : moleFractions.entrySet()) {
            Species species = Species.find(e.getKey());
            if (species != null && species.oxidizer()) {
                sum -= species.oxygenDemand() * e.getValue();
            }
        }
        return sum;
    }

    /** The fuels of a mixture, by the tables' species name. */
    public static Map<String, Double> fuels(Map<String, Double> moleFractions) {
        Map<String, Double> fuels = new LinkedHashMap<>();
        moleFractions.forEach((name, x) -> {
            Species species = Species.find(name);
            if (species != null && species.fuel() && x > 0) {
                fuels.merge(species.name(), x, Double::sum);
            }
        });
        return fuels;
    }

    /** What is neither fuel nor oxidizer, by the tables' species name. */
    public static Map<String, Double> inerts(Map<String, Double> moleFractions) {
        Map<String, Double> inerts = new LinkedHashMap<>();
        moleFractions.forEach((name, x) -> {
            Species species = Species.find(name);
            if (species != null && !species.fuel() && !species.oxidizer() && x > 0) {
                inerts.merge(species.name(), x, Double::sum);
            }
        });
        return inerts;
    }

    /** Moles of O2 that the fuels of one mole of mixture take. */
    public static double oxygenTaken(Map<String, Double> fuels) {
        double sum = 0;
        for (Map.Entry<String, Double> e : fuels.entrySet()) {
            sum += e.getValue() * Species.find(e.getKey()).oxygenDemand();
        }
        return sum;
    }

    /**
     * Heat per mole of mixture when the scarcer of fuel and oxygen is used up, complete combustion without dissociation, J/mol: on the
     * high side. With oxygen scarce, it goes to the fuel that gives the most heat per mole of oxygen first.
     *
     * @return NaN when a fuel's heat is not known
     */
    public static double heat(Map<String, Double> moleFractions) {
        Map<String, Double> fuels = fuels(moleFractions);
        double oxygen = freeOxygen(moleFractions);
        double heat = 0;
        while (!fuels.isEmpty() && oxygen > 0) {
            String best = null;
            double most = -1;
            for (String name : fuels.keySet()) {
                Species species = Species.find(name);
                double each = species.heat() / species.oxygenDemand();
                if (Double.isNaN(each)) {
                    return Double.NaN;
                }
                if (each > most) {
                    most = each;
                    best = name;
                }
            }
            Species species = Species.find(best);
            double burnt = Math.min(fuels.remove(best), oxygen / species.oxygenDemand());
            heat += burnt * species.heat();
            oxygen -= burnt * species.oxygenDemand();
        }
        return heat;
    }

    /**
     * Temperature rise when all that can burn burns: {@code heat / cp}, cp of the unburnt mixture per mole. High side: no
     * dissociation, cp does not grow.
     *
     * @param molarHeatCapacity J/(mol K); where NaN the least any gas has, 5/2 R, is taken
     */
    public static double temperatureRise(Map<String, Double> moleFractions, double molarHeatCapacity) {
        double cp = molarHeatCapacity > 0 ? molarHeatCapacity : 2.5 * 8.314462618;
        return heat(moleFractions) / cp;
    }
}
