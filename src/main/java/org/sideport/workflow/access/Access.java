package org.sideport.workflow.access;

import java.util.Locale;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.store.CaseReach;
import org.sideport.store.MarkReach;
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
        require(workspace.caller(), permission);
    }

    /** As {@link #require(Workspace, Permission)}. */
    public static void require(Caller caller, Permission permission) {
        if (!may(caller, permission)) {
            throw denied(caller, permission);
        }
    }

    /**
     * For a case that is not in the store yet, which the caller takes in.
     *
     * @param trainee whose it will be
     * @throws InputException if the caller may not take in a case of this trainee
     */
    public static void requireNew(Caller caller, Permission permission, String trainee) {
        boolean may = caller instanceof Caller.Person person
                ? person.roles().stream().anyMatch(role -> switch (permission.reach(role)) {
                    case NONE -> false;
                    case OWN -> trainee.equals(person.code());
                    case GIVEN, ALL -> true;
                })
                : caller instanceof Caller.Anyone;
        if (!may) {
            throw denied(caller, permission);
        }
    }

    /**
     * Who signed in acts under the own code and no other.
     *
     * @param code of the annotator, assessor or author
     * @throws InputException if it is somebody else's
     */
    public static void requireOwn(Caller caller, String code) {
        if (caller instanceof Caller.Anyone
                || (caller instanceof Caller.Person person && person.code().equals(code))) {
            return;
        }
        if (caller instanceof Caller.Nobody) {
            throw signInFirst();
        }
        throw new InputException(
                "you are " + caller.code() + " and cannot work as " + code,
                null,
                "use your own code, " + caller.code());
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
            throw denied(stores.caller(), permission);
        }
    }

    /** For watching and comparing: with a case that the caller may see, or that was named as an exemplar. */
    public static void requireWatch(Stores stores, String caseCode) {
        if (!may(stores, Permission.SEE_CASE, caseCode)
                && !(may(stores.caller(), Permission.SEE_EXEMPLAR)
                        && stores.exemplars().all().stream()
                                .anyMatch(e -> e.caseCode().equalsIgnoreCase(caseCode)))) {
            throw denied(stores.caller(), Permission.SEE_CASE);
        }
    }

    /** The cases with which the caller may, as a condition of queries. */
    public static CaseReach cases(Caller caller, Permission permission) {
        if (!(caller instanceof Caller.Person person)) {
            return caller instanceof Caller.Anyone ? CaseReach.ALL : CaseReach.NONE;
        }
        boolean own = false;
        boolean given = false;
        for (Role role : person.roles()) {
            switch (permission.reach(role)) {
                case ALL -> {
                    return CaseReach.ALL;
                }
                case OWN -> own = true;
                case GIVEN -> given = true;
                case NONE -> {}
            }
        }
        return new CaseReach(false, own ? person.code() : "", given ? person.code() : "");
    }

    /** Whose ratings the caller may see, as a condition of queries. */
    public static MarkReach marks(Caller caller) {
        if (!(caller instanceof Caller.Person person)) {
            return caller instanceof Caller.Anyone ? MarkReach.ALL : MarkReach.NONE;
        }
        boolean own = false;
        boolean given = false;
        boolean all = false;
        for (Role role : person.roles()) {
            Reach reach = Permission.SEE_MARKS.reach(role);
            own |= reach == Reach.OWN;
            given |= reach == Reach.GIVEN;
            all |= reach == Reach.ALL;
        }
        return new MarkReach(false, person.code(), own, given, all);
    }

    /** True for a director and for who has this code: what is the person's own goes to no other. */
    public static boolean directsOrIs(Caller caller, String code) {
        return !(caller instanceof Caller.Person person)
                || person.roles().contains(Role.DIRECTOR)
                || person.code().equals(code);
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

    private static InputException denied(Caller caller, Permission permission) {
        if (caller instanceof Caller.Nobody) {
            return signInFirst();
        }
        return new InputException(
                "you may not do this here ("
                        + permission.name().toLowerCase(Locale.ROOT).replace('_', ' ') + ")",
                null,
                "ask a programme director of your unit");
    }

    private static InputException signInFirst() {
        return new InputException(
                "people sign in to this workspace",
                null,
                "name yourself with --as CODE; the password is asked for, or taken from SIDEPORT_PASSWORD");
    }
}
