package purgewright.sealflow.transients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.apache.commons.math3.ode.FirstOrderDifferentialEquations;
import org.apache.commons.math3.ode.nonstiff.DormandPrince853Integrator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.CaseSketch;
import purgewright.sealflow.network.ClosedFormPassages;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.PerfectGases;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;

/**
 * The same vessels written down a second time, as ordinary differential equations of held masses and energies that know nothing of the
 * network, and run by Commons Math's Dormand-Prince 8(5,3).
 */
@DisplayName("A purge barrier of perfect gases, written down a second time and run by Dormand-Prince 8(5,3)")
class IndependentIntegrationValidationTest {
    private static final NetworkSolver SOLVER =
            new NetworkSolver(new PerfectGases(), SolverSettings.DEFAULT, ClosedFormPassages::find, (s, r) -> null);
    private static final List<String> CAVITIES = List.of("receiver", "barrier", "drain");
    private static final double[] VOLUME = {5e-4, 20e-6, 30e-6};
    private static final double R_HE = 2077.26;
    private static final double CP_HE = 5193;
    private static final double R_AIR = 287.05;
    private static final double CP_AIR = 3.5 * 287.05;

    private static Case model(boolean purged, double bottle) {
        return new CaseSketch()
                .stream("helium", "helium").stream("air", "air")
                        .fixed("bottle", "helium", bottle, 300)
                        .fixed("process", "air", 4e5, 400)
                        .fixed("vent", "air", 1e5, 300)
                        .vessel("receiver", VOLUME[0], 0, 300)
                        .vessel("barrier", VOLUME[1], 0, 300)
                        .vessel("drain", VOLUME[2], 0, 300)
                        .passage("check valve", "bottle", "receiver", "nozzle", "area", 2e-5, "closed", !purged)
                        .passage("metering", "receiver", "barrier", "nozzle", "area", 2e-6)
                        .passage("ring", "barrier", "drain", "nozzle", "area", 3e-6)
                        .passage("seal", "process", "drain", "nozzle", "area", 5e-6)
                        .passage("line", "drain", "vent", "nozzle", "area", 3e-5)
                        .make();
    }

    /** Pressure, temperature and helium share of a place. */
    private record Place(double p, double t, double helium) {
        double gasConstant() {
            return helium * R_HE + (1 - helium) * R_AIR;
        }

        double cp() {
            return helium * CP_HE + (1 - helium) * CP_AIR;
        }
    }

    /** y: helium, air and internal energy cv T of receiver, barrier, drain in turn. */
    private record Vessels(boolean purged, double bottle) implements FirstOrderDifferentialEquations {
        @Override
        public int getDimension() {
            return 9;
        }

        static Place place(double[] y, int v) {
            double he = y[3 * v];
            double air = y[3 * v + 1];
            double t = y[3 * v + 2] / (he * (CP_HE - R_HE) + air * (CP_AIR - R_AIR));
            return new Place((he * R_HE + air * R_AIR) * t / VOLUME[v], t, he / (he + air));
        }

        @Override
        public void computeDerivatives(double time, double[] y, double[] dot) {
            java.util.Arrays.fill(dot, 0);
            Place receiver = place(y, 0);
            Place barrier = place(y, 1);
            Place drain = place(y, 2);
            if (purged) {
                carry(new Place(bottle, 300, 1), -1, receiver, 0, 2e-5, dot);
            }
            carry(receiver, 0, barrier, 1, 2e-6, dot);
            carry(barrier, 1, drain, 2, 3e-6, dot);
            carry(new Place(4e5, 400, 0), -1, drain, 2, 5e-6, dot);
            carry(drain, 2, new Place(1e5, 300, 0), -1, 3e-5, dot);
        }

        private static void carry(Place a, int ia, Place b, int ib, double area, double[] dot) {
            Place up = a.p() >= b.p() ? a : b;
            double down = Math.min(a.p(), b.p());
            double sign = a.p() >= b.p() ? 1 : -1;
            double k = up.cp() / (up.cp() - up.gasConstant());
            double critical = Math.pow(2 / (k + 1), k / (k - 1));
            double r = Math.max(down / up.p(), critical);
            // The ideal nozzle, and the line to it over the last thousandth of the pressure.
            double used = Math.min(r, 0.999);
            double flux = up.p()
                    / Math.sqrt(up.gasConstant() * up.t())
                    * Math.sqrt(2 * k / (k - 1) * (Math.pow(used, 2 / k) - Math.pow(used, (k + 1) / k)));
            double m = sign * area * flux * (r > 0.999 ? (1 - r) / 1e-3 : 1);
            double[] flow = {m * up.helium(), m * (1 - up.helium()), m * up.cp() * up.t()};
            for (int n = 0; n < 3; n++) {
                if (ia >= 0) {
                    dot[3 * ia + n] -= flow[n];
                }
                if (ib >= 0) {
                    dot[3 * ib + n] += flow[n];
                }
            }
        }
    }

    private static double[] held(Converged solved) {
        double[] y = new double[9];
        for (int v = 0; v < 3; v++) {
            CavityState c = solved.cavities().get(CAVITIES.get(v));
            double m = c.state().density() * VOLUME[v];
            double he = c.streamFractions().get("helium");
            y[3 * v] = m * he;
            y[3 * v + 1] = m * (1 - he);
            y[3 * v + 2] = c.state().temperature() * m * (he * (CP_HE - R_HE) + (1 - he) * (CP_AIR - R_AIR));
        }
        return y;
    }

    private static double[] integrate(Vessels vessels, double[] start, double duration) {
        double[] end = new double[9];
        new DormandPrince853Integrator(1e-12, 1, 1e-16, 1e-11).integrate(vessels, 0, start, duration, end);
        return end;
    }

    @Test
    void theBarrierEmptiesAsTheOtherIntegratorSays() {
        Converged steady = (Converged) SOLVER.solve(model(true, 2e6), null);
        TransientResult run = new TransientSolver(SOLVER, TransientSettings.DEFAULT.withTolerance(1e-7))
                .run(Schedule.constant(model(false, 2e6)), steady, 0.5, List.of());
        assertThat(Math.abs(run.massDefect())).isLessThan(1e-7);
        assertThat(run.assumed()).isEmpty();
        for (double time : new double[] {0.002, 0.02, 0.1, 0.25, 0.5}) {
            double[] y = integrate(new Vessels(false, 2e6), held(steady), time);
            for (int v = 0; v < 3; v++) {
                Place other = Vessels.place(y, v);
                assertThat(run.pressure(CAVITIES.get(v), time))
                        .as("%s at %s s", CAVITIES.get(v), time)
                        .isCloseTo(other.p(), within(2e-5 * other.p()));
                assertThat(run.fraction(CAVITIES.get(v), "helium", time)).isCloseTo(other.helium(), within(2e-5));
            }
        }
    }

    @Test
    void runLongEnoughTheOtherIntegratorEndsInTheNetworksSteadyState() {
        Converged elsewhere = (Converged) SOLVER.solve(model(true, 8e5), null);
        Converged steady = (Converged) SOLVER.solve(model(true, 2e6), null);
        double[] y = integrate(new Vessels(true, 2e6), held(elsewhere), 12);
        for (int v = 0; v < 3; v++) {
            Place other = Vessels.place(y, v);
            CavityState ours = steady.cavities().get(CAVITIES.get(v));
            assertThat(ours.state().pressure()).isCloseTo(other.p(), within(1e-8 * other.p()));
            assertThat(ours.state().temperature()).isCloseTo(other.t(), within(1e-8 * other.t()));
            assertThat(ours.streamFractions().get("helium")).isCloseTo(other.helium(), within(1e-9));
        }
    }
}
