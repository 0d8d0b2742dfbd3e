package org.sideport.workflow.access;

import java.util.Locale;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/** Asks the table whether the caller of a workspace may. Deny by default. */
public final class Access {

    private Access() {}

    /**
     * For what concerns no single case.
     *
     * @throws InputException if no role of the caller may at all
     */
    public static void require(Workspace workspace, Permission permission) {
        if (!may(workspace.caller(), permission)) {
            throw denied(permission);
        }
    }

    /**
     * @throws InputException if the caller may not with this case
     */
    public static void require(Workspace workspace, Permission permission, String caseCode) {
        workspace.read(stores -> {
            require(stores, permission, caseCode);
            return true;
        });
    }

    /** As {@link #require(Workspace, Permission, String)}, within a transaction. */
    public static void require(Stores stores, Permission permission, String caseCode) {
        if (!may(stores, permission, caseCode)) {
            throw denied(permission);
        }
    }

    /** True if a role of the caller may, with some case at least. */
    public static boolean may(Caller caller, Permission permission) {
        if (caller instanceof Caller.Person person) {
            return person.roles().stream().anyMatch(role -> permission.reach(role) != Reach.NONE);
        }
        return caller instanceof Caller.Anyone;
    }

    /** True if the caller may with this case. */
    public static boolean may(Stores stores, Permission permission, String caseCode) {
        Caller caller = stores.caller();
        if (caller instanceof Caller.Person person) {
            return person.roles().stream()
                    .anyMatch(role -> covers(stores, permission.reach(role), person.code(), caseCode));
        }
        return caller instanceof Caller.Anyone;
    }

    private static boolean covers(Stores stores, Reach reach, String person, String caseCode) {
        return switch (reach) {
            case NONE -> false;
            case OWN -> stores.cases().trainee(caseCode).equals(person);
            case GIVEN ->
                stores.assignments().isGiven(caseCode, person)
                        || stores.cases().addedBy(caseCode).equals(person);
            case ALL -> true;
        };
    }

    private static InputException denied(Permission permission) {
        return new InputException(
                "you may not do this here ("
                        + permission.name().toLowerCase(Locale.ROOT).replace('_', ' ') + ")",
                null,
                "ask a programme director of your unit");
    }
}
