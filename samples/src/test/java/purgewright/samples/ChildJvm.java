package purgewright.samples;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** Calls the program as a user does: in a process of its own, so that the exit code is the process's. */
final class ChildJvm {
    private ChildJvm() {}

    /** What came of a call. */
    record Outcome(int code, String out, String err) {
        /** True when a line looks like a frame of a stack trace. */
        boolean hasStackTrace() {
            return (out + "\n" + err).lines().anyMatch(line -> line.matches("\\s+at [\\w.$/]+\\(.*\\)\\s*"));
        }
    }

    /** The repository's root, whichever module the tests run in. */
    static Path root() {
        Path here = Path.of("").toAbsolutePath();
        while (here != null && !Files.exists(here.resolve("samples/cases"))) {
            here = here.getParent();
        }
        if (here == null) {
            throw new IllegalStateException("not inside the repository");
        }
        return here;
    }

    static Path sample(String name) {
        return root().resolve("samples/cases").resolve(name + ".json");
    }

    static Outcome run(String... arguments) {
        return run(Map.of(), List.of(), arguments);
    }

    static Outcome runWithClassPath(String classPath, String... arguments) {
        return run(Map.of(), List.of(), classPath, arguments);
    }

    static Outcome run(Map<String, String> environment, List<String> options, String... arguments) {
        return run(environment, options, System.getProperty("java.class.path"), arguments);
    }

    /** The same, stopped as by Ctrl-C after a time, s; what it then has to say is waited for. */
    static Outcome stopped(int after, String... arguments) {
        return run(Map.of(), List.of(), System.getProperty("java.class.path"), after, arguments);
    }

    private static Outcome run(
            Map<String, String> environment, List<String> options, String classPath, String... arguments) {
        return run(environment, options, classPath, 0, arguments);
    }

    private static Outcome run(
            Map<String, String> environment,
            List<String> options,
            String classPath,
            int stopAfter,
            String... arguments) {
        Path out = null;
        Path err = null;
        try {
            out = Files.createTempFile("purgewright", ".out");
            err = Files.createTempFile("purgewright", ".err");
            List<String> command = new ArrayList<>();
            command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
            command.addAll(
                    List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Xshare:auto", "-Djava.awt.headless=true"));
            command.addAll(options);
            command.addAll(List.of("-cp", classPath, "purgewright.Main"));
            command.addAll(List.of(arguments));
            ProcessBuilder builder = new ProcessBuilder(command)
                    .directory(root().toFile())
                    .redirectOutput(out.toFile())
                    .redirectError(err.toFile())
                    .redirectInput(ProcessBuilder.Redirect.from(
                            Path.of(System.getProperty("os.name").startsWith("Windows") ? "NUL" : "/dev/null")
                                    .toFile()));
            builder.environment().remove("DISPLAY");
            builder.environment().remove("PURGEWRIGHT_TRACE");
            builder.environment().putAll(environment);
            Process process = builder.start();
            if (stopAfter > 0 && !process.waitFor(stopAfter, TimeUnit.SECONDS)) {
                process.destroy();
            }
            if (!process.waitFor(120, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new IllegalStateException("no answer within 120 s: " + String.join(" ", arguments));
            }
            return new Outcome(
                    process.exitValue(),
                    Files.readString(out, StandardCharsets.UTF_8),
                    Files.readString(err, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        } finally {
            delete(out);
            delete(err);
        }
    }

    private static void delete(Path file) {
        try {
            if (file != null) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
