package org.sideport.app.voice;

import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.DataLine;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.TargetDataLine;
import org.sideport.app.voice.VoiceInput.Unavailable.Reason;
import org.sideport.media.voice.VoiceWriter;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The microphone that the system uses by default. */
public final class Microphone implements VoiceInput {

    private static final Logger LOG = LoggerFactory.getLogger(Microphone.class);

    /** Of the device's own buffer: 100 ms. */
    private static final int BUFFER = VoiceWriter.RATE / 10;

    @Override
    public Line open() throws Unavailable {
        boolean found = false;
        // some devices have two channels only
        for (int channels = 1; channels <= 2; channels++) {
            AudioFormat format = new AudioFormat(VoiceWriter.RATE, Short.SIZE, channels, true, false);
            DataLine.Info info = new DataLine.Info(TargetDataLine.class, format);
            try {
                if (AudioSystem.isLineSupported(info)) {
                    found = true;
                    TargetDataLine line = (TargetDataLine) AudioSystem.getLine(info);
                    line.open(format, BUFFER * channels * Short.BYTES);
                    line.start();
                    return new Device(line, channels);
                }
            } catch (LineUnavailableException | SecurityException | IllegalArgumentException refused) {
                LOG.info("microphone refused", refused);
            }
        }
        throw new Unavailable(found ? Reason.REFUSED : Reason.NO_MICROPHONE);
    }

    private static final class Device implements Line {

        private final TargetDataLine line;
        private final int channels;
        private byte[] bytes = new byte[0];

        Device(TargetDataLine line, int channels) {
            this.line = line;
            this.channels = channels;
        }

        @Override
        public int read(short[] into) {
            int size = into.length * channels * Short.BYTES;
            if (bytes.length != size) {
                bytes = new byte[size];
            }
            int frames = line.read(bytes, 0, size) / (channels * Short.BYTES);
            for (int i = 0; i < frames; i++) {
                int sum = 0;
                for (int c = 0; c < channels; c++) {
                    int at = (i * channels + c) * Short.BYTES;
                    sum += (short) (bytes[at] & 0xff | bytes[at + 1] << 8);
                }
                into[i] = (short) (sum / channels);
            }
            return frames > 0 ? frames : -1;
        }

        @Override
        public void close() {
            line.stop();
            line.close();
        }
    }
}
