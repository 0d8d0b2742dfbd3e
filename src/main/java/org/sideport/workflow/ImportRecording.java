package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Damage;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.MediaException;
import org.sideport.media.MediaProbe;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.NaturalOrder;
import org.sideport.media.ProbedFile;
import org.sideport.media.join.FileEnds;
import org.sideport.media.join.FileOrder;
import org.sideport.media.join.Joins;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Progress;
import org.sideport.model.Segment;
import org.sideport.model.SegmentJoin;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Takes in a case with or without its recording: look first, then add; nothing is stored before the case is whole. */
public final class ImportRecording {

    /** Warnings that come of the neighbours of a file, not of the file. */
    private static final Set<Code> OF_NEIGHBOURS = EnumSet.of(Code.SIZES_DIFFER, Code.PICTURES_OVERLAP, Code.GAP);

    private final Workspace workspace;

    public ImportRecording(Workspace workspace) {
        this.workspace = workspace;
    }

    /** As {@link #probe}, with a warning for each file that a case of the workspace has already. */
    public RecordingPreview preview(List<Path> files, Progress progress) {
        Access.require(workspace, Permission.ADD_CASE);
        FrameIndexCache cache = new FrameIndexCache(workspace.indexDir());
        RecordingPreview preview = probe(NaturalOrder.sorted(files), cache, progress);
        List<MediaWarning> warnings = new ArrayList<>(preview.warnings());
        for (int i = 0; i < preview.segments().size(); i++) {
            String sha256 = preview.segments().get(i).sha256();
            List<String> users = workspace.read(stores -> stores.cases().usingContent(sha256).stream()
                    .map(code -> Access.may(stores, Permission.SEE_CASE, code) ? code : "of somebody else")
                    .distinct()
                    .toList());
            if (!users.isEmpty()) {
                warnings.add(new MediaWarning(
                        Code.SAME_FILE_TWICE,
                        preview.segments().get(i).file().getFileName() + " belongs to case " + String.join(", ", users)
                                + " already.",
                        i,
                        null));
            }
        }
        return preview.withWarnings(warnings);
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

    /**
     * As {@link #probe(List, Progress)}, with frame times that were read before.
     *
     * @param cache {@code null} to read them anew and keep nothing
     */
    public static RecordingPreview probe(List<Path> files, @Nullable FrameIndexCache cache, Progress progress) {
        List<Looked> looked = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            progress.check();
            Progress part = progress.part((double) i / files.size(), (i + 1.0) / files.size());
            ProbedFile probed = MediaProbe.probe(files.get(i), cache, part.part(0, 0.9));
            FileEnds ends = files.size() == 1 ? null : FileEnds.read(probed, part.part(0.9, 1));
            looked.add(new Looked(probed.segment(), probed.warnings(), probed.damage(), ends));
        }
        return assemble(looked);
    }

    /** One file, with positions from its own start. */
    private record Looked(
            Segment segment,
            List<MediaWarning> warnings,
            List<Damage> damage,
            @Nullable FileEnds ends) {}

    /** The same files, or some of them, in an order that a person chose. */
    public RecordingPreview reorder(RecordingPreview preview, List<Path> order) {
        Map<Path, Looked> byFile = new HashMap<>();
        long startUs = 0;
        for (int i = 0; i < preview.segments().size(); i++) {
            Segment segment = preview.segments().get(i);
            int place = i;
            long start = startUs;
            List<Damage> damage = preview.damage().stream()
                    .filter(d -> d.segment() == place)
                    .map(d -> d.in(0, -start))
                    .toList();
            FileEnds ends = i < preview.ends().size() ? preview.ends().get(i) : null;
            byFile.put(segment.file(), new Looked(segment, ownWarnings(preview, i, startUs), damage, ends));
            startUs += segment.durationUs();
        }
        List<Looked> ordered = new ArrayList<>();
        for (Path file : order) {
            Looked one = byFile.get(file);
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
            boolean ofNeighbours = OF_NEIGHBOURS.contains(w.code()) || (w.code() == Code.SAME_FILE_TWICE && at != null);
            if (Integer.valueOf(segment).equals(w.segment()) && !ofNeighbours) {
                own.add(new MediaWarning(w.code(), w.text(), segment, at == null ? null : (Long) (at - startUs)));
            }
        }
        return own;
    }

    private static RecordingPreview assemble(List<Looked> files) {
        List<MediaWarning> warnings = new ArrayList<>();
        Set<String> contents = new HashSet<>();
        List<Damage> damage = new ArrayList<>();
        List<Long> starts = new ArrayList<>();
        List<FileEnds> ends = new ArrayList<>();
        long startUs = 0;
        for (int i = 0; i < files.size(); i++) {
            Segment segment = files.get(i).segment();
            for (MediaWarning w : files.get(i).warnings()) {
                Long at = w.atUs();
                warnings.add(new MediaWarning(w.code(), w.text(), i, at == null ? null : (Long) (startUs + at)));
            }
            for (Damage one : files.get(i).damage()) {
                damage.add(one.in(i, startUs));
            }
            starts.add(startUs);
            FileEnds end = files.get(i).ends();
            if (end != null) {
                ends.add(end);
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
        List<Segment> segments = files.stream().map(Looked::segment).toList();
        if (ends.size() < files.size()) {
            return new RecordingPreview(segments, warnings, List.of(), damage, List.of(), List.of());
        }
        List<SegmentJoin> joins = Joins.of(ends);
        warnings.addAll(Joins.warnings(joins, ends, starts));
        List<Path> proposed = proposedOrder(segments, ends, warnings);
        return new RecordingPreview(segments, warnings, joins, damage, proposed, ends);
    }

    /** Warns where the contents contradict the order; who is right, a person decides. */
    private static List<Path> proposedOrder(List<Segment> segments, List<FileEnds> ends, List<MediaWarning> warnings) {
        FileOrder.Proposal proposal = FileOrder.propose(ends);
        if (proposal == null) {
            return List.of();
        }
        List<Path> files =
                proposal.order().stream().map(i -> segments.get(i).file()).toList();
        String names = files.stream()
                .map(file -> String.valueOf(file.getFileName()))
                .collect(java.util.stream.Collectors.joining(", "));
        warnings.add(new MediaWarning(
                Code.ORDER_DOUBTFUL,
                "The order of the files is doubtful: " + proposal.reason() + ": " + names
                        + ". Nothing was reordered; choose the order yourself if that is right (--keep-order takes the"
                        + " files as given).",
                null,
                null));
        return files;
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
        Access.requireNew(
                workspace.caller(), Permission.ADD_CASE, details.trainee().strip());
        if (preview != null && !acceptCutShort) {
            refuseCutShort(preview);
        }
        SurgicalCase added = checked(workspace, details, preview);
        workspace.change(stores -> store(stores, added, preview));
        return added;
    }

    /** Adds a case, with cuts proposed where its files do not surely follow each other. */
    static void store(Stores stores, SurgicalCase added, @Nullable RecordingPreview preview) {
        Access.requireNew(stores.caller(), Permission.ADD_CASE, added.trainee());
        stores.cases().add(added);
        if (preview != null) {
            JoinCuts.of(preview).forEach(cut -> stores.cuts().save(added.code(), cut));
        }
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
