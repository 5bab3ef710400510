package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.StringWriter;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The example in the guide's page on Java compiles and runs as it stands")
class ApiExampleTest {
    private static final Pattern CODE = Pattern.compile("```java\\n(.*?)```", Pattern.DOTALL);
    private static final Pattern CLASS = Pattern.compile("public class (\\w+)");

    @TempDir
    Path folder;

    @Test
    void compilesAndRuns() throws IOException, ReflectiveOperationException {
        Matcher code = CODE.matcher(Files.readString(ChildJvm.root().resolve("docs/guide/java-api.md")));
        assertThat(code.find()).isTrue();
        Matcher name = CLASS.matcher(code.group(1));
        assertThat(name.find()).isTrue();
        Path source = Files.writeString(folder.resolve(name.group(1) + ".java"), code.group(1));

        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        StringWriter messages = new StringWriter();
        boolean compiled;
        try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, StandardCharsets.UTF_8)) {
            compiled = compiler.getTask(
                            messages,
                            files,
                            null,
                            List.of(
                                    "-d",
                                    folder.toString(),
                                    "-cp",
                                    System.getProperty("java.class.path"),
                                    "-proc:none"),
                            null,
                            files.getJavaFileObjects(source))
                    .call();
        }
        assertThat(compiled).as(messages.toString()).isTrue();

        ByteArrayOutputStream printed = new ByteArrayOutputStream();
        PrintStream before = System.out;
        try (URLClassLoader loader = new URLClassLoader(
                new URL[] {folder.toUri().toURL()}, getClass().getClassLoader())) {
            System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
            loader.loadClass(name.group(1)).getMethod("main", String[].class).invoke(null, (Object) new String[] {
                ChildJvm.root().resolve("samples/cases/minimal.json").toString()
            });
        } finally {
            System.setOut(before);
        }
        assertThat(printed.toString(StandardCharsets.UTF_8))
                .contains("barrier 1.5")
                .contains("caution: A screening calculation");
    }
}
