package org.sideport.workflow;

import org.sideport.workflow.access.Permission;

/** Making and changing rubrics. */
final class GuardedRubricCalls {

    private GuardedRubricCalls() {}

    static void add(GuardedCalls all) {
        all.general(
                Permission.EDIT_RUBRIC,
                "RubricWorkshop.shelf()",
                g -> workshop(g).shelf());
        all.general(
                Permission.EDIT_RUBRIC,
                "RubricWorkshop.fresh(String)",
                g -> workshop(g).fresh("phaco"));
        all.general(
                Permission.EDIT_RUBRIC,
                "RubricWorkshop.copy(Shelf)",
                g -> workshop(g).copy(shelf(g)));
        all.general(
                Permission.EDIT_RUBRIC,
                "RubricWorkshop.open(Shelf)",
                g -> workshop(g).open(shelf(g)));
        all.general(Permission.EDIT_RUBRIC, "RubricWorkshop.save(Opened,RubricDraft)", g -> {
            RubricWorkshop.Opened copy = copy(g);
            return workshop(g).save(copy, copy.draft().with("/id", fresh()));
        });
        all.general(Permission.EDIT_RUBRIC, "RubricWorkshop.reopen(Saved)", g -> {
            RubricWorkshop.Opened copy = copy(g);
            RubricWorkshop.Saved saved =
                    new RubricWorkshop(g.anyones()).save(copy, copy.draft().with("/id", fresh()));
            return workshop(g).reopen(saved);
        });
    }

    private static String fresh() {
        return "own-" + GuardedCalls.letters();
    }

    private static RubricWorkshop workshop(GuardedCalls.Given g) {
        return new RubricWorkshop(g.on());
    }

    private static RubricWorkshop.Shelf shelf(GuardedCalls.Given g) {
        return new RubricWorkshop(g.anyones())
                .shelf().stream()
                        .filter(s -> s.id().equals("phaco-global"))
                        .findFirst()
                        .orElseThrow();
    }

    private static RubricWorkshop.Opened copy(GuardedCalls.Given g) {
        return new RubricWorkshop(g.anyones()).copy(shelf(g));
    }
}
