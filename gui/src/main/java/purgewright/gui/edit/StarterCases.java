package purgewright.gui.edit;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystemAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import purgewright.sealflow.casefile.CaseDocument;

/** The sample cases that travel in the jar. */
public final class StarterCases {
    private static final String FOLDER = "/purgewright/cases/";

    private StarterCases() {}

    /** File names without their ending, sorted. */
    public static List<String> names() {
        URL folder = StarterCases.class.getResource(FOLDER);
        if (folder == null) {
            return List.of();
        }
        try {
            URI uri = folder.toURI();
            if (!uri.getScheme().equals("jar")) {
                return names(Path.of(uri));
            }
            try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
                return names(jar.getPath(FOLDER));
            } catch (FileSystemAlreadyExistsException e) {
                return names(FileSystems.getFileSystem(uri).getPath(FOLDER));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    private static List<String> names(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> f.getFileName().toString())
                    .filter(n -> n.endsWith(".json"))
                    .map(n -> n.substring(0, n.length() - ".json".length()))
                    .sorted()
                    .toList();
        }
    }

    /** A fresh copy of a starter case. */
    public static CaseDocument open(String name) {
        try (InputStream in = StarterCases.class.getResourceAsStream(FOLDER + name + ".json")) {
            if (in == null) {
                throw new IllegalArgumentException("no starter case " + name);
            }
            return CaseDocument.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
