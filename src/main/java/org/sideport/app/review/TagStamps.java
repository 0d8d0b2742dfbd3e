package org.sideport.app.review;

import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.media.FrameRef;
import org.sideport.model.MediaTime;
import org.sideport.workflow.TagSession;

/**
 * Sets a tag on the frame that is on the screen. While the recording plays, the tag is set at once at the player's rough
 * time, and put right, without a word and without a further step for undo, when the frame that was really seen is known.
 */
final class TagStamps {

    /** How tags are changed: in the background, one after the other, with what the person sees following. */
    interface Edits {
        /** A change of the person's, refused with a reason where nothing can be tagged. */
        void edit(Consumer<TagSession> change);

        /** @param change of our own; gives the session that it has changed, if any */
        void putRight(Supplier<Optional<TagSession>> change);
    }

    private final PictureDesk desk;
    private final Edits edits;

    TagStamps(PictureDesk desk, Edits edits) {
        this.desk = desk;
        this.edits = edits;
    }

    /** @param tag sets a start or an end at the time given to it */
    void stamp(BiConsumer<TagSession, MediaTime> tag) {
        Stamp stamp = new Stamp();
        desk.stamp(
                frame -> edits.edit(session -> stamp.set(session, frame, tag)),
                frame -> edits.putRight(() -> stamp.correct(frame)));
    }

    /** One press of a key. Its two methods run in the background of the edits, in this order. */
    private static final class Stamp {

        private record Set(TagSession session, long edit, MediaTime at) {}

        private @Nullable Set set;

        void set(TagSession session, FrameRef frame, BiConsumer<TagSession, MediaTime> tag) {
            long before = session.edit();
            tag.accept(session, frame.start());
            if (session.edit() != before) {
                set = new Set(session, session.edit(), frame.start());
            }
        }

        /** The session, if the tag was set and fits at the right place too. */
        Optional<TagSession> correct(FrameRef frame) {
            Set done = set;
            if (done == null || !done.session().retime(done.edit(), done.at(), frame.start())) {
                return Optional.empty();
            }
            return Optional.of(done.session());
        }
    }
}
