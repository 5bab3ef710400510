package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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
}
