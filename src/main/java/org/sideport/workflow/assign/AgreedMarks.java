package org.sideport.workflow.assign;

import java.time.Instant;
import java.util.Arrays;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AgreedMark;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.Stores;
import org.sideport.workflow.Codes;

/** What holds for all marks that people agree upon: who and why are said, and no item is left open. */
final class AgreedMarks {

    private AgreedMarks() {}

    static AgreedMark made(
            Stores stores,
            String caseCode,
            Rating marks,
            AgreedMark.Purpose purpose,
            @Nullable Long stands,
            String by,
            String why,
            Instant now) {
        if (why.isBlank()) {
            throw new InputException("there is no reason", null, "say why these marks hold");
        }
        String who = by.isBlank() ? stores.caller().code() : by.strip();
        if (who.isEmpty()) {
            throw new InputException("nobody is named who agreed", null, "give the codes of those who did");
        }
        String people = Arrays.stream(who.split("[,\\s]+"))
                .map(code -> Codes.require("a person", code))
                .collect(Collectors.joining(", "));
        return new AgreedMark(
                UUID.randomUUID().toString(),
                caseCode,
                marks.rubric(),
                marks.rubricVersion(),
                purpose,
                stands,
                people,
                why.strip(),
                now,
                // comments stay where they were written
                marks.scores().stream().map(AgreedMarks::bare).toList());
    }

    private static ItemScore bare(ItemScore score) {
        return score instanceof ItemScore.Excused excused
                ? new ItemScore.Excused(excused.item(), excused.reason(), "")
                : new ItemScore.Marked(score.item(), java.util.Objects.requireNonNull(score.pointsOrNull()), "");
    }

    /**
     * @throws InputException if an item is missing, or the marks are of another version of the rubric
     */
    static Score complete(Rubric rubric, AgreedMark mark) {
        Score score = Scorer.score(rubric, mark.asRating());
        if (!score.complete()) {
            throw new InputException(
                    "the marks are not complete: " + String.join(", ", score.missing()),
                    null,
                    "mark each of these items, or say why it does not apply");
        }
        return score;
    }
}
