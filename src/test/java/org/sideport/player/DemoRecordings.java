package org.sideport.player;

import java.nio.file.Path;
import java.util.Arrays;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.RecordingPreview;

/** The recordings in {@code demo-data}, whose frames carry their number. */
public final class DemoRecordings {

    /** 25 frames a second, 2228 frames in two files of 925 and 1303, by {@code D-001-truth.json}. */
    public static final String[] D001 = {"D-001_part9.mp4", "D-001_part10.mp4"};

    /** 25 frames a second, 2195 frames, with sound, by {@code D-002-truth.json}. */
    public static final String[] D002 = {"D-002.mp4"};

    /** Looked at once, since that decodes the ends of the files. */
    private static final class Looked {
        static final RecordingPreview D001 = probe(DemoRecordings.D001);
        static final RecordingPreview D002 = probe(DemoRecordings.D002);
    }

    private DemoRecordings() {}

    /** What the import found out of these files. */
    public static RecordingPreview preview(String... names) {
        if (Arrays.equals(names, D001)) {
            return Looked.D001;
        }
        return Arrays.equals(names, D002) ? Looked.D002 : probe(names);
    }

    private static RecordingPreview probe(String... names) {
        return ImportRecording.probe(
                Arrays.stream(names).map(DemoRecordings::file).toList(), Progress.NONE);
    }

    public static Path file(String name) {
        return Path.of(System.getProperty("sideport.home", "."), "demo-data", name)
                .toAbsolutePath()
                .normalize();
    }

    public static Recording recording(String... names) {
        return preview(names).recording();
    }
}
