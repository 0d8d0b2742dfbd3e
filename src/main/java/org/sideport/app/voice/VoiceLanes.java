package org.sideport.app.voice;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import javafx.beans.Observable;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.sideport.app.Background;
import org.sideport.app.Texts;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.MinMaxPyramid;
import org.sideport.media.voice.Waveform;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenTrack.Piece;
import org.sideport.model.Voice;
import org.sideport.workflow.VoiceKeeping;

/**
 * The spoken comments as lanes: a mark where each begins, and how loud the voices are at the times of the recording that
 * were seen meanwhile. Where the picture stood, only the mark tells of it, with its length.
 */
public final class VoiceLanes {

    /** The key of a spoken comment on the timeline. */
    public record Spoken(Comment comment) {}

    /** Time of the recording for one value; two values, the least and the greatest, are one step of a waveform. */
    private static final long STEP_US = Waveform.STEP_US / 2;

    private final ObservableList<CommentThread> threads;
    private final PictureDesk desk;
    private final VoiceKeeping keeping;
    private final Background background;
    private final Texts texts;
    private final ObservableList<Lane> lanes = FXCollections.observableArrayList();
    private final Map<String, Waveform> waveforms = new HashMap<>();
    private int turn;

    public VoiceLanes(
            ObservableList<CommentThread> threads,
            PictureDesk desk,
            VoiceKeeping keeping,
            Background background,
            Texts texts) {
        this.threads = threads;
        this.desk = desk;
        this.keeping = keeping;
        this.background = background;
        this.texts = texts;
        threads.addListener((Observable changed) -> relay());
        desk.durationProperty().addListener((property, old, now) -> relay());
    }

    public ObservableList<Lane> lanes() {
        return lanes;
    }

    private void relay() {
        int now = ++turn;
        List<Comment> spoken = threads.stream()
                .map(CommentThread::comment)
                .filter(comment -> comment.voice() != null)
                .toList();
        long end = desk.durationProperty().get().micros();
        if (spoken.isEmpty() || end == 0) {
            if (!lanes.isEmpty()) {
                lanes.clear();
            }
            return;
        }
        lay(spoken, end);
        Map<String, Path> wanted = new HashMap<>();
        for (Comment comment : spoken) {
            Voice voice = Objects.requireNonNull(comment.voice());
            if (!waveforms.containsKey(voice.sha256())) {
                wanted.put(voice.sha256(), keeping.fileOf(voice));
            }
        }
        if (!wanted.isEmpty()) {
            background.run(
                    progress -> wanted.entrySet().stream()
                            .filter(entry -> Files.isRegularFile(entry.getValue()))
                            .collect(Collectors.toMap(Map.Entry::getKey, entry -> Waveform.of(entry.getValue()))),
                    read -> {
                        waveforms.putAll(read);
                        if (turn == now && !read.isEmpty()) {
                            lay(spoken, end);
                        }
                    },
                    // the marks are there; playing says what is wrong
                    failure -> {});
        }
    }

    private void lay(List<Comment> spoken, long end) {
        List<Lane> fresh = new ArrayList<>();
        fresh.add(new Lane.Points(
                "spoken",
                texts.get("lane.spoken"),
                false,
                spoken.stream().map(this::point).toList()));
        float[] loudness = loudness(spoken, waveforms, end);
        float most = 0;
        for (float value : loudness) {
            most = Float.isNaN(value) ? most : Math.max(most, Math.abs(value));
        }
        if (most > 0) {
            fresh.add(new Lane.Curve(
                    "voices", texts.get("lane.voices"), 0, STEP_US, new MinMaxPyramid(loudness), -most, most));
        }
        lanes.setAll(fresh);
    }

    private Lane.Point point(Comment comment) {
        Voice voice = Objects.requireNonNull(comment.voice());
        String length = MediaTime.ofMicros(voice.lengthUs()).toClockText();
        return new Lane.Point(
                new Spoken(comment),
                comment.from().micros(),
                Lane.Mark.COMMENT,
                texts.get(comment.to() == null ? "lane.spoken.still" : "lane.spoken.moving", comment.author(), length),
                comment.text());
    }

    /** Least and greatest amplitude in turn, for each step of the recording that was seen running. */
    static float[] loudness(List<Comment> spoken, Map<String, Waveform> waveforms, long endUs) {
        float[] values = new float[(int) (endUs / STEP_US) + 2];
        Arrays.fill(values, Float.NaN);
        for (Comment comment : spoken) {
            Voice voice = Objects.requireNonNull(comment.voice());
            Waveform waveform = waveforms.get(voice.sha256());
            if (waveform == null) {
                continue;
            }
            for (Piece piece : voice.seen().pieces(voice.lengthUs())) {
                if (piece.rate() > 0) {
                    put(waveform, piece, values);
                }
            }
        }
        return values;
    }

    private static void put(Waveform waveform, Piece piece, float[] values) {
        int from = (int) (piece.time().micros() / Waveform.STEP_US);
        int to = (int) (piece.end().micros() / Waveform.STEP_US);
        for (int step = from; step <= to && 2 * step + 1 < values.length; step++) {
            double later = (double) step * Waveform.STEP_US - piece.time().micros();
            long voiceUs = piece.fromUs() + Math.round(Math.max(0, later) / piece.rate());
            int place = (int) (voiceUs / Waveform.STEP_US);
            if (place < waveform.size()) {
                values[2 * step] = waveform.least(place);
                values[2 * step + 1] = waveform.greatest(place);
            }
        }
    }
}
