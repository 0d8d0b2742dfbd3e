package org.sideport.workflow.exchange;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.export.Chapter;
import org.sideport.media.film.FilmPlan;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.model.Voice;

/** What stands beside and in the pictures of a film: chapters, captions, drawings. */
final class FilmWords {

    /** How long a comment on a moment stays: 3 s, common practice, no source. */
    static final long HOLD_US = 3_000_000;

    private FilmWords() {}

    /** A chapter as long as the same phase is on the screen. */
    static List<Chapter> chapters(FilmPlan plan, Tagging tagging, Procedure procedure) {
        List<Chapter> chapters = new ArrayList<>();
        String running = "";
        long since = 0;
        for (FilmPlan.Picture picture : plan.pictures()) {
            PhaseSpan span = tagging.spanAt(picture.seen());
            String now = span == null
                    ? ""
                    : procedure.find(span.phase()).map(Procedure.Term::name).orElse(span.phase());
            if (!now.equals(running)) {
                add(chapters, running, since, picture.atUs());
                running = now;
                since = picture.atUs();
            }
        }
        add(chapters, running, since, plan.lengthUs());
        return chapters;
    }

    private static void add(List<Chapter> chapters, String title, long from, long to) {
        if (!title.isEmpty() && to > from) {
            chapters.add(new Chapter(from, to, title));
        }
    }

    /** What comments say while their moment is on the screen, and what is said aloud where somebody wrote it down. */
    static List<Caption> captions(FilmPlan plan, List<FilmShots.Cast> shots, List<Comment> written) {
        List<Caption> captions = new ArrayList<>();
        for (Comment comment : written) {
            long since = -1;
            for (FilmPlan.Picture picture : plan.pictures()) {
                boolean shown = isShown(comment, picture);
                if (shown && since < 0) {
                    since = picture.atUs();
                } else if (!shown && since >= 0) {
                    add(captions, since, picture.atUs(), comment.text());
                    since = -1;
                }
            }
            if (since >= 0) {
                add(captions, since, plan.lengthUs(), comment.text());
            }
        }
        long start = 0;
        for (FilmShots.Cast cast : shots) {
            long end = start + cast.shot().lengthUs();
            for (Comment comment : cast.spoken()) {
                Voice voice = comment.voice();
                if (voice == null || voice.captions().isEmpty()) {
                    add(captions, start, end, comment.text());
                } else {
                    for (Caption said : voice.captions()) {
                        add(captions, start + said.fromUs(), Math.min(end, start + said.toUs()), said.text());
                    }
                }
            }
            start = end;
        }
        captions.sort(Comparator.comparingLong(Caption::fromUs));
        return captions;
    }

    private static void add(List<Caption> captions, long from, long to, String text) {
        if (!text.isBlank() && to > from) {
            captions.add(new Caption(from, to, text));
        }
    }

    /** What is drawn on a picture: what was drawn while somebody spoke, and the drawings of comments on their stretch. */
    static List<DrawnMark> marks(FilmPlan.Picture picture, List<Comment> comments) {
        Set<DrawnMark> marks = new LinkedHashSet<>(picture.marks());
        for (Comment comment : comments) {
            if (isShown(comment, picture)) {
                marks.addAll(comment.drawing());
            }
        }
        return List.copyOf(marks);
    }

    /** A stretch while it lasts; a moment is held. */
    private static boolean isShown(Comment comment, FilmPlan.Picture picture) {
        return comment.isAt(picture.seen(), comment.to() == null ? HOLD_US : 0);
    }

    /** Three letters for a language tag; {@code null} if it is none. */
    static @Nullable String threeLetters(String tag) {
        try {
            String three = Locale.forLanguageTag(tag).getISO3Language();
            return three.length() == 3 ? three : null;
        } catch (java.util.MissingResourceException e) {
            return null;
        }
    }

    /** Where a comment on a moment is looked at, with some time around it. */
    static FilmShots.Stretch around(Comment comment, MediaTime end) {
        MediaTime to = comment.to();
        long from = Math.max(0, comment.from().micros() - HOLD_US);
        long until = Math.max(comment.from().micros() + HOLD_US, to == null ? 0 : to.micros());
        return new FilmShots.Stretch(
                MediaTime.ofMicros(from), MediaTime.ofMicros(Math.min(end.micros(), until + HOLD_US / 3)));
    }
}
