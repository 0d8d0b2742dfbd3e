package org.sideport.app.compare;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.Supplier;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.picture.ShownFrame;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.player.VideoPlayer;
import org.sideport.timing.TimeMap;
import org.sideport.timing.TimeMap.Place;

/**
 * Two recordings under one transport. One side leads: it plays through its player, with its sound, and its position is
 * the position of both. The other follows by the {@link TimeMap} and shows the exact frame that belongs to the leading
 * one's: as a draft while things move, in full when they stand. So only one player runs at a time, and any pace of the
 * map, standing still and jumping included, is only a matter of which frame is asked for. Screen's thread only.
 */
public final class PairDesk {

    /** Left and right of the screen. */
    public enum Side {
        LEFT,
        RIGHT;

        public Side other() {
            return this == LEFT ? RIGHT : LEFT;
        }
    }

    private final Map<Side, PictureDesk> desks = new EnumMap<>(Side.class);
    private final Map<Side, Boolean> hasPlayer = new EnumMap<>(Side.class);
    private final ReadOnlyObjectWrapper<Side> leader = new ReadOnlyObjectWrapper<>(Side.LEFT);
    private final ReadOnlyObjectWrapper<@Nullable Place> place = new ReadOnlyObjectWrapper<>(null);
    private @Nullable Supplier<VideoPlayer> players;
    private @Nullable TimeMap map;
    /** The moment asked for: a tag need not lie on a frame's start, and then the frame alone would be a little early. */
    private @Nullable MediaTime wanted;

    private @Nullable MediaTime asked;
    private boolean dragging;
    private Runnable beforeUse = () -> {};

    public PairDesk(PictureDesk left, PictureDesk right) {
        desks.put(Side.LEFT, left);
        desks.put(Side.RIGHT, right);
        left.timeProperty().addListener((property, old, now) -> moved(Side.LEFT));
        right.timeProperty().addListener((property, old, now) -> moved(Side.RIGHT));
        left.shownProperty().addListener((property, old, now) -> ready(old, now));
        right.shownProperty().addListener((property, old, now) -> ready(old, now));
    }

    public PictureDesk desk(Side side) {
        PictureDesk desk = desks.get(side);
        if (desk == null) {
            throw new IllegalStateException("no desk " + side);
        }
        return desk;
    }

    public PictureDesk leading() {
        return desk(leader.get());
    }

    private PictureDesk following() {
        return desk(leader.get().other());
    }

    /** The side that leads, and whose sound is heard. */
    public ReadOnlyObjectProperty<Side> leaderProperty() {
        return leader.getReadOnlyProperty();
    }

    /** Where the following side is by the map, seen from the leading one; {@code null} without a map. */
    public ReadOnlyObjectProperty<@Nullable Place> placeProperty() {
        return place.getReadOnlyProperty();
    }

    /** Plays through players made by this from now on. Each side gets its own when it first leads. */
    public void usePlayers(Supplier<VideoPlayer> maker) {
        players = maker;
        givePlayer();
    }

    private void givePlayer() {
        Supplier<VideoPlayer> maker = players;
        if (maker != null && leading().recordingProperty().get() != null && !hasPlayer.containsKey(leader.get())) {
            hasPlayer.put(leader.get(), true);
            leading().usePlayer(maker.get());
        }
    }

    /** Puts a recording on a side unless it is there already; {@code null} takes away what is there. */
    public void open(Side side, @Nullable Recording recording) {
        PictureDesk desk = desk(side);
        if (recording == null) {
            desk.close();
        } else if (!recording.equals(desk.recordingProperty().get())) {
            pause();
            desk.open(recording);
        }
        givePlayer();
    }

    /** How the two lie against each other from now on; {@code null} lets go of the following side. */
    public void follow(@Nullable TimeMap newMap) {
        map = newMap;
        asked = null;
        moved(leader.get());
    }

    /** Lets the other side lead. */
    public void lead(Side side) {
        if (leader.get() == side) {
            return;
        }
        pause();
        boolean muted = leading().mutedProperty().get();
        int volume = leading().volumeProperty().get();
        double rate = leading().rateProperty().get();
        leader.set(side);
        wanted = null;
        asked = null;
        givePlayer();
        leading().setMuted(muted);
        leading().setVolume(volume);
        leading().setRate(rate);
        moved(side);
    }

    /** @param before is run before the transport moves or stops anything */
    void beforeUse(Runnable before) {
        beforeUse = before;
    }

    /** Lets a side lead and be moved by somebody else than the transport; the other goes along. */
    PictureDesk handOver(Side side) {
        lead(side);
        dragging = false;
        wanted = null;
        return desk(side);
    }

    // ---- the transport

    public void playOrPause() {
        beforeUse.run();
        dragging = false;
        wanted = null;
        leading().playOrPause();
    }

    public void pause() {
        beforeUse.run();
        leading().pause();
    }

    /** Steps the leading side by frames; the other goes along. */
    public void step(long by) {
        beforeUse.run();
        dragging = false;
        wanted = null;
        leading().step(by);
    }

    public void skip(long micros) {
        beforeUse.run();
        dragging = false;
        wanted = null;
        leading().skip(micros);
    }

    /** Goes to a moment of one side; both show the exact frame. */
    public void seek(Side side, MediaTime to) {
        dragging = false;
        go(side, to);
    }

    /** As {@link #seek} while the pointer is held down: drafts first. */
    public void scrub(Side side, MediaTime to) {
        dragging = true;
        go(side, to);
    }

    private void go(Side side, MediaTime to) {
        beforeUse.run();
        MediaTime target = side == leader.get() ? to : across(side, to);
        wanted = dragging || !leading().playingProperty().get() ? target : null;
        if (dragging) {
            leading().scrub(target);
        } else {
            leading().seek(target);
        }
        moved(leader.get());
    }

    /** From a moment of the following side to the leading one's. */
    private MediaTime across(Side from, MediaTime time) {
        TimeMap known = map;
        if (known == null) {
            return time;
        }
        return (from == Side.LEFT ? known.toRight(time) : known.toLeft(time)).time();
    }

    /** The moment that both are at, on the leading side. */
    public MediaTime position() {
        MediaTime exact = wanted;
        return exact != null && !leading().playingProperty().get()
                ? exact
                : leading().timeProperty().get();
    }

    private void moved(Side side) {
        TimeMap known = map;
        if (side != leader.get()) {
            return;
        }
        if (known == null) {
            place.set(null);
            return;
        }
        MediaTime at = position();
        Place now = side == Side.LEFT ? known.toRight(at) : known.toLeft(at);
        place.set(now);
        PictureDesk desk = following();
        if (!desk.isReady() || now.time().equals(asked)) {
            return;
        }
        boolean moving = leading().playingProperty().get() || dragging;
        ShownFrame shown = desk.shownProperty().get();
        boolean same = moving
                && shown != null
                && !now.time().isBefore(shown.frame().start())
                && now.time().isBefore(shown.frame().end());
        if (same) {
            return;
        }
        asked = now.time();
        if (moving) {
            desk.scrub(now.time());
        } else {
            desk.seek(now.time());
        }
    }

    /** A recording's first frame has come: now its side can be led, or lead. */
    private void ready(@Nullable ShownFrame old, @Nullable ShownFrame now) {
        if (old == null && now != null) {
            asked = null;
            moved(leader.get());
            givePlayer();
        }
    }

    /** Lets go of both recordings. */
    public void close() {
        beforeUse.run();
        desks.values().forEach(PictureDesk::close);
    }
}
