package org.sideport.app.picture;

import javafx.scene.input.KeyEvent;
import org.sideport.app.Shortcut;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.MediaTime;

/** The keys that work wherever a recording is watched. */
public final class PictureKeys {

    private static final long SECOND = 1_000_000;

    private final PictureDesk desk;
    private final TimelineView lane;
    private final Runnable fullPicture;

    public PictureKeys(PictureDesk desk, TimelineView lane, Runnable fullPicture) {
        this.desk = desk;
        this.lane = lane;
        this.fullPicture = fullPicture;
    }

    /** @return true if the key meant something here */
    public boolean handle(KeyEvent event) {
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.PICTURE).orElse(null);
        if (shortcut == null) {
            return false;
        }
        switch (shortcut) {
            case PLAY_OR_PAUSE -> desk.playOrPause();
            case NEXT_FRAME -> desk.step(1);
            case PREVIOUS_FRAME -> desk.step(-1);
            case FORWARD_SECOND -> desk.skip(SECOND);
            case BACK_SECOND -> desk.skip(-SECOND);
            case FORWARD_FIVE -> desk.skip(5 * SECOND);
            case BACK_FIVE -> desk.skip(-5 * SECOND);
            case TO_START -> desk.seek(MediaTime.ZERO);
            case TO_END -> desk.scrub(desk.durationProperty().get());
            case FASTER ->
                desk.setRate(TransportBar.nextRate(desk.rateProperty().get(), 1));
            case SLOWER ->
                desk.setRate(TransportBar.nextRate(desk.rateProperty().get(), -1));
            case LOOP -> desk.options().toggleLoop();
            case SKIP_IDLE -> desk.options().toggleMarkedOnly();
            case CLOSER -> lane.zoom(2);
            case WIDER -> lane.zoom(0.5);
            case FULL_PICTURE -> fullPicture.run();
            default -> throw new IllegalStateException("not a picture key: " + shortcut);
        }
        return true;
    }
}
