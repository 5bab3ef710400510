package purgewright.command;

import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.hazard.service.SweepSettings;
import purgewright.sealflow.casefile.CaseDocument;

/**
 * An option of the form {@code PLACE=FROM..TO}: any number of the case, its range with units.
 *
 * @param place JSON Pointer
 * @param from SI
 * @param to SI, above from
 */
record RangeOption(String place, double from, double to) {
    /** Reads it; what is wrong is named with what would be right. */
    static RangeOption read(String option, String typed, CaseDocument document) {
        // The last sign: a name may hold one, a quantity never does.
        int equals = typed.lastIndexOf('=');
        int dots = typed.indexOf("..", equals + 1);
        if (equals < 1 || dots < 0) {
            throw new InputProblem(
                    "BAD_RANGE",
                    option + " \"" + typed + "\" is no PLACE=FROM..TO",
                    "for instance \"/passages/NAME/clearance=20um..120um\"");
        }
        String place = typed.substring(0, equals).strip();
        CaseDocument.Range range = place.startsWith("/") ? document.range(place).orElse(null) : null;
        if (range == null || range.whole()) {
            throw new InputProblem(
                    "NO_SUCH_PLACE",
                    option + ": " + place + " is no number of the case that can be varied",
                    "for instance /passages/NAME/clearance");
        }
        double from = quantity(option, typed.substring(equals + 1, dots), range, document);
        double to = quantity(option, typed.substring(dots + 2), range, document);
        boolean inside =
                (range.exclusive() ? from > range.minimum() : from >= range.minimum()) && to <= range.maximum();
        if (!(to > from) || !inside) {
            throw new InputProblem(
                    "BAD_RANGE",
                    option + ": the range must rise and stay within what " + place + " may be",
                    "FROM..TO, FROM below TO");
        }
        return new RangeOption(place, from, to);
    }

    /** As one side of a sweep. */
    SweepSettings.Axis axis(int points) {
        return new SweepSettings.Axis(place, from, to, points);
    }

    private static double quantity(String option, String typed, CaseDocument.Range range, CaseDocument document) {
        try {
            return Units.parse(
                    typed.strip(),
                    range.dimension(),
                    document.toCase().surroundings().pressure());
        } catch (UnitException e) {
            throw new InputProblem(e.key().name(), option + ": " + e.getMessage(), e.suggestion());
        }
    }
}
