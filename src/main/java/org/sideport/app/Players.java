package org.sideport.app;

import java.util.ArrayList;
import java.util.List;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.compare.PairDesk;
import org.sideport.app.picture.PictureDesk;
import org.sideport.media.dicom.DicomVideo;
import org.sideport.player.PictureSurface;
import org.sideport.player.VlcDiscovery;
import org.sideport.player.VlcPlayer;

/** The players that are used once LibVLC is found, and what there is to say where it is not. */
final class Players {

    private final FxThread screenThread;
    private final Texts texts;
    private final PictureDesk desk;
    private final PairDesk pair;
    private final List<VlcPlayer> made = new ArrayList<>();
    private final ReadOnlyStringWrapper problem = new ReadOnlyStringWrapper("");
    private String text = "";

    Players(FxThread screenThread, Texts texts, PictureDesk desk, PairDesk pair) {
        this.screenThread = screenThread;
        this.texts = texts;
        this.desk = desk;
        this.pair = pair;
    }

    /** Looks for LibVLC and plays through it once it is found. */
    void find(Background discovery) {
        discovery.run(progress -> VlcDiscovery.discover(), this::found, failure -> missing("player.missing", ""));
    }

    private void found(VlcDiscovery.Result result) {
        if (result instanceof VlcDiscovery.Result.Found found) {
            text = texts.get("player.found", found.directory());
            desk.usePlayer(player());
            pair.usePlayers(this::player);
        } else if (result instanceof VlcDiscovery.Result.Missing missing) {
            String place = missing.directory() == null ? "" : missing.directory();
            missing(
                    switch (missing.reason()) {
                        case NOT_INSTALLED -> "player.missing";
                        case OTHER_ARCHITECTURE -> "player.architecture";
                        case NOT_LOADABLE -> "player.broken";
                    },
                    place);
        }
    }

    private VlcPlayer player() {
        VlcPlayer player = new VlcPlayer(screenThread, new PictureSurface(screenThread), DicomVideo::streamIn);
        made.add(player);
        return player;
    }

    private void missing(String key, @Nullable String place) {
        text = texts.get(key, String.valueOf(place));
        problem.set(text);
    }

    /** Why there is no sound and no smooth playback; empty if there is. */
    ReadOnlyStringProperty problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** Which player is used. */
    String text() {
        return text;
    }

    void close() {
        made.forEach(VlcPlayer::close);
    }
}
