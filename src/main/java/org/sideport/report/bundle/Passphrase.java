package org.sideport.report.bundle;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.Date;
import org.bouncycastle.bcpg.HashAlgorithmTags;
import org.bouncycastle.bcpg.SymmetricKeyAlgorithmTags;
import org.bouncycastle.openpgp.PGPCompressedData;
import org.bouncycastle.openpgp.PGPEncryptedData;
import org.bouncycastle.openpgp.PGPEncryptedDataGenerator;
import org.bouncycastle.openpgp.PGPEncryptedDataList;
import org.bouncycastle.openpgp.PGPException;
import org.bouncycastle.openpgp.PGPLiteralData;
import org.bouncycastle.openpgp.PGPLiteralDataGenerator;
import org.bouncycastle.openpgp.PGPMarker;
import org.bouncycastle.openpgp.PGPPBEEncryptedData;
import org.bouncycastle.openpgp.PGPUtil;
import org.bouncycastle.openpgp.bc.BcPGPObjectFactory;
import org.bouncycastle.openpgp.operator.bc.BcPBEDataDecryptorFactory;
import org.bouncycastle.openpgp.operator.bc.BcPBEKeyEncryptionMethodGenerator;
import org.bouncycastle.openpgp.operator.bc.BcPGPDataEncryptorBuilder;
import org.bouncycastle.openpgp.operator.bc.BcPGPDigestCalculatorProvider;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/**
 * Encryption under a passphrase as an OpenPGP message (RFC 9580, which other programs open too): AES-256, a key made of the
 * passphrase by iterated and salted hashing at the highest count that the form knows (65 011 712 octets of SHA-256 in each
 * try), integrity protected. Argon2 would be slower still to guess, but widespread programs cannot open it yet.
 */
final class Passphrase {

    /** The coded count 255: RFC 9580, 3.7.1.3. */
    private static final int HIGHEST_COUNT = 0xff;

    private static final int BLOCK = 1 << 16;
    private static final int ASCII_ARMOUR = '-';

    private Passphrase() {}

    /** A stream that encrypts what is written to it; closing it ends the message and leaves {@code out} open. */
    static OutputStream encrypting(OutputStream out, char[] passphrase) throws IOException {
        PGPEncryptedDataGenerator encryption =
                new PGPEncryptedDataGenerator(new BcPGPDataEncryptorBuilder(SymmetricKeyAlgorithmTags.AES_256)
                        .setWithIntegrityPacket(true)
                        .setSecureRandom(new SecureRandom()));
        try {
            encryption.addMethod(new BcPBEKeyEncryptionMethodGenerator(
                    passphrase, new BcPGPDigestCalculatorProvider().get(HashAlgorithmTags.SHA256), HIGHEST_COUNT));
            OutputStream encrypted = encryption.open(out, new byte[BLOCK]);
            OutputStream literal = new PGPLiteralDataGenerator()
                    .open(encrypted, PGPLiteralData.BINARY, "bundle.zip", new Date(0), new byte[BLOCK]);
            return new OutputStream() {
                @Override
                public void write(int b) throws IOException {
                    literal.write(b);
                }

                @Override
                public void write(byte[] bytes, int from, int length) throws IOException {
                    literal.write(bytes, from, length);
                }

                @Override
                public void close() throws IOException {
                    literal.close();
                    encrypted.close();
                }
            };
        } catch (PGPException e) {
            throw new IOException("the bundle cannot be encrypted: " + e.getMessage(), e);
        }
    }

    /** True if the file begins as an OpenPGP message does, in binary or in ASCII armour. */
    static boolean isEncrypted(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            int first = in.read();
            return first == ASCII_ARMOUR || first >= 0x80;
        }
    }

    /**
     * Writes what is encrypted in {@code file} to {@code out}, whole.
     *
     * @param most bytes that may come out
     * @throws InputException if the passphrase is wrong, or the message damaged, altered or of a kind that cannot be opened;
     *     what was written until then is of no use
     */
    static void decrypt(Path file, char[] passphrase, Path out, long most, Progress progress) throws IOException {
        try (InputStream in = PGPUtil.getDecoderStream(new BufferedInputStream(Files.newInputStream(file), BLOCK))) {
            PGPPBEEncryptedData message = message(file, new BcPGPObjectFactory(in));
            if (!message.isIntegrityProtected()) {
                throw damaged(file, "it is not protected against being altered", null);
            }
            long whole = Math.max(1, Files.size(file));
            try (InputStream plain = message.getDataStream(
                            new BcPBEDataDecryptorFactory(passphrase, new BcPGPDigestCalculatorProvider()));
                    OutputStream to = Files.newOutputStream(out)) {
                copy(literal(file, new BcPGPObjectFactory(plain), 0), to, most, whole, file, progress);
            }
            if (!message.verify()) {
                throw damaged(file, "it was altered after it was made", null);
            }
        } catch (PGPException | RuntimeException e) {
            if (e instanceof InputException || e instanceof java.util.concurrent.CancellationException) {
                throw (RuntimeException) e;
            }
            throw wrong(file, e);
        } catch (IOException e) {
            // what comes of a wrong key that passed the quick check, or of a cut end, is no message
            throw wrong(file, e);
        }
    }

    private static PGPPBEEncryptedData message(Path file, BcPGPObjectFactory objects) throws IOException {
        Object object = objects.nextObject();
        while (object instanceof PGPMarker) {
            object = objects.nextObject();
        }
        if (object instanceof PGPEncryptedDataList list) {
            for (PGPEncryptedData one : list) {
                if (one instanceof PGPPBEEncryptedData byPassphrase) {
                    return byPassphrase;
                }
            }
        }
        throw new InputException(
                "this is no message under a passphrase", file.toString(), "choose a case bundle, or ask for it again");
    }

    private static InputStream literal(Path file, BcPGPObjectFactory objects, int depth)
            throws IOException, PGPException {
        Object object = objects.nextObject();
        if (object instanceof PGPLiteralData data) {
            return data.getInputStream();
        }
        if (object instanceof PGPCompressedData packed && depth == 0) {
            return literal(file, new BcPGPObjectFactory(packed.getDataStream()), 1);
        }
        throw damaged(file, "there is no file in it", null);
    }

    private static void copy(InputStream in, OutputStream out, long most, long whole, Path file, Progress progress)
            throws IOException {
        byte[] block = new byte[BLOCK];
        long done = 0;
        for (int n = in.read(block); n >= 0; n = in.read(block)) {
            progress.check();
            done += n;
            if (done > most) {
                throw new InputException(
                        "more comes out of it than the disk has room for",
                        file.toString(),
                        "free some space; if the bundle is from someone you do not know, delete it");
            }
            out.write(block, 0, n);
            progress.report(Math.min(1.0, (double) done / whole), "Decrypting " + file.getFileName());
        }
    }

    private static InputException wrong(Path file, Throwable cause) {
        return new InputException(
                "the passphrase is wrong, or the file is damaged",
                file.toString(),
                "type the passphrase again; if it is surely right, ask for the file again",
                cause);
    }

    private static InputException damaged(Path file, String why, @org.jspecify.annotations.Nullable Throwable cause) {
        return new InputException(
                "the bundle cannot be trusted: " + why, file.toString(), "ask for the file again", cause);
    }
}
