package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.rotating.ForcedVortex;

/**
 * A slinger or viscoseal: rotation holds a liquid back.
 *
 * <pre>{@code slinger:    dp_max = rho (k w)^2 (ro^2 - ri^2) / 2
 * viscoseal:  dp_max = 6 mu U L / (L* c^2)}</pre>
 *
 * <p>{@code from} holds the liquid, at the outer radius. Up to dp_max the interface stands between the radii and nothing passes; above it the
 * surplus drives a leak through the gap. Backwards (more pressure in {@code to}) the gap leaks as a still one. k: swirl of the liquid over
 * that of the slinger, 0.9 bladed, 0.5 smooth [common practice]; L* of a good laminar viscoseal is about 11 [from memory; W. K. Stair, R. H.
 * Hale, 1965]. Turbulent viscoseals are not covered.
 */
final class SlingerType implements PassageType {
    private static final double VISCOSEAL = 11;
    /** Share of the pressure difference that leaks by while the interface holds, so that flow always has a slope [invented]. */
    private static final double TRACE = 1e-6;

    @Override
    public String key() {
        return "slinger";
    }

    @Override
    public String description() {
        return "A slinger or viscoseal that holds a liquid back by rotation; leaks through its gap when overcome.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                PassageField.positive(
                        "inner radius",
                        Dimension.LENGTH,
                        "Innermost radius the interface may reach; the shaft of a viscoseal."),
                PassageField.positive("outer radius", Dimension.LENGTH, "Tip radius, on the liquid's side."),
                PassageField.positive("gap", Dimension.LENGTH, "Clearance to the housing."),
                PassageField.choice(
                        "surface",
                        "bladed",
                        List.of("bladed", "smooth", "grooved"),
                        "Blades, a smooth disc, or a viscoseal's grooves."),
                PassageField.optional(
                        "swirl ratio",
                        Dimension.NUMBER,
                        "0",
                        0,
                        1,
                        "Swirl of the liquid over that of the slinger; 0: 0.9 bladed, 0.5 smooth."),
                Fields.maybe(
                        "length",
                        Dimension.LENGTH,
                        "Length of the leak path; without it the difference of the radii."));
    }

    @Override
    public String page() {
        return "slinger";
    }

    @Override
    public SealKind kind() {
        return SealKind.OPEN;
    }

    @Override
    public GapKind gap(PassageSpec spec) {
        return GapKind.RADIAL;
    }

    @Override
    public DrivingHead drive(PassageSpec spec, double gap, double speed, FluidState from, FluidState to) {
        return DrivingHead.slinger(spec, gap, speed, from, to);
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return new Slinger(spec, conditions);
    }

    private static final class Slinger extends DirectedPassage {
        private final double inner;
        private final double outer;
        private final double gap;
        private final double length;
        private final double speed;
        private final double swirl;
        private final boolean grooved;
        private final double area;
        private final FrictionSlot slot;
        private final Throttle.Flashing flashing;

        Slinger(PassageSpec spec, Conditions conditions) {
            super(spec);
            inner = Fields.positive(spec, "inner radius", "m");
            outer = Fields.positive(spec, "outer radius", "m");
            gap = Fields.clearance(spec, conditions, spec.number("gap", Double.NaN));
            String surface = spec.word("surface", "bladed");
            grooved = "grooved".equals(surface);
            if (outer < inner || (outer == inner && !grooved)) {
                throw new IllegalArgumentException(SimpleDucts.text(
                        "slinger: outer radius %g m is not above the inner radius %g m", outer, inner));
            }
            length = spec.number("length", Math.max(outer - inner, gap));
            speed = conditions.rotorSpeed();
            double given = spec.number("swirl ratio", 0);
            double k = given > 0 ? given : "bladed".equals(surface) ? 0.9 : 0.5;
            // How well blades carry the liquid decides what is held: 0.8 to 1 of the nominal head [common practice].
            double hold = Fields.band(conditions.bound(), -0.05, -0.1);
            swirl = Math.min(1, k * hold);
            area = 2 * Math.PI * outer * gap;
            slot = new FrictionSlot(2 * gap, length, Friction.SLOT, 0.8e-6, 0.5, 0, Math.abs(speed) * outer, 1, 1);
            flashing = Fields.slot(conditions.bound());
        }

        /** Largest pressure held by the fluid at {@code from}, Pa. */
        private double held(FluidState from) {
            if (grooved) {
                return 6 * from.fluid().viscosity(from) * Math.abs(speed) * inner * length / (VISCOSEAL * gap * gap);
            }
            return from.density() * ForcedVortex.enthalpyStep(swirl * speed, inner, outer);
        }

        @Override
        public double interfaceRadius(FluidState from, FluidState to) {
            double over = from.pressure() - to.pressure();
            double turning = swirl * speed;
            double squared = outer * outer - 2 * Math.max(0, over) / (from.density() * turning * turning);
            return grooved || !(squared > inner * inner) ? Double.NaN : Math.sqrt(squared);
        }

        @Override
        double drive(FluidState from, FluidState to) {
            double x = from.pressure() - to.pressure();
            double held = held(from);
            if (held == 0) {
                return x;
            }
            if (x <= 0) {
                // Meets the flat side with its slope.
                double ease = 0.01 * held;
                return x - (1 - TRACE) * x * ease * ease / (x * x + ease * ease);
            }
            // What is above the held pressure, rounded over 2 % of it; a trace is let through below, so that the slope
            // is not zero.
            double width = 0.02 * held;
            double over = x - held;
            double rounded = 0.5 * (over + Math.sqrt(over * over + width * width));
            double rest = 0.5 * (Math.sqrt(held * held + width * width) - held);
            double surplus = Math.max(0, rounded - rest);
            return surplus + TRACE * x;
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            FrictionSlot.Result r = slot.solve(up, down, flashing);
            Notices notices = new Notices().extrapolated(r.extrapolated(), up);
            if (grooved) {
                notices.estimate("viscoseal", "sealing parameter", VISCOSEAL);
                double re = up.density() * Math.abs(speed) * inner * gap / r.meanViscosity();
                notices.range("viscoseal", "gap Reynolds number", re, 0, 1000);
            } else {
                notices.estimate("slinger", "swirl ratio", swirl);
            }
            // Drag is charged on the wetted part at full depth: the liquid is on the rotor whether it leaks or not.
            double heat = grooved
                    ? Friction.dragPower(up.density(), r.meanViscosity(), speed, inner, length, gap)
                    : forward ? FilmLaws.faceDrag(up.density(), r.meanViscosity(), speed, inner, outer, gap) : 0;
            return answer(
                    up,
                    forward,
                    r.flux() * area,
                    area,
                    r.choked(),
                    r.exitPressure(),
                    r.reynolds(),
                    heat,
                    NO_STAGES,
                    notices);
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            // Forward the drive itself is flat at rest; its own ease would be too late. See drive().
            return area * slot.slopeAtRest(up);
        }

        @Override
        double openArea() {
            return area;
        }

        @Override
        public double diffusionLength() {
            return length;
        }

        @Override
        public double surfaceSpeed() {
            return Math.abs(speed) * outer;
        }

        @Override
        public double gap() {
            return gap;
        }
    }
}
