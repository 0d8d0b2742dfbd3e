package org.sideport.workflow.exchange;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.RecordingFrames;
import org.sideport.media.export.Chapter;
import org.sideport.media.export.FilmFile;
import org.sideport.media.film.FilmMaker;
import org.sideport.media.film.FilmPlan;
import org.sideport.media.film.Shot;
import org.sideport.media.voice.CaptionFile;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Voice;
import org.sideport.report.AtomicFile;
import org.sideport.report.exchange.Annotated;
import org.sideport.report.exchange.WebVtt;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.Vocabularies;

/**
 * Makes a teaching film of a case: chosen stretches, with what was said over them as it was seen, drawings in the picture,
 * captions and chapters; and a set of stills. Nothing in it names anybody, and the recording's own sound stays out.
 */
public final class MakeFilm {

    private final Workspace workspace;

    public MakeFilm(Workspace workspace) {
        this.workspace = workspace;
    }

    /** From the start of {@code from} until before {@code to}. */
    public record Part(MediaTime from, MediaTime to) {

        /**
         * Reads {@code FROM-TO}, such as 1:20-2:10.
         *
         * @throws InputException if the text is not of this form
         */
        public static Part parse(String text) {
            int dash = text.indexOf('-');
            if (dash < 0) {
                throw new InputException("\"" + text + "\" is no stretch", null, "write FROM-TO, such as 1:20-2:10");
            }
            return new Part(MediaTime.parse(text.substring(0, dash)), MediaTime.parse(text.substring(dash + 1)));
        }
    }

    /**
     * What to show. Without parts, phases and comments it is all that was said aloud.
     *
     * @param annotator whose tags; {@code null} where one or nobody has tagged
     * @param phases ids or names of phases and steps to show
     * @param comments true to show the surroundings of every written comment
     * @param spoken true to play spoken comments
     * @param masks areas to hide besides those of the case
     */
    public record Wanted(
            String code,
            @Nullable String annotator,
            List<Part> parts,
            List<String> phases,
            boolean comments,
            boolean spoken,
            List<MaskArea> masks) {
        public Wanted {
            parts = List.copyOf(parts);
            phases = List.copyOf(phases);
            masks = List.copyOf(masks);
        }
    }

    /**
     * @param captions file of captions beside the film; {@code null} if there are none
     * @param languages of subtitles that were found beside the film
     */
    public record Made(
            Path film,
            long lengthUs,
            int shots,
            int chapters,
            @Nullable Path captions,
            List<String> languages,
            List<String> warnings) {
        public Made {
            languages = List.copyOf(languages);
            warnings = List.copyOf(warnings);
        }
    }

    private record Found(SurgicalCase one, Annotated notes, List<MaskArea> masks, Recording recording) {}

    /**
     * Writes the film, and its captions as WebVTT beside it. Captions in other languages are taken from files beside it that
     * are named like the film with a language tag (film.de.vtt), with times of the film.
     *
     * @throws InputException if consent and the unit's rules refuse it, nothing is left to show, or the film turns out not to be
     *     what it should be; nothing is left then
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public Made film(Wanted wanted, Path out, boolean replace, Progress progress) {
        List<String> warnings = new ArrayList<>();
        Found found = find(wanted, warnings, progress.part(0, 0.05));
        List<Comment> all = comments(found);
        List<Comment> spoken =
                all.stream().filter(c -> wanted.spoken() && c.voice() != null).toList();
        List<Comment> written = all.stream().filter(c -> c.voice() == null).toList();
        List<FilmShots.Cast> cast = FilmShots.of(stretches(wanted, found, written), spoken, this::voiceFile);
        if (cast.isEmpty()) {
            throw new InputException(
                    "there is nothing to show",
                    null,
                    "choose stretches, phases or comments; spoken comments are played by themselves");
        }
        List<Shot> shots = cast.stream().map(FilmShots.Cast::shot).toList();
        List<Path> sources =
                found.recording().segments().stream().map(Segment::file).toList();
        try (RecordingFrames frames = RecordingFrames.open(found.recording(), progress.part(0.05, 0.1))) {
            FilmPlan plan = FilmPlan.of(shots, frames);
            List<Chapter> chapters = FilmWords.chapters(
                    plan, found.notes().tagging(), found.notes().procedure());
            List<Caption> captions = FilmWords.captions(plan, cast, written);
            List<String> languages = new ArrayList<>();
            List<FilmFile.Subtitles> subtitles = subtitles(out, captions, languages);
            FilmFile.Extras extras =
                    new FilmFile.Extras(plan.lengthUs(), spoken.isEmpty() ? 0 : VoiceWriter.RATE, chapters, subtitles);
            new FilmMaker(frames, found.masks())
                    .film(
                            shots,
                            plan,
                            picture -> FilmWords.marks(picture, all),
                            extras,
                            out,
                            replace,
                            sources,
                            progress.part(0.1, 0.99));
            Path beside = captions.isEmpty() ? null : beside(out, captions);
            if (!spoken.isEmpty()) {
                warnings.add("It holds voices, which identify whoever speaks.");
            }
            workspace.change(
                    stores -> stores.audit().add("case.film", found.one().code(), "", shots.size() + " shots"));
            progress.report(1, "Made");
            return new Made(
                    out.toAbsolutePath(), plan.lengthUs(), shots.size(), chapters.size(), beside, languages, warnings);
        }
    }

    /**
     * Writes a still for every comment, with its drawing, and a list of them.
     *
     * @param folder that is not there yet, or empty
     * @return number of stills
     * @throws InputException if consent and the unit's rules refuse it, there is no comment, or the folder cannot be written
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public int stills(Wanted wanted, Path folder, Progress progress) {
        List<String> warnings = new ArrayList<>();
        Found found = find(wanted, warnings, progress.part(0, 0.1));
        List<Comment> all = comments(found);
        if (all.isEmpty()) {
            throw new InputException(
                    "case " + found.one().code() + " has no comments", null, "comment on what the slides shall show");
        }
        try (RecordingFrames frames = RecordingFrames.open(found.recording(), progress.part(0.1, 0.2))) {
            new StillFolder(folder, found.notes(), new FilmMaker(frames, found.masks()), frames)
                    .write(all, progress.part(0.2, 1));
        }
        workspace.change(stores -> stores.audit().add("case.stills", found.one().code(), "", all.size() + " stills"));
        return all.size();
    }

    private Found find(Wanted wanted, List<String> warnings, Progress progress) {
        record Case(SurgicalCase one, Annotated notes, List<MaskArea> masks) {}
        Case found = workspace.read(stores -> {
            SurgicalCase one = OpenParts.require(stores, wanted.code(), ConsentPurpose.TEACHING, warnings);
            Procedure procedure = new Vocabularies(workspace).procedure(one.procedure());
            return new Case(
                    one,
                    OpenParts.annotated(stores, one, procedure, wanted.annotator()),
                    HideAreas.with(stores, one.code(), wanted.masks()));
        });
        return new Found(
                found.one(),
                found.notes(),
                found.masks(),
                new OpenRecording(workspace).locate(found.one(), List.of(), progress));
    }

    private static List<Comment> comments(Found found) {
        return found.notes().threads().stream().map(CommentThread::comment).toList();
    }

    private static List<FilmShots.Stretch> stretches(Wanted wanted, Found found, List<Comment> written) {
        MediaTime end = found.recording().duration();
        List<FilmShots.Stretch> all = new ArrayList<>();
        for (Part part : wanted.parts()) {
            if (!part.to().isAfter(part.from()) || part.to().isAfter(end)) {
                throw new InputException(
                        part.from().toClockText() + " to " + part.to().toClockText()
                                + " is no stretch of the recording",
                        null,
                        "it ends at " + end.toClockText());
            }
            all.add(new FilmShots.Stretch(part.from(), part.to()));
        }
        for (String name : wanted.phases()) {
            all.addAll(phase(name, found, end));
        }
        if (wanted.comments()) {
            written.forEach(c -> all.add(FilmWords.around(c, end)));
        }
        return all;
    }

    private static List<FilmShots.Stretch> phase(String name, Found found, MediaTime end) {
        Procedure procedure = found.notes().procedure();
        Procedure.Term wanted = procedure
                .find(name)
                .orElseThrow(() -> new InputException("there is no phase \"" + name + "\"", null, "see tags export"));
        List<FilmShots.Stretch> spans = new ArrayList<>();
        for (PhaseSpan span : found.notes().tagging().spans()) {
            Procedure.Term term = procedure.find(span.phase()).orElse(null);
            boolean same = term != null
                    && (term.id().equals(wanted.id())
                            || (!wanted.isStep() && term.phase().id().equals(wanted.id())));
            MediaTime to = span.end() == null ? end : span.end();
            if (same && to.isAfter(span.start())) {
                spans.add(new FilmShots.Stretch(span.start(), to));
            }
        }
        if (spans.isEmpty()) {
            throw new InputException("\"" + name + "\" is not tagged in this case", null, "see tags export");
        }
        return spans;
    }

    private static List<FilmFile.Subtitles> subtitles(Path out, List<Caption> own, List<String> languages) {
        List<FilmFile.Subtitles> all = new ArrayList<>();
        if (!own.isEmpty()) {
            all.add(new FilmFile.Subtitles("und", own));
        }
        Path folder = out.toAbsolutePath().getParent();
        String stem = stem(out);
        if (folder == null || !Files.isDirectory(folder)) {
            return all;
        }
        try (var files = Files.newDirectoryStream(folder, f -> {
            String name = String.valueOf(f.getFileName());
            return name.startsWith(stem + ".") && name.endsWith(".vtt");
        })) {
            List<Path> sorted = new ArrayList<>();
            files.forEach(sorted::add);
            sorted.sort(null);
            for (Path file : sorted) {
                String name = String.valueOf(file.getFileName());
                if (name.length() <= stem.length() + 5) {
                    // the film's own captions
                    continue;
                }
                String tag = name.substring(stem.length() + 1, name.length() - 4);
                String three = FilmWords.threeLetters(tag);
                if (three != null) {
                    all.add(new FilmFile.Subtitles(three, CaptionFile.read(file)));
                    languages.add(tag);
                }
            }
        } catch (java.io.IOException e) {
            throw new InputException("the folder cannot be read", folder.toString(), "choose another", e);
        }
        return all;
    }

    private static String stem(Path out) {
        String name = String.valueOf(out.getFileName());
        int dot = name.lastIndexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }

    private static Path beside(Path out, List<Caption> captions) {
        Path file = out.toAbsolutePath().resolveSibling(stem(out) + ".vtt");
        byte[] text = WebVtt.captions(captions).getBytes(StandardCharsets.UTF_8);
        AtomicFile.write(file, stream -> stream.write(text));
        return file;
    }

    private Path voiceFile(Voice voice) {
        Path file = workspace.voices().file(voice.sha256());
        if (!Files.isRegularFile(file)) {
            throw new InputException(
                    "the sound of a spoken comment is not there",
                    file.toString(),
                    "put it back from a copy of the workspace, or leave spoken comments out");
        }
        return file;
    }
}
