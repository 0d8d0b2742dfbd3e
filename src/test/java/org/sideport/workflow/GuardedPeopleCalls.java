package org.sideport.workflow;

import java.time.Clock;
import java.util.EnumSet;
import org.sideport.model.Role;
import org.sideport.workflow.access.CheapCredentials;
import org.sideport.workflow.access.Permission;

/** People. */
final class GuardedPeopleCalls {

    private GuardedPeopleCalls() {}

    static void add(GuardedCalls all) {
        people(all);
    }

    private static People people(GuardedCalls.Given g) {
        return new People(g.on(), CheapCredentials.make(), Clock.systemUTC());
    }

    private static void people(GuardedCalls all) {
        all.general(Permission.MANAGE_PEOPLE, "People.list()", g -> people(g).list());
        all.general(
                Permission.MANAGE_PEOPLE,
                "People.add(String,Set)",
                g -> people(g).add(fresh(), EnumSet.of(Role.DIRECTOR)));
        all.general(
                Permission.MANAGE_PEOPLE,
                "People.add(String,Set,char[])",
                g -> people(g).add(fresh(), EnumSet.of(Role.DIRECTOR), "eight brown kettles".toCharArray()));
        all.general(
                Permission.MANAGE_PEOPLE,
                "People.setRoles(String,Set)",
                g -> people(g).setRoles(somebody(g), EnumSet.of(Role.DIRECTOR)));
        all.general(
                Permission.MANAGE_PEOPLE, "People.block(String)", g -> people(g).block(somebody(g)));
        all.general(
                Permission.MANAGE_PEOPLE,
                "People.unblock(String)",
                g -> people(g).unblock(somebody(g)));
        all.general(
                Permission.MANAGE_PEOPLE,
                "People.resetPassword(String)",
                g -> people(g).resetPassword(somebody(g)));
    }

    private static String fresh() {
        return "X" + GuardedCalls.letters();
    }

    /** Somebody whom the workspace lists. The first of all is a director, so there is another. */
    private static String somebody(GuardedCalls.Given g) {
        People all = new People(g.anyones(), CheapCredentials.make(), Clock.systemUTC());
        String code = fresh();
        if (g.anyones().<Boolean>read(s -> !s.people().any())) {
            all.add("D9", EnumSet.of(Role.DIRECTOR), "eight brown kettles".toCharArray());
        }
        all.add(code, EnumSet.of(Role.ASSESSOR), "eight brown kettles".toCharArray());
        return code;
    }
}
