package org.sideport.media.export;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.sideport.model.Progress;

/** Looks for texts among the bytes of a file. */
final class ByteSearch {

    private static final int BLOCK = 1 << 20;

    private ByteSearch() {}

    /** Which of the texts are in the file, as UTF-8, in the order given. */
    static List<String> present(Path file, List<String> texts, Progress progress) throws IOException {
        Set<String> found = new LinkedHashSet<>();
        List<byte[]> needles =
                texts.stream().map(t -> t.getBytes(StandardCharsets.UTF_8)).toList();
        int overlap = needles.stream().mapToInt(n -> n.length).max().orElse(1) - 1;
        long size = Math.max(1, Files.size(file));
        long done = 0;
        try (InputStream in = Files.newInputStream(file)) {
            byte[] window = new byte[BLOCK + overlap];
            int kept = 0;
            for (int n = in.readNBytes(window, 0, BLOCK); n > 0; n = in.readNBytes(window, kept, BLOCK)) {
                progress.check();
                int length = kept + n;
                for (int i = 0; i < needles.size(); i++) {
                    if (!found.contains(texts.get(i)) && contains(window, length, needles.get(i))) {
                        found.add(texts.get(i));
                    }
                }
                kept = Math.min(overlap, length);
                System.arraycopy(window, length - kept, window, 0, kept);
                done += n;
                progress.report(Math.min(0.999, done / (double) size), "Looking for traces");
            }
        }
        return new ArrayList<>(texts.stream().filter(found::contains).toList());
    }

    private static boolean contains(byte[] bytes, int length, byte[] needle) {
        if (needle.length == 0) {
            return false;
        }
        outer:
        for (int i = 0; i + needle.length <= length; i++) {
            if (bytes[i] != needle[0]) {
                continue;
            }
            for (int k = 1; k < needle.length; k++) {
                if (bytes[i + k] != needle[k]) {
                    continue outer;
                }
            }
            return true;
        }
        return false;
    }
}
