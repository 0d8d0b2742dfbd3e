package org.sideport.app.comment;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;
import org.sideport.model.Voice;

/** A comment that is being written: as {@link Comment}, but it may still be empty. */
public record CommentDraft(
        String id,
        MediaTime from,
        @Nullable MediaTime to,
        CommentTone tone,
        String text,
        @Nullable ItemLink item,
        List<DrawnMark> drawing,
        @Nullable Voice voice) {

    public CommentDraft {
        drawing = List.copyOf(drawing);
    }

    static CommentDraft empty(String id, MediaTime from) {
        return new CommentDraft(id, from, null, CommentTone.IMPROVE, "", null, List.of(), null);
    }

    static CommentDraft of(Comment comment) {
        return new CommentDraft(
                comment.id(),
                comment.from(),
                comment.to(),
                comment.tone(),
                comment.text(),
                comment.item(),
                comment.drawing(),
                comment.voice());
    }

    boolean isEmpty() {
        return text.isBlank() && drawing.isEmpty() && voice == null;
    }

    Comment by(String author) {
        return new Comment(id, author, tone, text, item, from, to, drawing, voice);
    }

    CommentDraft withText(String now) {
        return new CommentDraft(id, from, to, tone, now, item, drawing, voice);
    }

    CommentDraft withTone(CommentTone now) {
        return new CommentDraft(id, from, to, now, text, item, drawing, voice);
    }

    CommentDraft withItem(@Nullable ItemLink now) {
        return new CommentDraft(id, from, to, tone, text, now, drawing, voice);
    }

    CommentDraft withTo(@Nullable MediaTime now) {
        return new CommentDraft(id, from, now, tone, text, item, drawing, voice);
    }

    CommentDraft withMark(DrawnMark added) {
        List<DrawnMark> more = new ArrayList<>(drawing);
        more.add(added);
        return new CommentDraft(id, from, to, tone, text, item, more, voice);
    }

    /** As if nothing had been written on this frame yet. */
    CommentDraft cleared() {
        return new CommentDraft(id, from, null, tone, "", null, List.of(), null);
    }
}
