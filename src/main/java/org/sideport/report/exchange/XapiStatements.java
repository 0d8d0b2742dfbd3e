package org.sideport.report.exchange;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Signed marks as xAPI statements (IEEE 9274.1.1, version 2.0.0): one for each marked item and one for the whole. The actor is
 * the trainee and the instructor the assessor, each by an account with a code; nothing else tells who they are. The same marks
 * always give the same statement ids, so that a store takes them once.
 */
public final class XapiStatements {

    public static final String VERSION = "2.0.0";

    private static final String SCORED = "http://adlnet.gov/expapi/verbs/scored";
    private static final String ASSESSMENT = "http://adlnet.gov/expapi/activities/assessment";
    private static final String QUESTION = "http://adlnet.gov/expapi/activities/question";
    private static final String TIME = "https://w3id.org/xapi/video/extensions/time";

    /**
     * A signed rating with what it amounts to.
     *
     * @param caseCode of the case that was marked
     * @param trainee code of whose operation it is
     * @param digest of the signed marks
     */
    public record Marks(
            String caseCode,
            String trainee,
            String procedure,
            Rubric rubric,
            Rating rating,
            Score score,
            Instant signedAt,
            String digest) {}

    private final String home;
    private final String platform;

    private XapiStatements(String home, String platform) {
        this.home = home.endsWith("/") ? home.substring(0, home.length() - 1) : home;
        this.platform = platform;
    }

    /**
     * The statements in an array.
     *
     * @param home the unit's own address (IRI), under which its codes and rubrics are known
     * @param platform name and version of the program
     */
    public static ArrayNode of(List<Marks> marks, String home, String platform) {
        XapiStatements writer = new XapiStatements(home, platform);
        ArrayNode all = StandardJson.MAPPER.createArrayNode();
        for (Marks one : marks) {
            for (ItemScore score : one.rating().scores()) {
                if (score instanceof ItemScore.Marked marked) {
                    one.rubric().item(marked.item()).ifPresent(i -> all.add(writer.item(one, i, marked)));
                }
            }
            if (one.score().share() != null) {
                all.add(writer.whole(one));
            }
        }
        return all;
    }

    /** As a file holds them. */
    public static String text(ArrayNode statements) {
        return StandardJson.pretty(statements);
    }

    /** At most so many in each array, as one request takes them. */
    public static List<String> batches(ArrayNode statements, int most) {
        List<String> batches = new ArrayList<>();
        ArrayNode batch = StandardJson.MAPPER.createArrayNode();
        for (JsonNode statement : statements) {
            batch.add(statement);
            if (batch.size() == most) {
                batches.add(StandardJson.MAPPER.writeValueAsString(batch));
                batch = StandardJson.MAPPER.createArrayNode();
            }
        }
        if (!batch.isEmpty()) {
            batches.add(StandardJson.MAPPER.writeValueAsString(batch));
        }
        return batches;
    }

    private String rubric(Marks marks) {
        return home + "/rubrics/" + marks.rubric().id() + "/" + marks.rubric().version();
    }

    private ObjectNode item(Marks marks, Rubric.Item item, ItemScore.Marked marked) {
        int most = marks.rubric().maximumOf(item);
        int least = marks.rubric().pointsOf(item).get(0);
        ObjectNode one = statement(marks, item.id());
        one.set(
                "object",
                activity(
                        rubric(marks) + "/items/" + item.id(),
                        QUESTION,
                        item.title(),
                        item.guidance().isEmpty() ? null : item.guidance()));
        ObjectNode result = one.putObject("result");
        score(result, (double) marked.points() / most, marked.points(), least, most);
        if (!marked.comment().isBlank()) {
            result.put("response", marked.comment());
        }
        Set<MediaTime> moments = Set.copyOf(marked.evidence());
        if (!moments.isEmpty()) {
            // the video profile allows three decimals
            long millis = marked.evidence().get(0).micros() / 1000;
            result.putObject("extensions").put(TIME, millis / 1000.0);
        }
        one.set("context", context(marks, true));
        return stamped(one, marks);
    }

    private ObjectNode whole(Marks marks) {
        Score score = marks.score();
        ObjectNode one = statement(marks, "");
        one.set("object", activity(rubric(marks), ASSESSMENT, marks.rubric().title(), null));
        int least = marks.rating().scores().stream()
                .filter(s -> s instanceof ItemScore.Marked)
                .flatMap(s -> marks.rubric().item(s.item()).stream())
                .mapToInt(i -> marks.rubric().pointsOf(i).get(0))
                .sum();
        ObjectNode result = one.putObject("result");
        Double share = score.share();
        score(result, share == null ? 0 : share, score.points(), least, score.maximum());
        if (!marks.rating().comment().isBlank()) {
            result.put("response", marks.rating().comment());
        }
        ObjectNode own = result.putObject("extensions");
        own.put(home + "/terms/items-marked", score.marked());
        own.put(home + "/terms/items-of-the-rubric", score.items());
        one.set("context", context(marks, false));
        return stamped(one, marks);
    }

    /** IEEE 9274.1.1, 4.2.2.4 (score): scaled from -1 to 1, raw between min and max. */
    private static void score(ObjectNode result, double scaled, int raw, int least, int most) {
        ObjectNode score = result.putObject("score");
        score.put("scaled", Math.max(-1, Math.min(1, scaled)));
        score.put("raw", raw);
        if (least < most) {
            score.put("min", least);
            score.put("max", most);
        }
    }

    private ObjectNode statement(Marks marks, String item) {
        ObjectNode one = StandardJson.object();
        one.put("id", Digests.uuid("xapi", home, marks.digest(), item));
        one.set("actor", account(marks.trainee()));
        ObjectNode verb = one.putObject("verb");
        verb.put("id", SCORED);
        verb.putObject("display").put("en", "scored");
        return one;
    }

    private static ObjectNode stamped(ObjectNode one, Marks marks) {
        one.put("timestamp", marks.signedAt().toString());
        one.put("version", VERSION);
        return one;
    }

    private ObjectNode account(String code) {
        ObjectNode agent = StandardJson.object().put("objectType", "Agent");
        agent.putObject("account").put("homePage", home).put("name", code);
        return agent;
    }

    private static ObjectNode activity(String id, String type, String name, @Nullable String description) {
        ObjectNode activity =
                StandardJson.object().put("objectType", "Activity").put("id", id);
        ObjectNode definition = activity.putObject("definition").put("type", type);
        // the language of a rubric is not known
        definition.putObject("name").put("und", name);
        if (description != null) {
            definition.putObject("description").put("und", description);
        }
        return activity;
    }

    private ObjectNode context(Marks marks, boolean isItem) {
        ObjectNode context = StandardJson.object();
        context.put("registration", Digests.uuid("rating", marks.digest()));
        context.set("instructor", account(marks.rating().assessor()));
        context.put("platform", platform);
        ObjectNode activities = context.putObject("contextActivities");
        activities
                .putArray("parent")
                .add(
                        isItem
                                ? StandardJson.object()
                                        .put("objectType", "Activity")
                                        .put("id", rubric(marks))
                                : theCase(marks));
        ArrayNode grouping = activities.putArray("grouping");
        if (isItem) {
            grouping.add(theCase(marks));
        }
        grouping.add(StandardJson.object()
                .put("objectType", "Activity")
                .put("id", home + "/procedures/" + marks.procedure()));
        ObjectNode own = context.putObject("extensions");
        own.put(home + "/terms/self", marks.rating().self());
        own.put(home + "/terms/blind", marks.rating().blind());
        return context;
    }

    private ObjectNode theCase(Marks marks) {
        return StandardJson.object().put("objectType", "Activity").put("id", home + "/cases/" + marks.caseCode());
    }
}
