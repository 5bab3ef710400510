package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;
import purgewright.sealflow.passage.Conditions.Bound;

@DisplayName("Faces: flow, forces, grooves and lift-off against the formulas of the class, written out again")
class FaceFormsTest {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final Throttle.Flashing EVEN = Throttle.Flashing.EQUILIBRIUM;
    private static final double RI = 0.03;
    private static final double RO = 0.04;
    private static final double AREA = Math.PI * (RO * RO - RI * RI);

    private static FluidState air(double pressure) {
        return AIR.atPressureTemperature(pressure, 300);
    }

    private static FluidState water(double pressure) {
        return StiffLiquid.WATER.atPressureTemperature(pressure, 293);
    }

    private static Passage face(String type, double speed, double running, Bound bound, Object... fields) {
        Map<String, Object> all = new HashMap<>(Map.of("inner radius", RI, "outer radius", RO));
        for (int i = 0; i < fields.length; i += 2) {
            all.put((String) fields[i], fields[i + 1]);
        }
        return PassageTypes.find(type)
                .orElseThrow()
                .build(PassageChecks.spec(type, Double.NaN, Double.NaN, all), new Conditions(speed, running, bound));
    }

    private static Passage face(double speed, Object... fields) {
        return face("face", speed, Double.NaN, Bound.NOMINAL, fields);
    }

    private static double note(PassageFlow flow, String model, String constant) {
        return flow.notices().stream()
                .filter(n -> n.key() == Notice.Key.ESTIMATE
                        && model.equals(n.values().get("model"))
                        && constant.equals(n.values().get("constant")))
                .mapToDouble(n -> (Double) n.values().get("value"))
                .findFirst()
                .orElse(Double.NaN);
    }

    private static boolean doubts(PassageFlow flow, String model) {
        return flow.notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.NOT_ESTABLISHED
                        && model.equals(n.values().get("model")));
    }

    private static boolean outside(PassageFlow flow, String quantity) {
        return flow.notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE
                        && quantity.equals(n.values().get("quantity")));
    }

    private static void near(double value, double expected, double tolerance) {
        assertThat(value).isCloseTo(expected, within(tolerance * Math.abs(expected)));
    }

    private static double perimeter(double inner, double outer) {
        return 2 * Math.PI * (outer - inner) / Math.log(outer / inner);
    }

    private static FrictionSlot slot(double h, double width, double speed, double roughness, double loss) {
        return new FrictionSlot(
                2 * h, width, 96, Math.min(roughness, 0.1 * h), loss, 0, Math.abs(speed) * 0.5 * (RI + RO), 1, 1);
    }

    /** 1 + 6 Kn at the mean pressure. */
    private static double slip(FluidState up, double down, double h) {
        double path = 1.85e-5 / (0.5 * (up.pressure() + down)) * Math.sqrt(Math.PI * 287.05 * 300 / 2);
        return 1 + 6 * path / h;
    }

    @Test
    void throughAStatedGapTheSlotsFlowGoesAlongTheLogMeanPerimeterLessTheCentrifugalHead() {
        for (double h : new double[] {3e-6, 20e-6}) {
            for (double speed : new double[] {0, 1500, -1500}) {
                for (String at : new String[] {"outer", "inner"}) {
                    Passage p = face(
                            speed,
                            "gap",
                            h,
                            "from at",
                            at,
                            "roughness",
                            0.5e-6,
                            "inlet loss",
                            0.2,
                            "film heat share",
                            0.4);
                    FluidState up = air(1e6);
                    double head = up.density() * 0.15 * speed * speed * (RO * RO - RI * RI);
                    double drop = 6e5 + ("outer".equals(at) ? -head : head);
                    FrictionSlot.Solver r =
                            slot(h, 0.01, speed, 0.5e-6, 0.2).flow(up, 1e6 - drop, EVEN, slip(up, 1e6 - drop, h));
                    double mass = r.flux * perimeter(RI, RO) * h;
                    double reynolds = r.reynolds;
                    double exit = r.exit;
                    boolean choked = r.choked;
                    double heat = 0.4 * FilmLaws.faceDrag(r.meanDensity, r.meanViscosity, speed, RI, RO, h);
                    PassageFlow flow = p.flow(up, air(4e5));
                    near(flow.massFlow(), mass, 1e-6);
                    near(flow.reynolds(), reynolds, 1e-6);
                    near(flow.throatPressure(), exit, 1e-6);
                    assertThat(flow.choked()).isEqualTo(choked);
                    assertThat(flow.heat()).isCloseTo(heat, within(1e-6 * heat));
                    near(p.diffusionArea(), perimeter(RI, RO) * h, 1e-12);
                    near(p.diffusionLength(), 0.01, 1e-12);
                    assertThat(p.surfaceSpeed()).isCloseTo(Math.abs(speed) * RO, within(1e-12));
                    assertThat(p.gap()).isEqualTo(h);
                    Passage.Film film = p.film(up, air(4e5));
                    assertThat(film.gap()).isEqualTo(h);
                    assertThat(film.liftOffSpeed()).isNaN();
                    assertThat(film.liftOffPressure()).isNaN();
                    // parallel gas film, 2/3 (p1^3 - p2^3)/(p1^2 - p2^2)
                    double down = 1e6 - drop;
                    double mean = 2.0 / 3 * (1e18 - Math.pow(down, 3)) / (1e12 - down * down);
                    near(film.force(), AREA * mean, 2e-3);
                }
            }
        }
        Passage usual = face(0, "gap", 3e-6);
        near(
                usual.flow(air(1e6), air(4e5)).massFlow(),
                slot(3e-6, 0.01, 0, 0.8e-6, 0.3).flow(air(1e6), 4e5, EVEN, slip(air(1e6), 4e5, 3e-6)).flux
                        * perimeter(RI, RO)
                        * 3e-6,
                1e-9);
        double dp = 1e-4;
        double rest = slip(air(1e6), 1e6, 3e-6)
                * perimeter(RI, RO)
                * 3e-6
                * slot(3e-6, 0.01, 0, 0.8e-6, 0.3).slopeAtRest(air(1e6));
        near(usual.flow(air(1e6), air(1e6 - dp)).massFlow() / dp, rest, 1e-3);
        near(usual.flow(air(1e6 - dp), air(1e6)).massFlow() / dp, -rest, 1e-3);
        // a liquid slips not, and its film's pressure is linear
        Passage wet = face(0, "gap", 10e-6);
        near(
                wet.flow(water(1e6), water(4e5)).massFlow(),
                slot(10e-6, 0.01, 0, 0.8e-6, 0.3).solve(water(1e6), 4e5, EVEN).flux() * perimeter(RI, RO) * 10e-6,
                1e-9);
        near(wet.film(water(1e6), water(4e5)).force(), AREA * 0.7e6, 1e-9);
        double slope =
                perimeter(RI, RO) * 10e-6 * slot(10e-6, 0.01, 0, 0.8e-6, 0.3).slopeAtRest(water(1e6));
        near(wet.flow(water(1e6), water(1e6 - dp)).massFlow() / dp, slope, 1e-3);
        // what wear or growth leaves takes the place of the stated gap
        assertThat(face("face", 0, 7e-6, Bound.NOMINAL, "gap", 3e-6).gap()).isEqualTo(7e-6);
        // a vacuum behind: Kn over 0.1
        assertThat(doubts(usual.flow(air(1e6), air(1e3)), "gas film")).isTrue();
        assertThat(doubts(usual.flow(air(1e6), air(4e5)), "gas film")).isFalse();
    }

    @Test
    void aConedGapPassesWhatItsEquivalentOneDoes() {
        double h = Math.cbrt(2 * 16e-12 * 36e-12 / 10e-6);
        // 4 um inside, 6 um outside: h^3 = 2 h1^2 h2^2 / (h1 + h2)
        near(FilmLaws.equivalentGap(4e-6, 6e-6), h, 1e-12);
        Passage p = face(0, "gap", 4e-6, "coning", 2e-6);
        near(
                p.flow(air(1e6), air(4e5)).massFlow(),
                slot(h, 0.01, 0, 0.8e-6, 0.3).flow(air(1e6), 4e5, EVEN, slip(air(1e6), 4e5, h)).flux
                        * perimeter(RI, RO)
                        * h,
                1e-9);
        for (String at : new String[] {"outer", "inner"}) {
            Passage coned = face(0, "gap", 4e-6, "coning", 2e-6, "from at", at);
            double ratio = "outer".equals(at) ? 1.5 : 1 / 1.5;
            near(coned.film(air(1e6), air(4e5)).force(), AREA * (4e5 + FilmLaws.conedGas(ratio, 2.5) * 6e5), 1e-3);
            near(coned.film(water(1e6), water(4e5)).force(), AREA * (4e5 + ratio / (1 + ratio) * 6e5), 1e-6);
            // the other way round the other end is high
            near(coned.film(air(4e5), air(1e6)).force(), AREA * (4e5 + FilmLaws.conedGas(1 / ratio, 2.5) * 6e5), 1e-3);
        }
    }

    private static double closing(double po, double pi, double rb, double spring) {
        return Math.PI * (po * (RO * RO - rb * rb) + pi * (rb * rb - RI * RI)) + spring;
    }

    @Test
    void theGapIsWhereOpeningAndClosingForcesMeet() {
        double rb = 0.0330;
        for (boolean gas : new boolean[] {true, false}) {
            for (String at : new String[] {"outer", "inner"}) {
                FluidState high = gas ? air(1e6) : water(1e6);
                FluidState low = gas ? air(2e5) : water(2e5);
                boolean outer = "outer".equals(at);
                // a cone open to the high pressure is stable
                double coning = outer ? 3e-6 : -3e-6;
                double balance = outer ? rb : 0.0372;
                Passage p = face(500, "balance radius", balance, "spring force", 25.0, "coning", coning, "from at", at);
                double closing = outer ? closing(1e6, 2e5, balance, 25) : closing(2e5, 1e6, balance, 25);
                Passage.Film film = p.film(high, low);
                // The centrifugal head lowers what drives: a trifle here.
                double tolerance = gas ? 2e-3 : 0.05;
                near(film.force(), closing, tolerance);
                double ratio = outer ? (film.gap() + coning) / film.gap() : film.gap() / (film.gap() + coning);
                double k = gas ? FilmLaws.conedGas(ratio, 5) : ratio / (1 + ratio);
                near(AREA * (2e5 + k * 8e5), closing, tolerance);
                PassageFlow flow = p.flow(high, low);
                near(note(flow, "face balance", "stable gap, m"), film.gap(), 1e-9);
                assertThat(note(flow, "face balance", "second stable gap, m")).isNaN();
                assertThat(doubts(flow, "face balance")).isFalse();
                assertThat(film.liftOffSpeed()).isZero();
                // Half the difference holds it too or not: the least that does is found to a thousandth.
                double least = film.liftOffPressure();
                assertThat(least).isBetween(0.0, 8e5);
                double mean = FilmLaws.equivalentGap(film.gap(), film.gap() + coning);
                double drop = 8e5 - (outer ? 1 : -1) * high.density() * 0.15 * 500 * 500 * (RO * RO - RI * RI);
                double slip = gas ? slip(high, 1e6 - drop, mean) : 1;
                near(
                        flow.massFlow(),
                        slot(mean, 0.01, 500, 0.8e-6, 0.3).flow(high, 1e6 - drop, EVEN, slip).flux
                                * perimeter(RI, RO)
                                * mean,
                        1e-5);
            }
        }
    }

    @Test
    void theLeastPressureThatLiftsIsFound() {
        Object[] fields = {"balance radius", 0.0330, "spring force", 60.0, "coning", 3e-6};
        Passage p = face(0, fields);
        Passage.Film film = p.film(air(1e6), air(1e5));
        double least = film.liftOffPressure();
        assertThat(least).isBetween(1e4, 8.9e5);
        assertThat(note(p.flow(air(1e5 + 1.003 * least), air(1e5)), "face balance", "stable gap, m"))
                .isPositive();
        assertThat(note(p.flow(air(1e5 + 0.995 * least), air(1e5)), "face in contact", "effective gap, m"))
                .isPositive();
        // from at the inner edge, cone and balance turned: the same
        Passage turned = face(
                0,
                "balance radius",
                Math.sqrt(RO * RO + RI * RI - 0.0330 * 0.0330),
                "spring force",
                60.0,
                "coning",
                -3e-6,
                "from at",
                "inner");
        near(turned.film(air(1e6), air(1e5)).liftOffPressure(), least, 5e-3);
    }

    @Test
    void aStatedStiffnessMovesTheStatedGap() {
        double rb = 0.0340;
        double stiffness = 5e7;
        Object[] fields = {"gap", 6e-6, "balance radius", rb, "spring force", 25.0, "film stiffness", stiffness};
        Passage p = face(0, fields);
        double opening = AREA * (1e5 + FilmLaws.conedGas(1, 10) * 9e5);
        double h = 6e-6 + (opening - closing(1e6, 1e5, rb, 25)) / stiffness;
        assertThat(h).isBetween(2e-6, 5e-5);
        PassageFlow flow = p.flow(air(1e6), air(1e5));
        near(note(flow, "face balance", "stable gap, m"), h, 1e-3);
        Passage.Film film = p.film(air(1e6), air(1e5));
        near(film.gap(), h, 1e-3);
        near(film.force(), opening, 1e-3);
        assertThat(film.liftOffSpeed()).isNaN();
        // pressed until it touches
        fields[5] = 3000.0;
        PassageFlow shut = face(0, fields).flow(air(1e6), air(1e5));
        near(note(shut, "face in contact", "effective gap, m"), 1.27e-6, 1e-12);
        near(note(shut, "face in contact", "net closing force, N"), closing(1e6, 1e5, rb, 3000) - opening, 1e-2);
        near(face(0, fields).film(air(1e6), air(1e5)).force(), closing(1e6, 1e5, rb, 3000), 1e-3);
    }

    @Test
    void facesInContactLeakThroughTheEffectiveGapAndTellTheirLoad() {
        double rb = 0.0305;
        for (double speed : new double[] {0, 1000}) {
            for (Bound bound : Bound.values()) {
                double band = bound == Bound.LOW ? 0.5 : bound == Bound.HIGH ? 2 : 1;
                double h = (speed == 0 ? 1.27e-6 : 5.08e-6) * band;
                Passage p = face("face", speed, Double.NaN, bound, "balance radius", rb, "spring force", 200.0);
                PassageFlow flow = p.flow(air(1e6), air(1e5));
                near(note(flow, "face in contact", "effective gap, m"), h, 1e-9);
                double head = air(1e6).density() * 0.15 * speed * speed * (RO * RO - RI * RI);
                double low = 1e5 + head;
                double opening = AREA * (low + FilmLaws.conedGas(1, 1e6 / low) * (1e6 - low));
                double surplus = closing(1e6, low, rb, 200) - opening;
                assertThat(surplus).isPositive();
                near(note(flow, "face in contact", "net closing force, N"), surplus, 2e-3);
                assertThat(note(flow, "face in contact", "PV, Pa m/s"))
                        .isCloseTo(surplus / AREA * speed * 0.5 * (RI + RO), within(2e-3 * surplus / AREA * 35));
                near(p.gap(), h, 1e-9);
                near(p.diffusionArea(), perimeter(RI, RO) * h, 1e-9);
                Passage.Film film = p.film(air(1e6), air(1e5));
                near(film.force(), closing(1e6, low, rb, 200), 2e-3);
                assertThat(film.liftOffPressure()).isNaN();
                assertThat(film.liftOffSpeed()).isNaN();
            }
        }
        // more opening than closing force at every gap: blown open
        Passage open = face(0, "balance radius", 0.0399, "spring force", 0.0);
        assertThat(doubts(open.flow(air(1e6), air(1e5)), "face balance")).isTrue();
        assertThat(open.film(air(1e6), air(1e5)).gap()).isEqualTo(100e-6);
    }

    /** g1 after Muijderman, equal widths of groove and land, H land over groove gap. */
    private static double g1(double h, double angle) {
        double cot = Math.cos(angle) / Math.sin(angle);
        return h
                * h
                * cot
                * (1 - h)
                * (1 - Math.pow(h, 3))
                / (Math.pow(1 + Math.pow(h, 3), 2) + 4 * Math.pow(h, 3) * cot * cot);
    }

    private static final double RG = 0.034;
    private static final double DEPTH = 8e-6;

    private static Object[] grooves(double angle, Object... more) {
        Object[] base = {
            "groove radius",
            RG,
            "groove depth",
            DEPTH,
            "groove angle",
            angle,
            "balance radius",
            0.0312,
            "spring force",
            30.0
        };
        Object[] all = new Object[base.length + more.length];
        System.arraycopy(base, 0, all, 0, base.length);
        System.arraycopy(more, 0, all, base.length, more.length);
        return all;
    }

    private static double end(double h, double po, double mu, double speed, double angle, boolean gas) {
        double ratio = h / (h + DEPTH);
        double rise = 3 * mu * speed * g1(ratio, angle) * (RO * RO - RG * RG) / (h * h);
        double most = po * (1 / ratio - 1);
        return po + (gas ? rise / (1 + rise / most) : rise);
    }

    @Test
    void groovesRaiseThePressureAtTheirEndAndTheForcesMeetWithIt() {
        assertThat(FaceType.muijderman(1, 0.3)).isZero();
        assertThat(FaceType.muijderman(0, 0.3)).isZero();
        near(FaceType.muijderman(0.4, 0.3), g1(0.4, 0.3), 1e-12);
        double dam = Math.PI * (RG * RG - RI * RI);
        for (double angle : new double[] {0.2, 0.4}) {
            Passage p = face("hydrodynamic face", 1500, Double.NaN, Bound.NOMINAL, grooves(angle));
            FluidState up = air(2e6);
            double low = 1e5 + up.density() * 0.15 * 1500 * 1500 * (RO * RO - RI * RI);
            Passage.Film film = p.film(up, air(1e5));
            double h = film.gap();
            double pg = end(h, 2e6, 1.85e-5, 1500, angle, true);
            double opening =
                    0.5 * (2e6 + pg) * (AREA - dam) + (low + FilmLaws.conedGas(1, pg / low) * (pg - low)) * dam;
            near(opening, closing(2e6, low, 0.0312, 30), 1e-3);
            near(film.force(), closing(2e6, low, 0.0312, 30), 1e-3);
            PassageFlow flow = p.flow(up, air(1e5));
            near(note(flow, "hydrodynamic face", "stable gap, m"), h, 1e-9);
            double mass = slot(h, RG - RI, 1500, 0.8e-6, 0.3).flow(up, low, EVEN, slip(up, low, h)).flux
                    * perimeter(RI, RG)
                    * h
                    * (pg / 2e6)
                    * (pg / 2e6);
            near(flow.massFlow(), mass, 1e-6);
            // Above the speed named it lifts, below it does not.
            double least = film.liftOffSpeed();
            assertThat(least).isBetween(1.0, 1499.0);
            Passage above = face("hydrodynamic face", 1.004 * least, Double.NaN, Bound.NOMINAL, grooves(angle));
            Passage below = face("hydrodynamic face", 0.99 * least, Double.NaN, Bound.NOMINAL, grooves(angle));
            // at the same driving pressures: what rotation adds to them is small
            assertThat(note(above.flow(up, air(1e5)), "hydrodynamic face", "stable gap, m"))
                    .isPositive();
            assertThat(note(below.flow(up, air(1e5)), "face in contact", "effective gap, m"))
                    .isPositive();
        }
        Object[] usual = {"groove radius", RG, "groove depth", DEPTH, "balance radius", 0.0312, "spring force", 30.0};
        near(
                face("hydrodynamic face", 1500, Double.NaN, Bound.NOMINAL, usual)
                        .film(air(2e6), air(1e5))
                        .gap(),
                face("hydrodynamic face", 1500, Double.NaN, Bound.NOMINAL, grooves(Math.toRadians(15)))
                        .film(air(2e6), air(1e5))
                        .gap(),
                1e-9);
    }

    @Test
    void groovesInALiquidRaiseItWithoutThatLimit() {
        double angle = 0.3;
        double dam = Math.PI * (RG * RG - RI * RI);
        Passage p = face("hydrodynamic face", 300, Double.NaN, Bound.NOMINAL, grooves(angle, "spring force", 200.0));
        FluidState up = water(2e6);
        double low = 1e5 + up.density() * 0.15 * 300 * 300 * (RO * RO - RI * RI);
        Passage.Film film = p.film(up, water(1e5));
        double h = film.gap();
        double pg = end(h, 2e6, 1e-3, 300, angle, false);
        double opening = 0.5 * (2e6 + pg) * (AREA - dam) + 0.5 * (pg + low) * dam;
        double closing = Math.PI * (2e6 * (RO * RO - 0.0312 * 0.0312) + low * (0.0312 * 0.0312 - RI * RI)) + 200;
        near(film.force(), opening, 1e-3);
        PassageFlow flow = p.flow(up, water(1e5));
        if (!Double.isNaN(note(flow, "hydrodynamic face", "stable gap, m"))) {
            near(opening, closing, 1e-3);
            double mass =
                    slot(h, RG - RI, 300, 0.8e-6, 0.3).solve(up, low, EVEN).flux() * perimeter(RI, RG) * h * pg / 2e6;
            near(flow.massFlow(), mass, 1e-5);
        }
    }

    @Test
    void againstTheGroovesTheDamsFlowIsLeftAsItIs() {
        Passage p = face("hydrodynamic face", 1500, Double.NaN, Bound.NOMINAL, grooves(0.25, "from at", "inner"));
        FluidState up = air(1.5e6);
        PassageFlow flow = p.flow(up, air(1e6));
        assertThat(flow.massFlow()).isPositive();
        Passage.Film film = p.film(up, air(1e6));
        double head = up.density() * 0.15 * 1500 * 1500 * (RO * RO - RI * RI);
        double low = 1e6 - head;
        double h = film.gap();
        double mass =
                slot(h, RG - RI, 1500, 0.8e-6, 0.3).flow(up, low, EVEN, slip(up, low, h)).flux * perimeter(RI, RG) * h;
        near(flow.massFlow(), mass, 1e-5);
    }

    @Test
    void groovesThatAddMoreThanThereIsAreNotEstablishedAndTheRangeIsTold() {
        Passage p = face("hydrodynamic face", 1500, Double.NaN, Bound.NOMINAL, grooves(0.25));
        assertThat(doubts(p.flow(air(2e6), air(1e5)), "hydrodynamic face")).isFalse();
        assertThat(doubts(p.flow(air(1e6), air(0.98e6)), "hydrodynamic face")).isTrue();
        assertThat(outside(p.flow(air(2e6), air(1e5)), "surface speed")).isFalse();
        assertThat(outside(p.flow(air(3.4e6), air(1e5)), "pressure")).isFalse();
        assertThat(outside(p.flow(air(3.5e6), air(1e5)), "pressure")).isTrue();
        assertThat(outside(
                        face("hydrodynamic face", 3810, Double.NaN, Bound.NOMINAL, grooves(0.25))
                                .flow(air(2e6), air(1e5)),
                        "surface speed"))
                .isTrue();
        assertThat(outside(
                        face("hydrodynamic face", 3790, Double.NaN, Bound.NOMINAL, grooves(0.25))
                                .flow(air(2e6), air(1e5)),
                        "surface speed"))
                .isFalse();
        assertThat(outside(face(5000, "gap", 5e-6).flow(air(5e6), air(1e5)), "surface speed"))
                .isFalse();
    }

    @Test
    void aLeakTooSmallToCarryItsFilmsHeatIsNotEstablished() {
        // heat / (m cp) = 200 K lies between these speeds
        double h = 3e-6;
        for (double speed = 100; speed < 6000; speed *= 1.2) {
            Passage p = face(speed, "gap", h);
            PassageFlow flow = p.flow(air(1e6), air(4e5));
            if (flow.massFlow() <= 0) {
                continue;
            }
            double warming = flow.heat() / (flow.massFlow() * AIR.heatCapacity());
            assertThat(doubts(flow, "face film heat"))
                    .as("%s rad/s, %s K", speed, warming)
                    .isEqualTo(warming > 200);
            assertThat(doubts(face(speed, "gap", h, "film heat share", 0.0).flow(air(1e6), air(4e5)), "face film heat"))
                    .isFalse();
        }
    }

    @Test
    void aConeThatClosesAtLittleAndOpensAtMuchHasATippingGap() {
        // A gas film between grooves falls with the gap; with a cone open to the low pressure it rises first.
        Passage p = face(0, "balance radius", 0.0345, "coning", -2e-6, "spring force", 0.0);
        PassageFlow flow = p.flow(air(1e6), air(1e5));
        // nothing holds it: closes from little, opens from much
        double high = AREA * (1e5 + FilmLaws.conedGas(1, 10) * 9e5);
        boolean blown = high > closing(1e6, 1e5, 0.0345, 0);
        assertThat(doubts(flow, "face balance")).isEqualTo(blown);
        assertThat(note(flow, "face in contact", "effective gap, m")).isNotEqualTo(blown ? 0 : Double.NaN);
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThatThrownBy(() -> face(0, "gap", 5e-6, "outer radius", RI))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("face: outer radius 0.0300000 m is not above the inner radius 0.0300000 m");
        assertThatThrownBy(() -> face(0)).hasMessage("face: needs a gap, or a balance radius to find it from");
        assertThatThrownBy(() -> face(0, "gap", 0.0))
                .hasMessage("face: needs a gap, or a balance radius to find it from");
        assertThatThrownBy(() -> face(0, "balance radius", 0.033, "film stiffness", 1e7))
                .hasMessage("face: a film stiffness needs the gap it is stated for");
        for (double radius : new double[] {RI, RO, 0.05}) {
            assertThatThrownBy(() -> face(
                            "hydrodynamic face",
                            0,
                            Double.NaN,
                            Bound.NOMINAL,
                            "groove radius",
                            radius,
                            "groove depth",
                            5e-6,
                            "balance radius",
                            0.032))
                    .hasMessageContaining("is not between");
        }
    }
}
