package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.SmoothStep;
import purgewright.sealflow.model.PassageSpec;

/** A check valve: shut below its cracking pressure difference, fully open at twice that, leaking backwards as stated. */
final class CheckValveType implements PassageType {
    @Override
    public String key() {
        return "check valve";
    }

    @Override
    public String description() {
        return "Opens from its cracking pressure difference, fully at twice that; leaks backwards by a stated share.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.DIAMETER,
                PassageField.optional(
                        "cracking pressure",
                        Dimension.PRESSURE_DIFFERENCE,
                        "0 kPa",
                        0,
                        1e8,
                        "Pressure difference at which it begins to open; fully open at twice that."),
                PassageField.optional(
                        "discharge coefficient",
                        Dimension.NUMBER,
                        "0.7",
                        0.01,
                        1.05,
                        "Flow over that of an ideal nozzle of the bore, fully open."),
                PassageField.optional(
                        "reverse leak",
                        Dimension.NUMBER,
                        "0",
                        0,
                        1,
                        "Open share of the bore when shut, 0 tight to 1 stuck open; leaks both ways."));
    }

    @Override
    public SealKind kind() {
        return SealKind.DUCT;
    }

    @Override
    public boolean checks() {
        return true;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        double d = Fields.positive(spec, "diameter", "m");
        return new Valve(
                spec,
                Math.PI * d * d / 4,
                spec.number("discharge coefficient", 0.7) * Fields.band(conditions.bound(), 0.05, 0.05),
                spec.number("cracking pressure", 0),
                spec.number("reverse leak", 0),
                d,
                Fields.thin(conditions.bound()));
    }

    private static final class Valve extends DirectedPassage {
        /** Smallest opening band, Pa, so that a valve without a spring opens smoothly [invented]. */
        private static final double LEAST_BAND = 200;

        private final double area;
        private final double coefficient;
        private final double cracking;
        private final double leak;
        private final double diameter;
        private final Throttle.Flashing flashing;

        Valve(
                PassageSpec spec,
                double area,
                double coefficient,
                double cracking,
                double leak,
                double diameter,
                Throttle.Flashing flashing) {
            super(spec);
            this.area = area;
            this.coefficient = coefficient;
            this.cracking = cracking;
            this.leak = leak;
            this.diameter = diameter;
            this.flashing = flashing;
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            double open = leak;
            if (forward) {
                double t = (up.pressure() - down - cracking) / Math.max(cracking, LEAST_BAND);
                open += (1 - leak) * SmoothStep.of(t);
            }
            if (open == 0) {
                return answer(up, forward, 0, 0, false, down, Double.NaN, 0, NO_STAGES, null);
            }
            Throttle.Flux jet = Throttle.flux(up, down, flashing);
            double effective = open * area;
            return answer(
                    up,
                    forward,
                    coefficient * effective * jet.flux(),
                    effective,
                    jet.choked(),
                    jet.throatPressure(),
                    Double.NaN,
                    0,
                    NO_STAGES,
                    new Notices().extrapolated(jet.extrapolated(), up));
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            return leak * coefficient * area * Throttle.slopeAtRest(up);
        }

        @Override
        double openArea() {
            return leak * area;
        }

        @Override
        public double diffusionLength() {
            return 0.8 * diameter;
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
