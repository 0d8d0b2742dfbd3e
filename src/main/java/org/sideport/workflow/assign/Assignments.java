package org.sideport.workflow.assign;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Assignment.State;
import org.sideport.model.Caller;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentDoubts;
import org.sideport.workflow.consent.ConsentGate;

/** Gives cases to assessors to mark, shows what is open, late and done, and takes cases back. */
public final class Assignments {

    private final Workspace workspace;
    private final Clock clock;
    private final Labels labels = new Labels();

    public Assignments(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /**
     * How cases are given.
     *
     * @param hidden what the assessor may not learn before the marks are signed
     * @param due {@code null} for no day
     */
    public record Terms(
            Purpose purpose, Set<Hidden> hidden, @Nullable LocalDate due) {
        public Terms {
            hidden = Set.copyOf(hidden);
        }
    }

    /**
     * A case that an assessor is to mark.
     *
     * @param code what the assessor calls it: its label where something is hidden
     * @param begun true if there are draft marks
     */
    public record Work(Assignment assignment, String code, String procedure, boolean begun, boolean late) {}

    /**
     * Gives cases to an assessor: all of them or, where one cannot be given, none. What must be said of their consent tells
     * {@link ConsentDoubts#ofGiven}.
     *
     * @throws InputException if there is no such case or assessor, it may not be marked for want of consent, it is the
     *     assessor's own operation, it was given or marked already, or the day is in the past
     */
    public List<Assignment> give(List<String> caseCodes, String assessor, Terms terms) {
        Access.require(workspace, Permission.ASSIGN);
        requireDay(terms);
        String who = Codes.require("an assessor", assessor);
        return workspace.write(stores ->
                caseCodes.stream().map(code -> give(stores, code, who, terms)).toList());
    }

    /** Nobody can keep a day that is over; today can be kept. */
    private void requireDay(Terms terms) {
        LocalDate due = terms.due();
        LocalDate today = LocalDate.now(clock);
        if (due != null && due.isBefore(today)) {
            throw new InputException(
                    "the day " + due + " by which it should be marked is in the past",
                    null,
                    "choose today (" + today + ") or a later day, or none");
        }
    }

    Assignment give(Stores stores, String caseCode, String who, Terms terms) {
        SurgicalCase given = stores.cases().get(caseCode);
        List<String> listed = stores.assignments().assessors();
        if (stores.people().any() && !listed.contains(who)) {
            throw new InputException(
                    who + " is not among the assessors of this workspace",
                    null,
                    listed.isEmpty()
                            ? "add " + who + " as an assessor first (Programme, People, or people add)"
                            : "known are " + String.join(", ", listed) + "; others are added under Programme, People");
        }
        if (!given.hidden().isEmpty()) {
            throw blindYourself(caseCode);
        }
        // whoever gives it learns what the assessor would be told
        ConsentGate.require(stores, given, ConsentPurpose.ASSESSMENT);
        if (given.trainee().equals(who)) {
            throw new InputException(who + " is the trainee of " + given.code(), null, "give it to somebody else");
        }
        List<StoredRating> own = stores.ratings().ofCase(given.code()).stream()
                .filter(r -> r.rating().assessor().equals(who) && !r.rating().self())
                .toList();
        boolean blind = !terms.hidden().isEmpty();
        if (own.stream().anyMatch(r -> r.state() == RatingState.SIGNED) || (blind && !own.isEmpty())) {
            throw new InputException(
                    who + " has marked " + given.code() + " already",
                    null,
                    "give it to somebody else" + (blind ? ", or hide nothing" : ""));
        }
        if (blind && stores.cases().addedBy(given.code()).equals(who)) {
            throw new InputException(
                    who + " took " + given.code() + " in and knows whose it is",
                    null,
                    "give it to somebody else, or hide nothing");
        }
        if (terms.purpose() == Purpose.PRACTICE && !stores.cohort().practice().isReference(given.code())) {
            throw new InputException(
                    given.code() + " has no reference marks to practise on",
                    null,
                    "enter them first: sideport calibrate reference");
        }
        Assignment added = new Assignment(
                UUID.randomUUID().toString(),
                given.code(),
                who,
                terms.purpose(),
                labels.draw(stores),
                terms.hidden(),
                State.OPEN,
                stores.caller().code(),
                clock.instant(),
                terms.due(),
                null);
        stores.assignments().add(added);
        stores.audit()
                .add(
                        "assignment.give",
                        given.code(),
                        "",
                        who + " " + terms.purpose().id() + " " + Hidden.text(terms.hidden()));
        return added;
    }

    static InputException blindYourself(String caseCode) {
        return new InputException(
                "you mark " + caseCode + " blind yourself", null, "let another director see to this case");
    }

    /** All assignments, the oldest first, for who directs. What one marks blind oneself stands under its label. */
    public List<Assignment> all() {
        Access.require(workspace, Permission.ASSIGN);
        return workspace.read(stores -> stores.assignments().all());
    }

    /** True if somebody of this code can be given cases and the caller may see which. */
    public boolean mayHave(String assessor) {
        return Access.may(workspace.caller(), Permission.MARK)
                && (!(workspace.caller() instanceof Caller.Person person)
                        || person.code().equals(assessor));
    }

    /**
     * What an assessor has to mark and has marked: the open ones first, each group by label, which tells no order.
     *
     * @throws InputException if somebody who signed in asks for the work of another
     */
    public List<Work> mine(String assessor) {
        String who = Codes.require("an assessor", assessor);
        Access.require(workspace, Permission.MARK);
        if (workspace.caller() instanceof Caller.Person person && !person.code().equals(who)) {
            Access.require(workspace, Permission.ASSIGN);
            throw new InputException(
                    "the work of " + who + " is for " + who, null, "directors see it with: sideport assign list");
        }
        LocalDate today = LocalDate.now(clock);
        return workspace.read(stores -> {
            List<Work> open = new ArrayList<>();
            List<Work> done = new ArrayList<>();
            for (Assignment one : stores.assignments().of(who)) {
                if (one.state() != State.WITHDRAWN) {
                    (one.state() == State.OPEN ? open : done).add(work(stores, one, today));
                }
            }
            open.addAll(done);
            return open;
        });
    }

    private static Work work(Stores stores, Assignment one, LocalDate today) {
        String code = one.state() == State.OPEN ? one.shownCode() : one.caseCode();
        boolean begun = stores.ratings().ofCase(code).stream()
                .anyMatch(r -> r.rating().assessor().equals(one.assessor())
                        && !r.rating().self()
                        && r.state() == RatingState.DRAFT);
        return new Work(one, code, stores.cases().get(code).procedure(), begun, one.isLate(today));
    }

    /**
     * Takes a case back that has not been marked yet. Marks begun stay a draft.
     *
     * @param idOrLabel of the assignment
     * @throws InputException if there is none, or it is done
     */
    public Assignment withdraw(String idOrLabel) {
        Access.require(workspace, Permission.ASSIGN);
        return workspace.write(stores -> {
            Assignment taken = stores.assignments()
                    .find(idOrLabel.strip())
                    .orElseThrow(() -> new InputException(
                            "there is no assignment " + idOrLabel, null, "list them with: sideport assign list"));
            if (taken.state() != State.OPEN) {
                throw new InputException(
                        "the assignment is " + taken.state().id() + " already",
                        null,
                        "only open ones can be withdrawn");
            }
            stores.assignments().withdraw(taken);
            stores.audit()
                    .add(
                            "assignment.withdraw",
                            taken.caseCode(),
                            taken.assessor() + " " + taken.purpose().id(),
                            "");
            return taken;
        });
    }

    /**
     * Draws who marks as second among the cases that one assessor marks or has marked, and gives them. Cases that may not be
     * marked for want of consent are left out and counted.
     *
     * @param assessors among whom; empty for all that the unit lists or that mark already
     * @param share of the cases that are to be marked twice, above 0 and up to 1
     * @param give false to see the draw only
     * @throws InputException if there is nothing to draw, the share is out of its range, or the day is in the past
     */
    public SecondDraw.Drawn draw(List<String> assessors, double share, long seed, Terms terms, boolean give) {
        Access.require(workspace, Permission.ASSIGN);
        requireDay(terms);
        if (!(share > 0 && share <= 1)) {
            throw new InputException(
                    "a share of " + share + " of the cases", null, "write a share above 0 and up to 1, such as 0.25");
        }
        List<String> among = assessors.stream()
                .map(a -> Codes.require("an assessor", a))
                .distinct()
                .toList();
        return workspace.write(stores -> {
            MarkedBy marked = MarkedBy.of(stores, among);
            if (marked.once().isEmpty()) {
                throw new InputException(
                        "there is no case that just one assessor marks"
                                + (marked.leftOut().cases() == 0
                                        ? ""
                                        : "; " + marked.leftOut().sentence()),
                        null,
                        "give cases to first assessors first");
            }
            if (marked.assessors().size() < 2) {
                throw new InputException(
                        "there are fewer than two assessors to draw from",
                        null,
                        "add assessors first (Programme, People, or people add)");
            }
            int wanted = (int) Math.ceil(share * marked.cases());
            SecondDraw.Drawn drawn = SecondDraw.draw(
                            marked.once(),
                            marked.assessors(),
                            marked.links(),
                            marked.load(),
                            Math.max(0, wanted - marked.twice()),
                            seed)
                    .without(marked.leftOut());
            if (give) {
                drawn.pairs().forEach(pair -> give(stores, pair.caseCode(), pair.second(), terms));
            }
            return drawn;
        });
    }
}
