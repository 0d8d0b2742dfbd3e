package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** Bundles under a passphrase, against GnuPG as the program of others: it opens ours, and we open its. */
class EncryptedBundleTest {

    private static final String WORDS = "schräge kiste öffnet leise tür";
    private static final ImportChoice PLAIN = ImportChoice.plain("B9");

    @TempDir
    Path temp;

    private Workspace b;
    private Path plain;
    private Path encrypted;

    @BeforeEach
    void export() throws Exception {
        plain = temp.resolve("plain.zip");
        encrypted = temp.resolve("encrypted.zip");
        try (Workspace a = FreshWorkspace.in(temp.resolve("a"))) {
            Hospital.fill(a, temp.resolve("shelf"));
            ExportCase job = new ExportCase(a);
            job.export(new ExportCase.Wanted("D-017", true, false), null, plain, Progress.NONE);
            job.export(new ExportCase.Wanted("D-017", true, false), WORDS.toCharArray(), encrypted, Progress.NONE);
        }
        b = FreshWorkspace.in(temp.resolve("b"));
    }

    @AfterEach
    void close() throws Exception {
        if (Files.isDirectory(temp.resolve("gnupg"))) {
            // its agent, which goes by the folder
            new ProcessBuilder("gpgconf", "--homedir", temp.resolve("gnupg").toString(), "--kill", "gpg-agent")
                    .start()
                    .waitFor();
        }
        b.close();
        try (Stream<Path> left = Files.list(temp.resolve("b"))) {
            assertThat(left.map(f -> f.getFileName().toString())).noneMatch(n -> n.startsWith(".bundle-"));
        }
    }

    @Test
    void theRightPassphraseOpensItAndNothingCanBeReadWithout() throws Exception {
        assertThat(ImportBundle.needsPassphrase(encrypted)).isTrue();
        assertThat(ImportBundle.needsPassphrase(plain)).isFalse();
        String bytes = Files.readString(encrypted, StandardCharsets.ISO_8859_1);
        assertThat(bytes).doesNotContain("manifest.json", "T03", "one one");
        ImportPlan plan = new ImportBundle(b).take(encrypted, WORDS.toCharArray(), PLAIN, Progress.NONE);
        assertThat(plan.newCase()).isTrue();
        assertThat(b.dir().resolve("recordings/D-017/1.mp4")).exists();
    }

    @Test
    void aWrongPassphraseOrNoneIsRefused() {
        for (String wrong : new String[] {"schräge kiste öffnet leise tur", "", " "}) {
            assertThatThrownBy(() -> new ImportBundle(b).look(encrypted, wrong.toCharArray(), PLAIN, Progress.NONE))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("passphrase");
        }
        assertThatThrownBy(() -> new ImportBundle(b).look(encrypted, null, PLAIN, Progress.NONE))
                .hasMessageContaining("the bundle is encrypted");
    }

    /** RFC 9580, 5.13.1: the modification detection code at the end of the message. */
    @Test
    void aMessageThatWasAlteredOrCutShortIsRefused() throws Exception {
        byte[] bytes = Files.readAllBytes(encrypted);
        for (int at : new int[] {bytes.length / 4, bytes.length / 2, bytes.length - 30, bytes.length - 3}) {
            byte[] other = bytes.clone();
            other[at] ^= 4;
            Path altered = Files.write(temp.resolve("altered.zip"), other);
            assertThatThrownBy(() -> new ImportBundle(b).look(altered, WORDS.toCharArray(), PLAIN, Progress.NONE))
                    .as("byte %s of %s", at, bytes.length)
                    .isInstanceOf(InputException.class);
        }
        for (int length : new int[] {1, 20, 100, bytes.length / 2, bytes.length - 1}) {
            Path cut = Files.write(temp.resolve("cut.zip"), Arrays.copyOf(bytes, length));
            assertThatThrownBy(() -> new ImportBundle(b).look(cut, WORDS.toCharArray(), PLAIN, Progress.NONE))
                    .as("%s of %s bytes", length, bytes.length)
                    .isInstanceOf(InputException.class);
        }
    }

    @Test
    void gnupgOpensOursAndReportsTheCipherAndTheHighestCount() throws Exception {
        requireGpg();
        Path opened = temp.resolve("opened.zip");
        Gpg result = gpg("--output", opened.toString(), "--decrypt", encrypted.toString());
        assertThat(result.code()).as(result.said()).isZero();
        assertThat(Zips.read(opened).keySet()).isEqualTo(Zips.read(plain).keySet());
        assertThat(Zips.read(opened).get("media/1.mp4"))
                .isEqualTo(Zips.read(plain).get("media/1.mp4"));
        assertThat(gpg("--list-packets", "--verbose", encrypted.toString()).said())
                // cipher 9 is AES-256, s2k 3 iterated and salted, hash 8 SHA-256: RFC 9580, tables 21 and 23
                .contains("cipher 9", "s2k 3, hash 8", "count 65011712 (255)", "mdc_method: 2");
    }

    @Test
    void whatGnupgEncryptedIsOpenedPackedOrNot() throws Exception {
        requireGpg();
        for (String level : new String[] {"0", "6"}) {
            Path theirs = temp.resolve("gpg-" + level + ".zip");
            Gpg made = gpg(
                    "--symmetric",
                    "--cipher-algo",
                    "AES256",
                    "--compress-level",
                    level,
                    "--output",
                    theirs.toString(),
                    plain.toString());
            assertThat(made.code()).as(made.said()).isZero();
            assertThat(new ImportBundle(b)
                            .look(theirs, WORDS.toCharArray(), PLAIN, Progress.NONE)
                            .newCase())
                    .isTrue();
        }
    }

    private record Gpg(int code, String said) {}

    private void requireGpg() throws Exception {
        boolean there;
        try {
            there = new ProcessBuilder("gpg", "--version")
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            there = false;
        }
        assumeTrue(there, "gpg is not installed here: whether it opens our bundles is not looked at");
    }

    private Gpg gpg(String... arguments) throws Exception {
        Path home = Files.createDirectories(temp.resolve("gnupg"));
        Files.setPosixFilePermissions(home, PosixFilePermissions.fromString("rwx------"));
        Path words = Files.writeString(temp.resolve("words"), WORDS + "\n");
        List<String> command = new ArrayList<>(List.of(
                "gpg",
                "--homedir",
                home.toString(),
                "--batch",
                "--yes",
                "--pinentry-mode",
                "loopback",
                "--passphrase-file",
                words.toString()));
        command.addAll(List.of(arguments));
        Path said = temp.resolve("said");
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .redirectInput(ProcessBuilder.Redirect.from(Path.of("/dev/null").toFile()))
                .start();
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return new Gpg(process.exitValue(), Files.readString(said));
    }
}
