package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_SIZE;
import static org.bytedeco.ffmpeg.global.avformat.avio_alloc_context;
import static org.bytedeco.ffmpeg.global.avformat.avio_context_free;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.av_free;
import static org.bytedeco.ffmpeg.global.avutil.av_malloc;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.FileStore;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.Read_packet_Pointer_BytePointer_int;
import org.bytedeco.ffmpeg.avformat.Seek_Pointer_long_int;
import org.bytedeco.ffmpeg.avformat.Write_packet_Pointer_BytePointer_int;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.Pointer;
import org.jspecify.annotations.Nullable;

/**
 * Lets FFmpeg read a file through Java in large pieces, one at a time. FFmpeg's own reading fetches 32 kB at a time, which
 * on a network drive costs a round trip each. Reads ahead by no more than {@link #PIECE} bytes. Must be closed after the
 * format context that uses it.
 */
final class ChannelIo implements AutoCloseable {

    /** So long a piece keeps a line of 1 Gbit/s with 2 ms to and fro four fifths busy. */
    static final int PIECE = 1 << 20;

    /** Input and output error, as FFmpeg has it: the negative of the system's EIO, 5 everywhere. */
    static final int IO_ERROR = -5;

    private static final Set<String> NETWORK =
            Set.of("cifs", "smb2", "smb3", "smbfs", "nfs", "nfs4", "afpfs", "webdav", "davfs", "9p", "fuse.sshfs");

    private static final int SEEK_SET = 0;
    private static final int SEEK_CUR = 1;
    private static final int SEEK_END = 2;

    /**
     * The native side can hold ten Java callbacks of a kind, so all share one of each and are told apart by the number that
     * FFmpeg hands back.
     */
    private static final Map<Long, ChannelIo> OPEN = new ConcurrentHashMap<>();

    private static final AtomicLong NUMBERS = new AtomicLong(1);
    private static final Read READ = new Read();
    private static final Seek SEEK = new Seek();

    private final long number = NUMBERS.getAndIncrement();
    private final SeekableByteChannel channel;
    private final AVIOContext context;

    private ChannelIo(SeekableByteChannel channel) {
        this.channel = channel;
        BytePointer buffer = new BytePointer(av_malloc(PIECE));
        OPEN.put(number, this);
        context = avio_alloc_context(
                buffer, PIECE, 0, new Handle(number), READ, (Write_packet_Pointer_BytePointer_int) null, SEEK);
    }

    /** Whether a file is better read through this: it lies on a network drive, or where FFmpeg cannot look. */
    static boolean suits(Path file) {
        if (file.getFileSystem() != FileSystems.getDefault()) {
            return true;
        }
        Path whole = file.toAbsolutePath();
        if (whole.toString().startsWith("\\\\")) {
            return true;
        }
        try {
            FileStore store = Files.getFileStore(whole);
            return NETWORK.contains(store.type().toLowerCase(Locale.ROOT));
        } catch (IOException | SecurityException e) {
            return false;
        }
    }

    /** Takes over the channel and closes it in the end. */
    static ChannelIo open(SeekableByteChannel channel) {
        return new ChannelIo(channel);
    }

    AVIOContext context() {
        return context;
    }

    // No exception may leave these two: their caller is native.

    private int read(BytePointer buffer, int size) {
        try {
            // a buffer over native memory: nothing is copied twice
            ByteBuffer into = new BytePointer(buffer).capacity(size).asByteBuffer();
            int count = channel.read(into);
            return count > 0 ? count : AVERROR_EOF;
        } catch (IOException | RuntimeException e) {
            return IO_ERROR;
        }
    }

    private long seek(long offset, int whence) {
        try {
            switch (whence & 0xFF) {
                case SEEK_SET -> {
                    if ((whence & AVSEEK_SIZE) != 0) {
                        return channel.size();
                    }
                    channel.position(offset);
                }
                case SEEK_CUR -> channel.position(channel.position() + offset);
                case SEEK_END -> channel.position(channel.size() + offset);
                default -> {
                    return IO_ERROR;
                }
            }
            return channel.position();
        } catch (IOException | RuntimeException e) {
            return IO_ERROR;
        }
    }

    @Override
    public void close() {
        OPEN.remove(number);
        // the library may have put another buffer in the place of ours
        @Nullable BytePointer buffer = context.buffer();
        if (buffer != null) {
            av_free(buffer);
            context.buffer(null);
        }
        avio_context_free(context);
        try {
            channel.close();
        } catch (IOException e) {
            // it was only read, and the drive may be gone
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
        public int call(Pointer opaque, BytePointer buffer, int size) {
            ChannelIo io = OPEN.get(opaque.address());
            return io == null ? IO_ERROR : io.read(buffer, size);
        }
    }

    private static final class Seek extends Seek_Pointer_long_int {
        @Override
        public long call(Pointer opaque, long offset, int whence) {
            ChannelIo io = OPEN.get(opaque.address());
            return io == null ? IO_ERROR : io.seek(offset, whence);
        }
    }
}
