package org.sideport.workflow;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.stats.Outcome;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Finds standards from what the store holds, and keeps those that people agreed. The program agrees nothing. */
public final class Standards {

    private static final int LONGEST_NOTE = 4000;

    private final Workspace workspace;
    private final Clock clock;
    private final Vocabularies vocabularies;

    public Standards(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
        this.vocabularies = new Vocabularies(workspace);
    }

    /** All standards, superseded ones too, by rubric, version and number. */
    public List<Standard> all() {
        Access.require(workspace, Permission.JUDGE_STANDARD);
        return workspace.read(stores -> stores.standards().all());
    }

    /**
     * @param id the whole id, or enough of its beginning to tell it
     * @throws InputException if none or several begin so
     */
    public Standard get(String id) {
        List<Standard> found =
                all().stream().filter(s -> s.id().startsWith(id.strip())).toList();
        if (found.size() != 1 || id.isBlank()) {
            throw new InputException(
                    found.isEmpty() ? "there is no standard " + id : "several standards begin with " + id,
                    null,
                    "see them with: sideport standard list");
        }
        return found.get(0);
    }

    /**
     * The cut as it would be. Nothing is kept.
     *
     * @param version of the rubric; {@code null} for the one in use now
     * @return refused, in plain words, where the data are too few or unfit
     * @throws InputException if the basis names what is not there
     */
    public Outcome<CutProposal> propose(String rubric, @Nullable String version, CutBasis basis) {
        Access.require(workspace, Permission.SET_STANDARD);
        return workspace.read(stores -> compute(stores, rubric, version, basis));
    }

    private Outcome<CutProposal> compute(Stores stores, String id, @Nullable String version, CutBasis basis) {
        Rubric rubric = SignedMarks.rubric(stores, vocabularies, id, versionOf(stores, version, basis))
                .rubric();
        return new CutComputing(stores, rubric, vocabularies).of(basis);
    }

    /** A round was judged with one version; it cannot be read with another. */
    private static @Nullable String versionOf(Stores stores, @Nullable String version, CutBasis basis) {
        return basis instanceof CutBasis.Judged judged
                ? stores.rounds()
                        .find(judged.roundId())
                        .map(round -> round.rubricVersion())
                        .orElse(version)
                : version;
    }

    /**
     * Keeps a proposal as the standard that people agreed; the one before it is superseded.
     *
     * @param agreedBy codes of those who agreed, at least one
     * @param note why, in a few words; may be empty
     * @throws InputException if nobody agreed, the day lies ahead, or the data have changed since the proposal
     */
    public Standard agree(CutProposal proposal, List<String> agreedBy, LocalDate agreedOn, String note) {
        Access.require(workspace, Permission.SET_STANDARD);
        List<String> persons = persons(agreedBy);
        requireDay(agreedOn, clock);
        String why = text("the note", note, LONGEST_NOTE);
        return workspace.write(stores -> {
            Vocabularies.RubricText text =
                    SignedMarks.rubric(stores, vocabularies, proposal.rubric(), proposal.rubricVersion());
            Outcome<CutProposal> now = new CutComputing(stores, text.rubric(), vocabularies).of(proposal.basis());
            if (!(now instanceof Outcome.Found<CutProposal> found)
                    || !found.value().dataDigest().equals(proposal.dataDigest())
                    || found.value().share() != proposal.share()) {
                throw new InputException(
                        "the marks have changed since the cut was computed", null, "compute it again and look at it");
            }
            stores.ratings().keepRubric(proposal.rubric(), proposal.rubricVersion(), text.json());
            List<Standard> earlier = stores.standards().all().stream()
                    .filter(s -> s.rubric().equals(proposal.rubric())
                            && s.rubricVersion().equals(proposal.rubricVersion()))
                    .toList();
            Standard standard = new Standard(
                    UUID.randomUUID().toString(),
                    proposal.rubric(),
                    proposal.rubricVersion(),
                    earlier.size() + 1,
                    proposal.basis().method(),
                    proposal.share(),
                    proposal.standardError(),
                    proposal.lower(),
                    proposal.upper(),
                    proposal.level(),
                    proposal.n(),
                    agreedOn,
                    persons,
                    proposal.described(),
                    proposal.warnings(),
                    proposal.dataDigest(),
                    why,
                    stores.caller().code(),
                    Instant.now(clock),
                    null);
            String before = earlier.stream()
                    .filter(Standard::inForce)
                    .map(Standards::line)
                    .findFirst()
                    .orElse("");
            stores.standards().add(standard);
            stores.audit()
                    .add(
                            "standard.agree",
                            standard.rubric() + " " + standard.rubricVersion(),
                            before,
                            line(standard) + " data " + standard.dataDigest() + " by "
                                    + String.join(" ", standard.agreedBy()));
            return standard;
        });
    }

    private static String line(Standard standard) {
        return String.format(
                Locale.ROOT,
                "no %d %s %.6f",
                standard.number(),
                standard.method().id(),
                standard.share());
    }

    /** Codes without repeats, at least one. */
    static List<String> persons(List<String> codes) {
        List<String> persons = new ArrayList<>();
        for (String code : codes) {
            String person = Codes.require("a person", code);
            if (!persons.contains(person)) {
                persons.add(person);
            }
        }
        if (persons.isEmpty()) {
            throw new InputException("who agreed is not said", null, "name at least one person by code");
        }
        return persons;
    }

    static void requireDay(LocalDate day, Clock clock) {
        if (day.isAfter(LocalDate.now(clock))) {
            throw new InputException(day + " lies ahead", null, "write the day on which it was agreed");
        }
    }

    static String text(String what, String given, int longest) {
        String text = given.strip();
        if (text.length() > longest) {
            throw new InputException(
                    what + " has " + text.length() + " letters", null, "keep it under " + longest + " letters");
        }
        return text;
    }
}
