package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.calibration.NetworkFit;
import purgewright.sealflow.calibration.NetworkFit.Quantity;
import purgewright.sealflow.calibration.NetworkFit.Reading;
import purgewright.sealflow.calibration.NetworkFit.TestPoint;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.network.SolveResult.Converged;

@DisplayName("Which seal has worn: synthetic readings of the spaced pump with noise")
class NetworkFitTest {
    private static final NetworkSolver SOLVER = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
    private static final List<String> SEALS = List.of("oxygen seal", "ring A", "ring B", "hot seal");

    private static List<TestPoint> readings(String worn, double ratio, boolean drains) {
        Random random = new Random(42);
        List<TestPoint> out = new ArrayList<>();
        for (double bottle : new double[] {3.5e6, 2.8e6}) {
            Case model = SpacedPump.draw(1, true, bottle);
            Case truth = CaseValue.passage(model, worn, p -> CaseValue.open(p, ratio * CaseValue.clearance(p)));
            Converged c = (Converged) SOLVER.solve(truth, null);
            List<Reading> r = new ArrayList<>();
            for (String cavity : drains ? List.of("barrier", "oxygen drain", "hot drain") : List.of("barrier")) {
                double p = c.cavities().get(cavity).state().pressure();
                r.add(new Reading(Quantity.PRESSURE, cavity, p * (1 + 0.01 * random.nextGaussian()), 0.01 * p));
            }
            if (drains) {
                double t = c.cavities().get("hot drain").state().temperature();
                r.add(new Reading(Quantity.TEMPERATURE, "hot drain", t + 5 * random.nextGaussian(), 5));
            }
            double m = c.passages().get("metering").flow().massFlow();
            r.add(new Reading(Quantity.FLOW, "metering", m * (1 + 0.02 * random.nextGaussian()), 0.02 * m));
            out.add(new TestPoint(model, r));
        }
        return out;
    }

    @Test
    void theWornRingIsNamedAndItsClearanceComesBack() {
        NetworkFit.Result r = new NetworkFit(SOLVER).fit(readings("ring B", 1.5, true), SEALS, 0.3, s -> {});
        assertThat(r.complete()).isTrue();
        assertThat(r.alone().get(0).seal()).isEqualTo("ring B");
        assertThat(r.alone().get(0).ratio()).isCloseTo(1.5, within(0.06));
        assertThat(r.alone().get(0).probability()).isGreaterThan(0.9);
        int b = r.seals().indexOf("ring B");
        double z = Math.log(r.ratio()[b] / 1.5) / r.sigma()[b];
        assertThat(Math.abs(z))
                .as("the truth lies within three standard deviations")
                .isLessThan(3);
        assertThat(r.chiSquare()).isLessThan(r.chiSquareBefore() / 10);
        double sum =
                r.alone().stream().mapToDouble(NetworkFit.Alone::probability).sum();
        assertThat(sum).isCloseTo(1, within(1e-9));
    }

    @Test
    void whatNoReadingTellsStaysAtTheDrawingWithItsPriorsSpread() {
        NetworkFit.Result r = new NetworkFit(SOLVER).fit(readings("ring A", 1.3, false), SEALS, 0.3, s -> {});
        int hot = r.seals().indexOf("hot seal");
        assertThat(r.sigma()[hot]).isGreaterThan(0.2);
        assertThat(r.ratio()[hot]).isCloseTo(1, within(0.1));
        int a = r.seals().indexOf("ring A");
        int b = r.seals().indexOf("ring B");
        assertThat(r.correlation()[a][b])
                .as("one barrier pressure cannot tell the two rings apart")
                .isLessThan(-0.7);
    }
}
