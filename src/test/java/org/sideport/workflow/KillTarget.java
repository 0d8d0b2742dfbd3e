package org.sideport.workflow;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;

/**
 * A program that does one thing over and over until it is killed, and says each time that it is done: {@code save},
 * {@code import}, {@code sign}, {@code migration} or {@code backup}. Used by {@link KilledAtRandomTest}.
 */
final class KillTarget {

    private KillTarget() {}

    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[1]);
        try (FileOutputStream out = new FileOutputStream(FileDescriptor.out)) {
            if (args[0].equals("migration")) {
                migrate(folder, out);
                return;
            }
            try (Workspace workspace = Workspace.open(folder)) {
                switch (args[0]) {
                    case "save" -> save(workspace, out);
                    case "import" -> importTags(workspace, Path.of(args[2]), out);
                    case "sign" -> sign(workspace, out);
                    case "backup" -> backUp(workspace, out);
                    default -> throw new IllegalArgumentException(args[0]);
                }
            }
        }
    }

    /** Unbuffered: what is read of it was done before. */
    private static void say(FileOutputStream out, String word) throws java.io.IOException {
        out.write((word + "\n").getBytes(StandardCharsets.US_ASCII));
    }

    /** A mark and a tag each time: what a key press does. */
    private static void save(Workspace workspace, FileOutputStream out) throws Exception {
        TagSession tags = new TagRecording(workspace).open("C-01", "A1");
        MarkSession marks = new MarkCase(workspace).open("C-01", "A1", false, Unit.RUBRIC);
        say(out, "ready");
        for (int n = 1; ; n++) {
            tags.startPhase(TagUntilKilled.PHASES.get(n % 2), MediaTime.ofSeconds(n), null);
            marks.overallComment("comment " + n);
            say(out, Integer.toString(n));
        }
    }

    private static void importTags(Workspace workspace, Path csv, FileOutputStream out) throws Exception {
        TagExchange exchange = new TagExchange(workspace);
        say(out, "ready");
        for (int n = 1; ; n++) {
            exchange.importCsv(csv, "B" + n, false);
            say(out, Integer.toString(n));
        }
    }

    /** Signs, then amends again and again. */
    private static void sign(Workspace workspace, FileOutputStream out) throws Exception {
        MarkCase marking = new MarkCase(workspace);
        marking.rate("C-01", Unit.rating("A1", false));
        say(out, "ready");
        marking.sign("C-01", Unit.RUBRIC.id(), "A1", false);
        say(out, "1");
        String item = Unit.RUBRIC.items().get(0).id();
        for (int n = 2; ; n++) {
            marking.amend("C-01", Unit.withPoints(Unit.rating("A1", false), item, 2 + n % 3), "seen again " + n);
            say(out, Integer.toString(n));
        }
    }

    /** Opens one older workspace after the other: folders 1, 2, 3 … below. */
    private static void migrate(Path folder, FileOutputStream out) throws Exception {
        Path template = folder.resolve("template");
        // the classes are read once, so that kills do not all hit the start of the program
        Path first = copy(template, folder.resolve("0"));
        Workspace.open(first).close();
        say(out, "ready");
        for (int n = 1; ; n++) {
            Path next = copy(template, folder.resolve(Integer.toString(n)));
            say(out, "began " + n);
            Workspace.open(next).close();
            say(out, Integer.toString(n));
        }
    }

    private static Path copy(Path from, Path to) throws Exception {
        Files.createDirectories(to);
        Path part = to.resolve("copying");
        Files.copy(from.resolve(Workspace.STORE_FILE), part);
        Files.move(part, to.resolve(Workspace.STORE_FILE));
        return to;
    }

    private static void backUp(Workspace workspace, FileOutputStream out) throws Exception {
        say(out, "ready");
        for (int n = 1; ; n++) {
            if (n % 2 == 0) {
                workspace.keeping().backUp(Instant.now(), Progress.NONE);
            } else {
                workspace
                        .keeping()
                        .writeArchive(
                                workspace.dir().resolveSibling("archive.zip"), "test", Instant.now(), Progress.NONE);
            }
            say(out, Integer.toString(n));
        }
    }
}
