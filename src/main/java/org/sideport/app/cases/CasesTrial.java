package org.sideport.app.cases;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppContext;
import org.sideport.app.FxThread;
import org.sideport.app.frame.MainWindow;
import org.sideport.store.Workspace;

/** Opens the window on a workspace and measures, on the real screen, how soon the list is there and how fast it filters. */
public final class CasesTrial {

    private static final long LONGEST_S = 120;

    /** What is typed, a key at a time. */
    private static final List<String> WORDS = List.of("t07 small", "c-0412", "right a2", "2025-03 block");

    private final FxThread screen = new FxThread();
    private final CompletableFuture<Result> result = new CompletableFuture<>();
    private final List<Double> keystrokes = new ArrayList<>();
    private final Workspace workspace;
    private final int cases;
    private @Nullable AppContext context;
    private @Nullable Stage stage;
    private long shownAt;
    private long typedAt;
    private long typedCpu;
    private final List<Double> keystrokesCpu = new ArrayList<>();
    private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    private double firstPaintMs = Double.NaN;
    private double allReadMs = Double.NaN;
    private int word;
    private int letters;

    private CasesTrial(Workspace workspace, int cases) {
        this.workspace = workspace;
        this.cases = cases;
    }

    /**
     * @param firstPaintMs from the window's appearing to the first layout with rows in the list
     * @param allReadMs from the window's appearing to the first layout with all cases in the list
     * @param keystrokesMs from each change of the search text to the end of the layout that shows its outcome
     * @param keystrokesCpuMs how much of each the screen's thread was at work; the rest it waited, also for a processor
     */
    public record Result(
            double firstPaintMs, double allReadMs, List<Double> keystrokesMs, List<Double> keystrokesCpuMs) {

        public Result {
            keystrokesMs = List.copyOf(keystrokesMs);
            keystrokesCpuMs = List.copyOf(keystrokesCpuMs);
        }

        public double keystrokeMedianMs() {
            return median(keystrokesMs);
        }

        public double keystrokeCpuMedianMs() {
            return median(keystrokesCpuMs);
        }

        private static double median(List<Double> values) {
            double[] sorted =
                    values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
            return sorted.length == 0 ? Double.NaN : (sorted[(sorted.length - 1) / 2] + sorted[sorted.length / 2]) / 2;
        }

        public double keystrokeMaxMs() {
            return keystrokesMs.stream().mapToDouble(Double::doubleValue).max().orElse(Double.NaN);
        }
    }

    /**
     * Starts the screen's thread, measures and ends it: once in the life of a program.
     *
     * @param folder a workspace that holds {@code cases} cases; it is opened and closed here
     */
    public static Result run(Path folder, int cases) {
        CasesTrial trial = new CasesTrial(Workspace.open(folder), cases);
        Platform.startup(trial::open);
        try {
            return trial.result.get(LONGEST_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted", e);
        } catch (ExecutionException | TimeoutException e) {
            throw new IllegalStateException("the list was not measured: " + e, e);
        } finally {
            trial.end();
        }
    }

    private void end() {
        CompletableFuture<Boolean> closed = new CompletableFuture<>();
        screen.execute(() -> {
            if (stage != null) {
                stage.close();
            }
            if (context != null) {
                context.close();
            }
            closed.complete(true);
        });
        closed.orTimeout(LONGEST_S, TimeUnit.SECONDS).join();
        Platform.exit();
    }

    private void open() {
        Stage shown = new Stage();
        AppContext made = new AppContext(workspace, Clock.systemDefaultZone());
        stage = shown;
        context = made;
        shown.setOnShown(event -> shownAt = System.nanoTime());
        MainWindow window = new MainWindow(made, shown);
        shown.getScene().addPostLayoutPulseListener(this::laidOut);
        window.show();
    }

    private Scene scene() {
        Stage now = stage;
        if (now == null) {
            throw new IllegalStateException("no window");
        }
        return now.getScene();
    }

    private static double ms(long nanos) {
        return nanos / 1e6;
    }

    private void laidOut() {
        if (shownAt == 0 || result.isDone()) {
            return;
        }
        long now = System.nanoTime();
        TableView<?> table = (TableView<?>) scene().lookup("#cases-table");
        boolean rows = table != null
                && table.lookupAll(".table-row-cell").stream()
                        .anyMatch(row -> row instanceof TableRow<?> line && !line.isEmpty());
        if (rows && Double.isNaN(firstPaintMs)) {
            firstPaintMs = ms(now - shownAt);
        }
        if (rows && table.getItems().size() >= cases && Double.isNaN(allReadMs)) {
            allReadMs = ms(now - shownAt);
            screen.execute(this::type);
        } else if (typedAt != 0) {
            keystrokes.add(ms(now - typedAt));
            keystrokesCpu.add(ms(threads.getCurrentThreadCpuTime() - typedCpu));
            typedAt = 0;
            screen.execute(this::type);
        }
    }

    /** The next key; after the last word it is done. */
    private void type() {
        if (word >= WORDS.size()) {
            result.complete(new Result(firstPaintMs, allReadMs, keystrokes, keystrokesCpu));
            return;
        }
        TextField search = (TextField) scene().lookup("#case-filter");
        String wanted = WORDS.get(word).substring(0, ++letters);
        if (letters == WORDS.get(word).length()) {
            word++;
            letters = 0;
        }
        typedAt = System.nanoTime();
        typedCpu = threads.getCurrentThreadCpuTime();
        search.setText(wanted);
        Platform.requestNextPulse();
    }
}
