package purgewright.sealflow.transients;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleSupplier;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.CaseSketch;
import purgewright.sealflow.network.ClosedFormPassages;
import purgewright.sealflow.network.NetworkDynamics;
import purgewright.sealflow.network.NetworkDynamics.Point;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.PerfectGases;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.Method;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.FilmLaws;

/** Closed forms of cavities that fill and empty, run with perfect gases. */
public final class TransientChecks {
    private static final PropertyEngine GASES = new PerfectGases();
    private static final double R = 2077.26;
    private static final double CP = 5193;
    private static final String DOWN = "5 MPa";

    private TransientChecks() {}

    /** All checks of this room. */
    public static List<Check> all() {
        List<Check> checks = new ArrayList<>();
        check(
                checks,
                "NET-03",
                "barrier of 20 cm3 without purge, laminar rings to 0.1 MPa, 0.4 -> 0.15 MPa, isothermal: time, by an event",
                "t = V/(R T K pa) (arcoth(p/pa) - arcoth(p0/pa))",
                0.0342598,
                TransientChecks::lossOfPurge,
                2e-5,
                "s");
        check(
                checks,
                "NET-04",
                "purge-down of 20 cm3 of helium at 0.3 MPa, 300 K by 1 g/s to 1 %: time, by an event",
                "t = tau ln 100, tau = rho V/m",
                0.0443389,
                TransientChecks::purgeDown,
                2e-5,
                "s");
        blowdowns(checks);
        check(
                checks,
                "pressurisation",
                "evacuated vessel filled adiabatically through a choked hole: temperature against the supply's",
                "T -> k T0 while little was in it; here from 1 kPa to 0.4 MPa, U = U0 + m h0 exactly",
                filledTemperature(),
                TransientChecks::filling,
                1e-5,
                "K");
        check(
                checks,
                "pressurisation isothermal",
                "vessel of 1 l with walls at 300 K, filled through a choked hole for 8 s: pressure",
                "p = p0 + m R T t/V, m = Cd A p1 sqrt(k/(R T)) (2/(k+1))^((k+1)/(2(k-1))), helium, 2 MPa, 0.1 mm2",
                filledIsothermally(8),
                TransientChecks::fillingIsothermally,
                1e-5,
                "Pa");
        return List.copyOf(checks);
    }

    /** SUP-06: a vessel that empties through a choked hole, with and without heat from its walls. */
    private static void blowdowns(List<Check> checks) {
        String vessel = "V 50 l, 20 MPa, 288.15 K, d 1.0 mm, Cd 0.9, perfect gas, ";
        check(
                checks,
                "SUP-06 first flow",
                "flow through the hole while the vessel is full",
                vessel + "m = Cd A C* p0/sqrt(R T0)",
                0.0132695,
                () -> full().massFlow("hole"),
                1e-5,
                "kg/s");
        check(
                checks,
                "SUP-06 mass",
                "helium in the full vessel",
                vessel + "m0 = p0 V/(R T0)",
                1.67067,
                () -> full().held().total(),
                1e-5,
                "kg");
        check(
                checks,
                "SUP-06 time constant",
                "mass in the full vessel over its first flow",
                vessel + "tau = V/(Cd A C* sqrt(R T0))",
                125.903034,
                () -> {
                    NetworkDynamics full = full();
                    return full.held().total() / full.massFlow("hole");
                },
                1e-5,
                "s");
        check(
                checks,
                "SUP-06 isothermal 20 to 5 MPa",
                "time, by an event, walls holding the temperature",
                vessel + "t = tau ln(p0/p)",
                174.5387,
                () -> blowdown(200, true, true).firstHit(DOWN),
                1e-4,
                "s");
        check(
                checks,
                "SUP-06 adiabatic 20 to 5 MPa",
                "time, by an event, without heat",
                vessel + "t = 2 tau/(k-1) ((p0/p)^((k-1)/(2k)) - 1)",
                120.6810,
                () -> blowdown(200, false, true).firstHit(DOWN),
                1e-4,
                "s");
        double[][] isothermal = {{10, 18.4729e6}, {30, 15.7597e6}, {60, 12.4183e6}, {120, 7.71077e6}};
        for (double[] row : isothermal) {
            check(
                    checks,
                    "SUP-06 isothermal " + (int) row[0] + " s",
                    "pressure of a helium vessel in choked blowdown, walls holding the temperature",
                    vessel + "p = p0 exp(-t/tau)",
                    row[1],
                    () -> blowdown(row[0], true, false).pressure("vessel", row[0]),
                    1e-4,
                    "Pa");
        }
        double[][] adiabatic = {
            {10, 17.5504e6, 273.4775}, {30, 13.6479e6, 247.3049}, {60, 9.56950e6, 214.5667}, {120, 5.03430e6, 165.9519}
        };
        for (double[] row : adiabatic) {
            String at = "SUP-06 adiabatic " + (int) row[0] + " s";
            check(
                    checks,
                    at,
                    "pressure of a helium vessel in choked blowdown without heat",
                    vessel + "p = p0 (1 + (k-1)/2 t/tau)^(-2k/(k-1))",
                    row[1],
                    () -> blowdown(row[0], false, false).pressure("vessel", row[0]),
                    1e-4,
                    "Pa");
            check(
                    checks,
                    at + " T",
                    "temperature in it",
                    vessel + "T = T0 (1 + (k-1)/2 t/tau)^-2",
                    row[2],
                    () -> blowdown(row[0], false, false).at(row[0]).enthalpy()[0] / CP + 298.15,
                    1e-4,
                    "K");
        }
    }

    private static void check(
            List<Check> checks,
            String id,
            String quantity,
            String source,
            double expected,
            DoubleSupplier ours,
            double tolerance,
            String unit) {
        checks.add(Check.relative(
                id, quantity, source, Label.DERIVED, expected, ours, tolerance, unit, Kind.VERIFICATION));
    }

    private static NetworkSolver solver() {
        return new NetworkSolver(GASES, SolverSettings.DEFAULT, ClosedFormPassages::find, (spec, rotor) -> null);
    }

    /** A start that no steady state gives: one free cavity at a pressure, a temperature and a stream. */
    private static Converged start(Case model, String cavity, double pressure, double temperature, int stream) {
        StreamMixer mixer = GASES.mixer(model.streams());
        double[] y = new double[mixer.size()];
        y[stream] = 1;
        Map<String, Double> streams = new LinkedHashMap<>();
        for (int k = 0; k < y.length; k++) {
            streams.put(mixer.name(k), y[k]);
        }
        CavityState state = new CavityState(
                cavity,
                false,
                mixer.mix(y).atPressureTemperature(pressure, temperature),
                streams,
                mixer.speciesMassFractions(y),
                mixer.speciesMoleFractions(y),
                0,
                0);
        return new Converged(
                new Convergence(Method.NONE, 0, Double.NaN, Double.NaN, Double.NaN, List.of()),
                Map.of(cavity, state),
                Map.of(),
                List.of());
    }

    private static TransientResult run(Case model, Converged start, double duration, List<Event> events) {
        TransientResult result = new TransientSolver(solver(), TransientSettings.DEFAULT.withTolerance(1e-8))
                .run(Schedule.constant(model), start, duration, events);
        if (Math.abs(result.massDefect()) > 1e-7) {
            throw new IllegalStateException("mass is kept to " + result.massDefect() + " only");
        }
        return result;
    }

    private static double ring(double clearance) {
        return FilmLaws.annulusGas(0.050, clearance, 0.006, 1.99e-5, R * 300, 1, 0, 0);
    }

    private static double lossOfPurge() {
        Case model = new CaseSketch()
                .stream("helium", "helium")
                        .vessel("barrier", 20e-6, 1e6, 300)
                        .fixed("vent", "helium", 0.1e6, 300)
                        .passage("rings", "barrier", "vent", "square law", "K", ring(25e-6) + ring(35e-6))
                        .make();
        return run(
                        model,
                        start(model, "barrier", 0.4e6, 300, 0),
                        0.1,
                        List.of(Event.pressureMargin("low", "barrier", "vent", 0.05e6, true)))
                .firstHit("low");
    }

    private static double purgeDown() {
        Case model = new CaseSketch()
                .stream(new StreamDefinition.Single("old", "helium")).stream(
                                new StreamDefinition.Single("new", "helium"))
                        .vessel("cavity", 20e-6, 0, 300)
                        .fixed("purge", "new", 1e6, 300)
                        .fixed("out", "old", 0.1e6, 300)
                        .passage("in", "purge", "cavity", "fixed flow", "flow", 1e-3)
                        .passage("away", "cavity", "out", "fixed flow", "flow", 1e-3)
                        .make();
        Event one = new Event(
                "one per cent",
                n -> {
                    Point z = n.point();
                    return z.fractions()[0][0] - 0.01;
                },
                true);
        return run(model, start(model, "cavity", 0.3e6, 300, 0), 0.1, List.of(one))
                .firstHit("one per cent");
    }

    private static Case vessel(boolean isothermal) {
        return new CaseSketch()
                .stream("helium", "helium")
                        .vessel("vessel", 0.05, isothermal ? 1e7 : 0, 288.15)
                        .fixed("out", "helium", 1e5, 288.15)
                        .passage("hole", "vessel", "out", "nozzle", "area", 0.9 * Math.PI * 1e-6 / 4)
                        .make();
    }

    private static TransientResult blowdown(double time, boolean isothermal, boolean untilDown) {
        Case model = vessel(isothermal);
        return run(
                model,
                start(model, "vessel", 20e6, 288.15, 0),
                time,
                untilDown ? List.of(new Event(DOWN, n -> n.state("vessel").pressure() - 5e6, true)) : List.of());
    }

    /** The full vessel, as the transient solver starts from it. */
    private static NetworkDynamics full() {
        Case model = vessel(false);
        NetworkDynamics dynamics = new NetworkDynamics(solver(), model, 1e-5);
        dynamics.set(dynamics.point(start(model, "vessel", 20e6, 288.15, 0)));
        return dynamics;
    }

    private static Case fill() {
        return new CaseSketch()
                .stream("helium", "helium")
                        .vessel("vessel", 1e-3, 0, 300)
                        .fixed("supply", "helium", 2e6, 300)
                        .passage("hole", "supply", "vessel", "nozzle", "area", 1e-7)
                        .make();
    }

    private static double filling() {
        Case model = fill();
        TransientResult result = run(
                model,
                start(model, "vessel", 1e3, 300, 0),
                100,
                List.of(new Event("full", n -> n.state("vessel").pressure() - 0.4e6, true)));
        int last = result.steps().size() - 1;
        return result.steps().get(last).at(result.firstHit("full")).enthalpy()[0] / CP + 298.15;
    }

    /** m cv T = m0 cv T0 + (m - m0) cp T0 with m = p V/(R T). */
    private static double filledTemperature() {
        double cv = CP - R;
        double p = 0.4e6;
        double p0 = 1e3;
        // p V cv/R = p0 V cv/R + cp T0 (p V/(R T) - p0 V/(R T0))
        return p / ((p - p0) * cv / (CP * 300) + p0 / 300);
    }

    private static double fillingIsothermally() {
        Case model = new CaseSketch()
                .stream("helium", "helium")
                        .vessel("vessel", 1e-3, 1e7, 300)
                        .fixed("supply", "helium", 2e6, 300)
                        .passage("hole", "supply", "vessel", "nozzle", "area", 1e-7)
                        .make();
        return run(model, start(model, "vessel", 1e3, 300, 0), 8, List.of()).pressure("vessel", 8);
    }

    private static double filledIsothermally(double time) {
        double k = CP / (CP - R);
        double flow = 1e-7 * 2e6 * Math.sqrt(k / (R * 300)) * Math.pow(2 / (k + 1), (k + 1) / (2 * (k - 1)));
        return 1e3 + flow * R * 300 * time / 1e-3;
    }
}
