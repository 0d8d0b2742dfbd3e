package org.sideport.app.frame;

import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Properties;
import java.util.Set;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.application.Application;
import javafx.scene.Scene;
import javafx.scene.control.Labeled;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.Stage;
import javafx.util.Duration;
import org.sideport.app.SideportApp;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.PhaseSpan;

/** The real program in a process that a test may kill: it works as told, or tells where it is. */
public final class KilledApp extends Application {

    private final SideportApp app = new SideportApp();
    private final Timeline clock = new Timeline();
    private long timeUs;
    private int step;

    /** Apart from the application class, because JavaFX lies on the class path. */
    static final class Start {

        private Start() {}

        public static void main(String[] args) {
            launch(KilledApp.class, args);
        }
    }

    @Override
    public void start(Stage stage) throws Exception {
        var args = getParameters().getRaw();
        app.start(stage, Path.of(args.get(0)));
        boolean work = args.get(1).equals("work");
        timeUs = work ? Long.parseLong(args.get(2)) : 0;
        clock.getKeyFrames().setAll(new KeyFrame(Duration.millis(300), event -> {
            if (work) {
                work(stage.getScene());
            } else {
                tell(stage.getScene(), Path.of(args.get(0)));
            }
        }));
        clock.setCycleCount(Animation.INDEFINITE);
        clock.play();
    }

    /** One step after the other, each once the one before shows. */
    private void work(Scene scene) {
        var context = app.context();
        switch (step) {
            case 0 -> {
                if (scene.lookup("#first-steps") == null) {
                    return;
                }
                context.settings().put("annotator", "A1");
                press(scene, KeyCode.ESCAPE);
                app.window().toReview("C-2");
                step++;
            }
            case 1 -> {
                if (context.desk().shownProperty().get() != null
                        && scene.lookup("#annotator") instanceof TextInputControl code) {
                    code.setText("A1");
                    code.fireEvent(new javafx.event.ActionEvent());
                    step++;
                }
            }
            case 2 -> {
                TimelineView lane = lane(scene);
                for (var one : lane.modelProperty().get().lanes()) {
                    if (one instanceof org.sideport.app.timeline.Lane.Spans spans
                            && one.id().equals("phases")
                            && spans.spans().size() == 2) {
                        lane.selectionProperty().set(Set.of(spans.spans().get(1).key()));
                        step++;
                        break;
                    }
                }
            }
            case 3 -> {
                context.desk().seek(org.sideport.model.MediaTime.ofMicros(timeUs));
                step++;
            }
            case 4 -> {
                if (context.desk().timeProperty().get().micros() == timeUs) {
                    scene.getRoot().requestFocus();
                    lane(scene).requestFocus();
                    press(scene, KeyCode.M, true);
                    step++;
                }
            }
            case 5 -> {
                if (scene.getFocusOwner() instanceof TextInputControl field && "comment-text".equals(field.getId())) {
                    field.setText("hold the second instr");
                    step++;
                }
            }
            default -> clock.stop();
        }
    }

    private static TimelineView lane(Scene scene) {
        return (TimelineView) scene.lookup("#timeline-lane");
    }

    private static void press(Scene scene, KeyCode code) {
        press(scene, code, false);
    }

    private static void press(Scene scene, KeyCode code, boolean shift) {
        javafx.event.Event.fireEvent(
                scene.getFocusOwner() == null ? scene.getRoot() : scene.getFocusOwner(),
                new KeyEvent(KeyEvent.KEY_PRESSED, "", "", code, shift, false, false, false));
    }

    private void tell(Scene scene, Path folder) {
        if (!(scene.lookup("#notice .notice-what") instanceof Labeled notice)
                || scene.lookup("#timeline-lane") == null) {
            return;
        }
        Properties there = new Properties();
        var open = app.context().current().opened();
        there.put("case", open == null ? "" : open.code());
        there.put(
                "time_us",
                Long.toString(app.context().desk().timeProperty().get().micros()));
        StringBuilder selected = new StringBuilder();
        for (PhaseSpan span : org.sideport.app.review.TaggedLanes.spansOf(
                lane(scene).selectionProperty().get())) {
            selected.append(span.phase()).append(" at ").append(span.start().micros());
        }
        there.put("selected", selected.toString());
        if (scene.getFocusOwner() instanceof TextInputControl field) {
            there.put("field", String.valueOf(field.getId()));
            there.put("text", field.getText());
        }
        there.put("notice", notice.getText());
        try {
            Path fresh = folder.resolve("told.new");
            try (Writer writer = Files.newBufferedWriter(fresh)) {
                there.store(writer, null);
            }
            Files.move(fresh, folder.resolve("told.properties"), StandardCopyOption.REPLACE_EXISTING);
        } catch (java.io.IOException failure) {
            throw new java.io.UncheckedIOException(failure);
        }
        clock.stop();
    }

    @Override
    public void stop() {
        app.stop();
    }
}
