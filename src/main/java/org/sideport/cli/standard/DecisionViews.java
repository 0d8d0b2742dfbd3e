package org.sideport.cli.standard;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Decision;
import org.sideport.model.Plural;
import org.sideport.model.Standard;
import org.sideport.stats.Outcome;
import org.sideport.workflow.DecisionView;
import org.sideport.workflow.Precision;
import org.sideport.workflow.SignedMark;

/** What a panel looks at, and what it decided, as people and machines read them. */
final class DecisionViews {

    private DecisionViews() {}

    static void print(DecisionView view, Console console) {
        TextTable table = new TextTable("case", "date", "assessor", "blind", ">share", ">items");
        for (SignedMark mark : view.shown()) {
            table.row(
                    mark.caseCode(),
                    mark.date().toString(),
                    mark.assessor(),
                    mark.blind() ? "blind" : "–",
                    Words.percent(mark.share()),
                    mark.score().marked() + "/" + mark.score().items());
        }
        table.print(console::say);
        if (!view.withheld().isEmpty()) {
            console.say(Plural.of(view.withheld().size(), "mark")
                    + " counted but not listed: of cases that you have still to mark yourself.");
        }
        console.say("Trainee " + view.trainee() + ", rubric " + view.rubric().id() + " "
                + view.rubric().version() + ": " + Plural.of(view.marks().size(), "mark") + " of "
                + Plural.of(view.cases(), "case") + " by " + Plural.of(view.assessors(), "assessor") + ", "
                + view.blindMarks() + " of them blind.");
        console.say("Mean " + Words.percent(view.mean()) + precision(view.precision()) + ".");
        Standard standard = view.standard();
        if (standard != null) {
            String limits = Words.limits(standard.lower(), standard.upper(), standard.level());
            console.say("Standard in force " + Words.percent(standard.share())
                    + (limits.isEmpty() ? "" : " (" + limits + ")") + ", agreed on "
                    + standard.agreedOn() + " by " + String.join(", ", standard.agreedBy()) + ".");
            Double distance = view.distance();
            if (distance != null) {
                Double error = view.distanceError();
                console.say("Mean less standard " + Words.number(100 * distance, 1) + " points of per cent"
                        + (error == null ? "" : ", standard error " + Words.number(100 * error, 1)) + ".");
            }
        }
        console.say(enough(view.precision()));
        view.notes().forEach(note -> console.say("Note: " + note));
        if (view.precision() instanceof Outcome.Found<Precision> found) {
            found.value().study().warnings().forEach(warning -> console.say("Warning: " + warning));
        }
        console.say(DecisionView.CAUTION);
    }

    private static String precision(Outcome<Precision> outcome) {
        if (outcome instanceof Outcome.Found<Precision> found) {
            Precision p = found.value();
            return " (SEM " + Words.number(100 * p.coefficients().semAbsolute(), 1) + " points of per cent, 95 % "
                    + Words.number(100 * p.lower(), 1) + " to " + Words.percent(p.upper()) + "); coefficient Φ "
                    + Words.number(p.coefficients().phi(), 2) + ", G "
                    + Words.number(p.coefficients().g(), 2);
        }
        return "";
    }

    /** Plainly whether the marks are enough for the coefficient wished, and if not what would be. */
    static String enough(Outcome<Precision> outcome) {
        if (outcome instanceof Outcome.Refused<Precision> refused) {
            return "Not enough: " + refused.refusal().why() + " — "
                    + refused.refusal().remedy() + ".";
        }
        Precision p = outcome.orElseThrow();
        String wish = Words.number(p.wish(), 2);
        if (p.enough()) {
            return "The marks reach the coefficient of " + wish + " that was asked for.";
        }
        if (p.more().isEmpty()) {
            return "Not enough for " + wish + ", and up to " + Precision.MOST_CASES + " further cases by the unit's "
                    + Plural.of(p.study().assessors(), "assessor")
                    + " would not be: more assessors, or assessors who agree better, are needed.";
        }
        return "Not enough for " + wish + ": "
                + p.more().stream().map(DecisionViews::plan).collect(Collectors.joining(", or "))
                + " would be needed.";
    }

    static String plan(Precision.More more) {
        return more.cases() + " more " + (more.cases() == 1 ? "case" : "cases") + " by "
                + Plural.of(more.assessorsEach(), "assessor") + (more.cases() == 1 ? "" : " each") + " ("
                + Words.number(more.minutes(), 0) + " min)";
    }

    static Map<String, @Nullable Object> json(Decision decision) {
        return Json.object(
                "id", decision.id(),
                "trainee", decision.trainee(),
                "rubric", decision.rubric(),
                "rubric_version", decision.rubricVersion(),
                "text", decision.wording(),
                "decided_on", decision.decidedOn().toString(),
                "decided_by", decision.decidedBy(),
                "shown_digest", decision.shownDigest(),
                "shown", decision.shown(),
                "recorded_by", decision.recordedBy(),
                "recorded_at", decision.recordedAt().toString());
    }

    static void print(List<Decision> decisions, Console console) {
        for (Decision decision : decisions) {
            console.say(decision.decidedOn() + ", " + String.join(", ", decision.decidedBy()) + ", rubric "
                    + decision.rubric() + " " + decision.rubricVersion() + ": " + decision.wording());
            console.say("  figures shown: " + decision.shownDigest());
        }
    }
}
