package org.sideport.workflow.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CommentTone;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.report.exchange.AnnotationReader;
import org.sideport.report.exchange.Note;
import org.sideport.report.exchange.OtioReader;
import org.sideport.report.exchange.WebVtt;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Takes tags and comments in from files in a published format: all of a file or nothing, twice is as good as once. */
public final class ImportOpen {

    private final Workspace workspace;

    public ImportOpen(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What to take.
     *
     * @param annotator code of whose tags they become, and of who says what names nobody
     * @param format {@code null} to go by the file's ending
     * @param replace true to put tags in the place of those that the annotator has already
     * @param tone of comments that say none
     */
    public record Wanted(
            String code, String annotator, @Nullable OpenFormat format, boolean replace, CommentTone tone) {}

    /**
     * What came, or would.
     *
     * @param phases spans that were taken; none if they were here already
     * @param events that were taken; none if they were here already
     * @param comments that are new
     * @param same comments that were here already
     * @param kept comments that are here with other words, which stay
     * @param notes sentences about what was left out
     */
    public record Taken(
            String code,
            String annotator,
            int phases,
            int events,
            int comments,
            int same,
            int kept,
            List<String> notes) {
        public Taken {
            notes = List.copyOf(notes);
        }
    }

    /** What {@link #take} would do; nothing is changed. */
    public Taken look(Path file, Wanted wanted) {
        return workspace.read(stores -> sort(stores, file, wanted).taken());
    }

    /**
     * @throws InputException at the first thing in the file that does not fit, or if the annotator has tags already that are
     *     not to be replaced; nothing is changed then
     */
    public Taken take(Path file, Wanted wanted) {
        return workspace.write(stores -> {
            NoteSorter sorter = sort(stores, file, wanted);
            sorter.store();
            Taken taken = sorter.taken();
            stores.audit()
                    .add(
                            "tags.import_file",
                            taken.code(),
                            "",
                            taken.phases() + " phases, " + taken.events() + " events, " + taken.comments()
                                    + " comments of " + taken.annotator());
            return taken;
        });
    }

    private NoteSorter sort(Stores stores, Path file, Wanted wanted) {
        String who = Codes.require("an annotator", wanted.annotator());
        Access.requireOwn(stores.caller(), who);
        Access.require(stores, Permission.TAG, wanted.code());
        Access.require(stores, Permission.COMMENT, wanted.code());
        SurgicalCase one = stores.cases().get(wanted.code());
        Procedure procedure = new Vocabularies(workspace).procedure(one.procedure());
        NoteSorter sorter = new NoteSorter(stores, one, procedure, who, wanted.tone(), wanted.replace());
        sorter.read(file.toString(), notes(file, wanted, one, sorter));
        return sorter;
    }

    private static List<Note> notes(Path file, Wanted wanted, SurgicalCase one, NoteSorter sorter) {
        OpenFormat format = wanted.format() == null ? formatOf(file) : wanted.format();
        if (format == null || !format.isReadable()) {
            throw new InputException(
                    format == null
                            ? "its ending does not tell what it is"
                            : "tags cannot be taken in from " + format.id(),
                    file.toString(),
                    "use WebVTT (.vtt), SubRip (.srt), OpenTimelineIO (.otio) or Web Annotations (.jsonld), and say"
                            + " which with --format where the ending is another");
        }
        return switch (format) {
            case OTIO -> {
                OtioReader.Read read = OtioReader.read(file);
                sorter.leftOut(read.leftOut(), "marker before the start of the timeline");
                yield read.notes();
            }
            case ANNOTATION -> {
                AnnotationReader.Read read = AnnotationReader.read(file, one.recording());
                sorter.leftOut(read.leftOut(), "annotation without a time, or answering another,");
                yield read.notes();
            }
            default -> WebVtt.read(file);
        };
    }

    /** By the ending of its name; {@code null} if that says nothing. */
    public static @Nullable OpenFormat formatOf(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        if (Files.isDirectory(file)) {
            return null;
        }
        if (name.endsWith(".vtt")) {
            return OpenFormat.VTT;
        }
        if (name.endsWith(".srt")) {
            return OpenFormat.SRT;
        }
        if (name.endsWith(".otio")) {
            return OpenFormat.OTIO;
        }
        return name.endsWith(".jsonld") ? OpenFormat.ANNOTATION : null;
    }
}
