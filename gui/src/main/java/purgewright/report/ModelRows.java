package purgewright.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckResult.PhaseResult;
import purgewright.report.Block.Grid;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** Which models the case uses, where their laws stand, and whether each was used inside the range it is known for. */
final class ModelRows {
    private ModelRows() {}

    static Grid of(CheckResult check) {
        Map<String, Set<String>> places = new LinkedHashMap<>();
        Map<String, Map<String, Set<String>>> beyond = new LinkedHashMap<>();
        for (PhaseResult phase : check.phases()) {
            for (PassageSpec spec : phase.model().passages()) {
                places.computeIfAbsent(spec.type(), t -> new LinkedHashSet<>()).add(spec.name());
            }
            if (phase.solve() instanceof Converged converged) {
                for (Notice notice : converged.notices()) {
                    String words = words(notice);
                    if (!words.isEmpty()) {
                        String name = Words.place(notice.place());
                        PassageSpec spec = phase.model().passage(name);
                        String type = notice.place().startsWith("/passages/") && spec != null
                                ? spec.type()
                                : "cavity: " + notice.values().getOrDefault("model", "properties");
                        if (spec == null) {
                            places.computeIfAbsent(type, t -> new LinkedHashSet<>())
                                    .add(name);
                        }
                        beyond.computeIfAbsent(type, t -> new LinkedHashMap<>())
                                .computeIfAbsent(words, w -> new LinkedHashSet<>())
                                .add(name);
                    }
                }
            }
        }
        List<List<String>> rows = new ArrayList<>();
        places.forEach((type, names) -> rows.add(List.of(
                type,
                PassageTypes.find(type)
                        .map(PassageType::page)
                        .map(page -> "theory/" + page)
                        .orElse(type.contains("windage") ? "theory/rotating-cavities" : "theory/properties"),
                String.join(", ", names),
                beyond.containsKey(type)
                        ? beyond.get(type).entrySet().stream()
                                .map(e -> e.getKey() + ": " + String.join(", ", e.getValue()))
                                .collect(Collectors.joining("; "))
                        : "nothing outside what the model checks, in any phase")));
        return new Grid("llll", List.of("model", "law and range", "used by", "outside its range, or estimated"), rows);
    }

    private static String words(Notice notice) {
        Map<String, Object> v = notice.values();
        return switch (notice.key()) {
            case OUT_OF_RANGE ->
                v.get("quantity")
                        + (v.containsKey("value")
                                ? " beyond " + figure(v.get("minimum")) + " to " + figure(v.get("maximum"))
                                : "");
            case EXTRAPOLATED -> "properties beyond the range of their equation";
            case NOT_ESTABLISHED -> "not established: " + v.get("reason");
            case ESTIMATE -> "estimated " + v.get("constant") + " in " + v.get("model");
            case RUB, CHOKED, FREEZES, CONDENSED -> "";
        };
    }

    private static String figure(Object value) {
        return value instanceof Number number ? Units.number(number.doubleValue(), 3) : String.valueOf(value);
    }
}
