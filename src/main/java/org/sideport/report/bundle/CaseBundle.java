package org.sideport.report.bundle;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/**
 * A case as it goes into a bundle, or came out of one.
 *
 * @param madeAt ISO 8601
 * @param rubrics the very text of each rubric in use, by {@code ID/VERSION}
 * @param voices sound files by their SHA-256
 * @param media the recording's files in their order; empty for a bundle without
 */
public record CaseBundle(
        String madeAt,
        String program,
        CaseContent content,
        Map<String, String> rubrics,
        Map<String, Path> voices,
        List<Path> media) {

    static final String CONTENT = "content.json";
    static final String RUBRICS = "rubrics/";
    static final String VOICE = "voice/";
    static final String MEDIA = "media/";

    public CaseBundle {
        rubrics = Map.copyOf(rubrics);
        voices = Map.copyOf(voices);
        media = List.copyOf(media);
    }

    /** Key of a rubric's text. */
    public static String rubricKey(String id, String version) {
        return id + "/" + version;
    }

    /** Name of the recording's file with this place in its order, from 0. */
    static String mediaName(CaseContent content, int index) {
        return MEDIA + (index + 1) + "." + content.files().get(index).ending();
    }
}
