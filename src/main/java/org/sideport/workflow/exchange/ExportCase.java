package org.sideport.workflow.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Caller;
import org.sideport.model.CommentThread;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Voice;
import org.sideport.report.bundle.BundleWriter;
import org.sideport.report.bundle.CaseBundle;
import org.sideport.report.bundle.CaseContent;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.Program;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentGate;

/** Writes a case with all that came of it into one file for another store. */
public final class ExportCase {

    /** NIST SP 800-63B-4, 3.1.1.2: at least 15 characters where a password is the only factor. */
    public static final int SHORTEST_PASSPHRASE = 15;

    private final Workspace workspace;

    public ExportCase(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What to write.
     *
     * @param media true to put the recording in
     * @param acceptTags true to put it in although its tags may name a person
     */
    public record Wanted(String code, boolean media, boolean acceptTags) {}

    /**
     * @param sha256 of the file
     * @param warnings sentences that whoever hands the file on must know
     */
    public record Exported(Path file, String sha256, List<String> warnings) {

        public Exported {
            warnings = List.copyOf(warnings);
        }
    }

    /**
     * Writes the bundle, whole or not at all.
     *
     * @param passphrase of {@value #SHORTEST_PASSPHRASE} characters or more; {@code null} for a file that anyone can read
     * @throws InputException if consent and the unit's rules refuse it, the recording is not there or may name a person, or
     *     the file cannot be written
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is written then
     */
    public Exported export(Wanted wanted, char @Nullable [] passphrase, Path out, Progress progress) {
        if (passphrase != null) {
            requireLong(passphrase);
        }
        List<String> warnings = new ArrayList<>();
        CaseBundle bundle = bundle(wanted, warnings, progress);
        if (passphrase == null) {
            warnings.add("Anyone can read the file: give a passphrase where it leaves the unit.");
        }
        if (!bundle.voices().isEmpty()) {
            warnings.add("It holds voices, which identify whoever speaks.");
        }
        String sha256 = BundleWriter.write(bundle, passphrase, out, progress);
        workspace.change(stores -> stores.audit()
                .add(
                        wanted.media() ? "case.export_with_recording" : "case.export",
                        bundle.content().sheet().code(),
                        "",
                        sha256));
        return new Exported(out.toAbsolutePath(), sha256, warnings);
    }

    /** @throws InputException if it is too short to keep a file safe */
    public static void requireLong(char[] passphrase) {
        if (passphrase.length < SHORTEST_PASSPHRASE) {
            throw new InputException(
                    "the passphrase is too short to keep a file safe",
                    null,
                    "take " + SHORTEST_PASSPHRASE + " characters or more, such as five words in a row");
        }
    }

    private CaseBundle bundle(Wanted wanted, List<String> warnings, Progress progress) {
        CaseBundle without = workspace.read(stores -> {
            Access.require(stores, Permission.EXPORT_CASE, wanted.code());
            SurgicalCase one = stores.cases().get(wanted.code());
            refuseWhatIsHidden(stores, one.code());
            String warning = ConsentGate.require(stores, one, ConsentPurpose.ASSESSMENT);
            if (warning != null) {
                warnings.add(warning);
            }
            if (wanted.media()) {
                HideAreas.warn(stores, one.code(), warnings);
            }
            return content(stores, one);
        });
        if (!wanted.media()) {
            return without;
        }
        SurgicalCase one = workspace.read(stores -> stores.cases().get(wanted.code()));
        Recording found = new OpenRecording(workspace).locate(one, List.of(), progress.part(0, 0.1));
        refuseTags(found, wanted.acceptTags());
        return new CaseBundle(
                without.madeAt(),
                without.program(),
                without.content(),
                without.rubrics(),
                without.voices(),
                found.segments().stream().map(Segment::file).toList());
    }

    private static void refuseTags(Recording recording, boolean accepted) {
        for (Segment segment : recording.segments()) {
            if (!segment.identityTags().isEmpty() && !accepted) {
                throw new InputException(
                        "the recording has tags that may name a person, a place or a device: "
                                + String.join(", ", segment.identityTags()),
                        segment.file().toString(),
                        "hand out a neutral copy instead (sideport neutral-copy), or say that these tags may go with it"
                                + " (on the command line: --accept-tags)");
            }
        }
    }

    /** A bundle tells everything of a case: not for one who must not know all of it yet. */
    static void refuseWhatIsHidden(Stores stores, String code) {
        if (stores.caller() instanceof Caller.Person person
                && stores.assignments().isBlinded(code, person.code())) {
            throw new InputException(
                    "part of case " + code + " is hidden from you until you have marked it",
                    null,
                    "sign your marks first, or ask a programme director for the bundle");
        }
    }

    /** Others' marks go out with a director only: an assessor or a trainee may not have seen them yet. */
    static boolean goesOut(Caller caller, StoredRating rating) {
        return Access.directsOrIs(caller, rating.rating().assessor());
    }

    private CaseBundle content(Stores stores, SurgicalCase one) {
        String code = one.code();
        List<CommentThread> threads = stores.comments().threads(code, "");
        Map<String, Path> voices = new HashMap<>();
        for (CommentThread thread : threads) {
            Voice voice = thread.comment().voice();
            if (voice != null) {
                voices.put(voice.sha256(), voiceFile(voice));
            }
        }
        List<StoredRating> ratings = stores.ratings().ofCase(code).stream()
                .filter(r -> goesOut(stores.caller(), r))
                .toList();
        Map<String, String> rubrics = new LinkedHashMap<>();
        for (StoredRating rating : ratings) {
            rubrics.put(
                    CaseBundle.rubricKey(
                            rating.rating().rubric(), rating.rating().rubricVersion()),
                    rating.rubricJson());
        }
        CaseContent content = CaseParts.of(stores, one, ratings);
        return new CaseBundle(Instant.now().toString(), Program.VERSION, content, rubrics, voices, List.of());
    }

    private Path voiceFile(Voice voice) {
        Path file = workspace.voices().file(voice.sha256());
        if (!Files.isRegularFile(file)) {
            throw new InputException(
                    "the sound of a spoken comment is not there",
                    file.toString(),
                    "put it back from a copy of the workspace, or delete the comment");
        }
        return file;
    }
}
