package org.sideport.app.settings;

import java.util.EnumSet;
import java.util.Set;
import org.sideport.app.Settings;

/** What somebody does here; one person may have several. It shows what is next, and forbids nothing. */
public enum Role {
    ASSESSOR,
    TRAINEE,
    DIRECTOR;

    private static final String SETTING = "roles";

    /** The roles chosen; none before the first choice. */
    public static Set<Role> chosen(Settings settings) {
        Set<Role> roles = EnumSet.noneOf(Role.class);
        String stored = settings.get(SETTING, "");
        for (Role role : values()) {
            if ((" " + stored + " ").contains(" " + role.name() + " ")) {
                roles.add(role);
            }
        }
        return roles;
    }

    public static void choose(Settings settings, Set<Role> roles) {
        StringBuilder names = new StringBuilder();
        roles.forEach(role -> names.append(names.isEmpty() ? "" : " ").append(role.name()));
        settings.put(SETTING, names);
    }
}
