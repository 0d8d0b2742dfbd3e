package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_SIZE;
import static org.bytedeco.ffmpeg.global.avformat.avio_alloc_context;
import static org.bytedeco.ffmpeg.global.avformat.avio_context_free;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.av_free;
import static org.bytedeco.ffmpeg.global.avutil.av_malloc;

import java.io.IOException;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.Read_packet_Pointer_BytePointer_int;
import org.bytedeco.ffmpeg.avformat.Seek_Pointer_long_int;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.Pointer;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.FileRanges;

/** Lets FFmpeg's libraries read parts of a file as one stream. Must be closed after what reads from it. */
final class RangeInput implements AutoCloseable {

    private static final int BUFFER = 1 << 18;

    private static final int EIO = -5;

    private static final int SEEK_SET = 0;
    private static final int SEEK_CUR = 1;
    private static final int SEEK_END = 2;

    /** FFmpeg's flag for a seek at any cost, which says nothing about from where. */
    private static final int AVSEEK_FORCE = 0x20000;

    /**
     * The native side can hold ten Java callbacks of a kind, so all inputs share one of each and are told apart by the
     * number that FFmpeg hands back.
     */
    private static final Map<Long, RangeInput> OPEN = new ConcurrentHashMap<>();

    private static final AtomicLong NUMBERS = new AtomicLong(1);
    private static final Read READ = new Read();
    private static final Seek SEEK = new Seek();

    private final long number = NUMBERS.getAndIncrement();
    private final FileRanges.Reader reader;
    private final AVIOContext io;
    private byte[] bytes = new byte[BUFFER];

    private RangeInput(FileRanges.Reader reader) {
        this.reader = reader;
        BytePointer buffer = new BytePointer(av_malloc(BUFFER));
        OPEN.put(number, this);
        io = avio_alloc_context(buffer, BUFFER, 0, new Handle(number), READ, null, SEEK);
    }

    /** @throws MediaException if the file cannot be opened */
    static RangeInput open(FileRanges ranges) {
        try {
            return new RangeInput(ranges.open());
        } catch (IOException e) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    "cannot be read: " + e.getMessage(),
                    ranges.file().toString(),
                    null);
        }
    }

    AVIOContext io() {
        return io;
    }

    private int read(BytePointer into, int length) throws IOException {
        if (bytes.length < length) {
            bytes = new byte[length];
        }
        int read = reader.read(bytes, length);
        if (read < 0) {
            return AVERROR_EOF;
        }
        into.position(0).put(bytes, 0, read);
        return read;
    }

    private long seek(long offset, int whence) {
        if (whence == AVSEEK_SIZE) {
            return reader.size();
        }
        long from =
                switch (whence & ~AVSEEK_FORCE) {
                    case SEEK_SET -> 0;
                    case SEEK_CUR -> reader.position();
                    case SEEK_END -> reader.size();
                    default -> -1;
                };
        if (from < 0 || from + offset < 0) {
            return EIO;
        }
        reader.seek(from + offset);
        return from + offset;
    }

    @Override
    public void close() {
        OPEN.remove(number);
        // the library may have put another buffer in the place of ours
        av_free(io.buffer());
        avio_context_free(io);
        try {
            reader.close();
        } catch (IOException e) {
            // it was only read from
        }
    }

    /** A number in the clothes of an address. */
    private static final class Handle extends Pointer {
        Handle(long number) {
            address = number;
        }
    }

    private static final class Read extends Read_packet_Pointer_BytePointer_int {

        @Override
        public int call(Pointer opaque, BytePointer into, int length) {
            // nothing may be thrown through native frames
            try {
                RangeInput input = OPEN.get(opaque.address());
                return input == null ? EIO : input.read(into, length);
            } catch (IOException | RuntimeException | Error e) {
                return EIO;
            }
        }
    }

    private static final class Seek extends Seek_Pointer_long_int {

        @Override
        public long call(Pointer opaque, long offset, int whence) {
            try {
                RangeInput input = OPEN.get(opaque.address());
                return input == null ? EIO : input.seek(offset, whence);
            } catch (RuntimeException | Error e) {
                return EIO;
            }
        }
    }
}
