package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.sideport.model.AuditHead;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.slf4j.LoggerFactory;

/**
 * The folder "backups" of a workspace: whole copies of the store, each with a text file that says what it holds. Those made
 * from day to day are thinned out; of those made before a migration the newest few stay.
 */
final class Backups {

    /** Its name in the folder of the workspace. */
    static final String FOLDER = "backups";

    private static final String SAID = ".txt";
    private static final int KEPT_OF_MIGRATIONS = 3;
    private static final DateTimeFormatter STAMP = DateTimeFormatter.ofPattern(
                    "uuuuMMdd'T'HHmmssSSS'Z'", java.util.Locale.ROOT)
            .withZone(ZoneOffset.UTC);
    private static final Pattern NAME = Pattern.compile("sideport-(\\d{8}T\\d{9}Z)(-before-update-from-[0-9.]+)?\\.db");

    private final Path folder;

    Backups(Path workspace) {
        this.folder = workspace.resolve(FOLDER);
    }

    /** All of a workspace, newest first; none if the folder cannot be read. */
    static List<StoreBackup> list(Path workspace) {
        List<StoreBackup> found = new ArrayList<>();
        Path folder = workspace.resolve(FOLDER);
        if (!Files.isDirectory(folder)) {
            return found;
        }
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Matcher name = NAME.matcher(String.valueOf(file.getFileName()));
                if (name.matches()) {
                    found.add(new StoreBackup(
                            file, STAMP.parse(name.group(1), Instant::from), Files.size(file), name.group(2) == null));
                }
            }
        } catch (IOException | DateTimeParseException e) {
            LoggerFactory.getLogger(Backups.class).warn("backups not listed: {}", e.toString());
        }
        found.sort(Comparator.comparing(StoreBackup::at).reversed());
        return found;
    }

    List<StoreBackup> list() {
        Path workspace = folder.getParent();
        return workspace == null ? List.of() : list(workspace);
    }

    /**
     * True if the newest backup is older than {@code age}, or says that it is of the future, as after the clock was put
     * back.
     *
     * @param madeAt when the workspace was made: a new one needs none yet
     */
    boolean isDue(Instant now, Duration age, Instant madeAt) {
        Instant newest = list().stream()
                .filter(StoreBackup::daily)
                .map(StoreBackup::at)
                .findFirst()
                .orElse(madeAt);
        return Duration.between(newest, now).abs().compareTo(age) > 0;
    }

    /** Makes a backup and takes away those that are no longer to be kept. */
    StoreBackup make(DataSource source, Instant now, Progress progress) {
        StoreBackup made = write(source, now, "", progress);
        rotate();
        return made;
    }

    /** @return the copy */
    Path beforeMigration(DataSource source, String from, Instant now) {
        StoreBackup made = write(source, now, "-before-update-from-" + from, Progress.NONE);
        List<StoreBackup> before = list().stream().filter(b -> !b.daily()).toList();
        before.stream().skip(KEPT_OF_MIGRATIONS).forEach(Backups::forget);
        return made.file();
    }

    private StoreBackup write(DataSource source, Instant at, String why, Progress progress) {
        try {
            Files.createDirectories(folder);
            sweep();
            Instant when = at;
            while (Files.exists(file(when, why))) {
                when = when.plusMillis(1);
            }
            Path file = file(when, why);
            StoreCopy.Content content = StoreCopy.write(source, file, progress);
            WholeFile.write(said(file), "sha256 " + content.sha256() + "\n" + AuditHeadFile.text(content.head()));
            return new StoreBackup(file, when, content.size(), why.isEmpty());
        } catch (IOException e) {
            throw new InputException(
                    "the backup cannot be written: " + e.getMessage(),
                    folder.toString(),
                    "check that the folder may be written to and the disk is not full",
                    e);
        }
    }

    private Path file(Instant at, String why) {
        return folder.resolve("sideport-" + STAMP.format(at) + why + ".db");
    }

    private static Path said(Path file) {
        return file.resolveSibling(file.getFileName() + SAID);
    }

    /** What a program that was killed left behind. */
    private void sweep() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.toList()) {
                String name = String.valueOf(file.getFileName());
                boolean alone = name.endsWith(SAID)
                        && !Files.exists(folder.resolve(name.substring(0, name.length() - SAID.length())));
                if (alone || name.endsWith(WholeFile.UNFINISHED) || name.endsWith(WholeFile.UNFINISHED + "-journal")) {
                    Files.deleteIfExists(file);
                }
            }
        }
    }

    private void rotate() {
        List<StoreBackup> daily = list().stream().filter(StoreBackup::daily).toList();
        Set<Instant> kept =
                BackupRotation.USUAL.keep(daily.stream().map(StoreBackup::at).collect(Collectors.toList()));
        daily.stream().filter(b -> !kept.contains(b.at())).forEach(Backups::forget);
    }

    private static void forget(StoreBackup backup) {
        try {
            Files.deleteIfExists(backup.file());
            Files.deleteIfExists(said(backup.file()));
        } catch (IOException e) {
            LoggerFactory.getLogger(Backups.class).info("old backup not deleted: {}", e.toString());
        }
    }

    /** What was written down of a backup when it was made; empty if that is not there any more. */
    static Optional<Said> said(StoreBackup backup) {
        try {
            List<String> lines = Files.readAllLines(said(backup.file()));
            if (lines.size() < 2 || !lines.get(0).startsWith("sha256 ")) {
                return Optional.empty();
            }
            String sha256 = lines.get(0).substring("sha256 ".length());
            return AuditHeadFile.parse(lines.get(1)).map(head -> new Said(sha256, head));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** The digest of the file, and where its audit trail ends. */
    record Said(String sha256, AuditHead head) {}
}
