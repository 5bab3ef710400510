package purgewright.sealflow.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class BlockMatrixTest {
    /** Two nodes tied by 1, to two given potentials by 3e-20 and 1e-20: their common potential is the weighted mean, 0.75. */
    @Test
    void nodesTiedMuchCloserToEachOtherThanToTheRestKeepTheirCommonPotential() {
        BlockMatrix m = new BlockMatrix(2, 1, new int[] {0}, new int[] {1});
        double[] right = {3e-20, 0};
        m.add(0, 1, 0, 0, -1);
        m.add(1, 0, 0, 0, -1);
        assertThat(m.factorFlows(new double[] {3e-20, 1e-20})).isTrue();
        m.solve(right);
        assertThat(right[0]).isCloseTo(0.75, within(1e-12));
        assertThat(right[1]).isCloseTo(0.75, within(1e-12));
    }

    @Test
    void nodesTiedToNothingGivenAreSaidToBeSingular() {
        BlockMatrix m = new BlockMatrix(2, 1, new int[] {0}, new int[] {1});
        m.add(0, 1, 0, 0, -1);
        m.add(1, 0, 0, 0, -1);
        assertThat(m.factorFlows(new double[2])).isFalse();
    }
}
