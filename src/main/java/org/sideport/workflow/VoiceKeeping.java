package org.sideport.workflow;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.sideport.media.voice.VoiceReader;
import org.sideport.model.Caller;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.store.VoiceFolder;
import org.sideport.store.VoiceJson;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The sound files of spoken comments: makes comments of them, copies them out, tidies up, and saves what a crash left. */
public final class VoiceKeeping {

    /**
     * What is lacking and what is too much.
     *
     * @param missing digests whose sound file is not there
     * @param unused sound files that no comment uses
     */
    public record Check(List<String> missing, List<Path> unused) {}

    private static final Logger LOG = LoggerFactory.getLogger(VoiceKeeping.class);

    private final Workspace workspace;
    private final VoiceFolder folder;

    public VoiceKeeping(Workspace workspace) {
        this.workspace = workspace;
        this.folder = workspace.voices();
    }

    /** A file to record into. */
    public Path begin(String id) {
        Access.require(workspace, Permission.COMMENT);
        return folder.begin(id);
    }

    /** Notes beside an unfinished recording whose it is and what has been seen, so that it can be saved after a crash. */
    public void note(Path part, String caseCode, String author, SeenTrack seen) {
        Access.requireOwn(workspace.caller(), author);
        Access.require(workspace, Permission.COMMENT, caseCode);
        Path beside = noteOf(part);
        Path fresh = beside.resolveSibling(beside.getFileName() + ".new");
        try {
            Files.writeString(fresh, caseCode + "\n" + author + "\n" + VoiceJson.write(seen), StandardCharsets.UTF_8);
            Files.move(fresh, beside, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new InputException(
                    "the recording cannot be noted: " + e.getMessage(),
                    part.toString(),
                    "check the drive and its free space",
                    e);
        }
    }

    private static Path noteOf(Path part) {
        return part.resolveSibling(part.getFileName() + ".seen");
    }

    /**
     * Keeps a finished recording's file and makes a comment of it, which is not saved yet.
     *
     * @param id of the comment
     * @param end of the recording
     * @throws InputException if nothing was recorded
     */
    public Comment finish(Path part, String id, String author, SeenTrack seen, MediaTime end) {
        Access.requireOwn(workspace.caller(), author);
        Access.require(workspace, Permission.COMMENT);
        long length = VoiceReader.lengthUs(part);
        Comment comment = commentOf("0".repeat(64), length, id, author, seen, end);
        String sha256 = folder.keep(part);
        forget(noteOf(part));
        return comment.withVoice(new Voice(sha256, length, seen.upTo(length), List.of()));
    }

    /** From the first to the last moment of the recording that was seen; a moment if it stood still. */
    private static Comment commentOf(
            String sha256, long length, String id, String author, SeenTrack seen, MediaTime end) {
        Voice voice = new Voice(sha256, length, seen.upTo(length), List.of());
        long from = Long.MAX_VALUE;
        long to = 0;
        for (SeenTrack.Piece piece : seen.pieces(length)) {
            from = Math.min(from, piece.time().micros());
            to = Math.max(to, piece.end().micros());
        }
        // while the picture runs, the player's clock is rough, and may be a little over the end
        from = Math.max(0, Math.min(from, end.micros() - 1));
        to = Math.min(to, end.micros());
        return new Comment(
                id,
                author,
                CommentTone.IMPROVE,
                "",
                null,
                MediaTime.ofMicros(from),
                to > from ? MediaTime.ofMicros(to) : null,
                List.of(),
                voice);
    }

    /** Throws a recording away that was not finished. */
    public void discard(Path part) {
        Access.require(workspace, Permission.COMMENT);
        forget(part);
        forget(noteOf(part));
    }

    private static void forget(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            throw new InputException("the file cannot be removed: " + e.getMessage(), file.toString(), null, e);
        }
    }

    /**
     * Saves recordings during which the program was stopped, as comments of who spoke; what cannot be read, and what others
     * spoke, is left alone.
     *
     * @return the comments
     */
    public List<Comment> rescue() {
        Access.require(workspace, Permission.COMMENT);
        List<Comment> saved = new ArrayList<>();
        for (Path part : folder.unfinished()) {
            Path note = noteOf(part);
            try {
                if (!Files.isRegularFile(note)) {
                    continue;
                }
                String[] lines = Files.readString(note, StandardCharsets.UTF_8).split("\n", 3);
                if (!isOwn(lines[1])) {
                    continue;
                }
                CommentSession session = new CommentCase(workspace).open(lines[0], lines[1]);
                Recording recording = session.surgicalCase().recording();
                if (recording == null) {
                    continue;
                }
                Comment comment = finish(
                        part, CommentSession.newId(), lines[1], VoiceJson.readSeen(lines[2]), recording.duration());
                session.save(comment);
                saved.add(comment);
            } catch (IOException | RuntimeException unreadable) {
                // stays where it is: somebody may still get at the sound
                LOG.warn("an unfinished voice cannot be saved", unreadable);
            }
        }
        return saved;
    }

    private boolean isOwn(String author) {
        return workspace.caller() instanceof Caller.Anyone
                || workspace.caller().code().equals(author);
    }

    /** Where the sound is; of a voice in no case yet, which is being made, to whoever may comment. */
    public Path fileOf(Voice voice) {
        workspace.read(stores -> {
            Access.require(stores.caller(), Permission.COMMENT);
            List<String> codes = stores.comments().casesOfVoice(voice.sha256());
            if (codes.stream().noneMatch(code -> Access.may(stores, Permission.SEE_CASE, code))) {
                codes.forEach(code -> Access.require(stores, Permission.SEE_CASE, code));
            }
            return true;
        });
        return folder.file(voice.sha256());
    }

    /** Compares the files with the comments. */
    public Check check() {
        Access.require(workspace, Permission.KEEP_STORE);
        return compared();
    }

    private Check compared() {
        Set<String> used = workspace.read(stores -> stores.comments().voices());
        return new Check(
                used.stream()
                        .filter(sha -> !Files.isRegularFile(folder.file(sha)))
                        .sorted()
                        .toList(),
                folder.unused(used));
    }

    /** Removes the sounds that no comment uses any more. Only before anything can be undone. @return how many */
    public int tidy() {
        Access.require(workspace, Permission.COMMENT);
        List<Path> unused = compared().unused();
        unused.forEach(VoiceKeeping::forget);
        return unused.size();
    }

    /**
     * Copies a voice out of the workspace.
     *
     * @throws InputException if the target exists and is not to be replaced, or the sound is missing
     */
    public void copy(Voice voice, Path target, boolean replace) {
        Path from = fileOf(voice);
        if (!Files.isRegularFile(from)) {
            throw new InputException(
                    "the sound of the comment is not there",
                    from.toString(),
                    "put it back from a copy of the workspace");
        }
        if (Files.exists(target) && !replace) {
            throw new InputException(
                    "the file exists already", target.toString(), "choose another name, or add --replace");
        }
        Path whole = target.toAbsolutePath();
        Path part = whole.resolveSibling(whole.getFileName() + ".part");
        try {
            try {
                Files.copy(from, part, StandardCopyOption.REPLACE_EXISTING);
                Files.move(part, whole, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the file cannot be written: " + e.getMessage(), target.toString(), "choose another place", e);
        }
    }

    /**
     * The comment with the text of what is said; captions may run over the end of the voice, but not start after it.
     *
     * @param name of where they come from, for errors
     * @throws InputException if one starts after the end
     */
    public static Comment withCaptions(Comment comment, List<Caption> captions, String name) {
        Voice voice = Objects.requireNonNull(comment.voice(), "a spoken comment");
        for (Caption caption : captions) {
            if (caption.fromUs() >= voice.lengthUs()) {
                throw new InputException(
                        "\"" + caption.text() + "\" starts at "
                                + MediaTime.ofMicros(caption.fromUs()).toClockText()
                                + ", after the end of the voice at "
                                + MediaTime.ofMicros(voice.lengthUs()).toClockText(),
                        name,
                        "count the times from the start of the voice");
            }
        }
        return comment.withVoice(voice.withCaptions(captions));
    }

    /**
     * The spoken comment with this id, or the only one whose id begins so.
     *
     * @throws InputException if there is none, or more than one
     */
    public Comment spoken(String caseCode, String id) {
        List<Comment> found = new CommentCase(workspace)
                .of(caseCode).stream()
                        .map(CommentThread::comment)
                        .filter(c -> !id.isBlank() && c.id().startsWith(id) && c.voice() != null)
                        .toList();
        if (found.size() != 1) {
            throw new InputException(
                    found.isEmpty()
                            ? "case " + caseCode + " has no spoken comment " + id
                            : found.size() + " spoken comments begin with " + id,
                    null,
                    "see their ids with: sideport comments list --case " + caseCode + " --json");
        }
        return found.get(0);
    }
}
