package org.sideport.media.hostile;

import java.util.Arrays;
import java.util.Random;

/** Changes a file at random, the same way for the same seed: flips, cuts, inserts, swaps, and lies in lengths. */
final class Mutator {

    private static final int HEAD = 4096;

    private static final long[] LIES = {0, 1, 0x7F, 0xFF, 0x7FFF, 0xFFFF, 100_000, 0x7FFFFFFF, 0x80000000L, 0xFFFFFFFFL
    };

    private final Random random;

    Mutator(long seed) {
        random = new Random(seed);
    }

    byte[] mutate(byte[] original) {
        byte[] bytes = original.clone();
        int changes = 1 + random.nextInt(8);
        for (int i = 0; i < changes && bytes.length > 64; i++) {
            bytes = once(bytes);
        }
        return bytes;
    }

    private byte[] once(byte[] bytes) {
        switch (random.nextInt(10)) {
            case 0, 1, 2 -> bytes[place(bytes)] ^= (byte) (1 << random.nextInt(8));
            case 3 -> bytes[place(bytes)] = (byte) random.nextInt(256);
            case 4, 5 -> number(bytes);
            case 6 -> {
                return Arrays.copyOf(bytes, Math.max(1, random.nextInt(bytes.length)));
            }
            case 7 -> {
                return insert(bytes);
            }
            case 8 -> swap(bytes);
            default -> {
                return remove(bytes);
            }
        }
        return bytes;
    }

    /** Headers lie at the start or the end of a file; what is between is mostly pictures. */
    private int place(byte[] bytes) {
        int part = Math.min(HEAD, bytes.length);
        return switch (random.nextInt(4)) {
            case 0, 1 -> random.nextInt(part);
            case 2 -> bytes.length - 1 - random.nextInt(part);
            default -> random.nextInt(bytes.length);
        };
    }

    private void number(byte[] bytes) {
        int width = 1 << random.nextInt(4);
        int at = Math.min(place(bytes), bytes.length - width);
        long lie = LIES[random.nextInt(LIES.length)];
        boolean big = random.nextBoolean();
        for (int i = 0; i < width; i++) {
            bytes[at + i] = (byte) (lie >> 8 * Math.min(7, big ? width - 1 - i : i));
        }
    }

    private byte[] insert(byte[] bytes) {
        int at = place(bytes);
        int length = 1 + random.nextInt(300);
        byte[] longer = new byte[bytes.length + length];
        System.arraycopy(bytes, 0, longer, 0, at);
        System.arraycopy(bytes, at, longer, at + length, bytes.length - at);
        int from = random.nextInt(bytes.length);
        for (int i = 0; i < length; i++) {
            longer[at + i] = random.nextInt(4) == 0 ? (byte) random.nextInt(256) : bytes[(from + i) % bytes.length];
        }
        return longer;
    }

    private byte[] remove(byte[] bytes) {
        int at = place(bytes);
        int length = Math.min(1 + random.nextInt(300), bytes.length - at);
        byte[] shorter = new byte[bytes.length - length];
        System.arraycopy(bytes, 0, shorter, 0, at);
        System.arraycopy(bytes, at + length, shorter, at, shorter.length - at);
        return shorter;
    }

    private void swap(byte[] bytes) {
        int length = random.nextBoolean() ? 188 : 4 + random.nextInt(60);
        if (bytes.length < 2 * length) {
            return;
        }
        int a = Math.min(place(bytes), bytes.length - length);
        int b = Math.min(place(bytes), bytes.length - length);
        byte[] kept = Arrays.copyOfRange(bytes, a, a + length);
        System.arraycopy(bytes, b, bytes, a, length);
        System.arraycopy(kept, 0, bytes, b, length);
    }
}
