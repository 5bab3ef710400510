package purgewright.sealflow.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.io.StringWriter;
import java.lang.management.ManagementFactory;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A million inputs with -P long, 10,000 by default; {@code purgewright.from} shifts the seeds, so that a count is done in slices. */
@DisplayName("Tables of others: refused with a line and a reason, or read as they stand")
class TableFuzzTest {
    private static final double SHARE = Double.parseDouble(System.getProperty("purgewright.share", "0.01"));
    private static final int INPUTS = (int) Math.round(1_000_000 * SHARE);
    private static final long FROM = Long.getLong("purgewright.from", 0);

    private static final String[] TITLES = {
        "time [s]",
        "time",
        "Time [ms]",
        "speed [rpm]",
        "rotor speed [krpm]",
        "/cavities/barrier/pressure [MPa]",
        "barrier pressure (psig)",
        "barrier temperature [degC]",
        "T [K]",
        "note",
        "flow [g/s]",
        "flow [L/min]",
        "flow [kg/s",
        "upstream pressure [kPa]",
        "downstream pressure [bar]",
        "temperature [degF]",
        "flow uncertainty [%]",
        "",
        "[s]",
        "x []",
        "x [furlong]",
        "12",
        "share [1]",
        "ratio [-]",
        "\"a, b [mm]\"",
        "time [s]",
        "p [MPa at]",
        "p [m2]",
        "p [\u00b5m]",
        "\u0130 [K]"
    };
    private static final String[] CELLS = {
        "",
        " ",
        "0",
        "1",
        "-1",
        "0.5",
        "1e3",
        "-2.5E-4",
        "1e400",
        "1e-400",
        "NaN",
        "Infinity",
        "0x10",
        "1f",
        "2d",
        "1_000",
        "0,5",
        "1.000,5",
        "5 mm",
        "3 MPa",
        "text",
        "\"quoted\"",
        "\"a,b\"",
        "\"",
        "+.5",
        ".",
        "-",
        "1e",
        "\u0661",
        "\u22125",
        "=1+1",
        "#",
        "1;2",
        "999999999999999999999999",
        "12:30",
        "\u0000"
    };
    private static final String SOUND =
            "# a run\ntime [s], speed [rpm], /cavities/barrier/pressure [MPa], note\n0, 0, 0.1, start\n1.5, 3000, 0.4,\n2, 6000, 1e0, \"a, b\"\n";

    private static String grammar(SplittableRandom r) {
        StringBuilder out = new StringBuilder();
        char separator = ",,,;\t".charAt(r.nextInt(5));
        int columns = 1 + r.nextInt(5);
        if (r.nextInt(8) == 0) {
            out.append("\uFEFF");
        }
        if (r.nextInt(4) == 0) {
            out.append("# comment ").append(CELLS[r.nextInt(CELLS.length)]).append('\n');
        }
        boolean sane = r.nextInt(2) == 0;
        for (int c = 0; c < columns; c++) {
            out.append(c == 0 ? "" : String.valueOf(separator))
                    .append(sane ? "c" + c + (r.nextInt(4) == 0 ? "" : " [kPa]") : TITLES[r.nextInt(TITLES.length)]);
        }
        int rows = r.nextInt(6);
        for (int i = 0; i < rows; i++) {
            out.append(r.nextInt(6) == 0 ? "\r\n" : "\n");
            int n = r.nextInt(12) == 0 ? r.nextInt(7) : columns;
            for (int c = 0; c < n; c++) {
                out.append(c == 0 ? "" : String.valueOf(separator))
                        .append(
                                sane && r.nextInt(10) > 0
                                        ? Double.toString(1 + r.nextInt(1000) / 8.0)
                                        : CELLS[r.nextInt(CELLS.length)]);
            }
        }
        return out.toString();
    }

    /** Bytes of a sound table with some cut, doubled, or replaced by any other. */
    private static byte[] bytes(SplittableRandom r, String text) {
        byte[] b = text.getBytes(StandardCharsets.UTF_8);
        for (int i = r.nextInt(4); i >= 0 && b.length > 1; i--) {
            int at = r.nextInt(b.length);
            switch (r.nextInt(4)) {
                case 0 -> b = Arrays.copyOf(b, at);
                case 1 -> b[at] ^= (byte) (1 << r.nextInt(8));
                case 2 -> b[at] = (byte) r.nextInt(256);
                default -> {
                    byte[] longer = Arrays.copyOf(b, b.length + 1 + r.nextInt(8));
                    System.arraycopy(b, at, longer, at + longer.length - b.length, b.length - at);
                    b = longer;
                }
            }
        }
        return b;
    }

    @Test
    void noTableCrashesHangsOrIsReadOtherwiseThanItStands(@TempDir Path folder) throws IOException {
        int read = 0;
        int refused = 0;
        long slowest = 0;
        Path file = folder.resolve("t.csv");
        for (long i = FROM; i < FROM + INPUTS; i++) {
            SplittableRandom r = new SplittableRandom(i);
            byte[] input = r.nextInt(3) == 0
                    ? bytes(r, SOUND)
                    : r.nextInt(6) == 0 ? bytes(r, grammar(r)) : grammar(r).getBytes(StandardCharsets.UTF_8);
            long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            try {
                DataTable table;
                if (i % 50 == 0) {
                    table = DataTable.read(Files.write(file, input), 101325);
                } else {
                    table = DataTable.parse("t.csv", Utf8.decode(input), 101325);
                }
                read++;
                asItStands(table, new String(input, StandardCharsets.UTF_8), i);
            } catch (CharacterCodingException notUtf8) {
                refused++;
            } catch (CaseException wrong) {
                refused++;
                for (CaseProblem p : wrong.problems()) {
                    if (p.message().isBlank() || (p.line() < 1 && !"EMPTY".equals(p.key()))) {
                        fail("input " + i + ": " + p);
                    }
                }
            } catch (RuntimeException | StackOverflowError crash) {
                throw new AssertionError("input " + i + ": " + new String(input, StandardCharsets.UTF_8), crash);
            }
            slowest = Math.max(slowest, ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start);
        }
        assertThat(TimeUnit.NANOSECONDS.toMillis(slowest)).as("slowest, ms").isLessThan(1000);
        // Both ends must be reached, else this proves nothing.
        assertThat(read).isGreaterThan(INPUTS / 20);
        assertThat(refused).isGreaterThan(INPUTS / 20);
    }

    /** By other code than the reader's: every number that was read stands in the text, in its place, and only an empty cell is no number. */
    private static void asItStands(DataTable table, String text, long input) {
        if (text.indexOf('"') >= 0) {
            return;
        }
        String[] lines = text.split("\r\n|\r|\n", -1);
        String header = "";
        for (String line : lines) {
            if (header.isEmpty()
                    && !line.isBlank()
                    && !line.replace("\uFEFF", "").stripLeading().startsWith("#")) {
                header = line;
            }
        }
        String separator = header.contains("\t") ? "\t" : header.contains(";") ? ";" : ",";
        for (int row = 0; row < table.rows(); row++) {
            String line = lines[table.lines()[row] - 1];
            String[] cells = line.split(separator, -1);
            for (int c = 0; c < table.columns().size(); c++) {
                DataTable.Column column = table.columns().get(c);
                if (column.dimension() == null || table.columns().size() == 1) {
                    continue;
                }
                double x = column.values()[row];
                String cell = cells[c].strip();
                boolean empty = cell.isEmpty();
                if (empty != Double.isNaN(x)) {
                    fail("input " + input + ": \"" + cell + "\" was read as " + x);
                }
                if ("kPa".equals(column.unit())
                        && !empty
                        && Math.abs(x - 1000 * Double.parseDouble(cell)) > 1e-9 * Math.abs(x)) {
                    fail("input " + input + ": \"" + cell + "\" kPa was read as " + x + " Pa");
                }
            }
        }
    }

    @Test
    void noLeakTestCrashesOrBringsInWhatIsNoNumber(@TempDir Path folder) throws IOException {
        String[] heads = {
            "# test gas: nitrogen\n",
            "# test gas: helium\n# temperature: 20 degC\n",
            "",
            "# test gas:\n",
            "#test gas nitrogen\n"
        };
        String[] columns = {
            "upstream [MPa],downstream [MPa],flow [g/s]",
            "upstream [psig],downstream [bar],flow [kg/s],note",
            "upstream,downstream,flow",
            "flow [g/s]"
        };
        int read = 0;
        for (long i = FROM; i < FROM + INPUTS / 20; i++) {
            SplittableRandom r = new SplittableRandom(~i);
            StringWriter text = new StringWriter();
            text.append(heads[r.nextInt(heads.length)]).append(columns[r.nextInt(r.nextInt(3) == 0 ? 4 : 2)]);
            for (int row = r.nextInt(4); row >= 0; row--) {
                text.append('\n');
                for (int c = 0; c < 3; c++) {
                    text.append(c == 0 ? "" : ",")
                            .append(
                                    r.nextInt(8) > 0
                                            ? String.valueOf(r.nextInt(99) / 8.0)
                                            : CELLS[r.nextInt(CELLS.length)]);
                }
            }
            byte[] input = r.nextInt(3) == 0
                    ? bytes(r, text.toString())
                    : text.toString().getBytes(StandardCharsets.UTF_8);
            Files.write(folder.resolve("leak.csv"), input);
            try {
                LeakTable table = LeakTable.read(folder, "leak.csv");
                read++;
                if (!table.rows().matches("([-+.eE\\d]+ [^>:;]+ > [-+.eE\\d]+ [^>:;]+: [-+.eE\\d]+ [^>:;]+(; |$))+")) {
                    fail("input " + i + ": " + table.rows());
                }
            } catch (LeakTable.Refused wrong) {
                assertThat(wrong.getMessage()).isNotBlank();
            } catch (RuntimeException | StackOverflowError crash) {
                throw new AssertionError("input " + i + ": " + text, crash);
            }
        }
        assertThat(read).isGreaterThan(INPUTS / 200);
    }
}
