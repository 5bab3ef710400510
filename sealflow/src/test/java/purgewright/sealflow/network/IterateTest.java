package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;

/** What an iterate keeps from one state of a cavity to the next. */
class IterateTest {
    /** A refusal is proven by such cavities: one that has left the end of its range must not be called held there. */
    @Test
    void aCavityThatASmallStepTakesOffTheEndOfItsRangeStandsThereNoLonger() {
        Network net = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT).network(RealNetworks.draw(4));
        Iterate x = new FirstGuess(net).make();
        x.evaluate();
        x.refreshLagged();
        int i = net.cavityOf[0];
        double pressure = x.pressure[i];
        double enthalpy = x.enthalpy[i];
        double[] mixture = x.fraction[i].clone();
        for (int side = -1; side <= 1; side += 2) {
            x.setAtLimit(i, 1.01 * pressure, mixture, side);
            x.evaluate();
            assertThat(x.atLimit[i]).isEqualTo(side);
            x.set(i, pressure, enthalpy, mixture);
            x.reconcile(new double[net.links]);
            assertThat(x.atLimit[i]).isZero();
            assertThat(x.held(i)).isFalse();
        }
    }
}
