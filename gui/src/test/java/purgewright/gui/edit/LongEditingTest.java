package purgewright.gui.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.gui.Listeners;
import purgewright.gui.bench.Workbench;
import purgewright.gui.details.DetailsModel;
import purgewright.gui.details.FieldModel;
import purgewright.gui.findings.FindingsModel;
import purgewright.gui.task.Desk;
import purgewright.sealflow.casefile.CaseDocument;

/** 10,000 edits with -P long, 1,500 by default. The models of the window, without nodes; solves are left out, they have tests of their own. */
@DisplayName("A day of editing leaves no more behind than its beginning")
class LongEditingTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int EDITS = (int) Math.max(1500, Math.round(10_000 * SHARE));

    private static CaseDocument minimal() {
        try (InputStream in = StarterCases.class.getResourceAsStream("/purgewright/cases/minimal.json")) {
            return CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<Integer> listeners(Workbench bench) throws ReflectiveOperationException {
        List<Integer> all = new ArrayList<>();
        for (Object p : List.of(
                bench.selectedProperty(),
                bench.history().documentProperty(),
                bench.history().dirtyProperty(),
                bench.history().undoableProperty(),
                bench.resultProperty(),
                bench.outcomeProperty(),
                bench.phaseProperty(),
                bench.readoutProperty())) {
            all.add(Listeners.on(p));
        }
        return all;
    }

    private static long used() throws InterruptedException {
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 4; i++) {
            System.gc();
            Thread.sleep(20);
            least = Math.min(
                    least,
                    Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory());
        }
        return least;
    }

    @Test
    void neitherMemoryNorListenersNorStepsGrow() throws Exception {
        Workbench bench = new Workbench(work -> () -> {}, new Desk(), Runnable::run);
        DetailsModel details = new DetailsModel(bench);
        FindingsModel findings = new FindingsModel(bench);
        CaseDocument start = minimal();
        bench.open(start, null, true);
        List<String> places = List.of("/passages/ring A", "/passages/ring B", "/cavities/barrier", "/rotor", "/about");
        SplittableRandom random = new SplittableRandom(7);
        List<Integer> before = List.of();
        long memory = 0;
        for (int i = 0; i < EDITS + History.MOST; i++) {
            if (i == History.MOST) {
                before = listeners(bench);
                memory = used();
            }
            edit(bench, details, places, random, i);
        }
        assertThat(before.stream().mapToInt(n -> n).sum())
                .as("the models do listen")
                .isPositive();
        assertThat(listeners(bench)).isEqualTo(before);
        assertThat(used() - memory).as("bytes more after " + EDITS + " edits").isLessThan(8 << 20);
        int undone = 0;
        while (bench.history().undoableProperty().get() != null) {
            bench.history().undo();
            undone++;
        }
        assertThat(undone).isLessThanOrEqualTo(History.MOST);
        assertThat(findings.hashCode()).isNotZero();
    }

    private static void edit(
            Workbench bench, DetailsModel details, List<String> places, SplittableRandom random, int i) {
        switch (random.nextInt(8)) {
            case 0 -> bench.selectedProperty().set(places.get(random.nextInt(places.size())));
            case 1 -> bench.history().undo();
            case 2 -> bench.history().redo();
            case 3 ->
                bench.history()
                        .applyMerging(
                                "edit.value",
                                "/passages/ring A/clearance",
                                bench.history()
                                        .document()
                                        .with("/passages/ring A/clearance", (20 + random.nextInt(40)) + " um"));
            default -> {
                List<FieldModel> typed = details.fields().stream()
                        .filter(f -> f.textProperty().get().matches("\\d.* mm|\\d.* rpm"))
                        .toList();
                if (typed.isEmpty()) {
                    bench.history()
                            .apply(
                                    "edit.value",
                                    "/about/title",
                                    bench.history().document().with("/about/title", "t" + i));
                } else {
                    FieldModel f = typed.get(random.nextInt(typed.size()));
                    String unit = f.textProperty().get().replaceAll("^[^ ]* ", "");
                    f.textProperty().set(1 + random.nextInt(9) + "." + i % 10 + " " + unit);
                    f.commit(random.nextInt(4) == 0);
                }
            }
        }
    }
}
