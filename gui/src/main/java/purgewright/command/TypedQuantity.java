package purgewright.command;

import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;

/** A quantity typed as an option. In a case file a bare number is an error; here it is taken as SI, and that is said. */
final class TypedQuantity {
    /** What gauge pressures on the command line are measured against, Pa: the standard atmosphere. */
    private static final double SURROUNDINGS = 101325;

    private TypedQuantity() {}

    static double read(String option, String typed, Dimension dimension, Terminal terminal, boolean quiet) {
        try {
            double bare = Double.parseDouble(typed.strip());
            if (!Double.isFinite(bare)) {
                throw new InputProblem("NOT_A_NUMBER", option + ": \"" + typed + "\" is no finite number", "");
            }
            if (dimension != Dimension.NUMBER && !quiet) {
                terminal.err()
                        .println("purgewright: " + option + " " + typed + ": no unit, taken as " + dimension.si());
            }
            return checked(option, bare, dimension);
        } catch (NumberFormatException notBare) {
            try {
                return checked(option, Units.parse(typed, dimension, SURROUNDINGS), dimension);
            } catch (UnitException e) {
                throw new InputProblem(e.key().name(), option + ": " + e.getMessage(), e.suggestion());
            }
        }
    }

    private static double checked(String option, double value, Dimension dimension) {
        boolean positive =
                dimension == Dimension.TEMPERATURE || dimension == Dimension.PRESSURE || dimension == Dimension.DENSITY;
        if (positive && !(value > 0)) {
            throw new InputProblem(
                    "NOT_POSITIVE", option + ": " + value + " " + dimension.si() + " is not above zero", "");
        }
        return value;
    }
}
