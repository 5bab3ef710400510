package purgewright.sealflow.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Rotor;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/**
 * One passage's clearance, its flow factor, or both, from measured flows. A flow check at rest sees the cold clearance; with a speed
 * the running one, grown as the case says.
 */
public final class PassageFit {
    private PassageFit() {}

    /**
     * One measured flow.
     *
     * @param up state before the passage, at its {@code from} end
     * @param down state behind it
     * @param speed of the rotor, rad/s; 0 for a check at rest
     * @param flow measured, kg/s
     * @param sigma standard uncertainty of it, kg/s
     */
    public record Reading(FluidState up, FluidState down, double speed, double flow, double sigma) {}

    /**
     * What was found.
     *
     * @param clearanceRatio fitted over drawing; 1 when not fitted
     * @param clearanceSigma standard deviation of its logarithm; 0 when not fitted
     * @param factorRatio fitted flow factor over that of the case; 1 when not fitted
     * @param factorSigma standard deviation of its logarithm; 0 when not fitted
     * @param correlation of the two; NaN unless both are fitted
     * @param before flows with the case as it is, kg/s
     * @param fitted flows with the fitted values, kg/s
     * @param chiSquare weighted sum of squares at the end
     * @param settled false when the search stopped at its limit
     */
    public record Result(
            double clearanceRatio,
            double clearanceSigma,
            double factorRatio,
            double factorSigma,
            double correlation,
            double[] before,
            double[] fitted,
            double chiSquare,
            boolean settled) {}

    /**
     * Fits.
     *
     * @param rotor of the case; its speed is replaced by each reading's
     * @param clearance fit the clearance
     * @param factor fit the flow factor
     * @throws IllegalArgumentException when the passage has no clearance to fit, or its model refuses it
     */
    public static Result fit(PassageSpec spec, Rotor rotor, List<Reading> readings, boolean clearance, boolean factor) {
        if (clearance && CaseValue.clearanceField(spec) == null) {
            throw new IllegalArgumentException(
                    "passage " + spec.name() + " (" + spec.type() + ") has no clearance; fit its flow factor");
        }
        if (!clearance && !factor) {
            throw new IllegalArgumentException("nothing is to be fitted");
        }
        int n = (clearance ? 1 : 0) + (factor ? 1 : 0);
        Fitting.Model model = x -> {
            double[] flows = flows(spec, rotor, readings, ratio(x, 0, clearance), ratio(x, n - 1, factor));
            double[] r = new double[flows.length];
            for (int i = 0; i < r.length; i++) {
                r[i] = (flows[i] - readings.get(i).flow()) / readings.get(i).sigma();
            }
            return r;
        };
        double[] spread = new double[n];
        java.util.Arrays.fill(spread, Double.POSITIVE_INFINITY);
        Fitting.Solution s = Fitting.solve(model, new double[n], spread);
        if (s.cancelled()) {
            throw new CancellationException("cancelled"); // seconds at most: no half answer is worth it
        }
        double c = ratio(s.x(), 0, clearance);
        double f = ratio(s.x(), n - 1, factor);
        double[][] v = s.covariance();
        return new Result(
                c,
                clearance ? Math.sqrt(v[0][0]) : 0,
                f,
                factor ? Math.sqrt(v[n - 1][n - 1]) : 0,
                n == 2 ? v[0][1] / Math.sqrt(v[0][0] * v[1][1]) : Double.NaN,
                flows(spec, rotor, readings, 1, 1),
                flows(spec, rotor, readings, c, f),
                s.chiSquare(),
                s.settled());
    }

    /**
     * Slopes of the fitted flow's logarithm by the logarithm of the one value that is moved; the others stay at 1.
     *
     * @param fluid of the readings
     * @param up factor on the upstream pressure
     * @param down factor on the downstream pressure
     * @param temperature factor on the upstream temperature
     * @return one a reading; NaN where there is none
     */
    public static double[] slope(
            PassageSpec spec,
            Rotor rotor,
            Fluid fluid,
            List<Reading> readings,
            Result fitted,
            double up,
            double down,
            double temperature) {
        List<Reading> moved = new ArrayList<>();
        for (Reading r : readings) {
            FluidState a = fluid.atPressureTemperature(r.up().pressure() * up, r.up().temperature() * temperature);
            FluidState b = fluid.atPressureEnthalpy(r.down().pressure() * down, a.enthalpy());
            moved.add(new Reading(a, b, r.speed(), r.flow(), r.sigma()));
        }
        double step = Math.log(up) + Math.log(down) + Math.log(temperature);
        double[] flows = flows(spec, rotor, moved, fitted.clearanceRatio(), fitted.factorRatio());
        for (int i = 0; i < flows.length; i++) {
            flows[i] = Math.log(flows[i] / fitted.fitted()[i]) / step;
        }
        return flows;
    }

    private static double ratio(double[] x, int at, boolean used) {
        return used ? Math.exp(x[at]) : 1;
    }

    /** Flows at ratios of clearance and factor; NaN where there is none. */
    private static double[] flows(
            PassageSpec spec, Rotor rotor, List<Reading> readings, double clearance, double factor) {
        PassageType type = PassageTypes.find(spec.type())
                .orElseThrow(() -> new IllegalArgumentException("no passage type " + spec.type()));
        double[] out = new double[readings.size()];
        for (int i = 0; i < out.length; i++) {
            Reading r = readings.get(i);
            PassageSpec cold = r.speed() == 0
                    ? CaseValue.copy(spec, spec.clearance(), 0, spec.calibrationFactor(), false, spec.fields())
                    : spec;
            double drawing = CaseValue.clearance(cold);
            PassageSpec now = Double.isNaN(drawing) ? cold : CaseValue.open(cold, drawing * clearance);
            Rotor turning = r.speed() == 0
                    ? new Rotor(
                            0,
                            rotor.whirl(),
                            rotor.bearingPlay(),
                            rotor.runOut(),
                            rotor.offset(),
                            rotor.tolerance(),
                            rotor.thrustMovement(),
                            List.of())
                    : CaseValue.speed(rotor, r.speed());
            RunningGap gap = PassageTypes.running(now, turning);
            try {
                out[i] = factor
                        * spec.calibrationFactor()
                        * type.build(
                                        CaseValue.copy(
                                                now, now.clearance(), now.clearanceGrowth(), 1, false, now.fields()),
                                        new Conditions(
                                                r.speed(),
                                                gap == null ? now.clearance() : gap.mean(),
                                                Conditions.Bound.NOMINAL))
                                .flow(r.up(), r.down())
                                .massFlow();
            } catch (PropertyException | IllegalArgumentException e) {
                out[i] = Double.NaN;
            }
        }
        return out;
    }
}
