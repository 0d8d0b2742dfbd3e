package org.sideport.workflow.exchange;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Caller;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Plural;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.report.exchange.Detail;
import org.sideport.report.exchange.Note;
import org.sideport.store.Stores;
import org.sideport.timing.Boundary;

/**
 * Sorts what a file says into phases, events and comments of a case, and stores it. What this program wrote itself says what it
 * is; of other programs' files, what is called as a phase or an event of the procedure is one, and the rest are comments.
 */
final class NoteSorter {

    /** Texts that formats in milliseconds give back are the same if they differ by less. */
    private static final long SAME_US = 1000;

    private final Stores stores;
    private final SurgicalCase one;
    private final Procedure procedure;
    private final String annotator;
    private final CommentTone tone;
    private final boolean replace;

    private final List<PhaseSpan> spans = new ArrayList<>();
    private final List<PointEvent> events = new ArrayList<>();
    private final Set<Boundary> confirmed = new HashSet<>();
    private final Set<TaggingStyle> styles = new HashSet<>();
    private final List<Comment> comments = new ArrayList<>();
    private final List<CommentReply> replies = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private final List<CommentThread> here;

    private @Nullable Tagging tagging;
    private int same;
    private int kept;
    private int others;
    private int empty;

    NoteSorter(
            Stores stores, SurgicalCase one, Procedure procedure, String annotator, CommentTone tone, boolean replace) {
        this.stores = stores;
        this.one = one;
        this.procedure = procedure;
        this.annotator = annotator;
        this.tone = tone;
        this.replace = replace;
        this.here = stores.comments().threads(one.code(), "");
    }

    void leftOut(int number, String what) {
        if (number > 0) {
            notes.add(number + " × " + what + " left out.");
        }
    }

    /** @throws InputException at the first note that does not fit */
    void read(String file, List<Note> all) {
        for (Note note : all) {
            within(note.from(), false, note.place());
            MediaTime to = note.to();
            if (to != null && note.detail() == null) {
                within(to, true, note.place());
            }
            try {
                Detail detail = note.detail();
                if (detail == null) {
                    foreign(note);
                } else {
                    own(detail, note.place());
                }
            } catch (InputException e) {
                throw e.where() != null && e.where().startsWith(note.place()) ? e : e.at(note.place());
            }
        }
        leftOut(others, "comment of somebody else");
        leftOut(empty, "entry without words");
        tagging = merged(file);
    }

    private void within(MediaTime time, boolean endAllowed, String place) {
        Recording recording = one.recording();
        if (recording == null) {
            return;
        }
        MediaTime end = recording.duration();
        if (endAllowed ? time.isAfter(end) : !time.isBefore(end)) {
            throw new InputException(
                    time.toSecondsText() + " s lies beyond the end of the recording at " + end.toSecondsText() + " s",
                    place,
                    "correct the time, or check that it is the right case");
        }
    }

    // ---- what this program wrote

    private void own(Detail detail, String place) {
        if (detail instanceof Detail.OfPhase phase) {
            Procedure.Term term = procedure
                    .find(phase.span().phase())
                    .orElseThrow(() -> new InputException(
                            "the procedure " + procedure.id() + " has no phase \""
                                    + phase.span().phase() + '"',
                            place,
                            "take it in for a case of the other procedure"));
            MediaTime end = phase.span().end();
            if (end != null) {
                within(end, true, place);
            }
            spans.add(phase.span().withPhase(term.id()));
            styles.add(phase.style());
            phase.confirmed().forEach(t -> confirmed.add(new Boundary(Boundary.Kind.PHASE, t)));
        } else if (detail instanceof Detail.OfEvent event) {
            PointEvent said = event.event();
            String kind = procedure
                    .findEvent(said.kind())
                    .map(Procedure.EventKind::id)
                    .orElseThrow(() -> new InputException(
                            "the procedure " + procedure.id() + " has no event \"" + said.kind() + '"',
                            place,
                            "take it in for a case of the other procedure"));
            events.add(new PointEvent(kind, said.at(), said.severity(), said.note()));
            if (event.confirmed()) {
                confirmed.add(new Boundary(Boundary.Kind.EVENT, said.at()));
            }
        } else if (detail instanceof Detail.OfComment comment) {
            thread(comment.thread(), place);
        }
    }

    /** Words of others come in only where nobody signs in; else each brings in the own ones. */
    private void thread(CommentThread thread, String place) {
        Comment theirs = thread.comment();
        MediaTime to = theirs.to();
        if (to != null) {
            within(to, true, place);
        }
        if (!isMine(theirs.author())) {
            others++;
            return;
        }
        Comment known = stores.comments().find(theirs.id()).orElse(null);
        boolean ofThisCase = here.stream().anyMatch(t -> t.comment().id().equals(theirs.id()));
        if (known == null) {
            comments.add(theirs);
        } else if (!ofThisCase) {
            // the same file taken in for another case: a comment of its own there
            add(theirs.author(), theirs.tone(), theirs.text(), theirs.from(), to, theirs.drawing());
            return;
        } else if (known.withVoice(null).equals(theirs)) {
            same++;
        } else {
            kept++;
        }
        for (CommentReply reply : thread.replies()) {
            boolean there = stores.comments().findReply(reply.id()).isPresent()
                    || replies.stream().anyMatch(r -> r.id().equals(reply.id()));
            if (!there && isMine(reply.author())) {
                replies.add(reply);
            }
        }
    }

    private boolean isMine(String author) {
        return stores.caller() instanceof Caller.Anyone || author.equals(annotator);
    }

    // ---- what others wrote

    private void foreign(Note note) {
        MediaTime to = note.to();
        Procedure.Term term = procedure.find(note.text()).orElse(null);
        if (term != null && to != null) {
            // idle time is what lies between spans
            if (!term.phase().idle()) {
                spans.add(new PhaseSpan(term.id(), note.from(), to, null));
            }
            return;
        }
        Procedure.EventKind event = procedure.findEvent(note.text()).orElse(null);
        if (event != null) {
            events.add(new PointEvent(event.id(), note.from(), null, ""));
        } else if (note.text().isBlank() && note.drawing().isEmpty()) {
            empty++;
        } else {
            String text = note.text().strip();
            add(
                    annotator,
                    tone,
                    text.substring(0, Math.min(text.length(), Comment.LONGEST_TEXT)),
                    note.from(),
                    to,
                    note.drawing().stream().limit(Comment.MOST_MARKS).toList());
        }
    }

    /** A new comment, unless the same words stand at the same time. */
    private void add(
            String author,
            CommentTone as,
            String text,
            MediaTime from,
            @Nullable MediaTime to,
            List<DrawnMark> drawing) {
        boolean known = here.stream()
                .map(CommentThread::comment)
                .anyMatch(c -> c.author().equals(author)
                        && c.text().equals(text.strip())
                        && c.drawing().equals(drawing)
                        && Math.abs(c.from().micros() - from.micros()) <= SAME_US);
        if (known) {
            same++;
        } else {
            comments.add(new Comment(UUID.randomUUID().toString(), author, as, text, null, from, to, drawing));
        }
    }

    // ---- together

    private @Nullable Tagging merged(String file) {
        Tagging known = stores.taggings().find(one.code(), annotator).orElse(Tagging.EMPTY);
        TaggingStyle style =
                styles.equals(Set.of(TaggingStyle.STARTS_ONLY)) ? TaggingStyle.STARTS_ONLY : TaggingStyle.START_AND_END;
        Tagging read;
        try {
            read = new Tagging(style, spans, events);
        } catch (InputException e) {
            throw e.at(file);
        }
        boolean newSpans = !spans.isEmpty() && !read.spans().equals(known.spans());
        boolean newEvents = !events.isEmpty() && !read.events().equals(known.events());
        if (!newSpans) {
            spans.clear();
        }
        if (!newEvents) {
            events.clear();
        }
        refuse(newSpans && !known.spans().isEmpty(), "phases", file);
        refuse(newEvents && !known.events().isEmpty(), "events", file);
        if (!newSpans && !newEvents) {
            return null;
        }
        return new Tagging(
                newSpans ? style : known.style(),
                newSpans ? read.spans() : known.spans(),
                newEvents ? read.events() : known.events());
    }

    private void refuse(boolean there, String what, String file) {
        if (there && !replace) {
            throw new InputException(
                    annotator + " has other " + what + " of case " + one.code() + " already",
                    file,
                    "use --replace to put these in their place, or take them in under another code");
        }
    }

    void store() {
        Tagging now = tagging;
        if (now != null) {
            Set<Boundary> all = new HashSet<>(confirmed);
            all.addAll(stores.taggings().confirmed(one.code(), annotator));
            stores.taggings().save(one.code(), annotator, now, Boundary.kept(all, now), Set.of());
        }
        comments.forEach(c -> stores.comments().save(one.code(), c));
        replies.forEach(r -> stores.comments().save(one.code(), r));
    }

    ImportOpen.Taken taken() {
        List<String> said = new ArrayList<>(notes);
        if (kept > 0) {
            said.add(Plural.of(kept, "comment") + " here with other words stay as they are.");
        }
        return new ImportOpen.Taken(
                one.code(), annotator, spans.size(), events.size(), comments.size(), same, kept, said);
    }
}
