package org.sideport.workflow;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.Severity;
import org.sideport.model.Standard;
import org.sideport.model.StandardMethod;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/**
 * A made-up programme, stored for real: trainees who get quicker and better, assessors more and less severe, one case in
 * three marked twice, an agreed standard. The first trainee is unmarked; of the second all shares are equal.
 */
public final class MadeUpProgramme {

    private static final String RUBRIC = "phaco-competency";
    private static final Instant SIGNED = Instant.parse("2026-06-01T10:00:00Z");
    private static final String[] STEPS = {
        "side_port",
        "main_incision",
        "rhexis",
        "hydrodissection",
        "fragment_removal",
        "cortex_aspiration",
        "lens_insertion"
    };

    private final Workspace workspace;
    private final Random random;
    private final Rubric rubric;
    private final String text;

    public MadeUpProgramme(Workspace workspace, long seed) {
        this.workspace = workspace;
        this.random = new Random(seed);
        Vocabularies.RubricText found = new Vocabularies(workspace).rubric(RUBRIC);
        this.rubric = found.rubric();
        this.text = found.json();
    }

    public void fill(int trainees, int casesEach) {
        workspace.change(stores -> {
            stores.ratings().keepRubric(rubric.id(), rubric.version(), text);
            for (int t = 1; t <= trainees; t++) {
                double gift = random.nextGaussian() * 0.5;
                for (int c = 1; c <= casesEach; c++) {
                    add(stores, t, c, gift);
                }
            }
            standard(stores, 1, 0.5);
            standard(stores, 2, 2.0 / 3);
        });
    }

    private void add(Stores stores, int trainee, int number, double gift) {
        String code = String.format("C-%02d-%04d", trainee, number);
        LocalDate date = LocalDate.of(2022, 1, 3).plusDays(number * 5L + trainee % 5);
        stores.cases()
                .add(new SurgicalCase(
                        code, String.format("T%02d", trainee), date, "phaco", Map.of("eye", "left"), null));
        String first = "A" + (1 + random.nextInt(4));
        if (random.nextInt(10) > 0) {
            stores.taggings().save(code, first, tagging(number, gift));
        }
        if (trainee > 1) {
            rate(stores, code, first, trainee, number, gift);
            if (number % 3 == 0) {
                rate(stores, code, "A" + (1 + (first.charAt(1) - '0') % 4), trainee, number, gift);
            }
        }
    }

    private Tagging tagging(int number, double gift) {
        List<PhaseSpan> spans = new ArrayList<>();
        List<PointEvent> events = new ArrayList<>();
        double at = 3;
        for (String step : STEPS) {
            double length = Math.exp(4 - gift / 4 + random.nextGaussian() * 0.3) * (0.6 + 4.0 / (number + 5));
            spans.add(new PhaseSpan(step, MediaTime.ofSeconds(at), MediaTime.ofSeconds(at + length), Operator.TRAINEE));
            at += length + 5;
        }
        if (random.nextInt(16) == 0) {
            events.add(new PointEvent("capsule_tear_posterior", MediaTime.ofSeconds(at / 2), Severity.MAJOR, "=1+1"));
        }
        return new Tagging(TaggingStyle.START_AND_END, spans, events);
    }

    private void rate(Stores stores, String code, String assessor, int trainee, int number, double gift) {
        double severity = (assessor.charAt(1) - '2') * 0.25;
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : rubric.items()) {
            List<Integer> points = rubric.pointsOf(item);
            double wish = 1.2 + gift + number / 40.0 - severity + random.nextGaussian() * 0.6;
            int level =
                    trainee == 2 ? points.size() - 1 : (int) Math.max(0, Math.min(points.size() - 1, Math.round(wish)));
            scores.add(new ItemScore.Marked(item.id(), points.get(level), ""));
        }
        long id = stores.ratings()
                .addDraft(
                        code,
                        new Rating(rubric.id(), rubric.version(), assessor, false, true, scores, "@calm"),
                        null,
                        null);
        stores.ratings().sign(id, SIGNED);
    }

    private void standard(Stores stores, int number, double share) {
        stores.standards()
                .add(new Standard(
                        UUID.randomUUID().toString(),
                        rubric.id(),
                        rubric.version(),
                        number,
                        StandardMethod.values()[0],
                        share,
                        0.02,
                        share - 0.04,
                        share + 0.04,
                        0.95,
                        4,
                        LocalDate.of(2026, 5, number),
                        List.of("A1", "A2"),
                        Map.of(),
                        List.of(),
                        "",
                        "agreed at a meeting",
                        "",
                        SIGNED,
                        null));
    }
}
