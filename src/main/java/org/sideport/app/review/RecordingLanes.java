package org.sideport.app.review;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CancellationException;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Formats;
import org.sideport.app.PhaseColours;
import org.sideport.app.Texts;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.MinMaxPyramid;
import org.sideport.app.timeline.PictureProvider;
import org.sideport.app.timeline.Stretch;
import org.sideport.app.timeline.Tint;
import org.sideport.media.trace.Finding;
import org.sideport.media.trace.Proposal;
import org.sideport.media.trace.TraceKind;
import org.sideport.media.trace.Traces;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.workflow.RecordingTraces;

/**
 * What is measured of the recording that is open, as lanes: filmstrip, traces, findings; and where its frames start. All
 * of it comes in the background, once the picture is there. Screen's thread only.
 */
public final class RecordingLanes {

    /** Measures a recording; may take long. */
    @FunctionalInterface
    public interface Measuring {
        RecordingTraces.Result of(Recording recording, Progress progress);
    }

    /**
     * @param doubts stretches that are black, frozen, without signal or without frames
     * @param cuts where the scene jumps
     * @param candidates where a boundary is proposed
     */
    public record Measured(List<Lane> lanes, List<Stretch> doubts, List<Long> cuts, List<Long> candidates) {

        public static final Measured NONE = new Measured(List.of(), List.of(), List.of(), List.of());

        public Measured {
            lanes = List.copyOf(lanes);
            doubts = List.copyOf(doubts);
            cuts = List.copyOf(cuts);
            candidates = List.copyOf(candidates);
        }

        /** Without lanes of its own, to leave the room to the picture; what boundaries snap to stays. */
        Measured withoutLanes() {
            return new Measured(List.of(), doubts, cuts, candidates);
        }
    }

    private final PictureDesk desk;
    private final FrameSource.Opener opener;
    private final Measuring measuring;
    private final Background stripWork;
    private final Background measuringWork;
    private final Texts texts;
    private final ReadOnlyObjectWrapper<Measured> measured = new ReadOnlyObjectWrapper<>(Measured.NONE);
    private final ReadOnlyObjectWrapper<@Nullable FrameGrid> frames = new ReadOnlyObjectWrapper<>(null);
    private @Nullable StripPictures strip;
    private RecordingTraces.@Nullable Result result;
    private Background.@Nullable Job job;
    private String progress = "";
    private int turn;

    public RecordingLanes(
            PictureDesk desk,
            FrameSource.Opener opener,
            Measuring measuring,
            Background stripWork,
            Background measuringWork,
            Texts texts) {
        this.desk = desk;
        this.opener = opener;
        this.measuring = measuring;
        this.stripWork = stripWork;
        this.measuringWork = measuringWork;
        this.texts = texts;
        desk.durationProperty().addListener((property, old, now) -> changed());
    }

    public ReadOnlyObjectProperty<Measured> measuredProperty() {
        return measured.getReadOnlyProperty();
    }

    /** {@code null} until they are known. */
    public ReadOnlyObjectProperty<@Nullable FrameGrid> framesProperty() {
        return frames.getReadOnlyProperty();
    }

    /** The desk sets the length when a recording is ready, and to nothing when it is closed. */
    private void changed() {
        int now = ++turn;
        if (job != null) {
            job.cancel();
            job = null;
        }
        if (strip != null) {
            strip.close();
            strip = null;
        }
        frames.set(null);
        result = null;
        progress = "";
        Recording recording = desk.recordingProperty().get();
        if (recording == null || desk.durationProperty().get().micros() == 0) {
            measured.set(Measured.NONE);
            return;
        }
        strip = new StripPictures(recording, opener, stripWork, grid -> {
            if (turn == now) {
                frames.set(grid);
                relay();
            }
        });
        job = measuringWork.run(
                progress -> measuring.of(recording, progress),
                found -> {
                    if (turn == now) {
                        result = found;
                        progress = "";
                        relay();
                    }
                },
                failure -> {
                    if (turn == now) {
                        progress = failure instanceof CancellationException ? "" : texts.get("lane.traces.failed");
                        relay();
                    }
                },
                (fraction, message) -> {
                    String text = fraction < 0 ? "" : Formats.percent(fraction);
                    if (turn == now && result == null && !text.equals(progress)) {
                        progress = text;
                        relay();
                    }
                });
        relay();
    }

    /** The same lanes before and after, so that nothing moves under the mouse when what is measured arrives. */
    private void relay() {
        List<Lane> lanes = new ArrayList<>();
        PictureProvider pictures = strip;
        if (pictures != null) {
            lanes.add(new Lane.Pictures("pictures", texts.get("lane.pictures"), pictures));
        }
        RecordingTraces.Result found = result;
        if (found == null) {
            lanes.add(empty("activity", texts.get("lane.activity")));
            lanes.add(empty("sharpness", texts.get("lane.sharpness")));
            lanes.add(new Lane.Spans("findings", texts.get("lane.traces", progress), false, false, List.of()));
            measured.set(new Measured(lanes, List.of(), List.of(), List.of()));
            return;
        }
        lanes.add(curve("activity", texts.get("lane.activity"), found.traces(), TraceKind.ACTIVITY));
        lanes.add(curve("sharpness", texts.get("lane.sharpness"), found.traces(), TraceKind.SHARPNESS));
        List<Lane.Span> findings = new ArrayList<>();
        List<Stretch> doubts = new ArrayList<>();
        List<Long> cuts = new ArrayList<>();
        for (Finding finding : found.findings()) {
            String name = texts.get("finding." + finding.kind().name());
            long start = finding.start().micros();
            long end = Math.max(start, finding.end().micros());
            findings.add(new Lane.Span(
                    finding,
                    start,
                    end,
                    false,
                    false,
                    name,
                    name,
                    Tint.of(PhaseColours.unknown()),
                    finding.evidence()));
            switch (finding.kind()) {
                case BLACK, NO_SIGNAL, FROZEN, TIME_HOLE -> doubts.add(new Stretch(start, end));
                case JUMP_CUT -> cuts.add(end);
                case OUT_OF_FOCUS, LEAD_IN, TAIL, TWO_OPERATIONS -> {}
            }
        }
        lanes.add(new Lane.Spans("findings", texts.get("lane.findings"), false, false, findings));
        List<Long> candidates = found.proposals().stream()
                .filter(proposal -> proposal.kind() == Proposal.Kind.BOUNDARY)
                .map(proposal -> proposal.start().micros())
                .toList();
        measured.set(new Measured(lanes, doubts, cuts, candidates));
    }

    private static Lane.Curve empty(String id, String name) {
        return new Lane.Curve(id, name, 0, 1, new MinMaxPyramid(new float[0]), 0, 1);
    }

    /** From the hundredth to the ninety-ninth part of the values, so that a few far ones do not flatten the rest. */
    private static Lane.Curve curve(String id, String name, Traces traces, TraceKind kind) {
        float[] values = traces.of(kind);
        float[] sorted = values.clone();
        Arrays.sort(sorted); // what is no number comes last
        int known = sorted.length;
        while (known > 0 && Float.isNaN(sorted[known - 1])) {
            known--;
        }
        double low = known == 0 ? 0 : sorted[(int) (0.01 * (known - 1))];
        double high = known == 0 ? 0 : sorted[(int) Math.ceil(0.99 * (known - 1))];
        double room = high > low ? 0 : 1;
        return new Lane.Curve(
                id, name, traces.startUs(), traces.stepUs(), new MinMaxPyramid(values), low - room, high + room);
    }
}
