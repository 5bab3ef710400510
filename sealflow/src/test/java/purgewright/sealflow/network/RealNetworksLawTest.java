package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.network.SolveResult.Reason;

/**
 * Random networks of the product's own seals and equations of state. What is drawn is refused with a reason, or solved with everything
 * conserved, or counted as failed. The long form runs a share of 20,000 ({@code purgewright.share}), from seed {@code networkSeed} on.
 */
class RealNetworksLawTest {
    private static final int COUNT = 20_000;

    private final NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);

    /** Short form: gases at standing shafts, where no heat of drag can ask for more than a fluid stands. */
    @Test
    void gasNetworksOnAStandingShaftAreSolvedAndConserveEverything() {
        Tally tally = run(1011, 1017, true, true);
        assertThat(tally.failed).as(tally.toString()).isEmpty();
        assertThat(tally.solved).isEqualTo(6);
    }

    @Test
    @Tag("long")
    void ofAllThatIsNotRefusedNearlyEveryNetworkIsSolved() {
        int count = Math.max(20, (int) (COUNT * Double.parseDouble(System.getProperty("purgewright.share", "0.01"))));
        int first = Integer.getInteger("networkSeed", 0);
        Tally tally = run(first, first + count, Boolean.getBoolean("gases"), Boolean.getBoolean("noSpin"));
        assertThat(tally.solved).as(tally.toString()).isGreaterThanOrEqualTo((int)
                Math.ceil(0.95 * (tally.solved + tally.failed.size())));
    }

    private static final class Tally {
        int drawn;
        int solved;
        final Map<Reason, Integer> refused = new EnumMap<>(Reason.class);
        final List<String> failed = new ArrayList<>();

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "%d drawn, %d solved, refused %s, failed %d: %s",
                    drawn,
                    solved,
                    refused,
                    failed.size(),
                    failed);
        }
    }

    private Tally run(long first, long end, boolean gases, boolean still) {
        boolean gasesBefore = RealNetworks.gases;
        boolean stillBefore = RealNetworks.still;
        RealNetworks.gases = gases;
        RealNetworks.still = still;
        Tally tally = new Tally();
        try {
            for (long seed = first; seed < end; seed++) {
                tally.drawn++;
                SolveResult result = solver.solve(RealNetworks.draw(seed), null);
                if (result instanceof Converged c) {
                    tally.solved++;
                    conserves(c, seed);
                } else {
                    NotConverged n = (NotConverged) result;
                    if (n.reason() == Reason.ITERATION_LIMIT || n.reason() == Reason.OVERHEATED) {
                        tally.failed.add(seed + " " + n.reason() + " " + n.worstCavity());
                    } else {
                        tally.refused.merge(n.reason(), 1, Integer::sum);
                    }
                }
            }
        } finally {
            RealNetworks.gases = gasesBefore;
            RealNetworks.still = stillBefore;
        }
        return tally;
    }

    /** Adds the finished result up by itself: mass of every stream by cavity; the solver's own report is not asked. */
    private static void conserves(Converged c, long seed) {
        double largest = 1e-15;
        for (PassageState p : c.passages().values()) {
            largest = Math.max(largest, Math.abs(sum(p)));
        }
        for (CavityState cavity : c.cavities().values()) {
            if (cavity.fixed()) {
                continue;
            }
            double mass = 0;
            for (String stream : cavity.streamFractions().keySet()) {
                double in = 0;
                for (PassageState p : c.passages().values()) {
                    double flow = p.streamFlows().getOrDefault(stream, 0.0);
                    in += p.to().equals(cavity.name()) ? flow : p.from().equals(cavity.name()) ? -flow : 0;
                }
                mass += in;
                assertThat(in)
                        .as("seed %d, %s in %s", seed, stream, cavity.name())
                        .isCloseTo(0, within(1e-9 * largest));
            }
            assertThat(mass).as("seed %d, %s", seed, cavity.name()).isCloseTo(0, within(1e-9 * largest));
        }
        assertThat(c.convergence().energyClosure()).as("seed %d", seed).isLessThanOrEqualTo(1e-9);
    }

    private static double sum(PassageState p) {
        double all = 0;
        for (double f : p.streamFlows().values()) {
            all += f;
        }
        return all;
    }
}
