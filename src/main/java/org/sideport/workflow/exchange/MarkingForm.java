package org.sideport.workflow.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
import org.sideport.model.SurgicalCase;
import org.sideport.report.form.FormFault;
import org.sideport.report.form.FormHead;
import org.sideport.report.form.FormReader;
import org.sideport.report.form.FormWriter;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.MarkCase.Rated;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentGate;

/** Marking without the program: a form goes out as a workbook and comes back as a draft, never as signed marks. */
public final class MarkingForm {

    private final Workspace workspace;

    public MarkingForm(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * Writes the form of a rubric for one case and one assessor.
     *
     * @param language language tag; the rubric's own words where it has no translation
     * @return what must be said about the consent; empty if nothing
     * @throws InputException if there is no such case or rubric, the case may not be marked by this person, or the file
     *     cannot be written
     */
    public String write(String rubricId, String caseCode, String assessor, boolean self, String language, Path out) {
        String who = Codes.require("an assessor", assessor);
        Vocabularies.RubricText text = new Vocabularies(workspace).rubric(rubricId);
        String[] code = new String[1];
        String warning = workspace.read(stores -> {
            Access.requireOwn(stores.caller(), who);
            Access.require(stores, self ? Permission.MARK_ONESELF : Permission.MARK, caseCode);
            SurgicalCase marked = stores.cases().get(caseCode);
            MarkCase.requireFit(marked, who, self, text.rubric());
            code[0] = marked.code();
            String said = ConsentGate.require(stores, marked, ConsentPurpose.ASSESSMENT);
            return said == null ? "" : said;
        });
        FormWriter.write(
                new FormHead(
                        text.rubric().id(),
                        text.rubric().version(),
                        Sha256.of(text.json()),
                        code[0],
                        who,
                        self,
                        language),
                text.rubric(),
                out);
        return warning;
    }

    /**
     * What came of a form.
     *
     * @param rated the draft; {@code null} if there is a fault, and then nothing was stored
     * @param rubric that it was made of
     */
    public record Taken(
            FormHead head, @Nullable Rated rated, @Nullable Rating rating, Rubric rubric, List<FormFault> faults) {

        public Taken {
            faults = List.copyOf(faults);
        }
    }

    /**
     * Reads a filled-in form and stores its marks as the assessor's draft.
     *
     * @param replace true to put them in the place of a draft that says something else
     * @throws OtherDraft if such a draft is there
     * @throws InputException if the file is no form, or its rubric has changed
     */
    public Taken take(Path file, boolean replace) {
        Rubric[] rubric = new Rubric[1];
        FormReader.Read read = FormReader.read(file, head -> {
            rubric[0] = rubricOf(head, file);
            return rubric[0];
        });
        FormHead head = read.head();
        Rating rating = read.rating();
        Access.requireOwn(workspace.caller(), head.assessor());
        Access.require(workspace, head.self() ? Permission.MARK_ONESELF : Permission.MARK, head.caseCode());
        if (rating == null) {
            return new Taken(head, null, null, rubric[0], read.faults());
        }
        refuseOtherDraft(head, rating, replace);
        Rated rated = new MarkCase(workspace).rate(head.caseCode(), rating);
        return new Taken(head, rated, rating, rubric[0], List.of());
    }

    private Rubric rubricOf(FormHead head, Path file) {
        Vocabularies.RubricText now = new Vocabularies(workspace).rubric(head.rubric());
        if (!now.rubric().version().equals(head.rubricVersion())) {
            throw new InputException(
                    "the form was made of version " + head.rubricVersion() + " of rubric " + head.rubric()
                            + ", which is now " + now.rubric().version(),
                    file.toString(),
                    "make a new form and copy the marks over; marks do not carry over between versions");
        }
        if (!Sha256.of(now.json()).equals(head.rubricSha256())) {
            throw new InputException(
                    "the form was made of another text of rubric " + head.rubric() + " " + head.rubricVersion(),
                    file.toString(),
                    "make a new form here and copy the marks over");
        }
        return now.rubric();
    }

    /** A draft that says something else is there, and nothing was said about replacing it. */
    public static final class OtherDraft extends InputException {

        private static final long serialVersionUID = 1L;

        private OtherDraft(FormHead head) {
            super(
                    head.assessor() + " has a draft for " + head.caseCode() + " already that says something else",
                    null,
                    "add --replace to put the form's marks in its place");
        }
    }

    private void refuseOtherDraft(FormHead head, Rating rating, boolean replace) {
        Optional<StoredRating> draft = workspace.read(stores ->
                stores.ratings().find(head.caseCode(), head.rubric(), head.assessor(), head.self(), RatingState.DRAFT));
        if (draft.isPresent() && !draft.get().rating().equals(rating) && !replace) {
            throw new OtherDraft(head);
        }
    }
}
