package purgewright.gui.task;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.gui.edit.StarterCases;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckSettings;
import purgewright.hazard.service.Progress;
import purgewright.sealflow.casefile.CaseDocument;

class SolveLaneTest {
    private static final CaseService SERVICE = new CaseService(Engines.embedded(), 1);

    private final List<Outcome> told = new ArrayList<>();

    private static Checker checker(boolean glances) {
        return new Checker() {
            @Override
            public CheckResult check(CaseDocument document, CheckResult previousOrNull, Progress progress) {
                return SERVICE.check(document, previousOrNull, CheckSettings.DEFAULT.withBounds(false), Progress.NONE);
            }

            @Override
            public CheckResult glance(CaseDocument document, CheckResult previous, String phase) {
                if (!glances) {
                    throw new CancellationException();
                }
                return check(document, previous, Progress.NONE);
            }
        };
    }

    @Test
    void thePhaseShownIsToldAheadOfTheWhole() {
        SolveLane lane = new SolveLane(TaskRunner.onTheSpot(), checker(true), Runnable::run, told::add);
        CaseDocument first = StarterCases.open("minimal");
        CaseDocument second = first.with("/passages/ring A/clearance", "0.03 mm");

        lane.submit(first, null);
        assertThat(told).singleElement().isInstanceOf(Outcome.Checked.class);
        lane.submit(second, CaseService.STEADY);

        assertThat(told).hasSize(3);
        assertThat(told.get(1)).isInstanceOf(Outcome.Glanced.class);
        assertThat(told.get(1).document()).isSameAs(second);
        assertThat(told.get(2)).isInstanceOf(Outcome.Checked.class);
    }

    @Test
    void aGlanceThatAnEditOutdatesTellsNothing() {
        SolveLane lane = new SolveLane(TaskRunner.onTheSpot(), checker(false), Runnable::run, told::add);
        CaseDocument first = StarterCases.open("minimal");
        lane.submit(first, null);
        lane.submit(first.with("/passages/ring A/clearance", "0.03 mm"), CaseService.STEADY);
        assertThat(told).hasSize(1);
    }
}
