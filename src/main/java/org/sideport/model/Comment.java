package org.sideport.model;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a person says about a moment or a stretch of an operation, in words, with a drawing, or both.
 *
 * @param id unique for ever
 * @param author code of the person
 * @param text may be empty where there is a drawing
 * @param item {@code null} if it is about no item in particular
 * @param from start of the frame that it is tied to
 * @param to end of the stretch, after {@code from}; {@code null} for a moment
 * @param drawing on the frame at {@code from}
 * @param voice what is said aloud; {@code null} if it is only written
 */
public record Comment(
        String id,
        String author,
        CommentTone tone,
        String text,
        @Nullable ItemLink item,
        MediaTime from,
        @Nullable MediaTime to,
        List<DrawnMark> drawing,
        @Nullable Voice voice) {

    public static final int LONGEST_TEXT = 4000;
    public static final int MOST_MARKS = 100;

    public Comment {
        text = text.strip();
        drawing = List.copyOf(drawing);
        if (id.isBlank() || author.isBlank()) {
            throw new IllegalArgumentException("a comment needs an id and an author");
        }
        if (text.isEmpty() && drawing.isEmpty() && voice == null) {
            throw new InputException("the comment is empty", null, "write something, or draw on the picture");
        }
        if (text.length() > LONGEST_TEXT) {
            throw new InputException(
                    "the comment has " + text.length() + " characters", null, "write " + LONGEST_TEXT + " at most");
        }
        if (drawing.size() > MOST_MARKS) {
            throw new InputException("the drawing has more than " + MOST_MARKS + " parts", null, "remove some");
        }
        if (to != null && !to.isAfter(from)) {
            throw new InputException(
                    "the stretch ends at " + to.toClockText() + ", not after its start at " + from.toClockText(),
                    null,
                    "choose a later end");
        }
    }

    /** Without a voice. */
    public Comment(
            String id,
            String author,
            CommentTone tone,
            String text,
            @Nullable ItemLink item,
            MediaTime from,
            @Nullable MediaTime to,
            List<DrawnMark> drawing) {
        this(id, author, tone, text, item, from, to, drawing, null);
    }

    public Comment withText(String newText) {
        return new Comment(id, author, tone, newText, item, from, to, drawing, voice);
    }

    public Comment withTone(CommentTone newTone) {
        return new Comment(id, author, newTone, text, item, from, to, drawing, voice);
    }

    public Comment withItem(@Nullable ItemLink newItem) {
        return new Comment(id, author, tone, text, newItem, from, to, drawing, voice);
    }

    public Comment withTo(@Nullable MediaTime newTo) {
        return new Comment(id, author, tone, text, item, from, newTo, drawing, voice);
    }

    public Comment withVoice(@Nullable Voice newVoice) {
        return new Comment(id, author, tone, text, item, from, to, drawing, newVoice);
    }

    /**
     * Whether it is to be seen beside the picture at {@code time}: a stretch while it lasts, a moment for {@code holdUs}.
     *
     * @param holdUs how long a moment stays, microseconds; 0 for its own frame only
     */
    public boolean isAt(MediaTime time, long holdUs) {
        if (time.isBefore(from)) {
            return false;
        }
        MediaTime end = to;
        long until = Math.max(end == null ? 0 : end.micros(), from.micros() + Math.max(holdUs, 1));
        return time.micros() < until;
    }
}
