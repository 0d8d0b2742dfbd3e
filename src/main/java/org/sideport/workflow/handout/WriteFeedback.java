package org.sideport.workflow.handout;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.export.BrowserCopy;
import org.sideport.model.CommentThread;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.Sha256;
import org.sideport.model.Voice;
import org.sideport.report.AtomicFile;
import org.sideport.report.page.Feedback;
import org.sideport.report.page.Feedback.Film;
import org.sideport.report.page.Feedback.Still;
import org.sideport.report.page.FeedbackPage;
import org.sideport.report.page.PageWords;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.Program;
import org.sideport.workflow.ReferenceTimes;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Writes the feedback on a case for the trainee to take away: signed marks, comments, times, and the recording. */
public final class WriteFeedback {

    private final Workspace workspace;

    public WriteFeedback(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What to write.
     *
     * @param language {@code en} or {@code de}
     * @param recording false to leave the recording and the voices out
     * @param sound true to keep the sound of the recording, in which people may be heard
     * @param masks areas of the picture to hide besides those of the case; may be empty
     */
    public record Wanted(String code, String language, boolean recording, boolean sound, List<MaskArea> masks) {
        public Wanted {
            masks = List.copyOf(masks);
        }

        /** With the recording, without its sound. */
        public static Wanted of(String code, String language) {
            return new Wanted(code, language, true, false, List.of());
        }
    }

    /**
     * @param media folder that belongs to the page; {@code null} if there is none
     * @param encoded true if the recording had to be encoded anew
     * @param warnings sentences that whoever hands it on must know
     */
    public record Written(
            Path file, @Nullable Path media, boolean encoded, int marks, int comments, List<String> warnings) {
        public Written {
            warnings = List.copyOf(warnings);
        }
    }

    /** True if the caller may hand out feedback on some case. */
    public boolean isOffered() {
        return Access.may(workspace.caller(), Permission.EXPORT_CASE);
    }

    /**
     * Writes the page and the folder of its media, both or neither.
     *
     * @param out an HTML file, whose media go into {@code NAME-media} beside it, or a PDF, which holds no recording
     * @throws InputException if the caller may not, the trainee's own marks must come first, nothing is signed, the
     *     recording is not there, or nothing can be written there
     * @throws CancellationException if the progress is cancelled; nothing has changed then
     */
    public Written write(Wanted wanted, Path out, Progress progress) {
        PageWords words = PageWords.of(wanted.language());
        record Read(FeedbackReading reading, List<MaskArea> masks) {}
        Read read = workspace.read(stores -> new Read(
                FeedbackReading.of(stores, wanted.code()), HideAreas.with(stores, wanted.code(), wanted.masks())));
        FeedbackReading reading = read.reading();
        List<MaskArea> masks = read.masks();
        List<String> warnings = warnings(reading);
        if (isPaper(out)) {
            Feedback feedback = feedback(
                    reading, null, Map.of(), onPaper(reading, wanted, masks, warnings, progress.part(0, 0.8)), words);
            progress.check();
            AtomicFile.write(out, to -> FeedbackPage.pdf(feedback, words, to));
            noted(reading, "");
            progress.report(1, "Written");
            return new Written(
                    out.toAbsolutePath(),
                    null,
                    false,
                    reading.signedMarks(),
                    reading.comments().size(),
                    warnings);
        }
        try (HandoutFolder folder = HandoutFolder.beside(out)) {
            Recording recording = wanted.recording() && reading.of().recording() != null
                    ? new OpenRecording(workspace).locate(reading.of(), List.of(), progress.part(0, 0.05))
                    : null;
            BrowserCopy.Result copy = recording == null
                    ? null
                    : BrowserCopy.write(
                            recording.segments().stream().map(Segment::file).toList(),
                            masks,
                            wanted.sound(),
                            folder.file(HandoutFolder.FILM),
                            progress.part(0.05, 0.85));
            Map<String, String> voices = copy == null ? Map.of() : voices(reading, folder, warnings);
            Map<String, Still> stills = recording == null
                    ? Map.of()
                    : CommentStills.of(
                            recording,
                            new FrameIndexCache(workspace.indexDir()),
                            reading.comments(),
                            masks,
                            (name, jpeg) -> {
                                folder.write(jpeg, name);
                                return name;
                            },
                            progress.part(0.85, 0.95));
            Feedback feedback = feedback(reading, film(copy, folder), voices, stills, words);
            String page = FeedbackPage.html(feedback, words);
            progress.check();
            // the page is checked for being writable before an earlier folder gives way
            AtomicFile.write(out, to -> to.write(page.getBytes(StandardCharsets.UTF_8)));
            folder.commit();
            workspace.change(
                    stores -> stores.audit().add("export.feedback", reading.of().code(), "", Sha256.of(page)));
            progress.report(1, "Written");
            return new Written(
                    out.toAbsolutePath(),
                    copy == null ? null : out.toAbsolutePath().resolveSibling(folder.name()),
                    copy != null && copy.encoded(),
                    reading.signedMarks(),
                    reading.comments().size(),
                    warnings);
        }
    }

    /** The pictures within the paper itself; without them where the recording is not to be had. */
    private Map<String, Still> onPaper(
            FeedbackReading reading, Wanted wanted, List<MaskArea> masks, List<String> warnings, Progress progress) {
        if (!wanted.recording() || reading.of().recording() == null || !CommentStills.any(reading.comments())) {
            return Map.of();
        }
        try {
            return CommentStills.of(
                    new OpenRecording(workspace).locate(reading.of(), List.of(), progress.part(0, 0.1)),
                    new FrameIndexCache(workspace.indexDir()),
                    reading.comments(),
                    masks,
                    (name, jpeg) ->
                            "data:image/jpeg;base64," + Base64.getEncoder().encodeToString(jpeg),
                    progress.part(0.1, 1));
        } catch (InputException notThere) {
            warnings.add("It shows no pictures of what was drawn on: " + notThere.getMessage() + ".");
            return Map.of();
        }
    }

    private static boolean isPaper(Path out) {
        return out.toString().toLowerCase(Locale.ROOT).endsWith(".pdf");
    }

    private void noted(FeedbackReading reading, String digest) {
        workspace.change(
                stores -> stores.audit().add("export.feedback", reading.of().code(), "", digest));
    }

    private static List<String> warnings(FeedbackReading reading) {
        List<String> warnings = new ArrayList<>();
        if (reading.warning() != null) {
            warnings.add(reading.warning());
        }
        if (reading.selfMissing()) {
            warnings.add("The trainee has not marked this case yet, and by the rule of the unit does so first: hand the"
                    + " feedback out after that.");
        }
        return warnings;
    }

    private static @Nullable Film film(BrowserCopy.@Nullable Result copy, HandoutFolder folder) {
        if (copy == null) {
            return null;
        }
        FrameIndex index = copy.frames();
        return new Film(
                folder.name(),
                HandoutFolder.FILM,
                new FramesOf(index),
                index.durationUs() / Math.max(1, index.size()),
                index.durationUs(),
                copy.sound());
    }

    private record FramesOf(FrameIndex index) implements Feedback.Frames {

        @Override
        public long startUs(long us) {
            return index.startUs(index.at(us));
        }

        @Override
        public long endUs(long us) {
            int next = index.at(us) + 1;
            return next < index.size() ? index.startUs(next) : index.durationUs();
        }
    }

    private Map<String, String> voices(FeedbackReading reading, HandoutFolder folder, List<String> warnings) {
        Map<String, String> voices = new LinkedHashMap<>();
        for (CommentThread thread : reading.comments()) {
            Voice voice = thread.comment().voice();
            if (voice == null || voices.containsKey(voice.sha256())) {
                continue;
            }
            Path sound = workspace.voices().file(voice.sha256());
            if (!Files.isRegularFile(sound)) {
                throw new InputException(
                        "the sound of a spoken comment is not there",
                        sound.toString(),
                        "put it back from a copy of the workspace, or delete the comment");
            }
            String name = "voice-" + (voices.size() + 1) + ".ogg";
            folder.copy(sound, name);
            voices.put(voice.sha256(), name);
        }
        if (!voices.isEmpty()) {
            warnings.add("It holds voices, which identify whoever speaks.");
        }
        return voices;
    }

    private Feedback feedback(
            FeedbackReading reading,
            @Nullable Film film,
            Map<String, String> voices,
            Map<String, Still> stills,
            PageWords words) {
        Procedure procedure = new Vocabularies(workspace).procedure(reading.of().procedure());
        Feedback.Times times = null;
        String annotator = reading.annotator();
        if (annotator != null && reading.tagging() != null) {
            Recording recording = reading.of().recording();
            MediaTime end = recording == null ? null : recording.duration();
            times = new CaseTimes(procedure, words)
                    .of(
                            reading.of().code(),
                            annotator,
                            reading.tagging(),
                            end,
                            reading.cuts(),
                            new ReferenceTimes(workspace).of(reading.of().code(), annotator));
        }
        return new Feedback(
                reading.of(),
                procedure,
                film,
                reading.tagging(),
                reading.marks(),
                reading.comments(),
                voices,
                stills,
                times == null || times.rows().isEmpty() ? null : times,
                OffsetDateTime.now(ZoneId.systemDefault()),
                Program.VERSION);
    }
}
