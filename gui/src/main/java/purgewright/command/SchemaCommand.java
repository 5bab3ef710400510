package purgewright.command;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;

/** Prints the case file's JSON Schema. */
@Command(
        name = "schema",
        mixinStandardHelpOptions = true,
        description = "Prints the JSON Schema (2020-12) of the case file.")
final class SchemaCommand implements Callable<Integer> {
    private final Terminal terminal;

    SchemaCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        try (InputStream schema = SchemaCommand.class.getResourceAsStream("/purgewright/schema/case-1.schema.json")) {
            if (schema == null) {
                throw new IllegalStateException("the schema is missing from this build");
            }
            terminal.out().print(new String(schema.readAllBytes(), StandardCharsets.UTF_8));
        }
        return ExitCode.OK;
    }
}
