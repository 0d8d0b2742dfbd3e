package org.sideport.store;

import java.util.HashMap;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.sideport.model.MarkingRules;

/** How the unit wants its marks made. */
public final class RuleStore {

    private final Handle handle;

    RuleStore(Handle handle) {
        this.handle = handle;
    }

    /** What the unit has set, and else what is usual. */
    public MarkingRules rules() {
        Map<String, String> set = new HashMap<>();
        handle.createQuery("select name, value from marking_rule")
                .map((row, context) -> Map.entry(row.getString("name"), row.getString("value")))
                .forEach(rule -> set.put(rule.getKey(), rule.getValue()));
        MarkingRules usual = MarkingRules.USUAL;
        return new MarkingRules(
                Boolean.parseBoolean(set.getOrDefault("self_first", String.valueOf(usual.selfFirst()))),
                Double.parseDouble(set.getOrDefault("share_limit", String.valueOf(usual.shareLimit()))),
                Integer.parseInt(set.getOrDefault("items_limit", String.valueOf(usual.itemsLimit()))));
    }

    public void save(MarkingRules rules) {
        put("self_first", String.valueOf(rules.selfFirst()));
        put("share_limit", String.valueOf(rules.shareLimit()));
        put("items_limit", String.valueOf(rules.itemsLimit()));
    }

    private void put(String name, String value) {
        handle.execute(
                "insert into marking_rule (name, value) values (?, ?)"
                        + " on conflict (name) do update set value = excluded.value",
                name,
                value);
    }
}
