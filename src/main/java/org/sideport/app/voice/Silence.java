package org.sideport.app.voice;

import java.util.function.LongSupplier;
import org.sideport.media.voice.VoiceWriter;

/** Lets sound pass at its speed without a loudspeaker. */
final class Silence implements VoiceOutput.Line {

    /** What may be given ahead of time, microseconds. */
    private static final long AHEAD_US = 100_000;

    private static final long NAP_MS = 5;

    private final LongSupplier nanos;
    private final long start;
    private volatile long writtenUs;
    private volatile boolean closed;

    Silence(LongSupplier nanos) {
        this.nanos = nanos;
        this.start = nanos.getAsLong();
    }

    @Override
    public void write(short[] samples) {
        waitFor(writtenUs - AHEAD_US);
        // one thread writes
        writtenUs = writtenUs + samples.length * 1_000_000L / VoiceWriter.RATE;
    }

    @Override
    public void drain() {
        waitFor(writtenUs);
    }

    private void waitFor(long us) {
        while (!closed && positionUs() < us) {
            try {
                Thread.sleep(NAP_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    @Override
    public long positionUs() {
        return Math.min(writtenUs, (nanos.getAsLong() - start) / 1000);
    }

    @Override
    public boolean isSilent() {
        return true;
    }

    @Override
    public void close() {
        closed = true;
    }
}
