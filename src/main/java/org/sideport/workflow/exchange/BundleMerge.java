package org.sideport.workflow.exchange;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CaseChange;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Cut;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.Measurement;
import org.sideport.model.Plural;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.report.bundle.BundleReader;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.Parts;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.Descriptors;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.consent.ConsentGate;
import org.sideport.workflow.exchange.ImportPlan.Line;
import org.sideport.workflow.exchange.ImportPlan.State;
import org.sideport.workflow.exchange.ImportPlan.What;

/** One bundle against one store: the same walk says what would happen, and does it. For one use. */
final class BundleMerge {

    private final Workspace workspace;
    private final Stores stores;
    private final BundleReader bundle;
    private final CaseContent content;
    private final ImportChoice choice;
    private final @Nullable String sha256;
    private final String code;
    private final BundlePeople people;
    private final Procedure procedure;
    private final boolean known;
    private final List<Line> lines = new ArrayList<>();
    private final List<ImportRemark> questions = new ArrayList<>();
    private final List<ImportRemark> notes = new ArrayList<>();

    /** @param sha256 of the bundle's file to take it in; {@code null} to look only */
    BundleMerge(Workspace workspace, Stores stores, BundleReader bundle, ImportChoice choice, @Nullable String sha256) {
        this.workspace = workspace;
        this.stores = stores;
        this.bundle = bundle;
        this.content = bundle.content();
        this.choice = choice;
        this.sha256 = sha256;
        CaseContent.Sheet sheet = content.sheet();
        String as = choice.caseAs();
        code = Codes.require("a case", as == null ? sheet.code() : as);
        people = new BundlePeople(content, choice);
        procedure = new Vocabularies(workspace).procedure(sheet.procedure());
        known = stores.cases().exists(code);
    }

    private boolean writes() {
        return sha256 != null;
    }

    /**
     * @throws InputException if it cannot be a case here
     */
    ImportPlan run() {
        try {
            SurgicalCase theirs = theirCase();
            people.ask(stores, known, questions, notes);
            if (known) {
                sheet(stores.cases().get(code), theirs);
            } else {
                line(What.CASE, code, State.NEW, theirs.trainee() + ", " + theirs.date());
                if (theirs.recording() != null) {
                    line(What.RECORDING, code, State.NEW, bundle.hasMedia() ? "" : "its files do not come with it");
                }
                if (writes()) {
                    stores.cases().add(theirs);
                }
            }
            hiddenAreas();
            cuts();
            taggings(theirs.recording());
            comments();
            measurements();
            new RatingMerge(stores, bundle, theirs, people, choice.theirs(), known, sha256, this::line).run();
            tellOfConsent(theirs);
        } catch (IllegalArgumentException | java.time.DateTimeException e) {
            throw new InputException(
                    "what the bundle holds cannot be: " + e.getMessage(),
                    null,
                    "nothing was taken in; ask whoever made the bundle for another",
                    e);
        }
        return new ImportPlan(
                code,
                people.trainee(),
                !known,
                people.list(stores),
                lines,
                questions,
                notes,
                bundle.mediaBytes(),
                bundle.madeAt());
    }

    private void line(What what, String name, State state, String detail) {
        lines.add(new Line(what, name, state, detail));
    }

    /** Looks whether this is here, says so, and tells whether it is to be written. */
    private boolean decide(What what, String name, boolean here, boolean same, String detail) {
        State state = !here ? State.NEW : same ? State.SAME : choice.theirs() ? State.REPLACED : State.KEPT;
        line(what, name, state, state.isConflict() ? detail : "");
        return writes() && (state == State.NEW || state == State.REPLACED);
    }

    private SurgicalCase theirCase() {
        CaseContent.Sheet sheet = content.sheet();
        Consent consent = Parts.consent(sheet.consent());
        if (!consent.recordedBy().isEmpty()) {
            Codes.require("the person who recorded the consent", consent.recordedBy());
        }
        List<Segment> segments = new ArrayList<>();
        for (CaseContent.File file : content.files()) {
            segments.add(Parts.segment(file, place(segments.size(), file)));
        }
        return new SurgicalCase(
                code,
                people.trainee(),
                LocalDate.parse(sheet.date()),
                procedure.id(),
                Descriptors.check(procedure, sheet.descriptors()),
                segments.isEmpty() ? null : new Recording(segments),
                consent,
                Parts.day(sheet.reviewBy()));
    }

    private Path place(int index, CaseContent.File file) {
        return workspace
                .dir()
                .resolve("recordings")
                .resolve(code)
                .resolve((index + 1) + "." + file.ending().toLowerCase(Locale.ROOT));
    }

    // ---- the sheet of a case that is here

    private void sheet(SurgicalCase ours, SurgicalCase theirs) {
        refuseAnother(ours, theirs);
        Map<String, String> descriptors = new LinkedHashMap<>(ours.descriptors());
        List<CaseChange> changes = new ArrayList<>();
        TreeSet<String> names = new TreeSet<>(theirs.descriptors().keySet());
        for (String name : names) {
            String here = ours.descriptors().getOrDefault(name, "");
            String there = theirs.descriptors().getOrDefault(name, "");
            if (decide(
                    What.DESCRIPTOR,
                    name,
                    !here.isEmpty(),
                    here.equals(there),
                    "here " + here + ", in the bundle " + there)) {
                descriptors.put(name, there);
                changes.add(new CaseChange(Instant.now(), choice.by(), name, here, there));
            }
        }
        // what a patient agreed to is for a person to record, never for a file to replace
        boolean same = ours.consent().equals(theirs.consent());
        line(
                What.CONSENT,
                code,
                same ? State.SAME : State.KEPT,
                same
                        ? ""
                        : "here " + ours.consent().text() + ", in the bundle "
                                + theirs.consent().text());
        Recording recording = ours.recording();
        boolean comes = recording == null && theirs.recording() != null;
        if (comes) {
            notes.add(ImportRemark.of(
                    ImportRemark.Kind.NO_RECORDING,
                    "Case " + code + " has no recording here; the bundle's is not added to a case that is here.",
                    code));
        }
        if (recording != null) {
            boolean missing = recording.segments().stream().anyMatch(s -> !java.nio.file.Files.isRegularFile(s.file()));
            boolean brings = missing && bundle.hasMedia();
            line(What.RECORDING, code, brings ? State.NEW : State.SAME, brings ? "was missing here" : "");
            if (brings && writes()) {
                stores.cases()
                        .moveSegments(
                                code, Objects.requireNonNull(theirs.recording()).segments());
            }
        }
        if (!changes.isEmpty()) {
            stores.cases()
                    .update(
                            new SurgicalCase(
                                    ours.code(),
                                    ours.trainee(),
                                    ours.date(),
                                    ours.procedure(),
                                    descriptors,
                                    ours.recording(),
                                    ours.consent(),
                                    ours.reviewBy()),
                            changes);
        }
    }

    private void refuseAnother(SurgicalCase ours, SurgicalCase theirs) {
        List<String> differs = new ArrayList<>();
        boolean otherTrainee = !ours.trainee().equals(theirs.trainee());
        if (!ours.date().equals(theirs.date())) {
            differs.add("on " + ours.date() + ", not " + theirs.date());
        }
        if (!ours.procedure().equals(theirs.procedure())) {
            differs.add(ours.procedure() + ", not " + theirs.procedure());
        }
        if (ours.recording() != null
                && theirs.recording() != null
                && !digests(ours.recording()).equals(digests(theirs.recording()))) {
            differs.add("with another recording");
        }
        if (otherTrainee && differs.isEmpty() && choice.traineeAs() == null && !writes()) {
            // somebody may have another code here, as when the bundle was taken in before
            questions.add(ImportRemark.of(
                    ImportRemark.Kind.OTHER_TRAINEE,
                    "Trainee " + theirs.trainee() + " of the bundle, or another operation? The case " + code
                            + " here is of " + ours.trainee() + ". If that is the same person, say --trainee-as "
                            + ours.trainee() + "; if not, take the bundle in under another code (--case-as).",
                    theirs.trainee(),
                    code,
                    ours.trainee()));
            return;
        }
        if (otherTrainee) {
            differs.add(0, "trainee " + ours.trainee() + ", not " + theirs.trainee());
        }
        if (!differs.isEmpty()) {
            throw new InputException(
                    "the case " + code + " here is another one: " + String.join(", ", differs),
                    null,
                    "take the bundle in under another code (--case-as), or say who the trainee is here (--trainee-as)");
        }
    }

    private static List<String> digests(Recording recording) {
        return recording.segments().stream().map(Segment::sha256).toList();
    }

    private void tellOfConsent(SurgicalCase theirs) {
        SurgicalCase now = known ? stores.cases().get(code) : theirs;
        try {
            String warning = ConsentGate.require(stores, now, ConsentPurpose.ASSESSMENT);
            if (warning != null) {
                notes.add(ImportRemark.of(ImportRemark.Kind.NO_CONSENT, warning, code));
            }
        } catch (InputException refused) {
            questions.add(ImportRemark.of(ImportRemark.Kind.NOT_ALLOWED, String.valueOf(refused.getMessage()), code));
        }
    }

    /** What either side hides stays hidden. */
    private void hiddenAreas() {
        List<MaskArea> here = known ? stores.hiddenAreas().of(code) : List.of();
        Set<MaskArea> all = new LinkedHashSet<>(here);
        for (CaseContent.AreaPart part : content.hiddenAreas()) {
            MaskArea theirs = Parts.area(part);
            line(What.HIDDEN_AREA, theirs.text(), all.add(theirs) ? State.NEW : State.SAME, "");
        }
        if (writes() && all.size() > here.size()) {
            stores.hiddenAreas().replace(code, List.copyOf(all));
        }
    }

    // ---- what people added

    private void cuts() {
        List<Cut> here = known ? stores.cuts().of(code) : List.of();
        for (CaseContent.CutPart part : content.cuts()) {
            String by = part.decidedBy().isEmpty() ? "" : people.here(part.decidedBy());
            Cut theirs = Parts.cut(part, by);
            Optional<Cut> ours = here.stream()
                    .filter(c -> c.from().equals(theirs.from()) && c.kind() == theirs.kind())
                    .findFirst();
            String name = theirs.from().toClockText();
            if (decide(
                    What.CUT,
                    name,
                    ours.isPresent(),
                    ours.isPresent() && ours.get().equals(theirs),
                    "decided otherwise")) {
                stores.cuts().save(code, theirs);
            }
        }
    }

    private void taggings(@Nullable Recording recording) {
        for (CaseContent.TaggingPart part : content.taggings()) {
            Tagging theirs = Parts.tagging(part);
            BundleTerms.require(procedure, theirs, recording);
            String annotator = people.here(part.annotator());
            Tagging ours = known ? stores.taggings().find(code, annotator).orElse(null) : null;
            if (decide(
                    What.TAGGING,
                    annotator,
                    ours != null,
                    theirs.equals(ours),
                    ours == null
                            ? ""
                            : "here " + Plural.of(ours.spans().size(), "span") + " and "
                                    + Plural.of(ours.events().size(), "event") + ", in the bundle "
                                    + theirs.spans().size() + " and "
                                    + theirs.events().size())) {
                stores.taggings().save(code, annotator, theirs, Parts.confirmed(part), Set.of());
            }
        }
    }

    private void comments() {
        for (CaseContent.CommentPart part : content.comments()) {
            Comment theirs = Parts.comment(part, people.here(part.author()));
            Comment ours = stores.comments().find(theirs.id()).orElse(null);
            String name = theirs.author() + " at " + theirs.from().toClockText();
            requireOfThisCase(ours != null, theirs.id(), name);
            if (decide(What.COMMENT, name, ours != null, theirs.equals(ours), "says something else")) {
                stores.comments().save(code, theirs);
            }
            for (CaseContent.ReplyPart reply : part.replies()) {
                CommentReply theirReply = Parts.reply(reply, theirs.id(), people.here(reply.author()));
                CommentReply ourReply =
                        stores.comments().findReply(theirReply.id()).orElse(null);
                if (ourReply != null && !ourReply.comment().equals(theirReply.comment())) {
                    throw new IllegalArgumentException("an answer of another comment has the same id");
                }
                if (decide(
                        What.ANSWER,
                        theirReply.author() + " to " + name,
                        ourReply != null,
                        theirReply.equals(ourReply),
                        "says something else")) {
                    stores.comments().save(code, theirReply);
                }
            }
        }
    }

    /** An id that is here at another case would let a bundle change that case. */
    private void requireOfThisCase(boolean here, String id, String name) {
        boolean ofThis = known
                && stores.comments().threads(code, "").stream()
                        .anyMatch(t -> t.comment().id().equals(id));
        if (here && !ofThis) {
            throw new InputException(
                    "the comment of " + name + " has the id of a comment on another case",
                    null,
                    "was this case taken in before, under another code? then take it in under that one (--case-as)");
        }
    }

    private void measurements() {
        List<Measurement> here = known ? stores.measurements().of(code) : List.of();
        for (CaseContent.MeasurementPart part : content.measurements()) {
            Measurement theirs = Parts.measurement(part, people.here(part.author()));
            Measurement ours = here.stream()
                    .filter(m -> m.id().equals(theirs.id()))
                    .findFirst()
                    .orElse(null);
            if (ours == null && stores.measurements().find(theirs.id()).isPresent()) {
                throw new InputException(
                        "a measurement has the id of one on another case",
                        null,
                        "was this case taken in before, under another code? then take it in under that one"
                                + " (--case-as)");
            }
            String name = theirs.author() + ", " + theirs.shape().id() + " at "
                    + theirs.frame().toClockText();
            if (decide(What.MEASUREMENT, name, ours != null, theirs.equals(ours), "measured otherwise")) {
                if (ours != null) {
                    stores.measurements().delete(ours);
                }
                stores.measurements().add(code, theirs);
            }
        }
    }
}
