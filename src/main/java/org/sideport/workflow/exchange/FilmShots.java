package org.sideport.workflow.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.sideport.media.film.Shot;
import org.sideport.model.Comment;
import org.sideport.model.MediaTime;
import org.sideport.model.Voice;

/** Puts the shots of a film in order: the chosen stretches, and what was said over them where it was said. */
final class FilmShots {

    /** A stretch of the recording. */
    record Stretch(MediaTime from, MediaTime to) {}

    /** A shot with the spoken comment that it plays, if it plays one. */
    record Cast(Shot shot, List<Comment> spoken) {}

    private FilmShots() {}

    /**
     * @param stretches in any order; overlapping ones become one
     * @param spoken comments with a voice; one that lies in no stretch is a shot of its own
     * @param file where a voice lies
     */
    static List<Cast> of(List<Stretch> stretches, List<Comment> spoken, Function<Voice, Path> file) {
        List<Stretch> merged = merged(stretches);
        List<Comment> left = new ArrayList<>(spoken);
        left.sort(Comparator.comparing(Comment::from));
        List<Cast> shots = new ArrayList<>();
        for (Stretch stretch : merged) {
            while (!left.isEmpty() && left.get(0).from().isBefore(stretch.from())) {
                shots.add(spoken(left.remove(0), file));
            }
            MediaTime at = stretch.from();
            while (!left.isEmpty() && left.get(0).from().isBefore(stretch.to())) {
                Comment comment = left.remove(0);
                if (comment.from().isAfter(at)) {
                    shots.add(new Cast(Shot.of(at, comment.from()), List.of()));
                }
                shots.add(spoken(comment, file));
                // what was explained is seen once more at its own pace
                at = comment.from();
            }
            shots.add(new Cast(Shot.of(at, stretch.to()), List.of()));
        }
        left.forEach(comment -> shots.add(spoken(comment, file)));
        return shots;
    }

    private static Cast spoken(Comment comment, Function<Voice, Path> file) {
        Voice voice = Objects.requireNonNull(comment.voice());
        return new Cast(new Shot(voice.seen(), voice.lengthUs(), file.apply(voice)), List.of(comment));
    }

    static List<Stretch> merged(List<Stretch> stretches) {
        List<Stretch> sorted = new ArrayList<>(stretches);
        sorted.sort(Comparator.comparing(Stretch::from));
        List<Stretch> merged = new ArrayList<>();
        for (Stretch one : sorted) {
            Stretch before = merged.isEmpty() ? null : merged.get(merged.size() - 1);
            if (before != null && !one.from().isAfter(before.to())) {
                MediaTime to = one.to().isAfter(before.to()) ? one.to() : before.to();
                merged.set(merged.size() - 1, new Stretch(before.from(), to));
            } else {
                merged.add(one);
            }
        }
        return merged;
    }
}
