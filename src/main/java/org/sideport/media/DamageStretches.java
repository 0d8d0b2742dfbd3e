package org.sideport.media;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;

/** Puts what was seen of damage to a file on its timeline. */
final class DamageStretches {

    /** Shorter runs of zeros at the end are padding. */
    private static final long ZERO_TAIL = 64 << 10;

    /** So many pictures must follow each other evenly for a hole to mean damage. */
    private static final double STEADY = 0.95;

    private static final int BLOCK = 1 << 16;

    private DamageStretches() {}

    /** In order of time, from the start of the file. */
    static List<Damage> of(MediaInput input, FrameIndex index) {
        List<Damage> stretches = new ArrayList<>(packets(index));
        stretches.addAll(missing(index));
        long zeros = zeroTail(input.file());
        if (zeros >= ZERO_TAIL) {
            long end = lastGood(index, stretches);
            stretches.add(new Damage(
                    0,
                    Damage.Kind.ZERO_TAIL,
                    end,
                    end,
                    end,
                    0,
                    "The last " + size(zeros) + " of the file are zeros: the recorder stopped before it filled them, or"
                            + " what it wrote is lost. The pictures end at "
                            + MediaTime.ofMicros(end).toClockText() + "."));
        }
        stretches.sort(Comparator.comparingLong(Damage::fromUs));
        return stretches;
    }

    /** When the pictures end that are not damaged up to the end of the file. */
    private static long lastGood(FrameIndex index, List<Damage> stretches) {
        for (Damage one : stretches) {
            if (one.toUs() == index.durationUs()) {
                return one.fromUs();
            }
        }
        return index.durationUs();
    }

    private static List<Damage> packets(FrameIndex index) {
        // a packet whose picture is not shown, such as one that the file ends within, has no place in time
        int[] frames = index.doubts().damagedPackets().stream()
                .mapToInt(index::frameOf)
                .filter(f -> f >= 0)
                .sorted()
                .toArray();
        List<Damage> stretches = new ArrayList<>();
        int i = 0;
        while (i < frames.length) {
            int first = frames[i];
            int last = first;
            int packets = 1;
            int spoiled = soundFrom(index, last);
            while (++i < frames.length && frames[i] <= spoiled) {
                last = frames[i];
                packets++;
                spoiled = soundFrom(index, last);
            }
            stretches.add(stretch(index, first, last, spoiled, packets));
        }
        return stretches;
    }

    private static Damage stretch(FrameIndex index, int first, int last, int spoiled, int packets) {
        long from = index.startUs(first);
        long to = index.startUs(last + 1);
        long until = index.startUs(spoiled);
        String text = "The file is damaged from " + clock(from) + " to " + clock(to) + " ("
                + Plural.of(packets, "picture") + ")"
                + (until > to ? "; pictures up to " + clock(until) + " may show it." : ".");
        return new Damage(0, Damage.Kind.PACKETS, from, to, until, packets, text);
    }

    /** The first frame after this one that needs none before it. */
    private static int soundFrom(FrameIndex index, int frame) {
        for (KeyPacket key : index.keys()) {
            if (key.frame() > frame) {
                return key.frame();
            }
        }
        return index.size();
    }

    /** Holes in a file that is known to be damaged, or whose pictures come evenly everywhere else. */
    private static List<Damage> missing(FrameIndex index) {
        List<Damage> stretches = new ArrayList<>();
        List<TimeHole> holes = TimeHole.in(index, 0, 0);
        if (holes.isEmpty() || !index.isDamaged() && !isSteady(index)) {
            return stretches;
        }
        String why = index.isDamaged() ? "The file is damaged: no" : "No";
        for (TimeHole hole : holes) {
            stretches.add(new Damage(
                    0,
                    Damage.Kind.MISSING,
                    hole.startUs(),
                    hole.endUs(),
                    hole.endUs(),
                    0,
                    why + " picture can be read from " + clock(hole.startUs()) + " to " + clock(hole.endUs())
                            + (index.isDamaged() ? "." : ", while they come evenly in the rest of the file.")));
        }
        return stretches;
    }

    private static boolean isSteady(FrameIndex index) {
        int n = index.size() - 1;
        long[] lengths = new long[n];
        for (int f = 0; f < n; f++) {
            lengths[f] = index.startUs(f + 1) - index.startUs(f);
        }
        long[] sorted = lengths.clone();
        Arrays.sort(sorted);
        long usual = sorted[n / 2];
        long even = Arrays.stream(lengths)
                .filter(length -> Math.abs(length - usual) <= usual / 5 + 1_000)
                .count();
        return even >= STEADY * n;
    }

    /** Zero bytes at the end of a file; 0 if it cannot be read. */
    static long zeroTail(Path file) {
        try (RandomAccessFile in = new RandomAccessFile(file.toFile(), "r")) {
            long end = in.length();
            byte[] block = new byte[BLOCK];
            for (long at = end; at > 0; ) {
                int length = (int) Math.min(BLOCK, at);
                in.seek(at - length);
                in.readFully(block, 0, length);
                for (int i = length - 1; i >= 0; i--) {
                    if (block[i] != 0) {
                        return end - (at - length + i + 1);
                    }
                }
                at -= length;
            }
            return end;
        } catch (IOException e) {
            return 0;
        }
    }

    private static String clock(long us) {
        return MediaTime.ofMicros(us).toClockText();
    }

    private static String size(long bytes) {
        return bytes < 10L << 20
                ? String.format(Locale.ROOT, "%d kB", bytes / 1000)
                : String.format(Locale.ROOT, "%d MB", bytes / 1_000_000);
    }
}
