package org.sideport.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;

/**
 * How quick a store with very many made-up cases is. Made in an empty folder or an empty database, and taken away again from
 * the latter.
 */
public final class StoreTrial {

    private static final int LINES = 200;
    private static final int REPEATS = 5;
    private static final String PASSWORD = "bench-password";

    private final long cases;
    private final int assessors;
    private final int saves;
    private final int pauseMs;
    private final Consumer<String> note;

    /**
     * @param assessors how many save drafts at once
     * @param saves how often each does
     * @param pauseMs how long each looks at the picture between two, at most
     */
    public StoreTrial(long cases, int assessors, int saves, int pauseMs, Consumer<String> note) {
        this.cases = cases;
        this.assessors = assessors;
        this.saves = saves;
        this.pauseMs = pauseMs;
        this.note = note;
    }

    /**
     * @param cohortMs director: the newest lines and the counts over all cases; median
     * @param traineeMs a trainee: all own lines; median
     * @param rlsRatio cohortMs to the same without row-level security; {@code null} where there is none
     * @param saveP99Ms 99th percentile of saving a draft
     * @param lost drafts that are not stored as they were saved last
     */
    public record Result(
            long cases,
            double cohortMs,
            double traineeMs,
            @Nullable Double rlsRatio,
            double saveP50Ms,
            double saveP99Ms,
            int saves,
            int lost) {}

    /** In a new folder on SQLite. */
    public Result sqlite(Path folder) {
        try (Workspace workspace = Workspace.create(folder)) {
            TrialCases made = new TrialCases(cases, assessors, note);
            workspace.change(stores -> made.fill(stores.handle));
            double cohort = median(() -> cohort(workspace));
            double trainee = median(() -> (long) workspace
                    .read(s -> s.summaries().ofTrainee(TrialCases.TRAINEE))
                    .size());
            List<Workspace> same = new ArrayList<>();
            for (int i = 0; i < assessors; i++) {
                same.add(workspace);
            }
            return result(cohort, trainee, null, same);
        }
    }

    /**
     * In an empty database, through logins that are made for it.
     *
     * @param folder a new folder, to name it
     * @throws InputException if there are cases in it
     */
    public Result postgresql(Path folder, String database, DatabaseLogin keeper) {
        try (Workspace workspace = Workspace.create(folder, database, keeper)) {
            if (workspace.read(s -> s.summaries().counts().cases()) > 0) {
                throw new InputException(
                        "there are cases in this database",
                        null,
                        "name an empty one: what is made is deleted at the end");
            }
            TrialCases made = new TrialCases(cases, assessors, note);
            List<Workspace> open = new ArrayList<>();
            try {
                workspace.change(stores -> made.fillQuickly(stores.handle));
                workspace.change(stores -> stores.handle.execute("analyze"));
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
                for (String person : made.assessors()) {
                    open.add(Workspace.open(folder, new DatabaseLogin(person, PASSWORD)));
                }
                return result(cohort, trainee, cohort / without, open);
            } finally {
                open.forEach(Workspace::close);
                workspace.change(stores -> made.remove(stores.handle));
            }
        }
    }

    private static double asPerson(Path folder, String person, java.util.function.ToLongFunction<Workspace> view) {
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

    /** Each assessor has a draft of a case that he was given, and saves it again and again. */
    private Result result(double cohort, double trainee, @Nullable Double ratio, List<Workspace> each) {
        note.accept(assessors + " assessors save drafts …");
        ExecutorService threads = Executors.newFixedThreadPool(assessors);
        try {
            List<Callable<double[]>> work = new ArrayList<>();
            boolean[] lost = new boolean[assessors];
            for (int i = 0; i < assessors; i++) {
                int index = i;
                work.add(() -> {
                    double[] times = new double[saves];
                    lost[index] = !save(each.get(index), TrialCases.assessor(index + 1), new Random(index), times);
                    return times;
                });
            }
            List<Double> all = new ArrayList<>();
            for (Future<double[]> one : threads.invokeAll(work)) {
                Arrays.stream(one.get()).forEach(all::add);
            }
            all.sort(null);
            int missing = 0;
            for (boolean one : lost) {
                missing += one ? 1 : 0;
            }
            return new Result(
                    cases,
                    cohort,
                    trainee,
                    ratio,
                    all.get(all.size() / 2),
                    all.get((int) Math.ceil(all.size() * 0.99) - 1),
                    all.size(),
                    missing);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        } catch (ExecutionException e) {
            throw e.getCause() instanceof RuntimeException told ? told : new IllegalStateException(e);
        } finally {
            threads.shutdownNow();
        }
    }

    /** @return false if what is stored at the end is not what was saved last */
    private boolean save(Workspace workspace, String assessor, Random random, double[] times)
            throws InterruptedException {
        StoredRating draft = workspace.read(
                s -> s.ratings().find(TrialCases.draftOf(s.handle, assessor)).orElseThrow());
        Rating last = draft.rating();
        for (int i = 0; i < saves; i++) {
            Thread.sleep(random.nextInt(pauseMs + 1));
            List<ItemScore> scores = new ArrayList<>(last.scores());
            // what is marked again stands last, as it does when people mark
            scores.add(new ItemScore.Marked(scores.remove(0).item(), 1 + i % 5, "stroke " + i));
            Rating changed = last.withScores(scores);
            Rating seen = last;
            long start = System.nanoTime();
            workspace.change(s -> s.ratings().saveDraft(draft.id(), changed, Set.of(seen)));
            times[i] = (System.nanoTime() - start) / 1e6;
            last = changed;
        }
        Rating expected = last;
        return workspace.read(
                s -> s.ratings().find(draft.id()).orElseThrow().rating().equals(expected));
    }
}
