package purgewright.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CancellationException;
import purgewright.fluids.PropertyException;
import purgewright.result.ErrorJson;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.casefile.HiddenMarks;

/** From an exception to one clear message and an exit code. A stack trace is never shown unless PURGEWRIGHT_TRACE is set. */
final class Failures {
    private Failures() {}

    /** Prints what went wrong and returns the exit code. */
    static int report(Terminal terminal, boolean json, Exception thrown) {
        List<CaseProblem> problems = problems(thrown);
        int code = ExitCode.BAD_INPUT;
        if (problems.isEmpty()) {
            code = ExitCode.INTERNAL;
            problems = List.of(new CaseProblem(
                    "INTERNAL",
                    "",
                    0,
                    0,
                    "internal error: " + thrown,
                    "please report it; set PURGEWRIGHT_TRACE=1 for details"));
        }
        if (json) {
            terminal.out().println(ErrorJson.write(code, problems));
        }
        if (thrown instanceof CancellationException && terminal.interactive()) {
            terminal.err().println(); // below the line of the progress
        }
        for (CaseProblem problem : problems) {
            terminal.err().println("purgewright: " + line(problem));
        }
        if (System.getenv("PURGEWRIGHT_TRACE") != null) {
            thrown.printStackTrace(terminal.err());
        }
        return code;
    }

    /** Empty when the exception is not the user's to mend. */
    static List<CaseProblem> problems(Throwable thrown) {
        if (thrown instanceof CaseException e) {
            return e.problems().isEmpty()
                    ? List.of(new CaseProblem("CASE", "", 0, 0, String.valueOf(e.getMessage()), ""))
                    : e.problems();
        }
        if (thrown instanceof InputProblem e) {
            return e.problems();
        }
        if (thrown instanceof CancellationException) {
            String said = String.valueOf(thrown.getMessage());
            return List.of(new CaseProblem(
                    "CANCELLED",
                    "",
                    0,
                    0,
                    said.contains(" ") ? said : "cancelled before there was a result to show",
                    ""));
        }
        if (thrown instanceof PropertyException e) {
            return e.key() == PropertyException.Key.NO_CONVERGENCE ? List.of() : List.of(property(e));
        }
        if (thrown instanceof UncheckedIOException e) {
            return problems(e.getCause());
        }
        if (thrown instanceof IOException e) {
            return List.of(new CaseProblem("FILE", "", 0, 0, file(e), ""));
        }
        return List.of();
    }

    private static String file(IOException e) {
        if (e instanceof NoSuchFileException n) {
            return "no such file: " + n.getFile();
        }
        if (e instanceof NotDirectoryException d) {
            return "no such folder: " + d.getFile();
        }
        if (e instanceof AccessDeniedException a) {
            return "no permission: " + a.getFile();
        }
        if (e instanceof FileAlreadyExistsException x) {
            return "exists already: " + x.getFile();
        }
        return String.valueOf(e.getMessage());
    }

    private static String line(CaseProblem problem) {
        StringBuilder text = new StringBuilder();
        if (problem.line() > 0) {
            text.append("line ").append(problem.line());
            if (problem.column() > 0) {
                text.append(", column ").append(problem.column());
            }
            text.append(": ");
        }
        if (!problem.place().isEmpty()) {
            text.append(problem.place()).append(": ");
        }
        text.append(problem.message());
        if (!problem.suggestion().isEmpty()) {
            text.append(" (").append(problem.suggestion()).append(')');
        }
        // One line a problem, whatever the case's names hold.
        return HiddenMarks.blanked(text.toString());
    }

    private static CaseProblem property(PropertyException e) {
        Map<String, Object> v = e.values();
        String fluid = String.valueOf(v.getOrDefault("fluid", "the fluid"));
        String suggestion = "";
        String message =
                switch (e.key()) {
                    case UNKNOWN_FLUID -> {
                        String close = String.valueOf(v.getOrDefault("suggestion", ""));
                        suggestion = close.isEmpty() ? "" : "did you mean \"" + close + "\"?";
                        yield "unknown fluid \"" + v.get("name") + "\"";
                    }
                    case TEMPERATURE_OUT_OF_RANGE -> outside(fluid, "temperature", "K", v);
                    case PRESSURE_OUT_OF_RANGE -> outside(fluid, "pressure", "Pa", v);
                    case SOLID -> fluid + " is solid there" + rest(v);
                    case NO_SUCH_STATE -> fluid + " has no such state" + rest(v);
                    case NO_MODEL -> fluid + ": no published model and no estimate for " + v.get("property");
                    case BAD_DEFINITION -> "a definition that makes no sense" + rest(v);
                    case NO_CONVERGENCE -> fluid + ": an iteration did not settle" + rest(v);
                    case LIBRARY_MISSING -> v.get("what") + ": " + v.get("help");
                };
        return new CaseProblem(e.key().name(), "", 0, 0, message, suggestion);
    }

    /** Of a state asked by heat or entropy the value that lies outside is not known, only that it does. */
    private static String outside(String fluid, String what, String unit, Map<String, Object> v) {
        String range = number(v.get("minimum")) + " to " + number(v.get("maximum")) + " " + unit;
        if (v.containsKey(what)) {
            return fluid + ": " + what + " " + number(v.get(what)) + " " + unit + " is outside the equation's range, "
                    + range;
        }
        Map<String, Object> asked = new LinkedHashMap<>(v);
        asked.keySet().removeAll(List.of("minimum", "maximum"));
        return fluid + ": " + what + " would be outside the equation's range, " + range + rest(asked);
    }

    private static String rest(Map<String, Object> values) {
        List<String> parts = new ArrayList<>();
        values.forEach((name, value) -> {
            if (!name.equals("fluid")) {
                parts.add(name + " " + number(value));
            }
        });
        return parts.isEmpty() ? "" : ": " + String.join(", ", parts);
    }

    private static String number(Object value) {
        return value instanceof Number n
                ? String.format(Locale.ROOT, "%.6g", n.doubleValue())
                        .replaceFirst("(\\.\\d*?)0+($|e)", "$1$2")
                        .replaceFirst("\\.($|e)", "$1")
                : String.valueOf(value);
    }
}
