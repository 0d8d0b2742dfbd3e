package org.sideport.workflow.exchange;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Sha256;
import org.sideport.model.SurgicalCase;
import org.sideport.report.AtomicFile;
import org.sideport.report.exchange.Annotated;
import org.sideport.report.exchange.AnnotationWriter;
import org.sideport.report.exchange.CaseFile;
import org.sideport.report.exchange.Dropped;
import org.sideport.report.exchange.FfMetadata;
import org.sideport.report.exchange.OtioWriter;
import org.sideport.report.exchange.SubRip;
import org.sideport.report.exchange.WebVtt;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Program;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Writes tags and comments of a case in a published format. */
public final class ExportOpen {

    /** Files with a beginning and nothing in them. */
    private static final Set<String> NOTHING = Set.of("", "WEBVTT\n", ";FFMETADATA1\n");

    private final Workspace workspace;
    private final Clock clock;

    public ExportOpen(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /**
     * What to write.
     *
     * @param annotator whose tags; {@code null} where one or nobody has tagged
     * @param atFrameRate times in whole frames, where the format has them (OpenTimelineIO)
     * @param purpose what the file is for, of which consent is asked
     */
    public record Wanted(
            String code, @Nullable String annotator, OpenFormat format, boolean atFrameRate, ConsentPurpose purpose) {}

    /**
     * @param dropped sentences about what the format has no place for
     * @param warnings sentences that whoever hands the file on must know
     */
    public record Exported(Path file, String sha256, List<String> dropped, List<String> warnings) {
        public Exported {
            dropped = List.copyOf(dropped);
            warnings = List.copyOf(warnings);
        }
    }

    /** Codes of all who have tagged the case: where there are several, one of them is to be named. */
    public List<String> annotators(String code) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, code);
            return stores.taggings().annotators(code);
        });
    }

    /**
     * Writes the file, whole or not at all.
     *
     * @throws InputException if consent and the unit's rules refuse it, part of the case is hidden from the caller, there is
     *     nothing for this format, or the file cannot be written
     */
    public Exported export(Wanted wanted, Path out) {
        List<String> warnings = new ArrayList<>();
        Annotated content = workspace.read(stores -> {
            SurgicalCase one = OpenParts.require(stores, wanted.code(), wanted.purpose(), warnings);
            Procedure procedure = new Vocabularies(workspace).procedure(one.procedure());
            return OpenParts.annotated(stores, one, procedure, wanted.annotator());
        });
        String text = wanted.format() == OpenFormat.JSON ? everything(content) : text(wanted, content);
        if (NOTHING.contains(text)) {
            throw new InputException(
                    "case " + content.code() + " has nothing that "
                            + wanted.format().id() + " holds",
                    null,
                    "tag phases or write comments first, or choose another format");
        }
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        AtomicFile.write(out, stream -> stream.write(bytes));
        String sha256 = Sha256.of(text);
        workspace.change(stores -> stores.audit()
                .add("case.export_" + wanted.format().id().replace('-', '_'), content.code(), "", sha256));
        return new Exported(out.toAbsolutePath(), sha256, dropped(wanted, content), warnings);
    }

    private String text(Wanted wanted, Annotated content) {
        return switch (wanted.format()) {
            case VTT -> WebVtt.metadata(content);
            case VTT_CHAPTERS -> WebVtt.chapters(content);
            case VTT_CAPTIONS -> WebVtt.captions(content);
            case SRT -> SubRip.write(content);
            case FFMETADATA -> FfMetadata.write(content);
            case OTIO -> OtioWriter.write(content, wanted.atFrameRate());
            case ANNOTATION -> AnnotationWriter.write(content, clock.instant());
            case JSON -> throw new IllegalArgumentException("written from the store");
        };
    }

    private static List<String> dropped(Wanted wanted, Annotated content) {
        return switch (wanted.format()) {
            case VTT -> Dropped.ofVtt(content);
            case VTT_CHAPTERS -> Dropped.ofChapters(content, 1000);
            case VTT_CAPTIONS -> Dropped.ofCaptions(content, false);
            case SRT -> Dropped.ofCaptions(content, true);
            case FFMETADATA -> Dropped.ofChapters(content, 1);
            case OTIO -> Dropped.ofOtio(content, wanted.atFrameRate());
            case ANNOTATION -> Dropped.ofVtt(content);
            case JSON -> Dropped.ofEverything(content);
        };
    }

    private String everything(Annotated content) {
        return workspace.read(stores -> {
            SurgicalCase one = stores.cases().get(content.code());
            List<StoredRating> ratings = ratings(stores, one.code());
            return CaseFile.write(
                    CaseParts.of(stores, one, ratings),
                    ratings,
                    content.procedure(),
                    "Sideport " + Program.VERSION,
                    clock.instant());
        });
    }

    private static List<StoredRating> ratings(Stores stores, String code) {
        return stores.ratings().ofCase(code, Access.marks(stores.caller())).stream()
                .filter(r -> ExportCase.goesOut(stores.caller(), r))
                .toList();
    }
}
