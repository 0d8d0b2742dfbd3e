package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.compress.archivers.zip.UnixStat;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/**
 * Bundles made to harm: each is refused in words, and neither the store nor any folder has anything of it. The kinds of
 * attack: OWASP ASVS 5.0, V5 (file handling); David Fifield, "A better zip bomb", USENIX WOOT 2019, for declared and real sizes.
 */
class HostileBundleTest {

    private static final ImportChoice PLAIN = ImportChoice.plain("B9");

    @TempDir
    Path temp;

    private Workspace b;
    private Path good;
    private Path hostile;

    @BeforeEach
    void aGoodBundle() throws Exception {
        try (Workspace a = FreshWorkspace.in(temp.resolve("a"))) {
            Hospital.fill(a, temp.resolve("shelf"));
            good = temp.resolve("good.sideport-case.zip");
            new ExportCase(a).export(new ExportCase.Wanted("D-017", true, false), null, good, Progress.NONE);
        }
        b = FreshWorkspace.in(temp.resolve("b"));
        hostile = temp.resolve("hostile.sideport-case.zip");
    }

    @AfterEach
    void nothingOfItIsHere() throws Exception {
        assertThat(b.<Boolean>read(s -> s.cases().exists("D-017"))).isFalse();
        assertThat(b.<java.util.List<?>>read(s -> s.audit().all())).isEmpty();
        b.close();
        try (Stream<Path> files = Files.walk(temp.resolve("b"))) {
            assertThat(files.filter(Files::isRegularFile)
                            .map(f -> f.getFileName().toString()))
                    .noneMatch(
                            n -> n.endsWith(".mp4") || n.endsWith(".zip") || n.endsWith(".part") || n.contains("evil"));
        }
        assertThat(temp.resolve("evil.txt")).doesNotExist();
        assertThat(Path.of("/tmp/sideport-evil.txt")).doesNotExist();
    }

    private void refused(String... words) {
        refused(null, words);
    }

    private void refused(char[] passphrase, String... words) {
        for (boolean look : new boolean[] {true, false}) {
            assertThatThrownBy(() -> {
                        ImportBundle job = new ImportBundle(b);
                        if (look) {
                            job.look(hostile, passphrase, PLAIN, Progress.NONE);
                        } else {
                            job.take(hostile, passphrase, PLAIN, Progress.NONE);
                        }
                    })
                    .isInstanceOfSatisfying(
                            InputException.class, e -> assertThat(e.remedy()).isNotBlank())
                    .satisfies(e -> assertThat(e.getMessage()).contains(words));
        }
    }

    private void with(String name, String content) throws Exception {
        Zips.with(Zips.read(good), new ZipArchiveEntry(name), content.getBytes(StandardCharsets.UTF_8), hostile);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../evil.txt",
                "media/../../evil.txt",
                "/tmp/sideport-evil.txt",
                "..\\evil.txt",
                "media\\evil.txt",
                "C:/evil.txt",
                "c:evil.txt"
            })
    void namesThatLeadOutOfTheFolderAreRefused(String name) throws Exception {
        Map<String, byte[]> entries = Zips.read(good);
        entries.put(name, "evil".getBytes(StandardCharsets.UTF_8));
        Zips.write(entries, hostile);
        refused("would lead out of its folder");
    }

    @Test
    void aNameThatEvenTheManifestListsIsRefused() throws Exception {
        Map<String, byte[]> entries = Zips.read(good);
        entries.put("media/../../evil.txt", "evil".getBytes(StandardCharsets.UTF_8));
        Zips.refresh(entries);
        Zips.write(entries, hostile);
        refused("would lead out of its folder");
    }

    @Test
    void whatTheManifestDoesNotListIsRefused() throws Exception {
        with("evil.exe", "MZ");
        refused("\"evil.exe\" is not in its manifest");
    }

    @Test
    void aManifestThatListsAnOddNameDoesNotFitTheSchema() throws Exception {
        Map<String, byte[]> entries = Zips.read(good);
        entries.put("evil.exe", "MZ".getBytes(StandardCharsets.UTF_8));
        Zips.refresh(entries);
        Zips.write(entries, hostile);
        refused("manifest.json", "does not have the form of a bundle", "name");
    }

    @Test
    void aLinkIsRefused() throws Exception {
        ZipArchiveEntry link = new ZipArchiveEntry("media/3.mp4");
        link.setUnixMode(UnixStat.LINK_FLAG | 0777);
        Zips.with(Zips.read(good), link, "/etc/passwd".getBytes(StandardCharsets.UTF_8), hostile);
        refused("\"media/3.mp4\" is a link");
    }

    @Test
    void anEntryThatIsThereTwiceIsRefused() throws Exception {
        with("content.json", "{}");
        refused("\"content.json\" is there twice");
    }

    @Test
    void aWrongDigestIsRefused() throws Exception {
        for (String name : new String[] {"media/1.mp4", "content.json", "rubrics/"}) {
            Map<String, byte[]> entries = Zips.read(good);
            entries.replaceAll((n, bytes) -> {
                if (!n.startsWith(name)) {
                    return bytes;
                }
                byte[] other = bytes.clone();
                other[other.length / 2] ^= 1;
                return other;
            });
            Zips.write(entries, hostile);
            refused("is not what its digest says");
        }
    }

    @Test
    void aMissingEntryIsRefused() throws Exception {
        for (String name : new String[] {"media/2.mp4", "content.json", "rubrics/", "voice/", "manifest.json"}) {
            Map<String, byte[]> entries = Zips.read(good);
            entries.keySet().removeIf(n -> n.startsWith(name));
            Zips.write(entries, hostile);
            refused(name.equals("manifest.json") ? "this is no case bundle" : "is missing");
            if (!name.equals("manifest.json")) {
                // and where the manifest was made to fit
                Zips.refresh(entries);
                Zips.write(entries, hostile);
                if (entries.containsKey("content.json")) {
                    refused("is missing");
                } else {
                    refused("content.json");
                }
            }
        }
    }

    /** 1 GB of zeros in about 1 MB, as a voice and as the content; the manifest tells the truth about the size. */
    @Test
    void aZipBombIsRefusedByItsRatioBeforeItIsUnpacked() throws Exception {
        for (String name : new String[] {"content.json", "media/1.mp4"}) {
            Map<String, byte[]> entries = Zips.read(good);
            entries.remove(name);
            try (OutputStream out = Files.newOutputStream(hostile);
                    ZipOutputStream zip = new ZipOutputStream(out)) {
                for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                    zip.putNextEntry(new ZipEntry(entry.getKey()));
                    zip.write(entry.getValue());
                }
                zip.putNextEntry(new ZipEntry(name));
                byte[] zeros = new byte[1 << 20];
                for (int i = 0; i < 1024; i++) {
                    zip.write(zeros);
                }
            }
            assertThat(Files.size(hostile)).isLessThan(3L << 20);
            refused("is packed to less than a hundredth");
        }
    }

    @Test
    void aTextThatIsTooLargeIsRefusedWhateverItsRatio() throws Exception {
        byte[] noise = new byte[17 << 20];
        new Random(1).nextBytes(noise);
        Map<String, byte[]> entries = Zips.read(good);
        entries.put("content.json", noise);
        Zips.refresh(entries);
        Zips.write(entries, hostile);
        refused("\"content.json\" is too large");
    }

    @Test
    void manyTextsThatAreTooLargeTogetherAreRefused() throws Exception {
        byte[] noise = new byte[1 << 20];
        new Random(1).nextBytes(noise);
        Map<String, byte[]> entries = Zips.read(good);
        for (int i = 0; i < 40; i++) {
            entries.put("rubrics/more/1.0." + i + ".json", noise);
        }
        Zips.refresh(entries);
        Zips.write(entries, hostile);
        refused("too large together");
    }

    /** Both the manifest and the ZIP's own directory say 10 GB; what is there is 36 kB. */
    @Test
    void tenDeclaredGigabytesThatAreNotThereAreRefused() throws Exception {
        long declared = 10L << 30;
        Map<String, byte[]> entries = Zips.read(good);
        long real = entries.get("media/1.mp4").length;
        String manifest = new String(entries.get("manifest.json"), StandardCharsets.UTF_8);
        entries.put(
                "manifest.json",
                manifest.replace("\"size\" : " + real, "\"size\" : " + declared).getBytes(StandardCharsets.UTF_8));
        Zips.write(entries, hostile);
        refused("\"media/1.mp4\" has " + real + " bytes, not " + declared);

        // 4 294 967 295 - 1 is the most that a plain directory entry can say: enough to lie
        long most = 0xFFFFFFFEL;
        entries.put(
                "manifest.json",
                manifest.replace("\"size\" : " + real, "\"size\" : " + most).getBytes(StandardCharsets.UTF_8));
        Zips.write(entries, hostile);
        declareInDirectory(hostile, "media/1.mp4", most);
        refused("packed to less than a hundredth");
    }

    /** Sets the uncompressed size in the central directory (APPNOTE 6.3.10, 4.3.12: 24 bytes from its signature). */
    private static void declareInDirectory(Path zip, String name, long size) throws Exception {
        byte[] bytes = Files.readAllBytes(zip);
        byte[] wanted = name.getBytes(StandardCharsets.UTF_8);
        for (int i = 0; i + 46 + wanted.length <= bytes.length; i++) {
            if (bytes[i] == 'P'
                    && bytes[i + 1] == 'K'
                    && bytes[i + 2] == 1
                    && bytes[i + 3] == 2
                    && Arrays.equals(wanted, Arrays.copyOfRange(bytes, i + 46, i + 46 + wanted.length))) {
                try (RandomAccessFile file = new RandomAccessFile(zip.toFile(), "rw")) {
                    file.seek(i + 24);
                    file.write(ByteBuffer.allocate(4)
                            .order(ByteOrder.LITTLE_ENDIAN)
                            .putInt((int) size)
                            .array());
                }
                return;
            }
        }
        throw new AssertionError("no entry " + name);
    }

    /** A directory that says little for an entry that holds much. */
    @Test
    void anEntryThatHoldsMoreThanItSaysIsStoppedWhileItIsRead() throws Exception {
        Map<String, byte[]> entries = Zips.read(good);
        byte[] content = entries.get("content.json");
        String manifest = new String(entries.get("manifest.json"), StandardCharsets.UTF_8);
        entries.put(
                "manifest.json",
                manifest.replaceFirst("\"size\" : " + content.length, "\"size\" : 10")
                        .getBytes(StandardCharsets.UTF_8));
        Zips.write(entries, hostile);
        declareInDirectory(hostile, "content.json", 10);
        refused("content.json");
    }

    @Test
    void aTruncatedFileIsRefusedAtEveryLength() throws Exception {
        byte[] bytes = Files.readAllBytes(good);
        for (int i = 0; i < 20; i++) {
            Files.write(hostile, Arrays.copyOf(bytes, (int) ((long) bytes.length * i / 20)));
            refused(hostile.toString());
        }
        Files.write(hostile, Arrays.copyOf(bytes, bytes.length - 1));
        refused(hostile.toString());
    }

    @Test
    void flippedBitsAreRefusedOrChangeNothing() throws Exception {
        byte[] bytes = Files.readAllBytes(good);
        Random random = new Random(20260504);
        int refused = 0;
        for (int i = 0; i < 150; i++) {
            byte[] other = bytes.clone();
            other[random.nextInt(other.length)] ^= (byte) (1 << random.nextInt(8));
            Files.write(hostile, other);
            try {
                ImportPlan plan = new ImportBundle(b).look(hostile, null, PLAIN, Progress.NONE);
                // a bit that nothing is read from, such as a date in the ZIP
                assertThat(plan.lines())
                        .isEqualTo(new ImportBundle(b)
                                .look(good, null, PLAIN, Progress.NONE)
                                .lines());
            } catch (InputException e) {
                refused++;
            }
        }
        assertThat(refused).isGreaterThan(100);
    }

    @Test
    void aManifestOfANewerFormIsSaidToBeSo() throws Exception {
        Map<String, byte[]> entries = Zips.read(good);
        entries.put(
                "manifest.json",
                new String(entries.get("manifest.json"), StandardCharsets.UTF_8)
                        .replace("\"version\" : 2,", "\"version\" : 3, \"something_new\" : [],")
                        .getBytes(StandardCharsets.UTF_8));
        Zips.write(entries, hostile);
        refused("the bundle is of form 3, and this program knows form 2", "newer version");
    }

    @Test
    void deepNestingIsRefused() throws Exception {
        for (String name : new String[] {"content.json", "manifest.json"}) {
            Map<String, byte[]> entries = Zips.read(good);
            String deep = "{\"a\":" + "[".repeat(100_000) + "]".repeat(100_000) + "}";
            entries.put(name, deep.getBytes(StandardCharsets.UTF_8));
            if (name.equals("content.json")) {
                Zips.refresh(entries);
            }
            Zips.write(entries, hostile);
            refused(name, "no JSON that can be read");
        }
    }

    @Test
    void numbersAndTextsBeyondReasonAreRefused() throws Exception {
        for (String[] change : new String[][] {
            {"\"start_us\" : 1000000", "\"start_us\" : 1e400"},
            {"\"start_us\" : 1000000", "\"start_us\" : -1"},
            {"\"start_us\" : 1000000", "\"start_us\" : " + "9".repeat(2000)},
            {"\"start_us\" : 1000000", "\"start_us\" : \"<script>\""},
            {"\"trainee\" : \"T03\"", "\"trainee\" : \"" + "x".repeat(2_000_000) + "\""},
            {"\"trainee\" : \"T03\"", "\"trainee\" : \"Robert'); drop table rating;--\""},
            {"\"date\" : \"2026-03-09\"", "\"date\" : \"2026-02-30\""},
            {"\"phase\" : \"rhexis\"", "\"phase\" : \"no such phase\""},
            {"\"end_us\" : 30000000", "\"end_us\" : 61000000"},
            {"\"nuclear_grade\" : \"2.5\"", "\"nuclear_grade\" : \"=cmd|' /C calc'!A0\""},
            {"\"state\" : \"given\"", "\"state\" : \"withdrawn\""},
        }) {
            boolean[] found = {false};
            Zips.rewritten(good, hostile, (name, bytes) -> {
                if (!name.equals("content.json")) {
                    return bytes;
                }
                String text = new String(bytes, StandardCharsets.UTF_8);
                found[0] = text.contains(change[0]);
                return text.replace(change[0], change[1]).getBytes(StandardCharsets.UTF_8);
            });
            assertThat(found[0]).as(change[0]).isTrue();
            assertThatThrownBy(() -> new ImportBundle(b).take(hostile, null, PLAIN, Progress.NONE))
                    .as(change[1].substring(0, Math.min(60, change[1].length())))
                    .isInstanceOf(InputException.class);
        }
    }

    @Test
    void aFolderAndAFileThatIsNoZipAreRefused() throws Exception {
        with("media/", "");
        refused("is a folder");
        Files.writeString(hostile, "no zip at all");
        refused("cannot be read as a case bundle");
        Files.write(hostile, new byte[0]);
        refused("cannot be read as a case bundle");
        Files.delete(hostile);
        refused("there is no such file");
    }

    @Test
    void aNestedBundleIsNotUnpacked() throws Exception {
        Map<String, byte[]> entries = new LinkedHashMap<>(Zips.read(good));
        entries.put("media/3.zip", Files.readAllBytes(good));
        Zips.refresh(entries);
        Zips.write(entries, hostile);
        // named by the rules and in the manifest, but no file of the recording: never written anywhere
        ImportPlan plan = new ImportBundle(b).look(hostile, null, PLAIN, Progress.NONE);
        assertThat(plan.newCase()).isTrue();
    }
}
