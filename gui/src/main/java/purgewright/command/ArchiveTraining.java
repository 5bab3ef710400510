package purgewright.command;

import java.io.File;

/**
 * Runs what short commands run, with output to nowhere, so that the launcher's class-data archive holds the classes they need. Not
 * for people.
 */
public final class ArchiveTraining {
    private ArchiveTraining() {}

    /** @param arguments folder of the sample cases */
    public static void main(String[] arguments) {
        Terminal silent = Terminal.silent();
        Commands.execute(silent, "--help");
        Commands.execute(silent, "schema");
        Commands.execute(silent, "no such command");
        Commands.execute(silent, "fluid", "nitrogen", "--temperature", "300 K", "--pressure", "1 MPa");
        Commands.execute(silent, "fluid", "nitrogen", "--temperature", "300 K", "--pressure", "1 MPa", "--json");
        File[] cases = arguments.length == 0
                ? null
                : new File(arguments[0]).listFiles((folder, name) -> name.endsWith(".json"));
        if (cases != null) {
            for (File file : cases) {
                Commands.execute(silent, "check", file.getPath());
                Commands.execute(silent, "check", "--json", file.getPath());
            }
        }
        // What Main does on top.
        Terminal.system().flush();
    }
}
