package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
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
    private static final long SHARED_WALLS = 3000;

    private final NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);

    /** Short form: gases at standing shafts, where no heat of drag can ask for more than a fluid stands. */
    @Test
    void gasNetworksOnAStandingShaftAreSolvedAndConserveEverything() {
        Tally tally = run(1011, 1017, true, true);
        assertThat(tally.failed).as(tally.toString()).isEmpty();
        assertThat(tally.solved).isEqualTo(6);
    }

    /** With turning rotors, discs, walls to the outside and between cavities, and diffusion: every term of the energy balance is at work. */
    @Test
    void networksWithDiscsAndWallsBetweenCavitiesConserveEverything() {
        RealNetworks.walls = true;
        try {
            // What is not solved is counted elsewhere.
            Tally tally = run(SHARED_WALLS, SHARED_WALLS + 14, true, false);
            assertThat(tally.solved).as(tally.toString()).isGreaterThanOrEqualTo(6);
            assertThat(tally.diffused).isTrue();
            assertThat(tally.dragged).isTrue();
            assertThat(tally.discs).isTrue();
            assertThat(tally.walled).isTrue();
        } finally {
            RealNetworks.walls = false;
        }
    }

    @Test
    @Tag("long")
    void ofAllThatIsNotRefusedNearlyEveryNetworkIsSolved() {
        int count = Math.max(20, (int) (COUNT * Double.parseDouble(System.getProperty("purgewright.share", "0.01"))));
        int first = Integer.getInteger("networkSeed", 0);
        boolean gases = Boolean.getBoolean("gases");
        Tally tally = run(first, first + count, gases, Boolean.getBoolean("noSpin"));
        // The aim of 99.9 % for gases; less for all fluids.
        assertThat(tally.solved).as(tally.toString()).isGreaterThanOrEqualTo((int)
                Math.ceil((gases ? 0.999 : 0.95) * (tally.solved + tally.failed.size())));
    }

    private static final class Tally {
        int drawn;
        int solved;
        boolean diffused;
        boolean dragged;
        boolean discs;
        boolean walled;
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
                Case model = RealNetworks.draw(seed);
                SolveResult result = solver.solve(model, null);
                if (result instanceof Converged c) {
                    tally.solved++;
                    conserves(c, seed);
                    conservesEnergy(model, c, seed, tally);
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
    }

    /** The same for energy: what flows, what diffuses, drag, discs and walls, as shares of the largest of them. */
    private static void conservesEnergy(Case model, Converged c, long seed, Tally tally) {
        StreamMixer mixer = Engines.embedded().mixer(model.streams());
        Map<String, Double> left = new HashMap<>();
        double largest = 1e-10;
        for (PassageState p : c.passages().values()) {
            double flow = p.bulk().massFlow() * p.bulk().enthalpy();
            for (int k = 0; k < mixer.size(); k++) {
                String stream = mixer.name(k);
                double diffused = p.streamFlows().getOrDefault(stream, 0.0)
                        - p.bulk().massFlow() * p.bulk().fractions().getOrDefault(stream, 0.0);
                if (Math.abs(diffused) > 1e-15 * Math.abs(p.bulk().massFlow())) {
                    flow += diffused * enthalpy(mixer, k, c, p, diffused > 0);
                    tally.diffused = true;
                }
            }
            left.merge(p.from(), p.flow().heatAtFrom() - flow, Double::sum);
            left.merge(p.to(), p.flow().heatAtTo() + flow, Double::sum);
            largest =
                    Math.max(largest, Math.max(Math.abs(flow), Math.abs(p.flow().heat())));
            tally.dragged |= p.flow().heat() > 0;
        }
        for (Cavity cavity : model.cavities()) {
            CavityState state = c.cavities().get(cavity.name());
            left.merge(cavity.name(), state.windage(), Double::sum);
            largest = Math.max(largest, state.windage());
            tally.discs |= state.windage() > 0;
            if (cavity.wall() != null) {
                String other = cavity.wall().cavity();
                double far = other == null
                        ? cavity.wall().temperature()
                        : c.cavities().get(other).state().temperature();
                double heat = cavity.wall().conductance() * (far - state.state().temperature());
                left.merge(cavity.name(), heat, Double::sum);
                largest = Math.max(largest, Math.abs(heat));
                if (other != null) {
                    left.merge(other, -heat, Double::sum);
                    tally.walled |= heat != 0;
                }
            }
        }
        for (CavityState state : c.cavities().values()) {
            if (!state.fixed()) {
                assertThat(left.getOrDefault(state.name(), 0.0))
                        .as("seed %d, energy of %s", seed, state.name())
                        .isCloseTo(0, within(1e-9 * largest));
            }
        }
    }

    /** A stream's own enthalpy at its partial pressure and the temperature of the end it comes from. */
    private static double enthalpy(StreamMixer mixer, int k, Converged c, PassageState p, boolean atFrom) {
        CavityState source = c.cavities().get(atFrom ? p.from() : p.to());
        FluidState end = atFrom ? p.fromState() : p.toState();
        double moles = 0;
        for (int j = 0; j < mixer.size(); j++) {
            moles += source.streamFractions().getOrDefault(mixer.name(j), 0.0) / mixer.molarMass(j);
        }
        double own = source.streamFractions().getOrDefault(mixer.name(k), 0.0) / mixer.molarMass(k);
        return mixer.stream(k)
                .atPressureTemperature(Math.max(1, end.pressure() * own / moles), end.temperature())
                .enthalpy();
    }

    private static double sum(PassageState p) {
        double all = 0;
        for (double f : p.streamFlows().values()) {
            all += f;
        }
        return all;
    }
}
