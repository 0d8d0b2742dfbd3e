package org.sideport.store;

import java.util.EnumMap;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;

/** What the unit decided about uses of cases to which there is no consent. */
public final class ConsentStore {

    private final Handle handle;

    ConsentStore(Handle handle) {
        this.handle = handle;
    }

    /** The ruling for each situation: the unit's own, else the usual one. */
    public Map<ConsentSituation, ConsentRuling> rules() {
        Map<ConsentSituation, ConsentRuling> rules = new EnumMap<>(ConsentSituation.class);
        for (ConsentSituation situation : ConsentSituation.values()) {
            rules.put(situation, situation.usual());
        }
        handle.createQuery("select situation, ruling from consent_rule")
                .map((row, context) -> Map.entry(
                        ConsentSituation.parse(row.getString("situation")),
                        ConsentRuling.parse(row.getString("ruling"))))
                .forEach(rule -> rules.put(rule.getKey(), rule.getValue()));
        return rules;
    }

    public void rule(ConsentSituation situation, ConsentRuling ruling) {
        handle.execute("delete from consent_rule where situation = ?", situation.id());
        handle.execute("insert into consent_rule (situation, ruling) values (?, ?)", situation.id(), ruling.id());
    }
}
