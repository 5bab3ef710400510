package purgewright.sealflow.passage;

/**
 * Friction factors (Darcy) and drag of rotating cylinders.
 *
 * <p>Sources: S. W. Churchill, Chem. Eng. 84 (1977) 91; Y. Yamada, Bull. JSME 5 (1962) 302 as used for annular seals; E. Bilgen, R. Boulos,
 * Trans. CSME 2 (1973) 122 [all from memory].
 */
public final class Friction {
    /** f Re of a plane slot, on the hydraulic diameter. */
    public static final double SLOT = 96;
    /** f Re of a round pipe. */
    public static final double PIPE = 64;

    private Friction() {}

    /**
     * Churchill's factor, laminar to rough turbulent in one formula.
     *
     * <pre>{@code f = 8 ((8/Re)^12 + (A + B)^(-3/2))^(1/12),
     * A = (2.457 ln(1 / ((7/Re)^0.9 + 0.27 eps/D)))^16,  B = (37530/Re)^16}</pre>
     *
     * with the laminar term 64/Re replaced by C/Re.
     *
     * @param reynolds on the hydraulic diameter, above 0
     * @param relativeRoughness roughness over hydraulic diameter
     * @param laminar C: 64 for pipes, 96 for slots
     */
    public static double churchill(double reynolds, double relativeRoughness, double laminar) {
        double straight = laminar / reynolds;
        if (reynolds < 1000) {
            return straight; // the turbulent terms are below 1e-14 here
        }
        double b = pow16(37530 / reynolds);
        double a = pow16(2.457 * -Math.log(Math.pow(7 / reynolds, 0.9) + 0.27 * relativeRoughness));
        double sum = a + b;
        double l = straight / 8;
        double l4 = l * l * l * l;
        return 8 * Math.pow(l4 * l4 * l4 + 1 / (sum * Math.sqrt(sum)), 1.0 / 12);
    }

    private static double pow16(double x) {
        double x2 = x * x;
        double x4 = x2 * x2;
        double x8 = x4 * x4;
        return x8 * x8;
    }

    /**
     * Axial friction in a gap whose one wall moves sideways: {@code f(Re U_e/U) U_e/U, U_e^2 = U^2 + (7/16 U_surf)^2}. Laminar flow is
     * unchanged by it.
     *
     * @param reynolds axial, on the hydraulic diameter
     * @param axial velocity, m/s
     * @param surface speed of the moving wall, m/s
     */
    static double rotating(double reynolds, double axial, double surface, double roughness, double laminar) {
        if (surface == 0) {
            return churchill(reynolds, roughness, laminar);
        }
        double swirl = 7.0 / 16 * surface;
        double stretch = Math.sqrt(1 + swirl * swirl / (axial * axial));
        return churchill(reynolds * stretch, roughness, laminar) * stretch;
    }

    /** Fanning factor of turbulent flow in a rotating annulus, {@code 0.079 Ra^-0.25 (1 + (7 Rc/(8 Ra))^2)^(3/8)}. */
    public static double yamada(double axialReynolds, double rotationalReynolds) {
        double ratio = 7 * rotationalReynolds / (8 * axialReynolds);
        return 0.079 * Math.pow(axialReynolds, -0.25) * Math.pow(1 + ratio * ratio, 0.375);
    }

    /**
     * Moment coefficient of a cylinder turning in a close housing, {@code Cm = T / (0.5 pi rho w^2 R^4 L)}, after Bilgen and Boulos.
     *
     * @param reynolds w R c / nu
     * @param gapRatio c / R
     */
    public static double bilgenBoulos(double reynolds, double gapRatio) {
        double g = Math.pow(gapRatio, 0.3);
        if (reynolds < 64) {
            return 10 * g / reynolds;
        }
        if (reynolds < 500) {
            return 2 * g * Math.pow(reynolds, -0.6);
        }
        if (reynolds < 1e4) {
            return 1.03 * g * Math.pow(reynolds, -0.5);
        }
        return 0.065 * g * Math.pow(reynolds, -0.2);
    }

    /**
     * Power that drag in the gap takes from the shaft, W: the larger of laminar Couette, {@code 2 pi mu w^2 R^3 L / c}, and Bilgen and
     * Boulos.
     *
     * @param density kg/m3
     * @param viscosity Pa s
     * @param speed rad/s
     * @param radius m
     * @param length m
     * @param clearance m
     */
    public static double dragPower(
            double density, double viscosity, double speed, double radius, double length, double clearance) {
        double w = Math.abs(speed);
        if (w == 0 || length == 0) {
            return 0;
        }
        double couette = 2 * Math.PI * viscosity * w * w * radius * radius * radius * length / clearance;
        double reynolds = density * w * radius * clearance / viscosity;
        double moment = bilgenBoulos(reynolds, clearance / radius);
        double r2 = radius * radius;
        double turbulent = moment * 0.5 * Math.PI * density * w * w * r2 * r2 * length * w;
        return Math.max(couette, turbulent);
    }
}
