package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.FrameRef;
import org.sideport.media.export.Filmstrip;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "filmstrip",
        description = {
            "Writes one PNG of stills at even distances: those in the middles of equal stretches of the recording.",
            "Example: sideport filmstrip rec.mp4 --stills 12 --out strip.png"
        })
final class FilmstripCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    SourceOptions source = new SourceOptions();

    @Option(names = "--stills", paramLabel = "N", description = "How many, 1 to 200; default: ${DEFAULT-VALUE}.")
    int stills = Filmstrip.DEFAULT_STILLS;

    @Option(
            names = "--height",
            paramLabel = "PIXELS",
            description = "Height of each still, 16 to 1080; default: ${DEFAULT-VALUE}.")
    int height = Filmstrip.DEFAULT_HEIGHT;

    @Option(names = "--out", paramLabel = "PNG", required = true, description = "The picture to write.")
    Path out;

    FilmstripCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Filmstrip.Result result =
                Filmstrip.write(source.ordered(), stills, height, out, source.replace, console.progress());
        if (console.isJson()) {
            List<Object> views =
                    result.stills().stream().map(FilmstripCommand::view).toList();
            console.printJson(Json.object(
                    "file", result.file().toString(),
                    "width", result.width(),
                    "height", result.height(),
                    "stills", views));
        } else {
            console.say("Strip of " + Plural.of(result.stills().size(), "still") + ", " + result.width() + "×"
                    + result.height() + ": " + out);
        }
        return 0;
    }

    private static Object view(FrameRef frame) {
        return Json.object("frame_us", frame.start().micros(), "index", frame.number(), "segment", frame.segment());
    }
}
