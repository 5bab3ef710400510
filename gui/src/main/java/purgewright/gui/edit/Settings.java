package purgewright.gui.edit;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;

/**
 * What the window remembers between starts: theme, units, text size, recent files. Kept in the user's configuration folder; where
 * that cannot be written the window works and forgets.
 */
public final class Settings {
    private static final int RECENT = 10;

    private final Path folder;
    private final Properties values = new Properties();

    /** Settings in a folder; nothing is written before something changes. */
    public Settings(Path folder) {
        this.folder = folder;
        Path file = folder.resolve("window.properties");
        if (Files.isReadable(file)) {
            try (Reader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
                values.load(reader);
            } catch (IOException | IllegalArgumentException e) {
                values.clear();
            }
        }
    }

    /** The user's own folder: {@code PURGEWRIGHT_CONFIG}, {@code %APPDATA%}, {@code $XDG_CONFIG_HOME} or {@code ~/.config}. */
    public static Path userFolder() {
        String own = System.getenv("PURGEWRIGHT_CONFIG");
        if (own != null && !own.isEmpty()) {
            return Path.of(own);
        }
        String windows = System.getenv("APPDATA");
        if (windows != null && !windows.isEmpty()) {
            return Path.of(windows, "Purgewright");
        }
        String xdg = System.getenv("XDG_CONFIG_HOME");
        Path base =
                xdg == null || xdg.isEmpty() ? Path.of(System.getProperty("user.home", "."), ".config") : Path.of(xdg);
        return base.resolve("purgewright");
    }

    /** Folder the settings live in. */
    public Path folder() {
        return folder;
    }

    /** A remembered word. */
    public String get(String key, String fallback) {
        return values.getProperty(key, fallback);
    }

    /** A remembered whole number; the fallback where there is none within the bounds, or the file was damaged. */
    public int get(String key, int least, int most, int fallback) {
        String word = get(key, "");
        int number = word.matches("\\d{1,9}") ? Integer.parseInt(word) : fallback;
        return number >= least && number <= most ? number : fallback;
    }

    /** Remembers a word. */
    public void put(String key, String value) {
        if (!value.equals(values.getProperty(key))) {
            values.setProperty(key, value);
            store();
        }
    }

    /** Files opened or saved last, newest first. */
    public List<Path> recent() {
        List<Path> files = new ArrayList<>();
        for (int i = 0; i < RECENT; i++) {
            String file = values.getProperty("recent." + i);
            try {
                if (file != null) {
                    files.add(Path.of(file));
                }
            } catch (InvalidPathException damaged) {
                continue;
            }
        }
        return files;
    }

    /** Puts a file on top of the recent ones. */
    public void opened(Path file) {
        List<Path> files = new ArrayList<>(recent());
        files.remove(file);
        files.add(0, file);
        for (int i = 0; i < RECENT; i++) {
            if (i < files.size()) {
                values.setProperty("recent." + i, files.get(i).toString());
            } else {
                values.remove("recent." + i);
            }
        }
        store();
    }

    private void store() {
        try {
            Files.createDirectories(folder);
            Path temp = Files.createTempFile(folder, "window", ".tmp");
            try {
                try (Writer writer = Files.newBufferedWriter(temp, StandardCharsets.UTF_8)) {
                    values.store(writer, null);
                }
                Files.move(temp, folder.resolve("window.properties"), StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(temp);
            }
        } catch (IOException e) {
            // A read-only home is no reason to stop work; the settings last until the window closes.
            values.setProperty("forgotten", "true");
        }
    }
}
