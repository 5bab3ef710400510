package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.service.PlanResult.Alternative;
import purgewright.sealflow.casefile.CaseDocument;

@DisplayName("A plant main or a tank of liquid beside bottles: what each lacks, and how much of it a campaign takes")
class SupplyWaysTest {
    private static PlanResult plan(String gas, String ways) throws IOException {
        String text = Files.readString(Path.of("..", "samples", "cases", "minimal.json"))
                .replace("\"fluid\": \"helium\"", "\"fluid\": \"" + gas + "\"")
                .replace(
                        "\"purgewright\": 1,",
                        "\"purgewright\": 1, \"duty\": [{\"name\": \"steady\", \"duration\": \"60 s\"}],"
                                + " \"campaign\": {\"attempts\": 4, \"attempts per day\": 2},"
                                + " \"supply\": {\"gas\": \"barrier gas\", \"cavity\": \"bottle line\","
                                + " \"bottles\": {\"volume\": \"50 L\", \"filling pressure\": \"200 bar\", \"temperature\": \"15 degC\","
                                + " \"number\": 4}, \"regulator\": {\"set pressure\": \"3.5 MPa\", \"minimum inlet margin\": \"0.5 MPa\"},"
                                + ways + "},");
        return new PlanService(Engines.embedded())
                .plan(
                        CaseDocument.parse(text),
                        Path.of("."),
                        PlanSettings.DEFAULT.withSamples(0, 1).withRedline(false),
                        Progress.NONE);
    }

    @Test
    void aMainIsEnoughWhenPressureAndFlowAreAndSaysWhatItLacks() throws IOException {
        PlanResult good = plan("helium", "\"plant\": {\"pressure\": \"4.5 MPa\", \"greatest flow\": \"20 g/s\"}");
        Alternative main = good.alternatives().get(0);
        assertThat(main.name()).isEqualTo("plant");
        assertThat(main.enough()).isTrue();
        assertThat(main.quantity()).isCloseTo(good.order().gasUsed(), within(1e-9));
        // The regulator's set pressure and margin together are what a main must have.
        Alternative low = plan("helium", "\"plant\": {\"pressure\": \"3.9 MPa\", \"greatest flow\": \"2 g/s\"}")
                .alternatives()
                .get(0);
        assertThat(low.enough()).isFalse();
        assertThat(low.what()).contains("below what the regulator needs").contains("greatest purge flow");
        assertThat(plan("helium", "\"plant\": {\"pressure\": \"4.5 MPa\"}")
                        .alternatives()
                        .get(0)
                        .what())
                .contains("not stated");
    }

    @Test
    void aTankOfLiquidNitrogenLosesItsBoilOffTooAndHeliumHasNoneAtThatPressure() throws IOException {
        String tank =
                "\"liquid\": {\"volume\": \"2 m3\", \"pressure\": \"%s\", \"vaporiser flow\": \"%s\", \"daily loss\": 0.01}";
        PlanResult low = plan("nitrogen", String.format(tank, "1.6 MPa", "10 g/s"));
        Alternative small = low.alternatives().get(0);
        double density =
                Engines.embedded().pure("nitrogen").atPressureQuality(1.6e6, 0).density();
        double days = 2;
        assertThat(small.quantity()).isCloseTo(low.order().gasUsed() / density + 0.01 * 2 * days, within(1e-9));
        assertThat(small.enough()).isFalse();
        assertThat(List.of(small.what().split("; ")))
                .anySatisfy(w -> assertThat(w).contains("tank's pressure is below"))
                .anySatisfy(w -> assertThat(w).contains("vaporiser cannot warm"));
        assertThat(plan("helium", String.format(tank, "1.6 MPa", "10 g/s"))
                        .alternatives()
                        .get(0)
                        .what())
                .contains("does not boil");
    }
}
