package org.sideport.app.voice;

import java.nio.file.Path;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Voice;

/** A voice being recorded: a thread of its own carries it from the input to the file. */
final class VoiceRecording {

    private static final int BLOCK = VoiceWriter.PACKET;

    private final VoiceInput.Line line;
    private final Path part;
    private final LongSupplier nanos;
    private final long start;
    private final Executor screen;
    private final Consumer<@Nullable RuntimeException> done;
    private volatile long lengthUs;
    private volatile float level;
    private volatile boolean heard;
    private volatile long stopAtUs = Voice.LONGEST_US;

    /**
     * @param nanos a clock
     * @param done called once on {@code screen} when the file is complete, with what went wrong if anything did
     */
    VoiceRecording(
            VoiceInput.Line line,
            Path part,
            LongSupplier nanos,
            Executor screen,
            Consumer<@Nullable RuntimeException> done) {
        this.line = line;
        this.part = part;
        this.nanos = nanos;
        this.start = nanos.getAsLong();
        this.screen = screen;
        this.done = done;
    }

    void start() {
        Thread thread = new Thread(this::carry, "voice");
        thread.setDaemon(true);
        thread.start();
    }

    private void carry() {
        RuntimeException failure = null;
        try (line;
                VoiceWriter writer = VoiceWriter.create(part)) {
            short[] block = new short[BLOCK];
            while (lengthUs < stopAtUs) {
                int n = line.read(block);
                if (n < 0) {
                    break;
                }
                writer.write(block, n);
                lengthUs = writer.lengthUs();
                measure(block, n);
            }
            writer.finish();
        } catch (RuntimeException e) {
            failure = e;
        }
        RuntimeException wrong = failure;
        screen.execute(() -> done.accept(wrong));
    }

    private void measure(short[] block, int n) {
        int loudest = 0;
        for (int i = 0; i < n; i++) {
            loudest = Math.max(loudest, Math.abs(block[i]));
        }
        heard |= loudest > 0;
        level = loudest / 32768f;
    }

    /** How long it has been running: where in the voice something belongs that happens now. */
    long nowUs() {
        return Math.max(0, (nanos.getAsLong() - start) / 1000);
    }

    /** How much sound has come. */
    long lengthUs() {
        return lengthUs;
    }

    /** Loudest amplitude of the last 20 ms, 0 to 1. */
    float level() {
        return level;
    }

    /** Whether anything but digital silence has come: a system that refuses access may give silence instead. */
    boolean hasHeard() {
        return heard;
    }

    /** Ends it with what has been said up to now. */
    void stop() {
        stopAtUs = Math.min(stopAtUs, nowUs());
    }

    /** Ends it even if the input gives nothing more. */
    void force() {
        line.close();
    }
}
