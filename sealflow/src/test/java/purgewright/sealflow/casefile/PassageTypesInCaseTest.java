package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import purgewright.sealflow.model.Case;

/** The reader with the passage types of the product. */
class PassageTypesInCaseTest {
    @Test
    void theMinimalExampleReadsWithTheRealTypes() {
        Case read = CaseDocument.parse(CaseReaderTest.resource("minimal.json")).toCase();
        assertThat(read.passages()).hasSize(8);
        assertThat(read.passage("oxygen seal").clearance()).isEqualTo(9e-5);
        assertThat(read.passage("hot seal").word("arrangement", "")).isEqualTo("stepped");
        assertThat(read.cavities().get(0).pressure()).isEqualTo(2.6e6);
    }
}
