package org.sideport.report.bundle;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Sha256;
import tools.jackson.databind.JsonNode;

/**
 * An open bundle. Nothing of it is believed: names go by a list of forms, sizes are bounded and counted while reading, every
 * byte is held against the digests of the manifest before it is used.
 */
public final class BundleReader implements AutoCloseable {

    private static final int MOST_ENTRIES = 5_001;
    private static final int LARGEST_MANIFEST = 2 << 20;
    private static final long LARGEST_VOICE = 64L << 20;
    private static final long LARGEST_RUBRIC = 1L << 20;

    /** Of all that is read into the memory. */
    private static final long LARGEST_TEXTS = 32L << 20;

    /** Above this size an entry that was packed to less than a hundredth is no text of ours, nor a recording. */
    private static final long SMALL = 1 << 20;

    private static final int MOST_RATIO = 100;

    /** Room that stays free on the disk. */
    private static final long MARGIN = 64L << 20;

    private static final int BLOCK = 1 << 16;

    private final Path file;
    private final ZipFile zip;
    private final @Nullable Path decrypted;
    private final Map<String, ZipArchiveEntry> entries;
    private final Manifest manifest;
    private final CaseContent content;
    private final Map<String, String> rubrics;

    private BundleReader(Path file, ZipFile zip, @Nullable Path decrypted, Path scratch) throws IOException {
        this.file = file;
        this.zip = zip;
        this.decrypted = decrypted;
        entries = checkedEntries();
        manifest = readManifest();
        checkAgainstManifest(Files.getFileStore(scratch).getUsableSpace() - MARGIN);
        content =
                BundleJson.ofContent().read(BundleJson.ofContent().parse(bytes(CaseBundle.CONTENT)), CaseContent.class);
        rubrics = readRubrics();
        checkContent();
    }

    /** True if a passphrase is needed. */
    public static boolean isEncrypted(Path file) {
        try {
            return Passphrase.isEncrypted(file);
        } catch (IOException e) {
            throw unreadable(file, e);
        }
    }

    /**
     * @param passphrase {@code null} if there is none
     * @param scratch a folder on the disk that the files will go to
     * @throws InputException if it is no bundle, damaged, hostile, of a newer form, or the passphrase is wrong or missing
     */
    public static BundleReader open(Path file, char @Nullable [] passphrase, Path scratch, Progress progress) {
        Path decrypted = null;
        boolean opened = false;
        try {
            Path plain = file;
            if (Passphrase.isEncrypted(file)) {
                if (passphrase == null || passphrase.length == 0) {
                    throw new InputException(
                            "the bundle is encrypted", file.toString(), "give the passphrase that it was made with");
                }
                decrypted = Files.createTempFile(scratch, ".bundle-", ".zip");
                plain = decrypted;
                long room = Files.getFileStore(scratch).getUsableSpace() - MARGIN;
                Passphrase.decrypt(file, passphrase, decrypted, room, progress);
            }
            ZipFile zip = ZipFile.builder()
                    .setPath(plain)
                    .setIgnoreLocalFileHeader(true)
                    .get();
            try {
                BundleReader reader = new BundleReader(file, zip, decrypted, scratch);
                opened = true;
                return reader;
            } finally {
                if (!opened) {
                    zip.close();
                }
            }
        } catch (IOException | IllegalArgumentException e) {
            throw unreadable(file, e);
        } finally {
            if (!opened) {
                forget(decrypted);
            }
        }
    }

    private static InputException unreadable(Path file, Exception e) {
        return e instanceof NoSuchFileException
                ? new InputException("there is no such file", file.toString(), "check the path", e)
                : new InputException(
                        "cannot be read as a case bundle: " + e.getMessage(),
                        file.toString(),
                        "if it was cut short on the way, ask for it again",
                        e);
    }

    private Map<String, ZipArchiveEntry> checkedEntries() {
        Map<String, ZipArchiveEntry> found = new LinkedHashMap<>();
        for (ZipArchiveEntry entry : Collections.list(zip.getEntries())) {
            String name = entry.getName();
            if (found.size() >= MOST_ENTRIES) {
                throw hostile("it has more than " + MOST_ENTRIES + " entries");
            }
            // the library turns backslashes round, so what the file really says is looked at too
            String raw = new String(entry.getRawName(), StandardCharsets.UTF_8) + name;
            if (raw.contains("..") || name.startsWith("/") || raw.contains("\\") || raw.contains(":")) {
                throw hostile("\"" + printable(name) + "\" would lead out of its folder");
            }
            if (entry.isUnixSymlink()) {
                throw hostile("\"" + printable(name) + "\" is a link");
            }
            if (entry.isDirectory()) {
                throw hostile("\"" + printable(name) + "\" is a folder");
            }
            if (found.put(name, entry) != null) {
                throw hostile("\"" + printable(name) + "\" is there twice");
            }
            boolean plain =
                    entry.getMethod() == ZipArchiveEntry.STORED || entry.getMethod() == ZipArchiveEntry.DEFLATED;
            if (!plain || entry.getGeneralPurposeBit().usesEncryption()) {
                throw hostile("\"" + printable(name) + "\" is packed in another way than bundles are");
            }
            if (entry.getSize() > SMALL && entry.getSize() / Math.max(1, entry.getCompressedSize()) > MOST_RATIO) {
                throw hostile("\"" + printable(name) + "\" is packed to less than a hundredth");
            }
        }
        return found;
    }

    private Manifest readManifest() throws IOException {
        ZipArchiveEntry entry = entries.get(Manifest.NAME);
        if (entry == null) {
            throw new InputException(
                    "this is no case bundle: there is no " + Manifest.NAME + " in it",
                    file.toString(),
                    "choose a file that was made by exporting a case");
        }
        BundleJson json = BundleJson.ofManifest();
        JsonNode root = json.parse(read(entry, LARGEST_MANIFEST));
        // a later form may look otherwise: say so rather than what does not fit
        if (Manifest.FORMAT.equals(root.path("format").asString(""))
                && root.path("version").asInt(0) > Manifest.VERSION) {
            throw new InputException(
                    "the bundle is of form " + root.path("version").asInt() + ", and this program knows form "
                            + Manifest.VERSION,
                    file.toString(),
                    "use a newer version of the program, or have the case exported by an older one");
        }
        return json.read(root, Manifest.class);
    }

    private void checkAgainstManifest(long room) {
        Set<String> named = new HashSet<>();
        long whole = 0;
        long texts = 0;
        for (Manifest.Entry wanted : manifest.entries()) {
            if (!named.add(wanted.name())) {
                throw hostile("its manifest names \"" + wanted.name() + "\" twice");
            }
            ZipArchiveEntry entry = entries.get(wanted.name());
            if (entry == null) {
                throw damaged("\"" + wanted.name() + "\" is missing");
            }
            if (entry.getSize() != wanted.size()) {
                throw damaged("\"" + wanted.name() + "\" has " + entry.getSize() + " bytes, not " + wanted.size());
            }
            if (wanted.size() > mostOf(wanted.name())) {
                throw hostile("\"" + wanted.name() + "\" is too large (" + wanted.size() + " bytes)");
            }
            texts += wanted.name().endsWith(".json") ? wanted.size() : 0;
            if (texts > LARGEST_TEXTS) {
                throw hostile("its texts are too large together");
            }
            whole += wanted.size();
            if (whole < 0 || whole > room) {
                throw new InputException(
                        "what is in the bundle needs more room than the disk has",
                        file.toString(),
                        "free some space, or ask for a bundle without the recording");
            }
        }
        for (String name : entries.keySet()) {
            if (!name.equals(Manifest.NAME) && !named.contains(name)) {
                throw hostile("\"" + printable(name) + "\" is not in its manifest");
            }
        }
        if (!named.contains(CaseBundle.CONTENT)) {
            throw damaged("\"" + CaseBundle.CONTENT + "\" is missing");
        }
    }

    private static long mostOf(String name) {
        if (name.startsWith(CaseBundle.MEDIA)) {
            return Long.MAX_VALUE;
        }
        if (name.startsWith(CaseBundle.RUBRICS)) {
            return LARGEST_RUBRIC;
        }
        return name.startsWith(CaseBundle.VOICE) ? LARGEST_VOICE : BundleJson.LARGEST;
    }

    private Map<String, String> readRubrics() throws IOException {
        Map<String, String> texts = new HashMap<>();
        for (Manifest.Entry entry : manifest.entries()) {
            if (entry.name().startsWith(CaseBundle.RUBRICS)) {
                String key = entry.name()
                        .substring(CaseBundle.RUBRICS.length(), entry.name().length() - ".json".length());
                texts.put(key, new String(bytes(entry.name()), StandardCharsets.UTF_8));
            }
        }
        return texts;
    }

    private void checkContent() {
        if (!content.sheet().code().equals(manifest.caseCode())
                || !content.sheet().procedure().equals(manifest.procedure())) {
            throw damaged("its manifest tells of another case than its content");
        }
        if (hasMedia()) {
            for (int i = 0; i < content.files().size(); i++) {
                Manifest.Entry entry = entry(CaseBundle.mediaName(content, i));
                CaseContent.File wanted = content.files().get(i);
                if (!entry.sha256().equals(wanted.sha256()) || entry.size() != wanted.size()) {
                    throw damaged("\"" + entry.name() + "\" is not the recording that the case tells of");
                }
            }
        }
        for (CaseContent.CommentPart comment : content.comments()) {
            CaseContent.VoicePart voice = comment.voice();
            if (voice != null
                    && !entry(CaseBundle.VOICE + voice.sha256() + ".ogg")
                            .sha256()
                            .equals(voice.sha256())) {
                throw damaged("a spoken comment is not the one that its name tells of");
            }
        }
    }

    private Manifest.Entry entry(String name) {
        return manifest.entries().stream()
                .filter(e -> e.name().equals(name))
                .findFirst()
                .orElseThrow(() -> damaged("\"" + name + "\" is missing"));
    }

    /** Reads every sound and recording through and holds it against its digest. */
    public void verify(Progress progress) {
        List<Manifest.Entry> large = new ArrayList<>(manifest.entries());
        large.removeIf(e -> !e.name().startsWith(CaseBundle.MEDIA) && !e.name().startsWith(CaseBundle.VOICE));
        long whole = Math.max(1, large.stream().mapToLong(Manifest.Entry::size).sum());
        long before = 0;
        for (Manifest.Entry entry : large) {
            copy(entry, OutputStream.nullOutputStream(), part(progress, before, entry.size(), whole));
            before += entry.size();
        }
    }

    private static Progress part(Progress progress, long before, long size, long whole) {
        return progress.part((double) before / whole, (double) (before + size) / whole);
    }

    /** True if the recording is in the bundle. */
    public boolean hasMedia() {
        return manifest.entries().stream().anyMatch(e -> e.name().startsWith(CaseBundle.MEDIA));
    }

    /** Bytes of the recording in the bundle. */
    public long mediaBytes() {
        return manifest.entries().stream()
                .filter(e -> e.name().startsWith(CaseBundle.MEDIA))
                .mapToLong(Manifest.Entry::size)
                .sum();
    }

    public CaseContent content() {
        return content;
    }

    /** The very text of each rubric in use, by {@code ID/VERSION}. */
    public Map<String, String> rubrics() {
        return Map.copyOf(rubrics);
    }

    public String madeAt() {
        return manifest.madeAt();
    }

    /**
     * Writes the recording's files as {@code 1.mp4} and so on into a folder, each held against its digest.
     *
     * @return them in their order
     */
    public List<Path> writeMedia(Path folder, Progress progress) {
        List<Path> written = new ArrayList<>();
        long whole = Math.max(1, mediaBytes());
        long before = 0;
        for (int i = 0; i < content.files().size(); i++) {
            Manifest.Entry entry = entry(CaseBundle.mediaName(content, i));
            Path to = folder.resolve(entry.name().substring(CaseBundle.MEDIA.length()));
            write(entry, to, part(progress, before, entry.size(), whole));
            written.add(to);
            before += entry.size();
        }
        return written;
    }

    /** Writes a spoken comment's sound to a file. */
    public void writeVoice(String sha256, Path to) {
        write(entry(CaseBundle.VOICE + sha256 + ".ogg"), to, Progress.NONE);
    }

    private void write(Manifest.Entry entry, Path to, Progress progress) {
        try (OutputStream out = Files.newOutputStream(to)) {
            copy(entry, out, progress);
        } catch (IOException e) {
            throw new InputException(
                    "the file cannot be written: " + e.getMessage(), to.toString(), "check the disk and its room", e);
        }
    }

    private void copy(Manifest.Entry entry, OutputStream out, Progress progress) {
        ZipArchiveEntry zipped = entries.get(entry.name());
        if (zipped == null) {
            throw damaged("\"" + entry.name() + "\" is missing");
        }
        MessageDigest digest = Sha256.begin();
        try (InputStream in = zip.getInputStream(zipped)) {
            byte[] block = new byte[BLOCK];
            long done = 0;
            for (int n = in.read(block); n >= 0; n = in.read(block)) {
                progress.check();
                done += n;
                if (done > entry.size()) {
                    throw hostile("\"" + entry.name() + "\" holds more than it says");
                }
                digest.update(block, 0, n);
                out.write(block, 0, n);
                progress.report((double) done / Math.max(1, entry.size()), "Checking " + entry.name());
            }
            if (done != entry.size() || !Sha256.end(digest).equals(entry.sha256())) {
                throw damaged("\"" + entry.name() + "\" is not what its digest says");
            }
        } catch (IOException e) {
            throw unreadable(file, e);
        }
    }

    private byte[] bytes(String name) {
        Manifest.Entry entry = entry(name);
        ByteArrayOutputStream out = new ByteArrayOutputStream((int) entry.size());
        copy(entry, out, Progress.NONE);
        return out.toByteArray();
    }

    /** An entry that no digest is known of yet. */
    private byte[] read(ZipArchiveEntry entry, int most) throws IOException {
        if (entry.getSize() > most) {
            throw hostile("\"" + entry.getName() + "\" is too large (" + entry.getSize() + " bytes)");
        }
        try (InputStream in = zip.getInputStream(entry)) {
            byte[] bytes = in.readNBytes(most + 1);
            if (bytes.length > most) {
                throw hostile("\"" + entry.getName() + "\" holds more than it says");
            }
            return bytes;
        }
    }

    private InputException hostile(String why) {
        return new InputException(
                "the bundle is refused: " + why,
                file.toString(),
                "nothing was taken out of it; ask whoever gave it to you how it was made");
    }

    private InputException damaged(String why) {
        return new InputException(
                "the bundle is damaged: " + why, file.toString(), "nothing was taken out of it; ask for it again");
    }

    private static String printable(String name) {
        String clean = name.replaceAll("\\p{Cntrl}", "?");
        return clean.length() > 80 ? clean.substring(0, 79) + "…" : clean;
    }

    private static void forget(@Nullable Path file) {
        if (file != null) {
            try {
                Files.deleteIfExists(file);
            } catch (IOException e) {
                file.toFile().deleteOnExit();
            }
        }
    }

    @Override
    public void close() {
        try {
            zip.close();
        } catch (IOException e) {
            // it was only read
        }
        forget(decrypted);
    }
}
