package purgewright.sealflow.passage;

import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.phase.StateBuffer;

/**
 * Tooth-by-tooth flow through a labyrinth: every tooth a throttle from the chamber before it, total enthalpy the same in every
 * chamber.
 *
 * <pre>{@code m = A mu_i f Cd_i G(p_(i-1), h0 -> p_i),   i = 1 .. N,   mu_1 = 1}</pre>
 *
 * <p>Cd by {@link Contraction} (0.611 for liquid and two-phase) or fixed, mu by {@link CarryOver}, f a factor for worn tips. Chamber pressures
 * are found by Newton on the N - 1 continuity equations (tridiagonal); where that does not settle, by marching from upstream with a
 * bracket on m. The last tooth may choke.
 *
 * @param area of one tooth's gap, m2
 * @param teeth at least 1
 * @param carryOver factor from the second tooth on
 * @param condition factor on the contraction coefficient
 * @param fixedCoefficient used instead of the contraction when not NaN
 * @param flashing how vapour forms at a tooth
 */
public record Labyrinth(
        double area,
        int teeth,
        double carryOver,
        double condition,
        double fixedCoefficient,
        Throttle.Flashing flashing) {

    /**
     * @param massFlow kg/s
     * @param choked whether the last tooth is, its contraction full
     * @param throatPressure Pa at the last tooth
     * @param stages Pa after each tooth, the last being the back pressure
     * @param flashed whether any chamber is two-phase behind a single-phase upstream
     * @param extrapolated whether a state could not be had
     * @param marched whether the fallback answered
     */
    public record Result(
            double massFlow,
            boolean choked,
            double throatPressure,
            double[] stages,
            boolean flashed,
            boolean extrapolated,
            boolean marched) {}

    /** Derivative of the flow by the upstream pressure at zero pressure difference, kg/(s Pa). */
    public double slopeAtRest(FluidState up) {
        double coefficient = Double.isNaN(fixedCoefficient) ? Contraction.INCOMPRESSIBLE : fixedCoefficient;
        double one = area * condition * coefficient * Throttle.slopeAtRest(up);
        return one / (1 + (teeth - 1) / carryOver);
    }

    /** Flow from rest at {@code up} to the pressure {@code down}. */
    public Result solve(FluidState up, double down) {
        Work w = flow(up, down);
        return new Result(w.mass, w.choked, w.throat, w.stages(), w.flashed, w.extrapolated, w.marched);
    }

    /** As {@link #solve}; the answer is in the thread's workspace until its next flow. */
    Work flow(FluidState up, double down) {
        Work work = WORK.get();
        double end = Math.max(down, 1e-7 * up.pressure());
        work.solve(this, up, end, down < (1 - 1e-4) * up.pressure());
        return work;
    }

    /** The same with every state asked of the fluid itself: slow, and the check of the quick way. */
    Work plainFlow(FluidState up, double down) {
        Work work = WORK.get();
        work.solve(this, up, Math.max(down, 1e-7 * up.pressure()), false);
        return work;
    }

    /** A thread's workspace. */
    private static final ThreadLocal<Work> WORK = ThreadLocal.withInitial(Work::new);

    /** One flow at a time; its answer stays in the fields. */
    static final class Work {
        private final GasTeeth gasTeeth = new GasTeeth();
        private final LineStates line = new LineStates();
        private final FluidSource fluid = new FluidSource();
        private final Jet jet = new Jet();
        private final StateBuffer raised = new StateBuffer();
        private int teeth;
        private double area;
        private double carryOver;
        private double condition;
        private double fixedCoefficient;
        private Throttle.Flashing flashing;
        private double criticalDensity;

        private FluidState up;
        private double down;
        private double ratio;
        private double[] pressure = {};
        private StateBuffer[] chamber = {};
        /** What each chamber's states are searched from; the upstream state where the line gives them. */
        private FluidState[] near = {};
        /** The fluid itself or its line. */
        private StateSource source;

        /** Null when the teeth ask the fluid themselves. */
        private GasTeeth gas;

        private double[] flow = {};
        private double[] byUp = {};
        private double[] byDown = {};
        private double[] lower = {};
        private double[] diagonal = {};
        private double[] upper = {};
        private double[] residual = {};

        /** kg/s. */
        double mass;

        boolean choked;
        double throat;
        boolean flashed;
        boolean extrapolated;
        boolean marched;

        /** Of Newton's method in the last flow: what the search cost. */
        int steps;

        /** Pa after each tooth. */
        double[] stages() {
            double[] stages = new double[teeth];
            System.arraycopy(pressure, 1, stages, 0, teeth);
            return stages;
        }

        private void begin(Labyrinth of, FluidState from, double end) {
            teeth = of.teeth;
            area = of.area;
            carryOver = of.carryOver;
            condition = of.condition;
            fixedCoefficient = of.fixedCoefficient;
            flashing = of.flashing;
            up = from;
            down = end;
            // A dense start too: its chambers may hold gas.
            ratio = up.fluid().idealGasHeatCapacityRatio(up.temperature());
            criticalDensity = up.fluid().criticalDensity();
            if (flow.length < teeth) {
                pressure = new double[teeth + 1];
                chamber = new StateBuffer[teeth];
                for (int i = 0; i < teeth; i++) {
                    chamber[i] = new StateBuffer();
                }
                near = new FluidState[teeth];
                flow = new double[teeth];
                byUp = new double[teeth];
                byDown = new double[teeth];
                lower = new double[teeth];
                diagonal = new double[teeth];
                upper = new double[teeth];
                residual = new double[teeth];
            }
            java.util.Arrays.fill(near, up);
            source = fluid;
            chamber[0].set(up);
            gas = null;
            choked = false;
            extrapolated = false;
            flashed = false;
            marched = false;
            steps = 0;
        }

        private void solve(Labyrinth of, FluidState from, double end, boolean quick) {
            begin(of, from, end);
            double p0 = up.pressure();
            pressure[0] = p0;
            pressure[teeth] = down;
            if (!(down < p0)) {
                java.util.Arrays.fill(pressure, p0);
                mass = 0;
                throat = p0;
                return;
            }
            if (quick && teeth > 1 && line.set(up, end)) {
                alongTheLine();
            }
            guess();
            if (source == fluid && teeth > 1 && gasTeeth.set(up, 0.9 * pressure[teeth - 1])) {
                gas = gasTeeth;
            } else if (source == fluid && quick && teeth > 1 && line.setCondensing(up, end)) {
                alongTheLine();
            }
            boolean settled = newton();
            if (gas != null && (!settled || pressure[teeth - 1] < 0.8 * gas.lowest())) {
                gas = null;
                guess();
                settled = newton();
            }
            marched = !settled;
            mass = settled ? flow[0] : march();
            for (int i = 1; i < teeth && gas == null; i++) {
                flashed |= up.phase() != Phase.TWO_PHASE && chamber[i].phase() == Phase.TWO_PHASE;
            }
        }

        private void alongTheLine() {
            source = line;
            line.start(chamber[0]);
        }

        /** State of a chamber; the fluid is asked from the last one there. */
        private void fill(int i, double p, FluidState from) {
            if (source == line) {
                line.atPressureEnthalpy(p, up.enthalpy(), chamber[i]);
                return;
            }
            near[i] = up.fluid().atPressureEnthalpy(p, up.enthalpy(), from);
            chamber[i].set(near[i]);
        }

        /** Chamber pressures of the p^2 law for a gas, of the linear one for a liquid. */
        private void guess() {
            double p0 = pressure[0];
            double power = Throttle.dense(up) ? 1 : 2;
            double weight = 1 / (carryOver * carryOver);
            double total = 1 + (teeth - 1) * weight;
            // A liquid's chambers stay above the pressure at which the last jet chokes.
            double end = Math.max(down, power > 1 ? 0.35 * p0 / Math.sqrt(total) : throatOf(0));
            double top = Math.pow(p0, power);
            double bottom = Math.pow(end, power);
            for (int i = 1; i < teeth; i++) {
                double share = (1 + (i - 1) * weight) / total;
                pressure[i] = Math.pow(top - share * (top - bottom), 1 / power);
            }
        }

        /** Throat pressure of one tooth from a chamber to the pressure downstream, Pa. */
        private double throatOf(int i) {
            jet(chamber[i], i, down);
            return jet.throat;
        }

        private void jet(StateBuffer from, int i, double behind) {
            jet.flux(from, source == line ? line : fluid.from(near[i]), behind, flashing);
        }

        private boolean newton() {
            if (teeth == 1) {
                tooth(0);
                return true;
            }
            int n = teeth - 1;
            double best = Double.POSITIVE_INFINITY;
            int stalled = 0;
            double relaxation = 1;
            double previous = Double.POSITIVE_INFINITY;
            for (int iteration = 0; iteration < 40; iteration++) {
                steps++;
                for (int i = 1; i < teeth && gas == null; i++) {
                    fill(i, pressure[i], near[i]);
                }
                double worst = 0;
                for (int i = 0; i < teeth; i++) {
                    tooth(i);
                }
                for (int i = 0; i < n; i++) {
                    residual[i] = flow[i] - flow[i + 1];
                    worst = Math.max(worst, Math.abs(residual[i]));
                    lower[i] = i > 0 ? byUp[i] : 0;
                    diagonal[i] = byDown[i] - byUp[i + 1];
                    upper[i] = -byDown[i + 1];
                }
                if (worst <= (gas != null ? 1e-11 : 1e-8) * flow[0]) {
                    return true;
                }
                // Regimes that flip between iterations (a chamber that flashes or not) need smaller steps.
                relaxation = worst > 0.8 * previous ? Math.max(0.2, 0.5 * relaxation) : Math.min(1, 2 * relaxation);
                previous = worst;
                if (worst > 0.5 * best) {
                    stalled++;
                } else {
                    stalled = 0;
                }
                best = Math.min(best, worst);
                if (stalled > 7) {
                    // Noise of the property calls is met before the tolerance.
                    return worst <= 1e-8 * flow[0];
                }
                // Thomas: J dp = -R
                for (int i = 1; i < n; i++) {
                    double factor = lower[i] / diagonal[i - 1];
                    diagonal[i] -= factor * upper[i - 1];
                    residual[i] -= factor * residual[i - 1];
                }
                double[] step = residual;
                step[n - 1] = -residual[n - 1] / diagonal[n - 1];
                for (int i = n - 2; i >= 0; i--) {
                    step[i] = (-residual[i] - upper[i] * step[i + 1]) / diagonal[i];
                }
                double damping = relaxation;
                for (int i = 0; i < n; i++) {
                    double here = pressure[i + 1];
                    double room = step[i] > 0 ? pressure[i] - here : here - pressure[i + 2];
                    double move = Math.abs(step[i]);
                    if (!(move <= 0.8 * room)) {
                        damping = Math.min(damping, 0.8 * room / move);
                    }
                }
                if (!(damping > 1e-4)) {
                    return false;
                }
                for (int i = 0; i < n; i++) {
                    pressure[i + 1] += damping * step[i];
                }
            }
            return false;
        }

        /** Flow of a tooth and its derivatives by both pressures. */
        private void tooth(int i) {
            double here = pressure[i];
            double behind = pressure[i + 1];
            if (gas != null) {
                gas.flux(here, behind);
                double factor = area * condition * (i > 0 ? carryOver : 1);
                double fade = Contraction.fade(gas.density, criticalDensity);
                combine(i, factor, gas.flux, gas.slope, gas.machSquared, fade, behind, gas.choked, gas.throat);
                byUp[i] = (0.5 * (1 + gas.growth) * flow[i] - behind * byDown[i]) / here;
                return;
            }
            StateBuffer at = chamber[i];
            flow[i] = flowOf(at, behind, i);
            if (i == 0) {
                return; // nothing varies the upstream pressure
            }
            boolean wet = at.phase() == Phase.TWO_PHASE;
            boolean dense = !wet && at.density() > criticalDensity;
            if (wet || (dense && (choked(i) || at.density() < 1.8 * criticalDensity))) {
                // No simple law gives the slope here.
                double base = flow[i];
                double saved = byDown[i];
                boolean savedChoke = choked;
                double savedThroat = throat;
                double step = Math.min(2e-4 * here, 0.05 * (here - behind));
                byUp[i] = Math.max(0, (raisedFlow(i, here + step, behind) - base) / step);
                flow[i] = base;
                byDown[i] = saved;
                choked = savedChoke;
                throat = savedThroat;
                return;
            }
            double growth =
                    dense ? 0 : Math.log(at.density() / chamber[i - 1].density()) / Math.log(here / pressure[i - 1]);
            growth = Math.max(0, Math.min(3, growth));
            byUp[i] = (0.5 * (1 + growth) * flow[i] - behind * byDown[i]) / here;
        }

        private boolean choked(int i) {
            return Math.abs(byDown[i]) * pressure[i] < 1e-6 * flow[i];
        }

        /** Flow of a tooth with the chamber before it at another pressure. */
        private double raisedFlow(int i, double p, double behind) {
            if (source == line) {
                line.atPressureEnthalpy(p, up.enthalpy(), raised);
                return flowOf(raised, behind, i);
            }
            FluidState kept = near[i];
            near[i] = up.fluid().atPressureEnthalpy(p, up.enthalpy(), kept);
            raised.set(near[i]);
            double moved = flowOf(raised, behind, i);
            near[i] = kept;
            return moved;
        }

        private double flowOf(StateBuffer at, double behind, int i) {
            double factor = area * condition * (i > 0 ? carryOver : 1);
            jet(at, i, behind);
            extrapolated |= jet.extrapolated;
            double fade = at.phase() == Phase.TWO_PHASE
                    ? Contraction.fade(at.quality())
                    : Contraction.fade(at.density(), criticalDensity);
            combine(i, factor, jet.flux, jet.slope, jet.machSquared, fade, behind, jet.choked, jet.throat);
            return flow[i];
        }

        /** Puts the contraction on a jet's flux; into flow and its slope by the pressure behind. */
        private void combine(
                int i,
                double factor,
                double flux,
                double slope,
                double machSquared,
                double fade,
                double behind,
                boolean jetChoked,
                double jetThroat) {
            double coefficient = fixedCoefficient;
            double coefficientSlope = 0;
            boolean full = true;
            if (Double.isNaN(fixedCoefficient)) {
                if (fade == 0) {
                    coefficient = Contraction.INCOMPRESSIBLE;
                } else {
                    coefficient = Contraction.ofJet(machSquared, ratio, fade);
                    full = machSquared >= 1.1;
                    if (!full) {
                        // d M^2 / d ln p of a jet with isentropic exponent n: -(2 + M^2 (n - 1)) / n; n near k suffices
                        // for Newton.
                        double perPressure = -(2 + machSquared * (ratio - 1)) / (ratio * behind);
                        coefficientSlope = Contraction.slope(machSquared, ratio, fade) * perPressure;
                    }
                }
            }
            byDown[i] = factor * (coefficient * slope + coefficientSlope * flux);
            if (i == teeth - 1) {
                choked = jetChoked && full;
                throat = jetThroat;
            }
            flow[i] = factor * coefficient * flux;
        }

        /** Bracket on m; chamber by chamber from upstream. */
        double march() {
            double high = flowOf(chamber[0], down, 0);
            double low = 1e-3 * high / teeth;
            double fHigh = surplus(high);
            double fLow = surplus(low);
            double found =
                    fHigh >= 0 ? high : fLow <= 0 ? low : Roots.find(this::surplus, low, fLow, high, fHigh, 1e-11);
            surplus(found);
            return found;
        }

        /** What the last tooth could pass beyond m, over m; negative too where an earlier tooth cannot pass m. */
        private double surplus(double m) {
            for (int i = 0; i < teeth - 1; i++) {
                int index = i;
                StateBuffer here = chamber[i];
                double most = flowOf(here, down, i);
                if (most <= m) {
                    for (int k = i + 1; k < teeth; k++) {
                        pressure[k] = down;
                        fill(k, down, up);
                    }
                    return most / m - 1 - 1e-12;
                }
                double p = Roots.find(x -> flowOf(here, x, index) - m, down, most - m, here.pressure(), -m, 1e-13);
                pressure[i + 1] = p;
                fill(i + 1, p, near[i]);
            }
            return flowOf(chamber[teeth - 1], down, teeth - 1) / m - 1;
        }
    }

    /** Martin's bulk law, {@code m = A p0/sqrt(R T0) sqrt((1 - b^2)/(N - ln b))}, b = pn/p0 held at its peak; p0 rho0 for p0^2/(R T0). */
    public static double martin(double area, int teeth, double p0, double rho0, double down) {
        double b = Math.max(down / p0, martinPeak(teeth));
        return area * Math.sqrt(p0 * rho0 * Math.max(0, 1 - b * b) / (teeth - Math.log(b)));
    }

    /** Back-pressure ratio at which Martin's flow peaks: zero of {@code 2 b^2 (N - ln b) = 1 - b^2}. */
    public static double martinPeak(int teeth) {
        double low = 1e-9;
        double high = 1;
        for (int i = 0; i < 60; i++) {
            double b = 0.5 * (low + high);
            if (2 * b * b * (teeth - Math.log(b)) < 1 - b * b) {
                low = b;
            } else {
                high = b;
            }
        }
        return 0.5 * (low + high);
    }

    /**
     * Stodola's rule: {@code m = A sqrt(p0 rho0 x)}, x = (1 - b^2)/N up to its choked value c = 1/(N + 1.5), where it is held; the corner
     * is rounded over the last tenth (less for many teeth), so that the flow is C1.
     */
    public static double stodola(double area, int teeth, double p0, double rho0, double down) {
        double b = down / p0;
        double x = Math.max(0, 1 - b * b) / teeth;
        double c = 1 / (teeth + 1.5);
        double width = Math.min(0.1, 1.4 / teeth);
        double over = x - (1 - width) * c;
        double held = over <= 0 ? x : x >= (1 + width) * c ? c : x - over * over / (4 * width * c);
        return area * Math.sqrt(p0 * rho0 * held);
    }

    /** Egli's form: Martin's law times a flow coefficient and a carry-over factor. */
    public static double egli(
            double area, int teeth, double p0, double rho0, double down, double coefficient, double carryOver) {
        return coefficient * carryOver * martin(area, teeth, p0, rho0, down);
    }
}
