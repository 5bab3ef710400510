package purgewright.hazard.criteria;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SelfCheck;
import purgewright.sealflow.network.SelfCheck.Contradiction;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.PassageFlow;

@DisplayName("A result that breaks a law is caught, whatever broke it; a sound one is not")
class SelfCheckTest {
    private static final Path CASES = Path.of("../samples/cases");

    private static CaseDocument document;
    private static Case model;
    private static Converged sound;

    @BeforeAll
    static void solveOnce() {
        document = CaseDocument.read(CASES.resolve("minimal.json"));
        model = document.toCase();
        sound = (Converged) new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT).solve(model, null);
    }

    @Test
    void everySampleIsSound() {
        try (Stream<Path> files = Files.list(CASES);
                CaseService service = new CaseService(Engines.embedded(), 1)) {
            for (Path file :
                    files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
                CheckResult check = service.check(CaseDocument.read(file), CheckSettings.DEFAULT, Progress.NONE);
                assertThat(check.findings()).as(file.getFileName().toString()).noneMatch(f -> f.id().startsWith(
                                GuardRules.CONTRADICTION));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void aWrongSignIsCaught() {
        assertThat(laws(passage("ring A", p -> with(p, -p.flow().massFlow(), negated(p.streamFlows())))))
                .contains("balance", "uphill");
    }

    @Test
    void aWrongUnitOfOnePressureIsCaught() {
        assertThat(laws(cavity("barrier", c -> with(c, moved(c.state(), 1e-3, 1, 1)))))
                .contains("ends", "state");
    }

    @Test
    void aFlowInGramsIsCaught() {
        assertThat(laws(passage("metering", p -> with(p, 1e3 * p.flow().massFlow(), p.streamFlows()))))
                .contains("flow");
    }

    @Test
    void aDensityFromADamagedTableIsCaught() {
        assertThat(laws(cavity("hot drain", c -> with(c, moved(c.state(), 1, 1.01, 1)))))
                .containsExactly("state");
    }

    @Test
    void aTemperatureBeyondTheEquationsIsCaught() {
        for (double factor : new double[] {1e-3, 100}) {
            assertThat(laws(cavity("barrier", c -> with(c, warmed(c.state(), factor)))))
                    .containsExactly("temperature");
            assertThat(laws(passage("ring A", p -> with(p, warmed(p.fromState(), factor), p.toState()))))
                    .containsExactly("temperature");
        }
        // degrees Celsius where kelvin should be, within the equations' reach: the state contradicts itself
        assertThat(laws(cavity("barrier", c -> with(c, warmed(c.state(), 14.85 / 288)))))
                .contains("state");
    }

    @Test
    void aSpeedThatNothingDrivesIsCaught() {
        assertThat(laws(passage("ring B", p -> with(p, faster(p.flow(), 1e3))))).containsExactly("too fast");
    }

    @Test
    void whatFlowsAgainstTheRotorsHeadIsCaught() {
        // A slinger that holds: only a trace comes by. The same with the flow of a slinger that stands still
        // contradicts the rotor.
        CaseDocument held = document.withJson(
                "/passages/oxygen seal",
                "{\"name\": \"oxygen seal\", \"from\": \"impeller back face\", \"to\": \"oxygen drain\", \"type\": \"slinger\","
                        + " \"inner radius\": \"25 mm\", \"outer radius\": \"45 mm\", \"gap\": \"0.2 mm\"}");
        PassageState turning = checked(held, "oxygen seal");
        PassageState still = checked(held.with("/rotor/speed", "0 rpm"), "oxygen seal");
        assertThat(Math.abs(turning.flow().massFlow()))
                .isLessThan(0.1 * still.flow().massFlow());
        assertThat(lawsOf(held, "oxygen seal", still.flow())).contains("too fast");
        assertThat(lawsOf(held, "oxygen seal", reversed(still.flow()))).contains("uphill");
    }

    @Test
    void aFaceThatPumpsIsSoundAndOneThatFlowsAgainstItsOwnPumpingIsNot() {
        // Liquid oxygen at both ends of a face: the rotor's head, 3/20 rho w^2 (ro^2 - ri^2), about 1.5 MPa, is above
        // the difference of pressures.
        CaseDocument pumping = document.with("/cavities/oxygen drain/pressure", "3 MPa")
                .with("/cavities/oxygen drain/temperature", "97 K")
                .with("/cavities/oxygen drain/stream", "feed oxygen")
                .withJson(
                        "/passages/oxygen seal",
                        "{\"name\": \"oxygen seal\", \"from\": \"oxygen drain\", \"to\": \"impeller back face\", \"type\": \"face\","
                                + " \"inner radius\": \"25 mm\", \"outer radius\": \"40 mm\", \"gap\": \"10 um\"}");
        PassageState p = checked(pumping, "oxygen seal");
        assertThat(p.flow().massFlow())
                .as("outwards, from the lower to the higher pressure")
                .isNegative();
        assertThat(p.fromState().pressure()).isGreaterThan(p.toState().pressure());
        assertThat(lawsOf(pumping, "oxygen seal", reversed(p.flow()))).contains("uphill");
        // with the rotor at rest it would be the other way round
        PassageState still = checked(pumping.with("/rotor/speed", "0 rpm"), "oxygen seal");
        assertThat(still.flow().massFlow()).isPositive();
    }

    /** The passage of a solved case that is sound. */
    private static PassageState checked(CaseDocument one, String passage) {
        Converged result = solved(one);
        assertThat(SelfCheck.of(one.toCase(), result)).isEmpty();
        return result.passages().get(passage);
    }

    private static Converged solved(CaseDocument one) {
        return (Converged) new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT).solve(one.toCase(), null);
    }

    private static List<String> lawsOf(CaseDocument one, String passage, PassageFlow flow) {
        Converged result = solved(one);
        Map<String, PassageState> passages = new LinkedHashMap<>(result.passages());
        passages.computeIfPresent(passage, (n, p) -> {
            double factor = flow.massFlow() / p.flow().massFlow();
            Map<String, Double> streams = new LinkedHashMap<>();
            p.streamFlows().forEach((k, v) -> streams.put(k, factor * v));
            return with(with(p, flow.massFlow(), streams), flow);
        });
        return SelfCheck.of(
                        one.toCase(),
                        new Converged(result.convergence(), result.cavities(), passages, result.notices()))
                .stream()
                .map(Contradiction::law)
                .distinct()
                .toList();
    }

    @Test
    void aLossOfEntropyIsCaught() {
        // Heat taken out on the way, more than the fall in pressure makes up for.
        assertThat(laws(passage(
                        "hot drain line",
                        p -> with(
                                p,
                                new PassageFlow(
                                        p.flow().massFlow(),
                                        false,
                                        p.flow().gapVelocity(),
                                        p.flow().throatPressure(),
                                        p.flow().reynolds(),
                                        -2e4,
                                        new double[0],
                                        List.of())))))
                .contains("second law");
    }

    @Test
    void whatIsNoNumberIsCaught() {
        assertThat(laws(cavity("barrier", c -> with(c, moved(c.state(), Double.NaN, 1, 1)))))
                .containsExactly("positive pressure");
        assertThat(laws(passage("ring B", p -> with(p, Double.NaN, p.streamFlows()))))
                .containsExactly("finite");
    }

    @Test
    void fractionsOutsideTheirRangeAreCaught() {
        assertThat(laws(cavity(
                        "barrier",
                        c -> new CavityState(
                                c.name(),
                                c.fixed(),
                                c.state(),
                                Map.of("barrier gas", 1.5, "feed oxygen", -0.5),
                                c.massFractions(),
                                c.moleFractions(),
                                c.windage(),
                                c.netMassFlow()))))
                .containsExactly("fractions of streams");
    }

    @Test
    void aContradictionEndsAsNotEstablished() {
        Converged broken = cavity("hot drain", c -> with(c, moved(c.state(), 1, 1.01, 1)));
        try (CaseService service = new CaseService(Engines.embedded(), 1, (m, guess) -> broken)) {
            CheckResult check = service.check(document, CheckSettings.DEFAULT, Progress.NONE);

            assertThat(check.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED);
            assertThat(check.findings())
                    .extracting(Finding::id)
                    .anyMatch(id -> id.startsWith(GuardRules.CONTRADICTION));
        }
    }

    private static List<String> laws(Converged result) {
        assertThat(SelfCheck.of(model, sound)).as("the sound one").isEmpty();
        return SelfCheck.of(model, result).stream()
                .map(Contradiction::law)
                .distinct()
                .toList();
    }

    private static Converged cavity(String name, UnaryOperator<CavityState> change) {
        Map<String, CavityState> cavities = new LinkedHashMap<>(sound.cavities());
        cavities.computeIfPresent(name, (n, c) -> change.apply(c));
        assertThat(cavities).isNotEqualTo(sound.cavities());
        return new Converged(sound.convergence(), cavities, sound.passages(), sound.notices());
    }

    private static Converged passage(String name, UnaryOperator<PassageState> change) {
        Map<String, PassageState> passages = new LinkedHashMap<>(sound.passages());
        passages.computeIfPresent(name, (n, p) -> change.apply(p));
        assertThat(passages).isNotEqualTo(sound.passages());
        return new Converged(sound.convergence(), sound.cavities(), passages, sound.notices());
    }

    private static Map<String, Double> negated(Map<String, Double> flows) {
        Map<String, Double> out = new LinkedHashMap<>();
        flows.forEach((k, v) -> out.put(k, -v));
        return out;
    }

    private static CavityState with(CavityState c, FluidState state) {
        return new CavityState(
                c.name(),
                c.fixed(),
                state,
                c.streamFractions(),
                c.massFractions(),
                c.moleFractions(),
                c.windage(),
                c.netMassFlow());
    }

    private static PassageState with(PassageState p, double flow, Map<String, Double> streams) {
        return with(p, flowing(p.flow(), flow, p.flow().gapVelocity()), p.fromState(), p.toState(), streams);
    }

    private static PassageState with(PassageState p, PassageFlow flow) {
        return with(p, flow, p.fromState(), p.toState(), p.streamFlows());
    }

    private static PassageState with(PassageState p, FluidState from, FluidState to) {
        return with(p, p.flow(), from, to, p.streamFlows());
    }

    private static PassageState with(
            PassageState p, PassageFlow flow, FluidState from, FluidState to, Map<String, Double> streams) {
        return new PassageState(
                p.name(), p.from(), p.to(), p.kind(), flow, from, to, p.gap(), p.surfaceSpeed(), p.upstream(), streams);
    }

    private static PassageFlow faster(PassageFlow f, double factor) {
        return flowing(f, f.massFlow(), factor * f.gapVelocity());
    }

    private static PassageFlow reversed(PassageFlow f) {
        return flowing(f, -f.massFlow(), -f.gapVelocity());
    }

    private static PassageFlow flowing(PassageFlow f, double flow, double velocity) {
        return new PassageFlow(
                flow,
                f.choked(),
                velocity,
                f.throatPressure(),
                f.reynolds(),
                f.heat(),
                f.stagePressures(),
                f.notices());
    }

    private static FluidState warmed(FluidState s, double factor) {
        return new FluidState(
                s.fluid(),
                s.pressure(),
                s.temperature() * factor,
                s.density(),
                s.enthalpy(),
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                s.extrapolated());
    }

    /** A state with some of its numbers multiplied. */
    private static FluidState moved(FluidState s, double pressure, double density, double enthalpy) {
        return new FluidState(
                s.fluid(),
                s.pressure() * pressure,
                s.temperature(),
                s.density() * density,
                s.enthalpy() * enthalpy,
                s.entropy(),
                s.cp(),
                s.cv(),
                s.soundSpeed(),
                s.quality(),
                s.phase(),
                s.extrapolated());
    }
}
