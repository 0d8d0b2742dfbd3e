package org.sideport.demo;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Operator;
import org.sideport.model.Severity;

/** Lays out acts one after the other, in seconds rounded to frames. */
final class ScriptBuilder {

    private final FrameClock rate;
    private final List<Act> acts = new ArrayList<>();
    private final List<EyeScript.Cue> cues = new ArrayList<>();
    private int next;

    ScriptBuilder(int num, int den) {
        rate = new FrameClock(num, den, List.of(0));
    }

    ScriptBuilder still(String what, double seconds) {
        return add(what, seconds, null, 0, 0, false, false);
    }

    ScriptBuilder pause(double seconds) {
        return still(Act.PAUSE, seconds);
    }

    /** The whole step in one go, with the instrument coming and going. */
    ScriptBuilder step(String step, double seconds, Operator operator) {
        return add(step, seconds, operator, 0, 1, true, true);
    }

    ScriptBuilder part(String step, double seconds, Operator operator, double startLevel, double endLevel) {
        return add(step, seconds, operator, startLevel, endLevel, true, true);
    }

    /** A step whose instrument stays in the eye before or after it. */
    ScriptBuilder linked(String step, double seconds, Operator operator, boolean enters, boolean leaves) {
        return add(step, seconds, operator, 0, 1, enters, leaves);
    }

    private ScriptBuilder add(
            String what,
            double seconds,
            @Nullable Operator operator,
            double startLevel,
            double endLevel,
            boolean enters,
            boolean leaves) {
        int to = next + rate.frames(seconds);
        acts.add(new Act(what, next, to, operator, startLevel, endLevel, enters, leaves));
        next = to;
        return this;
    }

    /** An event at the present end of the script, {@code secondsBack} earlier. */
    ScriptBuilder event(String kind, double secondsBack, @Nullable Severity severity, String note) {
        cues.add(new EyeScript.Cue(kind, next - rate.frames(secondsBack), severity, note));
        return this;
    }

    int frames() {
        return next;
    }

    List<Act> acts() {
        return acts;
    }

    List<EyeScript.Cue> cues() {
        return cues;
    }
}
