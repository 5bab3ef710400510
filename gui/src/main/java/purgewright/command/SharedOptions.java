package purgewright.command;

import picocli.CommandLine.Option;

/** Options that every command which computes understands. */
final class SharedOptions {
    @Option(
            names = "--json",
            description = "Machine output: one JSON object on standard output, SI numbers, the unit in each key.")
    boolean json;

    @Option(
            names = "--units",
            paramLabel = "si|us",
            defaultValue = "si",
            description = "Units of the text output: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
    UnitSystem units = UnitSystem.si;

    @Option(names = "--quiet", description = "No progress and no remarks on standard error; errors still show.")
    boolean quiet;

    @Option(
            names = "--threads",
            paramLabel = "N",
            description =
                    "Threads for work that can be shared out. Default: the number of cores. Results do not depend on it.")
    int threads = Runtime.getRuntime().availableProcessors();

    @Option(names = "--seed", paramLabel = "N", description = "Seed of random numbers. Default: ${DEFAULT-VALUE}.")
    long seed = 1;

    @Option(
            names = "--properties",
            paramLabel = "embedded|coolprop|auto",
            defaultValue = "embedded",
            description = "Property engine: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
    EngineName properties = EngineName.embedded;

    /** At least one. */
    int threads() {
        if (threads < 1) {
            throw new InputProblem("OUT_OF_RANGE", "--threads is " + threads + ", it must be at least 1", "");
        }
        return threads;
    }

    /** The units that were asked for. */
    purgewright.fluids.unit.UnitSystem unitSystem() {
        return units == UnitSystem.us ? purgewright.fluids.unit.UnitSystem.US : purgewright.fluids.unit.UnitSystem.SI;
    }

    /** Lower-case on purpose: these are the words that are typed. */
    enum UnitSystem {
        si,
        us
    }

    /** Lower-case on purpose: these are the words that are typed. */
    enum EngineName {
        embedded,
        coolprop,
        auto
    }
}
