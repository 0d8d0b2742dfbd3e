package org.sideport.cli.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.store.StoreTrial;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.MarkSession;

/**
 * Many assessors at once who mark, each stroke saved as the Marking screen saves it. First as people do: each at an own pace,
 * and a stroke waits from the moment that it was made, also while the one before is still on its way. Then as fast as it goes,
 * for what the store can take.
 */
final class SaveLoad {

    /** Nobody begins at the same moment as all others: each does within so many ms. */
    private static final int BEGIN_MS = 3_000;

    /**
     * First strokes of each assessor, told apart: here one program that has just begun does the work of all assessors'
     * programs, and compiles its own code meanwhile.
     */
    private static final int WARM_UP = 10;

    private final List<StoreTrial.Desk> desks;
    private final Rubric rubric;
    private final int strokes;
    private final int strokeMs;

    /**
     * @param strokes of each assessor at his own pace
     * @param strokeMs between two strokes in the mean; each gap is between half and one and a half of it
     */
    SaveLoad(List<StoreTrial.Desk> desks, Rubric rubric, int strokes, int strokeMs) {
        this.desks = desks;
        this.rubric = rubric;
        this.strokes = strokes;
        this.strokeMs = strokeMs;
    }

    /**
     * @param beginP99Ms 99th percentile from stroke to saved among the first {@value #WARM_UP} strokes of each
     * @param saves counted after these
     * @param p50Ms median from stroke to saved, each at his own pace
     * @param p99Ms 99th percentile of the same
     * @param perSecond saves in a second without any pause
     * @param fullP99Ms 99th percentile of a save then
     * @param lost drafts that are not stored as they were marked last
     */
    record Figures(
            double beginP99Ms, int saves, double p50Ms, double p99Ms, double perSecond, double fullP99Ms, int lost) {}

    /** @param seconds how long without a pause */
    Figures run(int seconds) {
        List<MarkSession> sessions = new ArrayList<>();
        for (StoreTrial.Desk desk : desks) {
            sessions.add(open(desk));
        }
        List<Double> begin = each(sessions, (session, seed) -> paced(session, seed, WARM_UP));
        List<Double> paced = each(sessions, (session, seed) -> paced(session, seed, strokes));
        long start = System.nanoTime();
        List<Double> full = each(sessions, (session, seed) -> hurried(session, start + seconds * 1_000_000_000L));
        double took = (System.nanoTime() - start) / 1e9;
        int lost = 0;
        for (int i = 0; i < sessions.size(); i++) {
            Rating stored = open(desks.get(i)).rating();
            lost += stored.equals(sessions.get(i).rating()) ? 0 : 1;
        }
        return new Figures(
                percentile(begin, 0.99),
                paced.size(),
                percentile(paced, 0.5),
                percentile(paced, 0.99),
                full.size() / took,
                percentile(full, 0.99),
                lost);
    }

    private MarkSession open(StoreTrial.Desk desk) {
        return new MarkCase(desk.workspace()).open(desk.caseCode(), desk.assessor(), false, rubric);
    }

    private interface Work {
        List<Double> by(MarkSession session, int number) throws InterruptedException;
    }

    private static List<Double> each(List<MarkSession> sessions, Work work) {
        ExecutorService threads = Executors.newFixedThreadPool(sessions.size());
        try {
            List<Callable<List<Double>>> all = new ArrayList<>();
            for (int i = 0; i < sessions.size(); i++) {
                int number = i;
                all.add(() -> work.by(sessions.get(number), number));
            }
            List<Double> times = new ArrayList<>();
            for (Future<List<Double>> one : threads.invokeAll(all)) {
                times.addAll(one.get());
            }
            times.sort(null);
            return times;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        } catch (ExecutionException e) {
            throw e.getCause() instanceof RuntimeException told ? told : new IllegalStateException(e);
        } finally {
            threads.shutdownNow();
        }
    }

    private List<Double> paced(MarkSession session, int number, int count) throws InterruptedException {
        Random random = new Random(number);
        List<Double> times = new ArrayList<>();
        long due = System.nanoTime() + random.nextInt(BEGIN_MS) * 1_000_000L;
        for (int i = 0; i < count; i++) {
            long wait = due - System.nanoTime();
            if (wait > 0) {
                Thread.sleep(wait / 1_000_000, (int) (wait % 1_000_000));
            }
            stroke(session, i);
            times.add((System.nanoTime() - due) / 1e6);
            due += (strokeMs / 2 + random.nextInt(strokeMs + 1)) * 1_000_000L;
        }
        return times;
    }

    private List<Double> hurried(MarkSession session, long until) {
        List<Double> times = new ArrayList<>();
        while (System.nanoTime() < until) {
            long start = System.nanoTime();
            stroke(session, times.size());
            times.add((System.nanoTime() - start) / 1e6);
        }
        return times;
    }

    /** Another level of the next item, and each fourth time a word to it. */
    private void stroke(MarkSession session, int number) {
        Rubric.Item item = rubric.items().get(number / 2 % rubric.items().size());
        List<Integer> points = rubric.pointsOf(item);
        int now = session.rating()
                .score(item.id())
                .map(score -> score instanceof ItemScore.Marked marked ? points.indexOf(marked.points()) : 0)
                .orElse(0);
        if (number % 4 == 3) {
            session.comment(item.id(), "stroke " + number);
        } else {
            session.mark(item.id(), points.get((now + 1) % points.size()));
        }
    }

    /** The smallest value that at least this share is not above. */
    private static double percentile(List<Double> sorted, double share) {
        return sorted.get((int) Math.ceil(sorted.size() * share) - 1);
    }
}
