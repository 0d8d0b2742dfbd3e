package org.sideport.app.voice;

import java.util.function.LongSupplier;

/** A tone of 440 Hz instead of a microphone: as much of it has come as the clock has gone on. */
public final class MadeSound implements VoiceInput {

    private final LongSupplier nanos;

    public MadeSound(LongSupplier nanos) {
        this.nanos = nanos;
    }

    @Override
    public Line open() {
        long start = nanos.getAsLong();
        return new Line() {
            private long given;
            private volatile boolean closed;

            @Override
            public int read(short[] into) {
                while ((nanos.getAsLong() - start) / 1000 * 48 / 1000 < given + into.length) {
                    if (closed) {
                        return -1;
                    }
                    try {
                        Thread.sleep(1);
                    } catch (InterruptedException e) {
                        return -1;
                    }
                }
                for (int i = 0; i < into.length; i++) {
                    into[i] = (short) (8000 * Math.sin(2 * Math.PI * 440 * (given + i) / 48_000));
                }
                given += into.length;
                return into.length;
            }

            @Override
            public void close() {
                closed = true;
            }
        };
    }
}
