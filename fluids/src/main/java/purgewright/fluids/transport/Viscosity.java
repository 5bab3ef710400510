package purgewright.fluids.transport;

import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

/**
 * Dynamic viscosity of one pure fluid by its published correlation, or by a labelled estimate. The formula of each form stands as a
 * comment beside its coefficients in the fluid's file. Immutable.
 */
public abstract class Viscosity {
    private final String source;
    private final boolean estimate;

    Viscosity(String source, boolean estimate) {
        this.source = source;
        this.estimate = estimate;
    }

    /** Publication, or the name of the estimate. */
    public final String source() {
        return source;
    }

    /** True when no correlation of this fluid is used. */
    public final boolean estimate() {
        return estimate;
    }

    /**
     * Viscosity, Pa s.
     *
     * @param equation the fluid's equation
     * @param w holds the state: temperature, density and all derivatives
     * @param other scratch, overwritten
     */
    public abstract double value(HelmholtzEquation equation, Workspace w, Workspace other);

    /** Viscosity of the dilute gas at a temperature (K), Pa s. */
    abstract double dilute(double temperature);

    /** The correlation that a fluid's file holds, else Chung's estimate. */
    public static Viscosity of(Coefficients c, HelmholtzEquation equation, Anchors anchors) {
        if (!c.has("viscosity.form")) {
            return new ChungViscosity(new Chung(c, equation, anchors));
        }
        String source = String.join("; ", c.texts("source.viscosity"));
        return switch (c.text("viscosity.form")) {
            case "arp-1998" -> new HeliumViscosity(source, c);
            case "iapws-2008" -> new WaterViscosity(source, c);
            default -> new SummedViscosity(source, c, equation);
        };
    }

    /** The estimate of {@link Chung}. */
    private static final class ChungViscosity extends Viscosity {
        private final Chung chung;

        ChungViscosity(Chung chung) {
            super(Chung.SOURCE, true);
            this.chung = chung;
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other) {
            return chung.viscosity(w.temperature(), w.density());
        }

        @Override
        double dilute(double temperature) {
            return chung.diluteViscosity(temperature);
        }
    }

    /** Dilute gas + initial density dependence + residual. */
    private static final class SummedViscosity extends Viscosity {
        private final String diluteForm;
        private final double[][] diluteTerms;
        private final double diluteFactor;
        private final double diluteScale;
        private final double[] laesecke;
        private final double[][] initialTerms;
        private final double initialScale;
        private final double initialFactor;
        private final String residualForm;
        private final double residualT;
        private final double residualRho;
        private final double[][] poly;
        private final double[][] free;
        private final double[][] numerator;
        private final double[][] denominator;
        private final double[] special;
        private final double[][] friction;
        private final double molarMass;

        SummedViscosity(String source, Coefficients c, HelmholtzEquation equation) {
            super(source, false);
            molarMass = equation.molarMass();
            diluteForm = c.text("viscosity.dilute.form");
            diluteTerms = c.table("viscosity.dilute.terms");
            switch (diluteForm) {
                case "collision-integral" -> {
                    double sigma = c.number("viscosity.dilute.sigma_nm");
                    diluteFactor = c.number("viscosity.dilute.C")
                            * Math.sqrt(c.number("viscosity.dilute.M_g_mol"))
                            / (sigma * sigma);
                    diluteScale = c.number("viscosity.dilute.eps_k");
                    laesecke = new double[0];
                }
                case "powers-of-Tr" -> {
                    diluteFactor = 1;
                    diluteScale = c.number("viscosity.dilute.T_r");
                    laesecke = new double[0];
                }
                case "laesecke-2017" -> {
                    diluteFactor = c.number("viscosity.dilute.c");
                    diluteScale = 1;
                    laesecke = c.numbers("viscosity.dilute.a");
                }
                default -> throw new IllegalArgumentException("viscosity.dilute.form " + diluteForm);
            }
            initialTerms = c.table("viscosity.initial_density.terms");
            if (initialTerms.length > 0) {
                initialScale = c.number("viscosity.initial_density.eps_k");
                double sigma = c.number("viscosity.initial_density.sigma_m");
                initialFactor = c.number("viscosity.initial_density.NA") * sigma * sigma * sigma / molarMass;
            } else {
                initialScale = 1;
                initialFactor = 0;
            }
            residualForm = c.text("viscosity.residual.form");
            String r = "viscosity.residual.";
            residualT = residualForm.equals("laesecke-2017") ? c.number(r + "T_t") : c.number(r + "T_r");
            poly = c.table(r + "poly");
            free = c.table(r + "free");
            numerator = c.table(r + "num");
            denominator = c.table(r + "den");
            double[][] noFriction = new double[0][];
            switch (residualForm) {
                case "batschinski-hildebrand" -> {
                    residualRho = c.number(r + "rho_r") * molarMass;
                    special = new double[0];
                    friction = noFriction;
                }
                case "muzny-2013" -> {
                    residualRho = 1 / c.number(r + "rho_factor");
                    special = c.numbers(r + "c");
                    friction = noFriction;
                }
                case "laesecke-2017" -> {
                    residualRho = c.number(r + "rho_tL_kg_m3");
                    double scale = Math.cbrt(residualRho * residualRho)
                            * Math.sqrt(equation.gasConstant() * molarMass * residualT)
                            / (Math.pow(molarMass, 1.0 / 6) * c.number(r + "k"));
                    special = new double[] {scale, c.number(r + "c1"), c.number(r + "c2"), c.number(r + "g")};
                    friction = noFriction;
                }
                case "friction-theory" -> {
                    residualRho = 1;
                    special = new double[] {
                        c.number(r + "c1"),
                        c.number(r + "c2"),
                        c.number(r + "N.i"),
                        c.number(r + "N.a"),
                        c.number(r + "N.r"),
                        c.number(r + "N.ii"),
                        c.number(r + "N.aa"),
                        c.number(r + "N.dd")
                    };
                    friction = new double[][] {
                        c.numbers(r + "ki"),
                        c.numbers(r + "ka"),
                        c.numbers(r + "kr"),
                        c.numbers(r + "kii"),
                        c.numbers(r + "kaa"),
                        c.numbers(r + "kdd")
                    };
                }
                default -> throw new IllegalArgumentException("viscosity.residual.form " + residualForm);
            }
        }

        @Override
        double dilute(double t) {
            switch (diluteForm) {
                case "collision-integral" -> {
                    double log = Math.log(t / diluteScale);
                    double sum = 0;
                    for (double[] term : diluteTerms) {
                        sum += term[0] * wholePower(log, (int) term[1]);
                    }
                    return diluteFactor * Math.sqrt(t) * Math.exp(-sum);
                }
                case "powers-of-Tr" -> {
                    double sum = 0;
                    for (double[] term : diluteTerms) {
                        sum += term[0] * Math.pow(t / diluteScale, term[1]);
                    }
                    return sum;
                }
                default -> {
                    double[] a = laesecke;
                    double third = Math.cbrt(t);
                    return diluteFactor
                            * Math.sqrt(t)
                            / (a[0]
                                    + a[1] * Math.sqrt(third)
                                    + a[2] * Math.exp(a[3] * third)
                                    + (a[4] + a[5] * third) / Math.exp(third)
                                    + a[6] * Math.sqrt(t));
                }
            }
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other) {
            double t = w.temperature();
            double rho = w.density();
            double eta0 = dilute(t);
            double eta = eta0;
            if (initialFactor != 0) {
                double log = Math.log(t / initialScale);
                double sum = 0;
                for (double[] term : initialTerms) {
                    sum += term[0] * Math.exp(term[1] * log);
                }
                eta += eta0 * rho * initialFactor * sum;
            }
            return eta
                    + switch (residualForm) {
                        case "batschinski-hildebrand" -> batschinskiHildebrand(t, rho);
                        case "muzny-2013" -> muzny(t, rho);
                        case "laesecke-2017" -> laesecke(t, rho);
                        default -> friction(equation, w);
                    };
        }

        private double batschinskiHildebrand(double t, double rho) {
            double delta = rho / residualRho;
            double tau = residualT / t;
            double logDelta = Math.log(delta);
            double logTau = Math.log(tau);
            double sum = 0;
            for (double[] term : poly) {
                double decay = term[3] == 0 ? 0 : term[3] * wholePower(delta, (int) term[4]);
                sum += term[0] * Math.exp(term[1] * logDelta + term[2] * logTau + decay);
            }
            if (free.length > 0) {
                double close = ratio(tau);
                double head = 0;
                for (double[] term : free) {
                    head += term[0] * Math.exp(term[1] * logDelta + term[2] * logTau);
                }
                sum += head * (1 / (close - delta) - 1 / close);
            }
            return sum;
        }

        private double ratio(double tau) {
            double n = 0;
            for (double[] term : numerator) {
                n += term[0] * Math.pow(tau, term[1]);
            }
            double d = 0;
            for (double[] term : denominator) {
                d += term[0] * Math.pow(tau, term[1]);
            }
            return n / d;
        }

        private double muzny(double t, double rho) {
            double tr = t / residualT;
            double rr = rho / residualRho;
            double square = rr * rr;
            double[] c = special;
            return c[0]
                    * square
                    * Math.exp(c[1] * tr + c[2] / tr + c[3] * square / (c[4] + tr) + c[5] * square * square * square);
        }

        private double laesecke(double t, double rho) {
            double tr = t / residualT;
            double rr = rho / residualRho;
            double[] c = special;
            return c[0] * (c[1] * tr * rr * rr * rr + (rr * rr + Math.pow(rr, c[3])) / (tr - c[2]));
        }

        private double friction(HelmholtzEquation equation, Workspace w) {
            double bar = 1e-5; // the correlation is in bar
            double t = w.temperature();
            double ta = residualT / t;
            double psi1 = Math.exp(ta) - special[0];
            double psi2 = Math.exp(ta * ta) - special[1];
            double pressure = equation.pressure(w) * bar;
            double repulsive = t * equation.pressureOverTemperature(w) * bar;
            double attractive = pressure - repulsive;
            double ideal = w.density() * equation.gasConstant() * t * bar;
            double excess = repulsive - ideal;
            double[] factor = new double[6];
            for (int i = 0; i < 6; i++) {
                double[] k = friction[i];
                factor[i] = (k[0] + k[1] * psi1 + k[2] * psi2) * Math.pow(ta, special[2 + i]);
            }
            return factor[0] * ideal
                    + factor[1] * attractive
                    + factor[2] * excess
                    + factor[3] * ideal * ideal
                    + factor[4] * attractive * attractive
                    + factor[5] * excess * excess;
        }
    }

    /** Integer power that takes a negative base. */
    static double wholePower(double base, int exponent) {
        double result = 1;
        for (int i = 0; i < exponent; i++) {
            result *= base;
        }
        return result;
    }

    /** Arp, McCarty and Friend's equation for helium. */
    private static final class HeliumViscosity extends Viscosity {
        private final double[] e0;
        private final double[] b;
        private final double[] c;
        private final double[] d;
        private final double[] gas;
        private final double change;
        private final double cap;

        HeliumViscosity(String source, Coefficients f) {
            super(source, false);
            e0 = f.numbers("viscosity.e0");
            b = f.numbers("viscosity.B");
            c = f.numbers("viscosity.C");
            d = f.numbers("viscosity.D");
            gas = f.numbers("viscosity.eta0");
            change = f.number("viscosity.T_switch");
            cap = f.number("viscosity.T_cap");
        }

        private static double series(double[] k, double x) {
            return k[0] / x + k[1] + x * (k[2] + x * (k[3] + x * k[4]));
        }

        @Override
        double dilute(double temperature) {
            double x = Math.log(Math.min(temperature, cap));
            return temperature <= change ? Math.exp(series(e0, x)) * 1e-7 : hot(temperature) * 1e-7;
        }

        private double hot(double t) {
            return gas[0] * Math.pow(t, gas[1]) * Math.exp(gas[2] / t + gas[3] / (t * t) + gas[4]);
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other) {
            double t = w.temperature();
            double x = Math.log(Math.min(t, cap));
            double r = w.density() * 1e-3;
            double e = series(e0, x);
            double excess = r * (series(b, x) + r * (series(c, x) + r * series(d, x)));
            double eta = Math.exp(e + excess);
            return (t <= change ? eta : eta + hot(t) - Math.exp(e)) * 1e-7;
        }
    }

    /** The IAPWS formulation of 2008 for water, with its critical enhancement. */
    private static final class WaterViscosity extends Viscosity {
        private final double tStar;
        private final double rhoStar;
        private final double pStar;
        private final double[] gas;
        private final double[][] h;
        private final double xMu;
        private final double qc;
        private final double qd;
        private final double nuOverGamma;
        private final double xi0;
        private final double gamma0;
        private final double reference;
        private final double small;

        WaterViscosity(String source, Coefficients c) {
            super(source, false);
            tStar = c.number("viscosity.T_star");
            rhoStar = c.number("viscosity.rho_star_kg_m3");
            pStar = c.number("viscosity.p_star");
            gas = c.numbers("viscosity.dilute");
            h = c.table("viscosity.H");
            xMu = c.number("viscosity.critical.x_mu");
            qc = 1 / c.number("viscosity.critical.qc_inv_nm");
            qd = 1 / c.number("viscosity.critical.qd_inv_nm");
            nuOverGamma = c.number("viscosity.critical.nu") / c.number("viscosity.critical.gamma");
            xi0 = c.number("viscosity.critical.xi0_nm");
            gamma0 = c.number("viscosity.critical.Gamma0");
            reference = c.number("viscosity.critical.T_R");
            small = c.number("viscosity.critical.xi_small");
            // the file gives 1/qc and 1/qd in nm, xi in nm: only products enter
        }

        @Override
        double dilute(double temperature) {
            double tb = temperature / tStar;
            double sum = 0;
            for (int i = gas.length - 1; i >= 0; i--) {
                sum = sum / tb + gas[i];
            }
            return 100 * Math.sqrt(tb) / sum * 1e-6;
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other) {
            double tb = w.temperature() / tStar;
            double rb = w.density() / rhoStar;
            double sum = 0;
            for (double[] row : h) {
                sum += row[0] * wholePower(1 / tb - 1, (int) row[1]) * wholePower(rb - 1, (int) row[2]);
            }
            double background = dilute(w.temperature()) * Math.exp(rb * sum);
            return background * Math.exp(xMu * crossover(equation, w, other, tb, rb));
        }

        private double crossover(HelmholtzEquation equation, Workspace w, Workspace other, double tb, double rb) {
            double zeta = pStar / (rhoStar * equation.pressureSlope(w));
            equation.setTemperature(other, reference * tStar);
            equation.setDensityForPressure(other, w.density());
            double zetaReference = pStar / (rhoStar * equation.pressureSlope(other));
            double chi = rb * (zeta - zetaReference * reference / tb);
            if (!(chi > 0)) {
                return 0;
            }
            double xi = xi0 * Math.pow(chi / gamma0, nuOverGamma);
            double c = qc * xi;
            double d = qd * xi;
            if (xi <= small) {
                return 0.2 * c * Math.pow(d, 5) * (1 - c + c * c - 765.0 / 504 * d * d);
            }
            double psi = Math.acos(1 / Math.sqrt(1 + d * d));
            double v = Math.sqrt(Math.abs((c - 1) / (c + 1))) * Math.tan(psi / 2);
            double l = c > 1 ? Math.log((1 + v) / (1 - v)) : 2 * Math.atan(Math.abs(v));
            return Math.sin(3 * psi) / 12
                    - Math.sin(2 * psi) / (4 * c)
                    + (1 - 1.25 * c * c) * Math.sin(psi) / (c * c)
                    - ((1 - 1.5 * c * c) * psi - Math.pow(Math.abs(c * c - 1), 1.5) * l) / (c * c * c);
        }
    }
}
