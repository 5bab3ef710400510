package purgewright.sealflow.passage;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.FluidState;
import purgewright.sealflow.gap.GapKind;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.passage.PassageType.SealKind;

@DisplayName("What every type says of itself, made anew: key, kind, gap, page of theory, drive")
class TypeFactsTest {
    private record Facts(PassageType type, String key, SealKind kind, GapKind gap) {}

    private static final List<Facts> ALL = List.of(
            new Facts(new AnnulusType(false), "bushing", SealKind.CLOSE, GapKind.RADIAL),
            new Facts(new AnnulusType(true), "floating ring", SealKind.CLOSE, GapKind.FLOATING),
            new Facts(new BrushType(), "brush", SealKind.CLOSE, GapKind.NONE),
            new Facts(new CheckValveType(), "check valve", SealKind.DUCT, GapKind.NONE),
            new Facts(new LineType(), "line", SealKind.DUCT, GapKind.NONE),
            new Facts(new MeasuredType(false), "measured", SealKind.CLOSE, GapKind.NONE),
            new Facts(new MeasuredType(true), "static seal", SealKind.CLOSE, GapKind.NONE),
            new Facts(new OrificeType(), "orifice", SealKind.DUCT, GapKind.NONE),
            new Facts(new RimType(), "rim", SealKind.OPEN, GapKind.AXIAL),
            new Facts(new SegmentedRingType(), "segmented ring", SealKind.CLOSE, GapKind.NONE),
            new Facts(new SlingerType(), "slinger", SealKind.OPEN, GapKind.RADIAL),
            new Facts(new LabyrinthType(), "labyrinth", SealKind.OPEN, GapKind.RADIAL),
            new Facts(new FaceType(false), "face", SealKind.CLOSE, GapKind.NONE),
            new Facts(new FaceType(true), "hydrodynamic face", SealKind.CLOSE, GapKind.NONE),
            new Facts(SimpleDucts.nozzle(), "nozzle", SealKind.DUCT, GapKind.NONE),
            new Facts(SimpleDucts.holes(), "holes", SealKind.DUCT, GapKind.NONE),
            new Facts(SimpleDucts.valve(), "valve", SealKind.DUCT, GapKind.NONE),
            new Facts(SimpleDucts.filter(), "filter", SealKind.DUCT, GapKind.NONE),
            new Facts(SimpleDucts.bend(), "bend", SealKind.DUCT, GapKind.NONE),
            new Facts(SimpleDucts.reliefValve(), "relief valve", SealKind.DUCT, GapKind.NONE));

    private static PassageSpec spec(String key, Map<String, Object> fields) {
        return PassageChecks.spec(key, 0.03, 1e-4, fields);
    }

    @Test
    void asTheyAreListed() {
        Set<String> keys = new HashSet<>();
        for (Facts f : ALL) {
            PassageType type = f.type;
            assertThat(type.key()).isEqualTo(f.key);
            assertThat(keys.add(f.key)).isTrue();
            PassageType listed = PassageTypes.find(f.key).orElseThrow();
            assertThat(listed.description()).isEqualTo(type.description()).endsWith(".");
            assertThat(type.fields()).as(f.key).isNotEmpty().isEqualTo(listed.fields());
            Set<String> names = new HashSet<>();
            type.fields()
                    .forEach(field ->
                            assertThat(names.add(field.name())).as(field.name()).isTrue());
            assertThat(type.kind()).as(f.key).isEqualTo(f.kind);
            assertThat(type.gap(spec(f.key, Map.of()))).as(f.key).isEqualTo(f.gap);
            assertThat(type.page()).as(f.key).isNotBlank();
            assertThat(Files.exists(Path.of("..", "docs", "theory", type.page() + ".md"))
                            || !Files.exists(Path.of("..", "docs")))
                    .as(type.page())
                    .isTrue();
        }
        assertThat(keys).hasSize(PassageTypes.all().size());
        assertThat(new RimType().gap(spec("rim", Map.of("direction", "radial"))))
                .isEqualTo(GapKind.RADIAL);
        // A fixed bushing is centred unless stated, a floating ring half way off.
        assertThat(standard(new AnnulusType(false), "eccentricity")).isEqualTo("0");
        assertThat(standard(new AnnulusType(true), "eccentricity")).isEqualTo("0.5");
        assertThat(new AnnulusType(true).description()).contains("floats");
        assertThat(new AnnulusType(false).description()).contains("fixed");
        assertThat(names(new MeasuredType(true))).contains("test flow").doesNotContain("table");
        assertThat(names(new MeasuredType(false))).contains("table").doesNotContain("test flow");
        assertThat(new MeasuredType(true).description()).contains("one leak test");
        assertThat(names(new FaceType(true)))
                .contains("groove depth", "film heat share")
                .doesNotContain("coning");
        assertThat(names(new FaceType(false)))
                .contains("coning", "film heat share")
                .doesNotContain("groove depth");
        assertThat(new FaceType(true).description()).contains("grooves");
    }

    private static String standard(PassageType type, String field) {
        return type.fields().stream()
                .filter(f -> f.name().equals(field))
                .map(PassageField::fallback)
                .findFirst()
                .orElse(null);
    }

    private static List<String> names(PassageType type) {
        return type.fields().stream().map(PassageField::name).toList();
    }

    /** Rules, reports and the reader ask the type and know none by name. */
    @Test
    void whatRulesAskAType() {
        for (Facts f : ALL) {
            assertThat(f.type.pipe()).as(f.key).isEqualTo("line".equals(f.key));
            assertThat(f.type.checks()).as(f.key).isEqualTo("check valve".equals(f.key));
            assertThat(f.type.meters()).as(f.key).isEqualTo("orifice".equals(f.key));
            assertThat(f.type.segmented()).as(f.key).isEqualTo("segmented ring".equals(f.key));
            assertThat(f.type.table()).as(f.key).isEqualTo("measured".equals(f.key) ? "table" : null);
            assertThat(f.type.method(spec(f.key, Map.of())))
                    .as(f.key)
                    .isEqualTo("labyrinth".equals(f.key) ? "tooth by tooth" : "");
            assertThat(f.type.mend()).as(f.key).contains("measured".equals(f.key) ? "write each row" : "change one");
            assertThat(PassageTypes.are(spec(f.key, Map.of()), PassageType::checks))
                    .isEqualTo(f.type.checks());
            if (f.type.checks()) {
                assertThat(f.type.fields()).anyMatch(field -> "reverse leak".equals(field.name()));
            }
        }
        assertThat(new LabyrinthType().method(spec("labyrinth", Map.of("method", "egli"))))
                .isEqualTo("egli");
        assertThat(PassageTypes.are(spec("no such type", Map.of()), type -> true))
                .isFalse();
    }

    @Test
    void noRuleKnowsATypeByItsName() throws IOException {
        Path hazard = Path.of("..", "hazard", "src", "main", "java");
        Path reader = Path.of("src", "main", "java", "purgewright", "sealflow", "casefile", "CaseReader.java");
        for (Path root : List.of(hazard, reader)) {
            if (!Files.exists(root)) {
                continue; // built from the sources of this module alone
            }
            try (Stream<Path> files = Files.walk(root)) {
                for (Path file :
                        files.filter(f -> f.toString().endsWith(".java")).toList()) {
                    String text = Files.readString(file);
                    for (Facts f : ALL) {
                        String quoted = '"' + f.key + '"';
                        assertThat(text)
                                .as(file.toString())
                                .doesNotContain(
                                        quoted + ".equals(", "type().equals(" + quoted, "key().equals(" + quoted);
                    }
                }
            }
        }
    }

    @Test
    void whatPumpsSaysSoInItsDrive() {
        PerfectGas air = new PerfectGas("air", 287.05, 1.4, 1.85e-5);
        FluidState high = air.atPressureTemperature(1e6, 300);
        FluidState low = air.atPressureTemperature(9e5, 300);
        Map<String, Object> face = Map.of("inner radius", 0.03, "outer radius", 0.04, "gap", 1e-5);
        assertThat(new LineType()
                        .drive(spec("line", Map.of("elevation", 100.0)), Double.NaN, 0, high, low)
                        .least())
                .isLessThan(1e5 - 9.8 * 100 * low.density());
        assertThat(new FaceType(false)
                        .drive(spec("face", face), 1e-5, 2000, high, low)
                        .least())
                .isLessThan(1e5 - 0.1 * low.density() * 2000 * 2000 * 7e-4);
        assertThat(new SlingerType()
                        .drive(spec("slinger", face), 1e-5, 2000, high, low)
                        .most())
                .isLessThan(1e5);
        assertThat(new BrushType()
                        .drive(spec("brush", Map.of()), 1e-5, 2000, high, low)
                        .most())
                .isEqualTo(1e5);
    }
}
