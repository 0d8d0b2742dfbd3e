package org.sideport.app.frame;

import java.nio.file.Path;
import org.sideport.app.AppContext;

/** Opens the window anew: on another workspace, or on the same one in another language. */
@FunctionalInterface
public interface Reopening {

    /** Cannot: says that it takes effect at the next start. */
    Reopening NEXT_TIME = (context, folder) -> context.notices().hintOf("frame.nextTime");

    void reopen(AppContext context, Path folder);
}
