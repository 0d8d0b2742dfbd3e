package org.sideport.media;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.Progress;
import org.sideport.model.Sha256;

/** SHA-256 (FIPS 180-4) of whole files. */
public final class FileDigest {

    private static final int BLOCK = 1 << 20;

    private FileDigest() {}

    /**
     * @return 64 lower-case hex digits
     * @throws MediaException if the file cannot be read to its end
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static String sha256(Path file, Progress progress) {
        try (InputStream in = Files.newInputStream(file)) {
            MessageDigest digest = Sha256.begin();
            long size = Math.max(1, Files.size(file));
            long done = 0;
            byte[] block = new byte[BLOCK];
            for (int n = in.read(block); n >= 0; n = in.read(block)) {
                progress.check();
                digest.update(block, 0, n);
                done += n;
                progress.report(Math.min(1.0, (double) done / size), "Checking " + file.getFileName());
            }
            return Sha256.end(digest);
        } catch (IOException e) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    "cannot be read to its end: " + e.getMessage(),
                    file.toString(),
                    "check the drive, then copy the file again");
        }
    }
}
