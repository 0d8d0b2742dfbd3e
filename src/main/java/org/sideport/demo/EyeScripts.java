package org.sideport.demo;

import static org.sideport.model.Operator.ASSISTED;
import static org.sideport.model.Operator.TRAINEE;
import static org.sideport.model.Operator.TRAINER;

import java.util.List;
import org.sideport.demo.EyeScript.EyeLook;
import org.sideport.demo.EyeScript.PictureShape;
import org.sideport.model.Severity;

/** The three recorded cases of the demo. Each is far shorter than a real operation, so that it can be watched. */
public final class EyeScripts {

    private EyeScripts() {}

    public static List<EyeScript> all() {
        return List.of(first(), second(), third());
    }

    /** 25 frames a second in two files whose names sort wrongly as plain text; the trainer removes the fragments. */
    static EyeScript first() {
        ScriptBuilder script = new ScriptBuilder(25, 1);
        opening(script);
        script.step("side_port", 3.2, TRAINEE).pause(0.8);
        script.step("main_incision", 3.6, TRAINEE).pause(0.8);
        script.step("ovd_chamber", 3.4, TRAINEE).pause(0.8);
        script.step("rhexis", 9.6, TRAINEE).event("teaching_moment", 3.0, null, "regrasps before the last quarter");
        script.pause(0.92).step("hydrodissection", 4.2, TRAINEE).pause(0.8);
        script.linked("sculpting", 7.6, TRAINEE, true, false);
        script.linked("division", 4.4, TRAINEE, false, true).event("take_over", 0, null, "");
        script.pause(1.2).step("fragment_removal", 8.4, TRAINER).event("hand_back", 0, null, "");
        script.pause(1.0).step("cortex_aspiration", 7.6, TRAINEE).pause(0.8);
        script.step("ovd_bag", 2.8, TRAINEE).pause(0.8);
        script.step("lens_insertion", 4.8, TRAINEE).pause(0.6);
        script.step("lens_positioning", 3.2, TRAINEE).pause(0.8);
        script.step("ovd_removal", 4.8, TRAINEE).pause(0.8);
        script.step("hydration", 3.6, TRAINEE);
        script.pause(2.0);
        int split = script.acts().stream()
                        .filter(a -> a.what().equals("sculpting"))
                        .findFirst()
                        .orElseThrow()
                        .from()
                + 77;
        return new EyeScript(
                "D-001",
                List.of("D-001_part9.mp4", "D-001_part10.mp4"),
                new FrameClock(25, 1, List.of(split, script.frames() - split)),
                new PictureShape(640, 480, 1, 1),
                new EyeLook(5.2, 0.15, -0.1, 0.58, false, 33, 11),
                script.acts(),
                script.cues(),
                false);
    }

    /** With the sound of the machine; the capsule is dyed and iris comes into the main incision. */
    static EyeScript second() {
        ScriptBuilder script = new ScriptBuilder(25, 1);
        opening(script);
        script.step("side_port", 2.6, TRAINEE).pause(0.8);
        script.step("capsule_dye", 3.4, TRAINEE).pause(0.8);
        script.step("ovd_chamber", 3.0, TRAINEE).pause(0.6);
        script.step("main_incision", 3.0, TRAINEE).pause(0.8);
        script.step("rhexis", 7.6, TRAINEE).pause(0.8);
        script.step("hydrodissection", 4.0, TRAINEE)
                .event("iris_prolapse", 1.4, Severity.MODERATE, "comes out with the fluid, goes back on its own");
        script.pause(1.2);
        script.linked("sculpting", 6.0, TRAINEE, true, false);
        script.linked("division", 3.6, TRAINEE, false, false);
        script.linked("fragment_removal", 7.2, TRAINEE, false, true).pause(0.8);
        script.step("cortex_aspiration", 6.0, TRAINEE).pause(0.6);
        script.step("capsule_polishing", 3.4, TRAINEE).pause(0.8);
        script.step("ovd_bag", 2.6, TRAINEE).pause(0.8);
        script.step("lens_insertion", 4.2, TRAINEE).pause(0.6);
        script.step("lens_positioning", 2.8, TRAINEE).pause(0.6);
        script.step("ovd_removal", 4.2, TRAINEE).pause(0.8);
        script.step("chamber_flushing", 2.6, TRAINEE).pause(0.6);
        script.step("hydration", 3.2, TRAINEE);
        script.pause(2.0);
        return new EyeScript(
                "D-002",
                List.of("D-002.mp4"),
                new FrameClock(25, 1, List.of(script.frames())),
                new PictureShape(640, 480, 1, 1),
                new EyeLook(4.8, -0.1, 0.2, 0.09, true, 34, 22),
                script.acts(),
                script.cues(),
                true);
    }

    /** 30000/1001 frames a second with narrow pixels; an early case with a tear that is brought back. */
    static EyeScript third() {
        ScriptBuilder script = new ScriptBuilder(30_000, 1001);
        opening(script);
        script.step("side_port", 3.6, TRAINEE).pause(1.0);
        script.step("main_incision", 4.0, TRAINEE).pause(1.0);
        script.step("ovd_chamber", 3.2, TRAINEE).pause(1.0);
        script.part("rhexis", 6.0, TRAINEE, 0, 0.6)
                .event("capsule_tear_anterior", 0.9, Severity.MINOR, "runs outwards at the second regrasp");
        script.pause(0.8).step("ovd_chamber", 2.6, TRAINEE).pause(0.8);
        script.part("rhexis", 5.6, ASSISTED, 0.6, 1).event("flap_rescued", 4.2, null, "");
        script.pause(1.0).step("hydrodissection", 4.4, TRAINEE).pause(1.0);
        script.linked("sculpting", 8.0, ASSISTED, true, true).event("take_over", 0, null, "the groove stays shallow");
        script.pause(1.2).linked("division", 3.6, TRAINER, true, false);
        script.linked("fragment_removal", 6.8, TRAINER, false, true).pause(1.0);
        script.step("cortex_aspiration", 6.0, TRAINER)
                .event("hand_back", 0, null, "")
                .pause(1.4);
        script.step("ovd_bag", 2.8, TRAINEE).pause(1.0);
        script.step("lens_insertion", 5.0, TRAINEE).pause(0.6);
        script.step("lens_positioning", 3.0, TRAINEE).pause(0.8);
        script.step("ovd_removal", 4.6, TRAINEE).pause(0.8);
        script.step("hydration", 3.2, TRAINEE);
        script.pause(2.0);
        return new EyeScript(
                "D-003",
                List.of("D-003.mp4"),
                new FrameClock(30_000, 1001, List.of(script.frames())),
                // 704 narrow pixels of 10:11 are shown as 640
                new PictureShape(704, 480, 10, 11),
                new EyeLook(5.6, 0.1, 0.1, 0.19, false, 32, 33),
                script.acts(),
                script.cues(),
                false);
    }

    private static void opening(ScriptBuilder script) {
        script.still(Act.TITLE, 2.6).still(Act.BLANK, 0.8).pause(2.4);
    }
}
