package purgewright.fluids.burnt;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.PureFluid;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;

/** Outside numbers for thermochemistry, equilibrium and burners. */
public final class CombustionChecks {
    private static final double ATMOSPHERE = 101325;
    private static final String CANTERA = "Cantera 3.2.0, NASA seven-coefficient data";
    private static final double AIR_RATIO = 3.76; // moles of N2 per O2 in the flame temperatures

    private CombustionChecks() {}

    /** All checks of this room. */
    public static List<Check> all() {
        List<Check> checks = new ArrayList<>();
        thermochemistry(checks);
        constants(checks);
        flames(checks);
        compositions(checks);
        limits(checks);
        gasGenerators(checks);
        burners(checks);
        liquids(checks);
        return checks;
    }

    // ---- THM

    private static void thermochemistry(List<Check> checks) {
        String source = "NIST-JANAF thermochemical tables; second value of an entry: the seven-coefficient set itself";
        rise(checks, source, "N2", 21.46, 56.13, 0.1, 0.1);
        rise(checks, source, "O2", 22.70, 59.2, 0.1, 0.1);
        rise(checks, source, "H2", 20.68, 52.94, 0.1, 0.1);
        rise(checks, source, "H2O", 26.00, 73.04, 0.1, 0.1);
        rise(checks, source, "CO2", 33.40, 91.44, 0.1, 0.1);
        rise(checks, source, "CO", 21.69, 56.73, 0.1, 0.1);
        rise(checks, source, "CH4", 38.65, Double.NaN, 0.1, 0.1);
        formation(checks, source, "H2O", -241.826, 0.1);
        formation(checks, source, "CO2", -393.51, 0.1);
        formation(checks, source, "CO", -110.53, 0.1);
        formation(checks, source, "CH4", -74.6, 0.1);
        formation(checks, source, "OH", 39.3, 0.1);
        formation(checks, source, "H", 218.0, 0.1);
        formation(checks, source, "O", 249.17, 0.1);
        formation(checks, source, "NO", 91.3, 0.1);
    }

    private static void rise(
            List<Check> checks, String source, String name, double to1000, double to2000, double tol1, double tol2) {
        Species species = SpeciesTable.find(name);
        checks.add(Check.absolute(
                "THM-01 " + name + " 1000 K",
                "molar enthalpy above 298.15 K",
                source,
                Label.FROM_MEMORY,
                to1000 * 1e3,
                () -> species.enthalpy(1000) - species.enthalpy(298.15),
                tol1 * 1e3,
                "J/mol",
                Kind.VALIDATION));
        if (!Double.isNaN(to2000)) {
            checks.add(Check.absolute(
                    "THM-01 " + name + " 2000 K",
                    "molar enthalpy above 298.15 K",
                    source,
                    Label.FROM_MEMORY,
                    to2000 * 1e3,
                    () -> species.enthalpy(2000) - species.enthalpy(298.15),
                    tol2 * 1e3,
                    "J/mol",
                    Kind.VALIDATION));
        }
    }

    private static void formation(List<Check> checks, String source, String name, double expected, double tolerance) {
        checks.add(Check.absolute(
                "THM-01 " + name + " formation",
                "formation enthalpy at 298.15 K",
                source,
                Label.FROM_MEMORY,
                expected * 1e3,
                () -> SpeciesTable.find(name).formationEnthalpy(),
                tolerance * 1e3,
                "J/mol",
                Kind.VALIDATION));
    }

    private static void constants(List<Check> checks) {
        constant(checks, "H2O = H2 + 0.5 O2", Map.of("H2O", -1.0, "H2", 1.0, "O2", 0.5), -10.06, -3.54, -1.35);
        constant(checks, "CO2 = CO + 0.5 O2", Map.of("CO2", -1.0, "CO", 1.0, "O2", 0.5), -10.21, -2.88, -0.48);
        constant(
                checks,
                "CO + H2O = CO2 + H2",
                Map.of("CO", -1.0, "H2O", -1.0, "CO2", 1.0, "H2", 1.0),
                0.157,
                -0.661,
                -0.869);
        constant(checks, "H2 = 2H", Map.of("H2", -1.0, "H", 2.0), -17.28, -5.57, -1.60);
        constant(checks, "O2 = 2O", Map.of("O2", -1.0, "O", 2.0), -19.60, -6.34, -1.89);
    }

    private static void constant(
            List<Check> checks, String reaction, Map<String, Double> change, double at1, double at2, double at3) {
        double[] expected = {at1, at2, at3};
        for (int i = 0; i < 3; i++) {
            double t = 1000.0 * (i + 1);
            checks.add(Check.absolute(
                    "THM-02 " + reaction + " " + (int) t + " K",
                    "log10 of the equilibrium constant at 1 bar",
                    CANTERA,
                    Label.DERIVED,
                    expected[i],
                    () -> {
                        double sum = 0;
                        for (Map.Entry<String, Double> entry : change.entrySet()) {
                            sum -= entry.getValue()
                                    * SpeciesTable.find(entry.getKey())
                                            .polynomial()
                                            .gibbs(t);
                        }
                        return sum / Math.log(10);
                    },
                    0.02,
                    "1",
                    Kind.VALIDATION));
        }
    }

    // ---- HAZ-16 to 18

    /** A fuel gas at 298.15 K: its name for atoms, and its formation enthalpy. */
    private static double formationOf(String fuel) {
        return Formation.enthalpy(fuel);
    }

    private static EquilibriumState flame(
            String fuel, double fuelMoles, Map<String, Double> oxidizer, double pressure) {
        Map<String, Double> moles = new LinkedHashMap<>(oxidizer);
        moles.merge(fuel, fuelMoles, Double::sum);
        // Oxidizers here are elements at 298.15 K: no enthalpy on the formation datum.
        return Equilibrium.atPressureEnthalpy(moles, fuelMoles * formationOf(fuel), pressure);
    }

    /** Stoichiometric flame; nitrogen per oxygen by mole. */
    private static EquilibriumState stoichiometric(String fuel, double nitrogen, double pressure) {
        double oxygen = -Elements.oxygenBalance(fuel);
        Map<String, Double> oxidizer = new LinkedHashMap<>();
        oxidizer.put("O2", oxygen);
        if (nitrogen > 0) {
            oxidizer.put("N2", nitrogen * oxygen);
        }
        return flame(fuel, 1, oxidizer, pressure);
    }

    private static void flames(List<Check> checks) {
        String[] fuels = {"H2", "CH4", "C3H8", "CO", "NH3", "C2H6O", "Jet-A"};
        double[] air = {2380, 2225, 2266, 2383, 2072, 2236, 2279};
        double[] oxygen = {3077, 3052, 3093, 2975, 2843, 2998, 3116};
        for (int i = 0; i < fuels.length; i++) {
            String fuel = fuels[i];
            temperature(
                    checks,
                    "HAZ-16 " + fuel + " in air",
                    CANTERA,
                    Label.DERIVED,
                    air[i],
                    () -> stoichiometric(fuel, AIR_RATIO, ATMOSPHERE).temperature(),
                    5);
            temperature(
                    checks,
                    "HAZ-16 " + fuel + " in oxygen",
                    CANTERA,
                    Label.DERIVED,
                    oxygen[i],
                    () -> stoichiometric(fuel, 0, ATMOSPHERE).temperature(),
                    5);
        }
        String[] hot = {"H2", "CH4", "C3H8", "Jet-A"};
        double[] at7 = {3680, 3631, 3701, 3740};
        for (int i = 0; i < hot.length; i++) {
            String fuel = hot[i];
            temperature(
                    checks,
                    "HAZ-16 " + fuel + " in oxygen, 7 MPa",
                    CANTERA,
                    Label.DERIVED,
                    at7[i],
                    () -> stoichiometric(fuel, 0, 7e6).temperature(),
                    5);
        }
        String marzouk = "O. A. Marzouk, Eng. Technol. Appl. Sci. Res. 13(4) (2023)";
        published(checks, "HAZ-17 CH4 in air", marzouk, Label.PUBLISHED, "CH4", AIR_RATIO, 2224);
        published(checks, "HAZ-17 CH4 in oxygen", marzouk, Label.PUBLISHED, "CH4", 0, 3050);
        published(checks, "HAZ-17 H2 in air", marzouk, Label.PUBLISHED, "H2", AIR_RATIO, 2379);
        published(checks, "HAZ-17 H2 in oxygen", marzouk, Label.PUBLISHED, "H2", 0, 3075);
        String turns = "S. R. Turns, An Introduction to Combustion, table B.1";
        published(checks, "HAZ-18 CH4 in air", turns, Label.FROM_MEMORY, "CH4", AIR_RATIO, 2226);
        published(checks, "HAZ-18 C3H8 in air", turns, Label.FROM_MEMORY, "C3H8", AIR_RATIO, 2267);
        published(checks, "HAZ-18 n-C12H26 in air", turns, Label.FROM_MEMORY, "C12H26", AIR_RATIO, 2277);
        published(checks, "HAZ-18 H2 in air", turns, Label.FROM_MEMORY, "H2", AIR_RATIO, 2383);
    }

    private static void published(
            List<Check> checks, String id, String source, Label label, String fuel, double nitrogen, double expected) {
        temperature(
                checks,
                id,
                source,
                label,
                expected,
                () -> stoichiometric(fuel, nitrogen, ATMOSPHERE).temperature(),
                10);
    }

    private static void temperature(
            List<Check> checks,
            String id,
            String source,
            Label label,
            double expected,
            DoubleSupplier ours,
            double tolerance) {
        checks.add(Check.absolute(
                id,
                "adiabatic equilibrium temperature",
                source,
                label,
                expected,
                ours,
                tolerance,
                "K",
                Kind.VALIDATION));
    }

    // ---- HAZ-19

    private static void compositions(List<Check> checks) {
        composition(checks, "H2", AIR_RATIO, new String[] {"H2O", "N2", "H2", "OH", "O2", "NO", "H"}, new double[] {
            0.32403, 0.64442, 0.015129, 0.0068095, 0.0047758, 0.002521, 0.0017776
        });
        composition(checks, "CH4", AIR_RATIO, new String[] {"H2O", "CO2", "CO", "O2", "H2", "OH", "N2"}, new double[] {
            0.18349, 0.085402, 0.0089535, 0.0046055, 0.0035916, 0.0028627, 0.70861
        });
        composition(checks, "H2", 0, new String[] {"H2O", "H2", "OH", "H", "O2", "O"}, new double[] {
            0.58416, 0.14931, 0.10567, 0.076881, 0.050915, 0.033021
        });
        composition(checks, "CH4", 0, new String[] {"H2O", "CO", "CO2", "OH", "O2", "H2", "H", "O"}, new double[] {
            0.39331, 0.15578, 0.11282, 0.093244, 0.083666, 0.072376, 0.049749, 0.039007
        });
    }

    private static void composition(
            List<Check> checks, String fuel, double nitrogen, String[] species, double[] expected) {
        for (int i = 0; i < species.length; i++) {
            String one = species[i];
            checks.add(Check.relative(
                    "HAZ-19 " + fuel + (nitrogen > 0 ? "/air " : "/oxygen ") + one,
                    "mole fraction at the flame, 101.325 kPa",
                    CANTERA,
                    Label.DERIVED,
                    expected[i],
                    () -> stoichiometric(fuel, nitrogen, ATMOSPHERE)
                            .moleFractions()
                            .get(one),
                    expected[i] > 0.01 ? 0.01 : 0.03,
                    "1",
                    Kind.VALIDATION));
        }
    }

    // ---- HAZ-20

    private static void limits(List<Check> checks) {
        limit(checks, "CH4", 5.0, 1481, "lower");
        limit(checks, "CH4", 15.0, 1769, "upper");
        limit(checks, "C3H8", 2.1, 1529, "lower");
        limit(checks, "C3H8", 9.5, 1331, "upper");
        limit(checks, "CO", 12.5, 1392, "lower");
        limit(checks, "CO", 74, 1265, "upper");
        limit(checks, "NH3", 15, 1632, "lower");
        limit(checks, "NH3", 28, 1820, "upper");
        limit(checks, "C2H6O", 3.3, 1492, "lower");
        limit(checks, "C2H6O", 19, 1034, "upper");
        limit(checks, "H2", 4.0, 627, "lower");
        limit(checks, "H2", 75, 1164, "upper");
        inOxygen(checks, "CH4", 5.0, 1440);
        inOxygen(checks, "C3H8", 2.1, 1487);
        inOxygen(checks, "H2", 4.0, 618);
        leastOxygen(checks, "CH4", 12.0, 1685);
        leastOxygen(checks, "CH4", 10.7, 1558);
        leastOxygen(checks, "C3H8", 11.5, 1633);
        leastOxygen(checks, "C3H8", 10.5, 1536);
        leastOxygen(checks, "CO", 5.5, 1280);
        leastOxygen(checks, "H2", 5.0, 1103);
        leastOxygen(checks, "H2", 4.6, 1042);
    }

    private static void limit(List<Check> checks, String fuel, double percent, double expected, String side) {
        double x = percent / 100;
        temperature(
                checks,
                "HAZ-20 " + fuel + " " + side + " limit in air",
                CANTERA + ", air 20.95 % O2",
                Label.DERIVED,
                expected,
                () -> flame(fuel, x, Map.of("O2", 0.2095 * (1 - x), "N2", 0.7905 * (1 - x)), ATMOSPHERE)
                        .temperature(),
                5);
    }

    private static void inOxygen(List<Check> checks, String fuel, double percent, double expected) {
        double x = percent / 100;
        temperature(
                checks,
                "HAZ-20 " + fuel + " lower limit in oxygen",
                CANTERA,
                Label.DERIVED,
                expected,
                () -> flame(fuel, x, Map.of("O2", 1 - x), ATMOSPHERE).temperature(),
                5);
    }

    private static void leastOxygen(List<Check> checks, String fuel, double percent, double expected) {
        temperature(
                checks,
                "HAZ-20 " + fuel + " with " + percent + " % oxygen",
                CANTERA + ", stoichiometric, rest N2",
                Label.DERIVED,
                expected,
                () -> {
                    double oxygen = percent / 100;
                    double x = oxygen / -Elements.oxygenBalance(fuel);
                    return flame(fuel, x, Map.of("O2", oxygen, "N2", 1 - oxygen - x), ATMOSPHERE)
                            .temperature();
                },
                5);
    }

    // ---- HAZ-21 and 22 with gaseous reactants

    private static EquilibriumState generator(String fuel, double ratio, double pressure, boolean graphite) {
        double fuelMoles = 1 / (1 + ratio) / SpeciesTable.find(fuel).molarMass();
        double oxygen = ratio / (1 + ratio) / SpeciesTable.find("O2").molarMass();
        return Equilibrium.atPressureEnthalpy(
                Map.of(fuel, fuelMoles, "O2", oxygen), fuelMoles * formationOf(fuel), pressure, graphite);
    }

    private static void gasGenerators(List<Check> checks) {
        double[] ratios = {0.6, 0.8, 1.0, 6, 8};
        double[] expected = {909.2, 1100.0, 1282.1, 3595, 3680};
        for (int i = 0; i < ratios.length; i++) {
            double ratio = ratios[i];
            temperature(
                    checks,
                    "HAZ-21 H2/O2 gases " + ratio,
                    CANTERA,
                    Label.DERIVED,
                    expected[i],
                    () -> generator("H2", ratio, 7e6, false).temperature(),
                    5);
        }
        checks.add(Check.relative(
                "HAZ-21 H2/O2 gases 0.8, H2",
                "mole fraction",
                CANTERA,
                Label.DERIVED,
                0.89919,
                () -> generator("H2", 0.8, 7e6, false).moleFractions().get("H2"),
                1e-3,
                "1",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "HAZ-21 H2/O2 gases 0.8, H2O",
                "mole fraction",
                CANTERA,
                Label.DERIVED,
                0.10081,
                () -> generator("H2", 0.8, 7e6, false).moleFractions().get("H2O"),
                1e-3,
                "1",
                Kind.VALIDATION));
        temperature(
                checks,
                "HAZ-22 CH4/O2 gases 0.4, graphite",
                CANTERA,
                Label.DERIVED,
                1067.3,
                () -> generator("CH4", 0.4, 6e6, true).temperature(),
                5);
        temperature(
                checks,
                "HAZ-22 CH4/O2 gases 0.4, gas only",
                CANTERA,
                Label.DERIVED,
                1069.9,
                () -> generator("CH4", 0.4, 6e6, false).temperature(),
                5);
    }

    // ---- burners fed with liquids: HAZ-21, 22, 46, TRD

    private static BurntGas burner(
            String fuel,
            double ratio,
            double pressure,
            double fuelTemperature,
            double oxygenTemperature,
            boolean graphite) {
        return Burner.burn(
                Engines.embedded(),
                new Inputs(fuel, "oxygen", ratio, pressure, fuelTemperature, oxygenTemperature, graphite));
    }

    private record Inputs(
            String fuel,
            String oxidizer,
            double mixtureRatio,
            double pressure,
            double fuelTemperature,
            double oxidizerTemperature,
            boolean graphite)
            implements BurnConditions {}

    private static void burners(List<Check> checks) {
        String both = "Cantera 3.2.0 and CoolProp 8.0.0";
        double[] ratios = {0.7, 0.8, 0.9, 1.0, 6};
        double[] expected = {705.6, 802.4, 897.1, 990.0, 3533};
        for (int i = 0; i < ratios.length; i++) {
            double ratio = ratios[i];
            temperature(
                    checks,
                    "HAZ-21 LH2/LOX " + ratio,
                    both,
                    Label.DERIVED,
                    expected[i],
                    () -> burner("hydrogen", ratio, 10e6, 25, 95, false).temperature(),
                    5);
        }
        double[] methane = {0.3, 0.4, 0.5, 0.6};
        double[] sooty = {897.0, 997.1, 1067.5, 1121.1};
        double[] clean = {909.9, 1001.4, 1065.2, 1115.3};
        for (int i = 0; i < methane.length; i++) {
            double ratio = methane[i];
            temperature(
                    checks,
                    "HAZ-22 LCH4/LOX " + ratio + ", graphite",
                    both,
                    Label.DERIVED,
                    sooty[i],
                    () -> burner("methane", ratio, 6e6, 120, 95, true).temperature(),
                    5);
            temperature(
                    checks,
                    "HAZ-22 LCH4/LOX " + ratio + ", gas only",
                    both,
                    Label.DERIVED,
                    clean[i],
                    () -> burner("methane", ratio, 6e6, 120, 95, false).temperature(),
                    5);
        }
        temperature(
                checks,
                "HAZ-22 LCH4/LOX 3.4, 10 MPa",
                both,
                Label.DERIVED,
                3605,
                () -> burner("methane", 3.4, 10e6, 120, 95, false).temperature(),
                5);
        String[] species = {"CH4", "H2", "H2O", "CO2", "CO"};
        double[] withGraphite = {0.465, 0.282, 0.196, 0.0288, 0.0285};
        double[] gasOnly = {0.589, 0.1785, 0.0954, 0.0592, 0.0776};
        for (int i = 0; i < species.length; i++) {
            String one = species[i];
            fraction(checks, "HAZ-22 LCH4/LOX 0.4, graphite, " + one, both, withGraphite[i], one, true);
            fraction(checks, "HAZ-22 LCH4/LOX 0.4, gas only, " + one, both, gasOnly[i], one, false);
        }
        checks.add(Check.relative(
                "HAZ-22 LCH4/LOX 0.4, graphite, C(gr)",
                "share of all moles",
                both,
                Label.DERIVED,
                0.154,
                () -> {
                    EquilibriumState state =
                            burner("methane", 0.4, 6e6, 120, 95, true).equilibrium();
                    return state.graphite() / (state.graphite() + state.gasMoles());
                },
                0.02,
                "1",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "HAZ-22 LCH4/LOX 0.4, gas only, molar mass",
                "molar mass",
                both,
                Label.DERIVED,
                16.3165e-3,
                () -> burner("methane", 0.4, 6e6, 120, 95, false).molarMass(),
                0.002,
                "kg/mol",
                Kind.VALIDATION));
        String turbines = "NASA SP-8110, Liquid rocket engine turbines, table III";
        checks.add(Check.relative(
                "HAZ-46 LOX/LH2 cp",
                "frozen cp of drive gas at 922 K",
                turbines,
                Label.PUBLISHED,
                7997,
                () -> burner("hydrogen", 0.92663, 10e6, 25, 95, false).frozenHeatCapacity(),
                0.01,
                "J/(kg K)",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "HAZ-46 LOX/LH2 cp/cv",
                "frozen ratio of heat capacities of drive gas at 922 K",
                turbines,
                Label.PUBLISHED,
                1.364,
                () -> burner("hydrogen", 0.92663, 10e6, 25, 95, false).heatCapacityRatio(),
                0.01,
                "1",
                Kind.VALIDATION));
        temperature(
                checks,
                "HAZ-46 LOX/LH2 temperature",
                both,
                Label.DERIVED,
                922.04,
                () -> burner("hydrogen", 0.92663, 10e6, 25, 95, false).temperature(),
                5);
        checks.add(Check.relative(
                "HAZ-46 LOX/LH2 molar mass",
                "molar mass of drive gas at 922 K",
                both,
                Label.DERIVED,
                3.8841e-3,
                () -> burner("hydrogen", 0.92663, 10e6, 25, 95, false).molarMass(),
                0.002,
                "kg/mol",
                Kind.VALIDATION));
        kerosene(checks, 977.6, 2713, 1.115, turbines);
        kerosene(checks, 1088.7, 2747, 1.132, turbines);
        temperature(
                checks,
                "TRD-02 kerosene/LOX near stoichiometric, 7 MPa",
                "a fact of the trade: about 3600 K",
                Label.COMMON_PRACTICE,
                3600,
                () -> burner("kerosene", 2.7, 7e6, 298.15, 90, false).temperature(),
                200);
        temperature(
                checks,
                "TRD-01 LCH4/LOX gas generator at 0.55",
                "a fact of the trade: about 1100 K",
                Label.COMMON_PRACTICE,
                1100,
                () -> burner("methane", 0.55, 7e6, 120, 95, false).temperature(),
                100);
    }

    /**
     * Fuel-rich kerosene gas at a temperature: the mixture ratio that gives it, gas phase alone, 5 MPa (the table states none), then frozen
     * heat capacity and ratio. The real gas is far from equilibrium, hence the tolerance.
     */
    private static void kerosene(List<Check> checks, double temperature, double cp, double kappa, String source) {
        String at = String.format(Locale.ROOT, " at %.1f K", temperature);
        checks.add(Check.relative(
                "HAZ-46 LOX/RP-1 cp" + at,
                "frozen cp of fuel-rich drive gas, gas phase",
                source,
                Label.PUBLISHED,
                cp,
                () -> keroseneAt(temperature).frozenHeatCapacity(),
                0.1,
                "J/(kg K)",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "HAZ-46 LOX/RP-1 cp/cv" + at,
                "frozen ratio of heat capacities of fuel-rich drive gas, gas phase",
                source,
                Label.PUBLISHED,
                kappa,
                () -> keroseneAt(temperature).heatCapacityRatio(),
                0.1,
                "1",
                Kind.VALIDATION));
    }

    private static BurntGas keroseneAt(double temperature) {
        double low = 0.2;
        double high = 0.6;
        for (int i = 0; i < 24; i++) {
            double middle = 0.5 * (low + high);
            if (burner("RP-1", middle, 5e6, 298.15, 90.2, false).temperature() < temperature) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return burner("RP-1", 0.5 * (low + high), 5e6, 298.15, 90.2, false);
    }

    private static void fraction(
            List<Check> checks, String id, String source, double expected, String species, boolean graphite) {
        checks.add(Check.relative(
                id,
                "mole fraction of the gas",
                source,
                Label.DERIVED,
                expected,
                () -> burner("methane", 0.4, 6e6, 120, 95, graphite)
                        .moleFractions()
                        .get(species),
                0.02,
                "1",
                Kind.VALIDATION));
    }

    private static void liquids(List<Check> checks) {
        String glenn = "NASA Glenn thermodynamic data, NASA RP-1311 and TP-2002-211556";
        liquid(checks, "H2(L) 20.27 K", glenn, "parahydrogen", 20.27, -9.012);
        liquid(checks, "O2(L) 90.17 K", glenn, "oxygen", 90.17, -12.979);
        liquid(checks, "CH4(L) 111.643 K", glenn, "methane", 111.643, -89.233);
        // Formation enthalpies of gas and liquid from two sources, evaporation from the equation of state.
        checks.add(Check.absolute(
                "HAZ-23 ethanol(L) 298.15 K",
                "formation enthalpy of the liquid",
                glenn,
                Label.FROM_MEMORY,
                -277.51e3,
                () -> liquidEnthalpy("ethanol", 298.15),
                100,
                "J/mol",
                Kind.VALIDATION));
    }

    private static double liquidEnthalpy(String fluid, double temperature) {
        PureFluid pure = Engines.embedded().pure(fluid);
        double liquid = pure.atTemperatureQuality(temperature, 0).enthalpy();
        return (liquid - pure.idealGasEnthalpy(Nasa7.DATUM_TEMPERATURE)) * pure.molarMass() + Formation.enthalpy(fluid);
    }

    private static void liquid(
            List<Check> checks, String id, String source, String fluid, double temperature, double expected) {
        checks.add(Check.absolute(
                "HAZ-23 " + id,
                "molar enthalpy of the liquid on the formation datum",
                source,
                Label.FROM_MEMORY,
                expected * 1e3,
                () -> liquidEnthalpy(fluid, temperature),
                100,
                "J/mol",
                Kind.VALIDATION));
    }
}
