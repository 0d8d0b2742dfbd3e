package org.sideport.model;

/**
 * What was said over a stretch of a voice, as text.
 *
 * @param fromUs from the start of the voice, microseconds
 * @param toUs after {@code fromUs}
 */
public record Caption(long fromUs, long toUs, String text) {

    public Caption {
        text = text.strip();
        if (fromUs < 0 || toUs <= fromUs || text.isEmpty()) {
            throw new IllegalArgumentException("not a caption: " + fromUs + " to " + toUs + " \"" + text + '"');
        }
    }

    public boolean isAt(long voiceUs) {
        return fromUs <= voiceUs && voiceUs < toUs;
    }
}
