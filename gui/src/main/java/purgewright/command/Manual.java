package purgewright.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * The command reference in three forms, all read from the commands themselves so that none can differ from {@code --help}: manual pages
 * for {@code man}, completion for the shell, and the page {@code docs/guide/command-reference.md}. Not for people: the package
 * and the tests call it.
 */
public final class Manual {
    private Manual() {}

    /** @param arguments the folder that gets {@code man/} and {@code completion/} */
    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments[0]);
        CommandLine tree = Commands.wholeTree(Terminal.silent());
        Path man = Files.createDirectories(folder.resolve("man"));
        for (Map.Entry<String, String> page : pages(tree).entrySet()) {
            Files.writeString(man.resolve(page.getKey() + ".1"), page.getValue(), StandardCharsets.UTF_8);
        }
        Path completion = Files.createDirectories(folder.resolve("completion"));
        Files.writeString(completion.resolve("purgewright.bash"), AutoComplete.bash("purgewright", tree));
    }

    /** One manual page a command, by its name with hyphens, such as {@code purgewright-fluid-burn}. */
    static Map<String, String> pages(CommandLine tree) {
        Map<String, String> pages = new TreeMap<>();
        for (CommandLine command : flat(tree)) {
            pages.put(command.getCommandSpec().qualifiedName("-"), page(command));
        }
        return pages;
    }

    /** The whole reference as one Markdown page. */
    static String reference(CommandLine tree) {
        StringBuilder out = new StringBuilder("# Command reference\n\n")
                .append(
                        "Made from the commands themselves; the same as `--help` and the manual pages. How to use them: ")
                .append("[commands](commands.md).\n");
        for (CommandLine command : flat(tree)) {
            CommandSpec spec = command.getCommandSpec();
            out.append("\n## ").append(spec.qualifiedName()).append("\n\n```text\n");
            out.append(command.getUsageMessage(Ansi.OFF).strip()).append("\n```\n");
        }
        return out.toString();
    }

    /** The root first, then each command followed by its own. */
    private static List<CommandLine> flat(CommandLine root) {
        List<CommandLine> all = new ArrayList<>();
        all.add(root);
        root.getSubcommands().values().stream()
                .distinct()
                .filter(c -> !c.getCommandSpec().usageMessage().hidden())
                .forEach(c -> all.addAll(flat(c)));
        return all;
    }

    private static String page(CommandLine command) {
        CommandSpec spec = command.getCommandSpec();
        Help help = command.getHelp();
        StringBuilder out = new StringBuilder();
        out.append(".TH \"")
                .append(spec.qualifiedName("-").toUpperCase(Locale.ROOT))
                .append("\" 1 \"\" \"Purgewright ")
                .append(Version.number())
                .append("\" \"Purgewright\"\n");
        String[] description = spec.usageMessage().description();
        String first = description.length == 0 ? "Purgewright" : description[0];
        out.append(".SH NAME\n")
                .append(roff(spec.qualifiedName("-")))
                .append(" \\- ")
                .append(roff(first))
                .append('\n');
        out.append(".SH SYNOPSIS\n.nf\n").append(roff(help.synopsis(0).strip())).append("\n.fi\n");
        out.append(".SH DESCRIPTION\n");
        for (String line : description) {
            out.append(roff(line)).append("\n.br\n");
        }
        List<PositionalParamSpec> parameters =
                spec.positionalParameters().stream().filter(p -> !p.hidden()).toList();
        List<OptionSpec> options =
                spec.options().stream().filter(o -> !o.hidden()).toList();
        if (!parameters.isEmpty() || !options.isEmpty()) {
            out.append(".SH OPTIONS\n");
        }
        for (PositionalParamSpec parameter : parameters) {
            item(out, parameter.paramLabel(), String.join(" ", parameter.renderedDescription()));
        }
        for (OptionSpec option : options) {
            String label = option.typeInfo().isBoolean() ? "" : " " + option.paramLabel();
            item(out, String.join(", ", option.names()) + label, String.join(" ", option.renderedDescription()));
        }
        if (!spec.subcommands().isEmpty()) {
            out.append(".SH COMMANDS\n");
            for (CommandLine sub : spec.subcommands().values()) {
                String[] words = sub.getCommandSpec().usageMessage().description();
                item(out, sub.getCommandSpec().qualifiedName("-") + "(1)", words.length == 0 ? "" : words[0]);
            }
        }
        Map<String, String> codes = spec.usageMessage().exitCodeList();
        if (!codes.isEmpty()) {
            out.append(".SH EXIT STATUS\n");
            codes.forEach((code, meaning) -> item(out, code, meaning));
        }
        String[] footer = spec.usageMessage().footer();
        if (footer.length > 0) {
            out.append(".SH NOTES\n.nf\n");
            for (String line : footer) {
                out.append(roff(line)).append('\n');
            }
            out.append(".fi\n");
        }
        out.append(".SH CAUTION\n")
                .append(roff(
                        "A screening calculation. Design, test and operation follow the local codes, oxygen and hydrogen"
                                + " safety standards, and licensed practice."))
                .append('\n');
        return out.toString();
    }

    private static void item(StringBuilder out, String term, String text) {
        out.append(".TP\n\\fB")
                .append(roff(term))
                .append("\\fR\n")
                .append(roff(text.isBlank() ? " " : text))
                .append('\n');
    }

    /** A line of text: the formatter's own signs escaped; a point or quote at the start would be a request. */
    private static String roff(String text) {
        StringBuilder out = new StringBuilder();
        for (String line : text.split("\n", -1)) {
            String escaped = line.replace("\\", "\\e").replace("-", "\\-");
            if (escaped.startsWith(".") || escaped.startsWith("'")) {
                escaped = "\\&" + escaped;
            }
            out.append(out.isEmpty() ? "" : "\n").append(escaped);
        }
        return out.toString();
    }
}
