package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import purgewright.sealflow.model.PassageSpec;

class LeakTableTest {
    private static final String SOUND =
            "# a test of ours\n# test gas: helium\n# test temperature: 25 degC\nflow [g/s],upstream [MPa],downstream [kPa]\n1.2,0.4,100\n0.5,0.2,100\n";

    @TempDir
    Path folder;

    private Path cases;

    @BeforeEach
    void makeFolder() throws IOException {
        cases = Files.createDirectory(folder.resolve("cases"));
    }

    private PassageSpec read(String table, String more) throws IOException {
        String json = "{\"purgewright\":1,\"streams\":{\"he\":{\"fluid\":\"helium\"}},\"cavities\":["
                + "{\"name\":\"a\",\"role\":\"supply\",\"stream\":\"he\",\"pressure\":\"0.4 MPa\",\"temperature\":\"290 K\"},"
                + "{\"name\":\"b\",\"role\":\"vent\",\"stream\":\"he\",\"pressure\":\"0.1 MPa\",\"temperature\":\"290 K\"}],"
                + "\"passages\":[{\"name\":\"s\",\"from\":\"a\",\"to\":\"b\",\"type\":\"measured\",\"table\":\"" + table
                + "\""
                + more + "}]}";
        Path file = Files.writeString(cases.resolve("case.json"), json);
        return CaseDocument.read(file).toCase().passages().get(0);
    }

    private static String text(Throwable problem) {
        return ((CaseException) problem).problems().toString();
    }

    @Test
    void aTableBesideTheCaseIsReadWithItsUnitsAndItsTestFluid() throws IOException {
        Files.writeString(cases.resolve("leak.csv"), SOUND);
        PassageSpec spec = read("leak.csv", "");
        assertThat(spec.word("table", "")).isEqualTo("0.4 MPa > 100 kPa: 1.2 g/s; 0.2 MPa > 100 kPa: 0.5 g/s");
        assertThat(spec.word("test gas", "")).isEqualTo("helium");
        assertThat(spec.number("test temperature", 0)).isCloseTo(298.15, within(1e-9));
        assertThat(spec.word("law", "")).isEqualTo("orifice");
    }

    @Test
    void aTableBelowTheCaseIsReadAfterAnEditToo() throws IOException {
        Files.createDirectory(cases.resolve("data"));
        Files.writeString(cases.resolve("data").resolve("leak.csv"), SOUND);
        read("data/leak.csv", "");
        CaseDocument edited = CaseDocument.read(cases.resolve("case.json")).with("/cavities/a/pressure", "0.3 MPa");
        assertThat(edited.toCase().passages().get(0).word("table", "")).contains("0.4 MPa");
    }

    @Test
    void aPathOutOfTheFolderIsRefused() throws IOException {
        Files.writeString(folder.resolve("secret.csv"), SOUND);
        Files.createSymbolicLink(cases.resolve("link.csv"), folder.resolve("secret.csv"));
        for (String name : new String[] {
            "../secret.csv", "link.csv", folder.resolve("secret.csv").toString().replace("\\", "/")
        }) {
            assertThatThrownBy(() -> read(name, ""))
                    .satisfies(e -> assertThat(text(e)).contains("outside the case's folder"));
        }
    }

    @Test
    void whatIsWrongIsSaidWithItsPlace() throws IOException {
        Map<String, String> wrong = Map.of(
                SOUND.replace("# test gas: helium\n", ""),
                "does not say its test gas",
                SOUND.replace("flow [g/s]", "flow"),
                "no column 'flow [unit]'",
                SOUND.replace("0.5,0.2", "x,0.2"),
                "is no number",
                "# test gas: helium\nupstream [MPa],downstream [MPa],flow [g/s]\n",
                "has no rows",
                SOUND.replace("25 degC", "warm"),
                "leak.csv");
        for (Map.Entry<String, String> each : wrong.entrySet()) {
            Files.writeString(cases.resolve("leak.csv"), each.getKey());
            assertThatThrownBy(() -> read("leak.csv", ""))
                    .satisfies(
                            e -> assertThat(text(e)).contains(each.getValue()).contains("/passages/s/table"));
        }
        assertThatThrownBy(() -> read("none.csv", ""))
                .satisfies(e -> assertThat(text(e)).contains("there is no file"));
    }

    @Test
    void aTestFluidThatTheCaseContradictsIsAnError() throws IOException {
        Files.writeString(cases.resolve("leak.csv"), SOUND);
        assertThatThrownBy(() -> read("leak.csv", ",\"test gas\":\"air\""))
                .satisfies(e -> assertThat(text(e)).contains("CONTRADICTION"));
        assertThat(read("leak.csv", ",\"test gas\":\"helium\"").word("test gas", ""))
                .isEqualTo("helium");
    }

    @Test
    void aTableInTheCaseIsReadWithTheCase() throws IOException {
        assertThat(read("60 psi > 15 psi: 0.0026 lb/s; 30 psi > 15 psi: 0.0011 lb/s", "")
                        .type())
                .isEqualTo("measured");
        assertThatThrownBy(() -> read("60 > 15: 0.0026 lb/s", ""))
                .satisfies(
                        e -> assertThat(text(e)).contains("/passages/s/table").contains("has no unit"));
        assertThatThrownBy(() -> read("60 psi > 70 psi: 1 g/s", ""))
                .satisfies(e -> assertThat(text(e)).contains("above downstream"));
        assertThatThrownBy(() -> read("60 psi > 15 psi: 1 g/s; 60 psi > 15 psi: 2 g/s", ""))
                .satisfies(e -> assertThat(text(e)).contains("a row is doubled"));
        assertThatThrownBy(() -> read("60 psi: 1 g/s", ""))
                .satisfies(e -> assertThat(text(e)).contains("upstream > downstream"));
    }

    @Test
    void aCaseWithoutAFolderSaysSo() throws IOException {
        Files.writeString(cases.resolve("leak.csv"), SOUND);
        read("leak.csv", "");
        String json = Files.readString(cases.resolve("case.json"));
        assertThatThrownBy(() -> CaseDocument.parse(json).toCase())
                .satisfies(e -> assertThat(text(e)).contains("in no folder"));
        assertThat(CaseDocument.parse(json).in(cases).toCase().passages()).hasSize(1);
    }
}
