package purgewright.sealflow.passage;

import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.SmoothStep;
import purgewright.sealflow.model.PassageSpec;

/** Ducts that are an orifice or a line under another name and with other defaults, and valves that open with pressure. */
final class SimpleDucts {
    private SimpleDucts() {}

    /** A type made of a list of fields and a builder. */
    private record Duct(
            String key,
            String description,
            List<PassageField> fields,
            BiFunction<PassageSpec, Conditions, Passage> maker)
            implements PassageType {
        @Override
        public SealKind kind() {
            return SealKind.DUCT;
        }

        @Override
        public Passage build(PassageSpec spec, Conditions conditions) {
            return maker.apply(spec, conditions);
        }
    }

    private static PassageField coefficient(String fallback, String description) {
        return PassageField.optional("discharge coefficient", Dimension.NUMBER, fallback, 0.01, 1.05, description);
    }

    private static Passage opening(
            PassageSpec spec, Conditions conditions, double area, double coefficient, double d, boolean judged) {
        return new OpeningPassage(
                spec,
                area,
                coefficient,
                0,
                Fields.band(conditions.bound(), 0.02, 0.02),
                Fields.thin(conditions.bound()),
                d,
                0,
                judged);
    }

    private static double circle(double diameter) {
        return Math.PI * diameter * diameter / 4;
    }

    static PassageType nozzle() {
        return new Duct(
                "nozzle",
                "A rounded converging nozzle.",
                List.of(
                        Fields.DIAMETER,
                        coefficient(
                                "0.98",
                                "Flow over the ideal; 0.97 to 0.99 for a bell (Weisbach: Encyclopaedia Britannica, 11th ed.).")),
                (spec, conditions) -> {
                    double d = Fields.positive(spec, "diameter", "m");
                    return opening(spec, conditions, circle(d), spec.number("discharge coefficient", 0.98), d, true);
                });
    }

    static PassageType holes() {
        return new Duct(
                "holes",
                "A bank of equal holes.",
                List.of(
                        PassageField.count("number", 1, 100000, "Number of holes."),
                        Fields.DIAMETER,
                        coefficient("0.75", "Flow over the ideal; 0.6 sharp to 0.85 at the choke (common practice).")),
                (spec, conditions) -> {
                    double d = Fields.positive(spec, "diameter", "m");
                    double n = Fields.positive(spec, "number", "");
                    return opening(
                            spec, conditions, n * circle(d), spec.number("discharge coefficient", 0.75), d, true);
                });
    }

    static PassageType valve() {
        return new Duct(
                "valve",
                "A solenoid or hand valve with a stated opening; the duty may shut it.",
                List.of(
                        Fields.DIAMETER,
                        coefficient("0.7", "Flow over that of an ideal nozzle of the bore, fully open."),
                        PassageField.optional("opening", Dimension.NUMBER, "1", 0, 1, "Open share of the bore.")),
                (spec, conditions) -> {
                    double d = Fields.positive(spec, "diameter", "m");
                    double area = circle(d) * spec.number("opening", 1);
                    return opening(spec, conditions, area, spec.number("discharge coefficient", 0.7), d, false);
                });
    }

    static PassageType filter() {
        return new Duct(
                "filter",
                "A filter, by the pressure drop it was rated with.",
                List.of(
                        PassageField.positive("rated flow", Dimension.MASS_FLOW, "Mass flow of the rating."),
                        PassageField.positive(
                                "rated pressure drop", Dimension.PRESSURE_DIFFERENCE, "Drop at the rated flow."),
                        PassageField.positive("rated density", Dimension.DENSITY, "Upstream density of the rating."),
                        PassageField.optional(
                                "clogging", Dimension.NUMBER, "0", 0, 0.99, "Share of the area that is blocked.")),
                (spec, conditions) -> {
                    double flow = Fields.positive(spec, "rated flow", "kg/s");
                    double drop = Fields.positive(spec, "rated pressure drop", "Pa");
                    double density = Fields.positive(spec, "rated density", "kg/m3");
                    double area = flow / Math.sqrt(2 * density * drop) * (1 - spec.number("clogging", 0));
                    return opening(spec, conditions, area, 1, Math.sqrt(4 * area / Math.PI), false);
                });
    }

    static PassageType bend() {
        return new Duct(
                "bend",
                "A bend in a line, by its loss coefficient.",
                List.of(
                        Fields.DIAMETER,
                        PassageField.positive("length", Dimension.LENGTH, "Length along the axis."),
                        PassageField.optional(
                                "loss coefficient",
                                Dimension.NUMBER,
                                "0.3",
                                0,
                                100,
                                "Loss in velocity heads: 0.2 to 0.4 for a smooth right angle, 1.1 for a mitre (common practice).")),
                (spec, conditions) -> {
                    double d = Fields.positive(spec, "diameter", "m");
                    double length = Fields.positive(spec, "length", "m");
                    FrictionSlot slot = new FrictionSlot(
                            d, length, Friction.PIPE, 1.5e-6, 0, spec.number("loss coefficient", 0.3), 0, 1, 1);
                    return new LineType.Line(spec, slot, circle(d), d, length, 0, Fields.slot(conditions.bound()));
                });
    }

    static PassageType reliefValve() {
        return new Duct(
                "relief valve",
                "Opens above its set pressure difference, fully at the stated overpressure; shut backwards.",
                List.of(
                        Fields.DIAMETER,
                        PassageField.positive(
                                "set pressure", Dimension.PRESSURE_DIFFERENCE, "Difference at which it opens."),
                        PassageField.optional(
                                "overpressure",
                                Dimension.NUMBER,
                                "0.1",
                                0.001,
                                1,
                                "Share above set at which it is fully open."),
                        coefficient("0.7", "Flow over that of an ideal nozzle of the bore, fully open.")),
                (spec, conditions) -> {
                    double d = Fields.positive(spec, "diameter", "m");
                    double set = Fields.positive(spec, "set pressure", "Pa");
                    return new Relief(
                            spec,
                            circle(d)
                                    * spec.number("discharge coefficient", 0.7)
                                    * Fields.band(conditions.bound(), 0.05, 0.05),
                            set,
                            Math.max(1e-3, spec.number("overpressure", 0.1)) * set,
                            Fields.thin(conditions.bound()));
                });
    }

    /** Opens smoothly over a band of pressure difference; passes nothing backwards. */
    private static final class Relief extends DirectedPassage {
        private final double area;
        private final double set;
        private final double band;
        private final Throttle.Flashing flashing;

        Relief(PassageSpec spec, double area, double set, double band, Throttle.Flashing flashing) {
            super(spec);
            this.area = area;
            this.set = set;
            this.band = band;
            this.flashing = flashing;
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            double lift = forward ? SmoothStep.of((up.pressure() - down - set) / band) : 0;
            if (lift == 0) {
                return answer(up, forward, 0, 0, false, down, Double.NaN, 0, NO_STAGES, null);
            }
            double open = area * lift;
            Throttle.Flux jet = Throttle.flux(up, down, flashing);
            return answer(
                    up,
                    forward,
                    open * jet.flux(),
                    open,
                    jet.choked(),
                    jet.throatPressure(),
                    Double.NaN,
                    0,
                    NO_STAGES,
                    new Notices().extrapolated(jet.extrapolated(), up));
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            return 0;
        }

        @Override
        double openArea() {
            return 0;
        }

        @Override
        public double diffusionLength() {
            return 1e-3;
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

    /** For error texts of all types. */
    static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
