package purgewright.sealflow.passage;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.PassageSpec;

/**
 * A brush seal: an effective clearance, or a porous pack after Ergun.
 *
 * <pre>{@code dp/dx = 150 mu (1-e)^2/(e^3 d^2) U + 1.75 rho (1-e)/(e^3 d) U^2}</pre>
 *
 * <p>with e the pack's porosity and d the bristle's diameter; S. Ergun, Chem. Eng. Prog. 48 (1952) 89 [from memory]. In series with a throttle
 * of the fence's open area, so that it chokes. A gas calibration is not carried over to liquid or two-phase flow: NASA, "Preliminary
 * experimental results for a cryogenic brush seal configuration", 1993 (abstract, read) found that Ergun's relation fitted gaseous but not
 * liquid nitrogen.
 */
final class BrushType implements PassageType {
    @Override
    public String key() {
        return "brush";
    }

    @Override
    public String description() {
        return "A brush seal, by an effective clearance or by its bristle pack; gas only.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(
                Fields.RADIUS,
                Fields.maybe(
                        "effective clearance", Dimension.LENGTH, "Clearance of an ideal nozzle with the same leak."),
                Fields.maybe(
                        "bristle diameter",
                        Dimension.LENGTH,
                        "Diameter of a bristle; pack data instead of a clearance."),
                Fields.maybe("pack thickness", Dimension.LENGTH, "Thickness of the pack in the direction of flow."),
                PassageField.optional(
                        "porosity", Dimension.NUMBER, "0.2", 0.05, 0.9, "Open share of the pack's volume."),
                Fields.maybe(
                        "fence height",
                        Dimension.LENGTH,
                        "Height of bristles between the backing plate and the rotor."));
    }

    @Override
    public String page() {
        return "brush";
    }

    @Override
    public SealKind kind() {
        return SealKind.CLOSE;
    }

    /** A pack's leak goes with its effective clearance. */
    @Override
    public double growth(PassageSpec spec) {
        return 1;
    }

    /** A pack without its bristles: an open clearance as high as the fence. */
    @Override
    public PassageSpec failedOpen(PassageSpec spec, double factor) {
        if (!Double.isNaN(spec.number("effective clearance", Double.NaN))) {
            return null;
        }
        Map<String, Object> fields = new LinkedHashMap<>(spec.fields());
        fields.put("effective clearance", spec.number("fence height", Double.NaN));
        // What calibrated the pack does not make the open annulus any smaller.
        double calibration = Math.max(1, spec.calibrationFactor());
        return CaseValue.copy(spec, spec.clearance(), spec.clearanceGrowth(), calibration, spec.closed(), fields);
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return new Brush(spec, conditions);
    }

    private static final class Brush extends DirectedPassage {
        private final double radius;
        private final double area;
        private final double band;
        private final double speed;
        private final double bristle;
        private final double thickness;
        private final double porosity;
        private final boolean pack;

        Brush(PassageSpec spec, Conditions conditions) {
            super(spec);
            radius = Fields.radius(spec);
            speed = conditions.rotorSpeed();
            double effective = spec.number("effective clearance", Double.NaN);
            bristle = spec.number("bristle diameter", Double.NaN);
            thickness = spec.number("pack thickness", Double.NaN);
            porosity = spec.number("porosity", 0.2);
            double fence = spec.number("fence height", Double.NaN);
            pack = Double.isNaN(effective);
            if (pack && (Double.isNaN(bristle) || Double.isNaN(thickness) || Double.isNaN(fence))) {
                throw new IllegalArgumentException(String.format(
                        Locale.ROOT,
                        "brush: needs an effective clearance, or bristle diameter (%g m), pack thickness (%g m) and fence height (%g m)",
                        bristle,
                        thickness,
                        fence));
            }
            area = 2 * Math.PI * radius * (pack ? fence : effective);
            // Engine comparison: a labyrinth leaks 2 to 4 times a brush in its place; so a factor 1.4 either way. By
            // its pack
            // ours may leak 10 to 20 times less than the labyrinth: up to 5 times too little against that rule.
            band = conditions.bound() == Conditions.Bound.LOW
                    ? 1 / 1.4
                    : conditions.bound() == Conditions.Bound.HIGH ? (pack ? 5 : 1.4) : 1;
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            Notices notices = new Notices();
            boolean gas = up.phase() != Phase.TWO_PHASE && !Throttle.dense(up);
            notices.notEstablished(!gas, "brush", "gas calibration does not hold for liquid or two-phase");
            notices.range("brush", "temperature", up.temperature(), 0, 922);
            notices.range("brush", "pressure difference", up.pressure() - down, 0, 517e3);
            notices.range("brush", "surface speed", surfaceSpeed(), 0, 366);
            Throttle.Flux jet = Throttle.flux(up, down, Throttle.Flashing.EQUILIBRIUM);
            notices.extrapolated(jet.extrapolated(), up);
            double flux = jet.flux();
            if (pack) {
                notices.estimate("brush pack", "porosity", porosity);
            }
            if (pack && flux > 0) {
                double porous = ergun(up, down);
                flux = flux * porous * porosity / Math.hypot(flux * porosity, porous);
            }
            return answer(
                    up,
                    forward,
                    (pack ? 1 : band) * area * flux,
                    area,
                    jet.choked(),
                    jet.throatPressure(),
                    Double.NaN,
                    0,
                    NO_STAGES,
                    notices);
        }

        /** Flux through the pack, with its band: a mu G + b G^2 = mean density times dp over the thickness. */
        private double ergun(FluidState up, double down) {
            double mu = up.fluid().viscosity(up);
            double e3 = porosity * porosity * porosity;
            double a = 150 * mu * (1 - porosity) * (1 - porosity) / (e3 * bristle * bristle);
            double b = 1.75 * (1 - porosity) / (e3 * bristle);
            boolean gas = up.phase() != Phase.TWO_PHASE && !Throttle.dense(up);
            double density = gas ? up.density() * 0.5 * (1 + down / up.pressure()) : up.density();
            double drive = density * (up.pressure() - down) / thickness;
            return band * 2 * drive / (a + Math.sqrt(a * a + 4 * b * drive));
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            double throttle = Throttle.slopeAtRest(up);
            if (!pack) {
                return band * area * throttle;
            }
            double step = 1e-9 * up.pressure();
            double porous = ergun(up, up.pressure() - step) / step;
            return area * throttle * porous * porosity / Math.hypot(throttle * porosity, porous);
        }

        @Override
        double openArea() {
            return pack ? area * porosity : area;
        }

        @Override
        public double diffusionLength() {
            return pack ? thickness : 1e-3;
        }

        @Override
        public double surfaceSpeed() {
            return Math.abs(speed) * radius;
        }

        @Override
        public double gap() {
            return area / (2 * Math.PI * radius);
        }
    }
}
