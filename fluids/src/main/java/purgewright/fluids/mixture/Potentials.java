package purgewright.fluids.mixture;

import java.util.Map;
import purgewright.fluids.burnt.Elements;
import purgewright.fluids.burnt.Nasa7;
import purgewright.fluids.burnt.Species;
import purgewright.fluids.burnt.SpeciesTable;
import purgewright.fluids.burnt.SpeciesTable.LennardJones;

/**
 * Lennard-Jones parameters by species: the table's, else after T. H. Chung et al., Ind. Eng. Chem. Res. 27 (1988) 671 from critical
 * constants, {@code eps/k = Tc/1.2593, sigma = 0.809 Vc^(1/3)} (angstrom, cm3/mol) [from memory].
 */
final class Potentials {
    /** Critical temperature (K) and molar volume (cm3/mol) of species without a tabled potential [from memory]. */
    private static final Map<String, double[]> CRITICAL = Map.of(
            "C3H6", new double[] {364.9, 184.6},
            "C4H10", new double[] {425.1, 255},
            "C6H6", new double[] {562.1, 256},
            "C7H16", new double[] {540.2, 428},
            "C8H18", new double[] {568.7, 486},
            "Jet-A", new double[] {658.1, 752}, // n-dodecane's stand in
            "C12H26", new double[] {658.1, 752},
            "C2H6O", new double[] {514.7, 169},
            "Ne", new double[] {44.4, 41.5});

    /** Atomic masses, kg/mol, as the species table uses them; neon from memory. */
    private static final Map<String, Double> ATOMIC_MASSES = Map.of(
            "H", 1.00794e-3,
            "C", 12.0107e-3,
            "N", 14.0067e-3,
            "O", 15.9994e-3,
            "He", 4.002602e-3,
            "Ne", 20.179e-3,
            "Ar", 39.948e-3);

    /** Mean molar mass of dry air, kg/mol, for pairs tabled with air. */
    private static final double AIR = 28.965e-3;

    private Potentials() {}

    static double molarMass(String species) {
        if ("air".equals(species)) {
            return AIR;
        }
        Species tabled = SpeciesTable.find(species);
        if (tabled != null) {
            return tabled.molarMass();
        }
        double mass = 0;
        for (Map.Entry<String, Double> atom : Elements.of(species).entrySet()) {
            Double one = ATOMIC_MASSES.get(atom.getKey());
            if (one == null) {
                throw new IllegalArgumentException("no atomic mass for " + atom.getKey() + " in " + species);
            }
            mass += one * atom.getValue();
        }
        return mass;
    }

    /** K. Air counts as nitrogen. Unknown species count as carbon dioxide: of middling size. */
    static double wellDepth(String species) {
        LennardJones tabled = tabled(species);
        return tabled != null ? tabled.wellDepth() : CRITICAL.get(species)[0] / 1.2593;
    }

    /** Angstrom. */
    static double diameter(String species) {
        LennardJones tabled = tabled(species);
        return tabled != null ? tabled.diameter() : 0.809 * Math.cbrt(CRITICAL.get(species)[1]);
    }

    private static LennardJones tabled(String species) {
        LennardJones tabled = SpeciesTable.potential("air".equals(species) ? "N2" : species);
        return tabled == null && !CRITICAL.containsKey(species) ? SpeciesTable.potential("CO2") : tabled;
    }

    /** Critical molar volume or its estimate from the collision diameter, {@code (sigma/0.809)^3} cm3/mol; m3/mol. */
    static double criticalMolarVolume(String species) {
        double reduced = diameter(species) / 0.809;
        return 1e-6 * reduced * reduced * reduced;
    }

    /** Viscosity of the dilute gas, Pa s. */
    static double viscosity(String species, double molarMass, double temperature) {
        return GasTransport.chapmanEnskogViscosity(molarMass, temperature, diameter(species), wellDepth(species));
    }

    /** Thermal conductivity of the dilute gas by the modified Eucken relation, W/(m K). */
    static double conductivity(String species, double molarMass, double temperature, double idealHeatCapacity) {
        double cv = idealHeatCapacity * molarMass / Nasa7.GAS_CONSTANT - 1;
        return GasTransport.modifiedEucken(viscosity(species, molarMass, temperature), molarMass, cv);
    }
}
