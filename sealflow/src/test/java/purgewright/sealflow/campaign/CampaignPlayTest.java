package purgewright.sealflow.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.sealflow.campaign.CampaignPlay.Kind;
import purgewright.sealflow.campaign.CampaignPlay.Play;
import purgewright.sealflow.model.Campaign;
import purgewright.sealflow.supply.Bottles;

@DisplayName("A campaign played through")
class CampaignPlayTest {
    private static final AttemptGas ATTEMPT = new AttemptGas(
            List.of(AttemptGas.Phase.steady("pre-purge", 60, 4e-3), AttemptGas.Phase.steady("run", 100, 7e-3)));

    private static Campaign campaign(int attempts, double abort, double spread, double reserve) {
        return new Campaign(
                attempts,
                2,
                abort,
                List.of(),
                List.of(),
                spread,
                List.of(new Campaign.Hold("hold", 100, 0, 400, null, true)),
                List.of(new Campaign.LeakCheck("leak", 0.1, Campaign.Every.DAY)),
                reserve,
                "EUR",
                Double.NaN,
                300,
                Double.NaN,
                Double.NaN);
    }

    private static BankBook book() {
        Bottles bank = new Bottles(Engines.embedded().pure("helium"), 0.05, 3, 20e6, 288.15, 120, 78e3, 0);
        return new BankBook(List.of(bank, bank), 4.2e6, 6e-3, 288.15);
    }

    private static CampaignPlay play(Campaign c) {
        return new CampaignPlay(
                c,
                ATTEMPT,
                List.of(AttemptGas.Phase.steady("safe", 60, 4e-3)),
                List.of(new CampaignPlay.Hold(c.holds().get(0), 4e-3)),
                book());
    }

    @Test
    void theCalendarAddsUp() {
        Play p = play(campaign(5, 0.2, 0.1, 0.1)).calendar();
        double attempt = 60 * 4e-3 + 100 * 7e-3 + 100 * 4e-3;
        assertThat(play(campaign(5, 0, 0, 0)).need()).isCloseTo(attempt, within(1e-12));
        assertThat(p.gas()).isCloseTo(5 * attempt + 3 * 0.1, within(1e-9));
        assertThat(p.days()).isEqualTo(3);
        assertThat(p.attempts()).isEqualTo(5);
        assertThat(p.shortOfGas()).isFalse();
        double[] full = book().full();
        int put = p.steps().stream().mapToInt(CampaignPlay.Step::bottles).sum();
        assertThat(p.bottles()).isEqualTo(6 + put);
        // What is in the banks at the end is what was put on less what was drawn and what went back in swapped bottles.
        assertThat(p.steps().get(p.steps().size() - 1).held())
                .allSatisfy(h -> assertThat(h).isBetween(0.0, full[0]));
        assertThat(p.steps().stream().filter(s -> s.kind() == Kind.SWAP).count())
                .isEqualTo(p.swaps());
    }

    @Test
    void whatABankGivesLiesBetweenTheAdiabaticAndTheIsothermalShare() {
        BankBook book = book();
        Bottles bank = book.banks().get(0);
        double full = bank.filling();
        double adiabatic = full * bank.drawn(bank.adiabatic(4.2e6));
        double isothermal = full * bank.drawn(bank.isothermal(4.2e6));
        assertThat(book.usable(0, full)).isBetween(adiabatic, isothermal);
        double last = -1;
        for (double share = 0; share <= 1.0001; share += 0.05) {
            double u = book.usable(0, share * full);
            assertThat(u).isGreaterThanOrEqualTo(last);
            last = u;
        }
        double start = book.startPressure(1.0);
        assertThat(start).isBetween(4.2e6, 20e6);
        assertThat(book.startPressure(100)).isNaN();
    }

    @Test
    void aPlayDependsOnSeedAndNumberAlone() {
        CampaignPlay play = play(campaign(5, 0.3, 0.2, 0.1));
        Play a = play.play(7, 123);
        play.play(7, 124);
        assertThat(play.play(7, 123)).isEqualTo(a);
        assertThat(play(campaign(5, 0.3, 0.2, 0.1)).play(7, 123)).isEqualTo(a);
        assertThat(play.play(8, 123).gas()).isNotEqualTo(a.gas());
    }

    @Test
    void withoutChanceEveryPlayIsTheCalendarAndAbortsCostAttempts() {
        Campaign quiet = new Campaign(
                5,
                2,
                0,
                List.of(),
                List.of(),
                0,
                List.of(),
                List.of(),
                0,
                "",
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN);
        BankBook book = book();
        CampaignPlay play = new CampaignPlay(quiet, ATTEMPT, List.of(), List.of(), book);
        assertThat(play.play(1, 1).gas()).isCloseTo(play.calendar().gas(), within(1e-12));
        Campaign risky = new Campaign(
                5,
                2,
                0.5,
                List.of(),
                List.of(),
                0,
                List.of(),
                List.of(),
                0.3,
                "",
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN);
        CampaignPlay aborting = new CampaignPlay(risky, ATTEMPT, List.of(), List.of(), book);
        double attempts = 0;
        int n = 4000;
        for (int i = 0; i < n; i++) {
            attempts += aborting.play(1, i).attempts();
        }
        // Negative binomial: 5/(1-p) in the mean, variance 5 p/(1-p)^2 = 10; five standard errors.
        assertThat(attempts / n).isCloseTo(10, within(5 * Math.sqrt(10.0 / n)));
    }

    @Test
    void aBankTooSmallForOneAttemptIsGivenUp() {
        Bottles one = new Bottles(Engines.embedded().pure("helium"), 0.01, 1, 6e6, 288.15, 0, 1e9, 0);
        CampaignPlay play = new CampaignPlay(
                campaign(3, 0, 0, 0), ATTEMPT, List.of(), List.of(), new BankBook(List.of(one), 4.2e6, 6e-3, 288.15));
        assertThat(play.calendar().givenUp()).isTrue();
    }
}
