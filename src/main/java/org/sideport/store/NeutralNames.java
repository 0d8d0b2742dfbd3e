package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.model.Segment;

/**
 * Links under which an assessor from whom file names are hidden finds a recording: {@code blind/LABEL/0.mp4} and so on in the
 * workspace's folder, the same names that a shared database shows. They are made when a case is given and when its files are
 * found elsewhere; reading only says how they are called.
 */
final class NeutralNames {

    private static final String FOLDER = "blind";

    private NeutralNames() {}

    /** @param number of the segment, from 0 */
    static Path of(Path file, Path dir, String label, int number) {
        String name = file.getFileName().toString();
        int dot = name.lastIndexOf('.');
        boolean ends = dot > 0 && name.length() - dot <= 6;
        return dir.resolve(FOLDER).resolve(label).resolve(number + (ends ? name.substring(dot) : ""));
    }

    /** True for a file under a neutral name: such a place is never written down. */
    static boolean isNeutral(Path file, Path dir) {
        return file.startsWith(dir.resolve(FOLDER));
    }

    /** For all assignments of a case that hide the names of its files. */
    static void make(Handle handle, Path dir, long caseId) {
        List<Segment> files = new SegmentRows(handle, dir).load(caseId).getOrDefault(caseId, List.of());
        for (Assignment one : AssignmentRows.ofCase(handle, caseId)) {
            if (one.hides(Hidden.FILE_NAMES) && one.state() != Assignment.State.WITHDRAWN) {
                for (int i = 0; i < files.size(); i++) {
                    Path file = files.get(i).file();
                    // a login of a shared database that may not know the place has the neutral name for it
                    if (!isNeutral(file, dir)) {
                        link(of(file, dir, one.label(), i), file, one.label());
                    }
                }
            }
        }
    }

    /**
     * Symbolic, or hard where the system allows no other. Where neither can be made the name leads nowhere, which is said when
     * the recording is opened.
     */
    private static void link(Path link, Path file, String label) {
        try {
            if (Files.isSymbolicLink(link) && Files.readSymbolicLink(link).equals(file)) {
                return;
            }
            if (Files.exists(link) && Files.exists(file) && Files.isSameFile(link, file)) {
                return;
            }
            Files.createDirectories(link.getParent());
            Files.deleteIfExists(link);
            try {
                Files.createSymbolicLink(link, file);
            } catch (IOException | UnsupportedOperationException noSymbolicLinks) {
                Files.createLink(link, file);
            }
        } catch (IOException | UnsupportedOperationException e) {
            org.slf4j.LoggerFactory.getLogger(NeutralNames.class).warn("no neutral name for a file of {}", label);
        }
    }
}
