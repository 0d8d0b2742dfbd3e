package org.sideport.app.voice;

import java.nio.file.Path;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.voice.VoiceReader;

/** A voice being heard: a thread of its own carries it from the file to the output. */
final class VoicePlayback {

    private final Path file;
    private final VoiceOutput output;
    private final Executor screen;
    private final Consumer<@Nullable RuntimeException> done;
    private volatile VoiceOutput.@Nullable Line line;
    private volatile boolean stopped;

    /** @param done called once on {@code screen} at the end, with what went wrong if anything did */
    VoicePlayback(Path file, VoiceOutput output, Executor screen, Consumer<@Nullable RuntimeException> done) {
        this.file = file;
        this.output = output;
        this.screen = screen;
        this.done = done;
    }

    void start() {
        Thread thread = new Thread(this::carry, "voice");
        thread.setDaemon(true);
        thread.start();
    }

    private void carry() {
        RuntimeException failure = null;
        try (VoiceReader reader = VoiceReader.open(file);
                VoiceOutput.Line out = output.open()) {
            line = out;
            for (short[] block = reader.next(); block != null && !stopped; block = reader.next()) {
                out.write(block);
            }
            if (!stopped) {
                out.drain();
            }
        } catch (RuntimeException e) {
            failure = e;
        }
        RuntimeException wrong = failure;
        screen.execute(() -> done.accept(wrong));
    }

    /** How much has been heard, microseconds; negative before it has begun. */
    long positionUs() {
        VoiceOutput.Line open = line;
        return open == null ? -1 : open.positionUs();
    }

    boolean isSilent() {
        VoiceOutput.Line open = line;
        return open != null && open.isSilent();
    }

    void stop() {
        stopped = true;
        VoiceOutput.Line open = line;
        if (open != null) {
            open.close();
        }
    }
}
