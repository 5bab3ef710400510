package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/** Texts kept beside the tests: what a command printed when somebody last looked at it and found it right. */
final class Golden {
    private static final Pattern LONG_NUMBER = Pattern.compile("-?\\d+\\.\\d{5,}(?:E-?\\d+)?|-?\\d+\\.\\d+E-?\\d+");

    private static final Pattern CLOSURE_KEY = Pattern.compile("(\"(?:mass|energy|species)_closure\" : )[^,\n]+");

    /** Classes in a folder have no version, jars have. */
    private static final Pattern VERSION =
            Pattern.compile("(embedded|, version|\"version\" : \")(?: unpackaged| \\d[-.\\w]*|[-.\\w]+)");

    /** How the solver got there is its own affair; the README is held to it all the same. */
    private static final Pattern ITERATIONS = Pattern.compile("(iterations\" : |: )\\d+(,|(?= iterations;))");

    /**
     * A long line of flashing liquid stands at the border of choking over a range of back pressures: its flow and velocity do not move
     * there, but whether it is called choked hangs on the last digits of a pressure, and so on the machine.
     */
    private static final Pattern BORDER_OF_CHOKING = Pattern.compile("(?m)^(.* drain line .*\\d)  choked$");

    private Golden() {}

    /** The text with numbers of many digits cut to four significant ones, and residuals taken out. */
    static String rounded(String text) {
        String plain = CLOSURE_KEY.matcher(text).replaceAll("$1\"(small)\"");
        plain = plain.replace(" : 0.0,", " : 0,").replace(" : 0.0\n", " : 0\n").replace(" : -0.0,", " : 0,");
        plain = VERSION.matcher(plain).replaceAll("$1");
        return LONG_NUMBER.matcher(plain).replaceAll(Golden::four);
    }

    private static String four(MatchResult match) {
        double value = Double.parseDouble(match.group());
        // What is zero but for rounding is zero.
        return Math.abs(value) < 1e-9 ? "0" : String.format(Locale.ROOT, "%.3e", value);
    }

    /** Compares with a kept file, or writes it with {@code -Dpurgewright.update=true}. */
    static void compare(String name, String text) throws IOException {
        Path file = ChildJvm.root().resolve("samples/src/test/resources/golden").resolve(name);
        String fresh = ITERATIONS.matcher(rounded(text)).replaceAll("$1(some)$2");
        fresh = BORDER_OF_CHOKING.matcher(fresh).replaceAll("$1");
        if (Boolean.getBoolean("purgewright.update")) {
            Files.createDirectories(file.getParent());
            Files.writeString(file, fresh);
        }
        assertThat(Files.exists(file))
                .as("%s exists; make it with -Dpurgewright.update=true and look at it", file)
                .isTrue();
        assertThat(fresh).isEqualTo(Files.readString(file));
    }

    private static final Pattern NUMBER =
            Pattern.compile("(?<![\\w.])[-+]?\\d+(?:\\.\\d+)?(?:[eE][-+]?\\d+)?(?![\\w.]*\\w)");

    /** How often something was looked at, and rounding errors. */
    private static final Pattern COUNTS = Pattern.compile(
            "\\d+(?= designs looked at| points looked at)|(?m)^Balances: .*$|(?m)(?<=^Phase [\\w -]{1,40}: ).*$");

    /**
     * Compares words exactly and numbers within a share of them or of one, in a text of which the blanks do not count; or writes the file
     * with {@code -Dpurgewright.update=true}.
     */
    static void compareWithin(String name, String text, double share) throws IOException {
        Path file = ChildJvm.root().resolve("samples/src/test/resources/golden").resolve(name);
        String fresh = BORDER_OF_CHOKING
                .matcher(COUNTS.matcher(text).replaceAll("(some)"))
                .replaceAll("$1");
        fresh = VERSION.matcher(fresh).replaceAll("$1");
        if (Boolean.getBoolean("purgewright.update")) {
            Files.createDirectories(file.getParent());
            Files.writeString(file, fresh);
        }
        assertThat(Files.exists(file))
                .as("%s exists; make it with -Dpurgewright.update=true and look at it", file)
                .isTrue();
        String kept = Files.readString(file);
        assertThat(skeleton(fresh)).isEqualTo(skeleton(kept));
        List<Double> now = numbers(fresh);
        List<Double> then = numbers(kept);
        for (int i = 0; i < then.size(); i++) {
            double a = then.get(i);
            double b = now.get(i);
            assertThat(Math.abs(a - b))
                    .as("number %d of %s: kept %s, now %s", i + 1, name, a, b)
                    .isLessThanOrEqualTo(share * Math.max(Math.abs(a), Math.abs(b)) + 1e-12);
        }
    }

    private static String skeleton(String text) {
        return NUMBER.matcher(text).replaceAll("#").replaceAll("[ \\n]+", " ");
    }

    private static List<Double> numbers(String text) {
        return NUMBER.matcher(text)
                .results()
                .map(m -> Double.valueOf(m.group()))
                .toList();
    }
}
