package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.UUID;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentTone;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.workflow.access.Permission;

/** Comments, written and spoken. */
final class GuardedCommentCalls {

    private GuardedCommentCalls() {}

    private static final SeenTrack SEEN =
            new SeenTrack(List.of(new org.sideport.model.SeenEvent.Stand(0, GuardedCalls.AT)));

    static void add(GuardedCalls all) {
        comments(all);
        voices(all);
    }

    private static Comment comment(String author) {
        return new Comment(
                UUID.randomUUID().toString(),
                author,
                CommentTone.PRAISE,
                "good",
                null,
                GuardedCalls.AT,
                null,
                List.of(),
                null);
    }

    /** A session of who tries, put in the hands of a caller who could not open it. */
    private static CommentSession session(GuardedCalls.Given g) {
        return new CommentSession(g.on(), g.theCase(), g.code());
    }

    private static Comment stored(GuardedCalls.Given g) {
        Comment comment = comment(g.code());
        g.anyones().change(s -> s.comments().save(GuardedCalls.CASE, comment));
        return comment;
    }

    private static CommentReply answered(GuardedCalls.Given g) {
        CommentReply reply =
                new CommentReply(UUID.randomUUID().toString(), stored(g).id(), g.code(), "thanks");
        g.anyones().change(s -> s.comments().save(GuardedCalls.CASE, reply));
        return reply;
    }

    private static void comments(GuardedCalls all) {
        all.ofCase(Permission.SEE_CASE, "CommentCase.of(String)", g -> new CommentCase(g.on()).of(GuardedCalls.CASE));
        all.underCode(
                Permission.COMMENT,
                "CommentCase.open(String,String)",
                g -> new CommentCase(g.on()).open(GuardedCalls.CASE, g.code()));
        all.ofCase(
                Permission.SEE_CASE, "CommentSession.threads()", g -> session(g).threads());
        all.underCode(
                Permission.COMMENT,
                "CommentSession.save(Comment)",
                g -> GuardedCalls.done(() -> session(g).save(comment(g.code()))));
        all.underCode(Permission.COMMENT, "CommentSession.remove(Comment)", g -> {
            Comment mine = stored(g);
            return GuardedCalls.done(() -> session(g).remove(mine));
        });
        all.underCode(
                Permission.COMMENT,
                "CommentSession.answer(Comment,String)",
                g -> session(g).answer(stored(g), "why"));
        all.underCode(Permission.COMMENT, "CommentSession.changeAnswer(CommentReply,String)", g -> {
            CommentReply mine = answered(g);
            return GuardedCalls.done(() -> session(g).changeAnswer(mine, "other"));
        });
        all.underCode(Permission.COMMENT, "CommentSession.removeAnswer(CommentReply)", g -> {
            CommentReply mine = answered(g);
            return GuardedCalls.done(() -> session(g).removeAnswer(mine));
        });
        all.underCode(Permission.COMMENT, "CommentSession.markSeen(Comment)", g -> {
            Comment mine = stored(g);
            return GuardedCalls.done(() -> session(g).markSeen(mine));
        });
        all.underCode(Permission.COMMENT, "CommentSession.markUnseen(Comment)", g -> {
            Comment mine = stored(g);
            return GuardedCalls.done(() -> session(g).markUnseen(mine));
        });
        // what can be undone was done by somebody who might, so the edit itself is tried again
        all.underCode(Permission.COMMENT, "CommentSession.undo()", g -> {
            CommentSession one = session(g);
            one.save(comment(g.code()));
            return GuardedCalls.done(one::undo);
        });
        all.underCode(Permission.COMMENT, "CommentSession.redo()", g -> {
            CommentSession one = session(g);
            one.save(comment(g.code()));
            one.undo();
            return GuardedCalls.done(one::redo);
        });
    }

    private static Voice voice(GuardedCalls.Given g) throws IOException {
        return voice(g, UUID.randomUUID().toString());
    }

    private static Voice voice(GuardedCalls.Given g, String comment) throws IOException {
        Path sound = g.anyones().voices().begin(UUID.randomUUID().toString());
        Files.writeString(sound, "not a real sound: " + comment);
        Voice voice = new Voice(g.anyones().voices().keep(sound), 1_000_000, SEEN, List.of());
        g.anyones()
                .change(s -> s.comments()
                        .save(
                                GuardedCalls.CASE,
                                new Comment(
                                        comment,
                                        "A1",
                                        CommentTone.PRAISE,
                                        "",
                                        null,
                                        GuardedCalls.AT,
                                        null,
                                        List.of(),
                                        voice)));
        return voice;
    }

    private static Path part(GuardedCalls.Given g) throws IOException {
        return Files.createTempFile(g.dir(), "part", ".part");
    }

    private static void voices(GuardedCalls all) {
        all.general(
                Permission.COMMENT,
                "VoiceKeeping.begin(String)",
                g -> new VoiceKeeping(g.on()).begin(UUID.randomUUID().toString()));
        all.underCode(Permission.COMMENT, "VoiceKeeping.note(Path,String,String,SeenTrack)", g -> {
            Path part = part(g);
            return GuardedCalls.done(() -> new VoiceKeeping(g.on()).note(part, GuardedCalls.CASE, g.code(), SEEN));
        });
        all.generalUnderCode(
                Permission.COMMENT,
                "VoiceKeeping.finish(Path,String,String,SeenTrack,MediaTime)",
                g -> new VoiceKeeping(g.on()).finish(part(g), "id", g.code(), SEEN, GuardedCalls.AT));
        all.general(Permission.COMMENT, "VoiceKeeping.discard(Path)", g -> {
            Path part = part(g);
            return GuardedCalls.done(() -> new VoiceKeeping(g.on()).discard(part));
        });
        all.general(Permission.COMMENT, "VoiceKeeping.rescue()", g -> new VoiceKeeping(g.on()).rescue());
        all.general(Permission.KEEP_STORE, "VoiceKeeping.check()", g -> new VoiceKeeping(g.on()).check());
        all.general(Permission.COMMENT, "VoiceKeeping.tidy()", g -> new VoiceKeeping(g.on()).tidy());
        all.ofCase(Permission.SEE_CASE, "VoiceKeeping.fileOf(Voice)", g -> new VoiceKeeping(g.on()).fileOf(voice(g)));
        all.ofCase(Permission.SEE_CASE, "VoiceKeeping.copy(Voice,Path,boolean)", g -> {
            Voice voice = voice(g);
            return GuardedCalls.done(
                    () -> new VoiceKeeping(g.on()).copy(voice, g.dir().resolve("out.ogg"), true));
        });
        all.ofCase(Permission.SEE_CASE, "VoiceKeeping.spoken(String,String)", g -> {
            String comment = UUID.randomUUID().toString();
            voice(g, comment);
            return new VoiceKeeping(g.on()).spoken(GuardedCalls.CASE, comment);
        });
    }
}
