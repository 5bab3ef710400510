package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import purgewright.fluids.unit.DidYouMean;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.studies.UncertainInput;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * A quantity of the result that a study follows, by its place.
 *
 * <p>{@code /margin}, {@code /margin/CRITERION}, {@code /margin/CRITERION/NAME}: least over all phases; {@code /purge/flow}: greatest;
 * {@code /cavities/NAME/pressure}, {@code temperature}, {@code density}, {@code mole fraction/SPECIES}, {@code mass fraction/SPECIES};
 * {@code /passages/NAME/flow}, {@code velocity}, {@code clearance}, {@code least clearance}; {@code /instruments/NAME}: its reading. One
 * phase only: {@code PHASE:/place}; without, a quantity of a cavity or passage is followed in every phase.
 *
 * @param place as above, with the phase where there are several
 * @param name for people
 * @param unit SI
 * @param read gives the value, NaN where there is none
 */
record Followed(String place, String name, String unit, Read read) {
    /** Least margin over all criteria that have one. */
    static final String MARGIN = "/margin";
    /** Greatest purge flow over the phases. */
    static final String PURGE = "/purge/flow";

    private static final List<String> CAVITY = List.of("pressure", "temperature", "density");
    private static final List<String> PASSAGE = List.of("flow", "velocity", "clearance", "least clearance");

    /** From a point that was solved and judged to a number. */
    interface Read {
        double of(SpreadCase.Evaluated e);
    }

    /** The usual ones: margins, purge flow, and the readings that redlines are set on. */
    static List<String> usual(Case whole, BarrierLayout layout, Iterable<String> criteria) {
        List<String> out = new ArrayList<>();
        out.add(MARGIN);
        criteria.forEach(key -> out.add(MARGIN + "/" + key));
        out.add(PURGE);
        Set<String> beside = new TreeSet<>();
        for (Set<String> unit : layout.units()) {
            for (String name : new TreeSet<>(unit)) {
                out.add("/cavities/" + name + "/pressure");
            }
            for (PassageSpec p : layout.boundary(whole, unit)) {
                String other = unit.contains(p.from()) ? p.to() : p.from();
                if (whole.cavity(other) != null && !whole.cavity(other).fixed()) {
                    beside.add(other);
                }
            }
        }
        beside.forEach(name -> out.add("/cavities/" + name + "/pressure"));
        beside.forEach(name -> out.add("/cavities/" + name + "/temperature"));
        layout.feeds().keySet().forEach(name -> out.add("/passages/" + name + "/flow"));
        return out;
    }

    /** All that the words ask for, each once. @throws CaseException naming every word that asks for nothing */
    static List<Followed> of(
            List<String> words, Case whole, List<String> phases, List<UncertainInput> inputs, Set<String> criteria) {
        List<Followed> out = new ArrayList<>();
        List<CaseProblem> problems = new ArrayList<>();
        for (String word : words) {
            try {
                for (Followed f : one(word, whole, phases, inputs, criteria)) {
                    if (out.stream().noneMatch(o -> o.place().equals(f.place()))) {
                        out.add(f);
                    }
                }
            } catch (NoSuch e) {
                problems.add(new CaseProblem(
                        "UNKNOWN_OUTPUT", word, 0, 0, "no quantity of the result stands there", e.getMessage()));
            }
        }
        if (!problems.isEmpty()) {
            throw new CaseException(problems);
        }
        return List.copyOf(out);
    }

    /** A word that asks for nothing; the message says what would be right. */
    private static final class NoSuch extends Exception {
        private static final long serialVersionUID = 1L;

        NoSuch(String suggestion) {
            super(suggestion);
        }

        static NoSuch among(String given, Iterable<String> known) {
            List<String> all = new ArrayList<>();
            known.forEach(all::add);
            return new NoSuch(DidYouMean.nearest(given, all)
                    .map(near -> "did you mean \"" + near + "\"?")
                    .orElse("one of " + String.join(", ", all)));
        }
    }

    private static List<Followed> one(
            String word, Case whole, List<String> phases, List<UncertainInput> inputs, Set<String> criteria)
            throws NoSuch {
        int colon = word.indexOf(":/");
        String phase = colon < 0 ? null : word.substring(0, colon);
        String place = colon < 0 ? word : word.substring(colon + 1);
        if (phase != null && !phases.contains(phase)) {
            throw NoSuch.among(phase, phases);
        }
        String[] parts = place.split("/", -1);
        if (parts.length < 2 || !parts[0].isEmpty()) {
            throw new NoSuch("write it like /cavities/NAME/pressure, /passages/NAME/flow, /margin or /purge/flow");
        }
        switch (parts[1]) {
            case "margin":
                return List.of(margin(word, phase, parts, criteria));
            case "purge":
                if (!PURGE.equals(place)) {
                    throw NoSuch.among(place, List.of(PURGE));
                }
                return List.of(new Followed(word, "purge flow" + in(phase), "kg/s", e -> e.purge(phase)));
            case "instruments":
                return instrument(parts, whole, inputs, phase, phases);
            case "cavities":
            case "passages":
                break;
            default:
                throw NoSuch.among(parts[1], List.of("margin", "purge", "cavities", "passages", "instruments"));
        }
        if (parts.length < 4) {
            throw new NoSuch("name a quantity: " + place + "/" + ("cavities".equals(parts[1]) ? "pressure" : "flow"));
        }
        List<Followed> out = new ArrayList<>();
        for (String p : phase == null ? phases : List.of(phase)) {
            String where = phases.size() > 1 ? p + ":" + place : place;
            out.add(
                    "cavities".equals(parts[1])
                            ? cavity(where, parts, whole, p, phases.size() > 1)
                            : passage(where, parts, whole, p, phases.size() > 1));
        }
        return out;
    }

    private static String in(String phase) {
        return phase == null ? "" : ", " + phase;
    }

    private static Followed margin(String place, String phase, String[] parts, Set<String> criteria) throws NoSuch {
        if (parts.length == 2) {
            return new Followed(place, "least margin" + in(phase), "1", e -> least(e, phase, null, null));
        }
        String key = parts[2];
        if (!criteria.contains(key)) {
            throw NoSuch.among(key, criteria);
        }
        String where = parts.length > 3 ? parts[3] : null;
        return new Followed(
                place,
                "margin of " + key.replace('-', ' ') + (where == null ? "" : " at " + where) + in(phase),
                "1",
                e -> least(e, phase, key, where));
    }

    private static double least(SpreadCase.Evaluated e, String phase, String key, String where) {
        double least = Double.NaN;
        for (Finding f : e.findings()) {
            boolean meant =
                    (key == null ? SpreadCase.numbered(f) : FaultSweep.key(f).equals(key))
                            && (phase == null || phase.equals(f.phase()))
                            && (where == null || f.where().endsWith("/" + where));
            if (meant && !Double.isNaN(f.margin())) {
                least = Double.isNaN(least) ? f.margin() : Math.min(least, f.margin());
            }
        }
        return least;
    }

    private static Followed cavity(String place, String[] parts, Case whole, String phase, boolean several)
            throws NoSuch {
        String name = parts[2];
        if (whole.cavity(name) == null) {
            throw NoSuch.among(
                    name, whole.cavities().stream().map(c -> c.name()).toList());
        }
        String label =
                parts[3] + (parts.length > 4 ? " of " + parts[4] + " in " : " of ") + name + in(several ? phase : null);
        if (parts.length == 5 && List.of("mole fraction", "mass fraction").contains(parts[3])) {
            boolean mole = "mole fraction".equals(parts[3]);
            return new Followed(place, label, "1", e -> {
                CavityState c = cavity(e, phase, name);
                return c == null
                        ? Double.NaN
                        : (mole ? c.moleFractions() : c.massFractions()).getOrDefault(parts[4], 0.0);
            });
        }
        if (parts.length != 4 || !CAVITY.contains(parts[3])) {
            List<String> known = new ArrayList<>(CAVITY);
            known.addAll(List.of("mole fraction/SPECIES", "mass fraction/SPECIES"));
            throw NoSuch.among(parts[3], known);
        }
        return switch (parts[3]) {
            case "pressure" ->
                new Followed(place, label, "Pa", e -> {
                    CavityState c = cavity(e, phase, name);
                    return c == null ? Double.NaN : c.state().pressure();
                });
            case "temperature" ->
                new Followed(place, label, "K", e -> {
                    CavityState c = cavity(e, phase, name);
                    return c == null ? Double.NaN : c.state().temperature();
                });
            default ->
                new Followed(place, label, "kg/m3", e -> {
                    CavityState c = cavity(e, phase, name);
                    return c == null ? Double.NaN : c.state().density();
                });
        };
    }

    private static CavityState cavity(SpreadCase.Evaluated e, String phase, String name) {
        Converged c = e.solved(phase);
        return c == null ? null : c.cavities().get(name);
    }

    private static Followed passage(String place, String[] parts, Case whole, String phase, boolean several)
            throws NoSuch {
        String name = parts[2];
        if (whole.passage(name) == null) {
            throw NoSuch.among(
                    name, whole.passages().stream().map(p -> p.name()).toList());
        }
        if (parts.length != 4 || !PASSAGE.contains(parts[3])) {
            throw NoSuch.among(parts[3], PASSAGE);
        }
        String label = parts[3] + " of " + name + in(several ? phase : null);
        return switch (parts[3]) {
            case "flow" ->
                new Followed(place, label, "kg/s", e -> {
                    PassageState p = passage(e, phase, name);
                    return p == null ? Double.NaN : p.flow().massFlow();
                });
            case "velocity" ->
                new Followed(place, label, "m/s", e -> {
                    PassageState p = passage(e, phase, name);
                    return p == null ? Double.NaN : p.flow().gapVelocity();
                });
            case "clearance" ->
                new Followed(place, label, "m", e -> {
                    PassageState p = passage(e, phase, name);
                    return p == null || p.gap() == null ? Double.NaN : p.gap().mean();
                });
            default ->
                new Followed(place, label, "m", e -> {
                    PassageState p = passage(e, phase, name);
                    return p == null || p.gap() == null ? Double.NaN : p.gap().least();
                });
        };
    }

    private static PassageState passage(SpreadCase.Evaluated e, String phase, String name) {
        Converged c = e.solved(phase);
        return c == null ? null : c.passages().get(name);
    }

    private static List<Followed> instrument(
            String[] parts, Case whole, List<UncertainInput> inputs, String phaseOrNull, List<String> phases)
            throws NoSuch {
        List<String> known = new ArrayList<>();
        Map<?, ?> found = null;
        if (whole.extras().get("instruments") instanceof List<?> list) {
            for (Object each : list) {
                if (each instanceof Map<?, ?> m) {
                    known.add(String.valueOf(m.get("name")));
                    found = parts.length == 3 && parts[2].equals(m.get("name")) ? m : found;
                }
            }
        }
        if (found == null) {
            throw NoSuch.among(parts.length > 2 ? parts[2] : "", known);
        }
        String measures = String.valueOf(found.get("measures"));
        String quantity =
                switch (measures) {
                    case "pressure", "temperature", "flow" -> measures;
                    default ->
                        throw new NoSuch(
                                "readings of " + measures + " are not followed; pressure, temperature and flow are");
                };
        Object holder = found.get("flow".equals(quantity) ? "passage" : "cavity");
        String inner = ("flow".equals(quantity) ? "/passages/" : "/cavities/") + holder + "/" + quantity;
        String place = "/instruments/" + parts[2];
        int error = inputs.stream().map(UncertainInput::place).toList().indexOf(place);
        List<Followed> out = new ArrayList<>();
        for (Followed truth :
                one(phaseOrNull == null ? inner : phaseOrNull + ":" + inner, whole, phases, inputs, Set.of())) {
            String prefix = truth.place().substring(0, truth.place().indexOf("/"));
            out.add(new Followed(
                    prefix + place,
                    String.format(
                            Locale.ROOT,
                            "reading of %s%s",
                            parts[2],
                            prefix.isEmpty() ? "" : ", " + prefix.substring(0, prefix.length() - 1)),
                    truth.unit(),
                    e -> truth.read().of(e) + (error < 0 ? 0 : e.inputs()[error])));
        }
        return out;
    }
}
