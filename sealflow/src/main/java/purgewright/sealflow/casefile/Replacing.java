package purgewright.sealflow.casefile;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFileAttributeView;

/** The last step of a save: a file that was written beside another one takes its place. */
public final class Replacing {
    private Replacing() {}

    /** Gives a file the permissions of another one, where the file system has such. */
    public static void keepPermissions(Path from, Path to) throws IOException {
        PosixFileAttributeView view = Files.getFileAttributeView(from, PosixFileAttributeView.class);
        if (view != null) {
            Files.setPosixFilePermissions(to, view.readAttributes().permissions());
        }
    }

    /** Renames a file over another one, in one step where the file system can. */
    public static void move(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException unusual) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }
}
