package purgewright.command;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import purgewright.report.WholeFile;

/** Writes a starter case. */
@Command(
        name = "new",
        mixinStandardHelpOptions = true,
        description = "Writes a starter case to a file, or to standard output. Never over an existing file.",
        footer = {"", "Example:", "  purgewright new my-pump.json --starter spaced-lox-methane"})
final class NewCommand implements Callable<Integer> {
    private final Terminal terminal;

    @Parameters(
            paramLabel = "FILE",
            arity = "0..1",
            description = "File to write. Without it the case goes to standard output.")
    private Path file;

    @Option(
            names = "--starter",
            paramLabel = "NAME",
            defaultValue = "minimal",
            completionCandidates = Starters.class,
            description = "One of ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
    private String starter;

    NewCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        String text = Starters.text(starter);
        if (file == null) {
            terminal.out().print(text);
            return ExitCode.OK;
        }
        WholeFile.writeNew(file, text);
        terminal.err().println("purgewright: wrote " + file + "; next: purgewright check " + file);
        return ExitCode.OK;
    }

    /** The sample cases that travel in the jar. */
    static final class Starters implements Iterable<String> {
        @Override
        public java.util.Iterator<String> iterator() {
            return names().iterator();
        }

        static java.util.List<String> names() {
            return java.util.List.of(
                    "minimal",
                    "spaced-lox-methane",
                    "shared-rotor-kerosene",
                    "shared-rotor-lox",
                    "shared-rotor-hub-fed",
                    "falls-short",
                    "nitrogen-compressor");
        }

        static String text(String name) throws IOException {
            if (!names().contains(name)) {
                throw new InputProblem(
                        "UNKNOWN_STARTER", "no starter case \"" + name + "\"", "one of " + String.join(", ", names()));
            }
            try (InputStream in = Starters.class.getResourceAsStream("/purgewright/cases/" + name + ".json")) {
                if (in == null) {
                    throw new IllegalStateException("starter case " + name + " is missing from this build");
                }
                return new String(in.readAllBytes(), StandardCharsets.UTF_8);
            }
        }
    }
}
