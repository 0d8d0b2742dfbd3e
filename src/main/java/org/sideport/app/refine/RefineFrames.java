package org.sideport.app.refine;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javafx.scene.image.Image;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.picture.SmallPicture;
import org.sideport.model.Recording;

/**
 * Small pictures of single frames, decoded as drafts in the background from frames of their own, so that the large picture
 * waits for none. Only what was wished for last is decoded. Screen's thread only.
 */
final class RefineFrames {

    /** Pictures kept: some strips to either side. */
    private static final int MOST = 160;

    static final int HEIGHT = 96;

    private final FrameSource.Opener opener;
    private final Background work;
    private final Runnable arrived;
    private final Map<Long, Image> pictures = new LinkedHashMap<>(64, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, Image> eldest) {
            return size() > MOST;
        }
    };
    private final Set<Long> failed = new HashSet<>();
    private List<Long> wanted = List.of();
    private @Nullable FrameSource source;
    private boolean busy;
    /** Tells what is open now from what was. */
    private int turn;

    /** @param arrived called whenever another picture is there */
    RefineFrames(FrameSource.Opener opener, Background work, Runnable arrived) {
        this.opener = opener;
        this.work = work;
        this.arrived = arrived;
    }

    void open(Recording recording) {
        close();
        int now = turn;
        busy = true;
        work.run(
                progress -> opener.open(recording, progress),
                opened -> {
                    if (turn != now) {
                        opened.closeOn(work, failure -> {});
                        return;
                    }
                    source = opened;
                    busy = false;
                    next();
                },
                // the large picture says what is wrong
                failure -> {});
    }

    void close() {
        turn++;
        FrameSource open = source;
        source = null;
        busy = false;
        wanted = List.of();
        pictures.clear();
        failed.clear();
        if (open != null) {
            open.closeOn(work, failure -> {});
        }
    }

    /** {@code null} while it is not there. */
    @Nullable
    Image of(long frame) {
        return pictures.get(frame);
    }

    /** @param frames numbers, the most urgent first */
    void want(List<Long> frames) {
        wanted = frames;
        next();
    }

    private void next() {
        FrameSource open = source;
        if (busy || open == null) {
            return;
        }
        Long number = wanted.stream()
                .filter(frame -> !pictures.containsKey(frame) && !failed.contains(frame))
                .findFirst()
                .orElse(null);
        if (number == null) {
            return;
        }
        long frame = number;
        int now = turn;
        busy = true;
        work.run(
                progress -> SmallPicture.of(open.draft(open.frame(frame)), HEIGHT),
                small -> {
                    if (turn == now) {
                        busy = false;
                        pictures.put(frame, small.image());
                        arrived.run();
                        next();
                    }
                },
                failure -> {
                    if (turn == now) {
                        busy = false;
                        failed.add(frame);
                        next();
                    }
                });
    }
}
