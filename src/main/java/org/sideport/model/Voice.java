package org.sideport.model;

import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * A spoken comment's sound, by reference, and what was seen meanwhile. A voice identifies whoever speaks: the sound stays
 * in the workspace until somebody copies it out.
 *
 * @param sha256 digest of the sound file, which names it; 64 lower-case hex digits
 * @param lengthUs of the sound, above 0
 * @param captions what is said, by time; empty if nobody has written it down
 */
public record Voice(String sha256, long lengthUs, SeenTrack seen, List<Caption> captions) {

    /** Longest sound, microseconds: ten minutes. */
    public static final long LONGEST_US = 600_000_000;

    public static final int MOST_CAPTIONS = 2000;

    private static final Pattern DIGEST = Pattern.compile("[0-9a-f]{64}");

    public Voice {
        captions = List.copyOf(captions);
        if (!DIGEST.matcher(sha256).matches()) {
            throw new IllegalArgumentException("not a digest: " + sha256);
        }
        if (lengthUs <= 0) {
            throw new InputException("nothing was recorded", null, "hold the key while you speak");
        }
        if (captions.size() > MOST_CAPTIONS) {
            throw new InputException(
                    "there are " + captions.size() + " captions", null, "keep to " + MOST_CAPTIONS + " at most");
        }
        for (int i = 1; i < captions.size(); i++) {
            if (captions.get(i).fromUs() < captions.get(i - 1).fromUs()) {
                throw new IllegalArgumentException("captions out of order");
            }
        }
    }

    public Voice withCaptions(List<Caption> now) {
        return new Voice(sha256, lengthUs, seen, now);
    }

    /** What is said at a moment of the voice, one caption a line; empty if nothing is known. */
    public String captionAt(long voiceUs) {
        return captions.stream()
                .filter(caption -> caption.isAt(voiceUs))
                .map(Caption::text)
                .collect(Collectors.joining("\n"));
    }
}
