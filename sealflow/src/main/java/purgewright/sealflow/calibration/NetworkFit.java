package purgewright.sealflow.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.DoubleConsumer;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;

/**
 * Which clearances explain what was measured in a test: cavity pressures and temperatures, flows. All seals at once, held to their
 * drawing values by a prior (Gaussian in the logarithm), so that what the readings cannot tell stays where it was and is named.
 *
 * <p>Which seal alone has changed: each is fitted by itself and weighed by its evidence,
 *
 * <pre>{@code ln E_j = -(chi_j^2 + x_j^2/s^2)/2 + ln(sigma_j/s),   ln E_0 = -chi_0^2/2}</pre>
 *
 * <p>(Laplace's approximation; all explanations equally likely beforehand.)
 */
public final class NetworkFit {
    private final NetworkSolver solver;

    /** @param solver of the network */
    public NetworkFit(NetworkSolver solver) {
        this.solver = solver;
    }

    /** What a reading is of. */
    public enum Quantity {
        /** Of a cavity, Pa. */
        PRESSURE,
        /** Of a cavity, K. */
        TEMPERATURE,
        /** Through a passage, kg/s. */
        FLOW,
        /** From all fixed supply cavities, kg/s. */
        PURGE_FLOW
    }

    /**
     * One reading.
     *
     * @param quantity of what
     * @param name of cavity or passage; empty for the purge flow
     * @param value SI
     * @param sigma standard uncertainty, SI
     */
    public record Reading(Quantity quantity, String name, double value, double sigma) {}

    /** One test point: the case with its boundaries as measured, and what was read. */
    public record TestPoint(Case model, List<Reading> readings) {}

    /**
     * What was found.
     *
     * @param seals names of what was fitted, in the order of the arrays
     * @param ratio clearance over drawing
     * @param sigma standard deviation of its logarithm, prior included
     * @param correlation of the logarithms
     * @param before computed readings with the drawing values, in the order of points and readings
     * @param fitted with the fitted values
     * @param chiSquare of the readings at the end
     * @param chiSquareBefore of the readings with the drawing values
     * @param alone each seal as the only one that changed
     * @param settled false when the search stopped at its limit
     * @param complete false when it was cancelled before the seals were weighed one by one
     */
    public record Result(
            List<String> seals,
            double[] ratio,
            double[] sigma,
            double[][] correlation,
            double[] before,
            double[] fitted,
            double chiSquare,
            double chiSquareBefore,
            List<Alone> alone,
            boolean settled,
            boolean complete) {}

    /** One seal as the only one that changed; an empty name: none has. */
    public record Alone(String seal, double ratio, double chiSquare, double probability) {}

    /**
     * Fits.
     *
     * @param seals names of passages whose clearance may have changed
     * @param priorSpread standard deviation of the logarithm of each clearance over its drawing value
     * @param progress told the share done
     * @throws IllegalArgumentException when the case as it is has no solution at one of the points
     */
    public Result fit(List<TestPoint> points, List<String> seals, double priorSpread, DoubleConsumer progress) {
        Predictor predictor = new Predictor(points, seals);
        double[] zero = new double[seals.size()];
        double[] before = predictor.values(zero);
        for (int i = 0; i < before.length; i++) {
            if (Double.isNaN(before[i])) {
                throw new IllegalArgumentException(
                        "the case as it is has no solution at one of the test points: " + predictor.failure);
            }
        }
        predictor.keepGuesses();
        double[] spread = new double[seals.size()];
        java.util.Arrays.fill(spread, priorSpread);
        progress.accept(0.05);
        Fitting.Solution all = Fitting.solve(predictor::residuals, zero, spread);
        double chi0 = square(predictor.residuals(zero));
        progress.accept(0.6);
        List<Alone> alone = new ArrayList<>();
        boolean complete = !all.cancelled();
        try {
            alone = !complete ? alone : alone(predictor, seals, priorSpread, chi0, progress);
        } catch (CancellationException e) {
            Thread.interrupted(); // what is known so far is put together in peace
            complete = false;
        }
        int n = seals.size();
        double[] ratio = new double[n];
        double[] sigma = new double[n];
        double[][] correlation = new double[n][n];
        for (int a = 0; a < n; a++) {
            ratio[a] = Math.exp(all.x()[a]);
            sigma[a] = Math.sqrt(all.covariance()[a][a]);
            for (int b = 0; b < n; b++) {
                correlation[a][b] = all.covariance()[a][b] / Math.sqrt(all.covariance()[a][a] * all.covariance()[b][b]);
            }
        }
        return new Result(
                List.copyOf(seals),
                ratio,
                sigma,
                correlation,
                before,
                predictor.values(all.x()),
                all.chiSquare(),
                chi0,
                List.copyOf(alone),
                all.settled(),
                complete);
    }

    private static double square(double[] r) {
        double sum = 0;
        for (double each : r) {
            sum += each * each;
        }
        return sum;
    }

    private List<Alone> alone(
            Predictor predictor, List<String> seals, double priorSpread, double chi0, DoubleConsumer progress) {
        int n = seals.size();
        double[] log = new double[n + 1];
        double[] ratio = new double[n];
        double[] chi = new double[n];
        log[n] = -chi0 / 2;
        for (int j = 0; j < n; j++) {
            int at = j;
            Fitting.Solution s = Fitting.solve(
                    x -> {
                        double[] whole = new double[n];
                        whole[at] = x[0];
                        return predictor.residuals(whole);
                    },
                    new double[1],
                    new double[] {priorSpread});
            if (s.cancelled()) {
                throw new CancellationException("cancelled");
            }
            double x = s.x()[0];
            ratio[j] = Math.exp(x);
            chi[j] = s.chiSquare();
            log[j] = -(s.chiSquare() + x * x / (priorSpread * priorSpread)) / 2
                    + Math.log(Math.sqrt(s.covariance()[0][0]) / priorSpread);
            progress.accept(0.6 + 0.4 * (j + 1) / n);
        }
        double most = Double.NEGATIVE_INFINITY;
        for (double each : log) {
            most = Math.max(most, each);
        }
        double sum = 0;
        for (double each : log) {
            sum += Math.exp(each - most);
        }
        List<Alone> out = new ArrayList<>();
        for (int j = 0; j < n; j++) {
            out.add(new Alone(seals.get(j), ratio[j], chi[j], Math.exp(log[j] - most) / sum));
        }
        out.add(new Alone("", 1, chi0, Math.exp(log[n] - most) / sum));
        out.sort(java.util.Comparator.comparingDouble((Alone a) -> -a.probability())
                .thenComparing(Alone::seal));
        return out;
    }

    /** Readings from clearances; keeps the last solution of each point as a start. Owned by one fit. */
    private final class Predictor {
        private final List<TestPoint> points;
        private final List<String> seals;
        private final Converged[] guess;
        private final double[] drawing;
        private boolean fixedGuesses;
        private String failure = "";

        Predictor(List<TestPoint> points, List<String> seals) {
            this.points = points;
            this.seals = seals;
            guess = new Converged[points.size()];
            drawing = new double[seals.size()];
            for (int j = 0; j < drawing.length; j++) {
                PassageSpec p = points.get(0).model().passage(seals.get(j));
                drawing[j] = p == null ? Double.NaN : CaseValue.clearance(p);
                if (!(drawing[j] > 0)) {
                    throw new IllegalArgumentException("passage " + seals.get(j) + " has no clearance to fit");
                }
            }
        }

        /** From here on every solve starts from the drawing's own solution, so that answers do not depend on the order of the search. */
        void keepGuesses() {
            fixedGuesses = true;
        }

        double[] residuals(double[] x) {
            double[] v = values(x);
            int k = 0;
            for (TestPoint p : points) {
                for (Reading r : p.readings()) {
                    v[k] = (v[k] - r.value()) / r.sigma();
                    k++;
                }
            }
            return v;
        }

        double[] values(double[] x) {
            int count = points.stream().mapToInt(p -> p.readings().size()).sum();
            double[] out = new double[count];
            int k = 0;
            for (int i = 0; i < points.size(); i++) {
                if (Thread.currentThread().isInterrupted()) {
                    throw new CancellationException("cancelled");
                }
                Case model = points.get(i).model();
                for (int j = 0; j < x.length; j++) {
                    if (x[j] != 0) {
                        double c = drawing[j] * Math.exp(x[j]);
                        model = CaseValue.passage(model, seals.get(j), p -> CaseValue.open(p, c));
                    }
                }
                SolveResult solve = solver.solve(model, guess[i]);
                Converged c = solve instanceof Converged found ? found : null;
                if (c == null) {
                    failure = ((SolveResult.NotConverged) solve).detail();
                } else if (!fixedGuesses) {
                    guess[i] = c;
                }
                for (Reading r : points.get(i).readings()) {
                    out[k++] = c == null ? Double.NaN : value(model, c, r);
                }
            }
            return out;
        }

        private double value(Case model, Converged c, Reading r) {
            return switch (r.quantity()) {
                case PRESSURE -> c.cavities().get(r.name()).state().pressure();
                case TEMPERATURE -> c.cavities().get(r.name()).state().temperature();
                case FLOW -> c.passages().get(r.name()).flow().massFlow();
                case PURGE_FLOW -> {
                    double sum = 0;
                    for (Cavity k : model.cavities()) {
                        if (k.fixed() && k.role() == Role.SUPPLY) {
                            sum -= c.cavities().get(k.name()).netMassFlow();
                        }
                    }
                    yield sum;
                }
            };
        }
    }
}
