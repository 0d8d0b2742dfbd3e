package org.sideport.media.voice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caption;
import org.sideport.model.InputException;

/** Shapes of cues after the W3C's WebVTT document, section 1 (examples) and 4 (syntax); SubRip as widely written. */
class CaptionFileTest {

    @TempDir
    Path folder;

    @Test
    void webVttWithNamesNotesStylesTagsAndSettings() {
        String text = "\uFEFFWEBVTT - a title\nKind: captions\n\nSTYLE\n::cue { color: lime }\n\n"
                + "NOTE this is left out\n\nfirst\n00:01.500 --> 00:04.000 align:start line:0\n<v A1>Hold it <i>here</i>\n"
                + "and wait &amp; see\n\n01:00:00.000 --> 01:00:01.000\na &lt; b\n";
        assertThat(CaptionFile.parse(text, "x.vtt"))
                .containsExactly(
                        new Caption(1_500_000, 4_000_000, "Hold it here\nand wait & see"),
                        new Caption(3_600_000_000L, 3_601_000_000L, "a < b"));
    }

    @Test
    void subRipWithWindowsLineEndsAndOutOfOrder() {
        String text = "2\r\n00:00:05,000 --> 00:00:06,250\r\nsecond\r\n\r\n1\r\n00:00:01,000 --> 00:00:02,000\r\n"
                + "<b>first</b>\r\n";
        assertThat(CaptionFile.parse(text, "x.srt"))
                .containsExactly(
                        new Caption(1_000_000, 2_000_000, "first"), new Caption(5_000_000, 6_250_000, "second"));
    }

    @Test
    void whatDoesNotFitIsRefusedWithItsLine() throws Exception {
        assertThatThrownBy(() -> CaptionFile.parse("WEBVTT\n\n00:01.500 -> 00:04.000\nwords\n", "x.vtt"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line 4");
        assertThatThrownBy(() -> CaptionFile.parse("1\n00:00:04,000 --> 00:00:01,000\nwords\n", "x.srt"))
                .hasMessageContaining("line 2")
                .hasMessageContaining("ends before it starts");
        assertThatThrownBy(() -> CaptionFile.parse("1\n00:00:99,000 --> 00:01:01,000\nwords\n", "x.srt"))
                .hasMessageContaining("line 2");
        assertThatThrownBy(() -> CaptionFile.parse("WEBVTT\n\n", "x.vtt")).hasMessageContaining("no captions");
        assertThatThrownBy(() -> CaptionFile.parse("a letter\nto somebody\n", "x.txt"))
                .isInstanceOf(InputException.class);
        Path latin = Files.write(
                folder.resolve("latin.srt"),
                "1\n00:00:01,000 --> 00:00:02,000\ncaf\u00e9\n".getBytes(StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> CaptionFile.read(latin)).hasMessageContaining("UTF-8");
        assertThatThrownBy(() -> CaptionFile.read(folder.resolve("none.vtt"))).hasMessageContaining("no such file");
    }
}
