package purgewright.result;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.FailSettings;
import purgewright.hazard.service.MapSettings;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.SizeSettings;
import purgewright.hazard.service.SpreadService;
import purgewright.hazard.studies.SpreadSettings;
import purgewright.hazard.studies.SpreadSettings.Studies;
import purgewright.sealflow.casefile.CaseDocument;

@DisplayName("The number of threads has no say in a result, cancelling is heard, and no thread is left behind")
class ThreadsTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));

    private static CaseDocument document;

    @BeforeAll
    static void read() throws IOException {
        try (InputStream in = ThreadsTest.class.getResourceAsStream("/purgewright/cases/minimal.json")) {
            document = CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8))
                    .withJson(
                            "/uncertain",
                            "{\"/passages/ring A/clearance\": {\"distribution\": \"uniform\", \"low\": \"24 um\", \"high\": \"26 um\"}}");
        }
    }

    private static List<String> answers(int threads) {
        List<String> all = new ArrayList<>();
        try (CaseService service = new CaseService(Engines.embedded(), threads)) {
            // Of the fault sweep the child processes of PlatformTest compare 1 and 8 threads.
            if (SHARE == 1) {
                all.add(FailJson.write(
                        service.fail(document, FailSettings.DEFAULT, Progress.NONE), "t", "h", "1", "e"));
            }
            // Wear limits, releases and worn seals are more of the same searches; the full count has them.
            SizeSettings size = SHARE == 1
                    ? SizeSettings.DEFAULT
                    : SizeSettings.DEFAULT.withWear(false).withReleases(false);
            all.add(SizeJson.size(service.size(document, size, Progress.NONE), "t", "h", "1", "e"));
            MapSettings map = MapSettings.usual(document.toCase())
                    .withResolution(SHARE == 1 ? MapSettings.FINE : 1 / 8.0)
                    .withScenarios(SHARE == 1, SHARE == 1);
            all.add(SizeJson.map(service.map(document, map, Progress.NONE), "t", "h", "1", "e"));
            all.add(SpreadJson.result(
                    new SpreadService(service)
                            .run(
                                    document,
                                    SpreadSettings.DEFAULT.withSamples(12).withStudies(Studies.NONE),
                                    Progress.NONE),
                    document.toJson(),
                    "1"));
        }
        return all;
    }

    @Test
    void oneToEightThreadsGiveTheSameBytes() {
        List<String> one = answers(1);
        for (int threads : SHARE < 1 ? new int[] {4} : new int[] {2, 3, 4, 5, 6, 7, 8}) {
            assertThat(answers(threads)).as(threads + " threads").isEqualTo(one);
        }
    }

    /** 200 times with -P long, 4 by default. The service is cancelled at some moment of a sweep, closed and made anew. */
    @Test
    void cancellingEndsSoonAndLeavesNoThread() throws InterruptedException {
        int before = alive();
        int times = (int) Math.max(4, Math.round(200 * SHARE));
        for (int i = 0; i < times; i++) {
            AtomicReference<Throwable> end = new AtomicReference<>();
            Thread work = new Thread(
                    () -> {
                        try (CaseService service = new CaseService(
                                Engines.embedded(),
                                1 + Thread.currentThread().getName().length() % 3)) {
                            service.fail(document, FailSettings.DEFAULT, Progress.NONE);
                        } catch (RuntimeException e) {
                            end.set(e);
                        }
                    },
                    "study".repeat(1 + i % 3));
            work.start();
            Thread.sleep(i * 37L % 400);
            work.interrupt();
            work.join(10_000);
            assertThat(work.isAlive()).as("cancel " + i).isFalse();
            if (end.get() != null) {
                assertThat(end.get()).isInstanceOf(CancellationException.class);
            }
        }
        for (int i = 0; i < 100 && alive() > before; i++) {
            Thread.sleep(20);
        }
        assertThat(alive()).as("threads left").isLessThanOrEqualTo(before);
    }

    private static int alive() {
        return (int) Thread.getAllStackTraces().keySet().stream()
                .filter(Thread::isAlive)
                .count();
    }
}
