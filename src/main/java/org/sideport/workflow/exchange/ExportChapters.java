package org.sideport.workflow.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.export.Chapter;
import org.sideport.media.export.NeutralCopy;
import org.sideport.media.export.NeutralNames;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.report.exchange.Annotated;
import org.sideport.report.exchange.Dropped;
import org.sideport.report.exchange.FfMetadata;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.Vocabularies;

/** Copies a case's recording without loss and without tags, with its phases as chapters inside. */
public final class ExportChapters {

    private final Workspace workspace;

    public ExportChapters(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * @param annotator whose tags; {@code null} where one or nobody has tagged
     * @param sound true to keep the sound, in which people speak
     * @param purpose what the copies are for, of which consent is asked
     */
    public record Wanted(String code, @Nullable String annotator, boolean sound, ConsentPurpose purpose) {}

    /**
     * @param files one for each file of the recording
     * @param roundingUs by how much a container moved a chapter's time at most, microseconds
     * @param dropped sentences about what chapters do not hold
     */
    public record Exported(
            List<Path> files, int chapters, long roundingUs, List<String> dropped, List<String> warnings) {
        public Exported {
            files = List.copyOf(files);
            dropped = List.copyOf(dropped);
            warnings = List.copyOf(warnings);
        }
    }

    /**
     * Writes the copies into a folder under the case's code; all or none.
     *
     * @throws InputException if consent and the unit's rules refuse it, there is no recording or no phase, a file's kind has no
     *     place for chapters, or a copy turns out not to be faithful
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public Exported export(Wanted wanted, Path folder, boolean replace, Progress progress) {
        List<String> warnings = new ArrayList<>();
        record Case(SurgicalCase one, Annotated tags) {}
        Case found = workspace.read(stores -> {
            SurgicalCase one = OpenParts.require(stores, wanted.code(), wanted.purpose(), warnings);
            HideAreas.warn(stores, one.code(), warnings);
            return new Case(
                    one,
                    OpenParts.annotated(
                            stores, one, new Vocabularies(workspace).procedure(one.procedure()), wanted.annotator()));
        });
        Recording recording = new OpenRecording(workspace).locate(found.one(), List.of(), progress.part(0, 0.05));
        if (found.tags().tagging().spans().isEmpty()) {
            throw new InputException("case " + found.one().code() + " has no phases", null, "tag them first");
        }
        List<Path> sources = recording.segments().stream().map(s -> s.file()).toList();
        makeFolder(folder);
        List<Path> targets = NeutralNames.propose(sources, folder, found.one().code());
        List<Path> made = new ArrayList<>();
        long rounding = 0;
        int chapters = 0;
        try {
            for (int i = 0; i < sources.size(); i++) {
                List<Chapter> own = FfMetadata.ofFile(found.tags(), recording, i);
                Progress part = progress.part(0.05 + 0.95 * i / sources.size(), 0.05 + 0.95 * (i + 1) / sources.size());
                boolean existed = Files.exists(targets.get(i));
                NeutralCopy.Result result =
                        NeutralCopy.withChapters(sources.get(i), wanted.sound(), own, targets.get(i), replace, part);
                if (!existed) {
                    made.add(targets.get(i));
                }
                rounding = Math.max(rounding, result.chapterRoundingUs());
                chapters += own.size();
            }
        } catch (RuntimeException e) {
            made.forEach(file -> delete(file, e));
            throw e;
        }
        workspace.change(stores ->
                stores.audit().add("case.export_chapters", found.one().code(), "", targets.size() + " files"));
        return new Exported(targets, chapters, rounding, Dropped.ofChapters(found.tags(), 1), warnings);
    }

    private static void makeFolder(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (java.io.IOException e) {
            throw new InputException("the folder cannot be made", folder.toString(), "choose another", e);
        }
    }

    private static void delete(Path file, RuntimeException because) {
        try {
            Files.deleteIfExists(file);
        } catch (java.io.IOException left) {
            because.addSuppressed(left);
        }
    }
}
