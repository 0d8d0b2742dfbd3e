package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvTable;

/** The main job from nothing, on the recordings and the invented cohort of the folder {@code demo-data}. */
public final class RunDemo {

    /** Marks a folder as made by the demo, so that the demo may make it anew. */
    private static final String MARK = "made-by-sideport-demo";

    private static final String RECORDINGS = "recordings";
    private static final List<String> OWN_COLUMNS = List.of("case", "trainee", "date", "procedure");

    private final Path data;
    private final Consumer<String> tell;

    /**
     * @param data the folder {@code demo-data}
     * @param tell takes a line for people at each step
     */
    public RunDemo(Path data, Consumer<String> tell) {
        this.data = data;
        this.tell = tell;
    }

    /** What the demo left behind; the workspace is open and must be closed. */
    public record Result(Workspace workspace, Path workbook) {}

    /**
     * @param out a folder that is new, empty, or was made by the demo before
     * @throws InputException if the folder holds anything else, or the demo's files are not there
     */
    public Result run(Path out, Progress progress) {
        requireData();
        prepare(out);
        Workspace workspace = Workspace.create(out);
        try {
            Files.writeString(out.resolve(MARK), "This folder may be deleted. The next demo makes it anew.\n");
            importCases(workspace, copyRecordings(out), progress);
            importTags(workspace);
            tell.accept(Plural.of(
                            new LoadRatings(workspace)
                                    .load(
                                            data.resolve("cohort-ratings.csv"),
                                            DemoComments.moments(data.resolve("comments.json"))),
                            "rating")
                    + " by 3 assessors and the trainees themselves");
            tell.accept(Plural.of(new DemoComments(workspace).add(data.resolve("comments.json")), "comment")
                    + " on the recordings");
            Path workbook = out.resolve("competency.xlsx");
            new WriteWorkbook(workspace).write(workbook, progress);
            return new Result(workspace, workbook);
        } catch (IOException e) {
            workspace.close();
            throw new InputException(
                    "the demo cannot write: " + e.getMessage(), out.toString(), "choose another folder with --out", e);
        } catch (RuntimeException e) {
            workspace.close();
            throw e;
        }
    }

    private void requireData() {
        if (!Files.isRegularFile(data.resolve("cohort-cases.csv"))) {
            throw new InputException(
                    "the demo's files are not there", data.toString(), "run the demo from a whole copy of Sideport");
        }
    }

    private static void prepare(Path out) {
        if (!Files.exists(out)) {
            return;
        }
        boolean ours = Files.exists(out.resolve(MARK));
        try (Stream<Path> entries = Files.list(out)) {
            boolean empty = entries.findAny().isEmpty();
            if (!empty && !ours) {
                throw new InputException(
                        "the folder holds something else", out.toString(), "choose a new folder with --out");
            }
        } catch (IOException e) {
            throw new InputException(
                    "cannot be read: " + e.getMessage(), out.toString(), "choose another with --out", e);
        }
        if (ours) {
            if (Workspace.isWorkspace(out)) {
                // Fails here, before anything is deleted, if the app still has it open.
                Workspace.open(out).close();
            }
            deleteAll(out);
        }
    }

    private static void deleteAll(Path out) {
        try (Stream<Path> files = Files.walk(out)) {
            List<Path> deepestFirst =
                    files.sorted(java.util.Comparator.reverseOrder()).toList();
            for (Path file : deepestFirst) {
                if (!file.equals(out)) {
                    Files.delete(file);
                }
            }
        } catch (IOException e) {
            throw new InputException(
                    "the last demo cannot be removed: " + e.getMessage(),
                    out.toString(),
                    "choose another with --out",
                    e);
        }
    }

    private List<Path> copyRecordings(Path out) throws IOException {
        Path folder = Files.createDirectories(out.resolve(RECORDINGS));
        List<Path> copies = new ArrayList<>();
        try (Stream<Path> files = Files.list(data)) {
            for (Path file :
                    files.filter(f -> f.toString().endsWith(".mp4")).sorted().toList()) {
                copies.add(Files.copy(file, folder.resolve(file.getFileName()), StandardCopyOption.REPLACE_EXISTING));
            }
        }
        return copies;
    }

    private void importCases(Workspace workspace, List<Path> recordings, Progress progress) {
        ImportRecording job = new ImportRecording(workspace);
        int count = 0;
        for (CsvTable.Row row : CsvTable.read(data.resolve("cohort-cases.csv")).rows()) {
            String code = row.required("case");
            Map<String, String> descriptors = new LinkedHashMap<>(row.cells());
            descriptors.keySet().removeAll(OWN_COLUMNS);
            List<Path> files = recordings.stream()
                    .filter(f -> belongs(f.getFileName().toString(), code))
                    .toList();
            RecordingPreview preview = files.isEmpty() ? null : job.preview(files, progress);
            job.addCase(
                    new NewCase(
                            code,
                            row.required("trainee"),
                            LocalDate.parse(row.required("date")),
                            row.required("procedure"),
                            descriptors),
                    preview);
            count++;
            if (preview != null) {
                agree(workspace, code, LocalDate.parse(row.required("date")));
                tell.accept("Recording " + code + ": "
                        + preview.recording().duration().toClockText() + " in " + Plural.of(files.size(), "file"));
            }
        }
        tell.accept(Plural.of(count, "case") + ", all invented");
    }

    /** Nobody can refuse: what is drawn shows no patient. */
    private static void agree(Workspace workspace, String code, LocalDate on) {
        Consent given = new Consent(
                ConsentState.GIVEN, EnumSet.of(ConsentPurpose.ASSESSMENT, ConsentPurpose.TEACHING), "A1", on);
        new EditCase(workspace).edit(code, new CaseEdit("A1", null, null, Map.of(), given, null, false), Instant.now());
    }

    private static boolean belongs(String file, String code) {
        return file.equals(code + ".mp4") || file.startsWith(code + "_");
    }

    private void importTags(Workspace workspace) {
        TagExchange job = new TagExchange(workspace);
        int phases = 0;
        int events = 0;
        for (String name : List.of("truth-phases.csv", "cohort-phases.csv")) {
            for (TagExchange.Imported one : job.importCsv(data.resolve(name), null, false)) {
                phases += one.count();
            }
        }
        for (String name : List.of("truth-events.csv", "cohort-events.csv")) {
            for (TagExchange.Imported one : job.importCsv(data.resolve(name), null, false)) {
                events += one.count();
            }
        }
        tell.accept(Plural.of(phases, "phase span") + " and " + Plural.of(events, "event"));
    }
}
