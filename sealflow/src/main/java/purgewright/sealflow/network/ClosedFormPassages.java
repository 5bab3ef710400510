package purgewright.sealflow.network;

import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.unit.Dimension;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageField;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.passage.PassageType;

/**
 * Passages whose network has a closed-form solution, for the checks of this room:
 *
 * <ul>
 *   <li>{@code square law}: m = K (p1^2 - p2^2), field {@code K};
 *   <li>{@code fixed flow}: m = field {@code flow}, whatever the ends;
 *   <li>{@code nozzle}: the ideal nozzle of a perfect gas with field {@code area}, choking included, rounded off within a thousandth
 *       of equal pressures.
 * </ul>
 *
 * Each takes {@code diffusion area}, {@code diffusion length} and {@code surface speed}.
 */
public enum ClosedFormPassages implements PassageType {
    SQUARE_LAW("square law"),
    FIXED_FLOW("fixed flow"),
    NOZZLE("nozzle");

    private final String key;

    ClosedFormPassages(String key) {
        this.key = key;
    }

    /** The type of that key, or null. */
    public static PassageType find(String key) {
        for (ClosedFormPassages type : values()) {
            if (type.key.equals(key)) {
                return type;
            }
        }
        return null;
    }

    @Override
    public String key() {
        return key;
    }

    @Override
    public String description() {
        return "Closed form for checks.";
    }

    @Override
    public List<PassageField> fields() {
        return List.of(PassageField.positive("area", Dimension.AREA, "Area of the nozzle."));
    }

    @Override
    public SealKind kind() {
        return SealKind.DUCT;
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        return new Built(this, spec);
    }

    private record Built(ClosedFormPassages type, PassageSpec spec) implements Passage {
        @Override
        public PassageFlow flow(FluidState from, FluidState to) {
            double m =
                    switch (type) {
                        case SQUARE_LAW ->
                            spec.number("K", 0) * (from.pressure() - to.pressure()) * (from.pressure() + to.pressure());
                        case FIXED_FLOW -> spec.number("flow", 0);
                        case NOZZLE ->
                            from.pressure() >= to.pressure()
                                    ? nozzle(from, to.pressure())
                                    : -nozzle(to, from.pressure());
                    };
            boolean choked = type == FIXED_FLOW
                    || (type == NOZZLE
                            && Math.min(from.pressure(), to.pressure())
                                    < critical(from.pressure() >= to.pressure() ? from : to));
            return new PassageFlow(
                    m,
                    choked,
                    Double.NaN,
                    Math.min(from.pressure(), to.pressure()),
                    Double.NaN,
                    spec.number("heat", 0),
                    new double[0],
                    List.of());
        }

        private static double ratio(FluidState s) {
            return s.cp() / s.cv();
        }

        private static double critical(FluidState up) {
            double k = ratio(up);
            return up.pressure() * Math.pow(2 / (k + 1), k / (k - 1));
        }

        private double nozzle(FluidState up, double back) {
            double k = ratio(up);
            double r = Math.max(back, critical(up)) / up.pressure();
            double band = 1e-3;
            // Below a drop of a thousandth the root is replaced by the line to it.
            double use = Math.min(r, 1 - band);
            double flux = Math.sqrt(2
                    * k
                    / (k - 1)
                    * up.pressure()
                    * up.density()
                    * (Math.pow(use, 2 / k) - Math.pow(use, (k + 1) / k)));
            return spec.number("area", 0) * flux * (r > 1 - band ? (1 - r) / band : 1);
        }

        @Override
        public double diffusionArea() {
            return spec.number("diffusion area", 0);
        }

        @Override
        public double diffusionLength() {
            return spec.number("diffusion length", 0);
        }

        @Override
        public double surfaceSpeed() {
            return spec.number("surface speed", 0);
        }

        @Override
        public double gap() {
            return spec.clearance();
        }
    }
}
