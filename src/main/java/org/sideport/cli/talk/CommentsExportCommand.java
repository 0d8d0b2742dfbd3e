package org.sideport.cli.talk;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.concurrent.Callable;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.InputException;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.model.Voice;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvText;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.VoiceKeeping;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "export",
        description = {
            "Writes the comments on a case to a file: a table (.csv) or everything with the drawings (.json).",
            "Example: sideport comments export --case C-12 comments.csv"
        })
final class CommentsExportCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(
            names = "--voices",
            paramLabel = "FOLDER",
            description = "Also copy the sounds of spoken comments there. A voice tells who speaks.")
    @Nullable
    Path voices;

    @Option(names = "--replace", description = "Write over an existing file.")
    boolean replace;

    @Parameters(index = "0", paramLabel = "FILE", description = "Its name ends in .csv or .json.")
    Path file;

    CommentsExportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws IOException {
        String name = String.valueOf(file.getFileName()).toLowerCase(java.util.Locale.ROOT);
        if (!name.endsWith(".csv") && !name.endsWith(".json")) {
            throw new InputException("cannot tell what to write", file.toString(), "let the name end in .csv or .json");
        }
        if (Files.exists(file) && !replace) {
            throw new InputException(
                    "the file exists already", file.toString(), "choose another name, or add --replace");
        }
        try (Workspace workspace = console.open()) {
            List<CommentThread> threads = new CommentCase(workspace).of(code);
            write(name.endsWith(".csv") ? csv(threads) : json(threads));
            int copied = copyVoices(workspace, threads);
            if (console.isJson()) {
                console.printJson(Json.object("file", file.toString(), "comments", threads.size(), "voices", copied));
            } else {
                console.say(Plural.of(threads.size(), "comment") + " written to " + file);
                if (copied > 0) {
                    console.say(Plural.of(copied, "voice") + " copied to " + voices
                            + ". A voice tells who speaks: mind who gets it.");
                }
            }
        }
        return 0;
    }

    private int copyVoices(Workspace workspace, List<CommentThread> threads) throws IOException {
        Path folder = voices;
        if (folder == null) {
            return 0;
        }
        Files.createDirectories(folder);
        VoiceKeeping keeping = new VoiceKeeping(workspace);
        int copied = 0;
        for (CommentThread thread : threads) {
            Voice voice = thread.comment().voice();
            if (voice != null) {
                keeping.copy(voice, folder.resolve(voice.sha256() + ".ogg"), true);
                copied++;
            }
        }
        return copied;
    }

    private String json(List<CommentThread> threads) {
        return Json.write(Json.object(
                        "case",
                        code,
                        "comments",
                        threads.stream().map(t -> CommentViews.of(t, false)).toList()))
                + "\n";
    }

    /** An answer's row has the times of its comment. */
    private String csv(List<CommentThread> threads) {
        StringWriter text = new StringWriter();
        try (CSVPrinter csv = new CSVPrinter(
                text, CSVFormat.RFC4180.builder().setRecordSeparator("\n").get())) {
            csv.printRecord("case", "comment", "answers", "author", "tone", "from", "to", "rubric", "item", "text");
            for (CommentThread thread : threads) {
                Comment comment = thread.comment();
                MediaTime to = comment.to();
                ItemLink item = comment.item();
                String from = comment.from().toSecondsText();
                csv.printRecord(
                        code,
                        comment.id(),
                        "",
                        comment.author(),
                        comment.tone().id(),
                        from,
                        seconds(to),
                        item == null ? "" : item.rubric(),
                        item == null ? "" : item.item(),
                        CsvText.guard(comment.text()));
                for (CommentReply reply : thread.replies()) {
                    csv.printRecord(
                            code,
                            reply.id(),
                            comment.id(),
                            reply.author(),
                            "",
                            from,
                            seconds(to),
                            "",
                            "",
                            CsvText.guard(reply.text()));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    private static String seconds(@Nullable MediaTime time) {
        return time == null ? "" : time.toSecondsText();
    }

    private void write(String text) throws IOException {
        Path target = file.toAbsolutePath();
        Path part = target.resolveSibling(target.getFileName() + ".part");
        try {
            Files.writeString(part, text, StandardCharsets.UTF_8);
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new InputException("the file cannot be written", file.toString(), e.getMessage());
        } finally {
            Files.deleteIfExists(part);
        }
    }
}
