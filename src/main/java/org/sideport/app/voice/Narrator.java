package org.sideport.app.voice;

import java.nio.file.Path;
import java.util.concurrent.Executor;
import java.util.function.LongSupplier;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.comment.LiveDrawing;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.Comment;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;

/** Lets a spoken comment be heard on any desk, with what was seen and drawn in step. Screen's thread only. */
public final class Narrator {

    /** One that is being heard. */
    private record Heard(
            Comment comment,
            Voice voice,
            PictureDesk desk,
            LiveDrawing live,
            VoicePlayback sound,
            SeenPlayer picture,
            boolean muted,
            double rate) {}

    private final VoiceOutput output;
    private final Executor screen;
    private final LongSupplier nanos;
    private final Notices notices;
    private final Texts texts;
    private final ReadOnlyObjectWrapper<@Nullable Comment> playing = new ReadOnlyObjectWrapper<>(null);
    private @Nullable Heard heard;
    private boolean toldSilent;

    /**
     * @param screen where the end is told
     * @param nanos a clock
     */
    public Narrator(VoiceOutput output, Executor screen, LongSupplier nanos, Notices notices, Texts texts) {
        this.output = output;
        this.screen = screen;
        this.nanos = nanos;
        this.notices = notices;
        this.texts = texts;
    }

    /** What is being heard; {@code null} for nothing. */
    public ReadOnlyObjectProperty<@Nullable Comment> playingProperty() {
        return playing.getReadOnlyProperty();
    }

    /** @param live shows what was drawn and what is said */
    public void play(PictureDesk desk, Comment comment, Path file, LiveDrawing live) {
        end();
        Voice voice = comment.voice();
        if (voice == null || !desk.isReady()) {
            return;
        }
        VoicePlayback[] started = new VoicePlayback[1];
        VoicePlayback sound = new VoicePlayback(file, output, screen, failure -> {
            Heard now = heard;
            if (now != null && now.sound() == started[0]) {
                if (failure != null) {
                    notices.failed(failure);
                }
                end();
            }
        });
        started[0] = sound;
        Heard begun = new Heard(
                comment,
                voice,
                desk,
                live,
                sound,
                new SeenPlayer(desk, voice, nanos),
                desk.mutedProperty().get(),
                desk.rateProperty().get());
        heard = begun;
        // what the recording itself sounds like must not be over the voice
        desk.setMuted(true);
        live.end();
        live.useProperty().set(LiveDrawing.Use.SHOWING);
        playing.set(comment);
        show(begun, 0);
        sound.start();
    }

    private static void show(Heard now, long us) {
        SeenTrack.Seen seen = now.picture().follow(us);
        now.live()
                .show(
                        seen.marks(),
                        now.voice().captions().isEmpty()
                                ? now.comment().text()
                                : now.voice().captionAt(us));
    }

    /**
     * To be called once per screen refresh while something is heard.
     *
     * @return how far it is, microseconds; below 0 while it has not begun or nothing is heard
     */
    public long tick() {
        Heard now = heard;
        long us = now == null ? -1 : now.sound().positionUs();
        if (now != null && us >= 0) {
            show(now, us);
            if (now.sound().isSilent() && !toldSilent) {
                toldSilent = true;
                notices.hint(texts.get("spoken.noLoudspeaker"));
            }
        }
        return us;
    }

    /** @return false if nothing was being heard */
    public boolean end() {
        Heard now = heard;
        heard = null;
        if (now == null) {
            return false;
        }
        now.sound().stop();
        now.desk().pause();
        now.desk().setRate(now.rate());
        now.desk().setMuted(now.muted());
        now.live().end();
        playing.set(null);
        return true;
    }
}
