package org.sideport.workflow.exchange;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipArchiveOutputStream;
import tools.jackson.databind.json.JsonMapper;

/** Bundles that somebody meddled with. */
final class Zips {

    private Zips() {}

    static Map<String, byte[]> read(Path zip) throws IOException {
        Map<String, byte[]> entries = new LinkedHashMap<>();
        try (ZipFile file = new ZipFile(zip.toFile())) {
            for (ZipEntry entry : java.util.Collections.list(file.entries())) {
                entries.put(entry.getName(), file.getInputStream(entry).readAllBytes());
            }
        }
        return entries;
    }

    /** The same bundle with other contents, its manifest made to fit: as by one who knows how bundles are made. */
    static Path rewritten(Path bundle, Path out, BiFunction<String, byte[], byte[]> change) throws Exception {
        Map<String, byte[]> entries = read(bundle);
        entries.replaceAll(change);
        refresh(entries);
        return write(entries, out);
    }

    static void refresh(Map<String, byte[]> entries) throws Exception {
        JsonMapper mapper = JsonMapper.builder().build();
        @SuppressWarnings("unchecked")
        Map<String, Object> manifest = mapper.readValue(entries.get("manifest.json"), Map.class);
        List<Map<String, Object>> list = new ArrayList<>();
        for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
            if (!entry.getKey().equals("manifest.json")) {
                list.add(Map.of(
                        "name", entry.getKey(), "size", entry.getValue().length, "sha256", sha(entry.getValue())));
            }
        }
        manifest.put("entries", list);
        entries.put("manifest.json", mapper.writeValueAsBytes(manifest));
    }

    static String sha(byte[] bytes) throws Exception {
        return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    }

    static Path write(Map<String, byte[]> entries, Path out) throws IOException {
        try (OutputStream stream = Files.newOutputStream(out);
                ZipOutputStream zip = new ZipOutputStream(stream, StandardCharsets.UTF_8)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                zip.putNextEntry(new ZipEntry(entry.getKey()));
                zip.write(entry.getValue());
                zip.closeEntry();
            }
        }
        return out;
    }

    /** With one entry more, which other programs would not write. */
    static Path with(Map<String, byte[]> entries, ZipArchiveEntry extra, byte[] content, Path out) throws IOException {
        try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(out)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                zip.putArchiveEntry(new ZipArchiveEntry(entry.getKey()));
                zip.write(entry.getValue());
                zip.closeArchiveEntry();
            }
            zip.putArchiveEntry(extra);
            zip.write(content);
            zip.closeArchiveEntry();
        }
        return out;
    }
}
