package purgewright.sealflow.passage;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.PassageSpec;

/** A labyrinth: tooth by tooth by default, bulk laws to compare. */
final class LabyrinthType implements PassageType {
    @Override
    public String key() {
        return "labyrinth";
    }

    @Override
    public String description() {
        return "A row of teeth against a land, straight, stepped or interlocking; solved tooth by tooth with the real fluid.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.RADIUS,
                Fields.CLEARANCE,
                PassageField.count("teeth", 1, 200, "Number of teeth."),
                PassageField.positive("pitch", Dimension.LENGTH, "Distance from tooth to tooth."),
                PassageField.positive("tip", Dimension.LENGTH, "Width of a tooth's tip."),
                Fields.maybe(
                        "tooth height", Dimension.LENGTH, "Height of a tooth; without it, the pitch. Counts for drag."),
                PassageField.choice(
                        "tooth condition",
                        "sharp",
                        List.of("sharp", "rounded", "rubbed"),
                        "State of the tips: 1, 1.1 and 1.2 times the leak of sharp ones."),
                PassageField.choice(
                        "arrangement",
                        "straight",
                        List.of("straight", "stepped", "interlocking"),
                        "Straight rows carry kinetic energy from tooth to tooth; the others do not."),
                Fields.maybe("step", Dimension.LENGTH, "Height of the steps of a stepped labyrinth."),
                PassageField.choice(
                        "land", "smooth", List.of("smooth", "abradable", "honeycomb"), "Surface opposite the teeth."),
                Fields.maybe("cell", Dimension.LENGTH, "Cell size of a honeycomb land."),
                PassageField.choice(
                        "method",
                        "tooth by tooth",
                        List.of("tooth by tooth", "martin", "stodola", "egli"),
                        "How the flow is found; the bulk laws are for comparison."),
                PassageField.choice(
                        "carry-over",
                        "default",
                        List.of("default", "none", "neumann", "hodkinson", "vermes"),
                        "Kinetic-energy carry-over; the default is Neumann's for a straight labyrinth on a smooth land, else none."),
                Fields.SEGMENT,
                Fields.STATOR_TEMPERATURE,
                Fields.STATOR_EXPANSION);
    }

    @Override
    public String page() {
        return "labyrinth";
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
    public String method(PassageSpec spec) {
        return spec.word("method", "tooth by tooth");
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return new Seal(spec, conditions);
    }

    private static final class Seal extends DirectedPassage {
        private final double radius;
        private final double clearance;
        private final int teeth;
        private final double pitch;
        private final double tip;
        private final double height;
        private final String method;
        private final double speed;
        private final double area;
        private final double mu;
        private final double condition;
        private final double band;
        private final double cell;
        private final boolean honeycomb;
        private final boolean abradable;
        private final boolean vermes;
        private final Throttle.Flashing flashing;
        private final Labyrinth model;
        private final boolean bulk;
        private final Friction.Drag tips;
        private final Friction.Drag chambers;

        Seal(PassageSpec spec, Conditions conditions) {
            super(spec);
            radius = Fields.radius(spec);
            clearance = Fields.clearance(spec, conditions, spec.clearance());
            teeth = (int) Math.round(Fields.positive(spec, "teeth", ""));
            pitch = Fields.positive(spec, "pitch", "m");
            tip = Fields.positive(spec, "tip", "m");
            if (tip >= pitch) {
                throw new IllegalArgumentException(
                        "labyrinth: tip " + tip + " m is not below the pitch " + pitch + " m");
            }
            height = spec.number("tooth height", pitch);
            method = spec.word("method", "tooth by tooth");
            speed = conditions.rotorSpeed();
            honeycomb = "honeycomb".equals(spec.word("land", "smooth"));
            abradable = "abradable".equals(spec.word("land", "smooth"));
            cell = spec.number("cell", Double.NaN);
            boolean straight = "straight".equals(spec.word("arrangement", "straight"));
            String carry = spec.word("carry-over", "default");
            CarryOver model = "default".equals(carry)
                    ? (straight && !honeycomb ? CarryOver.NEUMANN : CarryOver.NONE)
                    : CarryOver.of(carry);
            vermes = model == CarryOver.VERMES;
            mu = model.factor(teeth, clearance, pitch, tip);
            area = 2 * Math.PI * clearance * (radius + clearance / 2);
            // Sharp to rubbed moves leakage by up to 20 %: R. E. Burcham, NASA SP-8121 (1978) 2.3.5 [published,
            // transcription].
            String state = spec.word("tooth condition", "sharp");
            condition = "rubbed".equals(state) ? 1.2 : "rounded".equals(state) ? 1.1 : 1;
            // As good as can be claimed against straight-labyrinth rigs: 10 to 15 % (GT1997, abstract: LAB-15). A
            // honeycomb
            // land is known to 30 % only, an abradable one, with or without the grooves that the teeth have cut, to 20
            // %
            // [both invented].
            double width = honeycomb ? 0.3 : abradable ? 0.2 : 0.15;
            band = Fields.band(conditions.bound(), width, width);
            flashing = Fields.thin(conditions.bound());
            this.model = new Labyrinth(area, teeth, mu, condition, Double.NaN, flashing);
            bulk = !"tooth by tooth".equals(method);
            tips = new Friction.Drag(speed, radius, teeth * tip, clearance);
            chambers = new Friction.Drag(speed, radius, (teeth - 1) * (pitch - tip), clearance + height);
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            Notices notices = new Notices();
            double mass;
            boolean choked;
            double throat;
            double[] stages;
            boolean dense = up.phase() == Phase.TWO_PHASE || Throttle.dense(up);
            if (!bulk || dense) {
                Labyrinth.Work r = model.flow(up, down);
                mass = r.mass;
                choked = r.choked;
                throat = r.throat;
                stages = r.stages();
                notices.extrapolated(r.extrapolated, up);
                if (dense && bulk) {
                    notices.notEstablished(true, method, "bulk laws are for gases; solved tooth by tooth");
                }
            } else {
                double p0 = up.pressure();
                double rest = Throttle.REST * p0 / Math.max(1e-300, p0 - down);
                double eased = 1 / Math.sqrt(Math.sqrt(1 + rest * rest));
                double b = down / p0;
                double rho = up.density();
                switch (method) {
                    case "stodola":
                        mass = Labyrinth.stodola(area, teeth, p0, rho, down);
                        choked = b < 0.85 / Math.sqrt(teeth + 1.5);
                        break;
                    case "egli":
                        // Flow coefficient of sharp teeth at moderate ratio; Egli's own charts were not to be had.
                        mass = Labyrinth.egli(area, teeth, p0, rho, down, 0.716, egliCarryOver());
                        choked = b < Labyrinth.martinPeak(teeth);
                        notices.estimate("egli", "flow coefficient", 0.716);
                        break;
                    default:
                        mass = Labyrinth.martin(area, teeth, p0, rho, down);
                        choked = b < Labyrinth.martinPeak(teeth);
                        break;
                }
                mass *= eased * condition;
                throat = Math.max(down, p0 * Labyrinth.martinPeak(teeth));
                stages = NO_STAGES;
            }
            if (mu > 1) {
                notices.range("labyrinth carry-over", "clearance / pitch", clearance / pitch, 0.005, 0.15);
            }
            if (vermes) {
                notices.range("vermes", "(pitch - tip) / clearance", (pitch - tip) / clearance, 5, 50);
            }
            if (honeycomb) {
                notices.estimate("honeycomb land", "land factor", 1);
                if (!Double.isNaN(cell)) {
                    notices.range("honeycomb land", "clearance / cell", clearance / cell, 0.05, 1);
                }
            }
            if (abradable) {
                notices.estimate("abradable land", "land factor", 1);
            }
            notices.range("labyrinth", "tip / clearance", tip / clearance, 0, 5);
            double re = Double.NaN;
            double heat = 0;
            try {
                double viscosity = up.fluid().viscosity(up);
                re = mass / (Math.PI * radius * viscosity);
                heat = drag(up, viscosity);
            } catch (PropertyException e) {
                notices.notEstablished(true, "labyrinth drag", "no viscosity");
            }
            return answer(up, forward, band * mass, area, choked, throat, band * re, heat, stages, notices);
        }

        /** Egli's carry-over chart was not to be had; the same model as tooth by tooth stands in, over all teeth. */
        private double egliCarryOver() {
            return teeth / Math.sqrt(1 + (teeth - 1) / (mu * mu)) / Math.sqrt(teeth);
        }

        /** The drag of a labyrinth does not ask what flows. */
        @Override
        double heatAtRest(FluidState up, boolean forward) {
            try {
                return speed == 0 ? 0 : drag(up, up.fluid().viscosity(up));
            } catch (PropertyException e) {
                return 0;
            }
        }

        private double drag(FluidState up, double viscosity) {
            if (speed == 0) {
                return 0;
            }
            return tips.power(up.density(), viscosity) + chambers.power(up.density(), viscosity);
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            if (!bulk || up.phase() == Phase.TWO_PHASE || Throttle.dense(up)) {
                return band * model.slopeAtRest(up);
            }
            double factor = "egli".equals(method) ? 0.716 * egliCarryOver() : 1;
            return band * condition * factor * area * Throttle.slopeAtRest(up) / Math.sqrt(teeth);
        }

        @Override
        double openArea() {
            return area;
        }

        @Override
        public double diffusionLength() {
            return teeth * tip;
        }

        @Override
        public double surfaceSpeed() {
            return Math.abs(speed) * radius;
        }

        @Override
        public double gap() {
            return clearance;
        }
    }
}
