package purgewright.fluids.helmholtz;

import java.util.Arrays;
import java.util.TreeMap;

/**
 * A fundamental equation of state: the Helmholtz energy of one fluid over temperature and density, and what follows from it.
 *
 * <p>Immutable. Evaluation works in a {@link Workspace} owned by the caller, allocates nothing, and keeps everything that depends on
 * temperature alone, so that walking along an isotherm costs a fraction of a full evaluation.
 *
 * <p>Derivatives are taken with the operators {@code D_delta = delta d/d delta} and {@code D_tau = tau d/d tau}; {@code aij} is
 * {@code D_delta^i D_tau^j} of the residual part. Then, with R the specific gas constant,
 *
 * <pre>{@code
 * p        = rho R T (1 + a10)
 * dp/drho  = R T (1 + a10 + a20)
 * dp/dT    = rho R (1 + a10 - a11)
 * u        = R T (D_tau ideal + a01),   s = R (D_tau ideal + a01 - ideal - a00)
 * cv       = -R (D_tau^2 ideal - D_tau ideal + a02 - a01)
 * cp       = cv + T (dp/dT)^2 / (rho^2 dp/drho),   w^2 = cp/cv dp/drho
 * }</pre>
 */
public final class HelmholtzEquation {
    /** Below this exponent a Gaussian term adds less than the rounding of the sum, its second derivatives too. */
    private static final double NEGLIGIBLE_EXPONENT = -60;

    private final double gasConstant;
    private final double molarMass;
    private final double reducingTemperature;
    private final double reducingDensity;

    private final double lead1;
    private final double lead2;
    private final double logFactor;
    private final double[][] idealPower;
    private final double[][] einstein;

    /** Distinct exponents of tau. */
    private final double[] exponents;

    /** Exponent in eighths when it is a whole number of them (roots and squarings are faster than exp), else MIN_VALUE. */
    private final int[] eighths;

    private final double[] termFactor;
    private final double[] termExponent;
    private final int[] termPower;
    /** Terms of group g are [groupStart[g], groupStart[g + 1]). A group shares d and l. */
    private final int[] groupStart;

    private final int[] groupD;
    /** Groups of exponential e are [exponentialStart[e], exponentialStart[e + 1]). */
    private final int[] exponentialStart;

    private final int[] exponentialL;
    private final int highestPower;

    private final double[][] bells;
    private final int[] bellPower;
    private final int[] bellD;
    private final double[][] nonanalytic;

    /** @param coefficients a fluid's file */
    public HelmholtzEquation(Coefficients coefficients) {
        molarMass = coefficients.number("molar_mass");
        gasConstant = coefficients.number("gas_constant") / molarMass;
        reducingTemperature = coefficients.number("reducing.temperature");
        reducingDensity = coefficients.number("reducing.density") * molarMass;
        double[] lead = coefficients.numbers("ideal.lead");
        double[] offset = coefficients.numbers("ideal.offset");
        lead1 = lead[0] + offset[0];
        lead2 = lead[1] + offset[1];
        logFactor = coefficients.number("ideal.log");
        idealPower = coefficients.table("ideal.power");
        einstein = coefficients.table("ideal.einstein");

        double[][] power = coefficients.table("residual.power");
        Arrays.sort(power, (a, b) -> a[3] != b[3] ? Double.compare(a[3], b[3]) : Double.compare(a[1], b[1]));
        double[][] gauss = coefficients.table("residual.gauss");
        double[][] associating = coefficients.table("residual.associating");
        nonanalytic = coefficients.table("residual.nonanalytic");
        bells = Arrays.copyOf(gauss, gauss.length + associating.length);
        System.arraycopy(associating, 0, bells, gauss.length, associating.length);

        TreeMap<Double, Integer> index = new TreeMap<>();
        for (double[] row : power) {
            index.put(row[2], 0);
        }
        for (double[] row : bells) {
            index.put(row[2], 0);
        }
        exponents = new double[index.size()];
        eighths = new int[index.size()];
        int position = 0;
        for (var entry : index.entrySet()) {
            exponents[position] = entry.getKey();
            double scaled = entry.getKey() * 8;
            eighths[position] =
                    scaled == Math.rint(scaled) && Math.abs(scaled) < 512 ? (int) scaled : Integer.MIN_VALUE;
            entry.setValue(position++);
        }

        int terms = power.length;
        termFactor = new double[terms];
        termExponent = new double[terms];
        termPower = new int[terms];
        int[] starts = new int[terms + 1];
        int[] ds = new int[terms];
        int[] exponentialStarts = new int[terms + 1];
        int[] ls = new int[terms];
        int groups = 0;
        int exponentials = 0;
        int highest = 1;
        for (int i = 0; i < terms; i++) {
            double[] row = power[i];
            boolean newExponential = i == 0 || row[3] != power[i - 1][3];
            if (newExponential) {
                ls[exponentials] = (int) row[3];
                exponentialStarts[exponentials++] = groups;
            }
            if (newExponential || row[1] != power[i - 1][1]) {
                ds[groups] = (int) row[1];
                starts[groups++] = i;
            }
            termFactor[i] = row[0];
            termExponent[i] = row[2];
            termPower[i] = index.get(row[2]);
            highest = Math.max(highest, (int) Math.max(row[1], row[3]));
        }
        starts[groups] = terms;
        exponentialStarts[exponentials] = groups;
        groupStart = Arrays.copyOf(starts, groups + 1);
        groupD = Arrays.copyOf(ds, groups);
        exponentialStart = Arrays.copyOf(exponentialStarts, exponentials + 1);
        exponentialL = Arrays.copyOf(ls, exponentials);

        bellPower = new int[bells.length];
        bellD = new int[bells.length];
        for (int i = 0; i < bells.length; i++) {
            bellPower[i] = index.get(bells[i][2]);
            bellD[i] = (int) bells[i][1];
            highest = Math.max(highest, bellD[i]);
            if (i >= gauss.length) {
                bells[i][3] = -bells[i][3]; // the associating term is published with the opposite sign
            }
        }
        highestPower = highest;
    }

    /** Specific gas constant, J/(kg K). */
    public double gasConstant() {
        return gasConstant;
    }

    /** Molar mass, kg/mol. */
    public double molarMass() {
        return molarMass;
    }

    /** Temperature that reduces the equation, K. */
    public double reducingTemperature() {
        return reducingTemperature;
    }

    /** Density that reduces the equation, kg/m3. */
    public double reducingDensity() {
        return reducingDensity;
    }

    /** True when the third derivative {@link Workspace#a30} is complete; terms singular at the critical point leave it out. */
    public boolean hasThirdDerivative() {
        return nonanalytic.length == 0;
    }

    /** A workspace for one thread. */
    public Workspace workspace() {
        return new Workspace(exponents.length, groupD.length, bells.length, highestPower + 1);
    }

    /**
     * Sets the temperature (K). Does nothing when it is the one already set. The ideal and the residual part are worked out when they are
     * first asked for, so that either alone costs no more than itself.
     */
    public void setTemperature(Workspace w, double temperature) {
        if (temperature == w.temperature) {
            return;
        }
        w.temperature = temperature;
        w.tau = reducingTemperature / temperature;
        w.logTau = Math.log(w.tau);
        w.idealReady = false;
        w.residualReady = false;
    }

    /** What of the residual part depends on temperature alone. */
    private void residual(Workspace w) {
        if (w.residualReady) {
            return;
        }
        w.residualReady = true;
        double tau = w.tau;
        double logTau = w.logTau;
        double root2 = Math.sqrt(tau);
        double root4 = Math.sqrt(root2);
        double root8 = Math.sqrt(root4);
        double[] powers = w.powers;
        for (int i = 0; i < exponents.length; i++) {
            int e = eighths[i];
            powers[i] = e == Integer.MIN_VALUE ? Math.exp(exponents[i] * logTau) : power(e, tau, root2, root4, root8);
        }
        for (int g = 0; g < groupD.length; g++) {
            double c0 = 0;
            double c1 = 0;
            double c2 = 0;
            int end = groupStart[g + 1];
            for (int i = groupStart[g]; i < end; i++) {
                double c = termFactor[i] * powers[termPower[i]];
                double t = termExponent[i];
                c0 += c;
                c1 += c * t;
                c2 += c * t * t;
            }
            w.c0[g] = c0;
            w.c1[g] = c1;
            w.c2[g] = c2;
        }
        for (int i = 0; i < bells.length; i++) {
            double[] b = bells[i];
            double difference = tau - b[6];
            double exponent;
            double slope;
            double curvature;
            if (b.length == 7) {
                exponent = -b[5] * difference * difference;
                slope = -2 * b[5] * tau * difference;
                curvature = -2 * b[5] * tau * (tau + difference);
            } else {
                double q = b[7] + b[5] * difference * difference;
                double dq = 2 * b[5] * difference;
                exponent = 1 / q;
                slope = -tau * dq / (q * q);
                curvature = slope - tau * tau * (2 * b[5] - 2 * dq * dq / q) / (q * q);
            }
            if (exponent < NEGLIGIBLE_EXPONENT) {
                w.bell0[i] = 0;
                continue;
            }
            double value = b[0] * powers[bellPower[i]] * Math.exp(exponent);
            double first = b[2] + slope;
            w.bell0[i] = value;
            w.bell1[i] = value * first;
            w.bell2[i] = value * (first * first + curvature);
        }
    }

    private static double power(int eighths, double tau, double root2, double root4, double root8) {
        int e = Math.abs(eighths);
        double result = 1;
        if ((e & 1) != 0) {
            result = root8;
        }
        if ((e & 2) != 0) {
            result *= root4;
        }
        if ((e & 4) != 0) {
            result *= root2;
        }
        double square = tau;
        for (int whole = e >> 3; whole != 0; whole >>= 1) {
            if ((whole & 1) != 0) {
                result *= square;
            }
            square *= square;
        }
        return eighths < 0 ? 1 / result : result;
    }

    /** Sets the density (kg/m3) and evaluates {@code a10, a20, a30}: what pressure and its slopes along the isotherm need. */
    public void setDensityForPressure(Workspace w, double density) {
        double delta = powersOfDelta(w, density);
        double[] deltas = w.deltas;
        double a10 = 0;
        double a20 = 0;
        double a30 = 0;
        for (int e = 0; e < exponentialL.length; e++) {
            double s0 = 0;
            double s1 = 0;
            double s2 = 0;
            double s3 = 0;
            int end = exponentialStart[e + 1];
            for (int g = exponentialStart[e]; g < end; g++) {
                int d = groupD[g];
                double c = w.c0[g] * deltas[d];
                double cd = c * d;
                double cdd = cd * d;
                s0 += c;
                s1 += cd;
                s2 += cdd;
                s3 += cdd * d;
            }
            int l = exponentialL[e];
            if (l == 0) {
                a10 += s1;
                a20 += s2;
                a30 += s3;
            } else {
                double power = deltas[l];
                double decay = Math.exp(-power);
                double u = l * power;
                double v = l * u;
                a10 += decay * (s1 - u * s0);
                a20 += decay * (s2 - 2 * u * s1 + (u * u - v) * s0);
                a30 += decay * (s3 - 3 * u * s2 + 3 * (u * u - v) * s1 + (u * (3 * v - u * u) - l * v) * s0);
            }
        }
        for (int i = 0; i < bells.length; i++) {
            double c0 = w.bell0[i];
            if (c0 == 0) {
                continue;
            }
            double[] b = bells[i];
            double difference = delta - b[4];
            double exponent = -b[3] * difference * difference;
            if (exponent < NEGLIGIBLE_EXPONENT) {
                continue;
            }
            double f = c0 * deltas[bellD[i]] * Math.exp(exponent);
            double twice = -2 * b[3] * delta;
            double first = bellD[i] + twice * difference;
            double slope = twice * (delta + difference);
            double curvature = twice * (3 * delta + difference);
            a10 += f * first;
            a20 += f * (first * first + slope);
            a30 += f * (first * (first * first + 3 * slope) + curvature);
        }
        w.a10 = a10;
        w.a20 = a20;
        w.a30 = a30;
        if (nonanalytic.length > 0) {
            addNonanalytic(w, delta, false);
        }
    }

    /** Sets the density (kg/m3) and evaluates every second-order derivative. */
    public void setDensity(Workspace w, double density) {
        double delta = powersOfDelta(w, density);
        double[] deltas = w.deltas;
        double a00 = 0;
        double a10 = 0;
        double a20 = 0;
        double a01 = 0;
        double a11 = 0;
        double a02 = 0;
        for (int e = 0; e < exponentialL.length; e++) {
            double s0 = 0;
            double s1 = 0;
            double s2 = 0;
            double t0 = 0;
            double t1 = 0;
            double q0 = 0;
            int end = exponentialStart[e + 1];
            for (int g = exponentialStart[e]; g < end; g++) {
                int d = groupD[g];
                double power = deltas[d];
                double c = w.c0[g] * power;
                double cd = c * d;
                double ct = w.c1[g] * power;
                s0 += c;
                s1 += cd;
                s2 += cd * d;
                t0 += ct;
                t1 += ct * d;
                q0 += w.c2[g] * power;
            }
            int l = exponentialL[e];
            if (l == 0) {
                a00 += s0;
                a10 += s1;
                a20 += s2;
                a01 += t0;
                a11 += t1;
                a02 += q0;
            } else {
                double power = deltas[l];
                double decay = Math.exp(-power);
                double u = l * power;
                a00 += decay * s0;
                a10 += decay * (s1 - u * s0);
                a20 += decay * (s2 - 2 * u * s1 + (u * u - l * u) * s0);
                a01 += decay * t0;
                a11 += decay * (t1 - u * t0);
                a02 += decay * q0;
            }
        }
        for (int i = 0; i < bells.length; i++) {
            double c0 = w.bell0[i];
            if (c0 == 0) {
                continue;
            }
            double[] b = bells[i];
            double difference = delta - b[4];
            double exponent = -b[3] * difference * difference;
            if (exponent < NEGLIGIBLE_EXPONENT) {
                continue;
            }
            double shape = deltas[bellD[i]] * Math.exp(exponent);
            double twice = -2 * b[3] * delta;
            double first = bellD[i] + twice * difference;
            a00 += c0 * shape;
            a10 += c0 * shape * first;
            a20 += c0 * shape * (first * first + twice * (delta + difference));
            a01 += w.bell1[i] * shape;
            a11 += w.bell1[i] * shape * first;
            a02 += w.bell2[i] * shape;
        }
        w.a00 = a00;
        w.a10 = a10;
        w.a20 = a20;
        w.a01 = a01;
        w.a11 = a11;
        w.a02 = a02;
        if (nonanalytic.length > 0) {
            addNonanalytic(w, delta, true);
        }
    }

    private double powersOfDelta(Workspace w, double density) {
        residual(w);
        w.evaluations++;
        double delta = density / reducingDensity;
        w.density = density;
        w.delta = delta;
        double[] deltas = w.deltas;
        deltas[0] = 1;
        double power = 1;
        for (int i = 1; i < deltas.length; i++) {
            power *= delta;
            deltas[i] = power;
        }
        return delta;
    }

    /** The terms that are singular at the reducing point; a distance of 1e-11 from it stands in for the point itself. */
    private void addNonanalytic(Workspace w, double reducedDensity, boolean all) {
        double tau = w.tau;
        double delta = reducedDensity;
        double d1 = delta - 1;
        if (Math.abs(d1) < 1e-11) {
            d1 = 1e-11;
            delta = 1 + d1;
        }
        double square = d1 * d1;
        for (double[] term : nonanalytic) {
            double n = term[0];
            double a = term[1];
            double b = term[2];
            double beta = term[3];
            double bigA = term[4];
            double bigB = term[5];
            double bigC = term[6];
            double bigD = term[7];
            double exponent = -bigC * square - bigD * (tau - 1) * (tau - 1);
            if (exponent < NEGLIGIBLE_EXPONENT) {
                continue;
            }
            double psi = Math.exp(exponent);
            double half = 1 / (2 * beta);
            double rootTerm = Math.pow(square, half);
            double theta = 1 - tau + bigA * rootTerm;
            double powerA = Math.pow(square, a);
            double distance = theta * theta + bigB * powerA;
            double distanceD = d1 * (bigA * theta * 2 / beta * rootTerm / square + 2 * bigB * a * powerA / square);
            double distanceDd = distanceD / d1
                    + square
                            * (4 * bigB * a * (a - 1) * powerA / (square * square)
                                    + 2 * bigA * bigA / (beta * beta) * (rootTerm / square) * (rootTerm / square)
                                    + bigA * theta * 4 / beta * (half - 1) * rootTerm / (square * square));
            double power = Math.pow(distance, b);
            double power1 = b * power / distance;
            double power2 = (b - 1) * power1 / distance;
            double powerD = power1 * distanceD;
            double powerDd = power1 * distanceDd + power2 * distanceD * distanceD;
            double psiD = -2 * bigC * d1 * psi;
            double psiDd = (2 * bigC * square - 1) * 2 * bigC * psi;
            double phiD = n * (power * (psi + delta * psiD) + powerD * delta * psi);
            double phiDd = n
                    * (power * (2 * psiD + delta * psiDd) + 2 * powerD * (psi + delta * psiD) + powerDd * delta * psi);
            w.a10 += delta * phiD;
            w.a20 += delta * phiD + delta * delta * phiDd;
            if (all) {
                double powerT = -2 * theta * power1;
                double powerTt = 2 * power1 + 4 * theta * theta * power2;
                double powerDt = -bigA * 2 / beta * power1 * d1 * rootTerm / square - 2 * theta * power2 * distanceD;
                double psiT = -2 * bigD * (tau - 1) * psi;
                double psiTt = (2 * bigD * (tau - 1) * (tau - 1) - 1) * 2 * bigD * psi;
                double psiDt = 4 * bigC * bigD * d1 * (tau - 1) * psi;
                double phiT = n * delta * (powerT * psi + power * psiT);
                double phiTt = n * delta * (powerTt * psi + 2 * powerT * psiT + power * psiTt);
                double phiDt = n
                        * (power * (psiT + delta * psiDt)
                                + delta * powerD * psiT
                                + powerT * (psi + delta * psiD)
                                + powerDt * delta * psi);
                w.a00 += n * power * delta * psi;
                w.a01 += tau * phiT;
                w.a02 += tau * phiT + tau * tau * phiTt;
                w.a11 += delta * tau * phiDt;
            }
        }
    }

    /** Evaluates the ideal part at the temperature that is set. */
    public void ideal(Workspace w) {
        if (w.idealReady) {
            return;
        }
        double tau = w.tau;
        double i0 = lead1 + lead2 * tau + logFactor * w.logTau;
        double i1 = lead2 * tau + logFactor;
        double i2 = lead2 * tau;
        for (double[] row : idealPower) {
            double value = row[0] * Math.exp(row[1] * w.logTau);
            i0 += value;
            i1 += value * row[1];
            i2 += value * row[1] * row[1];
        }
        for (double[] row : einstein) {
            double x = row[1] * tau;
            double decay = Math.exp(-x);
            double rest = 1 - decay;
            double ratio = x / rest;
            double occupied = decay * ratio;
            i0 += row[0] * Math.log(rest);
            i1 += row[0] * occupied;
            i2 += row[0] * occupied * (1 - ratio);
        }
        w.ideal0 = i0;
        w.ideal1 = i1;
        w.ideal2 = i2;
        w.idealReady = true;
    }

    /** Second virial coefficient at the temperature that is set, m3/kg. */
    public double secondVirial(Workspace w) {
        residual(w);
        double sum = 0;
        for (int g = 0; g < groupD.length; g++) {
            if (groupD[g] == 1) {
                sum += w.c0[g];
            }
        }
        for (int i = 0; i < bells.length; i++) {
            double[] b = bells[i];
            if (bellD[i] == 1) {
                sum += w.bell0[i] * Math.exp(-b[3] * b[4] * b[4]);
            } else if (bellD[i] == 0) {
                sum += w.bell0[i] * 2 * b[3] * b[4] * Math.exp(-b[3] * b[4] * b[4]);
            }
        }
        return sum / reducingDensity;
    }

    /** Pressure (Pa) at the density and temperature that are set. */
    public double pressure(Workspace w) {
        return w.density * gasConstant * w.temperature * (1 + w.a10);
    }

    /** Slope of pressure over density along the isotherm, J/kg. */
    public double pressureSlope(Workspace w) {
        return gasConstant * w.temperature * (1 + w.a10 + w.a20);
    }

    /** Second derivative of pressure over density along the isotherm, J m3/kg2. */
    public double pressureCurvature(Workspace w) {
        return gasConstant * w.temperature * (w.a20 + w.a30) / w.density;
    }

    /** Slope of pressure over temperature at constant density, Pa/K. */
    public double pressureOverTemperature(Workspace w) {
        return w.density * gasConstant * (1 + w.a10 - w.a11);
    }

    /** Specific enthalpy, J/kg; needs {@link #setDensity} and {@link #ideal}. */
    public double enthalpy(Workspace w) {
        return gasConstant * w.temperature * (w.ideal1 + w.a01 + 1 + w.a10);
    }

    /** Specific entropy, J/(kg K); needs {@link #setDensity} and {@link #ideal}. */
    public double entropy(Workspace w) {
        return gasConstant * (w.ideal1 + w.a01 - w.ideal0 - Math.log(w.delta) - w.a00);
    }

    /** Isochoric heat capacity, J/(kg K); needs {@link #setDensity} and {@link #ideal}. */
    public double isochoricHeatCapacity(Workspace w) {
        return gasConstant * (w.ideal1 - w.ideal2 + w.a01 - w.a02);
    }

    /** Residual Gibbs energy plus ln delta, over R T: equal in both phases at saturation. Needs {@link #setDensity}. */
    public double reducedGibbs(Workspace w) {
        return w.a00 + 1 + w.a10 + Math.log(w.delta);
    }

    /** Ideal-gas specific enthalpy at the temperature that is set, J/kg; needs {@link #ideal}. */
    public double idealEnthalpy(Workspace w) {
        return gasConstant * w.temperature * (w.ideal1 + 1);
    }

    /** Ideal-gas specific entropy at the temperature that is set and a density (kg/m3), J/(kg K); needs {@link #ideal}. */
    public double idealEntropy(Workspace w, double density) {
        return gasConstant * (w.ideal1 - w.ideal0 - Math.log(density / reducingDensity));
    }

    /** Ideal-gas isochoric heat capacity at the temperature that is set, J/(kg K); needs {@link #ideal}. */
    public double idealIsochoricHeatCapacity(Workspace w) {
        return gasConstant * (w.ideal1 - w.ideal2);
    }

    /** Scratch memory of one thread; what is set in it is read through the equation's methods. */
    public static final class Workspace {
        double temperature = Double.NaN;
        double tau;
        double logTau;
        double density;
        double delta;
        long evaluations;
        boolean idealReady;
        boolean residualReady;
        double ideal0;
        double ideal1;
        double ideal2;
        double a00;
        double a10;
        double a20;
        double a30;
        double a01;
        double a11;
        double a02;
        final double[] powers;
        final double[] c0;
        final double[] c1;
        final double[] c2;
        final double[] bell0;
        final double[] bell1;
        final double[] bell2;
        final double[] deltas;

        Workspace(int exponents, int groups, int bells, int deltas) {
            powers = new double[exponents];
            c0 = new double[groups];
            c1 = new double[groups];
            c2 = new double[groups];
            bell0 = new double[bells];
            bell1 = new double[bells];
            bell2 = new double[bells];
            this.deltas = new double[deltas];
        }

        /** Temperature that is set, K. */
        public double temperature() {
            return temperature;
        }

        /** Density that is set, kg/m3. */
        public double density() {
            return density;
        }

        /** How often the residual part was evaluated so far: what a search costs. */
        public long evaluations() {
            return evaluations;
        }

        /** Residual Helmholtz energy over R T. */
        public double a00() {
            return a00;
        }

        /** {@code D_delta} of the residual part. */
        public double a10() {
            return a10;
        }

        /** {@code D_delta^2} of the residual part. */
        public double a20() {
            return a20;
        }

        /** {@code D_delta^3} of the residual part, without terms singular at the critical point. */
        public double a30() {
            return a30;
        }

        /** {@code D_tau} of the residual part. */
        public double a01() {
            return a01;
        }

        /** {@code D_delta D_tau} of the residual part. */
        public double a11() {
            return a11;
        }

        /** {@code D_tau^2} of the residual part. */
        public double a02() {
            return a02;
        }

        /** Ideal part without ln delta. */
        public double ideal0() {
            return ideal0;
        }

        /** {@code D_tau} of the ideal part. */
        public double ideal1() {
            return ideal1;
        }

        /** {@code D_tau^2} of the ideal part. */
        public double ideal2() {
            return ideal2;
        }
    }
}
