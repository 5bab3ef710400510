package purgewright.command;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/** The command line as a whole: which commands there are, and what becomes of an exception. */
public final class Commands {
    /** In the order of the help. Suppliers, because reading a command's annotations costs milliseconds. */
    private static Map<String, Supplier<Object>> all(Terminal terminal) {
        Map<String, Supplier<Object>> commands = new LinkedHashMap<>();
        commands.put("check", () -> new CheckCommand(terminal));
        commands.put("fail", () -> new FailCommand(terminal));
        commands.put("report", () -> new ReportCommand(terminal));
        commands.put("size", () -> new SizeCommand(terminal));
        commands.put("map", () -> new MapCommand(terminal));
        commands.put("run", () -> new RunCommand(terminal));
        commands.put("plan", () -> new PlanCommand(terminal));
        commands.put("spread", () -> new SpreadCommand(terminal));
        commands.put("fit", () -> new FitCommand(terminal));
        commands.put("new", () -> new NewCommand(terminal));
        commands.put("schema", () -> new SchemaCommand(terminal));
        commands.put("fluid", () -> new FluidCommand(terminal));
        commands.put("window", WindowHelp::new);
        commands.put("validate", () -> new ValidateCommand(terminal));
        return commands;
    }

    private Commands() {}

    /** Runs one command and returns its exit code. Throws nothing but what is worse than an exception. */
    public static int execute(Terminal terminal, String... arguments) {
        try {
            return commandLine(terminal, arguments.length == 0 ? "" : arguments[0])
                    .execute(arguments);
        } finally {
            terminal.flush();
            Interrupt.finished();
        }
    }

    /** The whole tree; for help, completion and the reference. */
    public static CommandLine wholeTree(Terminal terminal) {
        return commandLine(terminal, "");
    }

    private static CommandLine commandLine(Terminal terminal, String first) {
        CommandLine line = new CommandLine(new Root());
        Map<String, Supplier<Object>> commands = all(terminal);
        Supplier<Object> only = commands.get(first);
        if (only == null) {
            commands.forEach((name, supplier) -> line.addSubcommand(name, supplier.get()));
        } else {
            line.addSubcommand(first, only.get());
        }
        line.setOut(terminal.out());
        line.setErr(terminal.err());
        line.setUsageHelpWidth(100);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setColorScheme(CommandLine.Help.defaultColorScheme(
                terminal.interactive() && System.getenv("NO_COLOR") == null ? Ansi.AUTO : Ansi.OFF));
        Handlers handlers = new Handlers(terminal);
        line.setParameterExceptionHandler(handlers);
        line.setExecutionExceptionHandler(handlers);
        return line;
    }

    /** A class of its own, not two lambdas: the class-data archive takes it, and a start saves 20 ms. */
    private record Handlers(Terminal terminal) implements IParameterExceptionHandler, IExecutionExceptionHandler {
        @Override
        public int handleParseException(ParameterException e, String[] arguments) {
            return usageProblem(terminal, e);
        }

        @Override
        public int handleExecutionException(Exception e, CommandLine command, ParseResult parsed) {
            return Failures.report(terminal, wantsJson(parsed), e);
        }
    }

    private static int usageProblem(Terminal terminal, ParameterException e) {
        CommandLine command = e.getCommandLine();
        String message = e.getMessage();
        if (e instanceof UnmatchedArgumentException unmatched
                && unmatched.getUnmatched().get(0).endsWith(".json")
                && command.getParent() == null) {
            String file = unmatched.getUnmatched().get(0);
            terminal.err()
                    .println("purgewright: which command? check " + file + " judges it, window " + file + " opens it");
            return ExitCode.BAD_INPUT;
        }
        terminal.err().println("purgewright: " + message.replace('\n', ' '));
        if (!UnmatchedArgumentException.printSuggestions(e, terminal.err())) {
            terminal.err().println("Try '" + command.getCommandSpec().qualifiedName() + " --help'.");
        }
        return ExitCode.BAD_INPUT;
    }

    private static boolean wantsJson(ParseResult parsed) {
        for (ParseResult at = parsed; at != null; at = at.hasSubcommand() ? at.subcommand() : null) {
            if (at.hasMatchedOption("--json")) {
                return true;
            }
        }
        return false;
    }

    @Command(
            name = "purgewright",
            mixinStandardHelpOptions = true,
            versionProvider = Version.class,
            synopsisSubcommandLabel = "COMMAND",
            description = {
                "Purgewright judges and sizes the barrier between two fluids that must never meet: seals, drains and a cavity"
                        + " fed with inert gas.",
                "Without arguments the window opens."
            },
            exitCodeListHeading = "%nExit codes:%n",
            exitCodeList = {
                "0:holds (thin too, see --strict), or computed",
                "1:falls short",
                "2:bad input",
                "3:not converged",
                "4:not established",
                "70:internal error"
            })
    static final class Root implements Runnable {
        @CommandLine.Spec
        CommandLine.Model.CommandSpec spec;

        @Override
        public void run() {
            throw new ParameterException(spec.commandLine(), "which command?");
        }
    }

    /** Main takes this command before the parser; here it stands for the help. */
    @Command(
            name = "window",
            mixinStandardHelpOptions = true,
            description = "Opens the window; so does no argument at all.")
    static final class WindowHelp implements Runnable {
        @Parameters(paramLabel = "CASE", arity = "0..1", description = "Case file to open.")
        private String file;

        @Override
        public void run() {
            throw new IllegalStateException("the window is started by the program's entry: " + file);
        }
    }
}
