package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.export.Clip;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "clip",
        description = {
            "Cuts a stretch out of a recording into an MP4, exact to the frame, sound in step.",
            "Every frame that is on the screen from FROM until before TO is in it, at its own distance from the first.",
            "Example: sideport clip part9.mp4 part10.mp4 --from 0:36 --to 0:41.5 --out clip.mp4"
        })
final class ClipCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    SourceOptions source = new SourceOptions();

    @Option(names = "--from", paramLabel = "TIME", required = true, description = "Seconds or h:mm:ss.sss.")
    String from;

    @Option(names = "--to", paramLabel = "TIME", required = true, description = "First time not to be in it.")
    String to;

    @Option(names = "--out", paramLabel = "MP4", required = true, description = "The clip to write.")
    Path out;

    @Option(names = "--no-sound", description = "Leave the sound out.")
    boolean noSound;

    @Option(
            names = "--fast",
            description =
                    "Copy instead of encode: quick and without loss, but from the key frame before FROM on; says what"
                            + " it really cut. Within one file only; the ending is that of the recording's own kind.")
    boolean fast;

    ClipCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        MediaTime start = MediaTime.parse(from);
        MediaTime end = MediaTime.parse(to);
        List<Path> files = source.ordered();
        Clip.Result result = fast
                ? Clip.fast(files, start, end, !noSound, out, source.replace, console.progress())
                : Clip.exact(files, start, end, !noSound, out, source.replace, console.progress());
        CopyCommands.noteLost(console, result.lost());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file", result.file().toString(),
                    "asked_from_us", start.micros(),
                    "asked_to_us", end.micros(),
                    "from_us", result.from().micros(),
                    "to_us", result.to().micros(),
                    "frames", result.frames(),
                    "lost_frames", result.lost(),
                    "sound", result.sound(),
                    "exact", result.exact()));
        } else {
            console.say("Clip of " + Plural.of(result.frames(), "frame") + ", "
                    + result.from().toClockText() + " to " + result.to().toClockText()
                    + (result.sound() ? ", with sound" : ", without sound")
                    + (result.exact() ? "" : ", copied from key frame on") + ": " + out);
        }
        return 0;
    }
}
