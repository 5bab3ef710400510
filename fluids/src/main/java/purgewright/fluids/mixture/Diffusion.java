package purgewright.fluids.mixture;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;

/**
 * Binary diffusion coefficients of dilute gases, m2/s, and Blanc's rule for a species in a mixture. D goes with 1/p.
 *
 * <p>Order of preference for a pair: the correlation of Marrero and Mason where tabled (outside its range continued with the shape
 * of Chapman and Enskog's), Fuller's method where both diffusion volumes are known, Chapman and Enskog otherwise.
 */
public final class Diffusion {
    /** Pressure of the tabled coefficients, Pa. */
    public static final double ATMOSPHERE = 101325;

    private static final Map<String, MarreroMason> TABLE = table();
    /** The second range of air-H2O of the same table [from memory; agrees with the handbook's 573 and 673 K]. */
    private static final MarreroMason HOT_STEAM_IN_AIR =
            new MarreroMason(2.75e-5, 1.632, Double.NaN, 0, 0, 450, 1070, 1070);

    private static final Map<String, Double> VOLUMES = volumes();

    private Diffusion() {}

    /**
     * One correlation: {@code ln(p D) = ln A + s ln T - ln[ln(phi0/kT)]^2 - S/T - S'/T^2}, in atm cm2/s.
     *
     * <p>Source: T. R. Marrero, E. A. Mason, J. Phys. Chem. Ref. Data 1 (1972) 3, tables 12 and 13 [published; transcription].
     *
     * @param a coefficient A, atm cm2 s^-1 K^-s
     * @param s exponent
     * @param phi phi0/k, K, or NaN without the double logarithm
     * @param sutherland S, K
     * @param second S', K2
     * @param minimum K
     * @param maximum K
     * @param trusted up to here it is used, K; for He-Ar below the maximum, because the noble-gas tables of J. Kestin et al.,
     *     J. Phys. Chem. Ref. Data 13 (1984) 229 supersede it above (they have the shape of Chapman and Enskog's)
     */
    record MarreroMason(
            double a,
            double s,
            double phi,
            double sutherland,
            double second,
            double minimum,
            double maximum,
            double trusted) {
        /** D at 101325 Pa, m2/s. */
        double at(double temperature) {
            double log = Math.log(a)
                    + s * Math.log(temperature)
                    - sutherland / temperature
                    - second / (temperature * temperature);
            if (!Double.isNaN(phi)) {
                log -= 2 * Math.log(Math.log(phi / temperature));
            }
            return 1e-4 * Math.exp(log);
        }
    }

    /**
     * Coefficient of a pair of species (formulae, or "air") at temperature (K) and pressure (Pa), m2/s, by the order of preference
     * above.
     */
    public static double binary(String one, String other, double temperature, double pressure) {
        return law(one, other).applyAsDouble(temperature) * (ATMOSPHERE / pressure);
    }

    /**
     * Coefficient of a pair at 101325 Pa by temperature (K), m2/s, by the order of preference above: for who asks for the same pair again
     * and again, the names are looked up once.
     */
    static DoubleUnaryOperator law(String one, String other) {
        String pair = pair(one, other);
        if (TABLE.containsKey(pair)) {
            return temperature -> {
                MarreroMason tabled = tabled(pair, temperature);
                double inside = Math.max(tabled.minimum(), Math.min(tabled.trusted(), temperature));
                double d = tabled.at(inside);
                return inside == temperature
                        ? d
                        : d
                                * (chapmanEnskog(one, other, temperature, ATMOSPHERE)
                                        / chapmanEnskog(one, other, inside, ATMOSPHERE));
            };
        }
        if ("air".equals(one) || "air".equals(other)) {
            return temperature -> inAir("air".equals(one) ? other : one, temperature, ATMOSPHERE);
        }
        double v1 = volume(one);
        double v2 = volume(other);
        double m1 = Potentials.molarMass(one);
        double m2 = Potentials.molarMass(other);
        if (v1 > 0 && v2 > 0 && !one.equals(other)) {
            double resistance = fullerResistance(ATMOSPHERE, m1, m2, v1, v2);
            return temperature -> fuller(temperature, resistance);
        }
        double diameter = (Potentials.diameter(one) + Potentials.diameter(other)) / 2;
        double wellDepth = Math.sqrt(Potentials.wellDepth(one) * Potentials.wellDepth(other));
        return temperature -> chapmanEnskog(temperature, ATMOSPHERE, m1, m2, diameter, wellDepth);
    }

    /** The correlation of Marrero and Mason inside its range, m2/s; NaN outside it or when the pair is not tabled. */
    public static double marreroMason(String one, String other, double temperature, double pressure) {
        MarreroMason tabled = tabled(pair(one, other), temperature);
        if (tabled == null || temperature < tabled.minimum() || temperature > tabled.maximum()) {
            return Double.NaN;
        }
        return tabled.at(temperature) * ATMOSPHERE / pressure;
    }

    /**
     * Fuller, Schettler and Giddings, m2/s.
     *
     * <pre>{@code D = 0.00143 T^1.75 / (p M^(1/2) (v1^(1/3) + v2^(1/3))^2),  M = 2/(1/M1 + 1/M2)   [cm2/s, bar, g/mol]}</pre>
     *
     * <p>Source: Poling, Prausnitz, O'Connell, The Properties of Gases and Liquids, 5th ed., chapter 11 [from memory].
     *
     * @param temperature K
     * @param pressure Pa
     * @param mass1 kg/mol
     * @param mass2 kg/mol
     * @param volume1 diffusion volume of the first
     * @param volume2 of the second
     */
    public static double fuller(
            double temperature, double pressure, double mass1, double mass2, double volume1, double volume2) {
        return fuller(temperature, fullerResistance(pressure, mass1, mass2, volume1, volume2));
    }

    private static double fuller(double temperature, double resistance) {
        return 1e-4 * 0.00143 * Math.pow(temperature, 1.75) / resistance;
    }

    /** What is below the fraction line in Fuller's method. */
    private static double fullerResistance(
            double pressure, double mass1, double mass2, double volume1, double volume2) {
        double mean = 2000 / (1 / mass1 + 1 / mass2);
        double sum = Math.cbrt(volume1) + Math.cbrt(volume2);
        return pressure / 1e5 * Math.sqrt(mean) * sum * sum;
    }

    /** Fuller's method for two species with known diffusion volumes; NaN otherwise. */
    public static double fuller(String one, String other, double temperature, double pressure) {
        double v1 = volume(one);
        double v2 = volume(other);
        return v1 > 0 && v2 > 0
                ? fuller(temperature, pressure, Potentials.molarMass(one), Potentials.molarMass(other), v1, v2)
                : Double.NaN;
    }

    /**
     * Chapman and Enskog with the 12-6 potential, m2/s.
     *
     * <pre>{@code D = 0.00266 T^(3/2) / (p M^(1/2) sigma^2 Omega)   [cm2/s, bar, g/mol, angstrom]}</pre>
     *
     * @param temperature K
     * @param pressure Pa
     * @param mass1 kg/mol
     * @param mass2 kg/mol
     * @param diameter mean of the two, angstrom
     * @param wellDepth geometric mean of the two, K
     */
    public static double chapmanEnskog(
            double temperature, double pressure, double mass1, double mass2, double diameter, double wellDepth) {
        double mean = 2000 / (1 / mass1 + 1 / mass2);
        double omega = GasTransport.diffusionIntegral(temperature / wellDepth);
        return 1e-4
                * 0.00266
                * temperature
                * Math.sqrt(temperature)
                / (pressure / 1e5 * Math.sqrt(mean) * diameter * diameter * omega);
    }

    /** Chapman and Enskog for two species by name. */
    static double chapmanEnskog(String one, String other, double temperature, double pressure) {
        return chapmanEnskog(
                temperature,
                pressure,
                Potentials.molarMass(one),
                Potentials.molarMass(other),
                (Potentials.diameter(one) + Potentials.diameter(other)) / 2,
                Math.sqrt(Potentials.wellDepth(one) * Potentials.wellDepth(other)));
    }

    /**
     * Blanc's rule: {@code D = 1 / sum_j (x_j / D_ij)}, x of the others normalised to 1.
     *
     * @param fractions of the other species, any common scale
     * @param coefficients D of the species in each other
     */
    public static double blanc(double[] fractions, double[] coefficients) {
        double sum = 0;
        double resistance = 0;
        for (int j = 0; j < fractions.length; j++) {
            sum += fractions[j];
            resistance += fractions[j] / coefficients[j];
        }
        return sum / resistance;
    }

    /** A species in air for a pair that is not tabled with air: Blanc's rule over its components. */
    private static double inAir(String species, double temperature, double pressure) {
        double[] coefficients = {
            binary(species, "N2", temperature, pressure),
            binary(species, "O2", temperature, pressure),
            binary(species, "Ar", temperature, pressure)
        };
        return blanc(new double[] {0.7812, 0.2096, 0.0092}, coefficients);
    }

    private static MarreroMason tabled(String pair, double temperature) {
        return temperature > 450 && "H2O air".equals(pair) ? HOT_STEAM_IN_AIR : TABLE.get(pair);
    }

    private static String pair(String one, String other) {
        return one.compareTo(other) < 0 ? one + " " + other : other + " " + one;
    }

    /** Fuller's diffusion volume, or NaN. */
    static double volume(String species) {
        Double volume = VOLUMES.get(species);
        return volume == null ? Double.NaN : volume;
    }

    private static Map<String, MarreroMason> table() {
        Map<String, MarreroMason> t = new LinkedHashMap<>();
        double none = Double.NaN;
        put(t, "He", "N2", 15.8e-3, 1.524, 0.265e8, 0, 0, 77, 1e4);
        put(t, "He", "O2", 4.37e-5, 1.710, none, 0, 0, 244, 1e4);
        put(t, "He", "CH4", 3.13e-5, 1.750, none, 0, 0, 298, 1e4);
        put(t, "He", "H2", 27.0e-3, 1.510, 0.0534e8, 0, 0, 90, 1e4);
        put(t, "He", "Ar", 15.21e-3, 1.552, 0.41e8, 1.71, 0, 77, 1e4);
        put(t, "He", "air", 3.78e-5, 1.729, none, 0, 0, 244, 1e4);
        put(t, "He", "CO2", 3.31e-5, 1.720, none, 0, 0, 200, 530);
        put(t, "H2", "N2", 15.39e-3, 1.548, 0.316e8, -2.80, 1067, 65, 1e4);
        put(t, "H2", "O2", 4.17e-5, 1.732, none, 0, 0, 252, 1e4);
        put(t, "H2", "CH4", 3.13e-5, 1.765, none, 0, 0, 293, 1e4);
        put(t, "H2", "air", 3.64e-5, 1.750, none, 0, 0, 252, 1e4);
        put(t, "N2", "O2", 1.13e-5, 1.724, none, 0, 0, 285, 1e4);
        put(t, "CH4", "N2", 1.00e-5, 1.750, none, 0, 0, 298, 1e4);
        put(t, "CH4", "O2", 1.68e-5, 1.695, none, 44.2, 0, 294, 1e4);
        put(t, "CH4", "air", 1.03e-5, 1.747, none, 0, 0, 298, 1e4);
        put(t, "Ar", "O2", 0.977e-5, 1.736, none, 0, 0, 243, 1e4);
        put(t, "Ar", "N2", 0.904e-5, 1.752, none, 0, 0, 244, 1e4);
        put(t, "Ar", "CH4", 0.784e-5, 1.785, none, 0, 0, 307, 1e4);
        put(t, "N2", "CO2", 3.15e-5, 1.570, none, 113.6, 0, 288, 1800);
        put(t, "O2", "CO2", 1.56e-5, 1.661, none, 61.3, 0, 287, 1083);
        put(t, "air", "H2O", 0.187e-5, 2.072, none, 0, 0, 282, 450);
        put(t, "CO", "O2", 1.13e-5, 1.724, none, 0, 0, 285, 1e4);
        return t;
    }

    private static void put(
            Map<String, MarreroMason> table,
            String one,
            String other,
            double a,
            double s,
            double phi,
            double sutherland,
            double second,
            double minimum,
            double maximum) {
        double trusted = "Ar He".equals(pair(one, other)) ? 373.15 : maximum;
        table.put(pair(one, other), new MarreroMason(a, s, phi, sutherland, second, minimum, maximum, trusted));
    }

    /** Diffusion volumes after Fuller, Schettler and Giddings, as in Poling et al., 5th ed., table 11-1 [from memory]. */
    private static Map<String, Double> volumes() {
        Map<String, Double> v = new LinkedHashMap<>();
        double c = 15.9;
        double h = 2.31;
        double o = 6.11;
        v.put("He", 2.67);
        v.put("Ne", 5.98);
        v.put("H2", 6.12);
        v.put("N2", 18.5);
        v.put("O2", 16.3);
        v.put("air", 19.7);
        v.put("Ar", 16.2);
        v.put("CO", 18.0);
        v.put("CO2", 26.9);
        v.put("N2O", 35.9);
        v.put("NH3", 20.7);
        v.put("H2O", 13.1);
        v.put("CH4", c + 4 * h);
        v.put("C2H2", 2 * c + 2 * h);
        v.put("C2H4", 2 * c + 4 * h);
        v.put("C2H6", 2 * c + 6 * h);
        v.put("C3H6", 3 * c + 6 * h);
        v.put("C3H8", 3 * c + 8 * h);
        v.put("C4H10", 4 * c + 10 * h);
        v.put("C6H6", 6 * c + 6 * h - 18.3);
        v.put("C7H16", 7 * c + 16 * h);
        v.put("C8H18", 8 * c + 18 * h);
        v.put("C12H26", 12 * c + 26 * h);
        v.put("Jet-A", 12 * c + 23 * h);
        v.put("C2H6O", 2 * c + 6 * h + o);
        return v;
    }
}
