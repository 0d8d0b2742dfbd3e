package org.sideport.app.voice;

/** Where a voice comes from: a microphone, or in tests a sound that is made. */
public interface VoiceInput {

    /** An open source of sound: 48000 samples a second, one channel. */
    interface Line extends AutoCloseable {

        /**
         * Waits for sound.
         *
         * @return how many samples came, at least one; -1 if no more will come
         */
        int read(short[] into);

        /** Also lets a {@link #read} that waits come back. */
        @Override
        void close();
    }

    /** Why there is no sound to be had. */
    final class Unavailable extends Exception {

        private static final long serialVersionUID = 1L;

        /** Why. */
        public enum Reason {
            NO_MICROPHONE,
            REFUSED
        }

        private final Reason reason;

        public Unavailable(Reason reason) {
            super(reason.name());
            this.reason = reason;
        }

        public Reason reason() {
            return reason;
        }
    }

    /**
     * Starts listening; may take a moment.
     *
     * @throws Unavailable if there is no microphone, or it may not be used
     */
    Line open() throws Unavailable;
}
