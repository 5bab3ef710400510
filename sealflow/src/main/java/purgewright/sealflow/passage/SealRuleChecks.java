package purgewright.sealflow.passage;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleSupplier;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.validation.Check;
import purgewright.fluids.validation.Check.Kind;
import purgewright.fluids.validation.Check.Label;
import purgewright.sealflow.Notice;

/**
 * What reports and monographs say of seals in words, ratios and bands, and what was measured with full geometry; the closed forms are in
 * {@link PassageChecks}.
 *
 * <p>Where a source gives a rule without its geometry, the geometry is taken from the same source's rules and named in the check; it is
 * not moved to pass.
 */
final class SealRuleChecks {
    private static final String MONOGRAPH = "R. E. Burcham, NASA SP-8121 (1978), transcription";
    private static final Conditions NOMINAL = new Conditions(0, Double.NaN, Conditions.Bound.NOMINAL);
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);

    private final PropertyEngine engine;
    private final List<Check> checks = new ArrayList<>();

    private SealRuleChecks(PropertyEngine engine) {
        this.engine = engine;
    }

    static List<Check> all(PropertyEngine engine) {
        SealRuleChecks set = new SealRuleChecks(engine);
        set.measuredLeakage();
        set.openings();
        set.labyrinths();
        set.ducts();
        set.faces();
        set.brushes();
        set.liquids();
        set.correspondingStates();
        set.air();
        return set.checks;
    }

    private void near(
            String id, String quantity, String source, Label label, double value, double within, DoubleSupplier ours) {
        checks.add(Check.absolute(id, quantity, source, label, value, ours, within, "1", Kind.VALIDATION));
    }

    private void holds(String id, String statement, String source, Label label, BooleanSupplier ours) {
        checks.add(Check.absolute(
                id,
                "1 when " + statement,
                source,
                label,
                1,
                () -> ours.getAsBoolean() ? 1 : 0,
                1e-9,
                "1",
                Kind.VALIDATION));
    }

    private static Passage passage(
            String type, double radius, double clearance, Conditions conditions, Map<String, Object> fields) {
        return PassageTypes.find(type)
                .orElseThrow()
                .build(PassageChecks.spec(type, radius, clearance, fields), conditions);
    }

    private static double leak(Passage passage, double high, double low) {
        return passage.flow(AIR.atPressureTemperature(high, 300), AIR.atPressureTemperature(low, 300))
                .massFlow();
    }

    /** Every test with full geometry that could be had, and what the model's error over them is. */
    private void measuredLeakage() {
        for (MeasuredAnnuli.Point point : MeasuredAnnuli.points()) {
            checks.add(Check.relative(
                    "MEA-01 " + point.seal(),
                    "leak of a plain annulus, water, shaft turning, nothing fitted; tolerance: friction and inlet loss as known",
                    MeasuredAnnuli.SOURCE,
                    Label.PUBLISHED,
                    point.measured(),
                    point::ours,
                    0.15,
                    "m3/s",
                    Kind.VALIDATION));
        }
        near(
                "MEA-01 mean bias",
                "annulus: mean of ln(ours / measured) over the measured seals (two)",
                MeasuredAnnuli.SOURCE,
                Label.PUBLISHED,
                0,
                0.15,
                MeasuredAnnuli::bias);
        near(
                "MEA-01 scatter",
                "annulus: standard deviation of ln(ours / measured) over the measured seals (two)",
                MeasuredAnnuli.SOURCE,
                Label.PUBLISHED,
                0,
                0.15,
                MeasuredAnnuli::scatter);
        for (MeasuredRims.Point point : MeasuredRims.points()) {
            String id = "MEA-02 " + point.configuration();
            near(
                    id,
                    "rim gap: effectiveness at that share of the rig's least flow, axial curve; tolerance: measured at two radii",
                    MeasuredRims.SOURCE,
                    Label.PUBLISHED,
                    point.effectiveness(),
                    0.1,
                    () -> point.ours(RimSealing.Shape.AXIAL));
            near(
                    id + ", radial",
                    "rim gap: the same with the radial seal's curve; which of the two the rig had is not known",
                    MeasuredRims.SOURCE,
                    Label.PUBLISHED,
                    point.effectiveness(),
                    0.1,
                    () -> point.ours(RimSealing.Shape.RADIAL));
        }
    }

    private void openings() {
        String weisbach = "Encyclopaedia Britannica, 11th ed., vol. 14, Hydraulics, 63 (after Weisbach)";
        // Bands as printed: middle and half width.
        near(
                "LAB-05 sharp, small ratio",
                "sharp orifice's coefficient, band 0.563 to 0.788",
                weisbach,
                Label.PUBLISHED,
                0.6755,
                0.1125,
                () -> coefficient("orifice", Map.of("diameter", 1e-3), 1e6, 0.99e6));
        near(
                "LAB-05 sharp, choked",
                "sharp orifice's coefficient, band 0.563 to 0.788",
                weisbach,
                Label.PUBLISHED,
                0.6755,
                0.1125,
                () -> coefficient("orifice", Map.of("diameter", 1e-3), 1e6, 0.2e6));
        near(
                "LAB-05 mouthpiece",
                "short cylindrical mouthpiece's coefficient, band 0.81 to 0.84",
                weisbach,
                Label.PUBLISHED,
                0.825,
                0.015 + 1e-9,
                () -> coefficient("orifice", Map.of("diameter", 1e-3, "thickness", 2e-3), 1e6, 0.8e6));
        near(
                "LAB-05 bell",
                "nozzle's default coefficient, band of conoidal mouthpieces 0.97 to 0.99",
                weisbach,
                Label.PUBLISHED,
                0.98,
                0.01,
                () -> coefficient("nozzle", Map.of("diameter", 1e-3), 1e6, 0.8e6));
        holds(
                "LAB-05 implausible",
                "a stated coefficient of 0.45 is flagged and one of 0.65 is not",
                weisbach,
                Label.PUBLISHED,
                () -> flagged(0.45) && !flagged(0.65));
        String sharp =
                "J. A. Perry, Trans. ASME 71 (1949); J. C. Kayser, R. L. Shambaugh, Chem. Eng. Sci. 46 (1991): knife edge, 0.839";
        checks.add(Check.relative(
                "LAB-04 choked, a known miss",
                "sharp orifice's coefficient far beyond the choke, air; Chaplygin's jet ends at the sonic line, so ours is 11 % low",
                sharp,
                Label.FROM_MEMORY,
                0.839,
                () -> coefficient("orifice", Map.of("diameter", 1e-3), 1e6, 0.02e6),
                0.12,
                "1",
                Kind.VALIDATION));
        holds(
                "LAB-04 bounded",
                "the high bound of a sharp choked opening, air, is at or above 0.839 and not above 0.86",
                sharp,
                Label.FROM_MEMORY,
                () -> {
                    Conditions high = new Conditions(0, Double.NaN, Conditions.Bound.HIGH);
                    double c = coefficient("orifice", high, Map.of("diameter", 1e-3), 1e6, 0.02e6);
                    return c >= 0.839 && c <= 0.86;
                });
    }

    private static double coefficient(String type, Map<String, Object> fields, double high, double low) {
        return coefficient(type, NOMINAL, fields, high, low);
    }

    private static double coefficient(
            String type, Conditions conditions, Map<String, Object> fields, double high, double low) {
        FluidState up = AIR.atPressureTemperature(high, 300);
        double ideal = Throttle.flux(up, low, Throttle.Flashing.EQUILIBRIUM).flux() * Math.PI / 4 * 1e-6;
        return leak(passage(type, Double.NaN, Double.NaN, conditions, fields), high, low) / ideal;
    }

    private static boolean flagged(double coefficient) {
        Passage orifice = passage(
                "orifice",
                Double.NaN,
                Double.NaN,
                NOMINAL,
                Map.of("diameter", 1e-3, "discharge coefficient", coefficient));
        return orifice.flow(AIR.atPressureTemperature(1e6, 300), AIR.atPressureTemperature(8e5, 300)).notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE);
    }

    private void labyrinths() {
        // The p^2 law of D. W. Childs, J. K. Scharrer against the expansion of the gas at every tooth: other equations,
        // near each other.
        double[] square = {466905, 431277, 392428, 349285};
        Labyrinth model = new Labyrinth(1.570796e-5, 5, 1, 1, 1, Throttle.Flashing.EQUILIBRIUM);
        String law = "D. W. Childs, J. K. Scharrer, J. Eng. Gas Turbines Power 108 (1986): linear in p^2, closed form";
        for (int i = 0; i < square.length; i++) {
            int stage = i;
            checks.add(Check.relative(
                    "LAB-11 p" + (i + 1),
                    "pressure after tooth " + (i + 1) + " of five, Cd 1, against the p^2 law",
                    law,
                    Label.DERIVED,
                    square[i],
                    () -> model.solve(AIR.atPressureTemperature(0.5e6, 300), 0.3e6)
                            .stages()[stage],
                    0.005,
                    "Pa",
                    Kind.VERIFICATION));
        }
        checks.add(Check.relative(
                "LAB-11 flow",
                "flow through five teeth, Cd 1, against the p^2 law; it has no expansion in the tooth",
                law,
                Label.DERIVED,
                0.00957537,
                () -> model.solve(AIR.atPressureTemperature(0.5e6, 300), 0.3e6).massFlow(),
                0.04,
                "kg/s",
                Kind.VERIFICATION));
        // Clearances, pitch and tip of the monograph's own rules: 0.010 in diametral at 0.1 in pitch, tip 0.010 in;
        // ring 0.00075 in
        // per inch of diameter. Teeth and ring length it does not give: six, 6 mm, as everywhere in these checks.
        String where = "; geometry by its sections 2.3.5 and 3.3.5, six teeth";
        checks.add(Check.relative(
                "LAB-17 stepped over straight",
                "leak of a stepped labyrinth over that of a straight one (0.78 with four teeth, 0.66 with ten)",
                MONOGRAPH + " 2.3.5, rule of about a half" + where,
                Label.PUBLISHED,
                0.5,
                () -> leak(labyrinth("stepped", 6), 1e6, 3e5) / leak(labyrinth("straight", 6), 1e6, 3e5),
                0.5,
                "1",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "LAB-17 labyrinth over ring",
                "leak of a labyrinth over that of a floating ring of 19 um",
                MONOGRAPH + " 2.3.5, rule of about five" + where,
                Label.PUBLISHED,
                5,
                () -> leak(labyrinth("straight", 6), 1e6, 3e5)
                        / leak(passage("floating ring", 0.0254, 19.05e-6, NOMINAL, Map.of("length", 6e-3)), 1e6, 3e5),
                0.5,
                "1",
                Kind.VALIDATION));
        checks.add(Check.relative(
                "LAB-17 proportional",
                "leak of a straight labyrinth at twice the clearance over twice that at the clearance",
                MONOGRAPH + " 2.3.5: leakage is proportional to running clearance" + where,
                Label.PUBLISHED,
                1,
                () -> leak(labyrinth("straight", 6, 0.254e-3), 1e6, 3e5)
                        / (2 * leak(labyrinth("straight", 6), 1e6, 3e5)),
                0.5,
                "1",
                Kind.VALIDATION));
        // phi = Cd mu / sqrt(N): the number of teeth is not given, so only the ratio of the two bands can be compared.
        checks.add(Check.absolute(
                "LAB-18 straight over stepped",
                "flow coefficient of a straight labyrinth over that of a stepped one, water; bands 0.4-0.7 and 0.25-0.35 give 1.14 to 2.8",
                MONOGRAPH + " Fig. 43",
                Label.PUBLISHED,
                1.97,
                () -> {
                    PerfectLiquid water = new PerfectLiquid(998, 1e-3);
                    Labyrinth straight = new Labyrinth(
                            1e-4,
                            6,
                            CarryOver.NEUMANN.factor(6, 0.66e-3, 10e-3, 1e-3),
                            1,
                            Double.NaN,
                            Throttle.Flashing.EQUILIBRIUM);
                    Labyrinth stepped = new Labyrinth(1e-4, 6, 1, 1, Double.NaN, Throttle.Flashing.EQUILIBRIUM);
                    return straight.solve(water.at(1e6), 2e5).massFlow()
                            / stepped.solve(water.at(1e6), 2e5).massFlow();
                },
                0.83,
                "1",
                Kind.VALIDATION));
    }

    private static Passage labyrinth(String arrangement, int teeth) {
        return labyrinth(arrangement, teeth, 0.127e-3);
    }

    private static Passage labyrinth(String arrangement, int teeth, double clearance) {
        Map<String, Object> fields = new HashMap<>(Map.of("teeth", (double) teeth, "pitch", 2.54e-3, "tip", 0.254e-3));
        fields.put("arrangement", arrangement);
        return passage("labyrinth", 0.0254, clearance, NOMINAL, fields);
    }

    private void ducts() {
        // A gas whose cp/cv is nearly 1 keeps its temperature: the adiabatic solver in the isothermal limit.
        PerfectGas nitrogen = new PerfectGas("isothermal nitrogen", 296.80, 1.0005, 1.78e-5);
        PerfectGas helium = new PerfectGas("isothermal helium", 2077.26, 1.0005, 1.99e-5);
        isothermal("FLO-05 N2", nitrogen, 5, 1148.45);
        isothermal("FLO-05 He", helium, 5, 434.110);
        checks.add(Check.relative(
                "FLO-28 choke",
                "exit over inlet pressure at which an isothermal pipe of f L/D = 3.7 chokes",
                "worked example of an isothermal pipe, recomputed; M = 1/sqrt(k) with k = 1",
                Label.PUBLISHED,
                0.389699732,
                () -> {
                    FrictionSlot.Result r = PassageChecks.constant(3.7)
                            .solve(nitrogen.atPressureTemperature(1e6, 300), 1e4, Throttle.Flashing.EQUILIBRIUM);
                    return r.exitPressure() / r.inletPressure();
                },
                1e-3,
                "1",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "FLO-28 flow",
                "isothermal flow of 11.3 kg/m3 at 1 MPa to 0.9 MPa through f L/D = 3.7, 0.5 m wide",
                "worked example of an isothermal pipe, recomputed",
                Label.PUBLISHED,
                145.4847573,
                () -> {
                    double rt = 1e6 / 11.3;
                    PerfectGas gas = new PerfectGas("isothermal gas", rt / 300, 1.0005, 1.8e-5);
                    return Math.PI / 4 * 0.25 * isothermalFlux(gas, 3.7, 0.9);
                },
                1e-3,
                "kg/s",
                Kind.VERIFICATION));
        checks.add(Check.relative(
                "FLO-09 radius ratio 0.9",
                "f Re of a laminar annulus: ours is the slot's, used up to a clearance of a tenth of the radius",
                "concentric annulus, closed form; F. M. White, Fluid Mechanics",
                Label.DERIVED,
                95.9822,
                () -> Friction.SLOT,
                1e-3,
                "1",
                Kind.VERIFICATION));
        holds(
                "FLO-09 range",
                "an annulus wider than a tenth of its radius is flagged",
                "concentric annulus, closed form: f Re is 0.2 % off the slot's at a ratio of 0.8",
                Label.DERIVED,
                () -> passage("bushing", 0.01, 1.2e-3, NOMINAL, Map.of("length", 0.02))
                        .flow(AIR.atPressureTemperature(2e5, 300), AIR.atPressureTemperature(1e5, 300))
                        .notices()
                        .stream()
                        .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE));
        near(
                "FLO-25 line",
                "default inlet loss of a line: sharp and flush",
                "velocity heads, any text on hydraulics",
                Label.COMMON_PRACTICE,
                0.5,
                1e-9,
                () -> fallback("line"));
        near(
                "FLO-25 annulus",
                "default inlet loss of a bushing, band 0.1 to 0.5",
                "annular seals, usual practice",
                Label.COMMON_PRACTICE,
                0.3,
                0.2,
                () -> fallback("bushing"));
    }

    private static double fallback(String type) {
        return PassageTypes.find(type).orElseThrow().fields().stream()
                .filter(f -> "inlet loss".equals(f.name()))
                .mapToDouble(f -> Double.parseDouble(f.fallback()))
                .findFirst()
                .orElse(Double.NaN);
    }

    private void isothermal(String id, PerfectGas gas, double k, double expected) {
        checks.add(Check.relative(
                id,
                "isothermal mass flux, f L/D = 5, 1.0 to 0.5 MPa at the duct's own ends",
                "G^2 = (p1^2 - p2^2) / (R T (f L/D + 2 ln(p1/p2)))",
                Label.DERIVED,
                expected,
                () -> isothermalFlux(gas, k, 0.5),
                1e-3,
                "kg/(m2 s)",
                Kind.VERIFICATION));
    }

    /** Flux from 1 MPa behind the inlet to a share of it; the plenum before the inlet is found. */
    private static double isothermalFlux(PerfectGas gas, double k, double share) {
        double plenum = Roots.find(
                p -> inlet(gas, k, p, share).inletPressure() - 1e6,
                1e6,
                inlet(gas, k, 1e6, share).inletPressure() - 1e6,
                2e6,
                inlet(gas, k, 2e6, share).inletPressure() - 1e6,
                1e-10);
        return inlet(gas, k, plenum, share).flux();
    }

    private static FrictionSlot.Result inlet(PerfectGas gas, double k, double plenum, double share) {
        return PassageChecks.constant(k)
                .solve(gas.atPressureTemperature(plenum, 300), share * 1e6, Throttle.Flashing.EQUILIBRIUM);
    }

    private void faces() {
        String profile = MONOGRAPH + " 2.3.8: 0.5 parallel, 0.2 diverging to 0.8 converging";
        near(
                "FLO-15 parallel liquid",
                "pressure-profile factor",
                profile,
                Label.PUBLISHED,
                0.5,
                1e-9,
                () -> FilmLaws.conedLiquid(1, 1));
        near(
                "FLO-15 parallel gas",
                "pressure-profile factor of laminar compressible flow, p1/p2 = 10, band 0.50 to 0.67",
                profile,
                Label.PUBLISHED,
                0.585,
                0.085,
                () -> FilmLaws.parallelGas(10));
        near(
                "FLO-15 converging",
                "pressure-profile factor of a film three times as thick at the high pressure, band 0.5 to 0.8",
                profile,
                Label.PUBLISHED,
                0.65,
                0.15,
                () -> FilmLaws.conedLiquid(3, 1));
        near(
                "FLO-15 diverging",
                "pressure-profile factor of a film three times as thick at the low pressure, band 0.2 to 0.5",
                profile,
                Label.PUBLISHED,
                0.35,
                0.15,
                () -> FilmLaws.conedLiquid(1, 3));
        String choke = MONOGRAPH + " 2.2.5: about 4 : 1 where radial length / h is above 100";
        for (double gap : new double[] {5e-6, 10e-6}) {
            checks.add(Check.relative(
                    String.format(java.util.Locale.ROOT, "FLO-20 exit choke h=%.0f um", gap * 1e6),
                    "pressure ratio at which a laminar gas film 100 gaps long chokes, air, 1 MPa ('about', so a quarter)",
                    choke,
                    Label.PUBLISHED,
                    4,
                    () -> chokeRatio(gap),
                    0.25,
                    "1",
                    Kind.VALIDATION));
        }
        holds(
                "FLO-20 molecular",
                "a gas film whose mean free path is a fifth of the gap is not established, and one of a hundredth is",
                MONOGRAPH + " 2.2.5: laminar up to 0.01, transition to 1",
                Label.PUBLISHED,
                () -> rarefied(0.2) && !rarefied(0.01));
    }

    private static double chokeRatio(double gap) {
        double low = 1.5;
        double high = 60;
        FluidState up = AIR.atPressureTemperature(1e6, 300);
        for (int i = 0; i < 40; i++) {
            double middle = Math.sqrt(low * high);
            if (FrictionSlot.still(gap, 100 * gap, 0.3)
                    .solve(up, 1e6 / middle, Throttle.Flashing.EQUILIBRIUM)
                    .choked()) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    private static boolean rarefied(double knudsen) {
        double pressure = 1e5;
        double gap = FilmLaws.meanFreePath(1.85e-5, pressure, 287.05 * 300) / knudsen;
        return passage(
                        "face",
                        Double.NaN,
                        Double.NaN,
                        NOMINAL,
                        Map.of("inner radius", 0.025, "outer radius", 0.03, "gap", gap))
                .flow(AIR.atPressureTemperature(2e5, 300), AIR.atPressureTemperature(pressure, 300))
                .notices()
                .stream()
                .anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED);
    }

    private void brushes() {
        String box = "M. P. Proctor, I. R. Delgado, NASA/TM-2004-213049, abstract: 922 K, 517 kPa, 366 m/s";
        double[][] inside = {{900, 500e3, 7200}, {950, 500e3, 7200}, {900, 530e3, 7200}, {900, 500e3, 7400}};
        String[] name = {"inside", "hotter", "more pressure", "faster"};
        for (int i = 0; i < inside.length; i++) {
            double[] at = inside[i];
            boolean outside = i > 0;
            holds(
                    "LAB-21 " + name[i],
                    outside
                            ? "a brush outside the rigs' box is flagged"
                            : "a brush inside the rigs' box is not flagged",
                    box,
                    Label.PUBLISHED,
                    () -> {
                        Passage brush = passage(
                                "brush",
                                0.05,
                                Double.NaN,
                                new Conditions(at[2], Double.NaN, Conditions.Bound.NOMINAL),
                                Map.of("effective clearance", 50e-6));
                        boolean said = brush
                                .flow(
                                        AIR.atPressureTemperature(1e5 + at[1], at[0]),
                                        AIR.atPressureTemperature(1e5, at[0]))
                                .notices()
                                .stream()
                                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE);
                        return said == outside;
                    });
        }
        holds(
                "LAB-24",
                "a brush in liquid nitrogen is not established",
                "Preliminary experimental results for a cryogenic brush seal configuration, NASA (1993), abstract",
                Label.PUBLISHED,
                () -> passage("brush", 0.05, Double.NaN, NOMINAL, Map.of("effective clearance", 50e-6))
                        .flow(
                                engine.pure("nitrogen").atPressureTemperature(5e5, 80),
                                engine.pure("nitrogen").atPressureTemperature(2e5, 80))
                        .notices()
                        .stream()
                        .anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED));
    }

    private void liquids() {
        holds(
                "FLO-27",
                "flashing takes more from a hydrogen ring's flow near saturation than at high subcooling",
                "M. Oike et al., Tribology Trans. 42 (1999) 273, abstract: at high subcooling the two-phase area's effect is weak",
                Label.PUBLISHED,
                () -> PassageChecks.hydrogenRing(30, 0.101325e6) < PassageChecks.hydrogenRing(22, 0.101325e6));
        String simoneau =
                "R. J. Simoneau, Maximum two-phase flow rates of subcooled nitrogen through a sharp-edged orifice, NASA, abstract";
        checks.add(Check.relative(
                "CHK-10 frozen side",
                "high bound's flux of a sharp orifice, nitrogen 3 MPa 110 K, over its coefficient, against sqrt(2 rho dp)",
                simoneau + "; sqrt(2 rho0 (p0 - p)) by CoolProp 8.0.0",
                Label.PUBLISHED,
                60824.4,
                () -> subcooled(Conditions.Bound.HIGH, 101325).massFlow()
                        / (Math.PI / 4 * 1e-6 * Contraction.INCOMPRESSIBLE * 1.05),
                0.03,
                "kg/(m2 s)",
                Kind.VALIDATION));
        holds(
                "CHK-10 no choke",
                "the high bound of a sharp orifice with subcooled nitrogen still rises far below saturation",
                simoneau,
                Label.PUBLISHED,
                () -> !subcooled(Conditions.Bound.HIGH, 101325).choked()
                        && subcooled(Conditions.Bound.HIGH, 101325).massFlow()
                                > 1.05 * subcooled(Conditions.Bound.HIGH, 6e5).massFlow());
        holds(
                "CHK-10 order",
                "equilibrium is the floor: low <= nominal <= high",
                simoneau,
                Label.PUBLISHED,
                () -> subcooled(Conditions.Bound.LOW, 101325).massFlow()
                                <= subcooled(Conditions.Bound.NOMINAL, 101325).massFlow()
                        && subcooled(Conditions.Bound.NOMINAL, 101325).massFlow()
                                <= subcooled(Conditions.Bound.HIGH, 101325).massFlow());
    }

    private PassageFlow subcooled(Conditions.Bound bound, double down) {
        Fluid nitrogen = engine.pure("nitrogen");
        return passage(
                        "orifice",
                        Double.NaN,
                        Double.NaN,
                        new Conditions(0, Double.NaN, bound),
                        Map.of("diameter", 1e-3))
                .flow(nitrogen.atPressureTemperature(3e6, 110), nitrogen.atPressureTemperature(down, 110));
    }

    private void correspondingStates() {
        double[][] reduced = {{2, 0.8}, {1.5, 1.3}, {3, 2}};
        for (String fluid : new String[] {"oxygen", "methane"}) {
            for (double[] at : reduced) {
                checks.add(Check.relative(
                        String.format(java.util.Locale.ROOT, "CHK-08 %s pr=%.1f Tr=%.1f", fluid, at[0], at[1]),
                        "choked flux over the corresponding-states flux, against that of nitrogen: together within 10 %",
                        "R. C. Hendricks, R. J. Simoneau and co-workers, NASA TN D-8169 (1976), TP-1484 (1979)",
                        Label.PUBLISHED,
                        reducedFlux("nitrogen", at[0], at[1]),
                        () -> reducedFlux(fluid, at[0], at[1]),
                        0.10,
                        "1",
                        Kind.VALIDATION));
            }
        }
    }

    private double reducedFlux(String name, double pressure, double temperature) {
        var fluid = engine.pure(name);
        double pc = fluid.criticalPressure();
        double scale =
                fluid.criticalDensity() * Math.sqrt(8.31446261815324 / fluid.molarMass() * fluid.criticalTemperature());
        FluidState up = fluid.atPressureTemperature(pressure * pc, temperature * fluid.criticalTemperature());
        return Throttle.flux(up, 0.02 * pc, Throttle.Flashing.EQUILIBRIUM).flux() / scale;
    }

    /** Air is a mixture here: each component at its partial density, which loses what unlike molecules do to each other. */
    private void air() {
        double[] pressure = {0.1e6, 1e6, 3e6, 5e6, 10e6, 20e6, 30e6};
        double[] function = {0.68509, 0.68746, 0.69268, 0.69779, 0.70984, 0.72813, 0.73587};
        for (int i = 0; i < pressure.length; i++) {
            double p = pressure[i];
            checks.add(Check.relative(
                    String.format(java.util.Locale.ROOT, "CHK-02 air %.1f MPa", p / 1e6),
                    "critical flow function at 300 K of air as a mixture by partial densities; 2.5 % is what that rule costs up to 30 MPa",
                    "CoolProp 8.0.0 (HEOS), isentrope searched",
                    Label.DERIVED,
                    function[i],
                    () -> {
                        Fluid air = engine.mixer(List.of(new StreamDefinition.Single("air", "air"))).stream(0);
                        FluidState up = air.atPressureTemperature(p, 300);
                        double gas = 8.31446261815324 / air.molarMass();
                        return Throttle.flux(up, 0.05 * p, Throttle.Flashing.EQUILIBRIUM)
                                        .flux()
                                * Math.sqrt(gas * 300)
                                / p;
                    },
                    0.025,
                    "1",
                    Kind.VALIDATION));
        }
    }
}
