package purgewright.gui.edit;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystemAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** What folders of the program's own resources hold, in a jar as in a folder of classes. */
public final class Resources {
    private Resources() {}

    /** Names without their ending of the files in a folder, sorted; empty where there is no such folder. */
    public static List<String> names(String folder, String ending) {
        URL url = Resources.class.getResource(folder);
        if (url == null) {
            return List.of();
        }
        try {
            URI uri = url.toURI();
            if (!uri.getScheme().equals("jar")) {
                return names(Path.of(uri), ending);
            }
            try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
                return names(jar.getPath(folder), ending);
            } catch (FileSystemAlreadyExistsException e) {
                return names(FileSystems.getFileSystem(uri).getPath(folder), ending);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    private static List<String> names(Path folder, String ending) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> f.getFileName().toString())
                    .filter(n -> n.endsWith(ending))
                    .map(n -> n.substring(0, n.length() - ending.length()))
                    .sorted()
                    .toList();
        }
    }
}
