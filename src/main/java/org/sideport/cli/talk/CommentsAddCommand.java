package org.sideport.cli.talk;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.InputException;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "add",
        description = {
            "Adds a comment at a moment or over a stretch, or answers one.",
            "Example: sideport comments add --case C-12 --by A1 --at 3:41 --tone praise --text \"a round rhexis\"",
            "Example: sideport comments add --case C-12 --by T03 --answers ID --text \"I had lost the edge\""
        })
final class CommentsAddCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--by", paramLabel = "A", required = true, description = "Code of who writes.")
    String person;

    @Option(names = "--text", paramLabel = "TEXT", required = true, description = "What is said.")
    String text;

    @Option(names = "--at", paramLabel = "TIME", description = "Seconds or h:mm:ss.sss; needed unless it is an answer.")
    @Nullable
    String at;

    @Option(names = "--to", paramLabel = "TIME", description = "End of the stretch; without it, a moment.")
    @Nullable
    String to;

    @Option(names = "--tone", paramLabel = "TONE", description = "praise, improve or question; by default improve.")
    String tone = "improve";

    @Option(names = "--rubric", paramLabel = "ID", description = "Rubric of the item that it is about.")
    @Nullable
    String rubric;

    @Option(names = "--item", paramLabel = "ID", description = "Item of the rubric that it is about.")
    @Nullable
    String item;

    @Option(names = "--answers", paramLabel = "ID", description = "Id of the comment that this answers.")
    @Nullable
    String answers;

    CommentsAddCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CommentSession session = new CommentCase(workspace).open(code, person);
            String id = answers == null ? add(session) : answer(session, answers);
            CommentThread thread = session.threads().stream()
                    .filter(t -> t.comment().id().equals(id))
                    .findFirst()
                    .orElseThrow();
            if (console.isJson()) {
                console.printJson(CommentViews.of(thread, true));
            } else {
                console.say(CommentViews.line(thread).strip());
            }
        }
        return 0;
    }

    private String add(CommentSession session) {
        if (at == null) {
            throw new InputException("the comment has no time", null, "give --at, or --answers to answer a comment");
        }
        if ((rubric == null) != (item == null)) {
            throw new InputException("only half of an item is named", null, "give --rubric and --item together");
        }
        Comment comment = new Comment(
                CommentSession.newId(),
                session.person(),
                CommentTone.parse(tone),
                text,
                rubric == null || item == null ? null : new ItemLink(rubric, item),
                MediaTime.parse(at),
                to == null ? null : MediaTime.parse(to),
                List.of());
        session.save(comment);
        return comment.id();
    }

    private String answer(CommentSession session, String id) {
        Comment comment = session.threads().stream()
                .map(CommentThread::comment)
                .filter(c -> c.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "case " + code + " has no comment " + id,
                        null,
                        "see their ids with: sideport comments list --case " + code + " --json"));
        CommentReply reply = session.answer(comment, text);
        return reply.comment();
    }
}
