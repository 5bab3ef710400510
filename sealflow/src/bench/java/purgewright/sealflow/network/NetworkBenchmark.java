package purgewright.sealflow.network;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import purgewright.fluids.Engines;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult.Converged;

/** One solve of a sample with full equations: from nothing, and from the result with the clearances as stated. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
@State(Scope.Thread)
public class NetworkBenchmark {
    private static final int VARIANTS = 64;

    @Param({"minimal", "spaced-lox-methane", "shared-rotor-kerosene"})
    public String sample;

    private final NetworkSolver solver = new NetworkSolver(Engines.embedded(), SolverSettings.DEFAULT);
    private final Case[] variants = new Case[VARIANTS];
    private Converged base;
    private int at;

    @Setup
    public void prepare() {
        Case stated = BenchCases.sample(sample);
        base = (Converged) solver.solve(stated, null);
        Random random = new Random(1);
        for (int i = 0; i < VARIANTS; i++) {
            variants[i] = BenchCases.perturbed(stated, random, 0.02);
        }
    }

    @Benchmark
    public SolveResult cold() {
        return solver.solve(variants[at++ % VARIANTS], null);
    }

    @Benchmark
    public SolveResult warm() {
        return solver.solve(variants[at++ % VARIANTS], base);
    }
}
