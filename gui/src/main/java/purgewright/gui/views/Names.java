package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.gui.text.Texts;
import purgewright.hazard.sizing.Parameter;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.model.Case;

/** Places of a case in words, the numbers of a case that can be varied, and numbers put back as the user typed them. */
final class Names {
    private Names() {}

    /** "clearance of ring A" for {@code /passages/ring A/clearance}; what has no such form stays as it is. */
    static String words(String place) {
        String[] parts = place.split("/");
        if (parts.length == 4 && (parts[1].equals("cavities") || parts[1].equals("passages"))) {
            return Texts.of("name.of", CaseEdits.last("/" + parts[3]), CaseEdits.last("/" + parts[2]));
        }
        if (parts.length == 3 && parts[1].equals("rotor")) {
            return Texts.of("name.of", parts[2], "rotor");
        }
        return parts.length == 3 ? parts[2] : place;
    }

    /** A text of the kernel with its places in words. */
    static String plain(String text, CaseDocument document) {
        String out = text;
        for (String folder : List.of("/cavities", "/passages")) {
            for (String name : document.children(folder)) {
                String place = folder + "/" + name;
                out = out.replaceAll(
                        java.util.regex.Pattern.quote(place) + "/([a-z][a-z -]*[a-z])(?=[ ,;.)]|$)",
                        "$1 of " + java.util.regex.Matcher.quoteReplacement(name));
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
        return place.endsWith("/pressure")
                ? Dimension.PRESSURE
                : place.endsWith("/speed") ? Dimension.ANGULAR_SPEED : Dimension.LENGTH;
    }

    /** Where the value of a place stands in a phase: in the phase where that sets it, else in the case. */
    static String inPhase(CaseDocument document, String phase, String place) {
        String set = "/duty/" + CaseEdits.escaped(phase) + "/set/" + CaseEdits.escaped(place);
        return document.has(set) ? set : place;
    }

    /** Every place at which a value of a place stands: the case's own, and those of the phases that set it. */
    static List<String> everywhere(CaseDocument document, String place) {
        List<String> out = new ArrayList<>(List.of(place));
        for (String phase : document.children("/duty")) {
            String there = inPhase(document, phase, place);
            if (!there.equals(place)) {
                out.add(there);
            }
        }
        return out;
    }

    /** The text that says an SI value in the unit and manner of the one that stands there; four significant digits. */
    static Optional<String> retyped(String typed, Dimension dimension, double surroundings, double si) {
        var matcher = java.util.regex.Pattern.compile("^\\s*([-+]?[0-9]*\\.?[0-9]+(?:[eE][-+]?[0-9]+)?)(.*)$")
                .matcher(typed);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        try {
            // Every unit is linear in its number: two readings give slope and zero, gauge and degrees included.
            double one = Units.parse("1" + matcher.group(2), dimension, surroundings);
            double two = Units.parse("2" + matcher.group(2), dimension, surroundings);
            double number = 1 + (si - one) / (two - one);
            String text = new java.math.BigDecimal(number)
                    .round(new java.math.MathContext(4))
                    .stripTrailingZeros()
                    .toPlainString();
            return Optional.of(text + matcher.group(2));
        } catch (UnitException e) {
            return Optional.empty();
        }
    }

    /** A document with an SI value at some places, each as typed there before. */
    static CaseDocument with(
            CaseDocument document, List<String> places, Dimension dimension, double surroundings, double si) {
        CaseDocument result = document;
        for (String place : places) {
            Optional<String> text = document.text(place).flatMap(t -> retyped(t, dimension, surroundings, si));
            if (text.isPresent()) {
                result = result.with(place, text.get());
            }
        }
        return result;
    }
}
