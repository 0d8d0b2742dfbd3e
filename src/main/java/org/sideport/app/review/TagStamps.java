package org.sideport.app.review;

import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.media.FrameRef;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.workflow.TagSession;

/**
 * Sets a tag on the frame that is on the screen. While the recording plays, the tag is set at once at the player's rough
 * time, less the person's reaction, and put right, without a word and without a further step for undo, when the frame that
 * was really seen is known.
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
    private final TagHabits habits;
    private final Supplier<@Nullable Tagging> tagging;

    TagStamps(PictureDesk desk, Edits edits, TagHabits habits, Supplier<@Nullable Tagging> tagging) {
        this.desk = desk;
        this.edits = edits;
        this.habits = habits;
        this.tagging = tagging;
    }

    /** @param tag sets a start or an end at the time given to it */
    void stamp(BiConsumer<TagSession, MediaTime> tag) {
        Stamp stamp = new Stamp();
        moment(
                (seen, at) -> edits.edit(session -> stamp.set(session, seen, at, tag)),
                (seen, at) -> edits.putRight(() -> stamp.correct(at)));
    }

    /**
     * The frame that is meant by a key pressed now: the one on the screen, and while playing the one of a reaction before.
     *
     * @param use gets the frame on the screen and the frame that is meant
     * @param corrected gets both again, some moments later, where another one was on the screen
     */
    void moment(BiConsumer<FrameRef, FrameRef> use, BiConsumer<FrameRef, FrameRef> corrected) {
        Reaction reaction = new Reaction(
                desk.playingProperty().get()
                        ? habits.reactionUs(desk.rateProperty().get())
                        : 0);
        desk.stamp(
                frame -> reaction.before(frame, at -> use.accept(frame, at)),
                frame -> reaction.before(frame, at -> corrected.accept(frame, at)));
    }

    /** Goes back from what is seen to what was meant, not before the start of what runs, nor into what has ended. */
    private final class Reaction {

        private final long us;
        private boolean asked;
        private @Nullable MediaTime runningFrom;
        private MediaTime earliest = MediaTime.ZERO;

        Reaction(long us) {
            this.us = us;
        }

        void before(FrameRef seen, Consumer<FrameRef> use) {
            if (us == 0) {
                use.accept(seen);
                return;
            }
            if (!asked) {
                // as it is before the key has changed anything
                asked = true;
                look(seen.start());
            }
            MediaTime from = runningFrom;
            MediaTime wanted = MediaTime.ofMicros(Math.max(0, seen.start().micros() - us));
            if (from == null) {
                MediaTime at = wanted.isBefore(earliest) ? earliest : wanted;
                desk.frameAt(at.isAfter(seen.start()) ? seen.start() : at, use);
            } else if (!seen.start().isAfter(from)) {
                use.accept(seen);
            } else {
                desk.frameAt(wanted, frame -> {
                    if (frame.start().isAfter(from)) {
                        use.accept(frame);
                    } else {
                        // what runs has at least its first frame
                        desk.frameAt(from, first -> desk.frameAt(first.end(), use));
                    }
                });
            }
        }

        private void look(MediaTime seen) {
            Tagging now = tagging.get();
            if (now == null) {
                return;
            }
            PhaseSpan running = now.spanAt(seen);
            runningFrom = running == null ? null : running.start();
            for (PhaseSpan span : now.spans()) {
                MediaTime end = span.end();
                if (end != null && !end.isAfter(seen) && end.isAfter(earliest)) {
                    earliest = end;
                }
            }
        }
    }

    /** One press of a key. Its two methods run in the background of the edits, in this order. */
    private static final class Stamp {

        private record Set(TagSession session, long edit, MediaTime at) {}

        private @Nullable Set set;

        void set(TagSession session, FrameRef seen, FrameRef meant, BiConsumer<TagSession, MediaTime> tag) {
            long before = session.edit();
            PhaseSpan running = session.tagging().spanAt(seen.start());
            // keys pressed in quick succession: the one before may have been set only now
            boolean crosses = running != null && !meant.start().isAfter(running.start());
            MediaTime at = crosses ? seen.start() : meant.start();
            tag.accept(session, at);
            if (session.edit() != before) {
                set = new Set(session, session.edit(), at);
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
