package org.sideport.cli.talk;

import java.nio.file.Path;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Voice;
import org.sideport.store.Workspace;
import org.sideport.workflow.VoiceKeeping;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "voice",
        description = {
            "Copies the sound of a spoken comment out of the workspace. A voice tells who speaks: mind who gets the file.",
            "Example: sideport comments voice --case C-12 --id 5f0c --out words.ogg"
        })
final class CommentsVoiceCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--id", paramLabel = "N", required = true, description = "Id of the comment, or its beginning.")
    String id;

    @Option(
            names = "--out",
            paramLabel = "FILE",
            required = true,
            description = "File to write: Opus in Ogg, name it .ogg.")
    Path file;

    @Option(names = "--replace", description = "Write over an existing file.")
    boolean replace;

    CommentsVoiceCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            VoiceKeeping keeping = new VoiceKeeping(workspace);
            Voice voice = Objects.requireNonNull(keeping.spoken(code, id).voice());
            keeping.copy(voice, file, replace);
            if (console.isJson()) {
                console.printJson(
                        Json.object("file", file.toString(), "sha256", voice.sha256(), "length_us", voice.lengthUs()));
            } else {
                console.say("Voice written to " + file + ". It tells who speaks: mind who gets it.");
            }
        }
        return 0;
    }
}
