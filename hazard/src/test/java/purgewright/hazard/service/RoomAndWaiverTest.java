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
import purgewright.hazard.deficiency.RoomMixture;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.model.Supply;

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

    @Test
    void inThinAirPeopleLackOxygenAtAGreaterShareAndTheFindingSaysSo() {
        Case sea = with("room", Map.of("volume", 1e4, "ventilation", 20.0));
        assertThat(find(check(sea)).caution()).doesNotContain("135 mmHg");
        Case high = new Case(
                sea.about(),
                new Case.Surroundings(80e3, sea.surroundings().temperature()),
                sea.rotor(),
                sea.streams(),
                sea.cavities(),
                sea.passages(),
                sea.duty(),
                sea.criteria(),
                sea.extras());
        // 135 mmHg is 18.00 kPa: 22.5 % of 80 kPa, more than fresh air has.
        assertThat(find(check(high)).caution()).contains("at 80.0 kPa people lack oxygen below 22.5 % already");
    }

    @Test
    void aBreakOfTheBankIsOneFindingHoweverManyPhasesThereAre() {
        Case base = with("room", Map.of("volume", 100.0, "ventilation", 1.0, "temperature", 300.0));
        Map<String, Object> extras = new LinkedHashMap<>(base.extras());
        // 10 bottles of 50 L at 20 MPa and 300 K: 0.5 m3 x 200 bar = 100 m3 of free gas at 1 bar, about the room's
        // volume.
        Supply.Bottles bottles = new Supply.Bottles(0.05, 20e6, 300, 10, 1, 0, 0, 0, 0);
        extras.put(Case.SUPPLY, new Supply("helium", "barrier", bottles, null, null, null, null, null, null));
        Case model = new Case(
                base.about(),
                base.surroundings(),
                base.rotor(),
                base.streams(),
                base.cavities(),
                base.passages(),
                base.duty(),
                base.criteria(),
                extras);
        Map<String, Case> phases = new LinkedHashMap<>();
        phases.put("first", model);
        phases.put("second", model);
        try (CaseService service =
                new CaseService(new Fakes.Engine(), 1, (c, g) -> Fakes.atWork(c).solved())) {
            List<Finding> breaks = service.check(null, model, phases, Progress.NONE).findings().stream()
                    .filter(f -> f.id().startsWith(Release.BANK + ":"))
                    .toList();
            assertThat(breaks).hasSize(1);
            assertThat(breaks.get(0).phase()).isEqualTo("first");
            // Mixed while air leaves: 20.9 % x exp(-released / volume).
            double released = 0.5 * 20e6 / model.surroundings().pressure();
            assertThat(breaks.get(0).value()).isCloseTo(0.209 * (1 - Math.exp(-released / 100)), within(1e-9));
        }
    }

    @Test
    void anInertReleaseLeavesTheOxygenOfTheClosedSolutions() {
        for (double fan : new double[] {0, 0.01, 0.1, 3}) {
            Case model = with("room", Map.of("volume", 100.0, "ventilation", fan, "temperature", 288.0));
            for (String inert : List.of("helium", "nitrogen")) {
                Map<String, Double> moles = Map.of("fuel vent", 0.85);
                RoomMixture room = RoomMixture.FRESH_AIR
                        .after(model, Map.of("fuel vent", Map.of(inert, 0.85)), 600)
                        .after(model, Map.of("fuel vent", Map.of(inert, 0.85)), 200);
                assertThat(room.oxygen()).isCloseTo(Release.after(model, moles, 800, Release.FRESH), within(1e-9));
                assertThat(RoomMixture.FRESH_AIR.judge(room, false, new Scene("steady", "")))
                        .isEmpty();
            }
        }
    }

    @Test
    void oxygenEnrichesARoomAndFuelMakesItFlammable() {
        // One mole a second is 0.0237 m3/s at 288.15 K: a fifth of the fan's 0.1183 m3/s.
        double molarVolume = 8.314462618 * 288.15 / 101325;
        Case model = with("room", Map.of("volume", 100.0, "ventilation", 5 * molarVolume, "temperature", 288.15));
        double share = 0.2 * -Math.expm1(-5 * molarVolume * 60 / 100);
        RoomMixture oxygen = RoomMixture.FRESH_AIR.after(model, Map.of("vent", Map.of("oxygen", 1.0)), 60);
        assertThat(oxygen.oxygen()).isCloseTo(0.209 * (1 - share) + share, within(1e-9));
        Scene scene = new Scene("steady", "");
        assertThat(RoomMixture.FRESH_AIR.judge(oxygen, false, scene))
                .singleElement()
                .satisfies(f -> assertThat(f.verdict()).isEqualTo(Verdict.HOLDS));
        RoomMixture later = oxygen.after(model, Map.of("vent", Map.of("oxygen", 1.0)), Double.NaN);
        assertThat(later.oxygen()).isCloseTo(0.8 * 0.209 + 0.2, within(1e-9));
        assertThat(oxygen.judge(later, true, scene)).singleElement().satisfies(f -> assertThat(f.verdict())
                .isEqualTo(Verdict.FALLS_SHORT));
        // 10 % of hydrogen's lower limit, 3.9 % in the table (29 CFR 1910.146 [published]); a trace more falls short.
        for (double factor : new double[] {0.99, 1.01}) {
            RoomMixture fuel = RoomMixture.FRESH_AIR.after(
                    model, Map.of("vent", Map.of("hydrogen", 5 * 0.0039 * factor)), Double.NaN);
            Finding f = RoomMixture.FRESH_AIR.judge(fuel, true, scene).get(0);
            assertThat(f.value()).isCloseTo(0.1 * factor, within(1e-9));
            assertThat(f.limit()).isEqualTo(0.1);
            assertThat(f.verdict()).isEqualTo(factor > 1 ? Verdict.FALLS_SHORT : Verdict.THIN);
            // It clears after the phase; the worse of the two ends still counts.
            RoomMixture cleared = fuel.after(model, Map.of(), 3600);
            assertThat(fuel.judge(cleared, false, scene).get(0).value()).isCloseTo(0.1 * factor, within(1e-9));
        }
        RoomMixture odd = RoomMixture.FRESH_AIR.after(model, Map.of("vent", Map.of("HCN", 0.1)), 60);
        assertThat(RoomMixture.FRESH_AIR.judge(odd, false, scene))
                .allSatisfy(f -> assertThat(f.verdict()).isEqualTo(Verdict.NOT_ESTABLISHED));
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
