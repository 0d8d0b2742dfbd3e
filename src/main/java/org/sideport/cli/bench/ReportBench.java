package org.sideport.cli.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.report.workbook.WorkbookTrial;
import org.sideport.store.TrialProgramme;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.Vocabularies;
import tools.jackson.databind.json.JsonMapper;

/** How quick a workbook and the director's figures are, each part in a process of its own. */
final class ReportBench {

    static final String NAME = "report";
    static final String HEAP = "report-heap";
    static final String RATIO = "report-ratio";
    static final String PROGRAMME = "report-programme";
    static final String PAGE = "report-page";

    private static final int ROWS = 100_000;
    private static final int CASES = 10_000;
    private static final int TRAINEES = 50;
    private static final int MINUTES = 60;
    private static final int CLICKS = 21;
    private static final int MOST_REPEATS = 5;
    private static final String RUBRIC = "phaco-competency";

    private final Console console;
    private final int repeats;

    ReportBench(Console console, int repeats) {
        this.console = console;
        this.repeats = Math.min(MOST_REPEATS, repeats);
    }

    void run(String name) throws IOException, InterruptedException {
        Path folder = Files.createTempDirectory("sideport-bench-report");
        try {
            Map<String, @Nullable Object> figures =
                    switch (name) {
                        case HEAP -> heap(folder);
                        case RATIO -> ratio(folder);
                        case PROGRAMME -> programme(folder);
                        case PAGE -> page(folder);
                        default -> all(folder);
                    };
            if (console.isJson()) {
                console.printJson(figures);
            } else {
                figures.forEach((key, value) -> console.say(key + " " + (value == null ? "–" : value)));
            }
        } finally {
            Scratch.delete(folder);
        }
    }

    private Map<String, @Nullable Object> all(Path home) throws IOException, InterruptedException {
        JsonMapper mapper = JsonMapper.builder().build();
        Map<String, @Nullable Object> all = new LinkedHashMap<>();
        all.put("workbook_ratio", null);
        all.put("workbook_heap_mb", null);
        all.put("page_click_ms", null);
        all.put("programme_ms", null);
        for (String part : List.of(RATIO, HEAP, PROGRAMME, PAGE)) {
            console.note("measuring " + part + " …");
            ChildProgram program = ChildProgram.sideport(home);
            if (part.equals(HEAP)) {
                // it must do with what is promised
                program = program.with("-Xmx256m");
            }
            mapper.readTree(program.run("bench", part, "--repeats", String.valueOf(repeats), "--json"))
                    .properties()
                    .forEach(entry -> all.put(entry.getKey(), entry.getValue()));
        }
        return all;
    }

    /** The most that the heap held while a workbook was written. */
    private static Map<String, @Nullable Object> heap(Path folder) {
        WorkbookTrial trial = new WorkbookTrial(ROWS);
        trial.own(folder.resolve("own.xlsx"));
        long most = ManagementFactory.getMemoryPoolMXBeans().stream()
                .filter(pool -> pool.getType() == MemoryType.HEAP)
                .map(MemoryPoolMXBean::getPeakUsage)
                .mapToLong(usage -> usage.getUsed())
                .sum();
        return figure("workbook_heap_mb", most / 1024.0 / 1024);
    }

    /** In turns, so that what else the machine does burdens both. */
    private Map<String, @Nullable Object> ratio(Path folder) throws IOException {
        WorkbookTrial trial = new WorkbookTrial(ROWS);
        List<Object[][]> cells = trial.cells();
        double[] own = new double[repeats];
        double[] bare = new double[repeats];
        for (int i = -1; i < repeats; i++) {
            long start = System.nanoTime();
            trial.own(folder.resolve("own.xlsx"));
            long middle = System.nanoTime();
            WorkbookTrial.bare(cells, folder.resolve("bare.xlsx"));
            long end = System.nanoTime();
            if (i >= 0) {
                own[i] = (middle - start) / 1e6;
                bare[i] = (end - middle) / 1e6;
            }
        }
        Map<String, @Nullable Object> figures =
                figure("workbook_ratio", Stopwatch.median(own) / Stopwatch.median(bare));
        figures.putAll(figure("workbook_ms", Stopwatch.median(own)));
        figures.putAll(figure("bare_ms", Stopwatch.median(bare)));
        return figures;
    }

    /** What the Programme screen asks for when it comes up. */
    private Map<String, @Nullable Object> programme(Path folder) {
        try (Workspace workspace = Workspace.create(folder.resolve("store"))) {
            Vocabularies vocabularies = new Vocabularies(workspace);
            Vocabularies.RubricText rubric = vocabularies.rubric(RUBRIC);
            Rubric marked = rubric.rubric();
            TrialProgramme.fill(
                    workspace,
                    CASES,
                    TRAINEES,
                    marked,
                    rubric.json(),
                    vocabularies.procedure(marked.procedure()).phases().stream()
                            .filter(phase -> !phase.idle())
                            .map(Procedure.Phase::id)
                            .toList());
            FollowCohort cohort = new FollowCohort(workspace, Clock.systemUTC());
            double[] times = new double[repeats];
            for (int i = -1; i < repeats; i++) {
                long start = System.nanoTime();
                CohortView view = cohort.show(FollowCohort.Question.of(RUBRIC));
                if (view.rows().size() != TRAINEES || view.rows().get(0).whole().n() == 0) {
                    throw new IllegalStateException("the programme shows nothing");
                }
                if (i >= 0) {
                    times[i] = (System.nanoTime() - start) / 1e6;
                }
            }
            return figure("programme_ms", Stopwatch.median(times));
        }
    }

    /** Unknown where there is no Chromium. */
    private Map<String, @Nullable Object> page(Path folder) throws IOException, InterruptedException {
        Path made = Files.createDirectory(folder.resolve("page"));
        PageClick.Found found = PageClick.measure(made, MINUTES, CLICKS, console.progress());
        Map<String, @Nullable Object> figures = new LinkedHashMap<>();
        if (found == null) {
            console.note("chromium is not installed: the page is not measured");
            figures.put("page_click_ms", null);
            return figures;
        }
        figures.putAll(figure("page_click_ms", found.clickMs()));
        figures.putAll(figure("page_click_video_ms", found.videoMs()));
        figures.putAll(figure("page_open_ms", found.openMs()));
        return figures;
    }

    private static Map<String, @Nullable Object> figure(String key, double value) {
        Map<String, @Nullable Object> figure = new LinkedHashMap<>();
        figure.put(key, Double.valueOf(String.format(Locale.ROOT, "%.2f", value)));
        return figure;
    }
}
