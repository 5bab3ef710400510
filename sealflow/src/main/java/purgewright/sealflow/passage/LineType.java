package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.PassageSpec;

/** A round line with friction, losses and elevation; {@link FrictionSlot} does the flow. */
final class LineType implements PassageType {
    private static final double GRAVITY = 9.80665;

    @Override
    public String key() {
        return "line";
    }

    @Override
    public String description() {
        return "A round line with wall friction, bends and valves as a loss coefficient, elevation, and a choked end.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.DIAMETER,
                PassageField.positive("length", Dimension.LENGTH, "Length along the axis."),
                PassageField.optional(
                        "roughness",
                        Dimension.LENGTH,
                        "1.5 um",
                        0,
                        1e-2,
                        "Roughness of the wall; 1.5 um for drawn tube."),
                PassageField.optional(
                        "loss coefficient",
                        Dimension.NUMBER,
                        "0",
                        0,
                        1e4,
                        "Losses of bends and fittings in velocity heads, spread over the length."),
                PassageField.optional(
                        "inlet loss",
                        Dimension.NUMBER,
                        "0.5",
                        0,
                        10,
                        "Inlet loss in velocity heads beyond the head itself: 0.5 sharp and flush, 0.04 rounded (common practice)."),
                PassageField.optional(
                        "elevation",
                        Dimension.LENGTH,
                        "0 m",
                        -1e4,
                        1e4,
                        "Height of the far end above the near end; the line holds the upstream end's fluid."));
    }

    @Override
    public SealKind kind() {
        return SealKind.DUCT;
    }

    @Override
    public DrivingHead drive(PassageSpec spec, double gap, double speed, FluidState from, FluidState to) {
        return DrivingHead.line(spec, from, to);
    }

    @Override
    public boolean pipe() {
        return true;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        double d = Fields.positive(spec, "diameter", "m");
        double length = Fields.positive(spec, "length", "m");
        // Friction of a clean line is known to about 10 % [common practice]; the band acts on length and losses.
        double friction = Fields.band(conditions.bound(), -0.1, -0.1);
        FrictionSlot slot = new FrictionSlot(
                d,
                length * friction,
                Friction.PIPE,
                spec.number("roughness", 1.5e-6),
                spec.number("inlet loss", 0.5),
                spec.number("loss coefficient", 0) * friction,
                0,
                1,
                1);
        return new Line(
                spec,
                slot,
                Math.PI * d * d / 4,
                d,
                length,
                spec.number("elevation", 0),
                Fields.slot(conditions.bound()));
    }

    /** A duct without rotation. */
    static final class Line extends DirectedPassage {
        private final FrictionSlot slot;
        private final double area;
        private final double diameter;
        private final double length;
        private final double elevation;
        private final Throttle.Flashing flashing;

        Line(
                PassageSpec spec,
                FrictionSlot slot,
                double area,
                double diameter,
                double length,
                double elevation,
                Throttle.Flashing flashing) {
            super(spec);
            this.slot = slot;
            this.area = area;
            this.diameter = diameter;
            this.length = length;
            this.elevation = elevation;
            this.flashing = flashing;
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            FrictionSlot.Result r = slot.solve(up, down, flashing);
            Notices notices = new Notices().extrapolated(r.extrapolated(), up);
            return answer(
                    up,
                    forward,
                    r.flux() * area,
                    area,
                    r.choked(),
                    r.exitPressure(),
                    r.reynolds(),
                    0,
                    NO_STAGES,
                    notices);
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            return area * slot.slopeAtRest(up);
        }

        @Override
        double head() {
            return GRAVITY * elevation;
        }

        @Override
        double openArea() {
            return area;
        }

        @Override
        public double diffusionLength() {
            return length + 0.8 * diameter;
        }

        @Override
        public double surfaceSpeed() {
            return 0;
        }

        @Override
        public double gap() {
            return 0;
        }
    }
}
