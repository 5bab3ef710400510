package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.FitResult.Suspect;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.DataTable;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.passage.Conditions;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageTypes;

@DisplayName(
        "Fits of synthetic readings with a known truth: long tables, a worn seal in a network, data that cannot be used")
class FitServiceTest {
    private static final FitService SERVICE = new FitService(Engines.embedded());

    private static CaseDocument minimal() throws IOException {
        return CaseDocument.parse(Files.readString(Path.of("..", "samples", "cases", "minimal.json")));
    }

    private static String row(Object... cells) {
        StringBuilder out = new StringBuilder();
        for (Object c : cells) {
            out.append(out.length() == 0 ? "" : ", ")
                    .append(c instanceof Double d ? String.format(Locale.ROOT, "%.7g", d) : c);
        }
        return out.append('\n').toString();
    }

    @Test
    void aFittedValueTakesItsUncertaintyAlong() throws IOException {
        String place = "/passages/ring A/clearance";
        CaseDocument document = minimal()
                .withJson(
                        "/uncertain",
                        "{\"" + place + "\": {\"distribution\": \"uniform\", \"low\": \"23 um\", \"high\": \"27 um\"},"
                                + " \"/passages/ring A/calibration factor\": {\"distribution\": \"uniform\", \"low\": 0.9, \"high\": 1.1}}");
        FitResult r = new FitResult(
                true,
                false,
                java.util.List.of(new FitResult.Parameter(place, "m", 25e-6, 31e-6, 30e-6, 32e-6, true, Double.NaN)),
                java.util.List.of(),
                0,
                1,
                java.util.List.of(),
                Verdict.HOLDS,
                "",
                Verdict.HOLDS,
                "",
                java.util.List.of(new FitResult.Edit(place, "0.031 mm")),
                java.util.List.of());
        CaseDocument fitted = FitService.adopt(document, r);
        String at = "/uncertain/~1passages~1ring A~1clearance";
        assertThat(fitted.text(place)).contains("0.031 mm");
        assertThat(fitted.text(at + "/distribution")).contains("normal");
        assertThat(fitted.text(at + "/mean")).contains("0.031 mm");
        // 2 um are 2 x 1.96 standard deviations.
        assertThat(fitted.text(at + "/sigma")).contains("0.000510 mm");
        assertThat(fitted.has(at + "/low")).isFalse();
        assertThat(fitted.text("/uncertain/~1passages~1ring A~1calibration factor/low"))
                .contains("0.9");
        assertThat(fitted.toCase().passage("ring A").clearance()).isEqualTo(31e-6);
    }

    @Test
    void manyRowsGiveTheTruthAndTheSpoiltOnesAreCounted() throws IOException {
        CaseDocument document = minimal();
        double truth = 31e-6;
        PureFluid gas = Engines.embedded().pure("nitrogen");
        Case model = document.toCase();
        Passage ring = PassageTypes.find("floating ring")
                .orElseThrow()
                .build(
                        CaseValue.open(model.passage("ring A"), truth),
                        new Conditions(0, truth, Conditions.Bound.NOMINAL));
        Random random = new Random(7);
        StringBuilder csv =
                new StringBuilder("upstream pressure [MPa], downstream pressure [MPa], temperature [K], flow [g/s]\n");
        int rows = 2500;
        int spoilt = 0;
        for (int i = 0; i < rows; i++) {
            double p = 0.3 + 1.7 * random.nextDouble();
            double t = 290 + 6 * random.nextDouble();
            FluidState up = gas.atPressureTemperature(p * 1e6, t);
            FluidState down = gas.atPressureEnthalpy(0.101e6, up.enthalpy());
            double m = 1e3 * ring.flow(up, down).massFlow() * (1 + 0.01 * random.nextGaussian());
            boolean bad = i % 250 == 125;
            spoilt += bad ? 1 : 0;
            csv.append(row(p, 0.101, t, bad ? 1.3 * m : m));
        }
        FitResult r = SERVICE.fit(
                document,
                DataTable.parse("long.csv", csv.toString(), 101325),
                FitSettings.DEFAULT
                        .withPassage("ring A", FitSettings.What.CLEARANCE)
                        .withTestGas("nitrogen")
                        .withFlowUncertainty(0.01),
                Progress.NONE);
        FitResult.Parameter p = r.parameters().get(0);
        assertThat(p.fitted()).isCloseTo(truth, within(truth * 3e-3));
        // Sums of the groups: the mean of the readings is that of the single fit, and no better for being many.
        assertThat(p.high() / p.low() - 1).isGreaterThan(2 * 1.96 * 0.01 / Math.sqrt(2000) / 3);
        assertThat(r.points().size()).isLessThanOrEqualTo(2000);
        int counted = spoilt;
        assertThat(r.notes())
                .anySatisfy(n -> assertThat(n).startsWith("2500 rows were put together"))
                .anySatisfy(n -> assertThat(Integer.parseInt(n.split(" ")[0].replaceAll("\\D", "0")))
                        .isBetween(counted, counted + 8))
                .anySatisfy(n -> assertThat(n).startsWith("Without these lines"));
    }

    /** Ring B worn to 1.45 times its drawing; pressures with 0.5 %, flow with 1 % of noise: the seal is found among all that leak. */
    @Test
    void theSealThatHasWornIsFoundFromNoisyReadingsOfTheWholeNetwork() throws IOException {
        CaseDocument document = minimal();
        Case drawing = document.toCase();
        Case worn = CaseValue.passage(drawing, "ring B", p -> CaseValue.open(p, 1.45 * 35e-6));
        Random random = new Random(11);
        NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
        StringBuilder csv = new StringBuilder(
                "bottle line pressure [Pa], barrier pressure [Pa], oxygen drain pressure [Pa], hot drain pressure [Pa], purge flow [kg/s]\n");
        for (double set : new double[] {2.4e6, 3.0e6, 3.5e6}) {
            Case at = CaseValue.find(worn, "/cavities/bottle line/pressure").set(worn, set);
            Converged c = (Converged) solver.solve(at, null);
            csv.append(row(
                    set,
                    noisy(random, c.cavities().get("barrier").state().pressure(), 0.005),
                    noisy(random, c.cavities().get("oxygen drain").state().pressure(), 0.005),
                    noisy(random, c.cavities().get("hot drain").state().pressure(), 0.005),
                    noisy(random, c.passages().get("metering").flow().massFlow(), 0.01)));
        }
        FitResult r = SERVICE.fit(
                document,
                DataTable.parse("test.csv", csv.toString(), 101325),
                FitSettings.DEFAULT.withFlowUncertainty(0.01).withPressureUncertainty(5e3),
                Progress.NONE);
        assertThat(r.network()).isTrue();
        Suspect first = r.worn().get(0);
        assertThat(first.passage()).isEqualTo("ring B");
        assertThat(first.ratio()).isCloseTo(1.45, within(0.08));
        assertThat(first.probability()).isGreaterThan(0.5);
        FitResult.Parameter ring = r.parameters().stream()
                .filter(p -> p.place().equals("/passages/ring B/clearance"))
                .findFirst()
                .orElseThrow();
        assertThat(ring.low()).isLessThan(1.45 * 35e-6);
        assertThat(ring.high()).isGreaterThan(1.45 * 35e-6);
    }

    /** Purge flow and barrier pressure say nothing of the seals behind the drains: they must not be said to be known, nor be set. */
    @Test
    void whatTheReadingsCannotTellIsNamedAndLeftAtTheDrawing() throws IOException {
        FitResult r = SERVICE.fit(
                minimal(),
                DataTable.parse("one.csv", "barrier pressure [MPa], purge flow [g/s]\n1.60, 7.0\n", 101325),
                FitSettings.DEFAULT.withFlowUncertainty(0.01).withPressureUncertainty(5e3),
                Progress.NONE);
        assertThat(r.parameters())
                .filteredOn(p -> p.place().contains("seal"))
                .hasSize(2)
                .allSatisfy(p -> assertThat(p.observable()).isFalse());
        assertThat(r.edits()).noneMatch(e -> e.place().contains("seal"));
        assertThat(r.notes())
                .anySatisfy(n -> assertThat(n).contains("Not observable").contains("hot seal"));
    }

    @Test
    void aCancelLeavesTheClearancesFoundSoFarWithoutAVerdict() throws IOException {
        FitResult r = SERVICE.fit(
                minimal(),
                DataTable.parse("one.csv", "barrier pressure [MPa], purge flow [g/s]\n1.60, 7.0\n", 101325),
                FitSettings.DEFAULT,
                (share, what) -> {
                    if (share > 0.4) {
                        Thread.currentThread().interrupt();
                    }
                });
        assertThat(Thread.interrupted()).isFalse();
        assertThat(r.complete()).isFalse();
        assertThat(r.parameters()).hasSize(4);
        assertThat(r.worn()).isEmpty();
        assertThat(r.after()).isEqualTo(Verdict.NOT_ESTABLISHED);
        assertThat(r.notes()).anySatisfy(n -> assertThat(n).startsWith("Cancelled"));
    }

    @Test
    void aCancelWhileTheVerdictsAreLookedAtKeepsTheClearances() throws IOException {
        FitResult r = SERVICE.fit(
                minimal(),
                DataTable.parse("one.csv", "barrier pressure [MPa], purge flow [g/s]\n1.60, 7.0\n", 101325),
                FitSettings.DEFAULT,
                (share, what) -> {
                    if (what.equals("verdicts")) {
                        Thread.currentThread().interrupt();
                    }
                });
        assertThat(Thread.interrupted()).isFalse();
        assertThat(r.complete()).isFalse();
        assertThat(r.parameters()).hasSize(4);
        assertThat(r.after()).isEqualTo(Verdict.NOT_ESTABLISHED);
    }

    private static double noisy(Random random, double value, double share) {
        return value * (1 + share * random.nextGaussian());
    }

    @Test
    void aColumnInTwoUnitsAndAUnitInACellAreRefused() {
        assertThatThrownBy(() -> DataTable.parse(
                        "a.csv",
                        "temperature [K], barrier pressure [MPa], barrier pressure [bar]\n293, 1, 10\n",
                        101325))
                .hasMessageContaining("two columns are called \"barrier pressure\"")
                .hasMessageContaining("MPa")
                .hasMessageContaining("bar");
        assertThatThrownBy(() -> DataTable.parse("a.csv", "barrier pressure [MPa]\n1.2\n12 bar\n", 101325))
                .hasMessageContaining("12 bar")
                .isInstanceOfSatisfying(
                        CaseException.class,
                        e -> assertThat(e.problems().get(0).line()).isEqualTo(3));
    }
}
