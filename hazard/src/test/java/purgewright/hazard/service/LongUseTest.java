package purgewright.hazard.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.PropertyEngine;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.network.SolverSettings;

/** 100,000 solves with -P long, 1,000 by default. */
@DisplayName("The same case gives the same bits, however many others were solved before it")
class LongUseTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int SOLVES = (int) Math.round(100_000 * SHARE / 5) * 5;

    private static long bits(Converged r) {
        long hash = 17;
        for (CavityState c : r.cavities().values()) {
            hash = 31 * hash + Double.doubleToLongBits(c.state().pressure());
            hash = 31 * hash + Double.doubleToLongBits(c.state().enthalpy());
            for (double y : c.streamFractions().values()) {
                hash = 31 * hash + Double.doubleToLongBits(y);
            }
        }
        for (PassageState p : r.passages().values()) {
            hash = 31 * hash + Double.doubleToLongBits(p.flow().massFlow());
        }
        return hash;
    }

    @Test
    void solvesDoNotDriftAndLeaveNothingBehind() throws InterruptedException {
        CaseDocument document = CaseDocument.read(Path.of("../samples/cases/minimal.json"));
        Case[] cases = new Case[5];
        for (int i = 0; i < cases.length; i++) {
            cases[i] = document.with("/passages/ring A/clearance", (22 + 3 * i) + " um")
                    .toCase();
        }
        PropertyEngine engine = Engines.embedded();
        NetworkSolver solver = new NetworkSolver(engine, SolverSettings.DEFAULT);
        // Most start from a neighbour's result, as edits in a window do; every twentieth from nothing.
        Converged neighbour = (Converged) solver.solve(cases[0], null);
        long[][] first = new long[2][cases.length];
        SolveResult last = null;
        long memory = 0;
        for (int n = 0; n < SOLVES; n++) {
            int i = n % cases.length;
            int cold = n < cases.length || n / cases.length % 20 == 1 ? 1 : 0;
            Converged r = (Converged) solver.solve(cases[i], cold == 1 ? null : neighbour);
            if (first[cold][i] == 0) {
                first[cold][i] = bits(r);
            } else if (bits(r) != first[cold][i]) {
                throw new AssertionError("solve " + n + " of case " + i + " differs from the first");
            }
            if (n == SOLVES / 2) {
                memory = used();
            }
            last = r;
        }
        assertThat(last).isNotNull();
        assertThat(used() - memory).as("bytes more after half of " + SOLVES).isLessThan(4 << 20);
        // Another solver of the same engine, and another engine, give the same bits.
        assertThat(bits((Converged) new NetworkSolver(engine, SolverSettings.DEFAULT).solve(cases[0], null)))
                .isEqualTo(first[1][0]);
        assertThat(bits((Converged)
                        new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT).solve(cases[0], null)))
                .isEqualTo(first[1][0]);
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
}
