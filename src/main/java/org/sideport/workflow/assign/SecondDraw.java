package org.sideport.workflow.assign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.sideport.workflow.consent.LeftOut;

/**
 * Draws who marks a case as second, so that all assessors hang together through cases that two of them marked. Without
 * that a severe assessor cannot be told from one who was sent the weak cases (linking of designs: Linacre 1989, Many-Facet
 * Rasch Measurement; Weeks & Williams 1964, Technometrics 6:319). Within that the work is spread evenly. The same seed and
 * cases give the same draw.
 */
public final class SecondDraw {

    /** Draws from which the best is taken. */
    private static final int TRIES = 200;

    private SecondDraw() {}

    /**
     * A case that one assessor marks.
     *
     * @param first who marks it already
     * @param barred who may not mark it: its trainee, who trained in it, who took it in
     */
    public record Candidate(String caseCode, String first, Set<String> barred) {
        public Candidate {
            barred = Set.copyOf(barred);
        }

        boolean allows(String assessor) {
            return !assessor.equals(first) && !barred.contains(assessor);
        }
    }

    /** Two who mark the same case already. */
    public record Link(String one, String other) {}

    /** A case and who is to mark it as second. */
    public record Pair(String caseCode, String second) {}

    /**
     * @param pairs in the order of the cases given
     * @param groups of assessors that hang together; one only if the design is connected
     * @param load marks of each assessor, with those that were given before
     * @param possible false if no draw at all from these cases could join all groups
     * @param leftOut cases that somebody marks and that could not be drawn for want of consent
     */
    public record Drawn(
            List<Pair> pairs, List<List<String>> groups, Map<String, Integer> load, boolean possible, LeftOut leftOut) {

        Drawn without(LeftOut others) {
            return new Drawn(pairs, groups, load, possible, others);
        }

        public boolean isConnected() {
            return groups.size() == 1;
        }
    }

    /**
     * @param assessors among whom is drawn
     * @param links by cases that two marked before
     * @param load marks that each has to make already; none for those who are not named
     * @param count cases to be drawn, at most
     */
    public static Drawn draw(
            List<Candidate> cases,
            List<String> assessors,
            List<Link> links,
            Map<String, Integer> load,
            int count,
            long seed) {
        Random random = new Random(seed);
        Set<String> everybody = new TreeSet<>(assessors);
        cases.forEach(c -> everybody.add(c.first()));
        List<String> people = List.copyOf(everybody);
        Attempt best = null;
        for (int i = 0; i < TRIES; i++) {
            Attempt attempt = new Attempt(cases, assessors, people, links, load, count, random);
            attempt.run();
            if (best == null || attempt.isBetterThan(best)) {
                best = attempt;
            }
            if (best.groups().size() == 1 && best.spread() <= 1) {
                break;
            }
        }
        Joined all = new Joined(people, links);
        for (Candidate one : cases) {
            assessors.stream().filter(one::allows).forEach(a -> all.join(one.first(), a));
        }
        Attempt taken = java.util.Objects.requireNonNull(best);
        return new Drawn(
                taken.pairs(), taken.groups(), taken.loads(), all.groups().size() == 1, LeftOut.NONE);
    }

    /** Groups of people, by union and find. */
    private static final class Joined {
        private final List<String> people;
        private final Map<String, Integer> index = new HashMap<>();
        private final int[] parent;

        Joined(List<String> people, List<Link> links) {
            this.people = people;
            parent = new int[people.size()];
            Arrays.fill(parent, -1);
            people.forEach(p -> index.put(p, index.size()));
            links.stream()
                    .filter(l -> index.containsKey(l.one()) && index.containsKey(l.other()))
                    .forEach(l -> join(l.one(), l.other()));
        }

        private int root(String person) {
            int root = index.getOrDefault(person, 0);
            while (parent[root] >= 0) {
                root = parent[root];
            }
            return root;
        }

        boolean apart(String one, String other) {
            return root(one) != root(other);
        }

        void join(String one, String other) {
            int a = root(one);
            int b = root(other);
            if (a != b) {
                parent[b] = a;
            }
        }

        List<List<String>> groups() {
            Map<Integer, List<String>> groups = new LinkedHashMap<>();
            people.forEach(
                    p -> groups.computeIfAbsent(root(p), r -> new ArrayList<>()).add(p));
            return List.copyOf(groups.values());
        }
    }

    /** One draw. */
    private static final class Attempt {
        private final List<Candidate> cases;
        private final List<Candidate> order;
        private final List<String> assessors;
        private final List<String> people;
        private final List<Link> links;
        private final int count;
        private final Map<String, Integer> load = new TreeMap<>();
        private final Map<Candidate, String> seconds = new HashMap<>();

        Attempt(
                List<Candidate> cases,
                List<String> assessors,
                List<String> people,
                List<Link> links,
                Map<String, Integer> before,
                int count,
                Random random) {
            this.cases = cases;
            this.people = people;
            this.links = links;
            this.count = count;
            order = new ArrayList<>(cases);
            Collections.shuffle(order, random);
            this.assessors = new ArrayList<>(assessors);
            // ties are broken by this order
            Collections.shuffle(this.assessors, random);
            assessors.forEach(a -> load.put(a, before.getOrDefault(a, 0)));
        }

        void run() {
            Joined joined = new Joined(people, links);
            boolean more = true;
            while (more && seconds.size() < count) {
                more = false;
                for (Candidate one : order) {
                    if (seconds.size() < count && !seconds.containsKey(one)) {
                        String second = lightest(one, a -> joined.apart(one.first(), a));
                        if (second != null) {
                            take(one, second);
                            joined.join(one.first(), second);
                            more = true;
                        }
                    }
                }
            }
            for (Candidate one : order) {
                if (seconds.size() < count && !seconds.containsKey(one)) {
                    String second = lightest(one, a -> true);
                    if (second != null) {
                        take(one, second);
                    }
                }
            }
            while (spread() > 1 && evenOut()) {
                // one case moved to somebody with less to do
            }
        }

        private void take(Candidate one, String second) {
            String before = seconds.put(one, second);
            if (before != null) {
                load.merge(before, -1, Integer::sum);
            }
            load.merge(second, 1, Integer::sum);
        }

        private @org.jspecify.annotations.Nullable String lightest(
                Candidate one, java.util.function.Predicate<String> wanted) {
            String best = null;
            for (String a : assessors) {
                if (one.allows(a) && wanted.test(a) && (best == null || loadOf(a) < loadOf(best))) {
                    best = a;
                }
            }
            return best;
        }

        private int loadOf(String assessor) {
            return load.getOrDefault(assessor, 0);
        }

        /** Moves one case from somebody to another with at least two fewer, if all still hang together. */
        private boolean evenOut() {
            int groups = groups().size();
            for (Candidate one : order) {
                String from = seconds.get(one);
                if (from == null) {
                    continue;
                }
                String to = lightest(one, a -> loadOf(a) + 1 < loadOf(from));
                if (to != null) {
                    take(one, to);
                    if (groups().size() <= groups) {
                        return true;
                    }
                    take(one, from);
                }
            }
            return false;
        }

        int spread() {
            return load.isEmpty() ? 0 : Collections.max(load.values()) - Collections.min(load.values());
        }

        boolean isBetterThan(Attempt other) {
            int mine = groups().size();
            int others = other.groups().size();
            return mine != others ? mine < others : spread() < other.spread();
        }

        List<List<String>> groups() {
            Joined joined = new Joined(people, links);
            seconds.forEach((one, second) -> joined.join(one.first(), second));
            return joined.groups();
        }

        Map<String, Integer> loads() {
            return new TreeMap<>(load);
        }

        List<Pair> pairs() {
            Set<String> done = new HashSet<>();
            return cases.stream()
                    .filter(c -> seconds.containsKey(c) && done.add(c.caseCode()))
                    .map(c -> new Pair(c.caseCode(), java.util.Objects.requireNonNull(seconds.get(c))))
                    .toList();
        }
    }
}
