package org.sideport.workflow.exchange;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.sideport.model.InputException;

/** A published way to hand tags and comments to other programs. */
public enum OpenFormat {
    /** WebVTT metadata cues that hold everything */
    VTT(".vtt", true),
    /** WebVTT chapters out of phases */
    VTT_CHAPTERS(".vtt", true),
    /** WebVTT captions out of comments */
    VTT_CAPTIONS(".vtt", true),
    /** SubRip captions out of comments and events */
    SRT(".srt", true),
    /** FFmpeg's metadata text with chapters */
    FFMETADATA(".txt", false),
    /** OpenTimelineIO */
    OTIO(".otio", true),
    /** W3C Web Annotation */
    ANNOTATION(".jsonld", true),
    /** everything that is stored of the case, by schemas of our own */
    JSON(".json", false);

    private final String ending;
    private final boolean readable;

    OpenFormat(String ending, boolean readable) {
        this.ending = ending;
        this.readable = readable;
    }

    /** As written on the command line: lower case with hyphens. */
    public String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What a file of it is called at the end, with the dot. */
    public String ending() {
        return ending;
    }

    /** True if tags can be taken in from it. */
    public boolean isReadable() {
        return readable;
    }

    /** @throws InputException if the text names none */
    public static OpenFormat parse(String text) {
        return Arrays.stream(values())
                .filter(f -> f.id().equals(text.strip().toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "\"" + text + "\" is no format",
                        null,
                        "write one of: "
                                + Arrays.stream(values()).map(OpenFormat::id).collect(Collectors.joining(", "))));
    }
}
