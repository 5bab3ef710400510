package purgewright.sealflow.passage;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import purgewright.sealflow.gap.GapModel;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;

/**
 * Every passage type there is. To add one: write a class that implements {@link PassageType} and name it here; reader, schema,
 * reference page and the window's form follow from its fields.
 */
public final class PassageTypes {
    private static final List<PassageType> ALL = List.of(
            new OrificeType(),
            new LineType(),
            new CheckValveType(),
            new LabyrinthType(),
            new AnnulusType(false),
            new AnnulusType(true),
            new FaceType(false),
            new FaceType(true),
            new SegmentedRingType(),
            new BrushType(),
            new RimType(),
            new SlingerType(),
            SimpleDucts.nozzle(),
            SimpleDucts.bend(),
            SimpleDucts.holes(),
            SimpleDucts.valve(),
            SimpleDucts.reliefValve(),
            SimpleDucts.filter(),
            new MeasuredType(false),
            new MeasuredType(true));

    private static final Map<String, PassageType> BY_KEY = byKey();

    private PassageTypes() {}

    /** All types, in the order help shows them. */
    public static List<PassageType> all() {
        return ALL;
    }

    /** The type of that key. */
    public static Optional<PassageType> find(String key) {
        return Optional.ofNullable(BY_KEY.get(key));
    }

    /** Whether a passage's type says so of itself; false where the type is not known. */
    public static boolean are(PassageSpec spec, Predicate<PassageType> what) {
        PassageType type = BY_KEY.get(spec.type());
        return type != null && what.test(type);
    }

    /** Clearance of a passage in running; null for one without a running gap. */
    public static RunningGap running(PassageSpec spec, Rotor rotor) {
        return find(spec.type())
                .map(type -> GapModel.running(type.gap(spec), spec, rotor))
                .orElse(null);
    }

    private static Map<String, PassageType> byKey() {
        Map<String, PassageType> map = new LinkedHashMap<>();
        for (PassageType type : ALL) {
            map.put(type.key(), type);
        }
        return map;
    }
}
