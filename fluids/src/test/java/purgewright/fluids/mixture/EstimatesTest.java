package purgewright.fluids.mixture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.burnt.SpeciesTable;

/** What is estimated for gases without a correlation of their own, against published values and against what the equations say. */
@DisplayName("Estimates for gases stay within their rules' known errors of published values")
class EstimatesTest {
    private static final double R = 8.314462618;

    private final PropertyEngine engine = Engines.embedded();

    private static void near(double value, double expected, double relative, Object what) {
        assertThat(expected).as("%s", what).isFinite();
        assertThat(value).as("%s", what).isCloseTo(expected, within(relative * Math.abs(expected)));
    }

    /**
     * Viscosities of dilute gases, uPa s: table "Viscosity of gases" of the CRC Handbook of Chemistry and Physics [from memory]. Chapman and
     * Enskog's formula with tabled potentials is good to 3 %, with potentials from critical constants to 8 %; polar molecules are further off.
     */
    @ParameterizedTest(name = "{0} at {1} K: {2} uPa s within {3}")
    @CsvSource({
        "N2, 300, 17.9, 0.03",
        "N2, 600, 29.6, 0.03",
        "O2, 300, 20.7, 0.03",
        "CO2, 300, 15.0, 0.03",
        "CH4, 400, 14.3, 0.03",
        "Ar, 300, 22.9, 0.03",
        "He, 300, 20.0, 0.03",
        "C4H10, 400, 10.0, 0.08",
        "C3H6, 300, 8.7, 0.08",
        "C6H6, 400, 10.1, 0.08",
        "C2H6O, 400, 11.6, 0.1",
        "Ne, 300, 31.7, 0.25",
        "air, 300, 18.6, 0.05"
    })
    void viscosityOfADiluteGas(String species, double t, double published, double tolerance) {
        near(1e6 * Potentials.viscosity(species, Potentials.molarMass(species), t), published, tolerance, species);
    }

    /** T. H. Chung et al. by hand: eps/k = Tc/1.2593, sigma = 0.809 Vc^(1/3). */
    @Test
    void potentialsFollowFromCriticalConstants() {
        near(Potentials.wellDepth("C6H6"), 562.1 / 1.2593, 1e-12, "benzene");
        near(Math.pow(Potentials.diameter("C6H6") / 0.809, 3), 256, 1e-12, "benzene");
        near(Potentials.criticalMolarVolume("C6H6"), 256e-6, 1e-12, "benzene");
        assertThat(Potentials.wellDepth("N2"))
                .isEqualTo(SpeciesTable.potential("N2").wellDepth());
        assertThat(Potentials.diameter("air"))
                .isEqualTo(SpeciesTable.potential("N2").diameter());
        // one that nobody knows counts as carbon dioxide
        assertThat(Potentials.wellDepth("SF6"))
                .isEqualTo(SpeciesTable.potential("CO2").wellDepth());
        assertThat(Potentials.diameter("SF6"))
                .isEqualTo(SpeciesTable.potential("CO2").diameter());
    }

    @Test
    void molarMassesAreSumsOfAtoms() {
        near(Potentials.molarMass("C2H6O"), 46.07e-3, 2e-4, "ethanol");
        near(Potentials.molarMass("C12H26"), 170.34e-3, 2e-4, "dodecane");
        near(Potentials.molarMass("Ne"), 20.18e-3, 2e-4, "neon");
        near(Potentials.molarMass("CO2"), 44.01e-3, 2e-4, "carbon dioxide");
        near(Potentials.molarMass("air"), 28.96e-3, 5e-4, "air");
        assertThatThrownBy(() -> Potentials.molarMass("XeF2")).hasMessageContaining("Xe");
    }

    /**
     * The same two rules written out anew. Conductivity of argon at 300 K is 17.9, of nitrogen 26.0, of carbon dioxide 16.8, of helium 156 mW/(m K):
     * CRC Handbook of Chemistry and Physics [from memory].
     */
    @ParameterizedTest
    @CsvSource({"Ar, 17.9, 0.03", "He, 156, 0.03", "N2, 26.0, 0.05", "CO2, 16.8, 0.1", "CH4, 34.1, 0.1"})
    void conductivityOfADiluteGas(String species, double published, double tolerance) {
        double m = Potentials.molarMass(species);
        double cp = SpeciesTable.find(species).polynomial().heatCapacity(300) * R / m;
        double k = Potentials.conductivity(species, m, 300, cp);
        near(1e3 * k, published, tolerance, species);
        double cv = cp - R / m;
        double viscosity = Potentials.viscosity(species, m, 300);
        double eucken = cv * m / R < 1.51 ? 2.5 : 1.32 + 1.77 * R / (cv * m);
        near(k, viscosity * cv * eucken, 1e-9, species);
    }

    /** Atoms sit at the edge of the rule: 3/2 R is an atom's, anything above a molecule's. */
    @Test
    void euckensFactorIsTwoAndAHalfForAtomsAlone() {
        near(GasTransport.modifiedEucken(2e-5, 0.04, 1.5), 2.5 * 2e-5 * 1.5 * R / 0.04, 1e-12, "atom");
        near(GasTransport.modifiedEucken(2e-5, 0.04, 1.5 + 5e-7), 2.5 * 2e-5 * 1.5 * R / 0.04, 1e-6, "rounding");
        near(GasTransport.modifiedEucken(2e-5, 0.04, 1.51), (1.32 * 1.51 + 1.77) * 2e-5 * R / 0.04, 1e-12, "molecule");
    }

    /** Binary mixture of one kind of molecule under two names: nothing changes. Two kinds: C. R. Wilke's formula written out. */
    @Test
    void likeMoleculesMixToThemselves() {
        double[] half = {0.3, 0.7};
        double[] viscosities = {1.8e-5, 1.8e-5};
        double[] masses = {0.028, 0.028};
        near(GasTransport.wilke(half, viscosities, masses), 1.8e-5, 1e-12, "viscosity");
        near(
                GasTransport.masonSaxena(half, viscosities, new double[] {0.026, 0.026}, masses),
                0.026,
                1e-12,
                "conductivity");
        double[] absent = {1, 0};
        near(GasTransport.wilke(absent, new double[] {1.8e-5, Double.NaN}, masses), 1.8e-5, 1e-12, "alone");
        near(
                GasTransport.masonSaxena(
                        absent, new double[] {1.8e-5, Double.NaN}, new double[] {0.026, Double.NaN}, masses),
                0.026,
                1e-12,
                "alone");
    }

    // ------------------------------------------------------------ second virial coefficients

    /** Two of one kind: the second virial coefficient of the fluid itself, from its equation at vanishing density, cm3/mol. */
    @ParameterizedTest
    @CsvSource({
        "nitrogen, 200, 2",
        "nitrogen, 300, 2",
        "oxygen, 250, 3",
        "methane, 200, 4",
        "methane, 400, 3",
        "argon, 150, 4",
        "argon, 600, 3",
        "carbon dioxide, 320, 5",
        "carbon dioxide, 500, 3",
        "propane, 300, 12",
        "propane, 400, 6",
        "n-dodecane, 600, 180",
        "ethanol, 600, 40"
    })
    void theVirialOfLikePairsIsTheFluidsOwn(String name, double t, double tolerance) {
        PureFluid fluid = engine.pure(name);
        double[] constants = new RealComponent(fluid).criticalConstants();
        double density = 1e-4 * fluid.criticalDensity();
        // over the equation's own gas constant, which differs from today's in the sixth digit
        double thin = 1e-3 * density;
        double ideal = fluid.atDensityTemperature(thin, t).pressure() / thin;
        double compressibility = fluid.atDensityTemperature(density, t).pressure() / density / ideal;
        double own = (compressibility - 1) * fluid.molarMass() / density;
        assertThat(1e6 * UnlikePairs.virial(t, constants, constants)).isCloseTo(1e6 * own, within(tolerance));
    }

    /** The combining rules written out; C. Tsonopoulos's functions are taken from a pair of equal molecules of the mixed constants. */
    @Test
    void unlikePairsHaveTheMeansOfTheirConstants() {
        double[] a = new RealComponent(engine.pure("nitrogen")).criticalConstants();
        double[] b = new RealComponent(engine.pure("carbon dioxide")).criticalConstants();
        double tc = Math.sqrt(a[0] * b[0]);
        double vc = Math.pow((Math.pow(a[2], 1.0 / 3) + Math.pow(b[2], 1.0 / 3)) / 2, 3);
        double zc = (a[1] * a[2] / a[0] + b[1] * b[2] / b[0]) / (2 * R);
        double[] mean = {tc, zc * R * tc / vc, vc, (a[3] + b[3]) / 2};
        for (double t : new double[] {150, 200, 300, 600}) {
            near(UnlikePairs.virial(t, a, b), UnlikePairs.virial(t, mean, mean), 1e-9, t);
            assertThat(UnlikePairs.virial(t, a, b)).isEqualTo(UnlikePairs.virial(t, b, a));
        }
        // the series runs away when cold: below half the critical temperature it is held
        assertThat(UnlikePairs.virial(0.1 * tc, a, b)).isEqualTo(UnlikePairs.virial(0.5 * tc, a, b));
        assertThat(UnlikePairs.virial(0.55 * tc, a, b)).isGreaterThan(UnlikePairs.virial(0.5 * tc, a, b));
    }

    /** Acentric factors by their definition; values of Poling, Prausnitz, O'Connell, appendix A [from memory]. */
    @ParameterizedTest
    @CsvSource({
        "nitrogen, 0.037",
        "oxygen, 0.022",
        "methane, 0.011",
        "argon, -0.002",
        "water, 0.344",
        "carbon dioxide, 0.225",
        "n-dodecane, 0.576",
        "ethanol, 0.645",
        "propane, 0.152"
    })
    void acentricFactors(String name, double published) {
        PureFluid fluid = engine.pure(name);
        double[] constants = new RealComponent(fluid).criticalConstants();
        assertThat(constants[3]).isCloseTo(published, within(0.006));
        assertThat(constants[0]).isEqualTo(fluid.criticalTemperature());
        assertThat(constants[1]).isEqualTo(fluid.criticalPressure());
        near(constants[2], fluid.molarMass() / fluid.criticalDensity(), 1e-12, "vc");
    }

    // ------------------------------------------------------------ burnt gas

    /** One ideal gas of two species against the species themselves, by Gibbs's rule; each entropy and enthalpy from the table. */
    @Test
    void aBurntGasIsTheSumOfItsSpecies() {
        Map<String, Double> fractions = Map.of("N2", 0.6, "CO2", 0.4);
        IdealComponent gas = new IdealComponent("gas", fractions);
        double m = 0.6 * 28.0134e-3 + 0.4 * 44.0095e-3;
        near(gas.molarMass(), m, 1e-6, "molar mass");
        assertThat(gas.species()).isEqualTo(fractions);
        assertThat(gas.criticalTemperature()).isZero();
        assertThat(gas.criticalPressure()).isZero();
        assertThat(gas.tripleTemperature()).isZero();
        Nasa7 n2 = SpeciesTable.find("N2").polynomial();
        Nasa7 co2 = SpeciesTable.find("CO2").polynomial();
        Point s = new Point();
        double t = 900;
        double p = 3e5;
        double density = p * m / (R * t);
        gas.gas(t, density, s);
        near(s.pressure, p, 1e-6, "p");
        near(s.enthalpy, (0.6 * n2.enthalpy(t) + 0.4 * co2.enthalpy(t)) * R / m, 1e-6, "h");
        double entropy =
                0.6 * (n2.entropy(t) - Math.log(0.6 * p / 1e5)) + 0.4 * (co2.entropy(t) - Math.log(0.4 * p / 1e5));
        // the entropy of mixing within the stream is the stream's own affair: a constant of its composition
        double mixing = 0.6 * Math.log(0.6) + 0.4 * Math.log(0.4);
        assertThat(Math.min(Math.abs(s.entropy - entropy * R / m), Math.abs(s.entropy - (entropy + mixing) * R / m)))
                .isLessThan(1e-6 * R / m);
        assertThat(gas.idealEntropy(t, density)).isCloseTo(s.entropy, within(1e-9));
        near(s.cv, (0.6 * n2.heatCapacity(t) + 0.4 * co2.heatCapacity(t) - 1) * R / m, 1e-6, "cv");
        near(gas.idealHeatCapacity(t), s.cv + R / m, 1e-6, "cp");
        assertThat(gas.idealEnthalpy(t)).isEqualTo(s.enthalpy);
        assertThat(s.extrapolated).isFalse();
        gas.gas(150, 1, s);
        assertThat(s.extrapolated).isTrue();
        gas.gas(6001, 1, s);
        assertThat(s.extrapolated).isTrue();
        double[] x = {0.6, 0.4};
        double[] m2 = {28.0134e-3, 44.0095e-3};
        double[] mu = {Potentials.viscosity("N2", m2[0], t), Potentials.viscosity("CO2", m2[1], t)};
        double[] k = {
            Potentials.conductivity("N2", m2[0], t, n2.heatCapacity(t) * R / m2[0]),
            Potentials.conductivity("CO2", m2[1], t, co2.heatCapacity(t) * R / m2[1])
        };
        near(gas.gasViscosity(t, density), GasTransport.wilke(x, mu, m2), 1e-4, "viscosity");
        near(gas.gasConductivity(t, density), GasTransport.masonSaxena(x, mu, k, m2), 1e-4, "conductivity");
        // one mean molecule: between its parts' published critical constants (N2 126.2 K, 89.2 cm3/mol; CO2 304.1 K,
        // 94.1 cm3/mol)
        double[] critical = gas.criticalConstants();
        near(critical[0], 0.6 * 126.2 + 0.4 * 304.1, 0.05, "Tc");
        near(critical[2], 0.6 * 89.2e-6 + 0.4 * 94.1e-6, 0.1, "vc");
        near(critical[1] * critical[2] / (R * critical[0]), 0.29, 1e-9, "zc");
        assertThat(critical[3]).isZero();
        assertThat(gas.criticalMolarVolume()).isEqualTo(critical[2]);
    }
}
