package purgewright.sealflow.supply;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;

/** Bottles against figures of an open-source property library and closed forms. */
public final class SupplyChecks {
    private static final String LIBRARY = "CoolProp 8.0.0, reference equations";

    private SupplyChecks() {}

    /** All checks of this room. */
    public static List<Check> all() {
        List<Check> checks = new ArrayList<>();
        Object[][] ends = {
            {"helium", 20e6, 5e6, 166.140, 0.544396, 0.732356},
            {"helium", 20e6, 10e6, 218.893, 0.322608, 0.477148},
            {"helium", 30e6, 5e6, 141.635, 0.631082, 0.813925},
            {"nitrogen", 20e6, 5e6, 191.369, 0.552668, 0.735904},
        };
        for (Object[] row : ends) {
            String gas = (String) row[0];
            double from = (Double) row[1];
            double to = (Double) row[2];
            String id = "SUP-05 " + gas + " " + (int) (from / 1e6) + " to " + (int) (to / 1e6) + " MPa ";
            add(
                    checks,
                    id + "T",
                    "end temperature of adiabatic emptying from 288.15 K",
                    (Double) row[3],
                    "K",
                    () -> bottle(gas, from).adiabatic(to).temperature());
            add(checks, id + "adiabatic", "share drawn, adiabatic", (Double) row[4], "1", () -> {
                Bottles b = bottle(gas, from);
                return b.drawn(b.adiabatic(to));
            });
            add(checks, id + "isothermal", "share drawn, isothermal", (Double) row[5], "1", () -> {
                Bottles b = bottle(gas, from);
                return b.drawn(b.isothermal(to));
            });
            add(
                    checks,
                    id + "over time",
                    "end temperature, integrated over time without wall heat",
                    (Double) row[3],
                    "K",
                    () -> {
                        Bottles b = bottle(gas, from);
                        double draw = b.filling() * b.drawn(b.adiabatic(to));
                        return Emptying.run(b, t -> draw / 60, 60, 60, 288.15, 0)
                                .last()
                                .temperature();
                    });
        }
        Object[][] fillings = {
            {"helium", 200.0, 1.52297}, {"helium", 300.0, 2.19060}, {"nitrogen", 200.0, 11.1594},
            {"nitrogen", 300.0, 15.4156}, {"argon", 200.0, 17.7995}, {"argon", 300.0, 25.5007},
        };
        for (Object[] row : fillings) {
            add(
                    checks,
                    "SUP-03 " + row[0] + " " + ((Double) row[1]).intValue() + " bar",
                    "filling of a 50 L bottle at 288.15 K",
                    (Double) row[2],
                    "kg",
                    () -> bottle((String) row[0], (Double) row[1] * 1e5).filling());
        }
        return List.copyOf(checks);
    }

    private static Bottles bottle(String gas, double pressure) {
        return new Bottles(Engines.embedded().pure(gas), 0.05, 1, pressure, 288.15, 0, Double.POSITIVE_INFINITY, 0);
    }

    private static void add(
            List<Check> checks, String id, String quantity, double expected, String unit, DoubleSupplier ours) {
        checks.add(Check.relative(id, quantity, LIBRARY, Label.DERIVED, expected, ours, 5e-4, unit, Kind.VERIFICATION));
    }
}
