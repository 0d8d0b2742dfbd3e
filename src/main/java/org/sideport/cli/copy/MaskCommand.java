package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.export.MaskedCopy;
import org.sideport.media.text.TextArea;
import org.sideport.media.text.TextFinder;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

@Command(
        name = "mask",
        description = {
            "Writes a copy of a recording, as one MP4, in which areas of the picture are hidden, such as a burnt-in name.",
            "Every frame keeps its time. The written file is compared with the recording: an area that still shows is an"
                    + " error, and the copy is deleted.",
            "Sound is left out unless --keep-sound is given: people speak in it.",
            "Example: sideport mask rec.mp4 --area 0,0,400,48 --area 900,640,300,60@0:00-0:12 --out masked.mp4",
            "",
            "With --find nothing is written: it looks for what may be writing in the picture and names the areas. It reads"
                    + " no letters, and misses what is faint, tiny, moving or shown for a few seconds only: look yourself.",
            "Example: sideport mask rec.mp4 --find"
        })
final class MaskCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    SourceOptions source = new SourceOptions();

    @Option(
            names = "--area",
            paramLabel = "X,Y,W,H[@FROM-TO]",
            description =
                    "An area to hide, in pixels of the upright picture from its top left corner (widths as displayed,"
                            + " where pixels are not square), the whole time or from FROM until before TO; may be repeated.")
    List<String> areas = List.of();

    @Option(names = "--blur", description = "Blur instead of black; black hides more surely.")
    boolean blur;

    @Option(names = "--keep-sound", description = "Keep the sound.")
    boolean keepSound;

    @Option(names = "--out", paramLabel = "MP4", description = "The copy to write.")
    @Nullable
    Path out;

    @Option(names = "--find", description = "Only look for what may be writing in the picture.")
    boolean find;

    @CommandLine.Spec
    CommandSpec spec;

    MaskCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (find) {
            if (out != null || !areas.isEmpty()) {
                throw new CommandLine.ParameterException(
                        spec.commandLine(),
                        "--find only looks: leave out --area and --out, and mask in a second step.");
            }
            return found(TextFinder.find(source.ordered(), console.progress()));
        }
        Path target = out;
        if (target == null || areas.isEmpty()) {
            throw new CommandLine.ParameterException(
                    spec.commandLine(),
                    "Name at least one --area to hide and the copy to write (--out), or use --find.");
        }
        MaskedCopy.Result result = MaskedCopy.write(
                source.ordered(),
                areas.stream().map(MaskArea::parse).toList(),
                blur ? MaskedCopy.Style.BLUR : MaskedCopy.Style.FILL,
                keepSound,
                target,
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
                    + (result.sound() ? ", with sound" : ", without sound") + ": " + target);
        }
        return 0;
    }

    private int found(List<TextArea> areas) {
        if (console.isJson()) {
            console.printJson(Json.object(
                    "areas",
                    areas.stream()
                            .map(a -> Json.object(
                                    "kind", "text_in_picture",
                                    "x", a.x(),
                                    "y", a.y(),
                                    "width", a.width(),
                                    "height", a.height(),
                                    "from_us", a.from().micros(),
                                    "to_us", a.to().micros(),
                                    "confidence", a.confidence()))
                            .toList()));
        } else {
            for (TextArea a : areas) {
                console.say(String.format(
                        Locale.ROOT,
                        "--area %d,%d,%d,%d   text in the picture, maybe a name or date; seen %s–%s (%.1f)",
                        a.x(),
                        a.y(),
                        a.width(),
                        a.height(),
                        a.from().toClockText(),
                        a.to().toClockText(),
                        a.confidence()));
            }
            console.say(areas.isEmpty() ? "No writing found." : Plural.of(areas.size(), "area") + " found.");
        }
        console.note("Look at the first minute yourself: text in the picture can be missed.");
        return 0;
    }
}
