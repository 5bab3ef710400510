package purgewright.sealflow.casefile;

import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Files that ask for too much, read one after the other; prints what was found and the processor time each took. */
final class HostileFiles {
    private HostileFiles() {}

    static Map<String, Supplier<String>> files() {
        Map<String, Supplier<String>> files = new LinkedHashMap<>();
        // The first pays for loading the classes and the fluids.
        files.put("minimal", () -> CaseReaderTest.resource("minimal.json"));
        files.put("open brackets", () -> "[".repeat(10 << 20));
        files.put("open objects", () -> "{\"a\":".repeat(2 << 20));
        files.put("brackets in a case", () -> "{\"purgewright\": 1, \"cavities\": " + "[".repeat(10 << 20));
        files.put("white space", () -> " ".repeat(16 << 20));
        files.put("one text", () -> "{\"purgewright\": \"" + "x".repeat(15 << 20) + "\"}");
        files.put("many values", () -> "{\"purgewright\": [" + "1,".repeat(7 << 20) + "1]}");
        files.put("empty objects", () -> wrap("cavities", list(300_000, i -> "{}")));
        files.put("nameless cavities", () -> wrap("cavities", list(190_000, i -> "{\"name\": \"c" + i + "\"}")));
        files.put("equal names", () -> wrap("cavities", list(120_000, i -> "{\"name\": \"c\", \"role\": \"other\"}")));
        files.put(
                "strangers",
                () -> wrap(
                        "passages",
                        list(
                                50_000,
                                i -> "{\"name\": \"p" + i + "\", \"from\": \"x" + i + "\", \"to\": \"y\", \"type\": \"z"
                                        + i + "\"}")));
        files.put(
                "unknown fields",
                () -> "{\"purgewright\": 1," + pairs(390_000, i -> "\"purgewrighd" + i + "\": 1") + "}");
        files.put("duplicate fields", () -> "{\"purgewright\": 1," + pairs(390_000, i -> "\"a\": 1") + "}");
        files.put(
                "one passage of many fields",
                () -> wrap("passages", "[{" + pairs(380_000, i -> "\"q" + i + "\": 1") + "}]"));
        files.put("many streams", () -> "{\"streams\": {" + pairs(190_000, i -> "\"s" + i + "\": {}") + "}}");
        files.put(
                "long units",
                () -> wrap(
                        "criteria", "{" + pairs(20, i -> "\"c" + i + "\": \"3 " + "m ".repeat(300_000) + "\"") + "}"));
        files.put("wrong units", () -> wrap("criteria", "{" + pairs(390_000, i -> "\"c" + i + "\": \"3 mq\"") + "}"));
        files.put(
                "many places",
                () -> network(
                        40_000,
                        "\"uncertain\": {"
                                + pairs(
                                        6_000,
                                        i -> "\"/passages/p" + i
                                                + "/diameter\": {\"distribution\": \"uniform\", \"low\": \"1 mm\", \"high\": \"2 mm\"}")
                                + "}"));
        files.put(
                "deep places",
                () -> wrap("uncertain", "{\"" + "/a".repeat(400) + "\": {}, \"" + "/".repeat(999) + "\": {}}"));
        files.put(
                "many phases",
                () -> network(
                        5_000,
                        "\"duty\": "
                                + list(
                                        50_000,
                                        i -> "{\"name\": \"d" + i
                                                + "\", \"set\": {\"/cavities/a/pressure\": \"1 MPa\"}}")));
        return files;
    }

    private static String wrap(String section, String json) {
        return "{\"purgewright\": 1, \"" + section + "\": " + json + "}";
    }

    private static String list(int size, java.util.function.IntFunction<String> item) {
        return "[" + pairs(size, item) + "]";
    }

    private static String pairs(int size, java.util.function.IntFunction<String> item) {
        return IntStream.range(0, size).mapToObj(item).collect(Collectors.joining(","));
    }

    /** A sound case of so many orifices side by side. */
    private static String network(int passages, String more) {
        return "{\"purgewright\": 1, \"streams\": {\"s\": {\"fluid\": \"helium\"}}, \"cavities\": ["
                + "{\"name\": \"a\", \"role\": \"supply\", \"stream\": \"s\", \"pressure\": \"2 MPa\", \"temperature\": \"288 K\"},"
                + "{\"name\": \"b\", \"role\": \"vent\", \"pressure\": \"1 bar\", \"temperature\": \"288 K\"}], \"passages\": "
                + list(
                        passages,
                        i -> "{\"name\": \"p" + i
                                + "\", \"from\": \"a\", \"to\": \"b\", \"type\": \"orifice\", \"diameter\": \"1 mm\"}")
                + ", " + more + "}";
    }

    /** Prints one line a file; ends with 1 on anything but a case or its typed errors. */
    public static void main(String[] arguments) {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        CaseDocument.parse(CaseReaderTest.resource("minimal.json")).toCase();
        files().forEach((name, make) -> {
            String text = make.get();
            long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            String outcome;
            try {
                CaseDocument.parse(text).toCase();
                outcome = "a case";
            } catch (CaseException wrong) {
                outcome =
                        wrong.problems().get(0).key() + ", " + wrong.problems().size() + " problems";
            }
            long time = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start;
            out.println(name + ": " + outcome + " " + time / 1_000_000 + " ms");
        });
    }
}
