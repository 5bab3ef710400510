package purgewright;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Each library on the class path is on the list of dependencies, with its version and a licence")
class DependenciesTest {
    private static final Pattern ROW = Pattern.compile("(?m)^\\| [\\w.-]+:([\\w.-]+) \\| ([\\w.-]+) \\| (\\S.*) \\|$");

    /** A launcher of tests and what it brings are the build's, not ours. */
    private static final Pattern BUILD = Pattern.compile(
            "(surefire|maven-surefire|common-java5|junit-platform-launcher|jacoco|pitest|idea_rt|error_prone).*");

    @Test
    void noLibraryComesInUnseen() throws IOException {
        Set<String> listed = new TreeSet<>();
        Matcher row = ROW.matcher(Files.readString(Path.of("../docs/dependencies.md")));
        while (row.find()) {
            listed.add(row.group(1) + "-" + row.group(2));
        }
        assertThat(listed).hasSizeGreaterThan(80);
        Set<String> used = new TreeSet<>();
        for (String entry : System.getProperty("java.class.path").split(File.pathSeparator)) {
            String name = Path.of(entry).getFileName().toString();
            boolean ours = entry.contains(File.separator + "target" + File.separator);
            if (name.endsWith(".jar") && !ours && !BUILD.matcher(name).matches()) {
                used.add(name.replaceAll("(-(linux|win|mac)(-aarch64)?)?\\.jar$", ""));
            }
        }
        assertThat(used).as("libraries in use").hasSizeGreaterThan(50);
        assertThat(listed).as("docs/dependencies.md").containsAll(used);
    }
}
