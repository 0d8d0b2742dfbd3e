package org.sideport.store;

import java.time.Instant;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Rubric;

/** A made-up programme of very many cases with signed marks and phases, to measure views of a whole unit. */
public final class TrialProgramme {

    private static final int ASSESSORS = 20;
    private static final int SPANS = 8;

    private TrialProgramme() {}

    /**
     * Each case has one mark, every third a second one by another assessor.
     *
     * @param workspace an empty one
     * @param json the rubric's text
     * @param phases ids, in turn
     */
    public static void fill(
            Workspace workspace, int cases, int trainees, Rubric rubric, String json, List<String> phases) {
        workspace.change(stores -> {
            stores.ratings().keepRubric(rubric.id(), rubric.version(), json);
            fill(stores.handle, cases, trainees, rubric, phases);
        });
    }

    private static void fill(Handle handle, int cases, int trainees, Rubric rubric, List<String> phases) {
        String now = Instant.now().toString();
        handle.execute("insert into surgical_case (id, code, trainee, operated_on, procedure_id)"
                + " with recursive g(i) as (select 1 union all select i + 1 from g where i < " + cases + ") select i,"
                + " 'B-' || i, 'T' || (100 + i % " + trainees
                + "), '20' || (16 + i / 1500) || '-' || (10 + i / 500 % 3)"
                + " || '-' || (10 + i / 20 % 19), '" + rubric.procedure() + "' from g");
        rate(handle, rubric, 0, "0 = 0", now);
        rate(handle, rubric, cases, "id % 3 = 0", now);
        for (Rubric.Item item : rubric.items()) {
            List<Integer> points = rubric.pointsOf(item);
            handle.execute(
                    "insert into item_score (rating_id, item, points, comment) select id, ?, ? + (case_id % " + trainees
                            + " + id * 7 + id / 3 + ?) % ?, '' from rating",
                    item.id(),
                    points.get(0),
                    Math.floorMod(item.id().hashCode(), 13),
                    points.size());
        }
        // nothing is signed without a seal; these seal nothing
        handle.execute(
                "insert into rating_seal (rating_id, form, digest, rubric_sha256, tagging_of, tagging_sha256,"
                        + " recordings, amends_digest, late) select id, '', ?, '', '', '', '', '', false from rating",
                "0".repeat(64));
        handle.execute("update rating set state = 'signed', signed_at = ?", now);
        handle.execute(
                "insert into tagging (id, case_id, annotator, style, changed_at) select id, id, 'A' || (100 + id % "
                        + ASSESSORS + "), 'start_and_end', '" + now + "' from surgical_case");
        for (int s = 0; s < Math.min(SPANS, phases.size()); s++) {
            handle.execute(
                    "insert into phase_span (tagging_id, phase, start_us, end_us) select id, ?, ? * 90000000, ? *"
                            + " 90000000 + 30000000 + (id * 7919 + ?) % 50000000 from tagging",
                    phases.get(s), s, s, s * 104_729);
        }
    }

    private static void rate(Handle handle, Rubric rubric, int offset, String which, String now) {
        handle.execute(
                "insert into rating (id, case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                        + " changed_at) select id + ?, id, ?, ?, 'A' || (100 + (id +"
                        + " ?) % " + ASSESSORS + "), false, false, '',"
                        + " 'draft', ? from surgical_case where " + which,
                offset,
                rubric.id(),
                rubric.version(),
                offset == 0 ? 0 : 7,
                now);
    }
}
