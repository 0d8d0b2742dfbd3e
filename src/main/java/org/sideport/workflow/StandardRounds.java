package org.sideport.workflow;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AngoffRound;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
import org.sideport.rubric.RubricReader;
import org.sideport.stats.describe.Moments;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Rounds in which judges say, item by item, what a person who only just passes would get. While a round is open each judge
 * sees the own values only; once it is closed all see all, discuss, and may judge again in a next round.
 */
public final class StandardRounds {

    private static final int LONGEST_NOTE = 4000;

    private final Workspace workspace;
    private final Clock clock;

    public StandardRounds(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /**
     * An item over the judges of a closed round.
     *
     * @param points by judge, those who count only
     * @param sd {@code null} with fewer than two
     */
    public record ItemSpread(
            Rubric.Item item,
            int maximum,
            Map<String, Double> points,
            double mean,
            @Nullable Double sd,
            double lowest,
            double highest) {}

    /**
     * A round as everybody may see it.
     *
     * @param done by judge how many items have a value
     * @param items empty while the round is open: values stay with their judges
     */
    public record View(AngoffRound round, Rubric rubric, Map<String, Integer> done, List<ItemSpread> items) {}

    /**
     * What one judge fills in.
     *
     * @param points the judge's own, by item
     * @param before the round before, closed, for orientation; {@code null} in a first round
     */
    public record Sheet(
            AngoffRound round,
            Rubric rubric,
            String judge,
            Map<String, Double> points,
            @Nullable View before) {}

    /** All rounds, the newest first. */
    public List<View> all() {
        Access.require(workspace, Permission.JUDGE_STANDARD);
        return workspace.read(stores -> {
            List<View> views = new ArrayList<>();
            stores.rounds().all().forEach(round -> views.add(0, view(stores, round)));
            views.sort(java.util.Comparator.comparing((View v) -> v.round().openedAt())
                    .reversed());
            return views;
        });
    }

    /**
     * @param name a round's id or its beginning, or a rubric's id for its newest round
     * @throws InputException if there is none
     */
    public View show(String name) {
        Access.require(workspace, Permission.JUDGE_STANDARD);
        return workspace.read(stores -> view(stores, find(stores, name)));
    }

    /**
     * Opens the next round for the rubric as it is now.
     *
     * @param judges codes, at least two
     * @throws InputException if a round is open already, or there are too few judges or items
     */
    public View open(String rubricId, List<String> judges, String note) {
        Access.require(workspace, Permission.SET_STANDARD);
        List<String> asked = Standards.persons(judges);
        if (asked.size() < 2) {
            throw new InputException(
                    "one judge is no panel", null, "ask at least 2, better about 10, who know trainees of this stage");
        }
        Vocabularies.RubricText text = new Vocabularies(workspace).rubric(rubricId);
        Rubric rubric = text.rubric();
        if (rubric.items().size() < 2) {
            throw new InputException(
                    "rubric " + rubric.id() + " has fewer than 2 items", null, "take a rubric with more items");
        }
        String why = Standards.text("the note", note, LONGEST_NOTE);
        return workspace.write(stores -> {
            List<AngoffRound> earlier = ofVersion(stores, rubric.id(), rubric.version());
            earlier.stream().filter(AngoffRound::isOpen).findFirst().ifPresent(open -> {
                throw new InputException(
                        "round " + open.number() + " of rubric " + rubric.id() + " is still open",
                        null,
                        "close it first");
            });
            stores.ratings().keepRubric(rubric.id(), rubric.version(), text.json());
            AngoffRound round = new AngoffRound(
                    UUID.randomUUID().toString(),
                    rubric.id(),
                    rubric.version(),
                    earlier.size() + 1,
                    asked,
                    List.of(),
                    why,
                    stores.caller().code(),
                    Instant.now(clock),
                    "",
                    null);
            stores.rounds().add(round);
            stores.audit()
                    .add(
                            "standard.round.open",
                            subject(round),
                            "",
                            "round " + round.number() + " judges " + String.join(" ", asked));
            return view(stores, round);
        });
    }

    /**
     * The sheet of one judge.
     *
     * @throws InputException if this person was not asked, or is somebody else than the caller
     */
    public Sheet sheet(String name, String judgeCode) {
        Access.require(workspace, Permission.JUDGE_STANDARD);
        return workspace.read(stores -> sheet(stores, find(stores, name), judgeCode));
    }

    private Sheet sheet(Stores stores, AngoffRound round, String judgeCode) {
        String judge = requireJudge(stores, round, judgeCode);
        Map<String, Double> own = stores.rounds().values(round.id()).getOrDefault(judge, Map.of());
        View before = ofVersion(stores, round.rubric(), round.rubricVersion()).stream()
                .filter(r -> r.number() == round.number() - 1 && !r.isOpen())
                .findFirst()
                .map(r -> view(stores, r))
                .orElse(null);
        return new Sheet(round, rubric(stores, round), judge, own, before);
    }

    /**
     * Keeps a judge's values in the place of earlier ones. Not all items need a value yet.
     *
     * @param points by item: what a person who only just passes would get, between the item's fewest and most points;
     *     fractions are for "some would get one more"
     * @throws InputException if the round is closed, this person was not asked or is not the caller, or a value does not
     *     fit its item
     */
    public Sheet judge(String name, String judgeCode, Map<String, Double> points) {
        Access.require(workspace, Permission.JUDGE_STANDARD);
        return workspace.write(stores -> {
            AngoffRound round = find(stores, name);
            String judge = requireJudge(stores, round, judgeCode);
            if (!round.isOpen()) {
                throw new InputException(
                        "round " + round.number() + " is closed", null, "a director can open a next one");
            }
            Rubric rubric = rubric(stores, round);
            points.forEach((item, value) -> requireFit(rubric, item, value));
            stores.rounds().save(round.id(), judge, points);
            return sheet(stores, round, judge);
        });
    }

    private static void requireFit(Rubric rubric, String id, double value) {
        Rubric.Item item = rubric.item(id)
                .orElseThrow(() -> new InputException(
                        "rubric " + rubric.id() + " " + rubric.version() + " has no item \"" + id + "\"",
                        null,
                        "write one of "
                                + rubric.items().stream().map(Rubric.Item::id).collect(Collectors.joining(", "))));
        int lowest = rubric.pointsOf(item).get(0);
        int highest = rubric.maximumOf(item);
        if (!(value >= lowest && value <= highest)) {
            throw new InputException(
                    "\"" + id + "\" cannot be judged at " + value + " points",
                    null,
                    "write a number from " + lowest + " to " + highest);
        }
    }

    /**
     * Closes a round: values are frozen, and all may see them.
     *
     * @param leaveOut judges who have not finished and shall not count
     * @param note what was discussed; added to the round's note
     * @throws InputException if the round is closed, or a judge has not finished and is not left out
     */
    public View close(String name, List<String> leaveOut, String note) {
        Access.require(workspace, Permission.SET_STANDARD);
        String said = Standards.text("the note", note, LONGEST_NOTE);
        return workspace.write(stores -> {
            AngoffRound round = find(stores, name);
            if (!round.isOpen()) {
                throw new InputException("round " + round.number() + " is closed already", null, null);
            }
            Rubric rubric = rubric(stores, round);
            List<String> out = leaveOut.isEmpty() ? List.of() : Standards.persons(leaveOut);
            out.stream()
                    .filter(judge -> !round.judges().contains(judge))
                    .findFirst()
                    .ifPresent(judge -> {
                        throw new InputException(judge + " is no judge of this round", null, null);
                    });
            Map<String, Integer> done = done(stores, round, rubric);
            List<String> unfinished = round.judges().stream()
                    .filter(judge -> !out.contains(judge)
                            && done.getOrDefault(judge, 0) < rubric.items().size())
                    .map(judge -> judge + " (" + done.getOrDefault(judge, 0) + " of "
                            + rubric.items().size() + ")")
                    .toList();
            if (!unfinished.isEmpty()) {
                throw new InputException(
                        "not all have judged every item: " + String.join(", ", unfinished),
                        null,
                        "wait for them, or leave them out");
            }
            if (round.judges().size() - out.size() < 2) {
                throw new InputException("fewer than 2 judges would be left", null, "one judge is no panel");
            }
            String whole = round.note().isEmpty() || said.isEmpty() ? round.note() + said : round.note() + "\n" + said;
            stores.rounds().close(round.id(), out, whole, stores.caller().code(), Instant.now(clock));
            stores.audit()
                    .add(
                            "standard.round.close",
                            subject(round),
                            "round " + round.number() + " open",
                            "round " + round.number() + " values "
                                    + Sha256.of(
                                            stores.rounds().values(round.id()).toString()));
            return view(stores, find(stores, round.id()));
        });
    }

    private static String subject(AngoffRound round) {
        return round.rubric() + " " + round.rubricVersion();
    }

    /** Whoever signed in judges in the own name; where nobody signs in, any judge who was asked may sit down. */
    private static String requireJudge(Stores stores, AngoffRound round, String code) {
        String judge = Codes.require("a judge", code);
        if (!round.judges().contains(judge)) {
            throw new InputException(
                    judge + " was not asked to judge in this round",
                    null,
                    "judges are " + String.join(", ", round.judges()));
        }
        if (stores.caller() instanceof Caller.Person person && !person.code().equals(judge)) {
            throw new InputException(
                    "you can see and fill in your own sheet only",
                    null,
                    "sign in as " + judge + ", or judge as yourself");
        }
        return judge;
    }

    private static List<AngoffRound> ofVersion(Stores stores, String rubric, String version) {
        return stores.rounds().all().stream()
                .filter(r -> r.rubric().equals(rubric) && r.rubricVersion().equals(version))
                .toList();
    }

    private static AngoffRound find(Stores stores, String name) {
        List<AngoffRound> all = stores.rounds().all();
        String wanted = name.strip();
        Optional<AngoffRound> newest = all.stream()
                .filter(r -> r.rubric().equals(wanted))
                .max(java.util.Comparator.comparing(AngoffRound::openedAt));
        List<AngoffRound> byId = newest.isPresent() || wanted.isEmpty()
                ? newest.stream().toList()
                : all.stream().filter(r -> r.id().startsWith(wanted)).toList();
        if (byId.size() != 1) {
            throw new InputException(
                    byId.isEmpty() ? "there is no round \"" + name + "\"" : "several rounds begin with " + name,
                    null,
                    "name the rubric, or a round's id as shown by: sideport standard round show");
        }
        return byId.get(0);
    }

    private static Rubric rubric(Stores stores, AngoffRound round) {
        String json = stores.ratings()
                .rubricText(round.rubric(), round.rubricVersion())
                .orElseThrow(() -> new IllegalStateException("a round without its rubric's text"));
        return RubricReader.read(json, subject(round));
    }

    private static Map<String, Integer> done(Stores stores, AngoffRound round, Rubric rubric) {
        Map<String, Map<String, Double>> values = stores.rounds().values(round.id());
        Map<String, Integer> done = new LinkedHashMap<>();
        for (String judge : round.judges()) {
            Map<String, Double> own = values.getOrDefault(judge, Map.of());
            done.put(judge, (int) rubric.items().stream()
                    .filter(item -> own.containsKey(item.id()))
                    .count());
        }
        return done;
    }

    private static View view(Stores stores, AngoffRound round) {
        Rubric rubric = rubric(stores, round);
        List<ItemSpread> spread = new ArrayList<>();
        if (!round.isOpen()) {
            Map<String, Map<String, Double>> values = stores.rounds().values(round.id());
            rubric.items().forEach(item -> spread.add(spread(rubric, item, round.counted(), values)));
        }
        return new View(round, rubric, done(stores, round, rubric), List.copyOf(spread));
    }

    private static ItemSpread spread(
            Rubric rubric, Rubric.Item item, List<String> judges, Map<String, Map<String, Double>> values) {
        Map<String, Double> points = new LinkedHashMap<>();
        for (String judge : judges) {
            Double value = values.getOrDefault(judge, Map.of()).get(item.id());
            if (value != null) {
                points.put(judge, value);
            }
        }
        double[] all = points.values().stream().mapToDouble(p -> p).toArray();
        Moments moments = Moments.of(all);
        return new ItemSpread(
                item,
                rubric.maximumOf(item),
                points,
                moments.mean(),
                moments.sd(),
                java.util.Arrays.stream(all).min().orElseThrow(),
                java.util.Arrays.stream(all).max().orElseThrow());
    }
}
