package org.sideport.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.FrameRef;
import org.sideport.media.NaturalOrder;
import org.sideport.media.PngFile;
import org.sideport.media.RecordingFrames;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "frame", description = "Writes exactly the frame that is on the screen at a time of the recording.")
final class FrameCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files of one operation.")
    List<Path> files;

    @Option(names = "--at", paramLabel = "TIME", required = true, description = "Seconds or h:mm:ss.sss.")
    String at;

    @Option(names = "--out", paramLabel = "PNG", required = true, description = "The picture to write.")
    Path target;

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    FrameCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        MediaTime time = MediaTime.parse(at);
        List<Path> ordered = keepOrder ? files : NaturalOrder.sorted(files);
        try (RecordingFrames frames = RecordingFrames.open(ordered, console.frameIndexes(), Progress.NONE)) {
            if (!time.isBefore(frames.duration())) {
                throw new InputException(
                        "the recording ends at " + frames.duration().toSecondsText() + " s, before "
                                + time.toSecondsText() + " s",
                        ordered.get(ordered.size() - 1).toString(),
                        "choose an earlier time");
            }
            FrameRef frame = frames.frameAt(time);
            PngFile.write(frames.picture(frame), target);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "asked_us", time.micros(),
                        "frame_us", frame.start().micros(),
                        "next_us", frame.end().micros(),
                        "index", frame.number(),
                        "segment", frame.segment()));
            } else {
                console.say("Frame " + frame.number() + ", shown from "
                        + frame.start().toClockText() + " to " + frame.end().toClockText() + ": " + target);
            }
        }
        return 0;
    }
}
