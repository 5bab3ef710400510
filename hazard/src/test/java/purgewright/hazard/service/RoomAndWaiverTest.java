package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import purgewright.hazard.Fakes;
import purgewright.hazard.barrier.BarrierCount;
import purgewright.hazard.barrier.Pair;
import purgewright.hazard.deficiency.Release;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Role;

class RoomAndWaiverTest {
    private static CheckResult check(Case model) {
        try (CaseService service =
                new CaseService(new Fakes.Engine(), 1, (c, g) -> Fakes.atWork(c).solved())) {
            return service.check(null, model, Map.of(CaseService.STEADY, model), Progress.NONE);
        }
    }

    private static Case with(String section, Object value) {
        Case c = Fakes.pump();
        Map<String, Object> extras = new LinkedHashMap<>();
        extras.put(section, value);
        return new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                c.cavities(),
                c.passages(),
                c.duty(),
                c.criteria(),
                extras);
    }

    @Test
    void aSmallRoomRunsOutOfOxygenAndAVentilatedOneDoesNot() {
        Finding small = find(check(with("room", Map.of("volume", 100.0, "ventilation", 0.0))));
        assertThat(small.verdict()).isEqualTo(Verdict.FALLS_SHORT);
        assertThat(small.how()).contains("18 % after");
        Finding large =
                find(check(with("room", Map.of("volume", 1e4, "ventilation", 20.0, "vents", List.of("fuel vent")))));
        // 0.025 kg/s of the hot drain's gas against 20 m3/s of fresh air: 0.2 % of the air.
        assertThat(large.value()).isLessThan(0.014 * 0.3);
        assertThat(large.verdict()).isEqualTo(Verdict.HOLDS);
        assertThat(large.limit()).isEqualTo(0.209 - 0.195, within(1e-12));
    }

    private static Finding find(CheckResult r) {
        return r.findings().stream()
                .filter(f -> f.id().startsWith(Release.RUNNING + ":"))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aWaiverIsShownAndHidesNothing() {
        Map<String, String> waiver = Map.of(
                "finding",
                "barrier-pressure:ring A:steady",
                "by",
                "A. Reviewer",
                "date",
                "2026-03-14",
                "reason",
                "tested");
        CheckResult r = check(with("waivers", List.of(waiver)));
        Finding f = r.findings().stream()
                .filter(x -> x.id().equals("barrier-pressure:ring A:steady"))
                .findFirst()
                .orElseThrow();
        assertThat(f.waiver().text()).contains("accepted by A. Reviewer on 2026-03-14: tested");
        assertThat(f.caution()).doesNotContain("Reviewer");
        assertThat(f.verdict()).isEqualTo(Verdict.HOLDS);
    }

    @Test
    void aWaiverWithoutANameCountsForNothing() {
        Map<String, String> waiver = Map.of(
                "finding", "barrier-pressure:ring A:steady", "by", " ", "date", "2026-03-14", "reason", "tested");
        CheckResult r = check(with("waivers", List.of(waiver)));
        assertThat(r.findings()).allMatch(f -> f.waiver() == null);
        assertThat(r.cautions()).anyMatch(c -> c.contains("counts for nothing"));
    }

    @Test
    void aFuelAloneIsHeldAgainstTheAirBehindABarrierButNotAgainstItsOwnVent() {
        Case c = Fakes.pump();
        Case alone = new Case(
                c.about(),
                c.surroundings(),
                c.rotor(),
                c.streams(),
                c.cavities().stream()
                        .map(x -> x.name().equals("pump") ? Fakes.fixed("pump", Role.OTHER, Case.AIR, 101325, 288) : x)
                        .toList(),
                c.passages(),
                List.of(),
                Map.of(),
                Map.of());
        CheckResult r = check(alone);
        Finding count = r.findings().stream()
                .filter(f -> f.id().startsWith("barriers:drive gas:air"))
                .findFirst()
                .orElseThrow();
        assertThat(count.value()).isEqualTo(1);
        assertThat(count.how()).doesNotContain("fuel vent");
        assertThat(new Pair("a", Case.AIR, true).withAir()).isTrue();
        assertThat(BarrierCount.UNCONNECTED.path()).isEmpty();
    }
}
