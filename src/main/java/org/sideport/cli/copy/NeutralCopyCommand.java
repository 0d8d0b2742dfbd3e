package org.sideport.cli.copy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.media.export.NeutralCopy;
import org.sideport.media.export.NeutralNames;
import org.sideport.media.export.Removed;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "neutral-copy",
        description = {
            "Copies files without loss and without a word inside about whom, where, when or with what, under neutral names.",
            "Each copy is read back: same pictures, same times, no tag left; else it is deleted.",
            "What is burnt into the picture or spoken stays: see mask, and --no-sound.",
            "Example: sideport neutral-copy card/*.mp4 --out neutral --code T03 --no-sound"
        })
final class NeutralCopyCommand implements Callable<Integer> {

    private static final int LONGEST = 60;

    private final Console console;

    @Mixin
    SourceOptions source = new SourceOptions();

    @Option(
            names = "--out",
            paramLabel = "DIR",
            required = true,
            description = "The folder to write to; made if it is not there.")
    Path folder;

    @Option(
            names = "--code",
            paramLabel = "CODE",
            description = "What to call the files: CODE_part-01 and so on; by default the next free case number.")
    @Nullable
    String code;

    @Option(names = "--no-sound", description = "Leave the sound out: people speak in it.")
    boolean noSound;

    @Option(
            names = "--without-sei",
            description =
                    "Also remove the supplemental information inside H.264 and HEVC pictures, where recorders may hide"
                            + " serial numbers; time codes, captions and recovery points go with it.")
    boolean withoutSei;

    @Option(names = "--names-only", description = "Only propose the names; write nothing.")
    boolean namesOnly;

    NeutralCopyCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<Path> files = source.ordered();
        List<Path> targets = NeutralNames.propose(files, folder, code);
        if (namesOnly) {
            propose(files, targets);
            return 0;
        }
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new InputException(
                    "the folder cannot be made: " + e.getMessage(), folder.toString(), "choose another place", e);
        }
        List<NeutralCopy.Result> results =
                NeutralCopy.all(files, targets, !noSound, withoutSei, source.replace, console.progress());
        boolean traces = results.stream().anyMatch(r -> !r.stillInside().isEmpty());
        if (console.isJson()) {
            console.printJson(Json.object(
                    "copies", results.stream().map(NeutralCopyCommand::view).toList()));
        } else {
            results.forEach(this::say);
        }
        if (traces) {
            console.note("Warning: a removed text is also inside the pictures' own data."
                    + (withoutSei ? "" : " Try --without-sei."));
        }
        return traces ? 1 : 0;
    }

    private void propose(List<Path> files, List<Path> targets) {
        List<Object> names = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            names.add(Json.object(
                    "source", files.get(i).toString(), "file", targets.get(i).toString()));
        }
        if (console.isJson()) {
            console.printJson(Json.object("names", names));
        } else {
            for (int i = 0; i < files.size(); i++) {
                console.say(files.get(i).getFileName() + " → " + targets.get(i).getFileName());
            }
        }
    }

    private void say(NeutralCopy.Result result) {
        console.say(result.source().getFileName() + " → " + result.file() + ": "
                + Plural.of(result.frames(), "frame") + ", same packets, "
                + (result.sound() ? "with sound" : "without sound"));
        for (Removed r : result.removed()) {
            String where = r.stream() == null ? "" : " of stream " + r.stream();
            console.say("  removed " + kind(r) + " " + r.name() + where
                    + (r.value() == null ? "" : ": " + shortened(r.value())));
        }
        result.stillInside().forEach(text -> console.say("  still inside the pictures: " + shortened(text)));
    }

    private static String kind(Removed r) {
        return switch (r.kind()) {
            case TAG -> "tag";
            case CHAPTER -> "chapter";
            case SOUND -> "sound";
            case STREAM -> "stream";
            case SEI -> "from the pictures:";
            case HEADER -> "with the DICOM header:";
        };
    }

    private static String shortened(String text) {
        String line = text.replaceAll("\\s+", " ");
        return line.length() <= LONGEST ? line : line.substring(0, LONGEST - 1) + "…";
    }

    private static Object view(NeutralCopy.Result result) {
        List<Object> removed = new ArrayList<>();
        for (Removed r : result.removed()) {
            removed.add(Json.object("kind", r.kind().id(), "stream", r.stream(), "name", r.name(), "value", r.value()));
        }
        return Json.object(
                "source", result.source().toString(),
                "file", result.file().toString(),
                "frames", result.frames(),
                "duration_us", result.durationUs(),
                "sound", result.sound(),
                "payload_sha256", result.payloadSha256(),
                "removed", removed,
                "still_inside", result.stillInside());
    }
}
