package purgewright.sealflow.supply;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;

class SupplyTest {
    private static Bottles helium(double conductance) {
        return new Bottles(
                Engines.embedded().pure("helium"), 0.05, 2, 20e6, 288.15, conductance, 30_000, conductance / 10);
    }

    @Test
    void aBottleWithWallHeatLiesBetweenTheAdiabaticAndTheIsothermalOne() {
        double flow = helium(0).filling() / 2 / 300;
        double cold =
                Emptying.run(helium(0), t -> flow, 300, 60, 288.15, 0).last().pressure();
        double real =
                Emptying.run(helium(20), t -> flow, 300, 60, 288.15, 0).last().pressure();
        double warm = Emptying.run(helium(2000), t -> flow, 300, 2_000, 288.15, 0)
                .last()
                .pressure();
        assertThat(real).isBetween(cold, warm);
    }

    @Test
    void theEndOfTheUsableGasIsFoundAndMassIsKept() {
        Emptying e = Emptying.run(helium(20), t -> 5e-3, 1000, 500, 288.15, 4e6);
        assertThat(e.emptyAt()).isBetween(100.0, 1000.0);
        assertThat(e.last().mass())
                .isCloseTo(helium(20).filling() - 5e-3 * e.last().time(), within(1e-9));
    }

    @Test
    void aRegulatorDroopsAndDropsOut() {
        Regulator r = new Regulator(3.5e6, 20e6, 0.5e6);
        assertThat(r.outlet(10e6, 0.01)).isCloseTo(3.3e6, within(1e-6));
        assertThat(r.droppedOut(10e6, 0.01)).isFalse();
        assertThat(r.droppedOut(3.7e6, 0.01)).isTrue();
        assertThat(r.outlet(3.7e6, 0.01)).isCloseTo(3.2e6, within(1e-6));
        assertThat(r.leastInlet(0.01)).isCloseTo(3.8e6, within(1e-6));
        assertThatThrownBy(() -> new Regulator(Double.NaN, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aRegulatorFailedOpenEndsWhereTheReliefValvePassesWhatComesIn() {
        var bottle = Engines.embedded().pure("helium").atPressureTemperature(20e6, 288.15);
        FailedOpen small = new FailedOpen(0.002, 0.012, 4.6e6);
        FailedOpen large = new FailedOpen(0.008, 0.012, 4.6e6);
        double p = small.pressure(bottle, 101325, x -> 0.007);
        // What comes in, by the flux from the bottle, goes out through relief valve and purge.
        assertThat(p).isBetween(4.6e6, 1.1 * 4.6e6);
        assertThat(large.pressure(bottle, 101325, x -> 0.007))
                .as("a relief valve too small for the open seat does not hold its pressure")
                .isGreaterThan(1.1 * 4.6e6);
        assertThat(new FailedOpen(0.002, 0, Double.NaN).pressure(bottle, 101325, x -> 0))
                .as("without relief the pressure of the bottle comes through")
                .isCloseTo(20e6, within(1e3));
    }

    /** Over the emptying of the bottles: the pressure behind the open seat falls with theirs, and the relief valve closes again. */
    @Test
    void behindARegulatorThatStaysOpenThePressureFallsWithTheBottlesUntilTheReliefValveShuts() {
        FailedOpen open = new FailedOpen(0.003, 0.008, 4.6e6);
        Bottles bank = new Bottles(Engines.embedded().pure("helium"), 0.05, 4, 20e6, 288.15, 0, 30_000, 0);
        double flow = bank.filling() / 400;
        Emptying emptying = Emptying.run(bank, t -> flow, 390, 40, 288.15, 0.4e6);
        double before = Double.POSITIVE_INFINITY;
        double first = Double.NaN;
        for (Emptying.Sample s : emptying.samples()) {
            var gas = Engines.embedded().pure("helium").atPressureTemperature(s.pressure(), s.temperature());
            double p = open.pressure(gas, 101325, x -> 0.007 * x / 3.5e6);
            assertThat(p)
                    .as("at %.0f s, bottles at %.3g Pa", s.time(), s.pressure())
                    .isLessThanOrEqualTo(before * (1 + 1e-6));
            assertThat(p).isLessThan(s.pressure());
            before = p;
            first = Double.isNaN(first) ? p : first;
        }
        assertThat(first).isGreaterThan(4.6e6);
        assertThat(before).as("the relief valve has shut").isLessThan(4.6e6);
    }

    @Test
    void aLineThatCannotPassTheFlowHasNoEndPressure() {
        GasLine line = new GasLine(0.002, 10, 1.5e-6, 0);
        assertThat(line.outlet(1e6, 1.6, 2e-5, 0.02)).isNaN();
        assertThat(line.outlet(1e6, 1.6, 2e-5, 1e-5)).isBetween(0.9e6, 1e6);
    }

    @Test
    void gasArrivesWithItsEnthalpyAndAColdBottleGivesColdGas() {
        var helium = Engines.embedded().pure("helium");
        Feed feed = new Feed(new Regulator(3.5e6, 14e6, 0.7e6), new GasLine(0.01, 12, 1.5e-6, 15));
        var warm = feed.outlet(helium.atPressureTemperature(20e6, 288.15), 0.007);
        var cold = feed.outlet(helium.atPressureTemperature(6e6, 220), 0.007);
        assertThat(warm.temperature()).as("helium warms in a regulator").isGreaterThan(288.15);
        assertThat(cold.temperature()).isLessThan(230);
        assertThat(warm.pressure()).isLessThan(3.5e6 - 14e6 * 0.007);
        assertThat(feed.outlet(helium.atPressureTemperature(4e6, 288), 0.007).droppedOut())
                .isTrue();
    }
}
