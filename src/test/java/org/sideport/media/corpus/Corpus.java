package org.sideport.media.corpus;

import static org.sideport.media.MediaWarning.Code.CLOCK_JUMPS;
import static org.sideport.media.MediaWarning.Code.CUT_SHORT;
import static org.sideport.media.MediaWarning.Code.DAMAGED;
import static org.sideport.media.MediaWarning.Code.DUPLICATE_TIMES;
import static org.sideport.media.MediaWarning.Code.STARTS_MIDWAY;
import static org.sideport.media.MediaWarning.Code.TIMES_GUESSED;
import static org.sideport.media.MediaWarning.Code.ZERO_TAIL;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.sideport.media.MediaException.Reason;

/** Small files of every kind that a recorder or a careless copy makes, each with what it holds by construction. */
final class Corpus {

    /** Makes one file in a folder and returns it. */
    @FunctionalInterface
    interface Maker {
        Path make(Path folder) throws IOException;
    }

    record Item(String name, Maker maker, Expected expected) {
        @Override
        public String toString() {
            return name;
        }
    }

    /** Windows allows none in a name. */
    private static final String COLON = java.io.File.separatorChar == '\\' ? "" : ":";

    private static final int RATE = 25;
    private static final int COUNT = 50;
    private static final Expected PLAIN = Expected.steady(COUNT, RATE);

    private final List<Item> items = new ArrayList<>();

    private Corpus() {}

    static List<Item> all() {
        Corpus corpus = new Corpus();
        corpus.mp4();
        corpus.streams();
        corpus.openGopsCutInto();
        corpus.otherContainers();
        corpus.rates();
        corpus.broken();
        corpus.oddTimes();
        corpus.sound();
        corpus.refused();
        return corpus.items;
    }

    private void add(String name, StampedFile recipe, Expected expected) {
        items.add(new Item(name, Damage.plain(recipe, name.replace(' ', '_') + "." + extension(recipe)), expected));
    }

    private void add(String name, Maker maker, Expected expected) {
        items.add(new Item(name, maker, expected));
    }

    private static String extension(StampedFile recipe) {
        return switch (recipe.container) {
            case "matroska" -> "mkv";
            case "mpegts" -> "ts";
            case "asf" -> "wmv";
            default -> recipe.container;
        };
    }

    private static StampedFile plain() {
        return StampedFile.frames(COUNT, RATE);
    }

    private static StampedFile mpeg2(String container) {
        return plain().as("mpeg2video", container).b(2);
    }

    private void mp4() {
        add("mp4 without b-frames", plain(), PLAIN);
        add("mp4 with b-frames", plain().b(2), PLAIN);
        add("mov with b-frames", plain().as("libx264", "mov").b(2), PLAIN);
        add("mp4 fragmented", plain().b(2).option("movflags", "frag_keyframe+empty_moov"), PLAIN);
        // 13 of 50 pictures lie before time 0, where an edit list starts the show
        add(
                "mp4 with a cut start",
                plain().offset(-13),
                Expected.steady(37, RATE).stampsFrom(13));
        add(
                "mp4 with b-frames and a cut start",
                plain().b(2).offset(-13),
                Expected.steady(37, RATE).stampsFrom(13));
        add("mp4 open gop", plain().b(2).gop(10).openGop(), PLAIN);
        add(
                "mp4 hevc open gop 10 bit",
                plain().as("libx265", "mp4").b(3).gop(10).openGop().tenBit(),
                PLAIN);
        add("mp4 long gop", StampedFile.frames(150, RATE).b(2).gop(9_999), Expected.steady(150, RATE));
        add("mp4 rotated", plain().rotated(90), PLAIN);
        add("mp4 upside down", plain().rotated(180), PLAIN);
        add("mp4 anamorphic", plain().pixels(16, 15), PLAIN);
        add("mp4 mpeg-4 part 2", plain().as("mpeg4", "mp4").b(2), PLAIN);
        add("mp4 one frame", StampedFile.frames(1, RATE), Expected.steady(1, RATE));
        add("mp4 two frames", StampedFile.frames(2, RATE), Expected.steady(2, RATE));
        add(
                "mp4 smallest picture",
                StampedFile.frames(5, RATE).size(2, 2),
                Expected.steady(5, RATE).damaged(0, 5));
    }

    private void streams() {
        add(
                "ts with a late start",
                plain().as("libx264", "mpegts").b(2).offset(250).sound(9.9, 2),
                PLAIN);
        add("ts mpeg-2", mpeg2("mpegts"), PLAIN);
        add("ts hevc", plain().as("libx265", "mpegts").b(2), PLAIN);
        // 2^33 ticks of 90 kHz are 95 443.718 s; the muxer adds 1.4 s (ISO/IEC 13818-1, 2.4.3.7: 33 bits)
        add("ts whose clock wraps", plain().as("libx264", "mpegts").b(2).offset(95_441 * 25), PLAIN);
        add(
                "ts without its first key frame",
                cutInto(plain().as("libx264", "mpegts"), 5),
                Expected.at(starts(38), 38 * 40_000L, numbers(12, 50), STARTS_MIDWAY));
        add(
                "two ts joined",
                Damage.joined(plain().as("libx264", "mpegts").b(2).offset(100), second("libx264", "mpegts"), "ts"),
                Expected.steady(100, RATE, CLOCK_JUMPS));
        add(
                "ts with a gap",
                Damage.joined(
                        plain().as("libx264", "mpegts").b(2),
                        second("libx264", "mpegts").offset(1_000),
                        "ts"),
                Expected.steady(100, RATE, CLOCK_JUMPS));
        add("ps with missing times", mpeg2("vob"), Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add(
                "ps without b-frames",
                plain().as("mpeg2video", "vob").sound(0, 2),
                Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add(
                "two ps joined",
                Damage.joined(mpeg2("vob"), second("mpeg2video", "vob"), "vob"),
                Expected.steady(100, RATE, CLOCK_JUMPS, TIMES_GUESSED));
        add("ps anamorphic", mpeg2("vob").pixels(16, 15), Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add("ps interlaced", mpeg2("vob").interlaced(), Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add(
                "raw h264",
                StampedFile.frames(COUNT, 30).as("libx264", "h264").b(2),
                Expected.steady(COUNT, 30, TIMES_GUESSED));
        add(
                "raw h264 open gop",
                plain().as("libx264", "h264").b(2).gop(10).openGop(),
                Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add("raw hevc", plain().as("libx265", "hevc").b(2), Expected.steady(COUNT, RATE, TIMES_GUESSED));
    }

    /** Cut at a key picture whose leading pictures, shown before it, lean on what is cut off. */
    private void openGopsCutInto() {
        Expected fromTen = Expected.at(starts(40), 1_600_000, numbers(10, 50), STARTS_MIDWAY);
        add(
                "mkv hevc cut at an open gop",
                cutInto(plain().as("libx265", "matroska").b(3).gop(10).openGop(), 7),
                fromTen);
        add(
                "ts h264 cut at an open gop",
                cutInto(plain().as("libx264", "mpegts").b(2).gop(10).openGop(), 8),
                fromTen);
        add(
                "ts mpeg-2 cut at an open gop",
                cutInto(plain().as("mpeg2video", "mpegts").b(2).gop(12).openGop(), 10),
                Expected.at(starts(38), 1_520_000, numbers(12, 50), STARTS_MIDWAY));
    }

    private static StampedFile second(String coder, String container) {
        return plain().as(coder, container).b(2).stampsFrom(COUNT);
    }

    private static StampedFile cutInto(StampedFile recipe, int packets) {
        return recipe.filter(stamp -> stamp.number() < packets ? null : stamp);
    }

    private void otherContainers() {
        add("mkv with b-frames", plain().as("libx264", "matroska").b(2), PLAIN);
        add("mkv open gop", plain().as("libx264", "matroska").b(2).gop(10).openGop(), PLAIN);
        add("mkv hevc open gop", plain().as("libx265", "matroska").b(3).gop(10).openGop(), PLAIN);
        add("mkv interlaced", plain().as("libx264", "matroska").interlaced(), PLAIN);
        add(
                "webm vp9",
                plain().as("libvpx-vp9", "webm")
                        .coderOption("deadline", "realtime")
                        .coderOption("cpu-used", "8"),
                PLAIN);
        // AVI has no display times; where pictures may be reordered, their place must be worked out
        add("avi without b-frames", plain().as("libx264", "avi"), Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add("avi with b-frames", plain().as("libx264", "avi").b(2), Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add("avi mpeg-4 with b-frames", plain().as("mpeg4", "avi").b(2), Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add("avi mjpeg", plain().as("mjpeg", "avi").sound(0, 2), PLAIN);
        add(
                "avi without its index",
                Damage.cutAt(plain().as("libx264", "avi"), "idx1", "no-index.avi"),
                Expected.steady(COUNT, RATE, TIMES_GUESSED));
        add("wmv", plain().as("wmv2", "asf"), PLAIN);
    }

    private void rates() {
        add("mp4 of 0.5 frames a second", StampedFile.frames(6, 1).ticks(2, 1), Expected.steady(6, 0.5));
        add(
                "ts of 0.5 frames a second",
                StampedFile.frames(6, 1).ticks(2, 1).as("libx264", "mpegts"),
                Expected.steady(6, 0.5));
        add("mp4 of 120 frames a second", StampedFile.frames(240, 120).b(2), Expected.steady(240, 120));
        add(
                "ts of 50 frames a second",
                StampedFile.frames(100, 50).as("libx264", "mpegts").b(2),
                Expected.steady(100, 50));
        add(
                "mp4 of 29.97 frames a second",
                StampedFile.frames(60, 30).ticks(1_001, 30_000).b(2),
                Expected.steady(60, 30_000 / 1_001.0));
        long[] uneven = {0, 40, 80, 200, 210, 450, 451, 1_000, 1_040, 3_000, 3_001, 3_333};
        add("mp4 of a varying rate", StampedFile.at(1_000, uneven).b(2).gop(5), uneven(uneven));
        add(
                "mkv of a varying rate",
                StampedFile.at(1_000, uneven).as("libx264", "matroska").gop(5),
                uneven(uneven));
    }

    /** The last frame of such a recipe is one tick long. */
    private static Expected uneven(long[] ms) {
        return Expected.at(
                LongStream.of(ms).map(t -> t * 1_000).toArray(),
                (ms[ms.length - 1] + 1) * 1_000,
                numbers(0, ms.length));
    }

    private void broken() {
        // the last ten of fifty pictures are gone
        add(
                "mp4 cut short",
                Damage.lastPackets(plain().option("movflags", "faststart"), 10, 0, "short.mp4"),
                Expected.steady(40, RATE));
        add(
                "mp4 cut short by two fifths",
                Damage.lastPackets(plain().option("movflags", "faststart"), 20, 0, "short.mp4"),
                Expected.steady(30, RATE, CUT_SHORT));
        add(
                "mp4 cut within a picture",
                Damage.lastPackets(plain().option("movflags", "faststart"), 20, 7, "half.mp4"),
                Expected.steady(30, RATE, CUT_SHORT));
        add(
                "mp4 fragmented and cut",
                Damage.lastPackets(
                        plain().gop(10).option("movflags", "frag_keyframe+empty_moov+skip_trailer"), 3, 0, "frag.mp4"),
                Expected.steady(47, RATE));
        add("mp4 with a zero tail", Damage.zeroTail(plain(), "tail.mp4"), Expected.steady(COUNT, RATE, ZERO_TAIL));
        add(
                "ts with a zero tail",
                Damage.zeroTail(plain().as("libx264", "mpegts"), "tail.ts"),
                Expected.steady(COUNT, RATE, ZERO_TAIL));
        // picture 29 is wiped; up to the next key picture, 36, others lean on it
        add(
                "mp4 damaged in the middle",
                Damage.wiped(plain().option("movflags", "faststart"), 29, "wiped.mp4"),
                Expected.steady(COUNT, RATE, DAMAGED).damaged(29, 36));
        add(
                "mkv that promises a minute",
                Damage.mkvDuration(plain().as("libx264", "matroska"), 60_000, "long.mkv"),
                Expected.steady(COUNT, RATE, CUT_SHORT));
        add(
                "mkv that promises half a second",
                Damage.mkvDuration(plain().as("libx264", "matroska"), 500, "brief.mkv"),
                PLAIN);
        add("signs in the name", Damage.plain(plain(), "Übung Größe #1 100% ñ 手術" + COLON + " x.mp4"), PLAIN);
    }

    private void oddTimes() {
        add(
                "mkv with a repeated time",
                plain().as("libx264", "matroska").filter(s -> moved(s, 10, -1, -1)),
                Expected.at(
                        LongStream.range(0, 50)
                                .filter(n -> n != 10)
                                .map(n -> n * 40_000)
                                .toArray(),
                        2_000_000,
                        IntStream.range(0, 50).filter(n -> n != 9).toArray(),
                        DUPLICATE_TIMES));
        // picture 20 claims the time between 16 and 17: it is shown there
        add(
                "mp4 with a time that goes back",
                StampedFile.frames(COUNT, 50)
                        .ticks(1, 50)
                        .filter(s -> new StampedFile.Stamp(
                                s.number(), 20 + 2 * s.pts() - (s.number() == 20 ? 7 : 0), 2 * s.dts(), s.key())),
                backwards());
    }

    private static StampedFile.Stamp moved(StampedFile.Stamp stamp, int number, long pts, long dts) {
        return stamp.number() == number
                ? new StampedFile.Stamp(number, stamp.pts() + pts, stamp.dts() + dts, stamp.key())
                : stamp;
    }

    private static Expected backwards() {
        int[] stamps = IntStream.concat(
                        IntStream.concat(IntStream.range(0, 17), IntStream.of(20)),
                        IntStream.range(17, COUNT).filter(n -> n != 20))
                .toArray();
        long[] starts = IntStream.of(stamps)
                .mapToLong(n -> n == 20 ? 33 * 20_000L : n * 40_000L)
                .toArray();
        return Expected.at(starts, 49 * 40_000 + 20_000, stamps);
    }

    private void sound() {
        add("mp4 with sound that lasts longer", plain().sound(0, 4), PLAIN);
        add("mp4 with sound that starts later", plain().b(2).sound(0.5, 2), PLAIN);
        add("mp4 with pictures that start later", plain().b(2).offset(20).sound(0, 2), PLAIN);
        add(
                "mkv with sound that lasts longer",
                plain().as("libx264", "matroska").sound(0, 4),
                PLAIN);
        add("mp4 with a cover", plain().cover(), PLAIN);
    }

    private void refused() {
        add("no such file", folder -> folder.resolve("none.mp4"), Expected.refused(Reason.NOT_FOUND));
        add(
                "empty file",
                folder -> Files.write(folder.resolve("empty.mp4"), new byte[0]),
                Expected.refused(Reason.EMPTY));
        add(
                "text under another name",
                folder -> Files.write(
                        folder.resolve("text.mp4"),
                        "These are words, and no pictures at all.\n".repeat(50).getBytes(StandardCharsets.UTF_8)),
                Expected.refused(Reason.NO_VIDEO));
        add("sound alone", StampedFile.frames(1, RATE).noPictures().sound(0, 1), Expected.refused(Reason.NO_VIDEO));
        add(
                "sound with a cover",
                StampedFile.frames(1, RATE).noPictures().sound(0, 1).cover(),
                Expected.refused(Reason.NO_VIDEO));
        add(
                "mp4 that was never closed",
                Damage.firstShare(plain(), 0.6, "open.mp4"),
                Expected.refused(Reason.UNFINISHED));
        add(
                "a folder",
                folder -> Files.createDirectory(folder.resolve("dir.mp4")),
                Expected.refused(Reason.UNREADABLE));
    }

    static long[] starts(int count) {
        return LongStream.range(0, count).map(n -> n * 40_000).toArray();
    }

    static int[] numbers(int from, int to) {
        return IntStream.range(from, to).toArray();
    }
}
