package org.sideport.workflow.assign;

import java.lang.reflect.Array;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.Collection;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** All text that can be read out of a value: records, lists, maps, and what each says of itself. */
final class Everything {

    private final Set<Object> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    private final StringBuilder text = new StringBuilder();

    private Everything() {}

    static String of(Object... values) {
        Everything all = new Everything();
        for (Object value : values) {
            all.walk(value);
        }
        return all.text.toString();
    }

    private void walk(Object value) {
        if (value == null || !seen.add(value)) {
            return;
        }
        text.append(value).append('\n');
        if (value instanceof Throwable failure) {
            walk(failure.getMessage());
            walk(failure.getCause());
        } else if (value instanceof Optional<?> optional) {
            optional.ifPresent(this::walk);
        } else if (value instanceof Collection<?> many) {
            many.forEach(this::walk);
        } else if (value instanceof Map<?, ?> map) {
            map.forEach((key, one) -> {
                walk(key);
                walk(one);
            });
        } else if (value.getClass().isArray()) {
            for (int i = 0; i < Array.getLength(value); i++) {
                walk(Array.get(value, i));
            }
        } else if (value instanceof Record && value.getClass().getName().startsWith("org.sideport")) {
            for (RecordComponent part : value.getClass().getRecordComponents()) {
                try {
                    part.getAccessor().setAccessible(true);
                    walk(part.getAccessor().invoke(value));
                } catch (IllegalAccessException | InvocationTargetException e) {
                    throw new IllegalStateException(e);
                }
            }
        }
    }
}
