package purgewright.hazard.service;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import purgewright.fluids.burnt.CombustionChecks;
import purgewright.fluids.mixture.MixtureChecks;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.FluidChecks;
import purgewright.hazard.HazardChecks;
import purgewright.hazard.sizing.SizingChecks;
import purgewright.hazard.studies.StudyChecks;
import purgewright.sealflow.network.NetworkChecks;
import purgewright.sealflow.passage.PassageChecks;
import purgewright.sealflow.supply.SupplyChecks;
import purgewright.sealflow.transients.TransientChecks;

/** Every validation set of the kernel, room by room: what the tests run is what {@code validate} prints. */
public final class ValidationSets {
    private ValidationSets() {}

    /** By set name, in the order fluids, sealflow, hazard. */
    public static Map<String, List<Check>> bySet() {
        Map<String, List<Check>> sets = new LinkedHashMap<>();
        sets.put("fluids", FluidChecks.all());
        sets.put("mixtures", MixtureChecks.all());
        sets.put("combustion", CombustionChecks.all());
        sets.put("passages", PassageChecks.all());
        sets.put("network", NetworkChecks.all());
        sets.put("transients", TransientChecks.all());
        sets.put("supply", SupplyChecks.all());
        sets.put("hazard", HazardChecks.all());
        sets.put("sizing", SizingChecks.all());
        sets.put("studies", StudyChecks.all());
        return sets;
    }

    /** All checks, in the order of the sets. */
    public static List<Check> all() {
        return bySet().values().stream().flatMap(List::stream).toList();
    }
}
