package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;

class EyeScriptsTest {

    static List<EyeScript> scripts() {
        return EyeScripts.all();
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void spansFollowOneAnotherAndEveryBoundaryIsTheStartOfAFrame(EyeScript script) {
        Set<Long> frameStarts = frameStarts(script);
        long last = 0;
        for (PhaseSpan span : script.truth().spans()) {
            long end = Objects.requireNonNull(span.end()).micros();
            assertThat(span.start().micros()).isGreaterThanOrEqualTo(last).isIn(frameStarts);
            assertThat(end).isIn(frameStarts);
            last = end;
        }
        for (PointEvent event : script.truth().events()) {
            assertThat(event.at().micros()).isIn(frameStarts);
        }
    }

    /** Worked out in whole numbers, file by file, as the timeline of the recording is defined. */
    private static Set<Long> frameStarts(EyeScript script) {
        long num = script.clock().num();
        long den = script.clock().den();
        Set<Long> starts = new HashSet<>();
        long before = 0;
        for (int frames : script.clock().fileFrames()) {
            for (int n = 0; n < frames; n++) {
                starts.add(before + (n * den * 1_000_000 * 2 + num) / (2 * num));
            }
            before += (frames * den * 1_000_000 * 2 + num) / (2 * num);
        }
        return starts;
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void onlyStepsAndEventsOfTheProcedureFileAreUsed(EyeScript script) throws IOException {
        ProcedureIds ids = ProcedureIds.read();
        assertThat(script.truth().spans()).extracting(PhaseSpan::phase).isSubsetOf(ids.steps());
        assertThat(script.truth().events()).extracting(PointEvent::kind).isSubsetOf(ids.events());
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void anInstrumentIsInThePictureInEveryFrameOfAStepAndInNoneOfAPause(EyeScript script) {
        EyeMotion motion = new EyeMotion(script);
        double width = script.shape().displayWidth();
        for (int frame = 0; frame < script.clock().frames(); frame++) {
            EyePose.Held main = motion.at(frame).main();
            if (script.actAt(frame).isStep()) {
                assertThat(main).as("frame %d", frame).isNotNull();
                assertThat(motion.at(frame).screenX(main.x()))
                        .as("frame %d", frame)
                        .isBetween(0.0, width);
                assertThat(motion.at(frame).screenY(main.y()))
                        .as("frame %d", frame)
                        .isBetween(0.0, (double) script.shape().height());
            } else {
                assertThat(main).as("frame %d", frame).isNull();
            }
        }
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void instrumentsMoveWithoutJumps(EyeScript script) {
        EyeMotion motion = new EyeMotion(script);
        for (Act act : script.acts().stream().filter(Act::isStep).toList()) {
            for (int frame = act.enters() ? act.from() + 1 : act.from(); frame < act.to(); frame++) {
                EyePose.Held before =
                        Objects.requireNonNull(motion.at(frame - 1).main());
                EyePose.Held now = Objects.requireNonNull(motion.at(frame).main());
                // 1.5 mm a frame is about 4 cm a second
                assertThat(Math.hypot(now.x() - before.x(), now.y() - before.y()))
                        .as("%s, frame %d", act.what(), frame)
                        .isLessThan(1.5);
            }
        }
    }
}
