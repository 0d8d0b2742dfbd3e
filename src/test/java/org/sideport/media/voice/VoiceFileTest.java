package org.sideport.media.voice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.MediaException;

/** Expected values come from how each sound was made. */
class VoiceFileTest {

    private static final int RATE = VoiceWriter.RATE;

    @TempDir
    Path folder;

    private static short[] tone(double hertz, int samples) {
        short[] sound = new short[samples];
        for (int i = 0; i < samples; i++) {
            sound[i] = (short) Math.round(12_000 * Math.sin(2 * Math.PI * hertz * i / RATE));
        }
        return sound;
    }

    private Path write(short[] sound, String name) {
        Path file = folder.resolve(name);
        try (VoiceWriter writer = VoiceWriter.create(file)) {
            // in uneven pieces, as a sound card gives them
            for (int at = 0; at < sound.length; ) {
                int n = Math.min(777, sound.length - at);
                writer.write(Arrays.copyOfRange(sound, at, at + n), n);
                at += n;
            }
            writer.finish();
        }
        return file;
    }

    private static short[] read(Path file) {
        List<short[]> blocks = new ArrayList<>();
        int n = 0;
        try (VoiceReader reader = VoiceReader.open(file)) {
            for (short[] block = reader.next(); block != null; block = reader.next()) {
                blocks.add(block);
                n += block.length;
            }
        }
        short[] all = new short[n];
        int at = 0;
        for (short[] block : blocks) {
            System.arraycopy(block, 0, all, at, block.length);
            at += block.length;
        }
        return all;
    }

    @Test
    void theLengthComesBackToTheSampleWhateverIsLeftOverInTheLastPacket() {
        for (int samples : new int[] {1, 959, 960, 961, 48_000, 100_001}) {
            assertThat(read(write(tone(300, samples), samples + ".ogg")))
                    .as(samples + " samples")
                    .hasSize(samples);
        }
        assertThat(VoiceReader.lengthUs(folder.resolve("48000.ogg"))).isEqualTo(1_000_000);
    }

    @Test
    void aToneIsFoundAgainAtItsFrequency() {
        short[] back = read(write(tone(440, 2 * RATE), "tone.ogg"));
        // Goertzel's sum at each whole hertz over one second from the middle
        int best = 0;
        double strongest = 0;
        for (int hertz = 400; hertz <= 480; hertz++) {
            double re = 0;
            double im = 0;
            for (int i = 0; i < RATE; i++) {
                double angle = 2 * Math.PI * hertz * i / RATE;
                re += back[RATE / 2 + i] * Math.cos(angle);
                im += back[RATE / 2 + i] * Math.sin(angle);
            }
            double power = re * re + im * im;
            if (power > strongest) {
                strongest = power;
                best = hertz;
            }
        }
        assertThat(best).isEqualTo(440);
    }

    @Test
    void aClickStaysAtItsMoment() {
        short[] sound = new short[2 * RATE];
        for (int i = 0; i < 96; i++) {
            sound[RATE + i] = (short) Math.round(28_000 * Math.sin(2 * Math.PI * 1000 * i / RATE));
        }
        short[] back = read(write(sound, "click.ogg"));
        int loudest = 0;
        for (int i = 0; i < back.length; i++) {
            if (Math.abs(back[i]) > Math.abs(back[loudest])) {
                loudest = i;
            }
        }
        // the click lasts 2 ms from 1.000 s on
        assertThat(loudest / (double) RATE).isCloseTo(1.001, within(0.003));
    }

    @Test
    void aFileThatWasNeverFinishedIsReadUpToTheLastSecondOfItsSound() throws Exception {
        Path cut = folder.resolve("crashed.ogg");
        Path file = folder.resolve("running.ogg");
        try (VoiceWriter writer = VoiceWriter.create(file)) {
            writer.write(tone(440, 5 * RATE), 5 * RATE);
            // what is on the disk at this moment
            Files.copy(file, cut);
        }
        assertThat(VoiceReader.lengthUs(cut)).isBetween(4_000_000L, 5_000_000L);
    }

    @Test
    void theWaveformShowsWhereTheSoundIs() {
        short[] sound = new short[RATE];
        short[] half = tone(440, RATE / 2);
        System.arraycopy(half, 0, sound, RATE / 2, half.length);
        Waveform waveform = Waveform.of(write(sound, "half.ogg"));
        assertThat(waveform.size()).isEqualTo(50);
        for (int i = 0; i < 24; i++) {
            assertThat(waveform.greatest(i)).isCloseTo(0f, within(0.02f));
        }
        // amplitude 12000 of 32768 is 0.366; the codec keeps it to about a tenth
        for (int i = 27; i < 49; i++) {
            assertThat(waveform.greatest(i)).isCloseTo(0.366f, within(0.06f));
            assertThat(waveform.least(i)).isCloseTo(-0.366f, within(0.06f));
        }
    }

    @Test
    void theFileIsOpusInOggAndNamesNoProgramVersionOrDate() throws Exception {
        byte[] bytes = Files.readAllBytes(write(tone(440, RATE), "plain.ogg"));
        String text = new String(bytes, StandardCharsets.ISO_8859_1);
        // RFC 7845, section 5.1: capture pattern, head, and pre-skip as the second 16 bit number after it
        assertThat(text).startsWith("OggS").contains("OpusHead", "OpusTags");
        int head = text.indexOf("OpusHead");
        assertThat(bytes[head + 9]).as("channels").isEqualTo((byte) 1);
        int preSkip = (bytes[head + 10] & 0xff) | (bytes[head + 11] & 0xff) << 8;
        assertThat(preSkip).isPositive();
        assertThat(text).doesNotContain("Lavf6", "Lavc6", "libopus 1");
        assertThat(bytes.length).as("32 kbit/s").isLessThan(8_000);
    }

    @Test
    void whatIsNoVoiceIsRefusedInWords() throws Exception {
        Path text = Files.writeString(folder.resolve("words.ogg"), "no sound at all");
        assertThatThrownBy(() -> Objects.requireNonNull(VoiceReader.open(text)))
                .isInstanceOf(MediaException.class)
                .hasMessageContaining("damaged");
        assertThatThrownBy(() -> Objects.requireNonNull(VoiceReader.open(folder.resolve("none.ogg"))))
                .isInstanceOf(MediaException.class)
                .hasMessageContaining("not there");
    }
}
