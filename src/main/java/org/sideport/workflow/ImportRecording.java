package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.MediaException;
import org.sideport.media.MediaProbe;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.NaturalOrder;
import org.sideport.media.ProbedFile;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Progress;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;

/** Takes in a case with or without its recording: look first, then add; nothing is stored before the case is whole. */
public final class ImportRecording {

    private final Workspace workspace;

    public ImportRecording(Workspace workspace) {
        this.workspace = workspace;
    }

    /** As {@link #probe}, with a warning for each file that a case of the workspace has already. */
    public RecordingPreview preview(List<Path> files, Progress progress) {
        FrameIndexCache cache = new FrameIndexCache(workspace.indexDir());
        RecordingPreview preview = probe(NaturalOrder.sorted(files), cache, progress);
        List<MediaWarning> warnings = new ArrayList<>(preview.warnings());
        for (int i = 0; i < preview.segments().size(); i++) {
            String sha256 = preview.segments().get(i).sha256();
            List<String> users = workspace.read(stores -> stores.cases().usingContent(sha256));
            if (!users.isEmpty()) {
                warnings.add(new MediaWarning(
                        Code.SAME_FILE_TWICE,
                        preview.segments().get(i).file().getFileName() + " belongs to case " + String.join(", ", users)
                                + " already.",
                        i,
                        null));
            }
        }
        return new RecordingPreview(preview.segments(), warnings);
    }

    /**
     * Measures files as one recording, in the order given.
     *
     * @throws MediaException if one of them is no video that can be read
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static RecordingPreview probe(List<Path> files, Progress progress) {
        return probe(files, null, progress);
    }

    private static RecordingPreview probe(List<Path> files, @Nullable FrameIndexCache cache, Progress progress) {
        List<ProbedFile> probed = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            progress.check();
            Progress part = progress.part((double) i / files.size(), (i + 1.0) / files.size());
            probed.add(MediaProbe.probe(files.get(i), cache, part));
        }
        return assemble(probed);
    }

    /** The same files in an order that a person chose. */
    public RecordingPreview reorder(RecordingPreview preview, List<Path> order) {
        Map<Path, ProbedFile> byFile = new HashMap<>();
        long startUs = 0;
        for (int i = 0; i < preview.segments().size(); i++) {
            Segment segment = preview.segments().get(i);
            byFile.put(segment.file(), new ProbedFile(segment, ownWarnings(preview, i, startUs)));
            startUs += segment.durationUs();
        }
        List<ProbedFile> ordered = new ArrayList<>();
        for (Path file : order) {
            ProbedFile one = byFile.get(file);
            if (one == null) {
                throw new IllegalArgumentException("not among the files looked at: " + file);
            }
            ordered.add(one);
        }
        return assemble(ordered);
    }

    /** The warnings of one file with times from its own start; those that come of its neighbours are found anew. */
    private static List<MediaWarning> ownWarnings(RecordingPreview preview, int segment, long startUs) {
        List<MediaWarning> own = new ArrayList<>();
        for (MediaWarning w : preview.warnings()) {
            Long at = w.atUs();
            boolean ofNeighbours = w.code() == Code.SIZES_DIFFER || (w.code() == Code.SAME_FILE_TWICE && at != null);
            if (Integer.valueOf(segment).equals(w.segment()) && !ofNeighbours) {
                own.add(new MediaWarning(w.code(), w.text(), segment, at == null ? null : (Long) (at - startUs)));
            }
        }
        return own;
    }

    private static RecordingPreview assemble(List<ProbedFile> files) {
        List<MediaWarning> warnings = new ArrayList<>();
        Set<String> contents = new HashSet<>();
        long startUs = 0;
        for (int i = 0; i < files.size(); i++) {
            Segment segment = files.get(i).segment();
            for (MediaWarning w : files.get(i).warnings()) {
                Long at = w.atUs();
                warnings.add(new MediaWarning(w.code(), w.text(), i, at == null ? null : (Long) (startUs + at)));
            }
            if (!contents.add(segment.sha256())) {
                warnings.add(new MediaWarning(
                        Code.SAME_FILE_TWICE, segment.file().getFileName() + " is in the list twice.", i, startUs));
            }
            Segment first = files.get(0).segment();
            if (segment.width() != first.width() || segment.height() != first.height()) {
                warnings.add(new MediaWarning(
                        Code.SIZES_DIFFER,
                        segment.file().getFileName() + " has another picture size than the first file: is it the same"
                                + " operation?",
                        i,
                        startUs));
            }
            startUs += segment.durationUs();
        }
        return new RecordingPreview(files.stream().map(ProbedFile::segment).toList(), warnings);
    }

    /**
     * @param preview {@code null} for a case whose timings and marks come from elsewhere
     * @throws InputException if the code is taken or cannot be one, a descriptor is not known, or a file is cut short
     */
    public SurgicalCase addCase(NewCase details, @Nullable RecordingPreview preview) {
        return addCase(details, preview, false);
    }

    /** @param acceptCutShort takes what can be read of a file that ends too early */
    public SurgicalCase addCase(NewCase details, @Nullable RecordingPreview preview, boolean acceptCutShort) {
        if (preview != null && !acceptCutShort) {
            refuseCutShort(preview);
        }
        SurgicalCase added = checked(workspace, details, preview);
        workspace.change(stores -> stores.cases().add(added));
        return added;
    }

    /**
     * The case as it would be stored.
     *
     * @throws InputException if a code cannot be one or a descriptor is not known
     */
    static SurgicalCase checked(Workspace workspace, NewCase details, @Nullable RecordingPreview preview) {
        String code = Codes.require("a case", details.code());
        String trainee = Codes.require("a trainee", details.trainee());
        Procedure procedure = new Vocabularies(workspace).procedure(details.procedure());
        if (!details.consent().recordedBy().isEmpty()) {
            Codes.require(
                    "the person who recorded the consent", details.consent().recordedBy());
        }
        return new SurgicalCase(
                code,
                trainee,
                details.date(),
                procedure.id(),
                Descriptors.check(procedure, details.descriptors()),
                preview == null ? null : preview.recording(),
                details.consent(),
                details.reviewBy());
    }

    static void refuseCutShort(RecordingPreview preview) {
        for (MediaWarning warning : preview.warnings()) {
            Integer segment = warning.segment();
            if (warning.code() == Code.CUT_SHORT && segment != null) {
                throw new MediaException(
                        MediaException.Reason.CUT_SHORT,
                        warning.text(),
                        preview.segments().get(segment).file().toString(),
                        "copy the file again from the recorder, or accept what can be read (--accept-cut-short)");
            }
        }
    }
}
