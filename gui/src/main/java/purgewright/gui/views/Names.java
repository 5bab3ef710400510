package purgewright.gui.views;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import purgewright.fluids.unit.Dimension;
import purgewright.gui.details.Places;
import purgewright.hazard.sizing.Parameter;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.model.Case;

/** Places of a case in words, the numbers of a case that can be varied, and numbers put back as the user typed them. */
final class Names {
    private Names() {}

    /** A place in words. */
    static String words(String place) {
        return Places.words(place);
    }

    /** A text of the kernel with its places in words. */
    static String plain(String text, CaseDocument document) {
        String out = text;
        for (String folder : List.of("/cavities", "/passages", "/streams")) {
            for (String name : document.children(folder)) {
                String place = folder + "/" + name;
                // Longer names first: "worn clearance" before "clearance". The sentence goes on after the field in
                // small letters too.
                List<String> fields = new ArrayList<>(document.children(place));
                fields.sort(Comparator.comparingInt(String::length).reversed());
                for (String field : fields) {
                    out = out.replace(place + "/" + field, field + " of " + name);
                }
                out = out.replace(place, name);
            }
        }
        return out;
    }

    /** Every number that can be varied: pressures that are given, gaps and bores, the speed. Supply pressures come first. */
    static List<String> parameters(Case model) {
        List<String> supply = new ArrayList<>();
        List<String> rest = new ArrayList<>();
        model.cavities().forEach(c -> {
            if (c.fixed()) {
                (c.role() == purgewright.sealflow.model.Role.SUPPLY ? supply : rest)
                        .add("/cavities/" + c.name() + "/pressure");
            }
        });
        model.passages().forEach(p -> {
            for (String field : List.of("clearance", "diameter", "gap")) {
                String place = "/passages/" + p.name() + "/" + field;
                if (known(model, place)) {
                    rest.add(place);
                }
            }
        });
        if (model.rotor().speed() > 0) {
            rest.add("/rotor/speed");
        }
        supply.addAll(rest);
        return supply;
    }

    /** True for a number of the case that can be varied. */
    static boolean known(Case model, String place) {
        try {
            return Double.isFinite(Parameter.of(model, place).get(model));
        } catch (IllegalArgumentException none) {
            return false;
        }
    }

    /** SI unit of a place that can be varied. */
    static String unit(String place) {
        return dimension(place).si();
    }

    static Dimension dimension(String place) {
        // Of one phase's own value the place within it, whose slashes are written ~1.
        return place.endsWith("/pressure") || place.endsWith("~1pressure")
                ? Dimension.PRESSURE
                : place.endsWith("/speed") ? Dimension.ANGULAR_SPEED : Dimension.LENGTH;
    }

    /** A document with an SI value at some places, each as typed there before. */
    static CaseDocument with(
            CaseDocument document, List<String> places, Dimension dimension, double surroundings, double si) {
        CaseDocument result = document;
        for (String place : places) {
            Optional<String> text =
                    document.text(place).flatMap(t -> CaseEdits.retyped(t, dimension, surroundings, si));
            if (text.isPresent()) {
                result = result.with(place, text.get());
            }
        }
        return result;
    }
}
