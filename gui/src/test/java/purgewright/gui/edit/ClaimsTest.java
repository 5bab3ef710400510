package purgewright.gui.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ClaimsTest {
    @TempDir
    Path folder;

    @Test
    void aFileIsTheSameUnderEveryNameAndBeforeItIsThere() throws Exception {
        Path real = Files.createDirectory(folder.resolve("real"));
        Path link = Files.createSymbolicLink(folder.resolve("link"), real);
        try (Claims one = new Claims(folder.resolve("settings"));
                Claims other = new Claims(folder.resolve("settings"))) {
            assertThat(one.take(link.resolve("new.json"))).isPresent();
            Path file = Files.writeString(real.resolve("new.json"), "{}");
            assertThat(other.take(file)).isEmpty();
            assertThat(other.take(link.resolve("new.json"))).isEmpty();
            assertThat(other.take(real.resolve("another.json"))).isPresent();
        }
    }

    @Test
    void aFileIsLetGoWithTheLastClaim() {
        Path file = folder.resolve("a.json");
        try (Claims one = new Claims(folder.resolve("settings"));
                Claims other = new Claims(folder.resolve("settings"))) {
            Claims.Claim first = one.take(file).orElseThrow();
            Claims.Claim second = one.take(file).orElseThrow();
            first.close();
            first.close();
            assertThat(other.take(file)).isEmpty();
            second.close();
            assertThat(other.take(file)).isPresent();
        }
    }
}
