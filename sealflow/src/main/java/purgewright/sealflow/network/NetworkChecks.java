package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.passage.FilmLaws;
import purgewright.sealflow.rotating.CoreSwirl;
import purgewright.sealflow.rotating.DiscFriction;
import purgewright.sealflow.rotating.DiscFriction.Regime;
import purgewright.sealflow.rotating.ForcedVortex;

/** Closed forms and published numbers for the network, counter-diffusion and rotating cavities. */
public final class NetworkChecks {
    private static final String DAILY_NECE =
            "J. W. Daily, R. E. Nece, J. Basic Eng. 82 (1960) 217, four regimes (coefficients recalled)";
    private static final String FREE_DISC =
            "R. B. Bird, W. E. Stewart, E. N. Lightfoot, Transport Phenomena, rotating disc";

    private NetworkChecks() {}

    /** All checks of this room. */
    public static List<Check> all() {
        List<Check> checks = new ArrayList<>();
        networks(checks);
        orifices(checks);
        diffusion(checks);
        discs(checks);
        swirls(checks);
        vortices(checks);
        return List.copyOf(checks);
    }

    private static Converged solve(Case model) {
        SolveResult result = new NetworkSolver(
                        new PerfectGases(), SolverSettings.DEFAULT, ClosedFormPassages::find, (spec, rotor) -> null)
                .solve(model, null);
        if (result instanceof Converged converged) {
            return converged;
        }
        throw new IllegalStateException(((SolveResult.NotConverged) result).detail());
    }

    private static double pressure(Case model, String cavity) {
        return solve(model).cavities().get(cavity).state().pressure();
    }

    private static void derived(
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

    /** K of a laminar ring, m = K (p1^2 - p2^2), kg/(s Pa2). */
    private static double ring(double clearance) {
        return FilmLaws.annulusGas(0.050, clearance, 0.006, 1.99e-5, 2077.26 * 300, 1, 0, 0);
    }

    private static CaseSketch twoRings() {
        return new CaseSketch()
                .stream("helium", "helium")
                        .fixed("bottle", "helium", 3e6, 300)
                        .free("barrier")
                        .fixed("drain A", "helium", 0.12e6, 300)
                        .fixed("drain B", "helium", 0.15e6, 300)
                        .passage("feed", "bottle", "barrier", "fixed flow", "flow", 1e-3)
                        .passage("ring A", "barrier", "drain A", "square law", "K", ring(25e-6))
                        .passage("ring B", "barrier", "drain B", "square law", "K", ring(35e-6));
    }

    private static void networks(List<Check> checks) {
        String rings = "p = sqrt((m + K_A p_A^2 + K_B p_B^2)/(K_A + K_B)), laminar annuli, isothermal helium";
        derived(
                checks,
                "NET-01 barrier pressure",
                "choked feed, two laminar rings",
                rings,
                463327,
                () -> pressure(twoRings().make(), "barrier"),
                1e-5,
                "Pa");
        derived(
                checks,
                "NET-01 flow A",
                "flow of the tighter ring",
                rings,
                2.75253e-4,
                () -> solve(twoRings().make()).passages().get("ring A").flow().massFlow(),
                1e-5,
                "kg/s");
        derived(
                checks,
                "NET-01 flow B",
                "flow of the wider ring",
                rings,
                7.24747e-4,
                () -> solve(twoRings().make()).passages().get("ring B").flow().massFlow(),
                1e-5,
                "kg/s");
        derived(
                checks,
                "NET-02",
                "equal p^2 resistances in series, 1.0 and 0.1 MPa: middle",
                "p = sqrt((p1^2 + p2^2)/2)",
                0.710634e6,
                () -> pressure(
                        new CaseSketch()
                                .stream("air", "air")
                                        .fixed("high", "air", 1e6, 300)
                                        .free("middle")
                                        .fixed("low", "air", 1e5, 300)
                                        .passage("first", "high", "middle", "square law", "K", 1e-15)
                                        .passage("second", "middle", "low", "square law", "K", 1e-15)
                                        .make(),
                        "middle"),
                1e-6,
                "Pa");
        CaseSketch mixing = new CaseSketch()
                .stream("helium", "helium").stream("oxygen", "oxygen")
                        .fixed("helium side", "helium", 1e6, 288)
                        .fixed("oxygen side", "oxygen", 1e6, 150)
                        .free("mixer")
                        .fixed("out", "helium", 1e5, 288)
                        .passage("helium in", "helium side", "mixer", "fixed flow", "flow", 1e-3)
                        .passage("oxygen in", "oxygen side", "mixer", "fixed flow", "flow", 1e-3)
                        .passage("away", "mixer", "out", "square law", "K", 1e-14);
        derived(
                checks,
                "NET-05 temperature",
                "adiabatic mixing of 1 g/s helium at 288 K and 1 g/s oxygen at 150 K",
                "T = sum m cp T / sum m cp",
                267.2695,
                () -> solve(mixing.make()).cavities().get("mixer").state().temperature(),
                1e-6,
                "K");
        derived(
                checks,
                "NET-05 helium mole fraction",
                "mole fraction of helium in equal masses of helium and oxygen",
                "x = (1/M_He)/(1/M_He + 1/M_O2) with the gas constants 2077.26 and 259.84 J/(kg K)",
                2077.26 / (2077.26 + 259.84),
                () -> solve(mixing.make())
                        .cavities()
                        .get("mixer")
                        .moleFractions()
                        .get("helium"),
                1e-9,
                "1");
    }

    private static CaseSketch nozzles(double second) {
        return new CaseSketch()
                .stream("air", "air")
                        .fixed("high", "air", 1e6, 300)
                        .free("middle")
                        .fixed("low", "air", 1e5, 300)
                        .passage("first", "high", "middle", "nozzle", "area", 1e-5)
                        .passage("second", "middle", "low", "nozzle", "area", second);
    }

    private static void orifices(List<Check> checks) {
        double k = 1.4;
        double choke = Math.sqrt(k / (287.05 * 300)) * Math.pow(2 / (k + 1), (k + 1) / (2 * (k - 1)));
        derived(
                checks,
                "NET series",
                "two choked ideal nozzles in series, areas 1 to 4: middle pressure",
                "p2 = p1 A1/A2 at equal total temperature",
                0.25e6,
                () -> pressure(nozzles(4e-5).make(), "middle"),
                1e-9,
                "Pa");
        derived(
                checks,
                "NET parallel",
                "two choked ideal nozzles side by side, 1 and 3 x 1e-5 m2: flow",
                "m = A p sqrt(k/(R T)) (2/(k+1))^((k+1)/(2(k-1)))",
                4e-5 * 1e6 * choke,
                () -> -solve(new CaseSketch()
                                .stream("air", "air")
                                        .fixed("high", "air", 1e6, 300)
                                        .fixed("low", "air", 1e5, 300)
                                        .passage("one", "high", "low", "nozzle", "area", 1e-5)
                                        .passage("other", "low", "high", "nozzle", "area", 3e-5)
                                        .make())
                        .cavities()
                        .get("high")
                        .netMassFlow(),
                1e-12,
                "kg/s");
        // Equal areas, 1.0 to 0.9 MPa: unchoked, the middle pressure solves psi(pm/p1) p1 = psi(p2/pm) pm.
        derived(
                checks,
                "NET series unchoked",
                "two equal ideal nozzles in series, 1.0 to 0.9 MPa: middle pressure",
                "p1 psi(pm/p1) = pm psi(p2/pm), psi^2 = 2k/(k-1) (r^(2/k) - r^((k+1)/k)), by bisection",
                seriesPressure(1e6, 0.9e6),
                () -> pressure(
                        new CaseSketch()
                                .stream("air", "air")
                                        .fixed("high", "air", 1e6, 300)
                                        .free("middle")
                                        .fixed("low", "air", 0.9e6, 300)
                                        .passage("first", "high", "middle", "nozzle", "area", 1e-5)
                                        .passage("second", "middle", "low", "nozzle", "area", 1e-5)
                                        .make(),
                        "middle"),
                1e-9,
                "Pa");
    }

    private static double seriesPressure(double high, double low) {
        double a = low;
        double b = high;
        for (int i = 0; i < 200; i++) {
            double middle = (a + b) / 2;
            if (high * psi(middle / high) > middle * psi(low / middle)) {
                a = middle;
            } else {
                b = middle;
            }
        }
        return (a + b) / 2;
    }

    private static double psi(double r) {
        return Math.sqrt(7 * (Math.pow(r, 2 / 1.4) - Math.pow(r, 2.4 / 1.4)));
    }

    private static void diffusion(List<Check> checks) {
        double d = 0.73e-4;
        double[][] back = {
            {0.01, 6e-3, 0.439588},
            {0.05, 6e-3, 0.0164145},
            {0.1, 6e-3, 2.69436e-4},
            {1, 2e-3, 1.26334e-12},
            {5, 1e-3, 1.79392e-30},
        };
        for (double[] row : back) {
            derived(
                    checks,
                    "DIF-11 v " + row[0] + " m/s L " + row[1] + " m",
                    "concentration upstream of a purged passage, far side 1",
                    "exp(-v L/D), D 0.73e-4 m2/s",
                    row[2],
                    () -> {
                        // No net flux of the trace: N x_a + G (x_a - 1) = 0, per unit area and concentration.
                        double g = Diffusion.exchange(row[0], d / row[1]);
                        return g / (row[0] + g);
                    },
                    1e-5,
                    "1");
        }
        double[][] flux = {
            {2, 0, 1, -0.15651764}, {-2, 0, 1, 1.1565176}, {10, 0, 1, -4.5401991e-5}, {0.5, 0.2, 0.9, -0.87904586},
            {1, 0, 1, -0.581977}, {3, 0, 1, -0.0523957}, {5, 0, 1, -0.00678365}, {1e-8, 0, 1, -1e8},
        };
        for (double[] row : flux) {
            derived(
                    checks,
                    "DIF-12 Pe " + row[0] + " a " + row[1] + " b " + row[2],
                    "species flux over mass flux",
                    "w_a + (w_a - w_b)/(exp(Pe) - 1)",
                    row[3],
                    () -> Diffusion.flow(row[0], 1, row[1], row[2]) / row[0],
                    1e-6,
                    "1");
        }
        for (double[] row : new double[][] {{3, 0.0255290}, {5, 0.00338036}}) {
            derived(
                    checks,
                    "DIF-12 barrier Pe " + row[0],
                    "foreign gas in a barrier purged to two equal sides, by the network",
                    "w = b/(2 + b), b = 1/(exp(Pe) - 1)",
                    row[1],
                    () -> traced(row[0]),
                    2e-6,
                    "1");
        }
        for (boolean near : new boolean[] {true, false}) {
            derived(
                    checks,
                    "DIF chain, " + (near ? "near" : "far") + " cavity",
                    "two cavities in a row purged towards a foreign gas, Pe 1.5 and 2.5, by the network: trace",
                    "w_n = exp(-sum of the Pe from there to the foreign gas)",
                    Math.exp(near ? -2.5 : -4),
                    () -> chained(1.5, 2.5, near ? "near" : "far"),
                    2e-6,
                    "1");
        }
        double leak = 0.242e-4 * 1e-4 / 0.01;
        checks.add(Check.relative(
                "DIF-13",
                "purged volume with a diffusive leak path, by the network: partial pressure over outside",
                "P/P0 = C/(C + Q), C = D A/L; balance of J. J. Scialdone as quoted in L. Brieda, J. Newcome, T. Errigo, "
                        + "Diffusion of water into purged volumes, eq. (1)",
                Label.PUBLISHED,
                0.194847,
                () -> leakPath(leak / 1e-6),
                1e-5,
                "1",
                Kind.VERIFICATION));
    }

    /** Diffusion area over length that gives a passage of the perfect gases one mol/s of conductance. */
    private static double areaFor(double conductance) {
        return conductance / (101325 / (PerfectGases.MOLAR_GAS_CONSTANT * 300) * PerfectGases.DIFFUSIVITY);
    }

    private static double traced(double peclet) {
        double m = 1e-6;
        double molar = m * 2077.26 / PerfectGases.MOLAR_GAS_CONSTANT;
        double area = areaFor(molar / peclet);
        return solve(new CaseSketch()
                        .stream("purge", "helium").stream("foreign", "helium")
                                .fixed("bottle", "purge", 2e5, 300)
                                .free("barrier")
                                .fixed("clean", "purge", 1e5, 300)
                                .fixed("dirty", "foreign", 1e5, 300)
                                .passage("feed", "bottle", "barrier", "fixed flow", "flow", 2 * m)
                                .passage("left", "barrier", "clean", "fixed flow", "flow", m)
                                .passage(
                                        "right",
                                        "barrier",
                                        "dirty",
                                        "fixed flow",
                                        "flow",
                                        m,
                                        "diffusion area",
                                        area,
                                        "diffusion length",
                                        1.0)
                                .make())
                .cavities()
                .get("barrier")
                .streamFractions()
                .get("foreign");
    }

    private static double chained(double first, double second, String cavity) {
        double m = 1e-6;
        double molar = m * 2077.26 / PerfectGases.MOLAR_GAS_CONSTANT;
        return solve(new CaseSketch()
                        .stream("purge", "helium").stream("foreign", "helium")
                                .fixed("bottle", "purge", 2e5, 300)
                                .free("far")
                                .free("near")
                                .fixed("dirty", "foreign", 1e5, 300)
                                .passage("feed", "bottle", "far", "square law", "K", m / 1e10)
                                .passage(
                                        "first",
                                        "far",
                                        "near",
                                        "square law",
                                        "K",
                                        m / 1e10,
                                        "diffusion area",
                                        areaFor(molar / first),
                                        "diffusion length",
                                        1.0)
                                .passage(
                                        "second",
                                        "near",
                                        "dirty",
                                        "square law",
                                        "K",
                                        m / 1e10,
                                        "diffusion area",
                                        areaFor(molar / second),
                                        "diffusion length",
                                        1.0)
                                .make())
                .cavities()
                .get(cavity)
                .streamFractions()
                .get("foreign");
    }

    private static double leakPath(double conductanceOverPurge) {
        double m = 1e-6;
        double molar = m * 2077.26 / PerfectGases.MOLAR_GAS_CONSTANT;
        return solve(new CaseSketch()
                        .stream("purge", "helium").stream("foreign", "helium")
                                .fixed("bottle", "purge", 2e5, 300)
                                .free("volume")
                                .fixed("outside", "foreign", 1e5, 300)
                                .fixed("exhaust", "purge", 1e5, 300)
                                .passage("feed", "bottle", "volume", "fixed flow", "flow", m)
                                .passage("out", "volume", "exhaust", "square law", "K", 1e-16)
                                .passage(
                                        "leak path",
                                        "outside",
                                        "volume",
                                        "fixed flow",
                                        "flow",
                                        0.0,
                                        "diffusion area",
                                        areaFor(molar * conductanceOverPurge),
                                        "diffusion length",
                                        1.0)
                                .make())
                .cavities()
                .get("volume")
                .streamFractions()
                .get("foreign");
    }

    private static void discs(List<Check> checks) {
        double[][] rows = {
            {1e4, 0.02, 0.0314159, 0.0250210, 0.0153551, 0.0109321},
            {1e5, 0.10, 6.28319e-4, 0.00929398, 0.00660323, 0.00810215},
            {1e6, 0.02, 3.14159e-4, 0.00250210, 0.00485570, 0.00435214},
            {1e6, 0.10, 6.28319e-5, 0.00293901, 0.00371327, 0.00511211},
            {5e6, 0.0127, 9.89478e-5, 0.00106929, 0.00350252, 0.00301430},
            {1e7, 0.05, 1.25664e-5, 8.67159e-4, 0.00234384, 0.00300952},
        };
        for (double[] row : rows) {
            double largest = 0;
            for (Regime regime : Regime.values()) {
                double expected = row[2 + regime.ordinal()];
                largest = Math.max(largest, expected);
                checks.add(Check.relative(
                        "ROT-07 Re " + row[0] + " s/a " + row[1] + " " + regime,
                        "moment coefficient of an enclosed disc, both faces",
                        DAILY_NECE,
                        Label.FROM_MEMORY,
                        expected,
                        () -> DiscFriction.momentCoefficient(regime, row[0], row[1]),
                        1e-5,
                        "1",
                        Kind.VERIFICATION));
            }
            checks.add(Check.relative(
                    "ROT-07 Re " + row[0] + " s/a " + row[1] + " joined",
                    "moment coefficient after joining the regimes, within the scatter of the tests",
                    DAILY_NECE,
                    Label.FROM_MEMORY,
                    largest,
                    () -> DiscFriction.enclosed(row[0], row[1]),
                    0.1,
                    "1",
                    Kind.VALIDATION));
        }
        for (double[] row : new double[][] {{1e4, 0.0387}, {1e5, 0.012238}}) {
            checks.add(Check.relative(
                    "ROT-08 laminar Re " + row[0],
                    "moment coefficient of a free disc, both faces",
                    FREE_DISC,
                    Label.PUBLISHED,
                    row[1],
                    () -> DiscFriction.freeLaminar(row[0]),
                    1e-3,
                    "1",
                    Kind.VERIFICATION));
        }
        for (double[] row : new double[][] {{1e5, 0.0146}, {1e6, 0.00921198}, {1e7, 0.00581236}}) {
            checks.add(Check.relative(
                    "ROT-08 turbulent Re " + row[0],
                    "moment coefficient of a free disc, both faces",
                    FREE_DISC,
                    Label.PUBLISHED,
                    row[1],
                    () -> DiscFriction.free(row[0]),
                    1e-3,
                    "1",
                    Kind.VERIFICATION));
        }
        double speed = 36000 * 2 * Math.PI / 60;
        derived(
                checks,
                "ROT-09 power",
                "windage of both faces, gas 5 kg/m3, 3e-5 Pa s, a 0.1 m, 36 000 rpm, s/a 0.1",
                "Cm of regime IV, P = Cm rho w^3 a^5 / 2",
                4741.30,
                () -> 2 * DiscFriction.faceTorque(0, 0.1, 0.01, speed, 5, 3e-5) * speed,
                1e-5,
                "W");
    }

    private static void swirls(List<Check> checks) {
        checks.add(Check.relative(
                "ROT core swirl",
                "core swirl ratio between a turning and a still wall without through-flow, turbulent separate layers",
                "J. M. Owen, R. H. Rogers, Flow and Heat Transfer in Rotating-Disc Systems, vol. 1, Rotor-Stator Systems, Research "
                        + "Studies Press, 1989: 0.426 by the momentum integral",
                Label.FROM_MEMORY,
                0.426,
                () -> CoreSwirl.ratio(0),
                0.06,
                "1",
                Kind.VALIDATION));
    }

    private static void vortices(List<Check> checks) {
        double swirl = 0.45 * 36500 * 2 * Math.PI / 60;
        // Adiabatic column of a perfect gas: p2/p1 = (1 + (k w)^2 (r2^2 - r1^2)/(2 cp T1))^(cp/R).
        double r1 = 0.03;
        double r2 = 0.085;
        double step = swirl * swirl * (r2 * r2 - r1 * r1) / 2;
        double expected = 1e6 * Math.pow(1 + step / (287.05 * 3.5 * 900), 3.5);
        derived(
                checks,
                "ROT vortex gas",
                "pressure at 85 mm of air at 1 MPa, 900 K at 30 mm, core at 0.45 of 36 500 rpm",
                "p2 = p1 (1 + (k w)^2 (r2^2 - r1^2)/(2 cp T1))^(cp/R)",
                expected,
                () -> {
                    double[] pure = {1};
                    return ForcedVortex.pressure(
                            new PerfectGases()
                                    .mixer(List.of(new StreamDefinition.Single("air", "air")))
                                    .mix(pure)
                                    .atPressureTemperature(1e6, 900),
                            swirl,
                            r1,
                            r2);
                },
                1e-10,
                "Pa");
        // The liquid's own compressibility raises the density by 0.3 % on the way.
        FluidState water = Engines.embedded().pure("water").atPressureTemperature(0.5e6, 300);
        derived(
                checks,
                "ROT vortex liquid",
                "pressure at 85 mm of water at 0.5 MPa, 300 K at 30 mm, core at 0.45 of 36 500 rpm",
                "p2 = p1 + rho (k w)^2 (r2^2 - r1^2)/2, rho at 30 mm",
                0.5e6 + water.density() * step,
                () -> ForcedVortex.pressure(water, swirl, r1, r2),
                3e-3,
                "Pa");
        derived(
                checks,
                "ROT vortex network",
                "the same column between a cavity's reference radius and a passage, by the network",
                "equal pressures at the passage's radius stop the flow",
                1e6,
                () -> {
                    Converged result = solve(new CaseSketch()
                            .stream("air", "air")
                                    .speed(36500 * 2 * Math.PI / 60)
                                    .fixed("rim", "air", expected, 900)
                                    .cavity("wheel space", null, Double.NaN, Double.NaN, r1, 0.45, null, null)
                                    .fixed("hub", "air", 1e6, 900)
                                    .seal("at the rim", "rim", "wheel space", "square law", r2, Double.NaN, "K", 1e-14)
                                    .seal("at the hub", "wheel space", "hub", "square law", r1, Double.NaN, "K", 1e-14)
                                    .make());
                    return result.cavities().get("wheel space").state().pressure();
                },
                1e-6,
                "Pa");
        derived(
                checks,
                "ROT windage network",
                "temperature rise of 10 g/s of air through a cavity with a disc, by the network",
                "dT = P/(m cp) with P from the cavity's own state",
                0,
                () -> {
                    Converged result = solve(new CaseSketch()
                            .stream("air", "air")
                                    .speed(3000)
                                    .fixed("in", "air", 1e6, 300)
                                    .cavity(
                                            "disc cavity",
                                            null,
                                            Double.NaN,
                                            Double.NaN,
                                            0.05,
                                            0.0,
                                            new Cavity.Disc(0.02, 0.08, 0.005),
                                            null)
                                    .fixed("out", "air", 1e5, 300)
                                    .passage("inlet", "in", "disc cavity", "fixed flow", "flow", 0.01)
                                    .passage("outlet", "disc cavity", "out", "square law", "K", 1e-13)
                                    .make());
                    SolveResult.CavityState c = result.cavities().get("disc cavity");
                    double rise = c.state().temperature() - 300;
                    double power = DiscFriction.faceTorque(
                                    0.02, 0.08, 0.005, 3000, c.state().density(), 1.85e-5)
                            * 3000;
                    return rise - power / (0.01 * 287.05 * 3.5);
                },
                1e-6,
                "K");
    }
}
