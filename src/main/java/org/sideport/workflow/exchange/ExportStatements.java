package org.sideport.workflow.exchange;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
import org.sideport.model.SurgicalCase;
import org.sideport.report.AtomicFile;
import org.sideport.report.bundle.RatingDigest;
import org.sideport.report.exchange.StatementSender;
import org.sideport.report.exchange.XapiStatements;
import org.sideport.rubric.Scorer;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.Program;
import org.sideport.workflow.StoredRubrics;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import tools.jackson.databind.node.ArrayNode;

/** Signed marks of a case as xAPI statements: into a file, or to a store that is named. */
public final class ExportStatements {

    private final Workspace workspace;

    public ExportStatements(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * @param statements number of them
     * @param dropped sentences about what does not go with them
     * @param warnings sentences that whoever hands them on must know
     */
    public record Exported(int statements, List<String> dropped, List<String> warnings) {
        public Exported {
            dropped = List.copyOf(dropped);
            warnings = List.copyOf(warnings);
        }
    }

    private record Ready(ArrayNode statements, String code, List<String> dropped, List<String> warnings) {}

    /**
     * Writes a file with an array of statements.
     *
     * @param home the unit's own address (IRI), under which its codes are known
     * @throws InputException if consent and the unit's rules refuse it, part of the case is hidden from the caller, nothing is
     *     signed that the caller may hand out, or the file cannot be written
     */
    public Exported write(String code, String home, Path out) {
        Ready ready = ready(code, home);
        String text = XapiStatements.text(ready.statements());
        AtomicFile.write(out, stream -> stream.write(text.getBytes(StandardCharsets.UTF_8)));
        audit("case.export_statements", ready.code(), Sha256.of(text));
        return done(ready);
    }

    /**
     * Sends the statements to a store.
     *
     * @param endpoint address of the store
     * @param login name and password with a colon between them; {@code null} to send none
     * @throws InputException as for {@link #write}, or if the store does not take them
     */
    public Exported send(String code, String home, String endpoint, @Nullable String login, Progress progress) {
        StatementSender sender = new StatementSender(endpoint, login);
        Ready ready = ready(code, home);
        sender.send(ready.statements(), progress);
        audit("case.send_statements", ready.code(), endpoint);
        return done(ready);
    }

    private void audit(String deed, String code, String after) {
        workspace.change(stores -> stores.audit().add(deed, code, "", after));
    }

    private static Exported done(Ready ready) {
        return new Exported(ready.statements().size(), ready.dropped(), ready.warnings());
    }

    private Ready ready(String code, String home) {
        requireIri(home);
        List<String> warnings = new ArrayList<>();
        List<String> dropped = new ArrayList<>();
        return workspace.read(stores -> {
            SurgicalCase one = OpenParts.require(stores, code, ConsentPurpose.ASSESSMENT, warnings);
            Access.require(stores, Permission.SEE_MARKS, code);
            String trainee = one.traineeOrNull();
            if (trainee == null) {
                throw new InputException(
                        "whose operation " + one.code() + " is, is hidden", null, "use the case's own code");
            }
            List<XapiStatements.Marks> marks = new ArrayList<>();
            int excused = 0;
            for (StoredRating rating : stores.ratings().ofCase(one.code(), Access.marks(stores.caller()))) {
                Instant signedAt = rating.signedAt();
                if (rating.state() == RatingState.SIGNED
                        && signedAt != null
                        && ExportCase.goesOut(stores.caller(), rating)) {
                    marks.add(marks(one, trainee, rating, signedAt));
                    excused += marks.get(marks.size() - 1).score().excusedCount();
                }
            }
            if (marks.isEmpty()) {
                throw new InputException(
                        "case " + one.code() + " has no signed marks that may go out from here",
                        null,
                        "sign them first; others' marks go out with a programme director only");
            }
            if (excused > 0) {
                dropped.add(
                        excused + (excused == 1 ? " item" : " items") + " left unmarked for a reason: no statement.");
            }
            dropped.add("Tags, comments, measurements and drafts do not go with it.");
            return new Ready(
                    XapiStatements.of(marks, home, "Sideport " + Program.VERSION), one.code(), dropped, warnings);
        });
    }

    private static XapiStatements.Marks marks(SurgicalCase one, String trainee, StoredRating rating, Instant signedAt) {
        Rubric rubric = StoredRubrics.of(rating);
        return new XapiStatements.Marks(
                one.code(),
                trainee,
                one.procedure(),
                rubric,
                rating.rating(),
                Scorer.score(rubric, rating.rating()),
                signedAt,
                RatingDigest.of(rating.rating(), rating.rubricJson(), signedAt.toString(), rating.reason()));
    }

    private static void requireIri(String home) {
        boolean fits;
        try {
            URI uri = URI.create(home);
            fits = uri.isAbsolute() && uri.getFragment() == null && uri.getQuery() == null && uri.getHost() != null;
        } catch (IllegalArgumentException e) {
            fits = false;
        }
        if (!fits) {
            throw new InputException(
                    "\"" + home + "\" is no address under which codes can be known",
                    null,
                    "give your unit's own, such as https://eyes.example/sideport");
        }
    }
}
