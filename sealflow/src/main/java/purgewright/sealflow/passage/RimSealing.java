package purgewright.sealflow.passage;

/**
 * How much gas a rim gap needs so that nothing is drawn in: disc pumping and pressure variation around the rim.
 *
 * <p>With the sealing flow parameter {@code Phi = m / (2 pi rho b s w b)} (gap velocity over rim speed) the effectiveness e (1: nothing
 * enters, 0: all that is inside came in) follows from the orifice model of ingress:
 *
 * <pre>{@code disc pumping:        Phi/Phi_min = e / ((1 + (1 - e)^(1/2)) (1 + G^-2 (1 - e))^(1/2))
 * external variation:  Phi/Phi_min = e / (1 + G^(-2/3) (1 - e)^(2/3))^(3/2)}</pre>
 *
 * <p>G is the ratio of the discharge coefficients of ingress and egress. Sources: J. M. Owen, J. Turbomach. 133 (2011) 031005 and
 * 031006; C. M. Sangan et al., J. Turbomach. 135 (2013) 021012 for the constants [all from memory]. Of these papers only abstracts could
 * be read; so every result carries an estimate notice. The differential-pressure criterion overestimates the minimum flow of radial
 * seals (J. Turbomach. 114 (1992) 439, abstract, read).
 */
public final class RimSealing {
    /** Constants of a seal's shape. */
    public enum Shape {
        /** Axial clearance. */
        AXIAL(0.0838, 0.326, 0.48),
        /** Radial overlap with a radial clearance. */
        RADIAL(0.0317, 0.0915, 1.32);

        private final double pumping;
        private final double external;
        private final double ratio;

        Shape(double pumping, double external, double ratio) {
            this.pumping = pumping;
            this.external = external;
            this.ratio = ratio;
        }

        /** Phi_min against disc pumping alone. */
        public double pumpingMinimum() {
            return pumping;
        }

        /** Phi_min against the external pressure variation of the rig it was measured in. */
        public double externalMinimum() {
            return external;
        }

        /** Ratio of discharge coefficients, ingress to egress. */
        public double coefficientRatio() {
            return ratio;
        }
    }

    private RimSealing() {}

    /** Least sealing flow against disc pumping, kg/s. */
    public static double minimumFlow(Shape shape, double density, double radius, double gap, double speed) {
        return shape.pumping * 2 * Math.PI * radius * gap * density * Math.abs(speed) * radius;
    }

    /** Least sealing flow against a pressure variation around the rim (half peak to peak, Pa): {@code Cd A sqrt(2 rho dp)}, kg/s. */
    public static double minimumFlowExternal(double density, double radius, double gap, double variation) {
        return 0.6 * 2 * Math.PI * radius * gap * Math.sqrt(2 * density * variation);
    }

    /** Effectiveness against disc pumping at a flow over the least flow. */
    public static double effectivenessPumping(Shape shape, double flowOverMinimum) {
        double g = 1 / (shape.ratio * shape.ratio);
        return invert(flowOverMinimum, e -> e / ((1 + Math.sqrt(1 - e)) * Math.sqrt(1 + g * (1 - e))));
    }

    /** Effectiveness against external variation at a flow over the least flow. */
    public static double effectivenessExternal(Shape shape, double flowOverMinimum) {
        double g = Math.pow(shape.ratio, -2.0 / 3);
        return invert(flowOverMinimum, e -> e / Math.pow(1 + g * Math.pow(1 - e, 2.0 / 3), 1.5));
    }

    private static double invert(double target, java.util.function.DoubleUnaryOperator f) {
        if (target >= 1) {
            return 1;
        }
        if (target <= 0) {
            return 0;
        }
        return Roots.find(e -> f.applyAsDouble(e) - target, 0, -target, 1, 1 - target, 1e-12);
    }
}
