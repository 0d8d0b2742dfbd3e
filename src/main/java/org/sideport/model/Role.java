package org.sideport.model;

import java.util.Locale;

/** What a person does in a teaching unit; one person may do several. */
public enum Role {
    TRAINEE,
    ASSESSOR,
    DIRECTOR;

    /** As it is stored and written on the command line, such as {@code assessor}. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if there is no such role
     */
    public static Role parse(String id) {
        for (Role role : values()) {
            if (role.id().equals(id)) {
                return role;
            }
        }
        throw new InputException("there is no role \"" + id + "\"", null, "use trainee, assessor or director");
    }
}
