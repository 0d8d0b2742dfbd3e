package org.sideport.demo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/**
 * All that happens in one schematic recording, to the frame. Everything is invented; it shows no patient.
 *
 * @param code code of the case
 * @param files names of the files in order; the split falls where {@code clock} says
 * @param look how the eye looks and where its rhexis lies
 * @param acts without gaps, from frame 0 to the end
 * @param cues what happened at a moment
 * @param sound true if the machine can be heard
 */
public record EyeScript(
        String code,
        List<String> files,
        FrameClock clock,
        PictureShape shape,
        EyeLook look,
        List<Act> acts,
        List<Cue> cues,
        boolean sound) {

    /**
     * @param width coded pixels
     * @param height coded pixels
     * @param aspectNum width of a pixel as a ratio to its height
     * @param aspectDen height of a pixel
     */
    public record PictureShape(int width, int height, int aspectNum, int aspectDen) {
        double aspect() {
            return (double) aspectNum / aspectDen;
        }

        double displayWidth() {
            return width * aspect();
        }
    }

    /**
     * @param rhexisMm diameter of the opening
     * @param rhexisX centre, mm right of the limbus centre
     * @param rhexisY centre, mm below the limbus centre
     * @param irisHue hue of the iris, 0 to 1
     * @param dyed true if the capsule is stained before it is opened
     * @param zoom microscope magnification, display pixels per mm
     */
    public record EyeLook(
            double rhexisMm, double rhexisX, double rhexisY, double irisHue, boolean dyed, double zoom, long seed) {}

    /** @param kind id of an event kind of the procedure */
    public record Cue(String kind, int frame, @Nullable Severity severity, String note) {}

    public EyeScript {
        files = List.copyOf(files);
        acts = List.copyOf(acts);
        cues = cues.stream().sorted(Comparator.comparingInt(Cue::frame)).toList();
        if (files.size() != clock.fileFrames().size()) {
            throw new IllegalArgumentException("one length per file");
        }
        int next = 0;
        for (Act act : acts) {
            if (act.from() != next || act.to() <= act.from()) {
                throw new IllegalArgumentException("acts must follow one another: " + act);
            }
            next = act.to();
        }
        if (next != clock.frames()) {
            throw new IllegalArgumentException("the acts end at frame " + next + ", the files at " + clock.frames());
        }
    }

    /** What a perfect annotator would write: steps with both ends, and events. */
    public Tagging truth() {
        List<PhaseSpan> spans = new ArrayList<>();
        for (Act act : acts) {
            if (act.isStep()) {
                spans.add(new PhaseSpan(act.what(), clock.at(act.from()), clock.at(act.to()), act.operator()));
            }
        }
        List<PointEvent> events = cues.stream()
                .map(cue -> new PointEvent(cue.kind(), clock.at(cue.frame()), cue.severity(), cue.note()))
                .toList();
        return new Tagging(TaggingStyle.START_AND_END, spans, events);
    }

    Act actAt(int frame) {
        return acts.stream().filter(a -> a.covers(frame)).findFirst().orElseThrow();
    }

    /** How much of a step is done at the start of {@code frame}, 0 to 1, over all its episodes. */
    double done(String step, int frame) {
        double done = 0;
        for (Act act : acts) {
            if (act.what().equals(step) && frame >= act.from()) {
                double share = Math.min(1, (frame - act.from()) / (double) (act.to() - act.from()));
                done = act.startLevel() + (act.endLevel() - act.startLevel()) * share;
            }
        }
        return done;
    }

    boolean hasStep(String step) {
        return acts.stream().anyMatch(a -> a.what().equals(step));
    }

    /** The frame of the first event of a kind, or {@code Integer.MAX_VALUE}. */
    int frameOf(String kind) {
        return cues.stream()
                .filter(c -> Objects.equals(c.kind(), kind))
                .mapToInt(Cue::frame)
                .findFirst()
                .orElse(Integer.MAX_VALUE);
    }
}
