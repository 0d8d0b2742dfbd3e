package org.sideport.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Enumeration;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.sideport.model.AuditHead;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sqlite.SQLiteConfig;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Makes a workspace out of a backup: a file of {@link WorkspaceArchive}, or a copy of the store out of a folder "backups",
 * whose voices, rubrics and settings are then those beside it. All is made in a folder beside the wanted one and takes its
 * name when it is whole.
 */
public final class RestoreArchive {

    private static final int LONGEST_MANIFEST = 16 << 20;
    private static final JsonMapper JSON = JsonMapper.builder().build();

    private RestoreArchive() {}

    /**
     * @param dir new or empty
     * @return where the audit trail ended when the backup was made
     * @throws InputException if the folder holds something, or the backup is not whole; nothing is left of it then
     */
    public static AuditHead restore(Path backup, Path dir, Progress progress) {
        Path target = dir.toAbsolutePath().normalize();
        requireEmpty(target);
        Path parent = target.getParent();
        if (parent == null) {
            throw new InputException("this is no folder to restore into", dir.toString(), "name a new folder");
        }
        Path made = parent.resolve("." + target.getFileName() + "." + UUID.randomUUID() + WholeFile.UNFINISHED);
        try {
            Files.createDirectories(made);
            try {
                Path from = isZip(backup) ? unpack(backup, made, progress) : copyStore(backup, made, progress);
                progress.report(-1, "Checking the store");
                StoreCopy.Content content = StoreCopy.look(made.resolve(Workspace.STORE_FILE), progress);
                WholeFile.write(made.resolve(AuditHeadFile.NAME), AuditHeadFile.text(content.head()));
                relocate(made.resolve(Workspace.STORE_FILE), from, target);
                progress.check();
                Files.deleteIfExists(target);
                Files.move(made, target, StandardCopyOption.ATOMIC_MOVE);
                return content.head();
            } finally {
                delete(made);
            }
        } catch (DirectoryNotEmptyException e) {
            throw notEmpty(target);
        } catch (ZipException e) {
            throw new InputException(
                    "this backup is damaged: " + e.getMessage(), backup.toString(), "take another one", e);
        } catch (IOException e) {
            throw new InputException(
                    "the backup cannot be restored: " + e.getMessage(),
                    backup.toString(),
                    "check that it can be read, that the folder may be written to and the disk is not full",
                    e);
        } catch (SQLException e) {
            throw StoreFaults.explain(e, backup, "the backup cannot be restored");
        }
    }

    private static void requireEmpty(Path target) {
        if (Files.isRegularFile(target)) {
            throw new InputException("a file is in the way", target.toString(), "name a new folder");
        }
        if (Files.isDirectory(target)) {
            try (Stream<Path> entries = Files.list(target)) {
                if (entries.findAny().isPresent()) {
                    throw notEmpty(target);
                }
            } catch (IOException e) {
                throw new InputException("the folder cannot be read", target.toString(), "name a new folder", e);
            }
        }
    }

    private static InputException notEmpty(Path target) {
        return new InputException(
                "there is something in this folder already", target.toString(), "restore into a new or empty folder");
    }

    private static boolean isZip(Path backup) throws IOException {
        if (!Files.isRegularFile(backup)) {
            throw new InputException("there is no such file", backup.toString(), "check the path");
        }
        try (InputStream in = Files.newInputStream(backup)) {
            byte[] head = in.readNBytes(2);
            return head.length == 2 && head[0] == 'P' && head[1] == 'K';
        }
    }

    /** @return the folder that the workspace was in */
    private static Path copyStore(Path backup, Path made, Progress progress) throws IOException {
        progress.report(-1, "Copying the store");
        Files.copy(backup, made.resolve(Workspace.STORE_FILE));
        Path folder = backup.toAbsolutePath().normalize().getParent();
        Path workspace = folder == null ? null : folder.getParent();
        if (folder == null
                || workspace == null
                || !String.valueOf(folder.getFileName()).equals(Backups.FOLDER)) {
            return folder == null ? made : folder;
        }
        try (Stream<Path> all = Files.walk(workspace, 2)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                String name = workspace.relativize(file).toString().replace('\\', '/');
                if (WorkspaceArchive.isKept(name)) {
                    progress.check();
                    Path copy = made.resolve(name);
                    Files.createDirectories(copy.getParent());
                    Files.copy(file, copy);
                }
            }
        }
        return workspace;
    }

    /** A file as the manifest lists it. */
    private record Listed(long size, String sha256) {}

    /** @return the folder that the workspace was in */
    private static Path unpack(Path backup, Path made, Progress progress) throws IOException {
        try (ZipFile zip = new ZipFile(backup.toFile(), StandardCharsets.UTF_8)) {
            JsonNode manifest = manifest(zip, backup);
            Map<String, Listed> listed = listed(manifest, backup);
            requireNothingElse(zip, listed.keySet(), backup);
            requireRoom(made, listed, backup);
            int done = 0;
            for (Map.Entry<String, Listed> one : listed.entrySet()) {
                progress.check();
                progress.report((double) done++ / listed.size(), "Restoring " + one.getKey());
                ZipEntry entry = zip.getEntry(one.getKey());
                if (entry == null) {
                    throw damaged(backup, "\"" + one.getKey() + "\" is missing");
                }
                Path file = made.resolve(one.getKey());
                Files.createDirectories(file.getParent());
                try (InputStream in = zip.getInputStream(entry);
                        OutputStream out = Files.newOutputStream(file)) {
                    WorkspaceArchive.copyBounded(in, out, one.getValue().size(), one.getKey());
                }
                WorkspaceArchive.requireDigest(file, one.getValue().sha256(), one.getKey());
            }
            String from = manifest.path("workspace").asString("");
            return from.isEmpty() ? made : Path.of(from);
        }
    }

    private static JsonNode manifest(ZipFile zip, Path backup) throws IOException {
        ZipEntry entry = zip.getEntry(WorkspaceArchive.MANIFEST);
        if (entry == null) {
            throw new InputException(
                    "this is no backup of a workspace", backup.toString(), "choose a file that \"backup\" wrote");
        }
        try (InputStream in = zip.getInputStream(entry)) {
            JsonNode manifest = JSON.readTree(in.readNBytes(LONGEST_MANIFEST));
            String form = manifest.path("form").asString("");
            if (!form.equals(WorkspaceArchive.FORM)) {
                throw new InputException(
                        "this backup is in a form that this program does not know: \"" + form + "\"",
                        backup.toString(),
                        "restore it with the Sideport that wrote it, or a newer one");
            }
            return manifest;
        } catch (JacksonException e) {
            throw damaged(backup, "its list cannot be read");
        }
    }

    private static Map<String, Listed> listed(JsonNode manifest, Path backup) {
        Map<String, Listed> listed = new LinkedHashMap<>();
        for (JsonNode file : manifest.path("files")) {
            String name = file.path("name").asString("");
            if (!name.equals(Workspace.STORE_FILE) && !WorkspaceArchive.isKept(name)) {
                throw damaged(backup, "it lists \"" + name + "\", which is no file of a workspace");
            }
            listed.put(
                    name,
                    new Listed(file.path("size").asLong(0), file.path("sha256").asString("")));
        }
        if (!listed.containsKey(Workspace.STORE_FILE)) {
            throw damaged(backup, "there is no store in it");
        }
        return listed;
    }

    private static void requireNothingElse(ZipFile zip, Set<String> listed, Path backup) {
        Set<String> allowed = new HashSet<>(listed);
        allowed.add(WorkspaceArchive.MANIFEST);
        Enumeration<? extends ZipEntry> entries = zip.entries();
        while (entries.hasMoreElements()) {
            String name = entries.nextElement().getName();
            if (!allowed.contains(name)) {
                throw damaged(backup, "it holds \"" + name + "\", which its list does not name");
            }
        }
    }

    private static void requireRoom(Path made, Map<String, Listed> listed, Path backup) throws IOException {
        long needed = listed.values().stream().mapToLong(Listed::size).sum();
        if (needed > Files.getFileStore(made).getUsableSpace()) {
            throw new InputException(
                    "there is no room for what is in this backup", backup.toString(), "free some space and try again");
        }
    }

    private static InputException damaged(Path backup, String what) {
        return new InputException(
                "this backup cannot be used: " + what, backup.toString(), "take another one: this one is damaged");
    }

    /**
     * Paths of recordings are kept relative to the workspace: those that are where they were, seen from the old folder, are
     * written as seen from the new one.
     */
    private static void relocate(Path store, Path from, Path target) throws SQLException {
        Map<Long, String> moved = new LinkedHashMap<>();
        try (Connection connection =
                SqliteStore.source(store, SQLiteConfig.JournalMode.DELETE).getConnection()) {
            try (var statement = connection.createStatement();
                    var rows = statement.executeQuery("select id, path from segment")) {
                while (rows.next()) {
                    String path = rows.getString("path");
                    Path file = from.resolve(path).normalize();
                    if (!Path.of(path).isAbsolute()
                            && Files.isRegularFile(file)
                            && !Files.isRegularFile(target.resolve(path).normalize())) {
                        moved.put(rows.getLong("id"), SegmentRows.toStored(target, file));
                    }
                }
            }
            connection.setAutoCommit(false);
            try (PreparedStatement update = connection.prepareStatement("update segment set path = ? where id = ?")) {
                for (Map.Entry<Long, String> one : moved.entrySet()) {
                    update.setString(1, one.getValue());
                    update.setLong(2, one.getKey());
                    update.executeUpdate();
                }
            }
            connection.commit();
        }
    }

    private static void delete(Path folder) throws IOException {
        if (!Files.exists(folder)) {
            return;
        }
        List<Path> all;
        try (Stream<Path> files = Files.walk(folder)) {
            all = files.sorted(java.util.Comparator.reverseOrder()).toList();
        }
        for (Path file : all) {
            Files.delete(file);
        }
    }
}
