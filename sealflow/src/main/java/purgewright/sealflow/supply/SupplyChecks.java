package purgewright.sealflow.supply;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;

/** Bottles, regulator, line and metering against figures of an open-source property library, the trade's, and closed forms. */
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
        supplierFigures(checks);
        limits(checks);
        flows(checks);
        return List.copyOf(checks);
    }

    /** SUP-04: what suppliers print for a bottle, cubic metres at 15 C and 1 bar. */
    private static void supplierFigures(List<Check> checks) {
        Object[][] rows = {
            {"helium", 20e6, 9.1}, {"nitrogen", 20e6, 9.55}, {"argon", 20e6, 10.7},
            {"helium", 30e6, 13.1}, {"nitrogen", 30e6, 13.2}, {"argon", 30e6, 15.3},
        };
        for (Object[] row : rows) {
            String gas = (String) row[0];
            double p = (Double) row[1];
            checks.add(Check.relative(
                    "SUP-04 " + gas + " " + (int) (p / 1e5) + " bar",
                    "content of a 50 L bottle, volume at 15 C and 1 bar",
                    "gas suppliers' catalogues",
                    Label.COMMON_PRACTICE,
                    (Double) row[2],
                    () -> bottle(gas, p).filling()
                            / Engines.embedded()
                                    .pure(gas)
                                    .atPressureTemperature(1e5, 288.15)
                                    .density(),
                    1e-2,
                    "m3",
                    Kind.VALIDATION));
        }
    }

    /** The two limits of emptying by closed form, at pressures where helium is a perfect gas within a thousandth; energy left over. */
    private static void limits(List<Check> checks) {
        double k = 5.0 / 3;
        String perfect = "T2 = T1 (p2/p1)^((k-1)/k), k = 5/3; helium at a few bar is perfect to 1e-3";
        checks.add(Check.relative(
                "SUP-05 closed form adiabatic",
                "end temperature, 0.4 to 0.1 MPa, no wall heat, integrated over time",
                perfect,
                Label.DERIVED,
                288.15 * Math.pow(0.25, (k - 1) / k),
                () -> emptied(0, Double.POSITIVE_INFINITY).last().temperature(),
                2e-3,
                "K",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "SUP-05 closed form isothermal",
                "pressure when three quarters are drawn, walls that hold the temperature, integrated over time",
                "p proportional to mass for a perfect gas",
                Label.DERIVED,
                0.25,
                () -> emptied(1e4, Double.POSITIVE_INFINITY).last().pressure() / 0.4e6,
                3e-3,
                "1",
                Kind.VERIFICATION));
        double[][] walls = {{0, Double.POSITIVE_INFINITY}, {40, 26e3}, {400, 26e3}};
        for (double[] wall : walls) {
            checks.add(Check.absolute(
                    "SUP energy UA " + (int) wall[0] + " W/K",
                    "energy of the gas at the end less at the start, less heat, plus enthalpy drawn; share of m cv T",
                    "first law; entropy is what is integrated",
                    Label.DERIVED,
                    0,
                    () -> {
                        Bottles b = new Bottles(
                                Engines.embedded().pure("helium"), 0.05, 1, 20e6, 288.15, wall[0], wall[1], 0);
                        return Emptying.run(b, t -> 0.7 * b.filling() / 300, 300, 30, 288.15, 0)
                                .energyDefect();
                    },
                    1e-8,
                    "1",
                    Kind.VERIFICATION));
        }
    }

    private static Emptying emptied(double conductance, double capacity) {
        Bottles b = new Bottles(Engines.embedded().pure("helium"), 0.05, 1, 0.4e6, 288.15, conductance, capacity, 0);
        // Without heat the end pressure is reached earlier: a perfect gas keeps (p2/p1)^(1/k) of its mass.
        double share = conductance > 0 ? 0.75 : 1 - Math.pow(0.25, 0.6);
        return Emptying.run(b, t -> share * b.filling() / 600, 600, 60, 288.15, 0);
    }

    /** Line, regulator and metering: SUP-08, SUP-09, SUP-10. */
    private static void flows(List<Check> checks) {
        GasLine line = new GasLine(0.016, 3, 1.5e-6, 0);
        double density = 0.3e6 / (2077.265 * 288);
        checks.add(Check.relative(
                "SUP-08",
                "end pressure of a line: helium 10 g/s, 16 mm x 3 m, 288 K, from 0.3 MPa",
                "isothermal gas with Colebrook's friction",
                Label.DERIVED,
                289394,
                () -> line.outlet(0.3e6, density, 1.94e-5, 0.01),
                1e-4,
                "Pa",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "SUP-08 friction",
                "Darcy friction factor at Re 41019.3, 1.5 um in 16 mm",
                "Colebrook",
                Label.DERIVED,
                0.022145,
                () -> line.friction(41019.3),
                1e-4,
                "1",
                Kind.VERIFICATION));
        Regulator regulator = new Regulator(3.5e6, 20e6, 0.5e6, 0.0075, 20e6);
        checks.add(Check.relative(
                "SUP-09",
                "outlet of a regulator at 10 g/s when its inlet has fallen by 10 MPa: droop 0.2 MPa, rise 0.075 MPa",
                "p_out = p_set - s m, and a single stage rises 0.5 to 1 % of the fall of its inlet",
                Label.COMMON_PRACTICE,
                3.375e6,
                () -> regulator.outlet(10e6, 0.01),
                1e-9,
                "Pa",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "SUP-09 dropout",
                "inlet at which it gives up: least inlet and its own margin agree",
                "p_in - p_out = margin",
                Label.DERIVED,
                0.5e6,
                () -> {
                    double inlet = regulator.leastInlet(0.01);
                    return inlet - regulator.outlet(inlet, 0.01);
                },
                1e-9,
                "Pa",
                Kind.VERIFICATION));
        Object[][] ratios = {{"helium", 0.48}, {"nitrogen", 0.52}};
        for (Object[] row : ratios) {
            checks.add(Check.absolute(
                    "SUP-10 " + row[0],
                    "pressure ratio at which a metering orifice from 3.5 MPa, 288 K begins to run choked",
                    "habit of purge panels",
                    Label.COMMON_PRACTICE,
                    (Double) row[1],
                    () -> FailedOpen.criticalRatio(
                            Engines.embedded().pure((String) row[0]).atPressureTemperature(3.5e6, 288)),
                    0.015,
                    "1",
                    Kind.VALIDATION));
        }
    }

    private static Bottles bottle(String gas, double pressure) {
        return new Bottles(Engines.embedded().pure(gas), 0.05, 1, pressure, 288.15, 0, Double.POSITIVE_INFINITY, 0);
    }

    private static void add(
            List<Check> checks, String id, String quantity, double expected, String unit, DoubleSupplier ours) {
        checks.add(Check.relative(id, quantity, LIBRARY, Label.DERIVED, expected, ours, 5e-4, unit, Kind.VERIFICATION));
    }
}
