package purgewright.sealflow.gap;

/**
 * How far a turning body grows: closed forms, plane stress, elastic, of one material.
 *
 * <p>Source: S. Timoshenko, Strength of Materials, Part II; W. C. Young, Roark's Formulas for Stress and Strain, ch. 16 [from memory].
 */
public final class Growth {
    private Growth() {}

    /**
     * Radial displacement of a disc or shaft at a radius: {@code u = r/E (s_t - nu s_r)} with the stresses of a turning disc of uniform
     * thickness. At the rim of a solid disc this is {@code rho w^2 b^3 (1 - nu) / (4 E)}, of a bored one {@code rho w^2 b / (4E) ((1 - nu)
     * b^2 + (3 + nu) a^2)}.
     *
     * @param bore radius of the bore, m; 0 for solid
     * @param outer radius, m
     * @param radius where, m; between the two
     * @param speed rad/s
     * @param density kg/m3
     * @param modulus Pa
     * @param poisson ratio
     */
    public static double disc(
            double bore, double outer, double radius, double speed, double density, double modulus, double poisson) {
        double a2 = bore * bore;
        double b2 = outer * outer;
        double r2 = radius * radius;
        double load = density * speed * speed;
        double cross = bore > 0 ? a2 * b2 / r2 : 0;
        double radial = (3 + poisson) / 8 * load * (a2 + b2 - cross - r2);
        double hoop = (3 + poisson) / 8 * load * (a2 + b2 + cross - (1 + 3 * poisson) / (3 + poisson) * r2);
        return radius / modulus * (hoop - poisson * radial);
    }

    /** Hoop stress of a disc at a radius, Pa. */
    public static double hoopStress(
            double bore, double outer, double radius, double speed, double density, double poisson) {
        double a2 = bore * bore;
        double b2 = outer * outer;
        double r2 = radius * radius;
        double cross = bore > 0 ? a2 * b2 / r2 : 0;
        return (3 + poisson) / 8 * density * speed * speed * (a2 + b2 + cross - (1 + 3 * poisson) / (3 + poisson) * r2);
    }

    /** Radial displacement of a thin ring, {@code rho w^2 R^3 / E}, m. */
    public static double ring(double radius, double speed, double density, double modulus) {
        return density * speed * speed * radius * radius * radius / modulus;
    }

    /** Displacement of a ring's bore under inner pressure, {@code (p a/E)((b^2 + a^2)/(b^2 - a^2) + nu)}, m. */
    public static double pressurisedBore(double pressure, double bore, double outer, double modulus, double poisson) {
        double a2 = bore * bore;
        double b2 = outer * outer;
        return pressure * bore / modulus * ((b2 + a2) / (b2 - a2) + poisson);
    }

    /** Free thermal growth, {@code r alpha dT}, m. */
    public static double thermal(double radius, double expansion, double temperatureRise) {
        return radius * expansion * temperatureRise;
    }
}
