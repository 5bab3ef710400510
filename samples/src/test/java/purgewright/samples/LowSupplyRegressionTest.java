package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import purgewright.command.Commands;
import purgewright.command.Terminal;
import purgewright.fluids.Engines;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolverSettings;

/** Shared-rotor samples at full speed with next to no purge: next to no flow carries the heat of the films away. */
class LowSupplyRegressionTest {
    @ParameterizedTest(name = "{0} at {1}")
    @CsvSource({"shared-rotor-lox, 0.1 MPa", "shared-rotor-kerosene, 0.15 MPa"})
    void aRotorAtFullSpeedWithHardlyAnyPurgeIsRefusedWithTheCavityThatOverheats(
            String sample, String supply, @TempDir Path folder) throws IOException {
        String stated = Files.readString(Path.of("cases", sample + ".json"));
        String low = stated.replace("\"pressure\": \"4.5 MPa\"", "\"pressure\": \"" + supply + "\"");
        assertThat(low).isNotEqualTo(stated);
        Path file = Files.writeString(folder.resolve("low.json"), low);
        SolveResult r = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT)
                .solve(CaseDocument.read(file).toCase(), null);
        NotConverged n = (NotConverged) r;
        assertThat(n.reason()).isEqualTo(SolveResult.Reason.BEYOND_RANGE);
        assertThat(n.worstCavity()).isEqualTo("rim barrier");
        assertThat(n.detail()).contains("W more still go into it");
    }

    /** The vortex of a pumped face takes more than its rim gives: no steady state of a full cavity. */
    @Test
    void aPumpedFaceThatWouldBoilIsNamedAsTheCause(@TempDir Path folder) throws IOException {
        String low = Files.readString(Path.of("cases", "shared-rotor-hub-fed.json"))
                .replace("\"pressure\": \"14 MPa\"", "\"pressure\": \"3.37 MPa\"")
                .replace("\"diameter\": \"7 mm\"", "\"diameter\": \"2.5 mm\"");
        Path file = Files.writeString(folder.resolve("low.json"), low);
        SolveResult r = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT.withFallbacks(false))
                .solve(CaseDocument.read(file).toCase(), null);
        NotConverged n = (NotConverged) r;
        // rho (k w)^2 (r2^2 - r1^2) / 2 with 732 to 743 kg/m3, k = 0.45, 36,500 rpm, 34 and 85 mm: 6.6 MPa
        assertThat(n.detail())
                .contains("the vortex in 'pumped face' takes 6.6")
                .contains("MPa from 'tip gap' to its reference radius, and 'impeller tip' gives 3.37 MPa there");
    }

    @Test
    void aFailedSolveGivesItsCauseAndItsLastIterateApartFromTheCavities(@TempDir Path folder) throws Exception {
        String low = Files.readString(Path.of("cases", "shared-rotor-lox.json"))
                .replace("\"pressure\": \"4.5 MPa\"", "\"pressure\": \"0.1 MPa\"");
        Path file = Files.writeString(folder.resolve("low.json"), low);
        var out = new StringWriter();
        int code = Commands.execute(
                new Terminal(new PrintWriter(out), new PrintWriter(new StringWriter()), false),
                "check",
                "--json",
                file.toString());
        assertThat(code).isEqualTo(3);
        for (JsonNode phase : new ObjectMapper().readTree(out.toString()).get("phases")) {
            if (!phase.get("converged").asBoolean()) {
                assertThat(phase.get("worst_cavity").asText()).isEqualTo("rim barrier");
                assertThat(phase.get("reason").asText()).isEqualTo("beyond range");
                assertThat(phase.get("cavities")).isEmpty();
                assertThat(phase.at("/unconverged_iterate/rim barrier/temperature_K")
                                .asDouble())
                        .isBetween(1000.0, 6000.0);
            }
        }
    }
}
