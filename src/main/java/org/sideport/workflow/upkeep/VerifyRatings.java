package org.sideport.workflow.upkeep;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FileDigest;
import org.sideport.media.MediaException;
import org.sideport.model.AuditEvent;
import org.sideport.model.Progress;
import org.sideport.model.RatingSeal;
import org.sideport.model.RatingState;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.store.AuditStore;
import org.sideport.store.SealStore;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Compares signed ratings with what was signed. */
public final class VerifyRatings {

    private final Workspace workspace;

    public VerifyRatings(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * A signed rating and what differs.
     *
     * @param seal {@code null} if there is none
     * @param findings what may not differ
     * @param notes what may differ, but is said
     */
    public record Verified(
            long id,
            String caseCode,
            String assessor,
            boolean self,
            String rubric,
            String rubricVersion,
            RatingState state,
            @Nullable String signedAt,
            @Nullable Long amends,
            @Nullable String reason,
            @Nullable RatingSeal seal,
            List<String> findings,
            List<String> notes) {

        public Verified {
            findings = List.copyOf(findings);
            notes = List.copyOf(notes);
        }

        public boolean isAsSigned() {
            return findings.isEmpty();
        }
    }

    /**
     * All signed and superseded ratings of a case, oldest first; drafts are left out.
     *
     * @param recordings true to read the recording's files too
     */
    public List<Verified> ofCase(String caseCode, boolean recordings, Progress progress) {
        Access.require(workspace, Permission.SEE_MARKS, caseCode);
        record Read(List<Verified> verified, @Nullable Recording recording) {}
        Read read = workspace.read(stores -> new Read(
                stores.ratings().ofCase(caseCode).stream()
                        .filter(r -> r.state() != RatingState.DRAFT)
                        .map(r -> verify(stores, r))
                        .toList(),
                stores.cases().get(caseCode).recording()));
        Recording recording = read.recording();
        if (!recordings || recording == null) {
            return read.verified();
        }
        List<String> files = differingFiles(recording, progress);
        return read.verified().stream().map(v -> with(v, files)).toList();
    }

    /**
     * What there is to be said of all signed ratings, and what it was found from.
     *
     * @param lost lines of the audit trail that tell of a signature which the store does not hold, though it holds the case
     */
    record Signed(List<StoredRating> ratings, List<Verified> verified, List<AuditEvent> lost) {}

    /** As {@link #ofCase}, of all cases, without the recordings' files. */
    static Signed all(Stores stores) {
        List<AuditEvent> signatures =
                stores.audit().all().stream().filter(AuditStore::isSignature).toList();
        List<StoredRating> ratings = stores.ratings().all();
        Set<String> witnessed = new HashSet<>();
        signatures.forEach(e -> witnessed.add(firstWord(e.after())));
        Set<String> held = new HashSet<>(stores.seals().digests().values());
        return new Signed(
                ratings,
                ratings.stream()
                        .filter(r -> r.state() != RatingState.DRAFT)
                        .map(r -> witnessed(verify(stores, r), witnessed))
                        .toList(),
                signatures.stream()
                        .filter(e -> !held.contains(firstWord(e.after()))
                                && stores.cases().exists(e.subject()))
                        .toList());
    }

    private static String firstWord(String text) {
        int blank = text.indexOf(' ');
        return blank < 0 ? text : text.substring(0, blank);
    }

    /** Whoever alters a rating and its seal to fit would have to alter the audit trail too, which is chained. */
    private static Verified witnessed(Verified one, Set<String> witnessed) {
        RatingSeal seal = one.seal();
        return seal == null || witnessed.contains(seal.digest())
                ? one
                : with(
                        one,
                        List.of("the audit trail does not know the digest of this rating: it was put there otherwise"));
    }

    private static Verified verify(Stores stores, StoredRating rating) {
        List<String> findings = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        RatingSeal seal = stores.seals().find(rating.id()).orElse(null);
        for (SealStore.Difference difference : stores.seals().compare(rating)) {
            switch (difference) {
                case UNSEALED -> findings.add("the rating is signed, but its digest is missing");
                case UNKNOWN_FORM ->
                    notes.add("the digest is of a newer form; compare it with the Sideport that made it");
                case RATING -> findings.add("the rating was altered after it was signed");
                case RUBRIC -> findings.add("the text of the rubric was altered after it was signed");
                case RECORDINGS -> findings.add("the case has other recording files than when it was signed");
                case TAGGING ->
                    notes.add("the tags of " + (seal == null ? "" : seal.taggingOf())
                            + " were changed since it was signed");
            }
        }
        if (seal != null && seal.late()) {
            notes.add("signed before digests were kept: its digest was made later, and covers what came after that");
        }
        return new Verified(
                rating.id(),
                rating.caseCode(),
                rating.rating().assessor(),
                rating.rating().self(),
                rating.rating().rubric(),
                rating.rating().rubricVersion(),
                rating.state(),
                rating.signedAt() == null ? null : rating.signedAt().toString(),
                rating.amends(),
                rating.reason(),
                seal,
                findings,
                notes);
    }

    private static List<String> differingFiles(Recording recording, Progress progress) {
        List<String> found = new ArrayList<>();
        List<Segment> segments = recording.segments();
        for (int i = 0; i < segments.size(); i++) {
            String problem =
                    problem(segments.get(i), progress.part((double) i / segments.size(), (i + 1.0) / segments.size()));
            if (problem != null) {
                found.add(problem);
            }
        }
        return found;
    }

    /** What is wrong with a recording's file, or {@code null}. */
    static @Nullable String problem(Segment segment, Progress progress) {
        Path file = segment.file();
        if (!Files.isRegularFile(file)) {
            return "the recording file " + file + " is not where it was";
        }
        try {
            return FileDigest.sha256(file, progress).equals(segment.sha256())
                    ? null
                    : "the recording file " + file + " has been changed";
        } catch (MediaException e) {
            return e.getMessage();
        }
    }

    private static Verified with(Verified one, List<String> more) {
        List<String> findings = new ArrayList<>(one.findings());
        findings.addAll(more);
        return new Verified(
                one.id(),
                one.caseCode(),
                one.assessor(),
                one.self(),
                one.rubric(),
                one.rubricVersion(),
                one.state(),
                one.signedAt(),
                one.amends(),
                one.reason(),
                one.seal(),
                findings,
                one.notes());
    }
}
