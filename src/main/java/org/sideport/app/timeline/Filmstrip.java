package org.sideport.app.timeline;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.image.Image;
import org.jspecify.annotations.Nullable;

/** The pictures of a filmstrip that have come, the newest few hundred; asks for those in view that are missing. */
final class Filmstrip {

    private static final int MOST = 400;

    private final Runnable arrived;
    private final Set<Long> asked = new HashSet<>();
    private @Nullable PictureProvider provider;
    private long stepUs;

    private final Map<Long, Image> pictures = new LinkedHashMap<>(64, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, Image> eldest) {
            return size() > MOST;
        }
    };

    /** @param arrived to be told when a picture has come */
    Filmstrip(Runnable arrived) {
        this.arrived = arrived;
    }

    void paint(GraphicsContext gc, PictureProvider from, TimeScale scale, double left, double y, double height) {
        if (from != provider) {
            provider = from;
            pictures.clear();
            asked.clear();
        }
        double tile = Math.max(8, Math.round(height * from.aspect()));
        long step = FilmstripSlots.stepUs(scale.usPerPixel(), tile);
        if (step != stepUs) {
            stepUs = step;
            from.forget();
            asked.clear();
        }
        long end = Math.min((long) scale.endUs(), scale.durationUs());
        for (long us = FilmstripSlots.firstUs(scale.startUs(), step); us < end; us += step) {
            Image picture = pictures.get(us);
            if (picture != null) {
                gc.drawImage(picture, Math.rint(left + scale.x(us)), y, tile, height);
            } else if (asked.add(us)) {
                from.ask(us, (int) height, (at, image) -> {
                    if (provider == from) {
                        asked.remove(at);
                        pictures.put(at, image);
                        arrived.run();
                    }
                });
            }
        }
    }
}
