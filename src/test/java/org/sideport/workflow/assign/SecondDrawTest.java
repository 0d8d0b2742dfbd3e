package org.sideport.workflow.assign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.rasch.Estimation;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.Markings;
import org.sideport.stats.rasch.StepModel;
import org.sideport.workflow.assign.SecondDraw.Candidate;
import org.sideport.workflow.assign.SecondDraw.Drawn;
import org.sideport.workflow.assign.SecondDraw.Link;
import org.sideport.workflow.assign.SecondDraw.Pair;

/**
 * Connected is what linking of designs needs: a path from each assessor to each other over cases that two marked (Weeks &
 * Williams 1964, Technometrics 6:319; Linacre 1989). Checked here by a walk of its own and by the Rasch analysis, which
 * refuses a design that falls apart.
 */
class SecondDrawTest {

    private static final List<String> FOUR = List.of("A1", "A2", "A3", "A4");

    private static List<Candidate> cases(int n, List<String> firsts, Random random) {
        List<Candidate> cases = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            cases.add(new Candidate("C" + i, firsts.get(random.nextInt(firsts.size())), Set.of()));
        }
        return cases;
    }

    /** Breadth first over assessors and cases. */
    private static boolean reachesAll(List<Candidate> cases, List<String> assessors, List<Link> links, Drawn drawn) {
        Map<String, Set<String>> next = new HashMap<>();
        assessors.forEach(a -> next.put(a, new HashSet<>()));
        Map<String, String> firsts = new HashMap<>();
        cases.forEach(c -> firsts.put(c.caseCode(), c.first()));
        List<Link> all = new ArrayList<>(links);
        drawn.pairs().forEach(p -> all.add(new Link(firsts.get(p.caseCode()), p.second())));
        for (Link link : all) {
            next.computeIfAbsent(link.one(), a -> new HashSet<>()).add(link.other());
            next.computeIfAbsent(link.other(), a -> new HashSet<>()).add(link.one());
        }
        Set<String> seen = new HashSet<>();
        Deque<String> queue = new ArrayDeque<>(List.of(assessors.get(0)));
        while (!queue.isEmpty()) {
            String one = queue.poll();
            if (seen.add(one)) {
                queue.addAll(next.getOrDefault(one, Set.of()));
            }
        }
        return seen.containsAll(assessors);
    }

    @Test
    void asFewCasesAsCanJoinAllAssessorsDo() {
        for (int seed = 0; seed < 50; seed++) {
            List<Candidate> cases = cases(60, FOUR, new Random(seed));
            // a tree over four needs three links
            Drawn drawn = SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 3, seed);
            assertThat(drawn.isConnected()).isTrue();
            assertThat(drawn.pairs()).hasSize(3);
            assertThat(reachesAll(cases, FOUR, List.of(), drawn)).isTrue();
            Drawn two = SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 2, seed);
            assertThat(two.isConnected()).isFalse();
            assertThat(two.possible()).isTrue();
        }
    }

    @Test
    void nobodyMarksTwiceOrWhatHeTrainedAndTheWorkIsEven() {
        for (int seed = 0; seed < 30; seed++) {
            Random random = new Random(seed);
            List<Candidate> cases = new ArrayList<>();
            for (int i = 0; i < 40; i++) {
                cases.add(new Candidate(
                        "C" + i, FOUR.get(random.nextInt(4)), Set.of(FOUR.get(random.nextInt(4)), "T" + i)));
            }
            Drawn drawn = SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 20, seed);
            assertThat(drawn.pairs()).hasSize(20);
            Map<String, Candidate> byCode = new HashMap<>();
            cases.forEach(c -> byCode.put(c.caseCode(), c));
            for (Pair pair : drawn.pairs()) {
                Candidate one = byCode.get(pair.caseCode());
                assertThat(pair.second()).isNotEqualTo(one.first()).isNotIn(one.barred());
            }
            assertThat(reachesAll(cases, FOUR, List.of(), drawn)).isTrue();
            assertThat(Collections.max(drawn.load().values())
                            - Collections.min(drawn.load().values()))
                    .isLessThanOrEqualTo(1);
        }
    }

    @Test
    void whoHasMoreToDoAlreadyIsGivenLess() {
        List<Candidate> cases = cases(60, FOUR, new Random(1));
        Drawn drawn = SecondDraw.draw(cases, FOUR, List.of(), Map.of("A1", 6), 18, 1);
        // 24 marks among four are six each; one more or less where the last case leaves no choice
        assertThat(drawn.load().values()).allSatisfy(n -> assertThat(n).isBetween(5, 7));
        assertThat(drawn.pairs()).filteredOn(p -> p.second().equals("A1")).hasSizeLessThanOrEqualTo(1);
    }

    @Test
    void theSameSeedDrawsTheSame() {
        List<Candidate> cases = cases(60, FOUR, new Random(2));
        assertThat(SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 20, 7))
                .isEqualTo(SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 20, 7))
                .isNotEqualTo(SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 20, 8));
    }

    @Test
    void whatCannotBeJoinedIsSaidWithItsGroups() {
        // A3 and A4 may mark no case of A1 and A2, nor the other way round
        List<Candidate> cases = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            boolean left = i % 2 == 0;
            cases.add(new Candidate("C" + i, left ? "A1" : "A3", left ? Set.of("A3", "A4") : Set.of("A1", "A2")));
        }
        Drawn drawn = SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 10, 1);
        assertThat(drawn.possible()).isFalse();
        assertThat(drawn.groups()).containsExactly(List.of("A1", "A2"), List.of("A3", "A4"));
        // one case that both halves marked before is enough
        Drawn linked = SecondDraw.draw(cases, FOUR, List.of(new Link("A2", "A4")), Map.of(), 10, 1);
        assertThat(linked.possible()).isTrue();
        assertThat(linked.isConnected()).isTrue();
    }

    /** Marks at random: only who marked what matters. */
    private static Outcome<ManyFacetRasch> rasch(List<Candidate> cases, List<Pair> pairs) {
        Map<String, String> seconds = new HashMap<>();
        pairs.forEach(p -> seconds.put(p.caseCode(), p.second()));
        List<String> trainees = new ArrayList<>();
        List<String> assessors = new ArrayList<>();
        List<String> items = new ArrayList<>();
        List<Integer> levels = new ArrayList<>();
        Random random = new Random(3);
        for (Candidate one : cases) {
            for (String by : seconds.containsKey(one.caseCode())
                    ? List.of(one.first(), seconds.get(one.caseCode()))
                    : List.of(one.first())) {
                for (int i = 0; i < 8; i++) {
                    trainees.add(one.caseCode());
                    assessors.add(by);
                    items.add("I" + i);
                    levels.add(random.nextInt(4));
                }
            }
        }
        Markings marks = new Markings(
                Factor.of("case", trainees),
                Factor.of("assessor", assessors),
                Factor.of("item", items),
                levels.stream().mapToInt(Integer::intValue).toArray());
        return ManyFacetRasch.fit(marks, StepModel.RATING_SCALE, Estimation.BIAS_REDUCED, 0.95);
    }

    @Test
    void theSeverityAnalysisTakesWhatIsConnectedAndRefusesWhatIsNot() {
        List<Candidate> cases = cases(24, FOUR, new Random(4));
        Drawn drawn = SecondDraw.draw(cases, FOUR, List.of(), Map.of(), 3, 4);
        assertThat(rasch(cases, drawn.pairs())).isInstanceOf(Outcome.Found.class);
        assertThat(rasch(cases, drawn.pairs().subList(0, 2)))
                .isInstanceOfSatisfying(
                        Outcome.Refused.class,
                        refused -> assertThat(
                                        ((Outcome.Refused<?>) refused).refusal().reason())
                                .isEqualTo(Refusal.Reason.NOT_CONNECTED));
    }
}
