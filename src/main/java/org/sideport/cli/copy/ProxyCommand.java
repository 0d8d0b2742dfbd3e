package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.export.Proxy;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "proxy",
        description = {
            "Writes a smaller copy of a recording, as one MP4, for slow machines: every frame at the same time.",
            "Example: sideport proxy part9.mp4 part10.mp4 --height 360 --out small.mp4"
        })
final class ProxyCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    SourceOptions source = new SourceOptions();

    @Option(
            names = "--height",
            paramLabel = "PIXELS",
            description = "Rows of the small picture, 64 to 4320; default: ${DEFAULT-VALUE}.")
    int height = Proxy.DEFAULT_HEIGHT;

    @Option(names = "--no-sound", description = "Leave the sound out.")
    boolean noSound;

    @Option(names = "--out", paramLabel = "MP4", required = true, description = "The copy to write.")
    Path out;

    ProxyCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Proxy.Result result = Proxy.write(source.ordered(), height, !noSound, out, source.replace, console.progress());
        CopyCommands.noteLost(console, result.lost());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file", result.file().toString(),
                    "frames", result.frames(),
                    "lost_frames", result.lost(),
                    "duration_us", result.durationUs(),
                    "width", result.width(),
                    "height", result.height(),
                    "sound", result.sound()));
        } else {
            console.say("Small copy of " + Plural.of(result.frames(), "frame") + ", " + result.width() + "×"
                    + result.height() + (result.sound() ? ", with sound" : ", without sound") + ": " + out);
        }
        return 0;
    }
}
