package org.sideport.report.bundle;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Sha256;
import org.sideport.report.AtomicFile;

/** Writes bundles: whole or not at all, the manifest last. */
public final class BundleWriter {

    private static final int BLOCK = 1 << 16;

    private final Progress progress;
    private final long whole;
    private final List<Manifest.Entry> entries = new ArrayList<>();
    private long done;

    private BundleWriter(Progress progress, long whole) {
        this.progress = progress;
        this.whole = Math.max(1, whole);
    }

    /**
     * @param passphrase {@code null} for a bundle that anyone can read
     * @return SHA-256 of the file written
     * @throws InputException if the file cannot be written, or a recording is not what was taken in; a file that was there
     *     stays as it was
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; likewise
     */
    public static String write(CaseBundle bundle, char @Nullable [] passphrase, Path out, Progress progress) {
        String[] digest = new String[1];
        AtomicFile.write(out, target -> {
            DigestOutputStream counted = new DigestOutputStream(target, Sha256.begin());
            BundleWriter writer = new BundleWriter(progress, size(bundle));
            if (passphrase == null) {
                writer.zip(bundle, counted);
            } else {
                try (OutputStream encrypted = Passphrase.encrypting(counted, passphrase)) {
                    writer.zip(bundle, encrypted);
                }
            }
            digest[0] = Sha256.end(counted.getMessageDigest());
        });
        return digest[0];
    }

    private static long size(CaseBundle bundle) throws IOException {
        long size = 0;
        for (Path file : bundle.media()) {
            size += Files.size(file);
        }
        for (Path file : bundle.voices().values()) {
            size += Files.size(file);
        }
        return size;
    }

    private void zip(CaseBundle bundle, OutputStream out) throws IOException {
        // finished, not closed: the stream below is not ours
        ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
        CaseContent content = bundle.content();
        text(zip, CaseBundle.CONTENT, BundleJson.write(content));
        for (Map.Entry<String, String> rubric : new TreeMap<>(bundle.rubrics()).entrySet()) {
            text(
                    zip,
                    CaseBundle.RUBRICS + rubric.getKey() + ".json",
                    rubric.getValue().getBytes(StandardCharsets.UTF_8));
        }
        for (Map.Entry<String, Path> voice : new TreeMap<>(bundle.voices()).entrySet()) {
            file(zip, CaseBundle.VOICE + voice.getKey() + ".ogg", voice.getValue(), voice.getKey());
        }
        for (int i = 0; i < bundle.media().size(); i++) {
            file(
                    zip,
                    CaseBundle.mediaName(content, i),
                    bundle.media().get(i),
                    content.files().get(i).sha256());
        }
        Manifest manifest = new Manifest(
                Manifest.FORMAT,
                Manifest.VERSION,
                bundle.program(),
                bundle.madeAt(),
                content.sheet().code(),
                content.sheet().procedure(),
                entries);
        text(zip, Manifest.NAME, BundleJson.write(manifest));
        zip.finish();
    }

    private void text(ZipOutputStream zip, String name, byte[] bytes) throws IOException {
        zip.setLevel(Deflater.DEFAULT_COMPRESSION);
        entry(zip, name, new ByteArrayInputStream(bytes));
    }

    /** Sounds and pictures are packed already. */
    private void file(ZipOutputStream zip, String name, Path file, String sha256) throws IOException {
        zip.setLevel(Deflater.NO_COMPRESSION);
        try (InputStream in = Files.newInputStream(file)) {
            if (!entry(zip, name, in).equals(sha256)) {
                throw new InputException(
                        "the file is not the one that was taken in",
                        file.toString(),
                        "put the right one back; nothing was written");
            }
        }
    }

    private String entry(ZipOutputStream zip, String name, InputStream in) throws IOException {
        MessageDigest digest = Sha256.begin();
        zip.putNextEntry(new ZipEntry(name));
        byte[] block = new byte[BLOCK];
        long size = 0;
        for (int n = in.read(block); n >= 0; n = in.read(block)) {
            progress.check();
            digest.update(block, 0, n);
            zip.write(block, 0, n);
            size += n;
            done += n;
            progress.report(Math.min(1.0, (double) done / whole), name);
        }
        zip.closeEntry();
        String hex = Sha256.end(digest);
        entries.add(new Manifest.Entry(name, size, hex));
        return hex;
    }
}
