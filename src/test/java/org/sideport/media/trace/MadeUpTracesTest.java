package org.sideport.media.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.sideport.media.TimeHole;
import org.sideport.model.MediaTime;

/** Findings on traces that are written down instead of measured: long recordings, and the limits of the rules. */
class MadeUpTracesTest {

    private static final double HZ = 5;

    /** Two operations of 10 minutes with a changeover of 3 between them, and one with a pause of 30 s. */
    @Test
    void aLongStretchWithoutAnEyeBetweenTwoOperationsIsSuspected() {
        Made made = new Made(23 * 60);
        made.set(TraceKind.RED_SATURATION, 0, 600, 0.5).set(TraceKind.RED_SATURATION, 780, 1380, 0.45);
        List<Finding> found = Findings.of(made.traces());
        assertThat(found).singleElement().satisfies(f -> {
            assertThat(f.kind()).isEqualTo(FindingKind.TWO_OPERATIONS);
            assertThat(f.start().seconds()).isCloseTo(600, within(1.0));
            assertThat(f.end().seconds()).isCloseTo(780, within(1.0));
            assertThat(f.evidence()).contains("180 s").contains("600 s before").contains("600 s after");
        });
        Made paused = new Made(20 * 60);
        paused.set(TraceKind.RED_SATURATION, 0, 1200, 0.5).set(TraceKind.RED_SATURATION, 600, 630, 0.02);
        assertThat(Findings.of(paused.traces())).isEmpty();
    }

    /** A minute of eye before the changeover is no operation. */
    @Test
    void aShortLookBeforeIsNoSecondOperation() {
        Made made = new Made(15 * 60);
        made.set(TraceKind.RED_SATURATION, 0, 60, 0.5).set(TraceKind.RED_SATURATION, 200, 900, 0.5);
        assertThat(Findings.of(made.traces())).isEmpty();
    }

    @Test
    void aRecordingWithoutRedSaysNothingOfWhatLiesOutside() {
        assertThat(Findings.of(new Made(300).traces())).isEmpty();
    }

    /** 0.8 s are too short for black, 1.0 s are not; the end of the recording ends it too. */
    @Test
    void blackCountsFromOneSecondOn() {
        Made made = new Made(60);
        made.set(TraceKind.BRIGHTNESS, 10, 10.8, 16).set(TraceKind.CONTRAST, 10, 10.8, 0);
        assertThat(Findings.of(made.traces())).isEmpty();
        made.set(TraceKind.BRIGHTNESS, 59, 60, 16).set(TraceKind.CONTRAST, 59, 60, 0);
        assertThat(Findings.of(made.traces())).singleElement().satisfies(f -> {
            assertThat(f.kind()).isEqualTo(FindingKind.BLACK);
            assertThat(f.start()).isEqualTo(MediaTime.ofSeconds(59));
            assertThat(f.end()).isEqualTo(MediaTime.ofSeconds(60));
        });
    }

    /** The picture before the first that does not differ is frozen too: from 19.8 s. A key frame in it ends nothing. */
    @Test
    void frozenCountsOnlyWhileFramesAdvance() {
        Made made = new Made(60);
        made.set(TraceKind.DIFFERENCE, 20, 24, 0).set(TraceKind.DIFFERENCE, 22, 22.2, 1.2);
        assertThat(Findings.of(made.traces())).singleElement().satisfies(f -> {
            assertThat(f.kind()).isEqualTo(FindingKind.FROZEN);
            assertThat(f.start()).isEqualTo(MediaTime.ofSeconds(19.8));
            assertThat(f.end()).isEqualTo(MediaTime.ofSeconds(24));
        });
        made.hole(20, 24);
        assertThat(Findings.of(made.traces())).extracting(Finding::kind).containsExactly(FindingKind.TIME_HOLE);
    }

    @Test
    void softPicturesCountAgainstTheMedianOfTheRecordingAndItsContrast() {
        Made made = new Made(100);
        // a light filter of 0.6: gradient and contrast fall together
        made.set(TraceKind.SHARPNESS, 10, 20, 10_000 * 0.36).set(TraceKind.CONTRAST, 10, 20, 40 * 0.6);
        // 1.8 s are too short
        made.set(TraceKind.SHARPNESS, 30, 31.8, 500);
        assertThat(Findings.of(made.traces())).isEmpty();
        made.set(TraceKind.SHARPNESS, 50, 53, 2_500);
        assertThat(Findings.of(made.traces())).singleElement().satisfies(f -> {
            assertThat(f.kind()).isEqualTo(FindingKind.OUT_OF_FOCUS);
            assertThat(f.start()).isEqualTo(MediaTime.ofSeconds(50));
            assertThat(f.end()).isEqualTo(MediaTime.ofSeconds(53));
            // 2500 of 10 000
            assertThat(f.evidence()).contains("25 %");
        });
    }

    /** Where one file ends and the next begins the scene may change; a lively scene has no jumps. */
    @Test
    void jumpsAtTheBordersOfFilesAndInLivelyScenesAreNone() {
        Made made = new Made(60);
        made.border(30).set(TraceKind.SCENE_CHANGE, 30, 30.2, 0.95);
        made.set(TraceKind.SCENE_CHANGE, 40, 50, 0.5).set(TraceKind.SCENE_CHANGE, 45, 45.2, 0.7);
        assertThat(Findings.of(made.traces())).isEmpty();
        made.set(TraceKind.SCENE_CHANGE, 20, 20.2, 0.7);
        assertThat(Findings.of(made.traces())).singleElement().satisfies(f -> {
            assertThat(f.kind()).isEqualTo(FindingKind.JUMP_CUT);
            assertThat(f.start()).isEqualTo(MediaTime.ofSeconds(19.8));
            assertThat(f.end()).isEqualTo(MediaTime.ofSeconds(20));
            assertThat(f.evidence()).contains("file 1").contains("70 %");
        });
    }

    /** Noise alone, over 30 recordings of 10 minutes: hardly a boundary is proposed, and no rest where all is work. */
    @Test
    void noiseAloneProposesHardlyAnything() {
        Random random = new Random(1);
        int boundaries = 0;
        for (int round = 0; round < 30; round++) {
            Made made = new Made(600);
            made.set(TraceKind.RED_SATURATION, 0, 600, 0.5);
            float[] activity = made.values.get(TraceKind.ACTIVITY);
            for (int i = 0; i < activity.length; i++) {
                activity[i] = (float) Math.max(0, 2 + 0.4 * random.nextGaussian());
            }
            List<Proposal> proposals = Proposals.of(made.traces());
            boundaries += (int) proposals.stream()
                    .filter(p -> p.kind() == Proposal.Kind.BOUNDARY)
                    .count();
            assertThat(proposals).noneMatch(p -> p.kind() == Proposal.Kind.IDLE);
        }
        System.out.println("boundaries in five hours of noise: " + boundaries);
        assertThat(boundaries).isLessThanOrEqualTo(3);
    }

    /**
     * Two classes, 60 values at 0 and 40 at 10: every level between them has the same variance between the classes (0.6 ·
     * 0.4 · 10² = 24, the greatest that there is), and the middle is taken.
     */
    @Test
    void theLevelThatSplitsTwoClassesLiesInTheMiddleBetweenThem() {
        double[] values = new double[100];
        Arrays.fill(values, 60, 100, 10);
        assertThat(Activity.otsu(values)).isCloseTo(5, within(10.0 / 64));
        assertThat(Activity.otsu(new double[] {3, 3, 3})).isEqualTo(3);
    }

    /** Rest of 2.8 s is too short, of 3 s it is not; the level of work is 10 times that of rest. */
    @Test
    void restCountsFromThreeSecondsOn() {
        Made made = new Made(120);
        made.set(TraceKind.RED_SATURATION, 0, 120, 0.5);
        made.set(TraceKind.ACTIVITY, 30, 50, 0.2).set(TraceKind.ACTIVITY, 70, 72.8, 0.2);
        List<Proposal> idle = Proposals.of(made.traces()).stream()
                .filter(p -> p.kind() == Proposal.Kind.IDLE)
                .toList();
        assertThat(idle).singleElement().satisfies(p -> {
            assertThat(p.start()).isEqualTo(MediaTime.ofSeconds(30));
            assertThat(p.end()).isEqualTo(MediaTime.ofSeconds(50));
        });
        // without the short one, the two changes of level are the boundaries, to the second of the search
        made.set(TraceKind.ACTIVITY, 70, 72.8, 2);
        assertThat(Proposals.of(made.traces()))
                .filteredOn(p -> p.kind() == Proposal.Kind.BOUNDARY)
                .extracting(p -> Math.round(p.start().seconds()))
                .containsExactly(30L, 50L);
    }

    @Test
    void recordsThatMakeNoSenseAreRefused() {
        MediaTime one = MediaTime.ofSeconds(1);
        assertThatThrownBy(() -> new Finding(FindingKind.BLACK, one, MediaTime.ZERO, "x", 0.5))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Finding(FindingKind.BLACK, MediaTime.ZERO, one, " ", 0.5))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Proposal(Proposal.Kind.BOUNDARY, MediaTime.ZERO, one, "x", 0.5))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Traces(0, 1, 1, List.of(0L), List.of(), Map.of()))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** A lively, sharp, colourless recording; what is set is what a test is about. */
    private static final class Made {

        private final Map<TraceKind, float[]> values = new EnumMap<>(TraceKind.class);
        private final java.util.ArrayList<Long> starts = new java.util.ArrayList<>(List.of(0L));
        private final java.util.ArrayList<TimeHole> holes = new java.util.ArrayList<>();
        private final double seconds;

        Made(double seconds) {
            this.seconds = seconds;
            Map<TraceKind, Double> usual = Map.of(
                    TraceKind.BRIGHTNESS, 120.0,
                    TraceKind.CONTRAST, 40.0,
                    TraceKind.BLUE, 120.0,
                    TraceKind.SHARPNESS, 10_000.0,
                    TraceKind.RED_SATURATION, 0.01,
                    TraceKind.DIFFERENCE, 4.0,
                    TraceKind.ACTIVITY, 2.0);
            for (TraceKind kind : TraceKind.values()) {
                float[] trace = new float[(int) Math.round(seconds * HZ)];
                Arrays.fill(trace, usual.getOrDefault(kind, 0.0).floatValue());
                values.put(kind, trace);
            }
        }

        Made set(TraceKind kind, double from, double to, double value) {
            Arrays.fill(values.get(kind), (int) Math.round(from * HZ), (int) Math.round(to * HZ), (float) value);
            return this;
        }

        Made border(double at) {
            starts.add(Math.round(at * 1e6));
            return this;
        }

        void hole(double from, double to) {
            holes.add(new TimeHole(0, Math.round(from * 1e6), Math.round(to * 1e6)));
        }

        Traces traces() {
            return new Traces(0, Math.round(1e6 / HZ), Math.round(seconds * 1e6), starts, holes, values);
        }
    }
}
