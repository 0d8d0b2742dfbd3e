package org.sideport.workflow;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Decision;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
import org.sideport.model.Standard;
import org.sideport.model.SurgicalCase;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/** Lays before a panel what is known of a trainee, and keeps what the panel decides. The program decides nothing. */
public final class Decisions {

    /** Coefficient Φ that is commonly asked for before decisions of weight (Downing 2004, Medical Education 38:1006). */
    public static final double USUAL_WISH = 0.80;

    /** Minutes of an assessor for one case, for planning; common practice, no source. */
    public static final double USUAL_MINUTES = 15;

    private static final int LONGEST_WORDING = 4000;

    private final Workspace workspace;
    private final Clock clock;
    private final Vocabularies vocabularies;

    public Decisions(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * What to show.
     *
     * @param version {@code null} for the rubric's version in use now
     * @param last how many of the latest marked cases to look at; 0 for all
     * @param wish coefficient Φ to reach, between 0 and 1
     * @param minutes of an assessor for one case
     */
    public record Question(
            String trainee, String rubric, @Nullable String version, int last, double wish, double minutes) {

        public Question {
            if (last < 0) {
                throw new InputException("the number of cases is below 0", null, "write 0 for all");
            }
            if (!(wish > 0 && wish < 1)) {
                throw new InputException("a coefficient of " + wish + " cannot be wished", null, "write such as 0.80");
            }
            if (!(minutes > 0 && minutes < 1e6)) {
                throw new InputException(minutes + " minutes cannot be planned with", null, "write such as 15");
            }
        }

        /** All cases, the usual wish. */
        public static Question of(String trainee, String rubric) {
            return new Question(trainee, rubric, null, 0, USUAL_WISH, USUAL_MINUTES);
        }
    }

    /** Codes of all who have a case, in order. */
    public List<String> trainees() {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(stores -> stores.cases().all().stream()
                .map(SurgicalCase::trainee)
                .distinct()
                .sorted()
                .toList());
    }

    /**
     * @throws InputException if the trainee has no case, or there is no such rubric
     */
    public DecisionView show(Question question) {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(stores -> view(stores, question));
    }

    /**
     * Keeps what a panel decided, with the figures it had before it.
     *
     * @param shown digest of the figures that the panel looked at; {@code null} to take those of now
     * @throws InputException if the wording or the panel is missing, the day lies ahead, or the figures have changed since
     */
    public Decision record(
            Question question, String wording, List<String> decidedBy, LocalDate decidedOn, @Nullable String shown) {
        Access.require(workspace, Permission.RECORD_DECISION);
        String words = Standards.text("the decision", wording, LONGEST_WORDING);
        if (words.isEmpty()) {
            throw new InputException("what was decided is not said", null, "write it in the panel's own words");
        }
        List<String> panel = Standards.persons(decidedBy);
        Standards.requireDay(decidedOn, clock);
        return workspace.write(stores -> {
            DecisionView view = view(stores, question);
            String figures = DecisionFigures.text(view);
            String digest = Sha256.of(figures);
            if (shown != null && !digest.equals(shown)) {
                throw new InputException(
                        "the figures have changed since the panel looked at them", null, "look at them again");
            }
            Decision decision = new Decision(
                    UUID.randomUUID().toString(),
                    view.trainee(),
                    view.rubric().id(),
                    view.rubric().version(),
                    words,
                    decidedOn,
                    panel,
                    figures,
                    digest,
                    stores.caller().code(),
                    Instant.now(clock));
            stores.decisions().add(decision);
            stores.audit()
                    .add(
                            "decision.record",
                            view.trainee(),
                            "",
                            "wording " + Sha256.of(words) + " shown " + digest + " on " + decidedOn + " by "
                                    + String.join(" ", panel));
            return decision;
        });
    }

    /** What was decided about a trainee, oldest first. */
    public List<Decision> of(String trainee) {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(stores -> stores.decisions().of(trainee));
    }

    private DecisionView view(Stores stores, Question question) {
        String trainee = question.trainee().strip();
        CountedCases counted = CountedCases.forAssessment(stores, stores.cases().all());
        if (stores.cases().all().stream().noneMatch(c -> c.trainee().equals(trainee))) {
            throw new InputException(
                    "there is no case of trainee \"" + trainee + "\"", null, "see the codes with: sideport case list");
        }
        Rubric rubric = SignedMarks.rubric(stores, vocabularies, question.rubric(), question.version())
                .rubric();
        SignedMarks unit = SignedMarks.of(stores, rubric);
        List<SignedMark> marks = latest(unit.ofTrainee(trainee), question.last());
        Set<Long> withheld = marks.stream().map(SignedMark::ratingId).collect(Collectors.toSet());
        withheld.removeAll(stores.ratings().reached(trainee, Access.marks(stores.caller())));
        Map<String, List<SignedMark>> byCase = byCase(marks);
        Double mean = mean(byCase);
        Outcome<Precision> precision = precision(unit, marks, mean, question);
        Standard standard =
                stores.standards().inForce(rubric.id(), rubric.version()).orElse(null);
        Double distance = mean == null || standard == null ? null : (Double) (mean - standard.share());
        return new DecisionView(
                trainee,
                rubric,
                question.last(),
                marks,
                withheld,
                unit.withOtherVersions(trainee),
                byCase.size(),
                (int) marks.stream().map(SignedMark::assessor).distinct().count(),
                mean,
                precision,
                standard,
                distance,
                distance == null || standard == null ? null : error(precision, standard),
                notes(
                        unit,
                        counted.leftOut(c -> c.procedure().equals(rubric.procedure())
                                && c.trainee().equals(trainee)),
                        trainee,
                        marks,
                        standard));
    }

    private static Outcome<Precision> precision(
            SignedMarks unit, List<SignedMark> marks, @Nullable Double mean, Question question) {
        if (mean == null) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there is no signed mark of this trainee with this rubric",
                    "have cases marked and signed");
        }
        return UnitPrecision.of(unit.all()).flatMap(of -> of.of(marks, mean, question.wish(), question.minutes()));
    }

    private static @Nullable Double error(Outcome<Precision> precision, Standard standard) {
        if (!(precision instanceof Outcome.Found<Precision> found)) {
            return null;
        }
        double sem = found.value().coefficients().semAbsolute();
        Double se = standard.standardError();
        return Math.sqrt(sem * sem + (se == null ? 0 : se * se));
    }

    private static List<String> notes(
            SignedMarks unit, LeftOut leftOut, String trainee, List<SignedMark> marks, @Nullable Standard standard) {
        List<String> notes = new ArrayList<>();
        if (leftOut.cases() > 0) {
            notes.add(leftOut.sentence() + ".");
        }
        int others = unit.withOtherVersions(trainee);
        if (others > 0) {
            notes.add(Plural.of(others, "mark") + " with another version of the rubric " + (others == 1 ? "is" : "are")
                    + " left out.");
        }
        long sighted = marks.stream().filter(m -> !m.blind()).count();
        if (sighted > 0) {
            notes.add(sighted + " of " + Plural.of(marks.size(), "mark") + (sighted == 1 ? " was" : " were")
                    + " given by assessors who could know the trainee.");
        }
        if (!marks.isEmpty()
                && marks.stream().map(SignedMark::assessor).distinct().count() == 1) {
            notes.add("All marks are by one assessor: a severe or lenient one would not be noticed here.");
        }
        long critical = marks.stream()
                .filter(m -> !m.score().criticalFailures().isEmpty())
                .count();
        if (critical > 0) {
            notes.add(Plural.of(critical, "mark") + " with an item below its critical minimum.");
        }
        if (standard == null) {
            notes.add(DecisionView.NO_STANDARD);
        } else {
            if (standard.standardError() == null) {
                notes.add("The standard's own error is not known and not part of the error of the difference.");
            }
            notes.addAll(standard.warnings());
        }
        return notes;
    }

    static Map<String, List<SignedMark>> byCase(List<SignedMark> marks) {
        Map<String, List<SignedMark>> byCase = new LinkedHashMap<>();
        marks.forEach(m ->
                byCase.computeIfAbsent(m.caseCode(), c -> new ArrayList<>()).add(m));
        return byCase;
    }

    /** Mean over cases of the mean share over a case's assessors, as in the workbook. */
    static @Nullable Double mean(Map<String, List<SignedMark>> byCase) {
        return byCase.isEmpty()
                ? null
                : (Double) byCase.values().stream()
                        .mapToDouble(of -> of.stream()
                                .mapToDouble(SignedMark::share)
                                .average()
                                .orElseThrow())
                        .average()
                        .orElseThrow();
    }

    private static List<SignedMark> latest(List<SignedMark> marks, int last) {
        List<String> codes = List.copyOf(byCase(marks).keySet());
        if (last == 0 || codes.size() <= last) {
            return marks;
        }
        List<String> kept = codes.subList(codes.size() - last, codes.size());
        return marks.stream().filter(m -> kept.contains(m.caseCode())).toList();
    }
}
