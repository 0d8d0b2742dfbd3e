package org.sideport.cli.upkeep;

import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.RatingSeal;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.VerifyRatings;
import org.sideport.workflow.upkeep.VerifyRatings.Verified;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "verify",
        description = {
            "Compares the signed ratings of a case with what was signed: marks, comments, rubric, recordings. Ends"
                    + " with 1 if something differs, and says what.",
            "Tags may be changed after signing; that is said, and is no finding."
        })
final class RateVerifyCommand implements Callable<Integer> {

    private static final int FINDING = 1;

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--no-files", description = "Leave out reading the recording's files.")
    boolean noFiles;

    RateVerifyCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        List<Verified> verified;
        try (Workspace workspace = console.open()) {
            verified = new VerifyRatings(workspace).ofCase(code, !noFiles, console.progress());
        }
        boolean asSigned = verified.stream().allMatch(Verified::isAsSigned);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "case",
                    code,
                    "as_signed",
                    asSigned,
                    "ratings",
                    verified.stream().map(RateVerifyCommand::view).toList()));
        } else {
            verified.forEach(this::tell);
            if (verified.isEmpty()) {
                console.say("Nothing of case " + code + " is signed.");
            }
        }
        return asSigned ? 0 : FINDING;
    }

    private void tell(Verified one) {
        RatingSeal seal = one.seal();
        console.say("Rating " + one.id() + " by " + one.assessor() + (one.self() ? " (self)" : "") + " on "
                + one.rubric() + " " + one.rubricVersion() + ", " + one.state().id() + " " + one.signedAt()
                + (one.isAsSigned() ? ": as signed" : ": DIFFERS"));
        if (seal != null) {
            console.say("  digest " + seal.digest());
            if (!seal.amendsDigest().isEmpty()) {
                console.say("  supersedes " + seal.amendsDigest() + ": " + one.reason());
            }
        }
        one.findings().forEach(f -> console.say("  FINDING  " + f));
        one.notes().forEach(n -> console.say("  note     " + n));
    }

    private static Map<String, @Nullable Object> view(Verified one) {
        RatingSeal seal = one.seal();
        return Json.object(
                "id",
                one.id(),
                "assessor",
                one.assessor(),
                "self",
                one.self(),
                "rubric",
                one.rubric(),
                "version",
                one.rubricVersion(),
                "state",
                one.state().id(),
                "signed_at",
                one.signedAt(),
                "amends",
                one.amends(),
                "reason",
                one.reason(),
                "as_signed",
                one.isAsSigned(),
                "form",
                seal == null ? null : seal.form(),
                "digest",
                seal == null ? null : seal.digest(),
                "supersedes_digest",
                seal == null || seal.amendsDigest().isEmpty() ? null : seal.amendsDigest(),
                "rubric_sha256",
                seal == null ? null : seal.rubricSha256(),
                "tags_of",
                seal == null || seal.taggingOf().isEmpty() ? null : seal.taggingOf(),
                "recordings",
                seal == null ? null : seal.recordings(),
                "findings",
                one.findings(),
                "notes",
                one.notes());
    }
}
