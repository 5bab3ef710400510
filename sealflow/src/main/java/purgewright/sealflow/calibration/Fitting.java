package purgewright.sealflow.calibration;

import java.util.concurrent.CancellationException;
import org.apache.commons.math3.exception.MathIllegalArgumentException;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer.Optimum;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.fitting.leastsquares.MultivariateJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;

/**
 * Weighted least squares with a prior, by Levenberg and Marquardt:
 *
 * <pre>{@code minimise  sum_i (r_i(x)/sigma_i)^2 + sum_j (x_j/s_j)^2}</pre>
 *
 * <p>x are logarithms of ratios to the drawing values, so that no clearance can become negative and the prior's centre is 0.
 * Derivatives by one-sided differences. The covariance is that of the linearised problem at the end, prior included.
 */
final class Fitting {
    private static final double STEP = 2e-3;
    private static final int MOST_EVALUATIONS = 60;
    private static final int MOST_ITERATIONS = 30;
    private static final int MOST_ROUNDS = 4;

    /** Beyond a factor of 20 either way no seal is a seal: the search stays inside. */
    static final double WIDEST = Math.log(20);

    private Fitting() {}

    /** Residuals over their sigma, at logarithms of ratios; NaN where the model has no answer. */
    @FunctionalInterface
    interface Model {
        /** One entry a reading. */
        double[] at(double[] x);
    }

    /**
     * @param x logarithms of ratios at the end
     * @param covariance of x
     * @param residuals over sigma, the readings alone
     * @param chiSquare of them
     * @param settled false when it stopped at the limit of its rounds
     * @param cancelled interrupted on the way: the best found until then; the interrupt is taken
     */
    record Solution(
            double[] x,
            double[][] covariance,
            double[] residuals,
            double chiSquare,
            boolean settled,
            boolean cancelled) {}

    /**
     * @param spread s_j of the prior; infinity for none
     * @throws CancellationException when interrupted before anything was found
     */
    static Solution solve(Model model, double[] start, double[] spread) {
        int n = start.length;
        double[][] best = new double[1][];
        double[] bestCost = {Double.POSITIVE_INFINITY};
        MultivariateJacobianFunction function = point -> {
            double[] x = clamp(point.toArray());
            double[] r = finite(model.at(x));
            double[][] jacobian = new double[r.length + n][n];
            for (int j = 0; j < n; j++) {
                if (Thread.currentThread().isInterrupted()) {
                    throw new CancellationException("cancelled");
                }
                double[] moved = x.clone();
                moved[j] += STEP;
                double[] rj = finite(model.at(moved));
                for (int i = 0; i < r.length; i++) {
                    jacobian[i][j] = (rj[i] - r[i]) / STEP;
                }
                jacobian[r.length + j][j] = 1 / spread[j];
            }
            double[] all = new double[r.length + n];
            System.arraycopy(r, 0, all, 0, r.length);
            for (int j = 0; j < n; j++) {
                all[r.length + j] = x[j] / spread[j];
            }
            double cost = 0;
            for (double each : all) {
                cost += each * each;
            }
            if (cost < bestCost[0]) {
                bestCost[0] = cost;
                best[0] = x;
            }
            return new Pair<RealVector, RealMatrix>(
                    new ArrayRealVector(all, false), new Array2DRowRealMatrix(jacobian, false));
        };
        int rows = model.at(clamp(start)).length;
        boolean settled = false;
        // The library gives up where a trial step makes things worse; from the best point it goes on.
        for (int round = 0; round < MOST_ROUNDS && !settled; round++) {
            double before = bestCost[0];
            double[] from = best[0] == null ? start : best[0];
            try {
                Optimum optimum = new LevenbergMarquardtOptimizer()
                        .withInitialStepBoundFactor(round == 0 ? 100 : 1)
                        .withCostRelativeTolerance(1e-9)
                        .withParameterRelativeTolerance(1e-7)
                        .optimize(new LeastSquaresBuilder()
                                .start(from)
                                .model(function)
                                .target(new double[rows + n])
                                .lazyEvaluation(false)
                                .maxEvaluations(MOST_EVALUATIONS)
                                .maxIterations(MOST_ITERATIONS)
                                .build());
                settled = optimum.getCost() * optimum.getCost() <= bestCost[0] * (1 + 1e-6);
            } catch (MathIllegalStateException gaveUp) {
                settled = before - bestCost[0] <= 1e-6 * bestCost[0];
            } catch (CancellationException stop) {
                if (best[0] == null) {
                    throw stop;
                }
                Thread.interrupted(); // what is known so far is put together in peace
                return finish(model, best[0], spread, false, true);
            }
        }
        return finish(model, best[0], spread, settled, false);
    }

    private static Solution finish(Model model, double[] x, double[] spread, boolean settled, boolean cancelled) {
        int n = x.length;
        double[] r = finite(model.at(x));
        double[][] information = new double[n][n];
        double[][] columns = new double[n][];
        for (int j = 0; j < n; j++) {
            double[] moved = x.clone();
            moved[j] += STEP;
            double[] rj = finite(model.at(moved));
            columns[j] = new double[r.length];
            for (int i = 0; i < r.length; i++) {
                columns[j][i] = (rj[i] - r[i]) / STEP;
            }
        }
        for (int a = 0; a < n; a++) {
            for (int b = 0; b < n; b++) {
                double sum = a == b ? 1 / (spread[a] * spread[a]) : 0;
                for (int i = 0; i < r.length; i++) {
                    sum += columns[a][i] * columns[b][i];
                }
                information[a][b] = sum;
            }
        }
        double chi = 0;
        for (double each : r) {
            chi += each * each;
        }
        return new Solution(x, inverse(information), r, chi, settled, cancelled);
    }

    /** Inverse; infinity on the diagonal where the data say nothing. */
    private static double[][] inverse(double[][] information) {
        try {
            return new LUDecomposition(new Array2DRowRealMatrix(information), 1e-14)
                    .getSolver()
                    .getInverse()
                    .getData();
        } catch (MathIllegalArgumentException e) {
            double[][] none = new double[information.length][information.length];
            for (int j = 0; j < none.length; j++) {
                none[j][j] = Double.POSITIVE_INFINITY;
            }
            return none;
        }
    }

    private static double[] clamp(double[] x) {
        double[] out = x.clone();
        for (int j = 0; j < out.length; j++) {
            out[j] = Math.max(-WIDEST, Math.min(WIDEST, out[j]));
        }
        return out;
    }

    /** Where the model has no answer the search is turned back by a large residual. */
    private static double[] finite(double[] r) {
        double[] out = r.clone();
        for (int i = 0; i < out.length; i++) {
            out[i] = Double.isFinite(out[i]) ? out[i] : 1e4;
        }
        return out;
    }
}
