package purgewright.figure;

import static org.assertj.core.api.Assertions.assertThatCode;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.gui.edit.StarterCases;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseEdits;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.model.Case;

/** A drawing that breaks off would break the window's layout, at every pulse from then on. */
@DisplayName("Whatever case can be read can be drawn, schematic and to scale")
class OddCasesTest {
    private static final PropertyEngine ENGINE = Engines.embedded();

    static Stream<String> starters() {
        return StarterCases.names().stream();
    }

    /** Null for what is no case. */
    private static Case model(CaseDocument document) {
        try {
            return document.toCase(ENGINE);
        } catch (CaseException no) {
            return null;
        }
    }

    private static void drawn(CaseDocument document, String what) {
        Case model = model(document);
        if (model != null) {
            Picture picture = Picture.of(model, null, List.of());
            assertThatCode(() -> BarrierSection.toScale(picture)).as(what).doesNotThrowAnyException();
            assertThatCode(() -> BarrierSection.draw(picture)).as(what).doesNotThrowAnyException();
        }
    }

    @ParameterizedTest
    @MethodSource("starters")
    void inAnyOrder(String starter) {
        SplittableRandom random = new SplittableRandom(5);
        for (int i = 0; i < 40; i++) {
            CaseDocument document = StarterCases.open(starter);
            List<String> done = new ArrayList<>();
            for (int j = 0; j < 12; j++) {
                String folder = random.nextBoolean() ? "/cavities" : "/passages";
                List<String> names = document.children(folder);
                if (names.isEmpty()) {
                    continue;
                }
                String place = folder + "/" + CaseEdits.escaped(names.get(random.nextInt(names.size())));
                String cavity = document.children("/cavities").get(0);
                done.add(place);
                document = switch (random.nextInt(5)) {
                    case 0 -> CaseEdits.duplicated(document, place, "copy " + i + " " + j);
                    case 1 -> folder.equals("/passages") ? CaseEdits.removed(document, place) : document;
                    case 2 ->
                        folder.equals("/passages")
                                ? document.with(place + (random.nextBoolean() ? "/from" : "/to"), cavity)
                                : document;
                    default -> CaseEdits.moved(document, place, random.nextBoolean() ? 1 : -1);
                };
                drawn(document, starter + " " + done);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e-300", "1e-12", "1e-3", "1e3", "1e12", "1e200", "1e300"})
    void ofAnySize(String size) {
        CaseDocument document = StarterCases.open("spaced-lox-methane");
        for (String passage : document.children("/passages")) {
            String place = "/passages/" + CaseEdits.escaped(passage);
            for (String field : document.children(place)) {
                if (document.text(place + "/" + field).orElse("").matches("[0-9.e-]+ (mm|um|m)")) {
                    drawn(document.with(place + "/" + field, size + " mm"), place + "/" + field + " of " + size);
                }
            }
        }
    }

    @Test
    void withoutAnything() {
        CaseDocument document = StarterCases.open("minimal");
        for (String passage : document.children("/passages")) {
            document = CaseEdits.removed(document, "/passages/" + CaseEdits.escaped(passage));
            drawn(document, passage);
        }
    }
}
