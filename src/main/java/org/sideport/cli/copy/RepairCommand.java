package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.export.Repair;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "repair",
        description = {
            "Saves what can be read of a file that was cut short, is damaged or lost its index, into a new file of the same"
                    + " kind. The original is only read.",
            "An MP4 whose table of contents (moov) was never written cannot be read at all, and is said so.",
            "Example: sideport repair rec.mp4 --out rec-saved.mp4"
        })
final class RepairCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The broken file.")
    Path file;

    @Option(names = "--out", paramLabel = "FILE", required = true, description = "The file to write.")
    Path out;

    @Option(names = "--replace", description = "Write over what is there; never over the broken file itself.")
    boolean replace;

    RepairCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        String extension = Repair.extension(file);
        if (!out.toString().toLowerCase(Locale.ROOT).endsWith(extension)) {
            throw new InputException(
                    "what can be saved of this file needs a " + extension + " file", out.toString(), "name it so");
        }
        Repair.Result result = Repair.write(file, out, replace, console.progress());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "file", result.file().toString(),
                    "frames", result.frames(),
                    "duration_us", result.durationUs(),
                    "promised_us", result.promisedUs(),
                    "dropped_packets", result.dropped(),
                    "read_errors", result.errors(),
                    "runs", result.runs(),
                    "sound", result.sound()));
            return 0;
        }
        console.say("Saved " + Plural.of(result.frames(), "frame") + ", "
                + MediaTime.ofMicros(result.durationUs()).toClockText()
                + (result.promisedUs() == null
                        ? ""
                        : " of " + MediaTime.ofMicros(result.promisedUs()).toClockText() + " that the file promises")
                + ": " + out);
        if (result.dropped() > 0) {
            console.say("Left out as damaged: " + Plural.of(result.dropped(), "packet"));
        }
        if (result.runs() > 1) {
            console.say("The recorder's clock began anew " + Plural.of(result.runs() - 1, "time")
                    + "; the stretches follow each other without a gap, which may hide one.");
        }
        return 0;
    }
}
