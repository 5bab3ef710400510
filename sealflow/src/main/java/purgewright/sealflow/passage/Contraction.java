package purgewright.sealflow.passage;

import purgewright.sealflow.SmoothStep;

/**
 * Contraction of a jet behind a sharp tooth or a thin orifice, after Chaplygin.
 *
 * <pre>{@code Cd = pi / (pi + 2 - 5 s + 2 s^2),   s = s_c M^2,   s_c = (k - 1) / 2}</pre>
 *
 * <p>with M the Mach number of the isentropic expansion to the downstream pressure and k the ideal gas's cp/cv, at most 5/3. For a
 * perfect gas s is (p_i/p_(i+1))^((k-1)/k) - 1. Capped smoothly at s_c, where the jet is sonic: s up to 0.9 s_c, then {@code s - (s -
 * 0.9 s_c)^2 / (0.4 s_c)} to 1.1 s_c, s_c beyond. Fades to the incompressible pi/(pi + 2) = 0.611 for upstream densities between the
 * critical one and 1.5 times it, and holds that for liquid and, up to a quality of 0.9, two-phase. M is carried on into the dome as that of
 * the gas.
 *
 * <p>Source: S. A. Chaplygin, "On gas jets", 1902 (NACA TM 1063, 1944), in the form used for labyrinth teeth [from memory].
 */
public final class Contraction {
    /** Kirchhoff's incompressible value, pi/(pi + 2). */
    public static final double INCOMPRESSIBLE = Math.PI / (Math.PI + 2);

    /** Quality above which a jet contracts more and more like the vapour's [invented; of its volume less than 1 % is liquid there]. */
    private static final double NEARLY_DRY = 0.9;

    private Contraction() {}

    /** Coefficient at a value of s. */
    public static double coefficient(double s) {
        return Math.PI / (Math.PI + 2 - 5 * s + 2 * s * s);
    }

    /** Coefficient of a tooth whose isentropic jet has that squared Mach number. */
    public static double ofJet(double machSquared, double ratio, double fade) {
        return coefficient(fade * capped(machSquared) * limit(ratio));
    }

    /** Derivative of {@link #ofJet} by the squared Mach number. */
    static double slope(double machSquared, double ratio, double fade) {
        double scale = fade * limit(ratio);
        double s = capped(machSquared) * scale;
        double denominator = Math.PI + 2 - 5 * s + 2 * s * s;
        double ds = machSquared <= 0.9 ? 1 : machSquared < 1.1 ? 1 - (machSquared - 0.9) / 0.2 : 0;
        return Math.PI * (5 - 4 * s) / (denominator * denominator) * ds * scale;
    }

    /** s_c: half of k - 1, with k at most 5/3. */
    public static double limit(double ratio) {
        return 0.5 * (Math.max(1, Math.min(ratio, 5.0 / 3)) - 1);
    }

    /** s over s_c, capped C1 at 1. */
    static double capped(double machSquared) {
        if (machSquared <= 0.9) {
            return Math.max(0, machSquared);
        }
        if (machSquared >= 1.1) {
            return 1;
        }
        double over = machSquared - 0.9;
        return machSquared - over * over / 0.4;
    }

    /**
     * The same for two-phase fluid by its quality: 0 up to {@link #NEARLY_DRY}, rising smoothly to 1 for dry vapour, so that the flow does not
     * jump where a chamber dries or a gas begins to condense.
     */
    static double fade(double quality) {
        return SmoothStep.of((quality - NEARLY_DRY) / (1 - NEARLY_DRY));
    }

    /** 1 for a gas, falling smoothly to 0 between the critical density and 1.5 times it. */
    static double fade(double density, double criticalDensity) {
        double t = (density / criticalDensity - 1) / 0.5;
        if (!(t > 0)) {
            return 1;
        }
        if (t >= 1) {
            return 0;
        }
        return 1 - SmoothStep.of(t);
    }
}
