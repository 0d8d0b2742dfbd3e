package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.export.MaskArea;
import org.sideport.media.export.MaskedCopy;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "mask",
        description = {
            "Writes a copy of a recording, as one MP4, in which areas of the picture are hidden, such as a burnt-in name.",
            "Every frame keeps its time. The written file is compared with the recording: an area that still shows is an"
                    + " error, and the copy is deleted.",
            "Sound is left out unless --keep-sound is given: people speak in it.",
            "Example: sideport mask rec.mp4 --area 0,0,400,48 --area 900,640,300,60@0:00-0:12 --out masked.mp4"
        })
final class MaskCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    SourceOptions source = new SourceOptions();

    @Option(
            names = "--area",
            paramLabel = "X,Y,W,H[@FROM-TO]",
            required = true,
            description =
                    "An area to hide, in pixels of the upright picture from its top left corner (widths as displayed,"
                            + " where pixels are not square), the whole time or from FROM until before TO; may be repeated.")
    List<String> areas = List.of();

    @Option(names = "--blur", description = "Blur instead of black; black hides more surely.")
    boolean blur;

    @Option(names = "--keep-sound", description = "Keep the sound.")
    boolean keepSound;

    @Option(names = "--out", paramLabel = "MP4", required = true, description = "The copy to write.")
    Path out;

    MaskCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        MaskedCopy.Result result = MaskedCopy.write(
                source.ordered(),
                areas.stream().map(MaskArea::parse).toList(),
                blur ? MaskedCopy.Style.BLUR : MaskedCopy.Style.FILL,
                keepSound,
                out,
                source.replace,
                console.progress());
        CopyCommands.noteLost(console, result.lost());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file", result.file().toString(),
                    "frames", result.frames(),
                    "masked_frames", result.masked(),
                    "lost_frames", result.lost(),
                    "duration_us", result.durationUs(),
                    "sound", result.sound()));
        } else {
            console.say("Masked " + result.masked() + " of " + Plural.of(result.frames(), "frame") + ", "
                    + MediaTime.ofMicros(result.durationUs()).toClockText()
                    + (result.sound() ? ", with sound" : ", without sound") + ": " + out);
        }
        return 0;
    }
}
