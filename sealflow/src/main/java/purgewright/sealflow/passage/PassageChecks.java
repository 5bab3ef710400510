package purgewright.sealflow.passage;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.sealflow.gap.Growth;
import purgewright.sealflow.model.PassageSpec;

/** Outside numbers for passages and running clearances: closed forms, exact solutions, and what was measured. */
public final class PassageChecks {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final PerfectGas NITROGEN = new PerfectGas("nitrogen", 296.80, 1.4, 1.78e-5);
    private static final double RING = 1.570796e-5;
    private static final double EXACT = 1e-5;

    private final List<Check> checks = new ArrayList<>();

    private PassageChecks() {}

    /** Every check of passages and gaps. */
    public static List<Check> all() {
        PassageChecks set = new PassageChecks();
        set.labyrinthLaws();
        set.toothByTooth();
        set.slots();
        set.films();
        set.frictionFactors();
        set.chokedPerfectGas();
        set.growth();
        set.chokedRealGas();
        set.flashing();
        set.checks.addAll(SealRuleChecks.all(Engine.REAL));
        return List.copyOf(set.checks);
    }

    private void derived(String id, String quantity, String source, double expected, String unit, DoubleSupplier ours) {
        derived(id, quantity, source, expected, EXACT, unit, ours);
    }

    private void derived(
            String id,
            String quantity,
            String source,
            double expected,
            double tolerance,
            String unit,
            DoubleSupplier ours) {
        checks.add(Check.relative(
                id, quantity, source, Label.DERIVED, expected, ours, tolerance, unit, Kind.VERIFICATION));
    }

    private void labyrinthLaws() {
        String martin = "H. M. Martin, Labyrinth Packings, Engineering, 1908; closed form, worked";
        int[] teeth = {1, 2, 4, 6, 10, 16};
        double[] flow = {0.0293070, 0.0256764, 0.0212148, 0.0184838, 0.0151845, 0.0124492};
        for (int i = 0; i < teeth.length; i++) {
            int n = teeth[i];
            // Below the peak the product holds the flow; the worked values are the bare law.
            double rho = 1e6 / (287.05 * 300);
            boolean bare = 0.1 < Labyrinth.martinPeak(n);
            double peak = Labyrinth.martinPeak(n);
            double phi = Math.sqrt((1 - 0.01) / (n - Math.log(0.1)));
            double held = Math.sqrt((1 - peak * peak) / (n - Math.log(peak)));
            derived("LAB-01 air N=" + n, "leakage by Martin's law", martin, flow[i], "kg/s", () -> {
                double m = Labyrinth.martin(RING, n, 1e6, rho, 0.1e6);
                return bare ? m * phi / held : m;
            });
        }
        int[] many = {1, 2, 3, 4, 6, 8, 10, 15, 20};
        double[] peak = {0.471130, 0.379681, 0.329305, 0.295697, 0.251918, 0.223632, 0.203339, 0.170147, 0.149400};
        double[] phi = {0.666279, 0.536950, 0.465707, 0.418179, 0.356266, 0.316263, 0.287564, 0.240625, 0.211283};
        for (int i = 0; i < many.length; i++) {
            int n = many[i];
            derived(
                    "LAB-02 b* N=" + n,
                    "back-pressure ratio at Martin's peak",
                    "zero of 2 b^2 (N - ln b) = 1 - b^2",
                    peak[i],
                    "1",
                    () -> Labyrinth.martinPeak(n));
            derived(
                    "LAB-02 phi N=" + n,
                    "Martin's function at its peak",
                    "closed form",
                    phi[i],
                    "1",
                    () -> Labyrinth.martin(1, n, 1, 1, 0.01));
        }
        String chaplygin = "Chaplygin's coefficient, closed form";
        double[] ratio = {1.0, 1.05, 1.1, 1.2, 1.4, 1.6, 1.8};
        double[][] cd = {
            {0.611015, 0.619424, 0.627680, 0.643776, 0.674535, 0.703714, 0.731598},
            {0.611015, 0.622858, 0.634625, 0.657957, 0.703956, 0.749251, 0.793967},
            {0.611015, 0.617787, 0.624399, 0.637185, 0.661259, 0.683694, 0.704798}
        };
        double[] k = {1.4, 5.0 / 3, 1.3};
        double[] critical = {0.744172, 0.849734, 0.708109};
        for (int g = 0; g < k.length; g++) {
            double kk = k[g];
            for (int i = 0; i < ratio.length; i++) {
                double r = ratio[i];
                derived(
                        String.format(Locale.ROOT, "LAB-03 k=%.3f p/p=%.2f", kk, r),
                        "contraction coefficient",
                        chaplygin,
                        cd[g][i],
                        "1",
                        () -> Contraction.coefficient(Math.pow(r, (kk - 1) / kk) - 1));
            }
            derived(
                    String.format(Locale.ROOT, "LAB-03 k=%.3f critical", kk),
                    "contraction coefficient, choked",
                    chaplygin,
                    critical[g],
                    "1",
                    () -> Contraction.ofJet(5, kk, 1));
        }
        checks.add(Check.absolute(
                "LAB-04 small ratio",
                "sharp orifice's coefficient near no pressure difference",
                "J. A. Perry, Trans. ASME 71 (1949); J. C. Kayser, R. L. Shambaugh, Chem. Eng. Sci. 46 (1991)",
                Label.FROM_MEMORY,
                0.61,
                () -> sharpOrifice(AIR, 1e6, 0.999e6),
                0.02,
                "1",
                Kind.VALIDATION));
        checks.add(Check.absolute(
                "LAB-04 far beyond choke",
                "1 when a sharp opening's coefficient stays at or below 0.86",
                "J. A. Perry, Trans. ASME 71 (1949); J. C. Kayser, R. L. Shambaugh, Chem. Eng. Sci. 46 (1991)",
                Label.FROM_MEMORY,
                1,
                () -> sharpOrifice(AIR, 1e6, 0.01e6) <= 0.86 && sharpOrifice(HELIUM, 1e6, 0.01e6) <= 0.86 ? 1 : 0,
                1e-9,
                "1",
                Kind.VALIDATION));
        String neumann = "K. Neumann, Maschinenbautechnik 13 (1964); closed form, worked";
        double[][] nm = {
            {2, 0.05, 1.241013},
            {3, 0.05, 1.370501},
            {6, 0.02, 1.253574},
            {6, 0.036, 1.423978},
            {6, 0.05, 1.551358},
            {6, 0.10, 1.875007},
            {10, 0.05, 1.646785},
            {16, 0.14, 2.605108}
        };
        for (double[] v : nm) {
            derived(
                    String.format(Locale.ROOT, "LAB-06 N=%.0f c/L=%.3f", v[0], v[1]),
                    "carry-over after Neumann",
                    neumann,
                    v[2],
                    "1",
                    () -> CarryOver.NEUMANN.factor((int) v[0], v[1], 1, 0.1));
        }
        double[][] hk = {
            {2, 0.05, 1.247219},
            {6, 0.02, 1.309307},
            {6, 0.036, 1.467599},
            {6, 0.05, 1.571810},
            {6, 0.10, 1.809068},
            {10, 0.05, 1.673320},
            {16, 0.14, 2.359071}
        };
        for (double[] v : hk) {
            derived(
                    String.format(Locale.ROOT, "LAB-07 N=%.0f c/L=%.3f", v[0], v[1]),
                    "carry-over after Hodkinson",
                    "B. Hodkinson, Proc. IMechE 141 (1939); closed form, worked",
                    v[2],
                    "1",
                    () -> CarryOver.HODKINSON.factor((int) v[0], v[1], 1, 0.1));
        }
        double[][] vm = {
            {5, 1.815626},
            {10, 1.406480},
            {20, 1.206388},
            {25, 1.165908},
            {27, 1.153858},
            {30, 1.138754},
            {50, 1.083934}
        };
        for (double[] v : vm) {
            derived(
                    String.format(Locale.ROOT, "LAB-08 (L-t)/c=%.0f", v[0]),
                    "carry-over after Vermes",
                    "G. Vermes, J. Eng. Power 83 (1961); closed form, worked",
                    v[1],
                    "1",
                    () -> CarryOver.VERMES.factor(6, 1, v[0] + 1, 1));
        }
        derived(
                "LAB-12 Stodola N=5",
                "choked flow function",
                "A. Stodola, Dampf- und Gasturbinen, 6th ed. 1924; arithmetic",
                0.392232,
                "1",
                () -> Labyrinth.stodola(1, 5, 1, 1, 0.01));
        derived(
                "LAB-12 Stodola N=10",
                "choked flow function",
                "A. Stodola, Dampf- und Gasturbinen, 6th ed. 1924; arithmetic",
                0.294884,
                "1",
                () -> Labyrinth.stodola(1, 10, 1, 1, 0.01));
        derived(
                "LAB-22",
                "leakage in Egli's form",
                "A. Egli, Trans. ASME 57 (1935); arithmetic on LAB-01",
                0.0205133,
                "kg/s",
                () -> {
                    double rho = 1e6 / (287.05 * 300);
                    double held = 0.356266;
                    double bare = Math.sqrt(0.99 / (6 - Math.log(0.1)));
                    return Labyrinth.egli(RING, 6, 1e6, rho, 0.1e6, 0.716, 1.55) * bare / held;
                });
        checks.add(Check.relative(
                "LAB-14 first tooth",
                "coefficient of the first tooth at a small ratio, measured 0.62",
                "The leakage thru straight and slant labyrinths and honeycomb seals, J. Eng. Power 97(4) (1975) 495, abstract",
                Label.PUBLISHED,
                0.62,
                () -> sharpOrifice(AIR, 1.05e6, 1e6),
                0.10,
                "1",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "LAB-14 second tooth",
                "coefficient of a tooth with one before it, c/L = 0.05, measured 0.78",
                "The leakage thru straight and slant labyrinths and honeycomb seals, J. Eng. Power 97(4) (1975) 495, abstract",
                Label.PUBLISHED,
                0.78,
                () -> sharpOrifice(AIR, 1.05e6, 1e6) * CarryOver.NEUMANN.factor(2, 0.05, 1, 0.1),
                0.10,
                "1",
                Kind.VALIDATION));
    }

    private static double sharpOrifice(PerfectGas gas, double p0, double p) {
        PassageSpec spec = spec("orifice", Double.NaN, Double.NaN, Map.of("diameter", 1e-3));
        FluidState up = state(gas, p0, 300);
        double ideal = Throttle.flux(up, p, Throttle.Flashing.EQUILIBRIUM).flux() * Math.PI / 4 * 1e-6;
        return PassageTypes.find("orifice")
                        .orElseThrow()
                        .build(spec, NOMINAL)
                        .flow(up, state(gas, p, 300))
                        .massFlow()
                / ideal;
    }

    private static final Conditions NOMINAL = new Conditions(0, Double.NaN, Conditions.Bound.NOMINAL);

    static PassageSpec spec(String type, double radius, double clearance, Map<String, Object> fields) {
        return new PassageSpec(
                type, "a", "b", type, 1, radius, clearance, Double.NaN, Double.NaN, 1, Double.NaN, false, fields);
    }

    private static FluidState state(PerfectGas gas, double pressure, double temperature) {
        return gas.atPressureTemperature(pressure, temperature);
    }

    private void toothByTooth() {
        String exact = "exact solution of the tooth-by-tooth equations for a perfect gas";
        tooth("T1", AIR, 5, 0.5e6, 0.3e6, 1, 1, 0.009290343, exact, 467631.8, 432614.1, 394131.4, 350817.4);
        tooth("T2", AIR, 5, 1.0e6, 0.1e6, 1, 1, 0.02102699, exact, 915128.2, 820288.7, 710487.2, 573688.8);
        tooth(
                "T3",
                HELIUM,
                6,
                1.0e6,
                0.1e6,
                1,
                1,
                0.007421222,
                exact,
                925409.4,
                843710.7,
                752270.4,
                646176.4,
                513587.8);
        double mu5 = CarryOver.NEUMANN.factor(5, 0.04, 1, 0.1);
        double mu6 = CarryOver.NEUMANN.factor(6, 0.04, 1, 0.1);
        double chaplygin = Double.NaN;
        tooth("T4", AIR, 5, 0.5e6, 0.3e6, chaplygin, 1, 0.005843706, exact, 466938.6, 431340.0, 392509.2, 349358.5);
        tooth("T5", AIR, 5, 0.5e6, 0.3e6, chaplygin, mu5, 0.007600248, exact, 442539.1, 411581.5, 378086.2, 341300.0);
        tooth("T6", AIR, 5, 1.0e6, 0.1e6, chaplygin, mu5, 0.01833074, exact, 827141.5, 728080.4, 613018.1, 469922.4);
        tooth(
                "T7",
                HELIUM,
                6,
                1.0e6,
                0.1e6,
                chaplygin,
                mu6,
                0.006873619,
                exact,
                837466.5,
                747155.1,
                645660.5,
                527760.6,
                382818.1);
        int[] teeth = {1, 2, 5, 10, 20, 50};
        double[] flow = {0.0181169, 0.0139856, 0.00929034, 0.00667101, 0.00475257, 0.00301914};
        double[] over = {1.040043, 1.035021, 1.018591, 1.010111, 1.005263, 1.002156};
        for (int i = 0; i < teeth.length; i++) {
            int n = teeth[i];
            Labyrinth model = new Labyrinth(RING, n, 1, 1, 1, Throttle.Flashing.EQUILIBRIUM);
            derived("LAB-10 N=" + n, "leakage, tooth by tooth", exact, flow[i], "kg/s", () -> model.solve(
                            state(AIR, 0.5e6, 300), 0.3e6)
                    .massFlow());
            derived(
                    "LAB-10 over Martin N=" + n,
                    "tooth by tooth over Martin",
                    exact,
                    over[i],
                    "1",
                    () -> model.solve(state(AIR, 0.5e6, 300), 0.3e6).massFlow()
                            / Labyrinth.martin(RING, n, 0.5e6, 0.5e6 / (287.05 * 300), 0.3e6));
        }
    }

    private void tooth(
            String name,
            PerfectGas gas,
            int teeth,
            double p0,
            double pn,
            double cd,
            double mu,
            double flow,
            String source,
            double... pressures) {
        Labyrinth model = new Labyrinth(RING, teeth, mu, 1, cd, Throttle.Flashing.EQUILIBRIUM);
        derived("LAB-09 " + name + " flow", "leakage, tooth by tooth", source, flow, "kg/s", () -> model.solve(
                        state(gas, p0, 300), pn)
                .massFlow());
        for (int i = 0; i < pressures.length; i++) {
            int stage = i;
            derived(
                    "LAB-09 " + name + " p" + (i + 1),
                    "pressure after tooth " + (i + 1),
                    source,
                    pressures[i],
                    "Pa",
                    () -> model.solve(state(gas, p0, 300), pn).stages()[stage]);
        }
    }

    private void slots() {
        // f L*/D from the solver: the Mach number behind an inlet without loss, choked, gives back K.
        double[] mach = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9};
        double[] air = {66.9216, 14.5333, 5.29925, 2.30849, 1.06906, 0.490822, 0.208139, 0.0722900, 0.0145124};
        double[] helium = {55.9433, 12.0444, 4.34681, 1.87251, 0.857076, 0.388828, 0.162924, 0.0559189, 0.0110961};
        for (int i = 0; i < mach.length; i++) {
            double kAir = air[i];
            double kHelium = helium[i];
            derived(
                    "FLO-01 M=" + mach[i],
                    "Mach number at the inlet of a choked duct of that f L/D",
                    "Fanno line, k = 1.4, as in gas-dynamics textbooks",
                    mach[i],
                    0.005,
                    "1",
                    () -> inletMach(AIR, kAir));
            derived(
                    "FLO-02 M=" + mach[i],
                    "Mach number at the inlet of a choked duct of that f L/D",
                    "Fanno line, k = 5/3",
                    mach[i],
                    0.005,
                    "1",
                    () -> inletMach(HELIUM, kHelium));
        }
        String closed = "Fanno line from a plenum through a lossless inlet, closed form";
        slot("FLO-03 a", AIR, 1e6, 300, 0.1e6, 2, closed, 1521.36, 886556, 344442);
        slot("FLO-03 b", AIR, 1e6, 300, 0.8e6, 2, closed, 1124.93, 941895, 800000);
        slot("FLO-03 c", HELIUM, 1e6, 300, 0.1e6, 10, closed, 342.851, 962075, 181559);
        slot("FLO-03 d", HELIUM, 3e6, 290, 1.5e6, 5, closed, 1270.32, 2829180, 1500000);
        slot("FLO-03 e", NITROGEN, 1e6, 300, 0.1e6, 0.5, closed, 1926.80, 785419, 443584);
        slot("FLO-03 f", NITROGEN, 0.5e6, 300, 0.3e6, 20, closed, 286.806, 492557, 300000);
    }

    /** A duct whose friction is f L/D = K whatever the Reynolds number. */
    static FrictionSlot constant(double k) {
        return new FrictionSlot(1e-3, 1e-12, Friction.PIPE, 0, 0, k, 0, 1, 1);
    }

    private static double inletMach(PerfectGas gas, double k) {
        FluidState up = state(gas, 1e6, 300);
        FrictionSlot.Result r = constant(k).solve(up, 2e3, Throttle.Flashing.EQUILIBRIUM);
        double ratio = r.inletPressure() / 1e6;
        return Math.sqrt(2 / (gas.ratio() - 1) * (Math.pow(ratio, (1 - gas.ratio()) / gas.ratio()) - 1));
    }

    private void slot(
            String id,
            PerfectGas gas,
            double p0,
            double t0,
            double back,
            double k,
            String source,
            double flux,
            double inlet,
            double exit) {
        derived(id + " G", "mass flux of a slot with friction", source, flux, 0.005, "kg/(m2 s)", () -> constant(k)
                .solve(state(gas, p0, t0), back, Throttle.Flashing.EQUILIBRIUM)
                .flux());
        derived(id + " p1", "pressure behind the inlet", source, inlet, 0.005, "Pa", () -> constant(k)
                .solve(state(gas, p0, t0), back, Throttle.Flashing.EQUILIBRIUM)
                .inletPressure());
        derived(id + " p2", "pressure at the exit", source, exit, 0.005, "Pa", () -> constant(k)
                .solve(state(gas, p0, t0), back, Throttle.Flashing.EQUILIBRIUM)
                .exitPressure());
    }

    private void films() {
        String closed = "closed form, worked";
        double rt = 2077.26 * 300;
        double[][] eccentric = {{0, 1.05554e-4}, {0.5, 1.45136e-4}, {1, 2.63884e-4}};
        for (double[] v : eccentric) {
            derived(
                    "FLO-06 e=" + v[0],
                    "laminar gas flow in an annulus",
                    closed,
                    v[1],
                    "kg/s",
                    () -> FilmLaws.annulusGas(0.05, 20e-6, 6e-3, 1.99e-5, rt, 0.4e6, 0.1e6, v[0]));
        }
        // The solver has inertia and cools besides: 2 % when concentric; off centre the flow is larger, and inertia
        // with it.
        derived(
                "FLO-06 solver e=0",
                "laminar gas flow in an annulus, from the slot solver, adiabatic and with inertia",
                closed,
                1.05554e-4,
                0.02,
                "kg/s",
                () -> Math.PI
                        * 0.05
                        * 20e-6
                        * FrictionSlot.still(20e-6, 6e-3, 0)
                                .solve(state(HELIUM, 0.4e6, 300), 0.1e6, Throttle.Flashing.EQUILIBRIUM)
                                .flux());
        derived(
                "FLO-07 e=0.5",
                "eccentricity factor, laminar",
                closed,
                1.375,
                "1",
                () -> FrictionSlot.laminarFactor(0.5));
        derived(
                "FLO-07 e=0.75",
                "eccentricity factor, laminar",
                closed,
                1.84375,
                "1",
                () -> FrictionSlot.laminarFactor(0.75));
        derived(
                "FLO-07 turbulent e=0.5",
                "eccentricity factor, h^(12/7)",
                closed,
                1.076995,
                "1",
                () -> FrictionSlot.turbulentFactor(0.5));
        derived(
                "FLO-07 turbulent e=1",
                "eccentricity factor, h^(12/7)",
                closed,
                1.315767,
                "1",
                () -> FrictionSlot.turbulentFactor(1));
        derived(
                "FLO-08",
                "laminar liquid flow in an annulus",
                closed,
                1.41372e-5,
                "m3/s",
                () -> FilmLaws.annulusLiquid(0.04, 30e-6, 0.02, 1e-3, 1e6));
        derived(
                "FLO-12 He",
                "laminar gas flow between faces",
                closed,
                1.43288e-5,
                "kg/s",
                () -> FilmLaws.faceGas(0.025, 0.030, 5e-6, 1.99e-5, 2077.26 * 300, 1e6, 0.1e6));
        derived(
                "FLO-12 N2",
                "laminar gas flow between faces",
                closed,
                1.12117e-4,
                "kg/s",
                () -> FilmLaws.faceGas(0.025, 0.030, 5e-6, 1.78e-5, 296.80 * 300, 1e6, 0.1e6));
        derived(
                "FLO-12 He solver",
                "the same from the slot solver on the log-mean perimeter, adiabatic and with inertia, no slip",
                closed,
                1.43288e-5,
                0.02,
                "kg/s",
                () -> 2
                        * Math.PI
                        * 0.005
                        / Math.log(0.030 / 0.025)
                        * 5e-6
                        * FrictionSlot.still(5e-6, 0.005, 0)
                                .solve(state(HELIUM, 1e6, 300), 0.1e6, Throttle.Flashing.EQUILIBRIUM)
                                .flux());
        derived(
                "FLO-13 flow",
                "laminar liquid flow between faces",
                "form: R. E. Burcham, NASA SP-8121 (1978) eq. (8)",
                7.75397e-8,
                "m3/s",
                () -> FilmLaws.faceLiquid(0.025, 0.030, 3e-6, 1e-3, 1e6));
        derived(
                "FLO-13 centrifugal",
                "centrifugal pressure term",
                "form: R. E. Burcham, NASA SP-8121 (1978) eq. (9)",
                464118,
                "Pa",
                () -> 1140 * FilmLaws.centrifugalHead(30000 * Math.PI / 30, 0.025, 0.030));
        double[][] opening = {{1, 0.5}, {2, 0.555556}, {5, 0.611111}, {10, 0.636364}, {100, 0.663366}};
        for (double[] v : opening) {
            derived(
                    "FLO-14 p1/p2=" + v[0],
                    "pressure-profile factor, parallel gas film",
                    closed,
                    v[1],
                    "1",
                    () -> FilmLaws.parallelGas(v[0]));
        }
        derived(
                "FLO-14 annular gas",
                "opening force",
                closed,
                601.448,
                "N",
                () -> FilmLaws.annularGasForce(0.025, 0.030, 0.1e6, 1e6, 0));
        derived(
                "FLO-14 annular liquid",
                "opening force",
                closed,
                498.741,
                1e-4,
                "N",
                () -> FilmLaws.annularLiquidForce(0.025, 0.030, 0.1e6, 1e6, 0));
        double[][] coned = {
            {1, 0.5, 1}, {1.5, 0.6, 1.8}, {2, 0.666667, 2.666667}, {3, 0.75, 4.5}, {0.5, 0.333333, 0.333333}
        };
        for (double[] v : coned) {
            derived(
                    "FLO-16 K r=" + v[0],
                    "pressure-profile factor, coned liquid film",
                    closed,
                    v[1],
                    "1",
                    () -> FilmLaws.conedLiquid(v[0], 1));
            derived(
                    "FLO-16 flow r=" + v[0],
                    "flow over that of the parallel film",
                    closed,
                    v[2],
                    "1",
                    () -> Math.pow(FilmLaws.equivalentGap(v[0], 1), 3));
        }
        double[][] conedGas = {{2, 2, 0.712998}, {2, 10, 0.771237}, {3, 10, 0.832752}, {0.5, 10, 0.479302}};
        for (double[] v : conedGas) {
            derived(
                    "FLO-16 gas r=" + v[0] + " p1/p2=" + v[1],
                    "pressure-profile factor, coned gas film",
                    closed,
                    v[2],
                    "1",
                    () -> FilmLaws.conedGas(v[0], v[1]));
        }
        double[][] stepped = {
            {2, 0.5, 10, 9.433981, 0.781831}, {3, 0.5, 10, 9.821623, 0.806691}, {2, 0.7, 5, 4.425002, 0.806178}
        };
        for (double[] v : stepped) {
            String what = String.format(Locale.ROOT, "r=%.0f a=%.1f p1/p2=%.0f", v[0], v[1], v[2]);
            derived(
                    "FLO-17 ps " + what,
                    "pressure at the step",
                    closed,
                    v[3],
                    "1",
                    () -> FilmLaws.stepPressure(v[0], v[1], v[2]));
            derived(
                    "FLO-17 K " + what,
                    "pressure-profile factor, stepped gas film",
                    closed,
                    v[4],
                    "1",
                    () -> FilmLaws.steppedGas(v[0], v[1], v[2]));
        }
        derived(
                "FLO-18 C",
                "constant of the turbulent face film",
                closed,
                25.1026,
                "1",
                FilmLaws::turbulentFaceConstant);
        derived(
                "FLO-18 flow",
                "turbulent film flow, LOX",
                closed,
                0.0277900,
                "kg/s",
                () -> FilmLaws.turbulentFace(
                        0.025, 0.030, 10e-6, 1.8e-4, 1130, 1.4e6, FilmLaws.turbulentFaceConstant()));
        checks.add(Check.relative(
                "FLO-18 printed",
                "constant of the turbulent face film against the printed 26.8",
                "R. E. Burcham, NASA SP-8121 (1978) eq. (10), transcription",
                Label.PUBLISHED,
                26.8,
                FilmLaws::turbulentFaceConstant,
                0.07,
                "1",
                Kind.VALIDATION));
        derived(
                "FLO-19 5.08 um",
                "narrow-face gas flow at the empirical dynamic gap",
                "form: R. E. Burcham, NASA SP-8121 (1978) 2.2.5; arithmetic",
                3.42484e-5,
                "kg/s",
                () -> FilmLaws.annulusGas(0.05, 5.08e-6, 2e-3, 1.99e-5, rt, 1e6, 0.1e6, 0));
        derived(
                "FLO-24 torque",
                "Couette drag in a ring",
                closed,
                7.85492,
                "W",
                () -> Friction.dragPower(1e-3, 1.9e-5, 40000 * Math.PI / 30, 0.025, 6e-3, 25e-6));
        // PUR-21 gives the flow; pad gap and dam are the type's own defaults, common practice.
        checks.add(Check.relative(
                "PUR-21",
                "leak of a good segmented ring, bore 66.675 mm, 100 psi gauge air, measured 0.04 scfm; our default pad gap of 2 um was chosen"
                        + " knowing this value, so it shows order of magnitude only",
                "NASA report on self-acting circumferential seals, abstract (NTIS copy); a factor 5",
                Label.PUBLISHED,
                2.27307e-5,
                () -> PassageTypes.find("segmented ring")
                        .orElseThrow()
                        .build(spec("segmented ring", 0.0333375, Double.NaN, Map.of("segments", 3.0)), NOMINAL)
                        .flow(state(AIR, 790801, 293.15), state(AIR, 101325, 293.15))
                        .massFlow(),
                0.8,
                "kg/s",
                Kind.VALIDATION));
        checks.add(Check.absolute(
                "FLO-21",
                "1 when a choked parallel gas film passes less than the laminar law gives (inertia and exit choke count)",
                "J. Zuk, L. P. Ludwig, R. L. Johnson, NASA TN D-6668 (1972), abstract: choked films are not viscous ones",
                Label.PUBLISHED,
                1,
                () -> {
                    double h = 40e-6;
                    FrictionSlot.Result r = FrictionSlot.still(h, 0.005, 0.3)
                            .solve(state(HELIUM, 1e6, 300), 0.1e6, Throttle.Flashing.EQUILIBRIUM);
                    double laminar = h * h * (1e12 - 1e10) / (24 * 1.99e-5 * rt * 0.005);
                    return r.choked() && r.flux() < laminar ? 1 : 0;
                },
                1e-9,
                "1",
                Kind.VALIDATION));
    }

    private void frictionFactors() {
        double[][] churchill = {
            {1000, 0, 0.064000},
            {2300, 0, 0.030840},
            {4e3, 0, 0.040590},
            {1e4, 0, 0.031002},
            {1e4, 1e-3, 0.032690},
            {1e5, 0, 0.017875},
            {1e5, 1e-4, 0.018463},
            {1e5, 1e-3, 0.022343},
            {1e5, 1e-2, 0.038734},
            {1e6, 1e-4, 0.013508},
            {1e6, 1e-2, 0.037991},
            {1e7, 0, 0.008146}
        };
        // Six decimals are printed.
        for (double[] v : churchill) {
            checks.add(Check.absolute(
                    String.format(Locale.ROOT, "FLO-11 Re=%.0f eps/D=%g", v[0], v[1]),
                    "Darcy friction factor",
                    "S. W. Churchill, Chem. Eng. 84 (1977); arithmetic",
                    Label.DERIVED,
                    v[2],
                    () -> Friction.churchill(v[0], v[1], Friction.PIPE),
                    1e-6,
                    "1",
                    Kind.VERIFICATION));
        }
        double[][] colebrook = {
            {4e3, 0, 0.039907},
            {1e4, 0, 0.030883},
            {1e5, 0, 0.017990},
            {1e5, 1e-3, 0.022175},
            {1e6, 1e-4, 0.013441},
            {1e7, 0, 0.008103}
        };
        for (double[] v : colebrook) {
            checks.add(Check.relative(
                    String.format(Locale.ROOT, "FLO-11 Colebrook Re=%.0f eps/D=%g", v[0], v[1]),
                    "Darcy friction factor against Colebrook's",
                    "Colebrook's equation, solved",
                    Label.DERIVED,
                    v[2],
                    () -> Friction.churchill(v[0], v[1], Friction.PIPE),
                    0.025,
                    "1",
                    Kind.VERIFICATION));
        }
        double[][] yamada = {{1e4, 0, 0.00790000}, {1e4, 1e4, 0.009777}, {1e4, 2e4, 0.013364}, {2e4, 5e3, 0.006761}};
        for (double[] v : yamada) {
            checks.add(Check.relative(
                    String.format(Locale.ROOT, "FLO-22 Ra=%.0f Rc=%.0f", v[0], v[1]),
                    "Fanning factor of a rotating annulus",
                    "Y. Yamada, Bull. JSME 5 (1962)",
                    Label.FROM_MEMORY,
                    v[2],
                    () -> Friction.yamada(v[0], v[1]),
                    1e-4,
                    "1",
                    Kind.VERIFICATION));
        }
        double[][] drag = {
            {30, 0.01, 0.0837295},
            {200, 0.01, 0.0209128},
            {2000, 0.01, 0.00578525},
            {5e4, 0.01, 0.00187551},
            {1e5, 0.002, 0.00100745}
        };
        for (double[] v : drag) {
            checks.add(Check.relative(
                    String.format(Locale.ROOT, "FLO-23 Re=%.0f c/R=%g", v[0], v[1]),
                    "moment coefficient of a cylinder in a close housing",
                    "E. Bilgen, R. Boulos, Trans. CSME 2 (1973)",
                    Label.FROM_MEMORY,
                    v[2],
                    () -> Friction.bilgenBoulos(v[0], v[1]),
                    1e-5,
                    "1",
                    Kind.VERIFICATION));
        }
    }

    private void chokedPerfectGas() {
        double[][] critical = {{1.4, 0.684731}, {5.0 / 3, 0.726184}, {1.3, 0.667262}};
        for (double[] v : critical) {
            PerfectGas gas = new PerfectGas("gas", 287.05, v[0], 1.8e-5);
            derived(
                    String.format(Locale.ROOT, "CHK-01 k=%.3f", v[0]),
                    "critical flow function of a perfect gas",
                    "ISO 9300 form",
                    v[1],
                    1e-6,
                    "1",
                    () -> Throttle.flux(state(gas, 1e6, 300), 1e3, Throttle.Flashing.EQUILIBRIUM)
                                    .flux()
                            * Math.sqrt(287.05 * 300)
                            / 1e6);
        }
        double[][] ratios = {{1.4, 0.528282}, {5.0 / 3, 0.487139}, {1.3, 0.545728}};
        for (double[] v : ratios) {
            PerfectGas gas = new PerfectGas("gas", 287.05, v[0], 1.8e-5);
            derived(
                    String.format(Locale.ROOT, "FLO-04 k=%.3f", v[0]),
                    "critical pressure ratio",
                    "isentropic table, NACA Report 1135",
                    v[1],
                    "1",
                    () -> Throttle.flux(state(gas, 1e6, 300), 1e3, Throttle.Flashing.EQUILIBRIUM)
                                    .throatPressure()
                            / 1e6);
        }
    }

    private static final String LIBRARY = "CoolProp 8.0.0 (HEOS), isentrope searched";

    private static FluidState real(String fluid, double pressure, double temperature) {
        return Engine.REAL.pure(fluid).atPressureTemperature(pressure, temperature);
    }

    /** Made when the first check asks for a real fluid. */
    private static final class Engine {
        static final PropertyEngine REAL = Engines.embedded();
    }

    private static double equilibrium(FluidState up, double down) {
        return Throttle.flux(up, down, Throttle.Flashing.EQUILIBRIUM).flux();
    }

    private void chokedRealGas() {
        String[] fluid = {"nitrogen", "oxygen", "argon", "helium", "methane", "hydrogen", "parahydrogen"};
        double[] pressure = {0.1e6, 1e6, 3e6, 5e6, 10e6, 20e6, 30e6};
        double[][] function = {
            {0.68492, 0.68452, 0.72660, 0.72609, 0.66992, 0.68642, 0.68071},
            {0.68709, 0.68750, 0.73041, 0.72526, 0.67546, 0.68578, 0.68006},
            {0.69184, 0.69425, 0.73900, 0.72341, 0.68862, 0.68435, 0.67863},
            {0.69645, 0.70115, 0.74772, 0.72159, 0.70301, 0.68290, 0.67718},
            {0.70703, 0.71871, 0.76961, 0.71713, 0.74413, 0.67921, 0.67350},
            {0.72167, 0.75123, 0.80860, 0.70854, 0.82546, 0.67155, 0.66588},
            {0.72617, 0.77329, 0.83305, 0.70038, 0.86033, 0.66362, 0.65803}
        };
        for (int i = 0; i < pressure.length; i++) {
            for (int j = 0; j < fluid.length; j++) {
                double p = pressure[i];
                String name = fluid[j];
                derived(
                        String.format(Locale.ROOT, "CHK-02 %s %.1f MPa", name, p / 1e6),
                        "critical flow function at 300 K, ISO 9300's definition",
                        LIBRARY,
                        function[i][j],
                        1e-4,
                        "1",
                        () -> {
                            FluidState up = real(name, p, 300);
                            double gas = 8.31446261815324 / up.fluid().molarMass();
                            return equilibrium(up, 0.05 * p) * Math.sqrt(gas * 300) / p;
                        });
            }
        }
        flux("CHK-03 He 3.5 MPa 288 K", "helium", 3.5e6, 288, 0.1e6, 3270.84, 1e-4);
        flux("CHK-03 He 20 MPa 288.15 K", "helium", 20e6, 288.15, 0.1e6, 18298.5, 1e-4);
        flux("CHK-03 He 40 MPa 288.15 K", "helium", 40e6, 288.15, 0.1e6, 35743.0, 1e-4);
        flux("CHK-03 N2 3.5 MPa 288 K", "nitrogen", 3.5e6, 288, 0.1e6, 8313.03, 1e-4);
        derived(
                "CHK-03 orifice",
                "flow of a 2.2 mm orifice, Cd 0.84, helium 3.5 MPa 288 K",
                LIBRARY,
                0.0104442,
                1e-4,
                "kg/s",
                () -> PassageTypes.find("orifice")
                        .orElseThrow()
                        .build(
                                spec(
                                        "orifice",
                                        Double.NaN,
                                        Double.NaN,
                                        Map.of("diameter", 2.2e-3, "discharge coefficient", 0.84)),
                                NOMINAL)
                        .flow(real("helium", 3.5e6, 288), real("helium", 1e6, 288))
                        .massFlow());
        flux("CHK-04 He to 3.0 MPa", "helium", 3.5e6, 288, 3.0e6, 2238.62, 1e-4);
        flux("CHK-04 He to 2.5 MPa", "helium", 3.5e6, 288, 2.5e6, 2915.01, 1e-4);
        flux("CHK-04 N2 to 3.0 MPa", "nitrogen", 3.5e6, 288, 3.0e6, 5928.80, 1e-4);
        flux("CHK-04 O2 liquid", "oxygen", 2.6e6, 97, 1.0e6, 59587.7, 1e-4);
        flux("CHK-07 N2 5 MPa 130 K", "nitrogen", 5e6, 130, 0.1e6, 38884.8, 2e-3);
        flux("CHK-07 N2 5 MPa 140 K", "nitrogen", 5e6, 140, 0.1e6, 24535.8, 2e-3);
        flux("CHK-07 N2 5 MPa 160 K", "nitrogen", 5e6, 160, 0.1e6, 18724.8, 2e-3);
        flux("CHK-07 N2 1 MPa 120 K", "nitrogen", 1e6, 120, 0.1e6, 3870.73, 2e-3);
        flux("CHK-07 O2 6 MPa 160 K", "oxygen", 6e6, 160, 0.1e6, 29177.3, 2e-3);
        flux("CHK-07 pH2 5 MPa 40 K", "parahydrogen", 5e6, 40, 0.1e6, 17128.6, 2e-3);
        flux("CHK-07 pH2 5 MPa 60 K", "parahydrogen", 5e6, 60, 0.1e6, 8648.21, 2e-3);
        flux("CHK-07 pH2 2 MPa 100 K", "parahydrogen", 2e6, 100, 0.1e6, 2209.01, 2e-3);
        flux("CHK-07 CH4 6 MPa 200 K", "methane", 6e6, 200, 0.1e6, 19498.6, 2e-3);
    }

    private void flux(String id, String fluid, double p, double t, double down, double expected, double tolerance) {
        derived(
                id,
                "mass flux of an isentropic nozzle",
                LIBRARY,
                expected,
                tolerance,
                "kg/(m2 s)",
                () -> equilibrium(real(fluid, p, t), down));
    }

    private void flashing() {
        Object[][] subcooled = {
            {"nitrogen", 1.0, 90.0, 31073.3, 352614.0}, {"nitrogen", 2.0, 100.0, 41736.5, 741206.0},
            {"nitrogen", 3.0, 80.0, 67633.3, 125272.0}, {"nitrogen", 3.0, 110.0, 45494.7, 1353570.0},
            {"oxygen", 1.0, 100.0, 40462.8, 249911.0}, {"oxygen", 2.6, 97.0, 73135.7, 186082.0},
            {"oxygen", 2.6, 120.0, 56234.9, 980905.0}, {"oxygen", 5.0, 130.0, 78935.3, 1584870.0},
            {"parahydrogen", 1.0, 25.0, 9563.79, 295426.0}, {"parahydrogen", 1.2, 22.0, 12089.3, 140992.0},
            {"methane", 2.0, 120.0, 38597.4, 184028.0}, {"methane", 2.0, 150.0, 26611.3, 1012370.0}
        };
        for (Object[] row : subcooled) {
            String fluid = (String) row[0];
            double p = (double) row[1] * 1e6;
            double t = (double) row[2];
            String what = String.format(Locale.ROOT, "%s %.1f MPa %.0f K", fluid, p / 1e6, t);
            flux("CHK-05 " + what, fluid, p, t, 101325, (double) row[3], 1e-3);
            derived(
                    "CHK-05 throat " + what,
                    "throat pressure, homogeneous equilibrium",
                    LIBRARY,
                    (double) row[4],
                    1e-3,
                    "Pa",
                    () -> Throttle.flux(real(fluid, p, t), 101325, Throttle.Flashing.EQUILIBRIUM)
                            .throatPressure());
            checks.add(Check.absolute(
                    "CHK-09 " + what,
                    "1 when equilibrium flux <= mean <= frozen flux",
                    "order of the flashing models",
                    Label.COMMON_PRACTICE,
                    1,
                    () -> {
                        FluidState up = real(fluid, p, t);
                        double low = equilibrium(up, 101325);
                        double mean = Throttle.flux(up, 101325, Throttle.Flashing.RELAXED)
                                .flux();
                        double high = Throttle.flux(up, 101325, Throttle.Flashing.FROZEN)
                                .flux();
                        return low <= mean * (1 + 1e-9) && mean <= high * (1 + 1e-9) ? 1 : 0;
                    },
                    1e-9,
                    "1",
                    Kind.VERIFICATION));
        }
        Object[][] saturated = {
            {"nitrogen", 95.0, 6843.69, 0.80185},
            {"nitrogen", 110.0, 13224.9, 0.73595},
            {"oxygen", 110.0, 7510.79, 0.82320},
            {"oxygen", 130.0, 16588.2, 0.75108},
            {"parahydrogen", 24.0, 1925.77, 0.71587},
            {"methane", 140.0, 5125.33, 0.81383}
        };
        for (Object[] row : saturated) {
            String fluid = (String) row[0];
            double t = (double) row[1];
            String what = String.format(Locale.ROOT, "%s %.0f K", fluid, t);
            derived(
                    "CHK-06 " + what,
                    "equilibrium flux from saturated liquid",
                    LIBRARY,
                    (double) row[2],
                    2e-3,
                    "kg/(m2 s)",
                    () -> equilibrium(Engine.REAL.pure(fluid).atTemperatureQuality(t, 0), 2e4));
            derived(
                    "CHK-06 throat " + what,
                    "throat over upstream pressure",
                    LIBRARY,
                    (double) row[3],
                    2e-3,
                    "1",
                    () -> {
                        FluidState up = Engine.REAL.pure(fluid).atTemperatureQuality(t, 0);
                        return Throttle.flux(up, 2e4, Throttle.Flashing.EQUILIBRIUM)
                                        .throatPressure()
                                / up.pressure();
                    });
        }
        derived(
                "LAB-13",
                "labyrinth with a liquid of 1140 kg/m3 (oxygen), dp 2 MPa, N = 6",
                "m = A Cd sqrt(2 rho dp / N)",
                0.264593,
                1e-3,
                "kg/s",
                () -> {
                    // The density of the formula is that at the middle pressure.
                    double t = Engine.REAL
                            .pure("oxygen")
                            .atPressureDensity(2e6, 1140)
                            .temperature();
                    return new Labyrinth(RING, 6, 1, 1, Double.NaN, Throttle.Flashing.EQUILIBRIUM)
                            .solve(real("oxygen", 3e6, t), 1e6)
                            .massFlow();
                });
        String suzuki =
                "M. Suzuki et al., Floating-ring seal for LH2 turbopump, NAL TR-710, abstract; sign of the effect";
        checks.add(Check.relative(
                "FLO-26 subcooled",
                "ring with liquid throughout over the incompressible flow (15 ata, 22 K)",
                suzuki,
                Label.PUBLISHED,
                1,
                () -> hydrogenRing(22, 0.6e6),
                0.10,
                "1",
                Kind.VALIDATION));
        checks.add(Check.absolute(
                "FLO-26 flashing",
                "ring in which hydrogen flashes over the incompressible flow (15 ata, 30 K): below 1, 'much lower'",
                suzuki,
                Label.PUBLISHED,
                0.45,
                () -> hydrogenRing(30, 0.101325e6),
                0.45,
                "1",
                Kind.VALIDATION));
    }

    static double hydrogenRing(double temperature, double down) {
        FrictionSlot slot = FrictionSlot.still(30e-6, 10e-3, 0.3);
        FluidState up = real("parahydrogen", 15 * 98066.5, temperature);
        double real = slot.solve(up, down, Throttle.Flashing.EQUILIBRIUM).flux();
        PerfectLiquid liquid = new PerfectLiquid(up.density(), up.fluid().viscosity(up));
        double ideal = slot.solve(liquid.at(up.pressure()), down, Throttle.Flashing.EQUILIBRIUM)
                .flux();
        return real / ideal;
    }

    private void growth() {
        double w = 36000 * Math.PI / 30;
        String form = "S. Timoshenko, Strength of Materials II; Roark ch. 16: closed form, worked";
        derived(
                "ROT-01 growth",
                "rim growth of a solid disc",
                form,
                9.76203e-5,
                "m",
                () -> Growth.disc(0, 0.1, 0.1, w, 7850, 200e9, 0.3));
        derived(
                "ROT-01 stress",
                "centre stress of a solid disc",
                form,
                460.210e6,
                "Pa",
                () -> Growth.hoopStress(0, 0.1, 0, w, 7850, 0.3));
        derived(
                "ROT-02 rim",
                "rim growth of a bored disc",
                form,
                1.160287e-4,
                "m",
                () -> Growth.disc(0.02, 0.1, 0.1, w, 7850, 200e9, 0.3));
        derived(
                "ROT-02 bore",
                "bore growth of a bored disc",
                form,
                9.282292e-5,
                "m",
                () -> Growth.disc(0.02, 0.1, 0.02, w, 7850, 200e9, 0.3));
        derived(
                "ROT-02 bore stress",
                "bore stress of a bored disc",
                form,
                928.229e6,
                "Pa",
                () -> Growth.hoopStress(0.02, 0.1, 0.02, w, 7850, 0.3));
        derived(
                "ROT-02 40/50",
                "rim growth of a ring",
                form,
                4.901932e-5,
                "m",
                () -> Growth.disc(0.04, 0.05, 0.05, w, 7850, 200e9, 0.3));
        derived(
                "ROT-02 45/50",
                "rim growth of a ring",
                form,
                5.879877e-5,
                "m",
                () -> Growth.disc(0.045, 0.05, 0.05, w, 7850, 200e9, 0.3));
        derived("ROT-03", "growth of a thin ring", form, 6.972876e-5, "m", () -> Growth.ring(0.05, w, 7850, 200e9));
        derived(
                "ROT-04",
                "growth of a solid shaft",
                form,
                1.944132e-6,
                "m",
                () -> Growth.disc(0, 0.025, 0.025, 40000 * Math.PI / 30, 8190, 205e9, 0.29));
        derived(
                "ROT-05",
                "bore growth under pressure",
                form,
                1.461364e-5,
                "m",
                () -> Growth.pressurisedBore(10e6, 0.05, 0.06, 200e9, 0.3));
        derived("ROT-06", "thermal growth", form, 2.4e-4, 1e-9, "m", () -> Growth.thermal(0.05, 12e-6, 400));
    }
}
