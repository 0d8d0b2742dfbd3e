package org.sideport.cli.talk;

import java.util.List;
import org.sideport.cli.console.Console;
import picocli.CommandLine;

/** The commands of the group {@code comments}, and {@code measure}. */
public final class TalkCommands {

    private TalkCommands() {}

    public static List<Object> comments(Console console) {
        return List.of(
                new CommentsListCommand(console),
                new CommentsAddCommand(console),
                new CommentsExportCommand(console),
                new CommentsVoiceCommand(console),
                new CommentsCaptionsCommand(console));
    }

    public static CommandLine measure(Console console) {
        CommandLine measure = new CommandLine(new MeasureCommand(console));
        measure.addSubcommand(new MeasureListCommand(console));
        return measure;
    }
}
