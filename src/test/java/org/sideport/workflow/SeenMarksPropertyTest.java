package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.Assignment;
import org.sideport.model.Caller;
import org.sideport.model.CaseSummary;
import org.sideport.model.ItemScore;
import org.sideport.model.MarkingRules;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;
import org.sideport.store.MarkReach;
import org.sideport.store.SignedRating;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.TestEngine;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Random stores: cases of several trainees, taken in by one or another, given openly or blind, open, done or withdrawn, marked
 * with two rubrics, in draft, signed or amended, by the trainee too. For each person and each role, every list shows of each case
 * exactly the marks that the case shows by itself, and these are those that the rule in words gives ({@link MarkReach}).
 */
class SeenMarksPropertyTest {

    private static final List<String> RUBRICS = List.of("grade", "five");
    private static final Map<String, Set<Role>> PEOPLE = new LinkedHashMap<>();

    static {
        PEOPLE.put("T1", EnumSet.of(Role.TRAINEE));
        PEOPLE.put("A1", EnumSet.of(Role.ASSESSOR));
        PEOPLE.put("A2", EnumSet.of(Role.ASSESSOR));
        PEOPLE.put("D1", EnumSet.of(Role.DIRECTOR));
        PEOPLE.put("P1", EnumSet.of(Role.ASSESSOR, Role.DIRECTOR));
        PEOPLE.put("Q1", EnumSet.of(Role.TRAINEE, Role.ASSESSOR));
        PEOPLE.put("R1", EnumSet.allOf(Role.class));
    }

    @TempDir
    Path dir;

    @ParameterizedTest
    @CsvSource({"SQLITE, 1, true", "SQLITE, 2, false", "POSTGRESQL, 4, true"})
    void aListShowsOfEachCaseWhatTheCaseShowsByItself(TestEngine engine, int seed, boolean selfFirst) {
        try (Workspace workspace = engine.create(dir.resolve("w"))) {
            fill(workspace, new Random(seed), selfFirst);
            for (Map.Entry<String, Set<Role>> one : PEOPLE.entrySet()) {
                Workspace own = workspace.as(new Caller.Person(one.getKey(), one.getValue()));
                own.read(stores -> {
                    listsAgree(stores, one.getKey() + " " + one.getValue());
                    return true;
                });
                Set<Long> shown = own.read(s -> ids(s.ratings().all(Access.marks(s.caller()))));
                workspace.read(everything -> {
                    asTheRuleSays(everything, shown, one.getKey(), one.getValue());
                    return true;
                });
            }
        }
    }

    private static void fill(Workspace workspace, Random random, boolean selfFirst) {
        workspace.change(s -> {
            s.rules().save(new MarkingRules(selfFirst, .15, 3));
            RUBRICS.forEach(r -> s.ratings().keepRubric(r, "1.0.0", "{\"id\": \"" + r + "\"}"));
        });
        List<String> everybody = List.copyOf(PEOPLE.keySet());
        for (String takenIn : everybody) {
            workspace.as(new Caller.Person(takenIn, PEOPLE.get(takenIn))).change(s -> {
                for (int i = 1; i <= 4; i++) {
                    String trainee = List.of("T1", "Q1", "R1").get(random.nextInt(3));
                    LocalDate day = LocalDate.of(2026, 1, 1).plusDays(random.nextInt(30));
                    s.cases().add(new SurgicalCase(takenIn + "-" + i, trainee, day, "phaco", Map.of(), null));
                }
            });
        }
        workspace.change(s -> {
            for (SurgicalCase one : s.cases().all()) {
                for (String person : everybody) {
                    boolean self = person.equals(one.trainee());
                    RUBRICS.forEach(rubric -> rate(s, random, one.code(), rubric, person, self));
                    if (!self && random.nextInt(3) > 0) {
                        String state = List.of("open", "done", "withdrawn").get(random.nextInt(3));
                        String hidden = random.nextInt(3) == 0 ? "trainee" : "";
                        TestRows.assign(
                                s, one.code(), person, "third", "M-" + one.code() + "-" + person, hidden, state);
                    }
                }
            }
        });
    }

    private static void rate(Stores s, Random random, String code, String rubric, String person, boolean self) {
        int what = random.nextInt(6);
        if (what < 3) {
            return;
        }
        long first = s.ratings().addDraft(code, rating(rubric, person, self, 1), null, null);
        if (what > 3) {
            s.ratings().sign(first, Instant.parse("2026-06-01T10:00:00Z"));
        }
        if (what == 5) {
            long second = s.ratings().addDraft(code, rating(rubric, person, self, 2), first, "seen again");
            if (random.nextBoolean()) {
                s.ratings().sign(second, Instant.parse("2026-06-02T10:00:00Z"));
            }
        }
    }

    private static Rating rating(String rubric, String person, boolean self, int points) {
        List<ItemScore> scores = List.of(new ItemScore.Marked("overall", points, ""));
        return new Rating(rubric, "1.0.0", person, self, false, scores, "");
    }

    private static Set<Long> ids(List<StoredRating> ratings) {
        return ratings.stream().map(StoredRating::id).collect(Collectors.toCollection(TreeSet::new));
    }

    /** With the reach that screens ask with, and without it, as figures are made. */
    private static void listsAgree(Stores s, String who) {
        MarkReach reach = Access.marks(s.caller());
        List<CaseSummary> lines = s.summaries().newest(-1, Access.cases(s.caller(), Permission.SEE_CASE), reach);
        Map<String, List<StoredRating>> all =
                s.ratings().all(reach).stream().collect(Collectors.groupingBy(StoredRating::caseCode));
        Map<String, List<StoredRating>> counted =
                s.ratings().all().stream().collect(Collectors.groupingBy(StoredRating::caseCode));
        Map<String, Set<Long>> reached = new LinkedHashMap<>();
        for (CaseSummary line : lines) {
            String what = who + " of " + line.code();
            List<StoredRating> one = s.ratings().ofCase(line.code(), reach);
            assertThat(ids(all.getOrDefault(line.code(), List.of()))).as(what).isEqualTo(ids(one));
            assertThat(ids(counted.getOrDefault(line.code(), List.of())))
                    .as(what + ", counted")
                    .isEqualTo(ids(s.ratings().ofCase(line.code())));
            if (line.hidden().isEmpty()) {
                Set<Long> kept = ids(counted.getOrDefault(line.code(), List.of()));
                kept.retainAll(reached.computeIfAbsent(
                        line.trainee(), trainee -> s.ratings().reached(trainee, reach)));
                assertThat(kept).as(what + ", of its trainee").isEqualTo(ids(one));
                List<StoredRating> inForce = one.stream()
                        .filter(r -> r.state() != RatingState.SUPERSEDED)
                        .toList();
                assertThat(Set.copyOf(line.assessors()))
                        .as(what + ", line")
                        .isEqualTo(inForce.stream()
                                .filter(r -> !r.rating().self())
                                .map(r -> r.rating().assessor())
                                .collect(Collectors.toSet()));
                assertThat(line.selfMarked())
                        .as(what + ", line")
                        .isEqualTo(inForce.stream().anyMatch(r -> r.rating().self()));
                assertThat(line.signed())
                        .as(what + ", line")
                        .isEqualTo(
                                inForce.stream().anyMatch(r -> !r.rating().self() && r.state() == RatingState.SIGNED));
            }
        }
        for (String rubric : RUBRICS) {
            Set<Long> signed =
                    s.ratings().signed(rubric).stream().map(SignedRating::id).collect(Collectors.toSet());
            Set<Long> expected = counted.values().stream()
                    .flatMap(List::stream)
                    .filter(r -> r.state() == RatingState.SIGNED
                            && !r.rating().self()
                            && r.rating().rubric().equals(rubric))
                    .map(StoredRating::id)
                    .collect(Collectors.toSet());
            assertThat(signed).as(who + ", signed with " + rubric).isEqualTo(expected);
        }
    }

    /** The rule written a second time, from its words, over what nobody is hidden from; blinded cases apart. */
    private static void asTheRuleSays(Stores everything, Set<Long> shown, String person, Set<Role> roles) {
        boolean selfFirst = everything.rules().rules().selfFirst();
        for (SurgicalCase one : everything.cases().all()) {
            List<StoredRating> ratings = everything.ratings().ofCase(one.code());
            List<Assignment> given = everything.assignments().ofCase(one.code()).stream()
                    .filter(a -> a.assessor().equals(person) && a.state() != Assignment.State.WITHDRAWN)
                    .toList();
            List<Assignment> open = given.stream()
                    .filter(a -> a.state() == Assignment.State.OPEN)
                    .toList();
            if (open.stream().anyMatch(Assignment::isBlinded)) {
                continue;
            }
            boolean own = one.trainee().equals(person);
            List<StoredRating> mine = ratings.stream()
                    .filter(r -> r.rating().assessor().equals(person))
                    .toList();
            Set<String> signed = mine.stream()
                    .filter(r -> r.state() != RatingState.DRAFT)
                    .map(r -> r.rating().rubric())
                    .collect(Collectors.toSet());
            boolean toMark = !open.isEmpty()
                    || mine.stream()
                            .anyMatch(r -> !r.rating().self() && r.state() == RatingState.DRAFT && r.amends() == null);
            boolean reached =
                    !given.isEmpty() || everything.cases().addedBy(one.code()).equals(person);
            for (StoredRating r : ratings) {
                boolean same = signed.contains(r.rating().rubric());
                boolean draft = r.state() == RatingState.DRAFT;
                boolean asDirector = roles.contains(Role.DIRECTOR) && (!toMark || !own && same);
                boolean asAssessor = roles.contains(Role.ASSESSOR)
                        && !own
                        && reached
                        && !draft
                        && !signed.isEmpty()
                        && (same || !r.rating().self() && open.isEmpty());
                boolean asTrainee = roles.contains(Role.TRAINEE) && own && !draft && (same || !selfFirst);
                assertThat(shown.contains(r.id()))
                        .as(person + " " + roles + " is shown " + r.state() + " marks on "
                                + r.rating().rubric() + " by " + r.rating().assessor() + " of " + one.code()
                                + ", own marks "
                                + mine.stream()
                                        .map(m -> m.rating().rubric() + " " + m.state())
                                        .toList()
                                + ", given and open " + open.size())
                        .isEqualTo(mine.contains(r) || asDirector || asAssessor || asTrainee);
            }
        }
    }
}
