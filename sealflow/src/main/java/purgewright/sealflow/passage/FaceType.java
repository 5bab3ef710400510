package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.PassageSpec;

/** A face seal: radial film between a turning and a still face. */
final class FaceType implements PassageType {
    @Override
    public String key() {
        return "face";
    }

    @Override
    public String description() {
        return "A radial film between two faces, fixed gap; gas, liquid or flashing, centrifugal, inertia and exit choke.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                PassageField.positive("inner radius", Dimension.LENGTH, "Inner edge of the film."),
                PassageField.positive("outer radius", Dimension.LENGTH, "Outer edge of the film."),
                PassageField.choice(
                        "from at", "outer", List.of("outer", "inner"), "Edge that the cavity named in 'from' lies at."),
                PassageField.positive("gap", Dimension.LENGTH, "Film thickness; at the inner edge when coned."),
                PassageField.optional(
                        "coning",
                        Dimension.LENGTH,
                        "0 um",
                        -1e-3,
                        1e-3,
                        "Film thickness at the outer edge less that at the inner edge."),
                Fields.ROUGHNESS,
                Fields.INLET_LOSS);
    }

    @Override
    public SealKind kind() {
        return SealKind.CLOSE;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return new FaceSeal(spec, conditions, Fields.clearance(spec, conditions, spec.number("gap", Double.NaN)));
    }

    /** A film of given thickness. */
    static final class FaceSeal extends DirectedPassage {
        private final double inner;
        private final double outer;
        private final double gap;
        private final double speed;
        private final double perimeter;
        private final double area;
        private final boolean fromOuter;
        private final FrictionSlot slot;
        private final Throttle.Flashing flashing;

        FaceSeal(PassageSpec spec, Conditions conditions, double gapAtInner) {
            super(spec);
            inner = Fields.positive(spec, "inner radius", "m");
            outer = Fields.positive(spec, "outer radius", "m");
            if (!(outer > inner)) {
                throw new IllegalArgumentException(
                        "face: outer radius " + outer + " m is not above the inner radius " + inner + " m");
            }
            double atOuter = Math.max(gapAtInner + spec.number("coning", 0), Fields.CLOSED_GAP);
            gap = FilmLaws.equivalentGap(gapAtInner, atOuter);
            speed = conditions.rotorSpeed();
            // Log-mean perimeter: exact in the laminar limit, m = pi h^3 / (6 mu ln(ro/ri)) integral of rho dp.
            double width = outer - inner;
            perimeter = 2 * Math.PI * width / Math.log(outer / inner);
            area = perimeter * gap;
            fromOuter = "outer".equals(spec.word("from at", "outer"));
            slot = new FrictionSlot(
                    2 * gap,
                    width,
                    Friction.SLOT,
                    spec.number("roughness", 0.8e-6),
                    spec.number("inlet loss", 0.3),
                    0,
                    Math.abs(speed) * 0.5 * (inner + outer),
                    1,
                    1);
            flashing = Fields.slot(conditions.bound());
        }

        @Override
        OneWay oneWay(FluidState up, double down, boolean forward) {
            FrictionSlot.Result r = slot.solve(up, down, flashing);
            Notices notices = new Notices().extrapolated(r.extrapolated(), up);
            double heat = FilmLaws.faceDrag(r.meanDensity(), r.meanViscosity(), speed, inner, outer, gap);
            return new OneWay(
                    r.flux() * area, area, r.choked(), r.exitPressure(), r.reynolds(), heat, NO_STAGES, notices);
        }

        /** The turning face drives outwards: 3/20 w^2 (ro^2 - ri^2) of head against inward flow. */
        @Override
        double head() {
            double head = FilmLaws.centrifugalHead(speed, inner, outer);
            return fromOuter ? head : -head;
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            return area * slot.slopeAtRest(up);
        }

        @Override
        double openArea() {
            return area;
        }

        @Override
        public double diffusionLength() {
            return outer - inner;
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
