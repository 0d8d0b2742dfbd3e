package org.sideport.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestOutputStream;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import javax.sql.DataSource;
import org.sideport.media.FileDigest;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Sha256;
import tools.jackson.databind.json.JsonMapper;

/**
 * A workspace in one ZIP file: the store, voices, own rubrics and settings, and {@value #MANIFEST}, which names each with
 * size and SHA-256. Recordings, and what can be measured of them anew, are not in it.
 */
final class WorkspaceArchive {

    static final String MANIFEST = "manifest.json";
    static final String FORM = "sideport-workspace-1";

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final ZipOutputStream zip;
    private final List<Map<String, Object>> files = new ArrayList<>();

    private WorkspaceArchive(ZipOutputStream zip) {
        this.zip = zip;
    }

    /** True for the files of a workspace that an archive holds beside the store; names use forward slashes. */
    static boolean isKept(String name) {
        return name.matches("voice/[0-9a-f]{64}\\.ogg")
                || name.matches("rubrics/[^/\\\\:]{1,120}\\.json")
                || name.matches("(window|place)[A-Za-z0-9._-]{0,100}\\.properties")
                || name.equals(AuditHeadFile.NAME);
    }

    static void write(
            Workspace workspace, DataSource source, Path file, String program, Instant now, Progress progress) {
        Path target = file.toAbsolutePath().normalize();
        Path copy = target.resolveSibling(target.getFileName() + ".store");
        try {
            try {
                Files.deleteIfExists(copy);
                StoreCopy.Content content = StoreCopy.write(source, copy, progress.part(0, 0.4));
                WholeFile.write(target, out -> {
                    // not closed: the file is forced to the disk first
                    ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
                    new WorkspaceArchive(zip)
                            .addAll(workspace.dir(), copy, content, program, now, progress.part(0.4, 1));
                    zip.finish();
                });
            } finally {
                Files.deleteIfExists(copy);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the backup cannot be written: " + e.getMessage(),
                    file.toString(),
                    "check that the folder is there and may be written to, and the disk is not full",
                    e);
        }
    }

    private void addAll(Path dir, Path copy, StoreCopy.Content content, String program, Instant now, Progress progress)
            throws IOException {
        add(Workspace.STORE_FILE, copy);
        List<Path> others;
        try (Stream<Path> all = Files.walk(dir, 2)) {
            others = all.filter(Files::isRegularFile)
                    .filter(f -> isKept(name(dir, f)))
                    .filter(f -> !name(dir, f).equals(AuditHeadFile.NAME))
                    .sorted()
                    .toList();
        }
        for (int i = 0; i < others.size(); i++) {
            progress.check();
            progress.report(
                    (double) i / others.size(), "Adding " + others.get(i).getFileName());
            add(name(dir, others.get(i)), others.get(i));
        }
        // that of the copy, which may be older than the file by now
        add(AuditHeadFile.NAME, AuditHeadFile.text(content.head()).getBytes(StandardCharsets.UTF_8));
        Map<String, Object> manifest = new LinkedHashMap<>();
        manifest.put("form", FORM);
        manifest.put("program", program);
        manifest.put("made_at", now.toString());
        manifest.put("schema", content.schema());
        manifest.put("audit_count", content.head().count());
        manifest.put("audit_digest", content.head().digest());
        manifest.put("workspace", dir.toString());
        manifest.put("files", files);
        zip.putNextEntry(new ZipEntry(MANIFEST));
        zip.write(JSON.writerWithDefaultPrettyPrinter()
                .writeValueAsString(manifest)
                .getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
        progress.report(1, "");
    }

    private static String name(Path dir, Path file) {
        return dir.relativize(file).toString().replace('\\', '/');
    }

    private void add(String name, Path file) throws IOException {
        long size = Files.size(file);
        zip.putNextEntry(new ZipEntry(name));
        DigestOutputStream out = digesting();
        Files.copy(file, out);
        zip.closeEntry();
        note(name, size, out);
    }

    private void add(String name, byte[] bytes) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        DigestOutputStream out = digesting();
        out.write(bytes);
        zip.closeEntry();
        note(name, bytes.length, out);
    }

    private DigestOutputStream digesting() {
        return new DigestOutputStream(zip, Sha256.begin());
    }

    private void note(String name, long size, DigestOutputStream out) {
        Map<String, Object> file = new LinkedHashMap<>();
        file.put("name", name);
        file.put("size", size);
        file.put("sha256", Sha256.end(out.getMessageDigest()));
        files.add(file);
    }

    /** Copies at most {@code most} bytes. @throws InputException if there are more */
    static void copyBounded(InputStream in, OutputStream out, long most, String name) throws IOException {
        byte[] block = new byte[1 << 16];
        long left = most;
        for (int n = in.read(block); n >= 0; n = in.read(block)) {
            left -= n;
            if (left < 0) {
                throw new InputException(
                        "\"" + name + "\" is larger than its list says", null, "get the backup again: it is damaged");
            }
            out.write(block, 0, n);
        }
    }

    /** @throws InputException if the file is not the one that was listed */
    static void requireDigest(Path file, String sha256, String name) {
        if (!FileDigest.sha256(file, Progress.NONE).equals(sha256)) {
            throw new InputException(
                    "\"" + name + "\" is not as it was written", null, "take another backup: this one is damaged");
        }
    }
}
