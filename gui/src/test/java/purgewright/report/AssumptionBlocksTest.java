package purgewright.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.gui.edit.StarterCases;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseForm;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.supply.GasLine;

class AssumptionBlocksTest {
    /** A supply and a campaign that state what they must and nothing else. */
    private static CaseDocument bare() throws IOException {
        return StarterCases.open("spaced-lox-methane")
                .withJson(
                        "/supply",
                        "{\"gas\": \"barrier gas\", \"cavity\": \"bottle line\", \"bottles\": {\"volume\": \"50 L\","
                                + " \"filling pressure\": \"200 bar\", \"temperature\": \"15 degC\", \"number\": 16},"
                                + " \"regulator\": {\"set pressure\": \"3.63 MPa\"},"
                                + " \"line\": {\"diameter\": \"10 mm\", \"length\": \"12 m\"}}")
                .withJson(
                        "/campaign",
                        "{\"attempts\": 6, \"holds\": [{\"name\": \"wait\", \"duration\": \"4 min\"}],"
                                + " \"leak checks\": [{\"name\": \"tight\", \"gas\": \"0.35 kg\"}]}");
    }

    private static final List<String> PLACES =
            List.of("/supply", "/campaign", "/campaign/holds/wait", "/campaign/leak checks/tight");

    @Test
    void whatSupplyAndCampaignDoNotStateIsListed() throws IOException {
        List<String> rows = new ArrayList<>();
        try (CaseService service = new CaseService(Engines.embedded(), 1)) {
            for (Block block : AssumptionBlocks.of(service.check(bare(), CheckSettings.DEFAULT, Progress.NONE))) {
                if (block instanceof Block.Grid grid) {
                    grid.rows().forEach(row -> rows.add(row.get(0) + " | " + row.get(1) + " | " + row.get(2)));
                }
            }
        }
        assertThat(rows)
                .contains(
                        "bottles banks | 1 | supply",
                        "bottles wall conductance | no heat reaches the gas, the cold side | supply",
                        "regulator droop | 0 Pa s/kg | supply",
                        "regulator minimum inlet margin | 0 Pa | supply",
                        "regulator relief pressure | no relief valve | supply",
                        "line roughness | 1.5 um | supply",
                        "attempts per day | 1 | campaign",
                        "abort probability | 0 | campaign",
                        "duty per attempt | all | campaign",
                        "after abort | the last of an attempt | campaign",
                        "reserve | 0 | campaign",
                        "phase | the first | wait",
                        "per attempt | true | wait",
                        "every | attempt | tight")
                .noneMatch(row -> row.startsWith("plant ") || row.startsWith("liquid temperature"));
    }

    /** The layout names the defaults, the reader applies them: typed, they change nothing. */
    @Test
    void whatIsListedIsWhatTheReaderTakes() throws IOException {
        CaseDocument document = bare();
        Case as = document.toCase();
        assertThat(GasLine.DRAWN).isEqualTo(1.5e-6);
        int tried = 0;
        for (String place : PLACES) {
            for (CaseForm.Entry entry : CaseForm.of(document, place)) {
                int slash = entry.path().lastIndexOf('/');
                if (entry.fallback().isEmpty()
                        || document.has(place + "/" + entry.path())
                        || (slash >= 0
                                && !document.has(place + "/" + entry.path().substring(0, slash)))
                        // Applied where they are used, not where they are read.
                        || List.of("line/roughness", "attempts per day").contains(entry.path())) {
                    continue;
                }
                Case typed = document.with(place + "/" + entry.path(), entry.fallback())
                        .toCase();
                assertThat(typed.supply()).as(place + " " + entry.path()).isEqualTo(as.supply());
                assertThat(typed.campaign()).as(place + " " + entry.path()).isEqualTo(as.campaign());
                tried++;
            }
        }
        assertThat(tried).isGreaterThanOrEqualTo(10);
    }
}
