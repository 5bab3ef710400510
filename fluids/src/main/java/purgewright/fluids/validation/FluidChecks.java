package purgewright.fluids.validation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PureFluid;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;

/** What the pure fluids are held against. */
public final class FluidChecks {
    private static final String LIBRARY = "open-source library CoolProp 8.0.0, same publications";
    private static final String TABLES =
            "reference tables made with the open-source library CoolProp 8.0.1dev, same publications";

    private final PropertyEngine engine = Engines.embedded();
    private final List<Check> checks = new ArrayList<>();
    private final Map<String, DeviationTable.Row> rows = new ConcurrentHashMap<>();

    private FluidChecks() {}

    /** All checks of pure fluids. */
    public static List<Check> all() {
        FluidChecks set = new FluidChecks();
        set.printedValues();
        set.deviations();
        set.helium();
        set.nitrogenAndArgon();
        set.bottles();
        set.jouleThomson();
        set.saturation();
        set.reducingFlux();
        return List.copyOf(set.checks);
    }

    private void add(
            String id,
            String quantity,
            String source,
            Label label,
            double expected,
            DoubleSupplier ours,
            double tolerance,
            String unit,
            Kind kind) {
        checks.add(Check.relative(id, quantity, source, label, expected, ours, tolerance, unit, kind));
    }

    /** One line a table of a paper: the worst of its printed values. */
    private void printedValues() {
        Map<String, List<PrintedValue>> papers = new LinkedHashMap<>();
        for (PrintedValue value : PrintedValue.all()) {
            papers.computeIfAbsent(value.fluid() + ": " + value.source(), key -> new ArrayList<>())
                    .add(value);
        }
        int number = 1;
        for (List<PrintedValue> values : papers.values()) {
            PrintedValue first = values.get(0);
            checks.add(Check.absolute(
                    String.format(Locale.ROOT, "PRT-%02d %s", number++, first.fluid()),
                    "worst of " + values.size()
                            + " printed values: deviation over half a unit of the last place printed"
                            + " (over the known difference of inputs where there is one)",
                    first.source() + "; seen as a page-referenced transcription",
                    Label.PUBLISHED,
                    0,
                    () -> values.stream()
                            .mapToDouble(v -> v.excess(engine))
                            .max()
                            .orElse(Double.NaN),
                    1,
                    "1",
                    Kind.VERIFICATION));
        }
    }

    private DeviationTable.Row row(String name) {
        return rows.computeIfAbsent(name, key -> DeviationTable.row(engine, key));
    }

    private void deviations() {
        for (String name : engine.fluidNames()) {
            boolean estimated = engine.pure(name).transportSource().viscosityEstimated();
            for (DeviationTable.Property property : DeviationTable.Property.values()) {
                boolean transport = property == DeviationTable.Property.VISCOSITY
                        || property == DeviationTable.Property.CONDUCTIVITY;
                if (transport && estimated) {
                    continue;
                }
                for (boolean near : new boolean[] {false, true}) {
                    if (near && property == DeviationTable.Property.SURFACE_TENSION && name.equals("ethanol")) {
                        continue; // its correlation ends at 513.9 K, below every row of the table
                    }
                    checks.add(Check.absolute(
                            "DEV " + name + " " + property.symbol() + (near ? " near critical" : ""),
                            "largest relative deviation of " + property.symbol()
                                    + (near ? " within 2 % of the critical temperature" : " elsewhere"),
                            TABLES,
                            Label.DERIVED,
                            0,
                            () -> row(name).deviation(property, near),
                            property.tolerance(near),
                            "1",
                            Kind.VERIFICATION));
                }
            }
        }
    }

    private static double compressibility(PureFluid fluid, FluidState s) {
        return s.pressure() * fluid.molarMass() / (s.density() * 8.31446261815324 * s.temperature());
    }

    private void helium() {
        PureFluid he = engine.pure("helium");
        double[][] rows = {
            {273.15, 0.101325, 1.000533, 0.178481},
            {273.15, 20, 1.102791, 31.9627},
            {288.15, 10, 1.049031, 15.9258},
            {288.15, 15, 1.073129, 23.3523},
            {288.15, 20, 1.096976, 30.4595},
            {288.15, 30, 1.143979, 43.8120},
            {288.15, 40, 1.190119, 56.1512},
            {293.15, 20, 1.095169, 29.9894},
            {300, 20, 1.092789, 29.3684},
            {300, 40, 1.181954, 54.3058}
        };
        for (double[] r : rows) {
            String at = String.format(Locale.ROOT, "He %g K %g MPa", r[0], r[1]);
            add(
                    "SUP-01 Z " + at,
                    "compressibility factor",
                    LIBRARY,
                    Label.DERIVED,
                    r[2],
                    () -> compressibility(he, he.atPressureTemperature(r[1] * 1e6, r[0])),
                    5e-4,
                    "1",
                    Kind.VERIFICATION);
            add(
                    "SUP-01 rho " + at,
                    "density",
                    LIBRARY,
                    Label.DERIVED,
                    r[3],
                    () -> he.atPressureTemperature(r[1] * 1e6, r[0]).density(),
                    5e-4,
                    "kg/m3",
                    Kind.VERIFICATION);
        }
    }

    private void nitrogenAndArgon() {
        double[] pressures = {10, 15, 20, 30, 40};
        double[][] z = {
            {0.997250, 1.016372, 1.047786, 1.137742, 1.249048}, {0.943896, 0.933383, 0.936765, 0.980795, 1.058335}
        };
        String[] names = {"nitrogen", "argon"};
        for (int f = 0; f < 2; f++) {
            PureFluid fluid = engine.pure(names[f]);
            for (int i = 0; i < pressures.length; i++) {
                double p = pressures[i] * 1e6;
                add(
                        String.format(Locale.ROOT, "SUP-02 Z %s 288.15 K %g MPa", names[f], pressures[i]),
                        "compressibility factor",
                        LIBRARY,
                        Label.DERIVED,
                        z[f][i],
                        () -> compressibility(fluid, fluid.atPressureTemperature(p, 288.15)),
                        2e-4,
                        "1",
                        Kind.VERIFICATION);
            }
        }
    }

    private void bottles() {
        Object[][] rows = {
            {"helium", 200, 1.52297, 9.12049, 8.53297, 0.0831214},
            {"helium", 300, 2.19060, 13.1186, 12.2736, 0.0831214},
            {"nitrogen", 200, 11.1594, 9.54119, 8.92472, 0.586184},
            {"nitrogen", 300, 15.4156, 13.1802, 12.3286, 0.586184},
            {"argon", 200, 17.7995, 10.6672, 9.97757, 0.839778},
            {"argon", 300, 25.5007, 15.2825, 14.2945, 0.839778}
        };
        double volume = 0.050;
        for (Object[] r : rows) {
            PureFluid fluid = engine.pure((String) r[0]);
            double bar = (Integer) r[1];
            String at = r[0] + " " + r[1] + " bar";
            DoubleSupplier mass = () ->
                    volume * fluid.atPressureTemperature(bar * 1e5, 288.15).density();
            add(
                    "SUP-03 mass " + at,
                    "mass in a 50 L bottle at 15 C",
                    LIBRARY,
                    Label.DERIVED,
                    (Double) r[2],
                    mass,
                    5e-4,
                    "kg",
                    Kind.VERIFICATION);
            add(
                    "SUP-03 volume 15 C " + at,
                    "the same at 15 C and 1 bar",
                    LIBRARY,
                    Label.DERIVED,
                    (Double) r[3],
                    () -> mass.getAsDouble()
                            / fluid.atPressureTemperature(1e5, 288.15).density(),
                    5e-4,
                    "m3",
                    Kind.VERIFICATION);
            add(
                    "SUP-03 volume 0 C " + at,
                    "the same at 0 C and 1.01325 bar",
                    LIBRARY,
                    Label.DERIVED,
                    (Double) r[4],
                    () -> mass.getAsDouble()
                            / fluid.atPressureTemperature(101325, 273.15).density(),
                    5e-4,
                    "m3",
                    Kind.VERIFICATION);
            add(
                    "SUP-03 left " + at,
                    "mass left at 10 bar and 15 C",
                    LIBRARY,
                    Label.DERIVED,
                    (Double) r[5],
                    () -> volume * fluid.atPressureTemperature(1e6, 288.15).density(),
                    5e-4,
                    "kg",
                    Kind.VERIFICATION);
        }
    }

    private void jouleThomson() {
        String[] names = {"helium", "nitrogen", "hydrogen"};
        double[] expected = {312.336, 269.190, 307.175};
        for (int i = 0; i < names.length; i++) {
            PureFluid fluid = engine.pure(names[i]);
            checks.add(Check.absolute(
                    "SUP-07 " + names[i],
                    "temperature after throttling from 20 MPa, 300 K to 0.101325 MPa",
                    LIBRARY,
                    Label.DERIVED,
                    expected[i],
                    () -> fluid.atPressureEnthalpy(
                                    101325,
                                    fluid.atPressureTemperature(20e6, 300).enthalpy())
                            .temperature(),
                    0.1,
                    "K",
                    Kind.VERIFICATION));
        }
    }

    private void saturation() {
        String nist = "NIST reference equations (as transcribed), reproduced by CoolProp";
        PureFluid n2 = engine.pure("nitrogen");
        PureFluid o2 = engine.pure("oxygen");
        PureFluid ar = engine.pure("argon");
        PureFluid he = engine.pure("helium");
        PureFluid ch4 = engine.pure("methane");
        double[][] nitrogen = {{90, 0.36046e6}, {100, 0.77828e6}, {110, 1.4659e6}, {120, 2.5106e6}, {63.151, 12.52e3}};
        for (double[] r : nitrogen) {
            add(
                    String.format(Locale.ROOT, "HAZ-38 nitrogen psat %g K", r[0]),
                    "vapour pressure",
                    nist,
                    Label.PUBLISHED,
                    r[1],
                    () -> n2.saturationPressure(r[0]),
                    1e-3,
                    "Pa",
                    Kind.VALIDATION);
        }
        add(
                "HAZ-38 argon psat 90 K",
                "vapour pressure",
                nist,
                Label.PUBLISHED,
                0.13351e6,
                () -> ar.saturationPressure(90),
                1e-3,
                "Pa",
                Kind.VALIDATION);
        add(
                "HAZ-38 argon triple point",
                "triple-point temperature",
                nist,
                Label.PUBLISHED,
                83.806,
                ar::tripleTemperature,
                1e-3,
                "K",
                Kind.VALIDATION);
        add(
                "HAZ-38 argon triple pressure",
                "triple-point pressure",
                nist,
                Label.PUBLISHED,
                68.9e3,
                () -> ar.saturationPressure(ar.tripleTemperature()),
                1e-3,
                "Pa",
                Kind.VALIDATION);
        add(
                "HAZ-38 nitrogen critical",
                "critical temperature",
                nist,
                Label.PUBLISHED,
                126.192,
                n2::criticalTemperature,
                1e-3,
                "K",
                Kind.VALIDATION);
        add(
                "HAZ-38 helium critical",
                "critical temperature",
                nist,
                Label.PUBLISHED,
                5.195,
                he::criticalTemperature,
                1e-3,
                "K",
                Kind.VALIDATION);
        checks.add(Check.absolute(
                "HAZ-39 margin",
                "triple point of methane above the normal boiling point of oxygen",
                nist,
                Label.PUBLISHED,
                0.507,
                () -> ch4.tripleTemperature() - o2.saturationTemperature(101325),
                0.0015,
                "K",
                Kind.VALIDATION));
    }

    private void reducingFlux() {
        String source =
                "G* = sqrt(pc rhoc/Zc) = rhoc sqrt(R Tc) after R. C. Hendricks, R. J. Simoneau and co-workers, NASA TN D-8169 (1976); constants of "
                        + LIBRARY;
        Map<String, Double> expected = new LinkedHashMap<>();
        expected.put("nitrogen", 60633.1);
        expected.put("oxygen", 85568.7);
        expected.put("parahydrogen", 11542.3);
        expected.put("methane", 51118.6);
        expected.put("argon", 94852.3);
        expected.put("helium", 7228.8);
        expected.forEach((name, flux) -> {
            PureFluid fluid = engine.pure(name);
            add(
                    "CHK-08 " + name,
                    "corresponding-states mass flux",
                    source,
                    Label.DERIVED,
                    flux,
                    () -> fluid.criticalDensity()
                            * Math.sqrt(8.31446261815324 / fluid.molarMass() * fluid.criticalTemperature()),
                    1e-4,
                    "kg/(m2 s)",
                    Kind.VERIFICATION);
        });
    }
}
