package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.sizing.Parameter;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;

/**
 * What would mend a finding: changes of one number of the case, each tried by solving and judging. The candidates are what a seal engineer
 * would reach for first: the supply's pressure, the bore that meters the purge, the seal's own gap, the drain's line, the seal that feeds
 * the drain. For each the least change is looked for, up to {@link #LARGEST} times, at which the finding holds; then the whole case is
 * judged with it, so that a change that mends here and breaks there says so.
 */
public final class MendService {
    /** Largest change looked at, as a factor [invented: beyond it another design is asked for, not another number]. */
    public static final double LARGEST = 3;

    /** Halvings of the factor's logarithm: the change is then known to 2 %. */
    private static final int HALVINGS = 5;

    private static final int MOST = 10;

    private final CaseService service;

    /** On a service's engine. */
    public MendService(CaseService service) {
        this.service = service;
    }

    /**
     * One change that mends.
     *
     * @param place JSON Pointer of the number, in the case or in the phase that sets it
     * @param before as typed
     * @param after as typed
     * @param document the case with the change
     * @param margin of the finding then; NaN when it is gone
     * @param verdict of the whole case then, all phases, faults not examined
     * @param purge greatest purge flow then, kg/s
     */
    public record Mend(
            String place,
            String before,
            String after,
            CaseDocument document,
            double margin,
            Verdict verdict,
            double purge) {}

    private record Try(String place, Dimension dimension, double value, boolean up) {}

    /**
     * Looks for changes that make a finding hold; best first: by the whole case's verdict, then by purge flow.
     *
     * @param stated the result the finding is from
     */
    public List<Mend> mend(CheckResult stated, Finding finding, Progress progress) {
        Case model = stated.phases().stream()
                .filter(p -> p.name().equals(finding.phase()))
                .map(CheckResult.PhaseResult::model)
                .findFirst()
                .orElse(stated.model());
        List<Try> tries = candidates(stated.document(), model, finding);
        CheckSettings phase = CheckSettings.DEFAULT.withPhases(
                stated.phases().stream().anyMatch(p -> p.name().equals(finding.phase()))
                        ? List.of(finding.phase())
                        : List.of());
        List<Mend> mends = new ArrayList<>();
        for (int i = 0; i < tries.size(); i++) {
            progress.at((double) i / tries.size(), tries.get(i).place());
            least(stated, finding, tries.get(i), phase, model.surroundings().pressure())
                    .ifPresent(mends::add);
        }
        progress.at(1, "done");
        mends.sort(Comparator.comparing(Mend::verdict)
                .reversed()
                .thenComparing(m -> Double.isNaN(m.purge()) ? Double.POSITIVE_INFINITY : m.purge()));
        return mends;
    }

    private List<Try> candidates(CaseDocument document, Case model, Finding finding) {
        Map<String, Boolean> wanted = new LinkedHashMap<>();
        String[] parts = finding.where().split("/");
        String name = parts.length > 2 ? parts[2] : "";
        PassageSpec passage = parts.length > 2 && parts[1].equals("passages") ? model.passage(name) : null;
        for (Cavity c : model.cavities()) {
            if (c.fixed() && c.role() == Role.SUPPLY) {
                wanted.put("/cavities/" + c.name() + "/pressure", true);
            }
        }
        for (PassageSpec p : model.passages()) {
            if (role(model, p.from()) == Role.SUPPLY && role(model, p.to()) == Role.BARRIER) {
                wanted.put(bore(p), true);
            }
        }
        List<String> beside = new ArrayList<>();
        if (passage != null) {
            wanted.put(bore(passage) + "-", false);
            wanted.put(bore(passage), true);
            beside.add(passage.from());
            beside.add(passage.to());
        } else if (parts.length > 2 && parts[1].equals("cavities")) {
            beside.add(name);
        }
        for (String cavity : beside) {
            boolean barrier = role(model, cavity) == Role.BARRIER;
            for (PassageSpec p : model.passages()) {
                if ((p.from().equals(cavity) || p.to().equals(cavity)) && p != passage) {
                    boolean vent = role(model, p.from()) == Role.VENT || role(model, p.to()) == Role.VENT;
                    // A drain is helped by a wider line and by tighter seals that feed it; a barrier by tighter seals.
                    wanted.put(bore(p) + (vent && !barrier ? "" : "-"), vent && !barrier);
                }
            }
        }
        List<Try> out = new ArrayList<>();
        wanted.forEach((key, up) -> {
            String place = key.endsWith("-") ? key.substring(0, key.length() - 1) : key;
            try {
                double value = Parameter.of(model, place).get(model);
                String there = CaseEdits.inPhase(document, finding.phase(), place);
                boolean typed = document.text(there).isPresent();
                if (value > 0 && Double.isFinite(value) && typed && out.size() < MOST) {
                    out.add(new Try(
                            there, place.endsWith("/pressure") ? Dimension.PRESSURE : Dimension.LENGTH, value, up));
                }
            } catch (IllegalArgumentException none) {
                // A passage without such a number is no candidate.
                return;
            }
        });
        return out;
    }

    private static Role role(Case model, String cavity) {
        Cavity c = model.cavity(cavity);
        return c == null ? Role.OTHER : c.role();
    }

    /** The number of a passage that sets its flow first. */
    private static String bore(PassageSpec p) {
        String field = Double.isFinite(p.number("clearance", Double.NaN)) || p.clearance() > 0
                ? "clearance"
                : Double.isFinite(p.number("gap", Double.NaN)) ? "gap" : "diameter";
        return "/passages/" + p.name() + "/" + field;
    }

    private Optional<Mend> least(
            CheckResult stated, Finding finding, Try each, CheckSettings phase, double surroundings) {
        double low = 1;
        double high = LARGEST;
        CheckResult at = tried(stated, each, high, phase, surroundings);
        if (at == null || !mended(at, finding)) {
            return Optional.empty();
        }
        for (int i = 0; i < HALVINGS; i++) {
            double middle = Math.sqrt(low * high);
            CheckResult result = tried(stated, each, middle, phase, surroundings);
            if (result != null && mended(result, finding)) {
                high = middle;
                at = result;
            } else {
                low = middle;
            }
        }
        CaseDocument document = at.document();
        CheckResult whole = service.check(document, stated, CheckSettings.DEFAULT, Progress.NONE);
        double margin = whole.findings().stream()
                .filter(f -> f.id().equals(finding.id()))
                .mapToDouble(Finding::margin)
                .min()
                .orElse(Double.NaN);
        return Optional.of(new Mend(
                each.place(),
                stated.document().text(each.place()).orElse(""),
                document.text(each.place()).orElse(""),
                document,
                margin,
                whole.verdict(),
                whole.purge() == null ? Double.NaN : whole.purge().flow()));
    }

    private CheckResult tried(CheckResult stated, Try each, double factor, CheckSettings phase, double surroundings) {
        double value = each.up() ? each.value() * factor : each.value() / factor;
        String typed = stated.document().text(each.place()).orElse("");
        Optional<String> text = CaseEdits.retyped(typed, each.dimension(), surroundings, value);
        if (text.isEmpty()) {
            return null;
        }
        try {
            CaseDocument changed = stated.document().with(each.place(), text.get());
            return service.check(changed, stated, phase, Progress.NONE);
        } catch (CaseException e) {
            return null; // out of what the case allows
        }
    }

    /** True when the finding now holds, or is gone with the phase solved. */
    private static boolean mended(CheckResult result, Finding finding) {
        List<Finding> same = result.findings().stream()
                .filter(f -> f.id().equals(finding.id()))
                .toList();
        return same.isEmpty()
                ? result.findings().stream().noneMatch(f -> f.verdict() == Verdict.NOT_CONVERGED)
                : same.stream().allMatch(f -> f.verdict() == Verdict.HOLDS);
    }
}
