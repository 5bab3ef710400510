package purgewright.sealflow.passage;

import purgewright.fluids.phase.QuickLog;

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
        Factor factor = new Factor();
        factor.churchill(reynolds, relativeRoughness, laminar);
        return factor.value;
    }

    /** A friction factor and how it changes with the flow. Owned by one thread. */
    static final class Factor {
        /** Terms below this share of the other go in by a series of five terms, right to 1e-14. */
        private static final double SMALL = 1e-2;

        private static final double LN_7 = Math.log(7);
        /** Reynolds number below which flow is laminar to all digits. */
        private static final double TURBULENT = 1000;

        /** Darcy. */
        double value;
        /** d ln f / d ln Re, or by the mass flux where that is asked for. */
        double exponent;

        // What the curvature needs of the last factor: B/A and d ln A, the laminar term's share and d ln f of the
        // turbulent one.
        private double share;
        private double byY;
        private double laminarShare;
        private double turbulentExponent;
        // Of rotation: d ln of the Reynolds number with swirl by ln of the axial flow, and what its change adds.
        private double reach = 1;
        private double turning;

        /** {@code (7/Re)^0.9}, which smooth friction hangs on; for callers that have several factors to find. */
        static double smooth(double reynolds) {
            return reynolds < TURBULENT ? 0 : QuickLog.exp(0.9 * (LN_7 - QuickLog.of(reynolds)));
        }

        /** Square of how much a wall that moves sideways stretches the velocity. */
        static double stretch2(double axial, double surface) {
            double swirl = 7.0 / 16 * surface / axial;
            return 1 + swirl * swirl;
        }

        /** See {@link Friction#churchill}. */
        void churchill(double reynolds, double relativeRoughness, double laminar) {
            churchill(reynolds, smooth(reynolds), relativeRoughness, laminar);
        }

        private void churchill(double reynolds, double smooth, double relativeRoughness, double laminar) {
            double inverse = 1 / reynolds;
            double straight = laminar * inverse;
            if (reynolds < TURBULENT) {
                value = straight; // the turbulent terms are below 1e-14 here
                exponent = -1;
                share = 0;
                laminarShare = 0;
                return;
            }
            double z = smooth + 0.27 * relativeRoughness;
            double log = -QuickLog.of(z);
            double byLog = 1 / (z * log);
            double inverseY = z * byLog / 2.457;
            byY = 16 * 0.9 * smooth * byLog; // d ln A / d ln Re
            share = pow16(37530 * inverse * inverseY); // B over A
            double root = share < SMALL ? eighth(share) : Math.sqrt(Math.sqrt(Math.sqrt(1 + share)));
            double turbulent = inverseY * inverseY / root; // (A + B)^(-1/8)
            double byTurbulent = -1.5 * (byY - 16 * share) / (1 + share);
            double l = straight / (8 * turbulent);
            double l4 = l * l * l * l;
            laminarShare = l4 * l4 * l4;
            value = 8
                    * turbulent
                    * (laminarShare < SMALL ? twelfth(laminarShare) : QuickLog.exp(QuickLog.of(1 + laminarShare) / 12));
            turbulentExponent = byTurbulent / 12;
            exponent = (turbulentExponent - laminarShare) / (1 + laminarShare);
        }

        /** Derivative of the last exponent by the same logarithm; for a search's steps, what varies slowly is left out of it. */
        double curvature() {
            double a = (16 + byY) / (1 + share);
            double b = (1 + turbulentExponent) / (1 + laminarShare);
            return turning + reach * reach * (12 * laminarShare * b * b - 0.125 * share * a * a / (1 + laminarShare));
        }

        /** (1 + x)^(1/8). */
        private static double eighth(double x) {
            return 1 + x * (1.0 / 8 - x * (7.0 / 128 - x * (35.0 / 1024 - x * (805.0 / 32768 - x * 4991.0 / 262144))));
        }

        /** (1 + x)^(1/12). */
        private static double twelfth(double x) {
            return 1
                    + x
                            * (1.0 / 12
                                    - x
                                            * (11.0 / 288
                                                    - x
                                                            * (253.0 / 10368
                                                                    - x * (8855.0 / 497664 - x * 83237.0 / 5971968))));
        }

        /**
         * Axial friction in a gap whose one wall moves sideways: {@code f(Re U_e/U) U_e/U, U_e^2 = U^2 + (7/16 U_surf)^2}. Laminar flow is
         * unchanged by it. The exponent is that by the mass flux.
         *
         * @param reynolds axial, on the hydraulic diameter
         * @param axial velocity, m/s
         * @param growth d ln(axial velocity) / d ln(mass flux)
         * @param surface speed of the moving wall, m/s
         */
        void rotating(double reynolds, double axial, double growth, double surface, double roughness, double laminar) {
            double stretch2 = stretch2(axial, surface);
            double stretched = reynolds * Math.sqrt(stretch2);
            stretched(reynolds, stretch2, smooth(stretched), growth, roughness, laminar);
        }

        /**
         * The same with what hangs on each point alone given.
         *
         * @param stretch2 see {@link #stretch2}
         * @param smooth see {@link #smooth}, of the Reynolds number with the stretched velocity
         */
        void stretched(
                double reynolds, double stretch2, double smooth, double growth, double roughness, double laminar) {
            double stretch = Math.sqrt(stretch2);
            churchill(reynolds * stretch, smooth, roughness, laminar);
            value *= stretch;
            double still = 1 / stretch2;
            double less = growth * (still - 1);
            turning = 2 * (1 + exponent) * growth * growth * still * (1 - still);
            exponent += (1 + exponent) * less;
            reach = 1 + less;
        }
    }

    private static double pow16(double x) {
        double x2 = x * x;
        double x4 = x2 * x2;
        double x8 = x4 * x4;
        return x8 * x8;
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
        return Math.pow(gapRatio, 0.3) * moment(reynolds);
    }

    private static double moment(double reynolds) {
        if (reynolds < 64) {
            return 10 / reynolds;
        }
        if (reynolds < 500) {
            return 2 * Math.pow(reynolds, -0.6);
        }
        if (reynolds < 1e4) {
            return 1.03 / Math.sqrt(reynolds);
        }
        return 0.065 * Math.pow(reynolds, -0.2);
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
        return new Drag(speed, radius, length, clearance).power(density, viscosity);
    }

    /** Drag of a cylinder in a close housing, with what hangs on its geometry alone worked out once. */
    static final class Drag {
        private final double couette;
        private final double turbulent;
        private final double reynolds;
        private final double gap;

        /** Units as in {@link Friction#dragPower}. */
        Drag(double speed, double radius, double length, double clearance) {
            double w = Math.abs(speed);
            double r2 = radius * radius;
            couette = 2 * Math.PI * w * w * r2 * radius * length / clearance;
            turbulent = 0.5 * Math.PI * w * w * w * r2 * r2 * length;
            reynolds = w * radius * clearance;
            gap = Math.pow(clearance / radius, 0.3);
        }

        /** W. */
        double power(double density, double viscosity) {
            if (couette == 0) {
                return 0;
            }
            double moment = gap * moment(density * reynolds / viscosity);
            return Math.max(couette * viscosity, turbulent * density * moment);
        }
    }
}
