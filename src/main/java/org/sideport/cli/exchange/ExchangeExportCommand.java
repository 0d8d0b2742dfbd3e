package org.sideport.cli.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ExportCase;
import picocli.CommandLine.Command;
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
            "Example: sideport exchange export --case D-017 --media --passphrase-prompt D-017.sideport-case.zip"
        })
final class ExchangeExportCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code = "";

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

    @Parameters(paramLabel = "OUT.sideport-case.zip")
    Path out = Path.of("");

    ExchangeExportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (Files.exists(out) && !replace) {
            throw new InputException(
                    "the file exists already", out.toString(), "choose another name, or add --replace");
        }
        char[] passphrase = AskedPassphrase.forNew(System.getenv(AskedPassphrase.VARIABLE), prompt);
        try (Workspace workspace = console.open()) {
            ExportCase.Exported done = new ExportCase(workspace)
                    .export(new ExportCase.Wanted(code, media, acceptTags), passphrase, out, console.progress());
            done.warnings().forEach(console::note);
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
        return 0;
    }
}
