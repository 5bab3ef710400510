package purgewright.sealflow.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.campaign.DutyRun.Instant;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.CaseSketch;
import purgewright.sealflow.network.ClosedFormPassages;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.PerfectGases;
import purgewright.sealflow.network.SolverSettings;

@DisplayName("A duty through time, network of perfect gases, bottles of real helium")
class DutyRunTest {
    private static final PureFluid HELIUM = Engines.embedded().pure("helium");

    private static Case model(double filling, int number, int banks, boolean closed) {
        Case c = new CaseSketch()
                .stream("helium", "helium")
                        .vessel("receiver", 0.5e-3, 0, 288)
                        .vessel("barrier", 20e-6, 0, 288)
                        .fixed("panel", "helium", 3e6, 288)
                        .fixed("vent", "helium", 0.1e6, 288)
                        .passage("valve", "panel", "receiver", "nozzle", "area", 2e-5)
                        .passage("metering", "receiver", "barrier", "nozzle", "area", 2e-6)
                        .passage("seals", "barrier", "vent", "nozzle", "area", 4e-6)
                        .make();
        if (closed) {
            c = CaseValue.passage(
                    c,
                    "valve",
                    p -> CaseValue.copy(
                            p, p.clearance(), p.clearanceGrowth(), p.calibrationFactor(), true, p.fields()));
        }
        Map<String, Object> extras = new LinkedHashMap<>(c.extras());
        extras.put(
                Case.SUPPLY,
                new Supply(
                        "helium",
                        "panel",
                        new Supply.Bottles(0.05, filling, 288.15, number, banks, 40, 26e3, Double.NaN, Double.NaN),
                        new Supply.Regulator(3e6, 14e6, 0.005, 0.7e6, 0, Double.NaN, Double.NaN, Double.NaN),
                        new Supply.Line(0.01, 12, Double.NaN, 15),
                        "metering",
                        "receiver",
                        null,
                        null));
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                c.cavities(),
                c.passages(),
                c.duty(),
                c.criteria(),
                extras);
    }

    private static DutyRun.Result run(List<Leg> legs) {
        NetworkSolver solver = new NetworkSolver(
                new PerfectGases(), SolverSettings.DEFAULT, ClosedFormPassages::find, (spec, rotor) -> null);
        return new DutyRun(solver, solver::solve, HELIUM, new DutyRun.Settings(8, 0.03, true, List.of()))
                .run(new DutyClock(legs), null);
    }

    private static Leg leg(String name, double duration, Case model) {
        return new Leg(name, duration, model, 0, List.of(), 3e6);
    }

    @Test
    void massAndEnergyOfTheBottlesClose() {
        DutyRun.Result r = run(List.of(leg("purge", 120, model(20e6, 1, 1, false))));
        assertThat(r.outcome()).isEqualTo(DutyRun.Outcome.FINISHED);
        assertThat(Math.abs(r.massDefect())).isLessThan(1e-8);
        assertThat(Math.abs(r.energyDefect())).isLessThan(1e-8);
        List<Instant> all = r.instants();
        Instant last = all.get(all.size() - 1);
        assertThat(last.used()).isCloseTo(r.used().get(0), within(1e-12));
        for (Instant i : all) {
            assertThat(i.solve().convergence().massClosure()).isLessThan(1e-8);
            // The regulator's law at every moment, inlet effect included: the coupling has settled.
            double inlet = i.banks().get(0).pressure();
            double regulated = 3e6 - 14e6 * i.flow() + 0.005 * (20e6 - inlet);
            assertThat(i.supplyPressure()).isLessThan(regulated).isGreaterThan(regulated - 0.1e6);
        }
    }

    @Test
    void banksAreSwitchedAtTheRegulatorsLeastInletAndTheLastOneDropsOut() {
        DutyRun.Result r = run(List.of(leg("purge", 130, model(6e6, 2, 2, false))));
        assertThat(r.switches()).hasSize(1);
        double at = r.switches().get(0).time();
        Instant before = r.instants().stream()
                .filter(i -> i.time() <= at && i.bank() == 0)
                .reduce((a, b) -> b)
                .orElseThrow();
        double least = (3e6 - 14e6 * before.flow() + 0.005 * 6e6 + 0.7e6) / 1.005;
        // The least inlet is that of the flow at the step's start.
        assertThat(before.banks().get(0).pressure()).isCloseTo(least, within(5e-3 * least));
        Instant last = r.instants().get(r.instants().size() - 1);
        assertThat(last.droppedOut()).isTrue();
        assertThat(last.supplyPressure()).isLessThan(2.5e6);
        assertThat(Math.abs(r.energyDefect())).isLessThan(1e-8);
    }

    @Test
    void aShutValveIsFollowedByTheVolumeBehindIt() {
        Case open = model(20e6, 1, 1, false);
        Case shut = model(20e6, 1, 1, true);
        DutyRun.Result r = run(List.of(leg("on", 10, open), leg("off", 10, shut)));
        assertThat(r.outcome()).as(r.note()).isEqualTo(DutyRun.Outcome.FINISHED);
        List<Instant> falling = new ArrayList<>();
        for (Instant i : r.instants()) {
            if (i.inTransient()) {
                falling.add(i);
            }
        }
        assertThat(falling).hasSizeGreaterThan(8);
        double first = receiver(falling.get(0));
        assertThat(first).as("a microsecond later the receiver is still full").isGreaterThan(2.5e6);
        for (int i = 1; i < falling.size(); i++) {
            assertThat(receiver(falling.get(i))).isLessThanOrEqualTo(receiver(falling.get(i - 1)) * (1 + 1e-6));
        }
        // Choked adiabatic blowdown: after the time constant V/(A C* sqrt(R T)) (k-1)/2-law; within a tenth, for the
        // barrier's pressure counts.
        assertThat(receiver(falling.get(falling.size() - 1))).isLessThan(0.2e6);
    }

    private static double receiver(Instant i) {
        return i.solve().cavities().get("receiver").state().pressure();
    }
}
