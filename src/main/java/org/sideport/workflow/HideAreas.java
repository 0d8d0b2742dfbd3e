package org.sideport.workflow;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.text.TextFinder;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Says which areas of a case's picture may not be seen by whoever gets something of it, or marks it blind: a name or a day
 * that a machine wrote into the picture, say. Films, stills, pages and papers are black there, and so is every picture of
 * the program for a blinded assessor. The recording itself stays as it is.
 */
public final class HideAreas {

    private final Workspace workspace;

    public HideAreas(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * A frame to choose areas on.
     *
     * @param at when it begins
     * @param width of the picture in display pixels, in which areas are given
     * @param height the same
     * @param length of the recording
     */
    public record Still(FramePicture picture, MediaTime at, int width, int height, MediaTime length) {}

    /**
     * The areas of a case.
     *
     * @throws InputException if there is no such case
     */
    public List<MaskArea> of(String code) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, code);
            return stores.hiddenAreas().of(code);
        });
    }

    /**
     * Puts these areas in the place of those that are there.
     *
     * @throws InputException if there is no such case, or it is marked blind
     */
    public void replace(String code, List<MaskArea> areas) {
        List<MaskArea> all = List.copyOf(new LinkedHashSet<>(areas));
        workspace.change(stores -> {
            Access.require(stores, Permission.EDIT_CASE, code);
            stores.hiddenAreas().replace(code, all);
        });
    }

    /**
     * The picture at a time of the recording.
     *
     * @throws InputException if there is no such case, or its recording is not to be had
     */
    public Still picture(String code, MediaTime at, Progress progress) {
        Recording recording = recording(code, progress.part(0, 0.1));
        try (RecordingFrames frames =
                RecordingFrames.open(recording, new FrameIndexCache(workspace.indexDir()), progress.part(0.1, 0.9))) {
            FrameRef frame = frames.frameAt(at);
            FramePicture picture = frames.picture(frame);
            return new Still(
                    picture,
                    frame.start(),
                    (int) Math.round(picture.height() * picture.displayAspect()),
                    picture.height(),
                    recording.duration());
        }
    }

    /**
     * Looks for what may be writing in the picture; it can miss some, so that a person has to look too.
     *
     * @return where it may be, for the whole recording; may be empty
     * @throws InputException if there is no such case, or its recording is not to be had
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public List<MaskArea> findWriting(String code, Progress progress) {
        Recording recording = recording(code, progress.part(0, 0.05));
        return TextFinder.find(recording.segments().stream().map(Segment::file).toList(), progress.part(0.05, 1))
                .stream()
                .map(found -> new MaskArea(found.x(), found.y(), found.width(), found.height()))
                .distinct()
                .toList();
    }

    private Recording recording(String code, Progress progress) {
        SurgicalCase one = workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, code);
            return stores.cases().get(code);
        });
        return new OpenRecording(workspace).locate(one, List.of(), progress);
    }

    /** What a handout hides: what the case says, and what is asked for besides. */
    public static List<MaskArea> with(Stores stores, String code, List<MaskArea> besides) {
        Set<MaskArea> all = new LinkedHashSet<>(stores.hiddenAreas().of(code));
        all.addAll(besides);
        return List.copyOf(all);
    }

    /** Tells whoever hands out the recording itself what it shows. */
    public static void warn(Stores stores, String code, List<String> warnings) {
        if (!stores.hiddenAreas().of(code).isEmpty()) {
            warnings.add("It holds the recording itself, with what films, stills and pages of this case hide.");
        }
    }
}
