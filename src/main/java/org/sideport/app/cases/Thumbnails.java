package org.sideport.app.cases;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.scene.image.Image;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseThumbnails;
import org.slf4j.LoggerFactory;

/**
 * Small pictures for the list, made one after the other in the background, the one asked for last first: what was
 * scrolled past is dropped. To be used on the screen's thread.
 */
public final class Thumbnails {

    private static final int KEPT = 400;
    private static final int WAITING = 40;

    private final CaseThumbnails maker;
    private final Background work;
    private final Map<String, Optional<Image>> known = new LinkedHashMap<>(16, 0.75f, true);
    private final Map<String, Consumer<Optional<Image>>> waiting = new LinkedHashMap<>();
    private boolean busy;

    public Thumbnails(CaseThumbnails maker, Background work) {
        this.maker = maker;
        this.work = work;
        work.run(
                progress -> {
                    maker.tidy();
                    return true;
                },
                done -> {},
                failure -> {});
    }

    /** What is known of a case's picture: empty if it has none, {@code null} if it was not looked at yet. */
    @Nullable
    Optional<Image> known(String code) {
        return known.get(code);
    }

    /** Asks for a picture; {@code arrived} hears of it unless many others are asked for meanwhile. */
    void want(String code, Consumer<Optional<Image>> arrived) {
        waiting.remove(code);
        waiting.put(code, arrived);
        if (waiting.size() > WAITING) {
            waiting.remove(waiting.keySet().iterator().next());
        }
        next();
    }

    private void next() {
        if (busy || waiting.isEmpty()) {
            return;
        }
        String newest = "";
        for (String code : waiting.keySet()) {
            newest = code;
        }
        String code = newest;
        Consumer<Optional<Image>> arrived = waiting.remove(code);
        busy = true;
        work.run(
                progress -> {
                    Path file = maker.of(code, progress);
                    return file == null
                            ? Optional.<Image>empty()
                            : Optional.of(new Image(file.toUri().toString()));
                },
                image -> took(code, image, arrived),
                failure -> took(code, Optional.empty(), arrived));
    }

    private void took(String code, Optional<Image> image, @Nullable Consumer<Optional<Image>> arrived) {
        busy = false;
        known.put(code, image);
        if (known.size() > KEPT) {
            known.remove(known.keySet().iterator().next());
        }
        if (arrived != null) {
            arrived.accept(image);
        }
        next();
    }

    /**
     * Deletes what shows cases that only who signed in may see, when that person leaves. Where nobody signs in the pictures stay,
     * and the list comes sooner next time.
     */
    public static void leaveNone(Workspace workspace) {
        if (workspace.caller() instanceof Caller.Person) {
            try {
                new CaseThumbnails(workspace).clear();
            } catch (InputException e) {
                // the window is gone, and nobody to tell: the next sign-out tries again
                LoggerFactory.getLogger(Thumbnails.class).warn("pictures of cases stay behind: {}", e.toString());
            }
        }
    }
}
