package org.sideport.app.voice;

import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;
import org.sideport.media.voice.VoiceWriter;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The loudspeakers that the system uses by default. */
public final class Speakers implements VoiceOutput {

    private static final Logger LOG = LoggerFactory.getLogger(Speakers.class);

    /** Of the device's own buffer: 100 ms. */
    private static final int BUFFER = VoiceWriter.RATE / 10;

    @Override
    public Line open() {
        AudioFormat format = new AudioFormat(VoiceWriter.RATE, Short.SIZE, 1, true, false);
        try {
            SourceDataLine line = AudioSystem.getSourceDataLine(format);
            line.open(format, BUFFER * Short.BYTES);
            line.start();
            return new Device(line);
        } catch (LineUnavailableException | SecurityException | IllegalArgumentException none) {
            LOG.info("no loudspeaker", none);
            return new Silence(System::nanoTime);
        }
    }

    private static final class Device implements Line {

        private final SourceDataLine line;

        Device(SourceDataLine line) {
            this.line = line;
        }

        @Override
        public void write(short[] samples) {
            byte[] bytes = new byte[samples.length * Short.BYTES];
            for (int i = 0; i < samples.length; i++) {
                bytes[2 * i] = (byte) samples[i];
                bytes[2 * i + 1] = (byte) (samples[i] >> 8);
            }
            line.write(bytes, 0, bytes.length);
        }

        @Override
        public void drain() {
            line.drain();
        }

        @Override
        public long positionUs() {
            return line.getMicrosecondPosition();
        }

        @Override
        public boolean isSilent() {
            return false;
        }

        @Override
        public void close() {
            line.stop();
            line.flush();
            line.close();
        }
    }
}
