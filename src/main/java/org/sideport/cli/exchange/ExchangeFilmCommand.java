package org.sideport.cli.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.MakeFilm;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "film",
        description = {
            "Makes a teaching film of a case, as one MP4: chosen stretches, spoken comments with the picture as it was"
                    + " seen",
            "(played, slowed, held), drawings in the picture, captions (in it, and as WebVTT beside it), phases as"
                    + " chapters.",
            "The recording's own sound stays out, since people speak in it; no tag tells of anybody. Without a choice"
                    + " it is",
            "all spoken comments. Consent for teaching is asked for.",
            "Captions in other languages: translate OUT.vtt into OUT.de.vtt (any language tag) beside it and make the"
                    + " film again.",
            "",
            "Example: sideport exchange film --case D-017 --clip 1:20-2:10 --comments --stills slides teaching.mp4"
        })
final class ExchangeFilmCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    AskConsent ask;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code = "";

    @Option(names = "--annotator", paramLabel = "A", description = "Whose tags; needed where several tagged the case.")
    @Nullable
    String annotator;

    @Option(names = "--clip", paramLabel = "FROM-TO", description = "A stretch to show; may be repeated.")
    List<String> clips = List.of();

    @Option(names = "--phase", paramLabel = "P", description = "A phase or step to show; may be repeated.")
    List<String> phases = List.of();

    @Option(names = "--comments", description = "Show the surroundings of every written comment.")
    boolean comments;

    @Option(names = "--no-spoken", description = "Leave spoken comments out; the film is silent then.")
    boolean noSpoken;

    @Option(
            names = "--area",
            paramLabel = "X,Y,W,H[@FROM-TO]",
            description = "An area to hide, as for mask; may be repeated.")
    List<String> areas = List.of();

    @Option(
            names = "--stills",
            paramLabel = "DIR",
            description = "Also, or without OUT only: a still of every comment with its drawing, and index.csv.")
    @Nullable
    Path stills;

    @Option(names = "--replace", description = "Replace the film if it exists.")
    boolean replace;

    @Parameters(arity = "0..1", paramLabel = "OUT.mp4")
    @Nullable
    Path out;

    ExchangeFilmCommand(Console console) {
        this.console = console;
        this.ask = new AskConsent(console);
    }

    @Override
    public Integer call() {
        Path film = out;
        Path folder = stills;
        if (film == null && folder == null) {
            throw new InputException("it is not said what to write", null, "name OUT.mp4, or --stills DIR");
        }
        MakeFilm.Wanted wanted = new MakeFilm.Wanted(
                code,
                annotator,
                clips.stream().map(MakeFilm.Part::parse).toList(),
                phases,
                comments,
                !noSpoken,
                areas.stream().map(MaskArea::parse).toList());
        try (Workspace workspace = console.open()) {
            ask.before(workspace, code, ConsentPurpose.TEACHING);
            MakeFilm job = new MakeFilm(workspace);
            MakeFilm.Made made = film == null ? null : job.film(wanted, film, replace, console.progress());
            Integer written = folder == null ? null : (Integer) job.stills(wanted, folder, console.progress());
            tell(made, written);
        }
        return 0;
    }

    private void tell(MakeFilm.@Nullable Made made, @Nullable Integer written) {
        if (made != null) {
            ask.tell(made.warnings());
        }
        if (console.isJson()) {
            Path beside = made == null ? null : made.captions();
            console.printJson(Json.object(
                    "film", made == null ? null : made.film().toString(),
                    "length_us", made == null ? null : made.lengthUs(),
                    "shots", made == null ? null : made.shots(),
                    "chapters", made == null ? null : made.chapters(),
                    "captions", beside == null ? null : beside.toString(),
                    "languages", made == null ? List.of() : made.languages(),
                    "stills", written));
            return;
        }
        if (made != null) {
            console.say("Wrote " + made.film() + ": "
                    + MediaTime.ofMicros(made.lengthUs()).toClockText() + ", " + Plural.of(made.shots(), "shot") + ", "
                    + Plural.of(made.chapters(), "chapter") + ".");
        }
        if (written != null) {
            console.say("Wrote " + Plural.of(written, "still") + " to " + stills + ".");
        }
    }
}
