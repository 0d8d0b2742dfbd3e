package org.sideport.media.corpus;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.sideport.media.corpus.Corpus.Maker;

/** What happens to files after they were recorded. */
final class Damage {

    private Damage() {}

    static Maker plain(StampedFile recipe, String name) {
        return folder -> {
            Path file = folder.resolve(name);
            recipe.write(file);
            return file;
        };
    }

    static Maker joined(StampedFile first, StampedFile second, String extension) {
        return folder -> {
            Path a = plain(first, "a." + extension).make(folder);
            Path b = plain(second, "b." + extension).make(folder);
            byte[] one = Files.readAllBytes(a);
            byte[] two = Files.readAllBytes(b);
            byte[] both = Arrays.copyOf(one, one.length + two.length);
            System.arraycopy(two, 0, both, one.length, two.length);
            return Files.write(folder.resolve("joined." + extension), both);
        };
    }

    /** Ends the file where this four-letter code stands last. */
    static Maker cutAt(StampedFile recipe, String code, String name) {
        return folder -> {
            Path file = plain(recipe, name).make(folder);
            byte[] bytes = Files.readAllBytes(file);
            int at = new String(bytes, StandardCharsets.ISO_8859_1).lastIndexOf(code);
            if (at < 0) {
                throw new IOException("no " + code);
            }
            return Files.write(file, Arrays.copyOf(bytes, at));
        };
    }

    /** Takes this many packets off a file that ends with its packets, but leaves some bytes of the first of these. */
    static Maker lastPackets(StampedFile recipe, int packets, int bytesLeft, String name) {
        return folder -> {
            Path file = folder.resolve(name);
            List<Integer> sizes = recipe.write(file);
            byte[] bytes = Files.readAllBytes(file);
            int gone = sizes.subList(sizes.size() - packets, sizes.size()).stream()
                    .mapToInt(n -> n)
                    .sum();
            return Files.write(file, Arrays.copyOf(bytes, bytes.length - gone + bytesLeft));
        };
    }

    /** Overwrites one packet of a file that ends with its packets. */
    static Maker wiped(StampedFile recipe, int packet, String name) {
        return folder -> {
            Path file = folder.resolve(name);
            List<Integer> sizes = recipe.write(file);
            byte[] bytes = Files.readAllBytes(file);
            int from = bytes.length
                    - sizes.subList(packet, sizes.size()).stream()
                            .mapToInt(n -> n)
                            .sum();
            Arrays.fill(bytes, from, from + sizes.get(packet), (byte) 0);
            return Files.write(file, bytes);
        };
    }

    /** Zeros from the middle of one packet to the middle of another, or to the end, of a file that ends with its packets. */
    static Maker zeros(StampedFile recipe, int fromPacket, int toPacket, String name) {
        return folder -> {
            Path file = folder.resolve(name);
            List<Integer> sizes = recipe.write(file);
            byte[] bytes = Files.readAllBytes(file);
            int from = middle(bytes.length, sizes, fromPacket);
            int to = toPacket == sizes.size() ? bytes.length : middle(bytes.length, sizes, toPacket);
            Arrays.fill(bytes, from, to, (byte) 0);
            return Files.write(file, bytes);
        };
    }

    private static int middle(int length, List<Integer> sizes, int packet) {
        int rest = sizes.subList(packet, sizes.size()).stream().mapToInt(n -> n).sum();
        return length - rest + sizes.get(packet) / 2;
    }

    /** Fills a part of the file with rubbish, from one share of its length to another. */
    static Maker rubbish(StampedFile recipe, double from, double to, String name) {
        return folder -> {
            Path file = plain(recipe, name).make(folder);
            byte[] bytes = Files.readAllBytes(file);
            Random random = new Random(5);
            for (int i = (int) (bytes.length * from); i < bytes.length * to; i++) {
                bytes[i] = (byte) random.nextInt(256);
            }
            return Files.write(file, bytes);
        };
    }

    /** Puts a hole of zeros into a transport stream before one of its 188-byte packets. */
    static Maker hole(StampedFile recipe, double at, int bytesOfHole, String name) {
        return folder -> {
            Path file = plain(recipe, name).make(folder);
            byte[] bytes = Files.readAllBytes(file);
            int cut = (int) (bytes.length * at) / 188 * 188;
            byte[] holed = new byte[bytes.length + bytesOfHole];
            System.arraycopy(bytes, 0, holed, 0, cut);
            System.arraycopy(bytes, cut, holed, cut + bytesOfHole, bytes.length - cut);
            return Files.write(folder.resolve(name), holed);
        };
    }

    static Maker zeroTail(StampedFile recipe, String name) {
        return folder -> {
            Path file = plain(recipe, name).make(folder);
            byte[] bytes = Files.readAllBytes(file);
            return Files.write(file, Arrays.copyOf(bytes, bytes.length + (1 << 20)));
        };
    }

    static Maker firstShare(StampedFile recipe, double share, String name) {
        return folder -> {
            Path file = plain(recipe, name).make(folder);
            byte[] bytes = Files.readAllBytes(file);
            return Files.write(file, Arrays.copyOf(bytes, (int) (bytes.length * share)));
        };
    }

    /** Changes Matroska's Duration element (RFC 9559, 5.1.2.10: ID 0x4489, a float of TimestampScale, here 1 ms). */
    static Maker mkvDuration(StampedFile recipe, double ms, String name) {
        return folder -> {
            Path file = plain(recipe, name).make(folder);
            byte[] bytes = Files.readAllBytes(file);
            for (int i = 0; i < bytes.length - 11; i++) {
                if (bytes[i] == 0x44 && (bytes[i + 1] & 0xFF) == 0x89 && (bytes[i + 2] & 0xFF) == 0x88) {
                    ByteBuffer.wrap(bytes).putDouble(i + 3, ms);
                    return Files.write(file, bytes);
                }
            }
            throw new IOException("no Duration");
        };
    }
}
