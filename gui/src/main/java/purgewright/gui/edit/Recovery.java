package purgewright.gui.edit;

import java.io.IOException;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;

/**
 * Keeps unsaved work so that it survives a kill: the case in one file, the name of the file it came from in another. Every window has
 * its own, and holds a lock while it lives: what is found unlocked was left behind.
 */
public final class Recovery implements AutoCloseable {
    private static final String PREFIX = "unsaved-";
    /** Between a file's name, which may hold anything but this, and its hash. */
    private static final String PART = "\0";

    private final Path folder;
    private String id = UUID.randomUUID().toString();
    private FileLock alive;
    private String origin;

    /** Unsaved work goes into this folder. */
    public Recovery(Path folder) {
        this.folder = folder;
    }

    /**
     * Unsaved work found.
     *
     * @param document as it stood
     * @param file where it had been opened from, or null
     * @param onDisk hash of the case that its window knew to be in the file; null when it knew of none
     */
    public record Unsaved(CaseDocument document, Path file, String onDisk) {}

    private Path path(String of, String ending) {
        return folder.resolve(PREFIX + of + ending);
    }

    /** Keeps a document; false where the folder cannot be written. */
    public boolean keep(CaseDocument document, Path file) {
        return keep(document, file, null);
    }

    /** Keeps a document, and what the window knows of its file, so that a change of the file in between is noticed; false as above. */
    public boolean keep(CaseDocument document, Path file, String onDiskOrNull) {
        try {
            Files.createDirectories(folder);
            if (alive == null) {
                alive = Claims.lock(path(id, ".lock"));
            }
            // Each of the two is the old or the new one, whole, whenever the program is killed: half a path would be
            // another file's.
            String from = file == null ? "" : onDiskOrNull == null ? file.toString() : file + PART + onDiskOrNull;
            if (!from.equals(origin)) {
                whole(".origin", from);
                origin = from;
            }
            whole(".json", document.toJson());
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    private void whole(String ending, String text) throws IOException {
        Path temp = path(id, ".tmp");
        Files.writeString(temp, text, StandardCharsets.UTF_8);
        try {
            Files.move(temp, path(id, ending), StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException unusual) {
            Files.move(temp, path(id, ending), StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /** Forgets what was kept: the work is saved or given up. */
    public void forget() {
        close();
        origin = null;
        remove(id);
    }

    /**
     * Leaves what was kept to the next window that is opened; what is kept from now on lies beside it.
     *
     * @return forgets what was left, once it is known to be saved after all
     */
    public Runnable leave() {
        String left = id;
        close();
        origin = null;
        id = UUID.randomUUID().toString();
        return () -> remove(left);
    }

    private void remove(String of) {
        for (String ending : List.of(".json", ".tmp", ".origin", ".lock")) {
            try {
                Files.deleteIfExists(path(of, ending));
            } catch (IOException e) {
                path(of, ending).toFile().deleteOnExit();
            }
        }
    }

    /** Work that an earlier window left behind, the latest; it belongs to this window from now on. */
    public Optional<Unsaved> find() {
        List<Path> kept;
        sweep();
        try (Stream<Path> files = Files.list(folder)) {
            kept = files.filter(f -> f.getFileName().toString().startsWith(PREFIX)
                            && f.getFileName().toString().endsWith(".json"))
                    .sorted((a, b) ->
                            Long.compare(b.toFile().lastModified(), a.toFile().lastModified()))
                    .toList();
        } catch (IOException none) {
            return Optional.empty();
        }
        for (Path each : kept) {
            String name = each.getFileName().toString();
            String of = name.substring(PREFIX.length(), name.length() - ".json".length());
            Optional<Unsaved> found = of.equals(id) ? Optional.empty() : adopt(of);
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    /** Takes away what windows left that were killed before they had kept anything. */
    private void sweep() {
        List<String> locks;
        try (Stream<Path> files = Files.list(folder)) {
            locks = files.map(f -> f.getFileName().toString())
                    .filter(n -> n.startsWith(PREFIX) && n.endsWith(".lock"))
                    .map(n -> n.substring(PREFIX.length(), n.length() - ".lock".length()))
                    .toList();
        } catch (IOException none) {
            return;
        }
        for (String of : locks) {
            if (of.equals(id) || Files.exists(path(of, ".json"))) {
                continue;
            }
            try {
                FileLock lock = Claims.lock(path(of, ".lock"));
                if (lock != null && !Files.exists(path(of, ".json"))) {
                    remove(of);
                }
                Claims.unlock(lock);
            } catch (OverlappingFileLockException | IOException lives) {
                continue;
            }
        }
    }

    private Optional<Unsaved> adopt(String of) {
        try {
            FileLock lock = Claims.lock(path(of, ".lock"));
            if (lock == null) {
                return Optional.empty(); // its window lives
            }
            CaseDocument document = CaseDocument.parse(Files.readString(path(of, ".json"), StandardCharsets.UTF_8));
            Path origin = path(of, ".origin");
            String from = Files.isReadable(origin) ? Files.readString(origin, StandardCharsets.UTF_8) : "";
            String[] parts = from.split(PART, 2);
            Path file = parts[0].isEmpty() ? null : Path.of(parts[0]);
            String onDisk = parts.length == 2 ? parts[1] : null;
            boolean mine = keep(document, file, onDisk);
            Claims.unlock(lock);
            if (mine) {
                remove(of);
            }
            return Optional.of(new Unsaved(document, file, onDisk));
        } catch (OverlappingFileLockException | IOException | CaseException | InvalidPathException e) {
            return Optional.empty();
        }
    }

    /** Lets go, as the end of the program does; what was kept stays. */
    @Override
    public void close() {
        Claims.unlock(alive);
        alive = null;
    }
}
