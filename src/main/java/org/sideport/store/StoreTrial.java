package org.sideport.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;

/**
 * How quick a store with very many made-up cases is. Made in an empty folder or an empty database, and taken away again from
 * the latter.
 */
public final class StoreTrial {

    private static final int LINES = 200;
    private static final int REPEATS = 9;
    private static final String PASSWORD = "bench-password";

    private final long cases;
    private final int assessors;
    private final Rubric rubric;
    private final String json;
    private final Consumer<String> note;

    /**
     * @param assessors how many get drafts and, where there are any, logins
     * @param rubric with which all is marked
     * @param json the rubric's text
     */
    public StoreTrial(long cases, int assessors, Rubric rubric, String json, Consumer<String> note) {
        this.cases = cases;
        this.assessors = assessors;
        this.rubric = rubric;
        this.json = json;
        this.note = note;
    }

    /**
     * An assessor at work, with a draft.
     *
     * @param caseCode a code, or the label of a blinded case
     */
    public record Desk(Workspace workspace, String assessor, String caseCode) {}

    /**
     * @param cohortMs director: the newest lines and the counts over all cases; median
     * @param traineeMs a trainee: all own lines; median
     * @param rlsRatio cohortMs to the same without row-level security; {@code null} where there is none
     */
    public record Result(
            long cases,
            double cohortMs,
            double traineeMs,
            @Nullable Double rlsRatio) {}

    /**
     * In a new folder on SQLite.
     *
     * @param saving gets the desks at which drafts are saved, and the figures of before
     */
    public void sqlite(Path folder, Saving saving) {
        try (Workspace workspace = Workspace.create(folder)) {
            TrialCases made = made();
            workspace.change(stores -> made.fill(stores.handle));
            double cohort = median(() -> cohort(workspace));
            double trainee = median(() -> (long) workspace
                    .read(s -> s.summaries().ofTrainee(TrialCases.TRAINEE))
                    .size());
            List<Desk> desks =
                    made.assessors().stream().map(a -> desk(workspace, a)).toList();
            saving.at(desks, new Result(cases, cohort, trainee, null));
        }
    }

    /** What is done once the views are measured. */
    @FunctionalInterface
    public interface Saving {
        void at(List<Desk> desks, Result views);
    }

    /**
     * In an empty database, through logins that are made for it.
     *
     * @param folder a new folder, to name it
     * @param saving as in {@link #sqlite}
     * @throws InputException if there are cases in it
     */
    public void postgresql(Path folder, String database, DatabaseLogin keeper, Saving saving) {
        try (Workspace workspace = Workspace.create(folder, database, keeper)) {
            if (workspace.read(s -> s.summaries().counts().cases()) > 0) {
                throw new InputException(
                        "there are cases in this database",
                        null,
                        "name an empty one: what is made is deleted at the end");
            }
            TrialCases made = made();
            List<Workspace> open = new ArrayList<>();
            try {
                workspace.change(stores -> made.fillQuickly(stores.handle));
                // the database does so by itself, but some time after so much was written
                workspace.tidied();
                for (String person : made.people()) {
                    workspace.logins().orElseThrow().make(person, PASSWORD);
                }
                double cohort = asPerson(folder, TrialCases.DIRECTOR, StoreTrial::cohort);
                double trainee = asPerson(folder, TrialCases.TRAINEE, own ->
                        (long) own.read(s -> s.summaries().newest(-1)).size());
                double without = median(() -> workspace.read(stores -> {
                    stores.handle.execute("set local search_path = " + PostgresSchema.TABLES);
                    return cohort(stores);
                }));
                List<Desk> desks = new ArrayList<>();
                for (String person : made.assessors()) {
                    Workspace own = Workspace.open(folder, new DatabaseLogin(person, PASSWORD));
                    open.add(own);
                    desks.add(desk(own, person));
                }
                saving.at(desks, new Result(cases, cohort, trainee, cohort / without));
            } finally {
                open.forEach(Workspace::close);
                workspace.change(stores -> made.remove(stores.handle));
            }
        }
    }

    private TrialCases made() {
        return new TrialCases(cases, assessors, rubric, json, note);
    }

    private static Desk desk(Workspace workspace, String assessor) {
        return new Desk(workspace, assessor, workspace.read(s -> TrialCases.draftOf(s.handle, assessor)));
    }

    private static double asPerson(Path folder, String person, ToLongFunction<Workspace> view) {
        try (Workspace own = Workspace.open(folder, new DatabaseLogin(person, PASSWORD))) {
            return median(() -> view.applyAsLong(own));
        }
    }

    private static long cohort(Workspace workspace) {
        return workspace.read(StoreTrial::cohort);
    }

    private static long cohort(Stores stores) {
        return stores.summaries().newest(LINES).size()
                + stores.summaries().counts().cases();
    }

    private static double median(Supplier<Long> view) {
        double[] times = new double[REPEATS];
        for (int i = -1; i < REPEATS; i++) {
            long start = System.nanoTime();
            if (view.get() == 0) {
                throw new IllegalStateException("nothing was seen");
            }
            if (i >= 0) {
                times[i] = (System.nanoTime() - start) / 1e6;
            }
        }
        Arrays.sort(times);
        return times[REPEATS / 2];
    }
}
