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
}
