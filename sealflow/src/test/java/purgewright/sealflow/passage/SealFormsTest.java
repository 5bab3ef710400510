package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.sealflow.Notice;
import purgewright.sealflow.passage.Conditions.Bound;

@DisplayName(
        "Rings, rims, brushes, faces, slingers and measured leaks by their formulas, at every bound, with what they note")
class SealFormsTest {
    private static final PerfectGas AIR = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
    private static final PerfectGas HELIUM = new PerfectGas("helium", 2077.26, 5.0 / 3, 1.99e-5);
    private static final FluidState UP = AIR.atPressureTemperature(1e6, 300);
    private static final Throttle.Flashing EVEN = Throttle.Flashing.EQUILIBRIUM;
    private static final double RADIUS = 0.03;

    private static FluidState air(double pressure) {
        return AIR.atPressureTemperature(pressure, 300);
    }

    private static FluidState water(double pressure) {
        return StiffLiquid.WATER.atPressureTemperature(pressure, 293);
    }

    private static Passage make(String type, double clearance, double speed, Bound bound, Object... fields) {
        return make(type, RADIUS, clearance, speed, Double.NaN, bound, fields);
    }

    private static Passage make(
            String type, double radius, double clearance, double speed, double running, Bound bound, Object... fields) {
        Map<String, Object> all = new HashMap<>();
        for (int i = 0; i < fields.length; i += 2) {
            all.put((String) fields[i], fields[i + 1]);
        }
        return PassageTypes.find(type)
                .orElseThrow()
                .build(PassageChecks.spec(type, radius, clearance, all), new Conditions(speed, running, bound));
    }

    private static void is(double value, double expected) {
        assertThat(value).isCloseTo(expected, within(1e-9 * Math.abs(expected)));
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

    private static boolean notes(PassageFlow flow, Notice.Key key, String model) {
        return flow.notices().stream()
                .anyMatch(n -> n.key() == key && model.equals(n.values().get("model")));
    }

    private static boolean outside(PassageFlow flow, String quantity) {
        return flow.notices().stream()
                .anyMatch(n -> n.key() == Notice.Key.OUT_OF_RANGE
                        && quantity.equals(n.values().get("quantity")));
    }

    private static double turbulent(double e) {
        return FrictionSlot.turbulentFactor(e);
    }

    /** Where two fluids meet at rest the flow turns with the lesser of both ends' slopes, ten millionths of the pressure either way. */
    private static void turns(Passage p, ToDoubleFunction<FluidState> slope) {
        double dp = 1e-4;
        FluidState other = HELIUM.atPressureTemperature(1e6 - dp, 300);
        double least = Math.min(slope.applyAsDouble(UP), slope.applyAsDouble(other));
        double tolerance = 2e-3 * least + 1e-18;
        assertThat(p.flow(UP, other).massFlow() / dp).isCloseTo(least, within(tolerance));
        assertThat(p.flow(other, UP).massFlow() / dp).isCloseTo(-least, within(tolerance));
        FluidState more = HELIUM.atPressureTemperature(1e6 + dp, 300);
        assertThat(p.flow(more, UP).massFlow() / dp).isCloseTo(least, within(tolerance));
        assertThat(p.flow(UP, more).massFlow() / dp).isCloseTo(-least, within(tolerance));
    }

    @Test
    void anAnnulusIsASlotOffCentreByItsBound() {
        double c = 50e-6;
        double area = 2 * Math.PI * c * (RADIUS + c / 2);
        for (String type : new String[] {"bushing", "floating ring"}) {
            for (Bound bound : Bound.values()) {
                double usual = "bushing".equals(type) ? 0 : 0.5;
                double e = bound == Bound.LOW ? 0 : bound == Bound.HIGH ? 1 : usual;
                FrictionSlot slot =
                        new FrictionSlot(2 * c, 0.01, 96, 0.8e-6, 0.3, 0, 2000 * RADIUS, 1 + 1.5 * e * e, turbulent(e));
                Passage p = make(type, c, -2000, bound, "length", 0.01);
                FrictionSlot.Result r = slot.solve(UP, 4e5, EVEN);
                PassageFlow flow = p.flow(UP, air(4e5));
                is(flow.massFlow(), area * r.flux());
                is(flow.gapVelocity(), r.flux() / UP.density());
                is(flow.reynolds(), r.reynolds());
                is(flow.throatPressure(), r.exitPressure());
                assertThat(flow.choked()).isEqualTo(r.choked());
                is(flow.heat(), Friction.dragPower(r.meanDensity(), r.meanViscosity(), 2000, RADIUS, 0.01, c));
                assertThat(flow.notices()).isEmpty();
                is(p.diffusionArea(), area);
                assertThat(p.diffusionLength()).isEqualTo(0.01);
                is(p.surfaceSpeed(), 60);
                assertThat(p.gap()).isEqualTo(c);
                turns(p, s -> area * slot.slopeAtRest(s));
            }
            // Three rings: thrice the length, two heads and two inlets lost on the way.
            FrictionSlot three =
                    new FrictionSlot(2 * c, 0.03, 96, 2e-6, 0.2, 2 * 1.2, 0, 1 + 1.5 * 0.09, turbulent(0.3));
            Passage p = make(
                    type,
                    c,
                    0,
                    Bound.NOMINAL,
                    "length",
                    0.01,
                    "rings",
                    3.0,
                    "roughness",
                    2e-6,
                    "inlet loss",
                    0.2,
                    "eccentricity",
                    0.3);
            is(
                    p.flow(UP, air(4e5)).massFlow(),
                    area * three.solve(UP, 4e5, EVEN).flux());
            assertThat(p.diffusionLength()).isEqualTo(0.03);
            assertThat(p.surfaceSpeed()).isZero();
        }
        assertThat(outside(
                        make("bushing", 5e-3, 0, Bound.NOMINAL, "length", 0.01).flow(UP, air(4e5)),
                        "clearance / radius"))
                .isTrue();
        assertThat(outside(
                        make("bushing", 2.9e-3, 0, Bound.NOMINAL, "length", 0.01)
                                .flow(UP, air(4e5)),
                        "clearance / radius"))
                .isFalse();
        // A running clearance takes the place of the cold one, and none is closer than a micrometre.
        is(make("bushing", RADIUS, c, 0, 20e-6, Bound.NOMINAL, "length", 0.01).gap(), 20e-6);
        is(make("bushing", RADIUS, c, 0, -5e-6, Bound.NOMINAL, "length", 0.01).gap(), 1e-6);
    }

    @Test
    void aSegmentedRingIsItsFilmAndItsJoints() {
        for (Bound bound : Bound.values()) {
            double h = 3e-6 * (bound == Bound.LOW ? 1 / 1.71 : bound == Bound.HIGH ? 1.71 : 1);
            FrictionSlot slot = new FrictionSlot(2 * h, 2e-3, 96, 0, 0.3, 0, 1000 * RADIUS, 1, 1);
            double film = 2 * Math.PI * RADIUS * h;
            double joints = 0.7 * 3 * 0.2e-6;
            Passage p = make(
                    "segmented ring",
                    Double.NaN,
                    1000,
                    bound,
                    "segments",
                    3.0,
                    "pad gap",
                    3e-6,
                    "dam length",
                    2e-3,
                    "joint area",
                    0.2e-6);
            FrictionSlot.Result r = slot.solve(UP, 4e5, EVEN);
            PassageFlow flow = p.flow(UP, air(4e5));
            Throttle.Flux jet = Throttle.flux(UP, 4e5, EVEN);
            is(flow.massFlow(), film * r.flux() + joints * jet.flux());
            assertThat(flow.choked()).as("its joints are").isTrue();
            assertThat(p.flow(UP, air(9e5)).choked()).isFalse();
            is(flow.gapVelocity(), flow.massFlow() / (UP.density() * (film + joints)));
            is(note(flow, "segmented ring", "pad gap, m"), h);
            is(p.diffusionArea(), film + joints);
            is(p.gap(), h);
            assertThat(p.diffusionLength()).isEqualTo(2e-3);
            is(p.surfaceSpeed(), 30);
            turns(p, s -> film * slot.slopeAtRest(s) + joints * Throttle.slopeAtRest(s));
        }
        FrictionSlot usual = new FrictionSlot(4e-6, 1e-3, 96, 0, 0.3, 0, 0, 1, 1);
        Passage plain = make("segmented ring", Double.NaN, 0, Bound.NOMINAL, "segments", 3.0);
        is(
                plain.flow(UP, air(4e5)).massFlow(),
                2 * Math.PI * RADIUS * 2e-6 * usual.solve(UP, 4e5, EVEN).flux());
        assertThat(notes(plain.flow(UP, air(4e5)), Notice.Key.NOT_ESTABLISHED, "segmented ring"))
                .isFalse();
        assertThat(notes(plain.flow(UP, air(4e5)), Notice.Key.NOT_ESTABLISHED, "gas film"))
                .isFalse();
        assertThat(notes(plain.flow(water(1e6), water(4e5)), Notice.Key.NOT_ESTABLISHED, "segmented ring"))
                .isTrue();
        // Kn = 0.1 at 2 um and 300 K lies near 34 kPa of air.
        double path = 1.85e-5 * Math.sqrt(Math.PI * 287.05 * 300 / 2);
        double thin = path / (0.1 * 2e-6);
        assertThat(notes(plain.flow(UP, air(0.98 * thin)), Notice.Key.NOT_ESTABLISHED, "gas film"))
                .isTrue();
        assertThat(notes(plain.flow(UP, air(1.02 * thin)), Notice.Key.NOT_ESTABLISHED, "gas film"))
                .isFalse();
        assertThat(PassageTypes.find("segmented ring").orElseThrow().rubs()).isTrue();
        assertThat(PassageTypes.find("brush").orElseThrow().rubs()).isFalse();
    }

    @Test
    void aRimGapIsAShortSlotAndTellsItsLeastFlow() {
        double gap = 0.4e-3;
        for (Bound bound : Bound.values()) {
            double loss = bound == Bound.LOW ? 1.2 : bound == Bound.HIGH ? 0.8 : 1;
            for (boolean axial : new boolean[] {true, false}) {
                FrictionSlot slot = new FrictionSlot(2 * gap, 2e-3, 96, 0.8e-6, 0.4 * loss, 0, 1500 * RADIUS, 1, 1);
                double area = 2 * Math.PI * gap * (axial ? RADIUS : RADIUS + gap / 2);
                Passage p = make(
                        "rim",
                        Double.NaN,
                        1500,
                        bound,
                        "gap",
                        gap,
                        "direction",
                        axial ? "axial" : "radial",
                        "overlap",
                        2e-3,
                        "inlet loss",
                        0.4,
                        "pressure variation",
                        5e3);
                PassageFlow flow = p.flow(UP, air(0.999e6));
                double mass = area * slot.solve(UP, 0.999e6, EVEN).flux();
                assertThat(flow.massFlow()).isCloseTo(mass, within(1e-6 * mass));
                RimSealing.Shape shape = axial ? RimSealing.Shape.AXIAL : RimSealing.Shape.RADIAL;
                double least = RimSealing.minimumFlow(shape, UP.density(), RADIUS, gap, 1500);
                is(note(flow, "rim seal, disc pumping", "least sealing flow, kg/s"), least);
                is(
                        note(flow, "rim seal, disc pumping", "effectiveness"),
                        RimSealing.effectivenessPumping(shape, flow.massFlow() / least));
                double outside = RimSealing.minimumFlowExternal(UP.density(), RADIUS, gap, 5e3);
                is(note(flow, "rim seal, pressure variation", "least sealing flow, kg/s"), outside);
                is(
                        note(flow, "rim seal, pressure variation", "effectiveness"),
                        RimSealing.effectivenessExternal(shape, flow.massFlow() / outside));
                is(p.diffusionArea(), area);
                assertThat(p.diffusionLength()).isEqualTo(2e-3);
            }
        }
        Passage still = make("rim", Double.NaN, 0, Bound.NOMINAL, "gap", gap);
        assertThat(still.flow(UP, air(0.9e6)).notices()).isEmpty();
        FrictionSlot usual = new FrictionSlot(2 * gap, gap, 96, 0.8e-6, 0.5, 0, 0, 1, 1);
        is(
                still.flow(UP, air(0.9e6)).massFlow(),
                2 * Math.PI * gap * RADIUS * usual.solve(UP, 0.9e6, EVEN).flux());
    }

    @Test
    void aBrushIsAClearanceOrItsPackAfterErgun() {
        double area = 2 * Math.PI * RADIUS * 50e-6;
        double jet = Throttle.flux(UP, 7e5, EVEN).flux();
        for (Bound bound : Bound.values()) {
            double band = bound == Bound.LOW ? 1 / 1.4 : bound == Bound.HIGH ? 1.4 : 1;
            Passage p = make("brush", Double.NaN, 1000, bound, "effective clearance", 50e-6);
            PassageFlow flow = p.flow(UP, air(7e5));
            is(flow.massFlow(), band * area * jet);
            is(flow.throatPressure(), 7e5);
            assertThat(flow.choked()).isFalse();
            assertThat(flow.notices()).isEmpty();
            is(p.diffusionArea(), area);
            assertThat(p.diffusionLength()).isEqualTo(1e-3);
            is(p.surfaceSpeed(), 30);
            is(p.gap(), 50e-6);
            turns(p, s -> band * area * Throttle.slopeAtRest(s));
        }
        double fence = 2 * Math.PI * RADIUS * 1e-3;
        double d = 0.07e-3;
        double e = 0.25;
        for (Bound bound : Bound.values()) {
            double band = bound == Bound.LOW ? 1 / 1.4 : bound == Bound.HIGH ? 5 : 1;
            Passage p = make(
                    "brush",
                    Double.NaN,
                    0,
                    bound,
                    "bristle diameter",
                    d,
                    "pack thickness",
                    0.8e-3,
                    "fence height",
                    1e-3,
                    "porosity",
                    e);
            for (double down : new double[] {9.9e5, 7e5, 2e5}) {
                PassageFlow flow = p.flow(UP, air(down));
                // dp/dx = a mu U + b rho U^2 of a gas at the mean density: a mu G + b G^2 = rho dp / t
                double a = 150 * 1.85e-5 * Math.pow(1 - e, 2) / (Math.pow(e, 3) * d * d);
                double b = 1.75 * (1 - e) / (Math.pow(e, 3) * d);
                double drive = UP.density() * 0.5 * (1 + down / 1e6) * (1e6 - down) / 0.8e-3;
                double g = (-a + Math.sqrt(a * a + 4 * b * drive)) / (2 * b);
                assertThat(a * g + b * g * g).isCloseTo(drive, within(1e-6 * drive));
                double porous = band * g;
                double free = e * Throttle.flux(UP, down, EVEN).flux();
                double series = 1 / Math.sqrt(1 / (porous * porous) + 1 / (free * free));
                assertThat(flow.massFlow()).isCloseTo(fence * series, within(1e-6 * fence * series));
                is(note(flow, "brush pack", "porosity"), e);
                assertThat(flow.choked()).isEqualTo(down < 5e5);
            }
            is(p.diffusionArea(), fence * e);
            assertThat(p.diffusionLength()).isEqualTo(0.8e-3);
            is(p.gap(), 1e-3);
            double resistance = 150 * Math.pow(1 - e, 2) / (Math.pow(e, 3) * d * d);
            turns(p, s -> {
                double porous =
                        band * s.density() / (0.8e-3 * resistance * s.fluid().viscosity(s));
                double free = e * Throttle.slopeAtRest(s);
                return fence * porous * free / Math.hypot(porous, free);
            });
        }
        Passage usual = make(
                "brush",
                Double.NaN,
                0,
                Bound.NOMINAL,
                "bristle diameter",
                d,
                "pack thickness",
                0.8e-3,
                "fence height",
                1e-3);
        is(note(usual.flow(UP, air(7e5)), "brush pack", "porosity"), 0.2);
        Passage p = make("brush", Double.NaN, 1000, Bound.NOMINAL, "effective clearance", 50e-6);
        assertThat(outside(p.flow(UP, air(1e6 - 518e3)), "pressure difference")).isTrue();
        assertThat(outside(p.flow(UP, air(1e6 - 516e3)), "pressure difference")).isFalse();
        assertThat(outside(p.flow(AIR.atPressureTemperature(1e6, 923), air(7e5)), "temperature"))
                .isTrue();
        assertThat(outside(p.flow(AIR.atPressureTemperature(1e6, 921), air(7e5)), "temperature"))
                .isFalse();
        assertThat(outside(
                        make("brush", Double.NaN, 12300, Bound.NOMINAL, "effective clearance", 50e-6)
                                .flow(UP, air(7e5)),
                        "surface speed"))
                .isTrue();
        assertThat(notes(p.flow(water(1e6), water(7e5)), Notice.Key.NOT_ESTABLISHED, "brush"))
                .isTrue();
        assertThat(notes(p.flow(UP, air(7e5)), Notice.Key.NOT_ESTABLISHED, "brush"))
                .isFalse();
        // of a liquid the density stays
        double a = 150 * 1e-3 * 0.64 / (0.008 * d * d);
        double b = 1.75 * 0.8 / (0.008 * d);
        FluidState wet = water(1e6);
        double drive = wet.density() * 3e5 / 0.8e-3;
        double g = 2 * drive / (a + Math.sqrt(a * a + 4 * b * drive));
        double free = 0.2 * Throttle.flux(wet, 7e5, EVEN).flux();
        double mass = fence * g * free / Math.hypot(g, free);
        assertThat(usual.flow(wet, water(7e5)).massFlow()).isCloseTo(mass, within(1e-6 * mass));
        for (String missing : new String[] {"bristle diameter", "pack thickness", "fence height"}) {
            Map<String, Object> fields =
                    new HashMap<>(Map.of("bristle diameter", d, "pack thickness", 0.8e-3, "fence height", 1e-3));
            fields.remove(missing);
            assertThatThrownBy(() -> PassageTypes.find("brush")
                            .orElseThrow()
                            .build(
                                    PassageChecks.spec("brush", RADIUS, Double.NaN, fields),
                                    new Conditions(0, Double.NaN, Bound.NOMINAL)))
                    .as(missing)
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("needs an effective clearance");
        }
    }

    private static Object[] slinger(Object... more) {
        Object[] base = {"inner radius", 0.03, "outer radius", 0.04, "gap", 0.2e-3};
        Object[] all = new Object[base.length + more.length];
        System.arraycopy(base, 0, all, 0, base.length);
        System.arraycopy(more, 0, all, base.length, more.length);
        return all;
    }

    @Test
    void aSlingerHoldsByItsSwirlAndLeaksTheSurplus() {
        double gap = 0.2e-3;
        double speed = 2000;
        double area = 2 * Math.PI * 0.04 * gap;
        FluidState back = water(2e5);
        Object[][] surfaces = {{"bladed", 0.0, 0.9}, {"smooth", 0.0, 0.5}, {"bladed", 0.7, 0.7}, {"smooth", 1.0, 1.0}};
        for (Object[] surface : surfaces) {
            for (Bound bound : Bound.values()) {
                double k = (double) surface[2];
                double share = bound == Bound.LOW ? 1.05 : bound == Bound.HIGH ? 0.9 : 1;
                double swirl = Math.min(1, k * share);
                Passage p = make(
                        "slinger",
                        Double.NaN,
                        -speed,
                        bound,
                        slinger("surface", surface[0], "swirl ratio", surface[1]));
                double density = water(3e6).density();
                double held = 0.5 * density * Math.pow(swirl * speed, 2) * (0.04 * 0.04 - 0.03 * 0.03);
                // from it the surplus drives what the gap passes
                FluidState from = water(2e5 + 1.5 * held);
                held *= from.density() / density;
                double surplus = from.pressure() - 2e5 - held;
                double width = 0.02 * held;
                double rounded = 0.5 * (surplus + Math.hypot(surplus, width)) - 0.5 * (Math.hypot(held, width) - held);
                double drive = rounded + 1e-6 * (from.pressure() - 2e5);
                FrictionSlot slot = new FrictionSlot(2 * gap, 0.01, 96, 0.8e-6, 0.5, 0, speed * 0.04, 1, 1);
                FrictionSlot.Result r = slot.solve(from, from.pressure() - drive, EVEN);
                PassageFlow flow = p.flow(from, back);
                assertThat(flow.massFlow()).isCloseTo(area * r.flux(), within(1e-6 * area * r.flux()));
                is(note(flow, "slinger", "swirl ratio"), swirl);
                assertThat(flow.heat())
                        .isCloseTo(
                                FilmLaws.faceDrag(from.density(), r.meanViscosity(), speed, 0.03, 0.04, gap),
                                within(1e-9 * flow.heat()));
                assertThat(flow.reynolds()).isCloseTo(r.reynolds(), within(1e-6 * r.reynolds()));
                assertThat(flow.throatPressure()).isCloseTo(r.exitPressure(), within(1e-6 * r.exitPressure()));
                // The interface: p at the tip less rho w^2 (ro^2 - r^2)/2 is the other side's.
                FluidState under = water(2e5 + 0.5 * held);
                double r2 = 0.04 * 0.04 - 2 * (under.pressure() - 2e5) / (under.density() * Math.pow(swirl * speed, 2));
                is(p.interfaceRadius(under, back), Math.sqrt(r2));
                assertThat(p.interfaceRadius(from, back)).isNaN();
                is(p.interfaceRadius(back, under), 0.04);
                // what is held back passes a trace
                assertThat(p.flow(under, back).massFlow()).isPositive().isLessThan(0.02 * flow.massFlow());
                assertThat(p.flow(back, from).massFlow()).isNegative();
                is(p.diffusionArea(), area);
                is(p.diffusionLength(), 0.01);
                is(p.surfaceSpeed(), 80);
                is(p.gap(), gap);
            }
        }
        // backwards the gap leaks as a still one: no heat is charged
        Passage p = make("slinger", Double.NaN, speed, Bound.NOMINAL, slinger());
        FrictionSlot slot = new FrictionSlot(2 * gap, 0.01, 96, 0.8e-6, 0.5, 0, speed * 0.04, 1, 1);
        FluidState high = water(9e5);
        PassageFlow reverse = p.flow(back, high);
        double held = back.density() * 0.5 * Math.pow(0.9 * speed, 2) * (0.04 * 0.04 - 0.03 * 0.03);
        double x = -7e5;
        double ease = 0.01 * held;
        double drive = x - (1 - 1e-6) * x * ease * ease / (x * x + ease * ease);
        double mass = area * slot.solve(high, 9e5 + drive, EVEN).flux();
        assertThat(reverse.massFlow()).isCloseTo(-mass, within(1e-6 * mass));
        assertThat(reverse.heat()).isZero();
        // at rest it is a gap
        Passage still = make("slinger", Double.NaN, 0, Bound.NOMINAL, slinger("length", 0.02));
        FrictionSlot open = new FrictionSlot(2 * gap, 0.02, 96, 0.8e-6, 0.5, 0, 0, 1, 1);
        double leak = area * open.solve(water(1e6), 2e5, EVEN).flux();
        assertThat(still.flow(water(1e6), back).massFlow()).isCloseTo(leak, within(1e-9 * leak));
        assertThat(still.diffusionLength()).isEqualTo(0.02);
    }

    @Test
    void aViscosealHoldsByViscosity() {
        double c = 0.1e-3;
        double speed = 1000;
        double held = 6 * 1e-3 * speed * 0.03 * 0.05 / (11 * c * c);
        Passage p = make(
                "slinger",
                Double.NaN,
                speed,
                Bound.NOMINAL,
                "inner radius",
                0.03,
                "outer radius",
                0.03,
                "gap",
                c,
                "surface",
                "grooved",
                "length",
                0.05);
        FluidState back = water(2e5);
        double area = 2 * Math.PI * 0.03 * c;
        FluidState from = water(2e5 + 2 * held);
        double width = 0.02 * held;
        double drive =
                0.5 * (held + Math.hypot(held, width)) - 0.5 * (Math.hypot(held, width) - held) + 1e-6 * 2 * held;
        FrictionSlot slot = new FrictionSlot(2 * c, 0.05, 96, 0.8e-6, 0.5, 0, speed * 0.03, 1, 1);
        double mass = area * slot.solve(from, from.pressure() - drive, EVEN).flux();
        PassageFlow flow = p.flow(from, back);
        assertThat(flow.massFlow()).isCloseTo(mass, within(1e-6 * mass));
        assertThat(note(flow, "viscoseal", "sealing parameter")).isEqualTo(11);
        is(flow.heat(), Friction.dragPower(from.density(), 1e-3, speed, 0.03, 0.05, c));
        assertThat(p.interfaceRadius(from, back)).isNaN();
        // rho w R c / mu
        double re = from.density() * speed * 0.03 * c / 1e-3;
        assertThat(re).isGreaterThan(1000);
        assertThat(outside(flow, "gap Reynolds number")).isTrue();
        Passage slow = make(
                "slinger",
                Double.NaN,
                200,
                Bound.NOMINAL,
                "inner radius",
                0.03,
                "outer radius",
                0.03,
                "gap",
                c,
                "surface",
                "grooved",
                "length",
                0.05);
        assertThat(outside(slow.flow(from, back), "gap Reynolds number")).isFalse();
        assertThatThrownBy(() -> make(
                        "slinger", Double.NaN, 0, Bound.NOMINAL, "inner radius", 0.03, "outer radius", 0.03, "gap", c))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("is not above the inner radius");
        assertThatThrownBy(() -> make(
                        "slinger",
                        Double.NaN,
                        0,
                        Bound.NOMINAL,
                        "inner radius",
                        0.03,
                        "outer radius",
                        0.02,
                        "gap",
                        c,
                        "surface",
                        "grooved"))
                .isInstanceOf(IllegalArgumentException.class);
        // without a length, of equal radii the gap itself
        assertThat(make(
                                "slinger",
                                Double.NaN,
                                0,
                                Bound.NOMINAL,
                                "inner radius",
                                0.03,
                                "outer radius",
                                0.03,
                                "gap",
                                c,
                                "surface",
                                "grooved")
                        .diffusionLength())
                .isEqualTo(c);
    }

    @Test
    void aMeasuredLeakScalesByItsLaw() {
        Object[][] gases = {
            {"air", 0.0289647, 18.2e-6},
            {"nitrogen", 0.0280134, 17.6e-6},
            {"helium", 0.0040026, 19.6e-6},
            {"argon", 0.039948, 22.3e-6},
            {"oxygen", 0.0319988, 20.3e-6},
            {"hydrogen", 0.00201588, 8.8e-6}
        };
        String table = "0.8 MPa > 0.1 MPa: 2.1 g/s; 0.4 MPa > 0.1 MPa: 0.5 g/s; 0.2 MPa > 0.1 MPa: 0.1 g/s;";
        double[][] rows = {{8e5, 2.1e-3}, {4e5, 0.5e-3}, {2e5, 0.1e-3}};
        for (Object[] gas : gases) {
            double t = 310;
            double density = (double) gas[1] / (8.31446261815324 * t);
            double mu = (double) gas[2] * Math.pow(t / 293, 0.7);
            for (double[] row : rows) {
                for (Bound bound : Bound.values()) {
                    double band = bound == Bound.LOW ? 0.9 : bound == Bound.HIGH ? 1.1 : 1;
                    FluidState up = air(row[0]);
                    double orifice = band * row[1] * Math.sqrt(up.density() / (row[0] * density));
                    assertThat(make(
                                            "measured",
                                            Double.NaN,
                                            0,
                                            bound,
                                            "table",
                                            table,
                                            "test gas",
                                            gas[0],
                                            "test temperature",
                                            t)
                                    .flow(up, air(1e5))
                                    .massFlow())
                            .isCloseTo(orifice, within(1e-8 * orifice));
                    double laminar = band * row[1] * up.density() * mu / (row[0] * density * 1.85e-5);
                    assertThat(make(
                                            "measured",
                                            Double.NaN,
                                            0,
                                            bound,
                                            "table",
                                            table,
                                            "test gas",
                                            gas[0],
                                            "test temperature",
                                            t,
                                            "law",
                                            "laminar")
                                    .flow(up, air(1e5))
                                    .massFlow())
                            .isCloseTo(laminar, within(1e-8 * laminar));
                }
            }
            // one leak test: laminar, (p1^2 - p2^2) / mu
            Passage lip = make(
                    "static seal",
                    Double.NaN,
                    0,
                    Bound.NOMINAL,
                    "test flow",
                    2e-6,
                    "test pressure",
                    5e5,
                    "test back pressure",
                    2e5,
                    "test gas",
                    gas[0],
                    "test temperature",
                    t);
            double k = 2e-6 * mu / (density * 5e5 * 5e5 * (1 - 0.16));
            double expected = k * 1e6 * UP.density() * (1 - 0.09) / 1.85e-5;
            is(lip.flow(UP, air(3e5)).massFlow(), expected);
            assertThat(lip.flow(UP, air(3e5)).notices()).isEmpty();
            assertThat(lip.flow(UP, air(3e5)).choked()).isFalse();
        }
        Passage usual = make("static seal", Double.NaN, 0, Bound.NOMINAL, "test flow", 2e-6, "test pressure", 5e5);
        double density = 5e5 * 0.0289647 / (8.31446261815324 * 293.15);
        double mu = 18.2e-6 * Math.pow(293.15 / 293, 0.7);
        double b = 101325 / 5e5;
        double f = 2e-6 * mu / (5e5 * density * (1 - b * b));
        is(usual.flow(UP, air(3e5)).massFlow(), f * 1e6 * UP.density() * (1 - 0.09) / 1.85e-5);
        turns(usual, s -> 2 * f * s.density() / s.fluid().viscosity(s));
        assertThat(usual.diffusionArea()).isZero();
        assertThat(usual.diffusionLength()).isEqualTo(1e-3);
        assertThat(usual.surfaceSpeed()).isZero();
        assertThat(usual.gap()).isZero();
    }

    @Test
    void aMeasuredTableTellsItsRangeAndRefusesWhatNoSealDoes() {
        Passage p = make(
                "measured",
                Double.NaN,
                0,
                Bound.NOMINAL,
                "table",
                "0.4 MPa > 0.1 MPa: 0.9 g/s; 0.2 MPa > 0.1 MPa: 0.3 g/s");
        assertThat(p.flow(air(3e5), air(1e5)).notices()).isEmpty();
        assertThat(outside(p.flow(air(3e5), air(0.7e5)), "pressure ratio")).isTrue();
        assertThat(p.flow(air(3e5), air(0.7e5)).choked()).isTrue();
        assertThat(p.flow(air(3e5), air(0.8e5)).choked()).isFalse();
        is(p.flow(air(3e5), air(0.7e5)).massFlow(), p.flow(air(3e5), air(0.1e5)).massFlow());
        assertThat(outside(p.flow(air(4.05e5), air(2e5)), "upstream pressure")).isTrue();
        assertThat(outside(p.flow(air(4.03e5), air(2e5)), "upstream pressure")).isFalse();
        assertThat(outside(p.flow(air(1.97e5), air(1e5)), "upstream pressure")).isTrue();
        assertThat(outside(p.flow(air(1.99e5), air(1e5)), "upstream pressure")).isFalse();
        assertThat(notes(p.flow(water(3e5), water(2e5)), Notice.Key.NOT_ESTABLISHED, "measured leakage"))
                .isTrue();
        for (String law : new String[] {"orifice", "laminar"}) {
            Passage near = make(
                    "measured",
                    Double.NaN,
                    0,
                    Bound.NOMINAL,
                    "law",
                    law,
                    "table",
                    "0.4 MPa > 0.1 MPa: 0.9 g/s; 0.2 MPa > 0.1 MPa: "
                            + ("laminar".equals(law) ? "0.2 g/s" : "0.4 g/s"));
            double dp = 1e-4;
            double slope = near.flow(UP, air(1e6 - dp)).massFlow() / dp;
            double later = near.flow(UP, air(1e6 - 10 * dp)).massFlow() / (10 * dp);
            assertThat(slope).isPositive().isCloseTo(later, within(1e-2 * slope));
            assertThat(near.flow(air(1e6 - dp), UP).massFlow() / dp).isCloseTo(-slope, within(1e-3 * slope));
        }
        String[][] wrong = {
            {"", "no rows"},
            {" ; ", "no rows"},
            {"0.4 MPa: 1 g/s", "is not of the form"},
            {"1 g/s: 0.4 MPa > 0.1 MPa", "is not of the form"},
            {"0.1 MPa > 0.4 MPa: 1 g/s", "needs upstream"},
            {"0.4 MPa > 0.4 MPa: 1 g/s", "needs upstream"},
            {"0.4 MPa > 0.1 MPa: 0 g/s", "needs upstream"},
            {"0.4 MPa > 0.1 MPa: 1 g/s; 0.8 MPa > 0.2 MPa: 2 g/s", "or a row is doubled"},
            {"0.4 MPa > 0.1 MPa: 1 g/s; 0.4 MPa > 0.2 MPa: 2 g/s", "reduced flow rises"},
            {"0.4 MPa > 0.1 furlong: 1 g/s", "furlong"}
        };
        for (String[] row : wrong) {
            assertThatThrownBy(() -> make("measured", Double.NaN, 0, Bound.NOMINAL, "table", row[0]))
                    .as(row[0])
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining(row[1]);
        }
        assertThatThrownBy(() -> make(
                        "measured",
                        Double.NaN,
                        0,
                        Bound.NOMINAL,
                        "table",
                        "0.4 MPa > 0.1 MPa: 1 g/s",
                        "test gas",
                        "neon"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("'neon' is none of air, nitrogen, helium, argon, oxygen, hydrogen");
    }

    @Test
    void liquidOxygenIsNotEstablishedInABrushNorByAGasTest() {
        FluidState wet = Engines.embedded().pure("oxygen").atTemperatureQuality(110, 0.5);
        FluidState down = Engines.embedded().pure("oxygen").atPressureTemperature(2e5, 110);
        assertThat(notes(
                        make("brush", Double.NaN, 0, Bound.NOMINAL, "effective clearance", 50e-6)
                                .flow(wet, down),
                        Notice.Key.NOT_ESTABLISHED,
                        "brush"))
                .isTrue();
        assertThat(notes(
                        make("segmented ring", Double.NaN, 0, Bound.NOMINAL, "segments", 3.0)
                                .flow(wet, down),
                        Notice.Key.NOT_ESTABLISHED,
                        "segmented ring"))
                .isTrue();
        assertThat(notes(
                        make("measured", Double.NaN, 0, Bound.NOMINAL, "table", "0.4 MPa > 0.1 MPa: 1 g/s")
                                .flow(wet, down),
                        Notice.Key.NOT_ESTABLISHED,
                        "measured leakage"))
                .isTrue();
    }
}
