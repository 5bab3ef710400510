package purgewright.sealflow.rotating;

import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

/**
 * Axial force of a cavity's pressure on the disc face that bounds it.
 *
 * <pre>{@code F = integral from ri to ro of 2 pi r p(r) dr,   h(p(r), s) - h(p_ref, s) = (k w)^2 (r^2 - r_ref^2) / 2}</pre>
 *
 * <p>Gauss-Legendre with six points in r^2; for a liquid, where p is linear in r^2, exact. Without a
 * radius for its pressure a cavity has the one pressure everywhere. NaN where the swirl would pull a liquid below zero pressure.
 */
public final class AxialForce {
    private static final double[] POINT = {0.238619186083197, 0.661209386466265, 0.932469514203152};
    private static final double[] WEIGHT = {0.467913934572691, 0.360761573048139, 0.171324492379170};

    private AxialForce() {}

    /** Area of an annular face, m2. */
    public static double area(double inner, double outer) {
        return Math.PI * (outer * outer - inner * inner);
    }

    /**
     * Force on an annular face, N.
     *
     * @param state of the fluid at {@code radius}
     * @param swirl angular speed of the fluid, rad/s; 0: one pressure everywhere
     * @param radius where the state is meant, m
     * @param inner radius of the face, m
     * @param outer radius of the face, m
     */
    public static double force(FluidState state, double swirl, double radius, double inner, double outer) {
        double area = area(inner, outer);
        if (swirl == 0) {
            return state.pressure() * area;
        }
        double middle = 0.5 * (inner * inner + outer * outer);
        double half = 0.5 * (outer * outer - inner * inner);
        double sum = 0;
        try {
            for (int i = 0; i < POINT.length; i++) {
                for (int side = -1; side <= 1; side += 2) {
                    double r = Math.sqrt(middle + side * half * POINT[i]);
                    sum += WEIGHT[i] * ForcedVortex.pressure(state, swirl, radius, r);
                }
            }
        } catch (PropertyException e) {
            return Double.NaN;
        }
        return 0.5 * sum * area;
    }
}
