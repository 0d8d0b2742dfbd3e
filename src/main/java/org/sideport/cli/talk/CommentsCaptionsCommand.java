package org.sideport.cli.talk;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.voice.CaptionFile;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.VoiceKeeping;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "captions",
        description = {
            "Puts the text of a spoken comment beside it, from a WebVTT or SubRip file with times from the voice's start.",
            "Example: sideport comments captions --case C-12 --id 5f0c words.vtt"
        })
final class CommentsCaptionsCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--id", paramLabel = "N", required = true, description = "Id of the comment, or its beginning.")
    String id;

    @Parameters(index = "0", paramLabel = "FILE", description = "A .vtt or .srt file.")
    Path file;

    CommentsCaptionsCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<Caption> captions = CaptionFile.read(file);
        try (Workspace workspace = console.open()) {
            Comment comment = new VoiceKeeping(workspace).spoken(code, id);
            CommentSession session = new CommentCase(workspace).open(code, comment.author());
            session.save(VoiceKeeping.withCaptions(comment, captions, file.toString()));
            if (console.isJson()) {
                console.printJson(Json.object("id", comment.id(), "captions", captions.size()));
            } else {
                console.say(Plural.of(captions.size(), "caption") + " put beside the comment");
            }
        }
        return 0;
    }
}
