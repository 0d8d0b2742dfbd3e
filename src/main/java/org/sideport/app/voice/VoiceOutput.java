package org.sideport.app.voice;

/** Where a voice is heard. */
public interface VoiceOutput {

    /** An open way out: 48000 samples a second, one channel. */
    interface Line extends AutoCloseable {

        /** Waits until there is room. */
        void write(short[] samples);

        /** Waits until all has been heard. */
        void drain();

        /** How much has been heard, microseconds. Callable from any thread. */
        long positionUs();

        /** True if time passes but nothing is heard, for want of a loudspeaker. */
        boolean isSilent();

        /** Also lets a {@link #write} or {@link #drain} that waits come back. */
        @Override
        void close();
    }

    /** Never fails: without a loudspeaker, the way out is silent. */
    Line open();
}
