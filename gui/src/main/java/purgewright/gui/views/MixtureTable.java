package purgewright.gui.views;

import java.util.Map;
import purgewright.gui.bench.Workbench;
import purgewright.hazard.flammability.Flammability;

/** The gas of every cavity as fuel, free oxygen and inert, as comma-separated values. */
public final class MixtureTable {
    private MixtureTable() {}

    /** Of the phase shown; empty where there is no solution. */
    public static String csv(Workbench bench) {
        if (bench.shownSolution() == null) {
            return "";
        }
        Csv csv = new Csv("mixtures", bench.history().document())
                .line("cavity", "fuel_mole_fraction", "free_oxygen_mole_fraction", "inert_mole_fraction");
        bench.shownSolution().cavities().forEach((name, c) -> {
            Map<String, Double> moles = c.moleFractions();
            double fuel = Flammability.fuels(moles).values().stream()
                    .mapToDouble(Double::doubleValue)
                    .sum();
            double oxygen = Math.max(0, Flammability.freeOxygen(moles));
            csv.line(name, fuel, oxygen, Math.max(0, 1 - fuel - oxygen));
        });
        return csv.toString();
    }
}
