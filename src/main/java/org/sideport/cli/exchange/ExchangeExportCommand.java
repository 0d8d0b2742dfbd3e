package org.sideport.cli.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ExportCase;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "export",
        description = {
            "Writes a case with its tags, comments, voices, measurements and marks into one file for another store.",
            "With a passphrase (from SIDEPORT_PASSPHRASE, or asked for) it is an OpenPGP message around the ZIP, which"
                    + " gpg -d",
            "opens too. What is inside: rubrics/case-bundle.schema.json and rubrics/case-content.schema.json.",
            "",
            "With --format, in a published format for other programs; what it has no place for is said on standard"
                    + " error:",
            "  vtt           WebVTT metadata cues with everything that tags and comments say, as JSON (exact times)",
            "  vtt-chapters  WebVTT chapters: phases          vtt-captions  WebVTT captions: comments",
            "  srt           SubRip captions: comments and events",
            "  ffmetadata    chapters as FFmpeg's metadata text",
            "  chapters      copies of the recording with chapters inside, into the folder OUT; no tags, nothing"
                    + " re-encoded",
            "  otio          OpenTimelineIO: files as clips, tags and comments as markers",
            "  annotation    W3C Web Annotations with media fragments; drawings as SVG",
            "  xapi          signed marks as xAPI statements (IEEE 9274.1.1), into a file or to --endpoint",
            "  json          everything that is stored of the case (rubrics/case-file.schema.json)",
            "With --rubric instead of --case: the rubric as a package of 1EdTech CASE 1.1.",
            "",
            "Examples: sideport exchange export --case D-017 --media --passphrase-prompt D-017.sideport-case.zip",
            "  sideport exchange export --case D-017 --format otio D-017.otio",
            "  sideport exchange export --rubric phaco-competency phaco-competency.case.json"
        })
final class ExchangeExportCommand implements Callable<Integer> {

    private static final String BUNDLE = "bundle";

    private final Console console;

    @Option(names = "--case", paramLabel = "C", description = "Code of the case.")
    @Nullable
    String caseCode;

    @Option(names = "--rubric", paramLabel = "ID", description = "A rubric instead of a case.")
    @Nullable
    String rubric;

    @Option(
            names = "--format",
            paramLabel = "F",
            defaultValue = BUNDLE,
            description = "One of those above; default: ${DEFAULT-VALUE}.")
    String format = BUNDLE;

    @Mixin
    OpenOptions open = new OpenOptions();

    @Mixin
    AskConsent ask;

    @Option(names = "--media", description = "Put the recording in.")
    boolean media;

    @Option(
            names = "--accept-tags",
            description = "Put the recording in although its tags may name a person, a place or a device.")
    boolean acceptTags;

    @Option(names = "--passphrase-prompt", description = "Ask for a passphrase, without echo.")
    boolean prompt;

    @Option(names = "--replace", description = "Replace the file if it exists.")
    boolean replace;

    @Parameters(arity = "0..1", paramLabel = "OUT", description = "The file, or for chapters the folder, to write.")
    @Nullable
    Path target;

    ExchangeExportCommand(Console console) {
        this.console = console;
        this.ask = new AskConsent(console);
    }

    @Override
    public Integer call() {
        OpenExports others = new OpenExports(console, open, ask);
        String id = rubric;
        String code = caseCode;
        if ((code == null) == (id == null)) {
            throw new InputException(
                    "neither or both of a case and a rubric are named", null, "add --case or --rubric");
        }
        if (id != null) {
            others.rubric(id, target, replace);
        } else if (code != null && !format.equals(BUNDLE)) {
            others.run(format, code, target, replace);
        } else if (code != null) {
            bundle(code);
        }
        return 0;
    }

    private void bundle(String code) {
        Path out = target;
        if (out == null) {
            throw new InputException("it is not said where to write", null, "name a file at the end");
        }
        if (Files.exists(out) && !replace) {
            throw new InputException(
                    "the file exists already", out.toString(), "choose another name, or add --replace");
        }
        char[] passphrase = AskedPassphrase.forNew(System.getenv(AskedPassphrase.VARIABLE), prompt);
        try (Workspace workspace = console.open()) {
            ask.before(workspace, code, ConsentPurpose.ASSESSMENT);
            ExportCase.Exported done = new ExportCase(workspace)
                    .export(new ExportCase.Wanted(code, media, acceptTags), passphrase, out, console.progress());
            ask.tell(done.warnings());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "file", done.file().toString(),
                        "sha256", done.sha256(),
                        "encrypted", passphrase != null,
                        "media", media,
                        "warnings", done.warnings()));
            } else {
                console.say("Wrote " + done.file() + (passphrase == null ? "." : ", encrypted."));
            }
        }
    }
}
