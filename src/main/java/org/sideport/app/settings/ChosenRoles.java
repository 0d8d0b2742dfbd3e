package org.sideport.app.settings;

import java.util.Collection;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.sideport.app.Settings;
import org.sideport.model.Role;

/**
 * What somebody does here, as they said themselves: it shows what is next, and forbids nothing. Of who signed in, the roles
 * are known and not chosen.
 */
public final class ChosenRoles {

    private static final String SETTING = "roles";

    private ChosenRoles() {}

    /** The roles chosen; none before the first choice. */
    public static Set<Role> chosen(Settings settings) {
        Set<Role> roles = EnumSet.noneOf(Role.class);
        String stored = settings.get(SETTING, "");
        for (Role role : Role.values()) {
            if ((" " + stored + " ").contains(" " + role.name() + " ")) {
                roles.add(role);
            }
        }
        return roles;
    }

    public static void choose(Settings settings, Set<Role> roles) {
        settings.put(SETTING, names(roles));
    }

    /** Those of who signed in, which nothing changes. */
    public static void fix(Settings settings, Set<Role> roles) {
        settings.fix(SETTING, names(roles));
    }

    /** True if they are known and not to be chosen. */
    public static boolean areFixed(Settings settings) {
        return settings.isFixed(SETTING);
    }

    private static String names(Collection<Role> roles) {
        return roles.stream().sorted().map(Role::name).collect(Collectors.joining(" "));
    }
}
