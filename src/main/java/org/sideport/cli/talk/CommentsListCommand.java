package org.sideport.cli.talk;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "list",
        description = {
            "The comments on a case by time, with their answers.",
            "Example: sideport comments list --case C-12 --reader T03 --unread"
        })
final class CommentsListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--reader", paramLabel = "A", description = "Whose unread marks to show.")
    String reader = "";

    @Option(names = "--unread", description = "Only what is new to the reader.")
    boolean unread;

    @Option(names = "--tone", paramLabel = "TONE", description = "Only praise, improve or question.")
    String tone = "";

    CommentsListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        CommentTone wanted = tone.isEmpty() ? null : CommentTone.parse(tone);
        try (Workspace workspace = console.open()) {
            CommentCase job = new CommentCase(workspace);
            List<CommentThread> found =
                    reader.isEmpty() ? job.of(code) : job.open(code, reader).threads();
            List<CommentThread> shown = found.stream()
                    .filter(t -> wanted == null || t.comment().tone() == wanted)
                    .filter(t -> !unread || t.unread())
                    .map(t -> reader.isEmpty() ? new CommentThread(t.comment(), t.replies(), false) : t)
                    .toList();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "case",
                        code,
                        "comments",
                        shown.stream()
                                .map(t -> CommentViews.of(t, !reader.isEmpty()))
                                .toList()));
            } else if (shown.isEmpty()) {
                console.say("No comments on " + code + (found.isEmpty() ? "." : " but others than asked for."));
            } else {
                shown.forEach(thread -> console.say(CommentViews.line(thread)));
            }
        }
        return 0;
    }
}
