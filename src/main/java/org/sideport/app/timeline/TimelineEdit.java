package org.sideport.app.timeline;

import java.util.List;
import java.util.Set;

/** A change that the user asks for. The control itself changes nothing: the answer is a new model. Keys are those of the items. */
public sealed interface TimelineEdit {

    /** Everything that starts or ends at {@code fromUs} on the lane is to do so at {@code toUs}, a frame's start. */
    record MoveBoundary(String lane, long fromUs, long toUs) implements TimelineEdit {}

    /** The items are to lie {@code byUs} later, earlier if negative. */
    record MoveItems(Set<Object> keys, long byUs) implements TimelineEdit {
        public MoveItems {
            keys = Set.copyOf(keys);
        }
    }

    record Split(Object key, long atUs) implements TimelineEdit {}

    /** The items, in the order of time, are to become one. */
    record Merge(List<Object> keys) implements TimelineEdit {
        public Merge {
            keys = List.copyOf(keys);
        }
    }

    /** @param label id of one of the choices given to the control */
    record Relabel(Set<Object> keys, String label) implements TimelineEdit {
        public Relabel {
            keys = Set.copyOf(keys);
        }
    }

    record Delete(Set<Object> keys) implements TimelineEdit {
        public Delete {
            keys = Set.copyOf(keys);
        }
    }
}
