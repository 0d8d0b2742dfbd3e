package org.sideport.app.timeline;

import java.util.Set;

/** How items lie while they are dragged. */
sealed interface Preview {

    Preview NONE = new Shift(Set.of(), 0);

    /** Where an item's start or end at {@code us} is drawn. */
    long place(Object key, boolean editable, long us);

    /** A boundary on the lanes that may be edited. */
    record Edge(long fromUs, long toUs) implements Preview {
        @Override
        public long place(Object key, boolean editable, long us) {
            return editable && us == fromUs ? toUs : us;
        }
    }

    /** Whole items. */
    record Shift(Set<Object> keys, long byUs) implements Preview {
        @Override
        public long place(Object key, boolean editable, long us) {
            return byUs != 0 && keys.contains(key) ? us + byUs : us;
        }
    }
}
