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

    /** From how many others on it is told what they took; {@code usual} unless the unit has set it. */
    public int fewestPeers(int usual) {
        return handle.createQuery("select value from marking_rule where name = 'fewest_peers'")
                .mapTo(Integer.class)
                .findOne()
                .orElse(usual);
    }

    public void saveFewestPeers(int fewest) {
        put("fewest_peers", String.valueOf(fewest));
    }

    private void put(String name, String value) {
        handle.execute(
                "insert into marking_rule (name, value) values (?, ?)"
                        + " on conflict (name) do update set value = excluded.value",
                name,
                value);
    }
}
