package org.sideport.cli.console;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/** Machine-readable output: snake_case keys, times in integer microseconds, unknown as null. */
public final class Json {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private Json() {}

    public static String write(Object value) {
        return MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(value);
    }

    /** An object with these keys and values in this order. */
    public static Map<String, @Nullable Object> object(@Nullable Object... keysAndValues) {
        Map<String, @Nullable Object> object = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            object.put(String.valueOf(keysAndValues[i]), keysAndValues[i + 1]);
        }
        return object;
    }
}
