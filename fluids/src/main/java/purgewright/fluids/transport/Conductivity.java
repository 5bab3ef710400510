package purgewright.fluids.transport;

import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

/**
 * Thermal conductivity of one pure fluid by its published correlation, or by a labelled estimate. The formula of each form stands as a
 * comment beside its coefficients in the fluid's file. Immutable.
 */
public abstract class Conductivity {
    private final String source;
    private final boolean estimate;

    Conductivity(String source, boolean estimate) {
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
     * Thermal conductivity, W/(m K).
     *
     * @param equation the fluid's equation
     * @param w holds the state: temperature, density, all derivatives, ideal part
     * @param other scratch, overwritten
     * @param viscosity of the same state, Pa s
     */
    public abstract double value(HelmholtzEquation equation, Workspace w, Workspace other, double viscosity);

    /** The correlation that a fluid's file holds, else Chung's estimate. */
    public static Conductivity of(Coefficients c, HelmholtzEquation equation, Anchors anchors) {
        if (!c.has("conductivity.form")) {
            return new ChungConductivity(new Chung(c, equation, anchors));
        }
        String source = String.join("; ", c.texts("source.conductivity"));
        return switch (c.text("conductivity.form")) {
            case "hands-arp-1981" -> new HeliumConductivity(source, c);
            case "friend-1989" -> new MethaneConductivity(source, c, equation, anchors);
            case "iapws-2011" -> new WaterConductivity(source, c);
            default -> new SummedConductivity(source, c, equation, anchors);
        };
    }

    private static double isochoric(HelmholtzEquation equation, Workspace w) {
        return equation.isochoricHeatCapacity(w);
    }

    private static double isobaric(HelmholtzEquation equation, Workspace w) {
        double overT = equation.pressureOverTemperature(w);
        return isochoric(equation, w)
                + w.temperature() * overT * overT / (w.density() * w.density() * equation.pressureSlope(w));
    }

    /** The estimate of {@link Chung}. */
    private static final class ChungConductivity extends Conductivity {
        private final Chung chung;

        ChungConductivity(Chung chung) {
            super(Chung.SOURCE, true);
            this.chung = chung;
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double viscosity) {
            double heat = equation.idealIsochoricHeatCapacity(w) / equation.gasConstant();
            return chung.conductivity(w.temperature(), w.density(), heat);
        }
    }

    /** Dilute gas + residual + critical enhancement. */
    private static final class SummedConductivity extends Conductivity {
        private final String diluteForm;
        private final double[][] diluteTerms;
        private final double[][] numerator;
        private final double[][] denominator;
        private final double[] huber;
        private final double diluteT;
        private final Viscosity viscosity;
        private final boolean exponential;
        private final double[][] residual;
        private final double residualT;
        private final double residualRho;
        private final double reducingT;
        private final double reducingRho;
        private final Critical critical;

        SummedConductivity(String source, Coefficients c, HelmholtzEquation equation, Anchors anchors) {
            super(source, false);
            reducingT = equation.reducingTemperature();
            reducingRho = equation.reducingDensity();
            diluteForm = c.text("conductivity.dilute.form");
            diluteTerms = c.table("conductivity.dilute.terms");
            numerator = c.table("conductivity.dilute.num");
            denominator = c.table("conductivity.dilute.den");
            switch (diluteForm) {
                case "eta0-and-poly" -> {
                    viscosity = Viscosity.of(c, equation, anchors);
                    diluteT = reducingT;
                    huber = new double[0];
                }
                case "ratio-of-polynomials" -> {
                    viscosity = null;
                    diluteT = c.number("conductivity.dilute.T_r");
                    huber = new double[0];
                }
                case "huber-2016" -> {
                    viscosity = null;
                    diluteT = reducingT;
                    huber = c.numbers("conductivity.dilute.l");
                }
                default -> throw new IllegalArgumentException("conductivity.dilute.form " + diluteForm);
            }
            exponential = c.text("conductivity.residual.form").equals("polynomial-exponential");
            residual = c.table("conductivity.residual.terms");
            residualT = exponential ? reducingT : c.number("conductivity.residual.T_r");
            residualRho = exponential ? reducingRho : c.number("conductivity.residual.rho_r_kg_m3");
            critical = c.text("conductivity.critical.form").equals("tufeu-1984") ? new Tufeu(c) : new OlchowySengers(c);
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta) {
            return dilute(w.temperature())
                    + residual(w.temperature(), w.density())
                    + critical.value(equation, w, other, eta);
        }

        private double dilute(double t) {
            switch (diluteForm) {
                case "eta0-and-poly" -> {
                    double logTau = Math.log(diluteT / t);
                    double sum = diluteTerms[0][0] * viscosity.dilute(t) * 1e6;
                    for (int i = 1; i < diluteTerms.length; i++) {
                        sum += diluteTerms[i][0] * Math.exp(diluteTerms[i][1] * logTau);
                    }
                    return sum;
                }
                case "ratio-of-polynomials" -> {
                    return polynomial(numerator, t / diluteT) / polynomial(denominator, t / diluteT);
                }
                default -> {
                    double tau = diluteT / t;
                    double sum = 0;
                    for (int i = huber.length - 1; i >= 0; i--) {
                        sum = sum * tau + huber[i];
                    }
                    return 1e-3 / (Math.sqrt(tau) * sum);
                }
            }
        }

        private static double polynomial(double[][] terms, double x) {
            double sum = 0;
            for (double[] term : terms) {
                sum += term[0] * Math.pow(x, term[1]);
            }
            return sum;
        }

        private double residual(double t, double rho) {
            double tau = residualT / t;
            double delta = rho / residualRho;
            double logTau = Math.log(tau);
            double sum = 0;
            for (double[] term : residual) {
                double value = term[0] * Math.exp(term[1] * logTau) * Viscosity.wholePower(delta, (int) term[2]);
                if (exponential && term[3] != 0) {
                    value *= Math.exp(-term[3] * Viscosity.wholePower(delta, (int) term[4]));
                }
                sum += value;
            }
            return sum;
        }
    }

    private interface Critical {
        double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta);
    }

    /** The simplified crossover of G. A. Olchowy and J. V. Sengers, Int. J. Thermophys. 10 (1989) 417. */
    private static final class OlchowySengers implements Critical {
        private final double boltzmann;
        private final double amplitude;
        private final double exponent;
        private final double gamma;
        private final double xi0;
        private final double qd;
        private final double reference;
        private final double pressure;
        private final double density;

        OlchowySengers(Coefficients c) {
            String k = "conductivity.critical.";
            boltzmann = c.number(k + "k");
            amplitude = c.number(k + "R0");
            exponent = c.number(k + "nu") / c.number(k + "gamma");
            gamma = c.number(k + "Gamma");
            xi0 = c.number(k + "xi0");
            qd = c.number(k + "qD");
            reference = c.number(k + "T_ref");
            pressure = c.number("reducing.pressure");
            density = c.number("reducing.density") * c.number("molar_mass");
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta) {
            double rho = w.density();
            double t = w.temperature();
            double scale = pressure * rho / (density * density);
            equation.setTemperature(other, reference);
            equation.setDensityForPressure(other, rho);
            double chi = scale / equation.pressureSlope(w) - scale / equation.pressureSlope(other) * reference / t;
            if (!(chi > 0)) {
                return 0;
            }
            double xi = xi0 * Math.pow(chi / gamma, exponent);
            double q = qd * xi;
            double cv = isochoric(equation, w);
            double cp = isobaric(equation, w);
            double omega = 2 / Math.PI * ((cp - cv) / cp * Math.atan(q) + cv / cp * q);
            double ratio = density / rho;
            double omega0 = 2 / Math.PI * -Math.expm1(-1 / (1 / q + q * q * ratio * ratio / 3));
            return rho * cp * amplitude * boltzmann * t / (6 * Math.PI * eta * xi) * (omega - omega0);
        }
    }

    /** Tufeu and co-workers' enhancement for ammonia; constants from memory, held against the reference table. */
    private static final class Tufeu implements Critical {
        private final double tc;
        private final double rhoc;
        private final double lambda;
        private final double nu;
        private final double gamma;
        private final double delta;
        private final double xi0;
        private final double aXi;
        private final double gamma0;
        private final double boltzmann;

        Tufeu(Coefficients c) {
            String k = "conductivity.critical.";
            tc = c.number(k + "T_c");
            rhoc = c.number(k + "rho_c");
            lambda = c.number(k + "Lambda");
            nu = c.number(k + "nu");
            gamma = c.number(k + "gamma");
            delta = c.number(k + "Delta");
            xi0 = c.number(k + "xi0");
            aXi = c.number(k + "a_xi");
            gamma0 = c.number(k + "Gamma0");
            boltzmann = c.number(k + "k");
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta) {
            double temperature = w.temperature();
            double rho = w.density();
            double t = Math.max(Math.abs((temperature - tc) / tc), 1e-7);
            double aChi = aXi / 0.7;
            double background = (2.60 + 1.6 * t) * 1e-5;
            double slope = (2.18 - 0.12 / Math.exp(17.8 * t)) * 1e5;
            double x = 0.61 * rhoc + 16.5 * Math.log(t);
            double root = Math.pow(t, delta);
            double along = lambda
                    * boltzmann
                    * temperature
                    * temperature
                    / (6 * Math.PI * background * xi0 * Math.pow(t, -nu) * (1 + aXi * root))
                    * slope
                    * slope
                    * gamma0
                    * Math.pow(t, -gamma)
                    * (1 + aChi * root)
                    * Math.exp(-36 * t * t);
            double edge = 0.6 * rhoc;
            double near = Math.max(rho, edge) - 0.96 * rhoc;
            double shape = x * x / (x * x + near * near);
            return along * shape * (rho < edge ? rho * rho / (edge * edge) : 1);
        }
    }

    /** Hands and Arp's equation for helium. */
    private static final class HeliumConductivity extends Conductivity {
        private final double[] d;
        private final double[] e;
        private final double[] c;
        private final double rhoLog;
        private final double k1;
        private final double k2;
        private final double x0;
        private final double e1;
        private final double e2;
        private final double beta;
        private final double gamma;
        private final double delta;
        private final double rhoc;
        private final double tc;
        private final double pc;
        private final double[] range;
        private final double expT;
        private final double expRho;
        private final double wT;
        private final double wRho;

        HeliumConductivity(String source, Coefficients f) {
            super(source, false);
            d = f.numbers("conductivity.d");
            e = f.numbers("conductivity.e");
            c = f.numbers("conductivity.c");
            rhoLog = f.number("conductivity.rho_log_kg_m3");
            String k = "conductivity.critical.";
            k1 = f.number(k + "k1");
            k2 = f.number(k + "k2");
            x0 = f.number(k + "x0");
            e1 = f.number(k + "E1");
            e2 = f.number(k + "E2");
            beta = f.number(k + "beta");
            gamma = f.number(k + "gamma");
            delta = f.number(k + "delta");
            rhoc = f.number(k + "rhoc_kg_m3");
            tc = f.number(k + "Tc");
            pc = f.number(k + "pc");
            range = f.numbers(k + "T_range");
            expT = f.number(k + "exp_T");
            expRho = f.number(k + "exp_rho");
            wT = f.number(k + "W_T");
            wRho = f.number(k + "W_rho");
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta) {
            double t = w.temperature();
            double rho = w.density();
            double sum = 0;
            for (int i = e.length - 1; i >= 0; i--) {
                sum = (sum + e[i]) / t;
            }
            double dilute = d[0] * Math.pow(t, d[1]) * Math.exp(sum);
            double t1 = Math.cbrt(t);
            double t2 = t1 * t1;
            double excess = (c[0] + c[1] * t + c[2] * t1 + c[3] * t2) * rho
                    + (c[4] + c[5] * t1 + c[6] * t2) * rho * rho * rho
                    + (c[7] + c[8] * t1 + c[9] * t2 + c[10] / t) * rho * rho * Math.log(rho / rhoLog);
            double critical = t > range[0] && t < range[1] ? critical(equation, w, eta) : 0;
            return dilute + excess + critical;
        }

        private double critical(HelmholtzEquation equation, Workspace w, double eta) {
            double t = w.temperature();
            double rho = w.density();
            double dt = Math.abs(1 - t / tc);
            double dr = Math.abs(1 - rho / rhoc);
            double compressibility = 1 / (rho * equation.pressureSlope(w));
            double weight = dt * dt / (wT * wT) + dr * dr / (wRho * wRho);
            if (weight <= 1) {
                // scaled equation of state close to the critical point
                double x = Math.pow(dt / Math.max(dr, 1e-12), 1 / beta);
                double part = 1 + x / x0;
                double inner = 1 + e2 * Math.pow(part, 2 / beta);
                double m = (gamma - 1) / (2 * beta);
                double h = e1 * part * Math.pow(inner, m);
                double dh = e1 / x0 * Math.pow(inner, m)
                        + e1 * part * m * Math.pow(inner, m - 1) * e2 * 2 / beta * Math.pow(part, 2 / beta - 1) / x0;
                double ratio = rho / rhoc;
                double scaled = 1
                        / ((delta * h - x / beta * dh) * Math.pow(Math.max(dr, 1e-12), delta - 1) * ratio * ratio * pc);
                compressibility = weight * compressibility + (1 - weight) * scaled;
            }
            double overT = equation.pressureOverTemperature(w);
            return k1
                    * k2
                    * Math.sqrt(compressibility)
                    * t
                    * t
                    / (rho * eta)
                    * overT
                    * overT
                    * Math.exp(expT * dt * dt + expRho * dr * dr * dr * dr);
        }
    }

    /** Friend, Ely and Ingham's equation for methane. */
    private static final class MethaneConductivity extends Conductivity {
        private final Anchors anchors;
        private final double epsilon;
        private final double tr;
        private final double rhor;
        private final double etaFactor;
        private final double[] etaC;
        private final double excessFactor;
        private final double[] excessR;
        private final double[] excessS;
        private final double[] excessG;
        private final double diluteK;
        private final double[] diluteF;
        private final double residualFactor;
        private final double[] residualR;
        private final double[] residualS;
        private final double[] residualJ;
        private final double criticalK;
        private final double[] criticalF;
        private final double chiFactor;
        private final double chiExponent;
        private final double[] scaled = new double[10];

        MethaneConductivity(String source, Coefficients c, HelmholtzEquation equation, Anchors anchors) {
            super(source, false);
            this.anchors = anchors;
            epsilon = c.number("conductivity.eps_k");
            tr = c.number("conductivity.T_r");
            rhor = c.number("conductivity.rho_r") * equation.molarMass();
            etaFactor = c.number("conductivity.eta0.factor");
            etaC = c.numbers("conductivity.eta0.C");
            excessFactor = c.number("conductivity.eta_excess.factor");
            excessR = c.numbers("conductivity.eta_excess.r");
            excessS = c.numbers("conductivity.eta_excess.s");
            excessG = c.numbers("conductivity.eta_excess.g");
            diluteK = c.number("conductivity.dilute.k");
            diluteF = c.numbers("conductivity.dilute.f");
            residualFactor = c.number("conductivity.residual.factor");
            residualR = c.numbers("conductivity.residual.r");
            residualS = c.numbers("conductivity.residual.s");
            residualJ = c.numbers("conductivity.residual.j");
            criticalK = c.number("conductivity.critical.k");
            criticalF = c.numbers("conductivity.critical.F");
            chiFactor = c.number("conductivity.critical.chi");
            chiExponent = c.number("conductivity.critical.exponent");
            String[] names = {"Gamma", "gamma", "beta", "W", "S", "E", "a", "b", "R", "Q"};
            for (int i = 0; i < names.length; i++) {
                scaled[i] = c.number("conductivity.critical.scaled." + names[i]);
            }
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta) {
            double t = w.temperature();
            double tau = tr / t;
            double delta = w.density() / rhor;
            double reduced = t / epsilon;
            double sum = 0;
            for (int i = 0; i < etaC.length; i++) {
                sum += etaC[i] * Math.pow(reduced, i / 3.0 - 1);
            }
            double eta0 = etaFactor * Math.sqrt(reduced) * sum;
            double over = 0;
            for (int i = 0; i < 9; i++) {
                over += excessG[i] * Math.pow(delta, excessR[i]) * Math.pow(tau, excessS[i]);
            }
            double under = 1;
            for (int i = 9; i < 11; i++) {
                under += excessG[i] * Math.pow(delta, excessR[i]) * Math.pow(tau, excessS[i]);
            }
            double etaFriend = eta0 + excessFactor * over / under;
            double f = diluteF[0] + diluteF[1] / reduced;
            double dilute = diluteK * eta0 * (3.75 - f * (w.ideal2() - w.ideal1() + 1.5));

            double deltaSigma = 1;
            if (t < anchors.criticalTemperature() && w.density() < anchors.criticalDensity()) {
                deltaSigma = anchors.vapourDensity().applyAsDouble(t) / rhor;
            }
            double residual = residualJ[6] * delta * delta / deltaSigma;
            for (int i = 0; i < 6; i++) {
                residual += residualJ[i] * Math.pow(delta, residualR[i]) * Math.pow(tau, residualS[i]);
            }
            residual *= residualFactor;

            double ts = 1 - t / tr;
            double rs = 1 - delta;
            double chi;
            if (Math.abs(ts) < 0.03 && Math.abs(rs) < 0.03) {
                chi = scaledSusceptibility(ts, rs);
            } else {
                chi = chiFactor * delta * tau / (1 + w.a10() + w.a20());
            }
            double bracket = 1 + w.a10() - w.a11();
            double damping =
                    Math.exp(-criticalF[0] * Math.sqrt(Math.abs(ts)) - criticalF[1] * rs * rs - criticalF[2] * rs);
            double critical =
                    criticalK / (etaFriend * tau * tau) * bracket * bracket * Math.pow(chi, chiExponent) * damping;
            return (dilute + residual + critical) * 1e-3;
        }

        private double scaledSusceptibility(double ts, double rs) {
            double beta = scaled[2];
            if (Math.abs(rs) < 1e-12) {
                return scaled[0] * Math.pow(Math.max(Math.abs(ts), 1e-12), -scaled[1]);
            }
            double power = Math.pow(Math.abs(rs), -1 / beta);
            double omega = scaled[3] * ts * power;
            double theta = 1;
            if (ts < -1 / (power * scaled[4])) {
                theta = 1 + scaled[5] * Math.pow(1 + scaled[4] * ts * power, 2 * beta);
            }
            return scaled[9]
                    * Math.pow(Math.abs(rs), -scaled[6])
                    * Math.pow(theta, scaled[7])
                    / (theta + omega * (theta + scaled[8]));
        }
    }

    /** The IAPWS formulation of 2011 for water. */
    private static final class WaterConductivity extends Conductivity {
        private final double tStar;
        private final double rhoStar;
        private final double pStar;
        private final double[] gas;
        private final double[][] l;
        private final double gasConstant;
        private final double gamma;
        private final double nuOverGamma;
        private final double xi0;
        private final double gamma0;
        private final double reference;
        private final double qd;
        private final double least;

        WaterConductivity(String source, Coefficients c) {
            super(source, false);
            tStar = c.number("conductivity.T_star");
            rhoStar = c.number("conductivity.rho_star_kg_m3");
            pStar = c.number("conductivity.p_star");
            gas = c.numbers("conductivity.dilute");
            l = c.table("conductivity.L");
            String k = "conductivity.critical.";
            gasConstant = c.number(k + "R_J_kgK");
            gamma = c.number(k + "Gamma");
            nuOverGamma = c.number(k + "nu") / c.number(k + "gamma");
            xi0 = c.number(k + "xi0_nm");
            gamma0 = c.number(k + "Gamma0");
            reference = c.number(k + "T_R");
            qd = c.number(k + "qd_nm");
            least = c.number(k + "y_min");
        }

        @Override
        public double value(HelmholtzEquation equation, Workspace w, Workspace other, double eta) {
            double tb = w.temperature() / tStar;
            double rb = w.density() / rhoStar;
            double sum = 0;
            for (int i = gas.length - 1; i >= 0; i--) {
                sum = sum / tb + gas[i];
            }
            double dilute = Math.sqrt(tb) / sum;
            double factor = 1 / tb - 1;
            double exponent = 0;
            for (int i = 0; i < l.length; i++) {
                double inner = 0;
                for (int j = l[i].length - 1; j >= 0; j--) {
                    inner = inner * (rb - 1) + l[i][j];
                }
                exponent += Viscosity.wholePower(factor, i) * inner;
            }
            return (dilute * Math.exp(rb * exponent) + critical(equation, w, other, tb, rb, eta)) * 1e-3;
        }

        private double critical(
                HelmholtzEquation equation, Workspace w, Workspace other, double tb, double rb, double eta) {
            double zeta = pStar / (rhoStar * equation.pressureSlope(w));
            equation.setTemperature(other, reference * tStar);
            equation.setDensityForPressure(other, w.density());
            double zetaReference = pStar / (rhoStar * equation.pressureSlope(other));
            double chi = rb * (zeta - zetaReference * reference / tb);
            if (!(chi > 0)) {
                return 0;
            }
            double y = xi0 * Math.pow(chi / gamma0, nuOverGamma) / qd;
            if (y < least) {
                return 0;
            }
            double cp = isobaric(equation, w);
            double inverse = isochoric(equation, w) / cp;
            double z = 2
                    / (Math.PI * y)
                    * ((1 - inverse) * Math.atan(y) + inverse * y + Math.expm1(-1 / (1 / y + y * y / (3 * rb * rb))));
            return gamma * rb * (cp / gasConstant) * tb / (eta * 1e6) * z;
        }
    }
}
