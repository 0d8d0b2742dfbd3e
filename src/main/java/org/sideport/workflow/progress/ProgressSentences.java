package org.sideport.workflow.progress;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.agreement.LimitsOfAgreement;
import org.sideport.stats.learning.CaseSeries;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.workflow.CaseMix;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.Change;
import org.sideport.workflow.ProgressView.Curve;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.TermTimes;
import org.sideport.workflow.assign.SelfAndAssessor;

/** What the figures say, in whole sentences: the same on the screen, in files and on the command line. */
public final class ProgressSentences {

    private final ProgressWords words;

    public ProgressSentences(ProgressWords words) {
        this.words = words;
    }

    /** Name of a phase or step, or of the whole. */
    public String name(TermTimes term) {
        return term.id().equals(ProgressView.WHOLE) ? words.get("whole") : term.name();
    }

    /** What can be said of a phase: curve, change, others; one sentence each. */
    public List<String> of(ProgressView view, TermTimes term) {
        List<String> all = new ArrayList<>();
        all.add(curve(term));
        if (term.curve() instanceof Outcome.Found<Curve> found && found.value().showsChange()) {
            doubling(found.value(), all);
        }
        all.add(change(view, term));
        if (term.peers().blocks().isEmpty()) {
            all.add(words.get("peers.masked", words.get("others", term.peers().peers()), view.fewestPeers()));
        } else {
            all.add(words.get("peers.shown", view.fewestPeers()));
        }
        return all;
    }

    String curve(TermTimes term) {
        if (term.curve() instanceof Outcome.Refused<Curve> refused) {
            return refused.refusal().reason() == Refusal.Reason.TOO_FEW
                    ? words.get("curve.few", words.cases(term.own().size()), CaseSeries.FEWEST_CASES)
                    : words.get("curve.refused", words.why(refused.refusal()));
        }
        Curve curve = term.curve().orElseThrow();
        String model = words.get("model." + curve.model().name().toLowerCase(Locale.ROOT));
        if (curve.showsChange()) {
            return words.get("curve.change", model);
        }
        return curve.supported().size() == 1 ? words.get("curve.flat") : words.get("curve.unclear", model);
    }

    private void doubling(Curve curve, List<String> all) {
        if (curve.doubling() == null) {
            return;
        }
        Interval limits = curve.doubling().limits();
        if (limits != null && Double.isFinite(limits.lower()) && Double.isFinite(limits.upper())) {
            all.add(words.get(
                    "curve.doubling",
                    words.number(curve.doubling().value(), 2),
                    words.number(limits.lower(), 2),
                    words.number(limits.upper(), 2)));
        }
    }

    private String change(ProgressView view, TermTimes term) {
        if (term.change() instanceof Outcome.Refused<Change> refused) {
            return refused.refusal().reason() == Refusal.Reason.TOO_FEW
                    ? words.get(
                            "change.few", view.recent(), words.cases(term.own().size()), FollowProgress.FEWEST_EACH)
                    : words.get("change.refused", words.why(refused.refusal()));
        }
        Change change = term.change().orElseThrow();
        Interval limits = change.ratio().limits();
        double lower = limits == null ? 0 : limits.lower();
        double upper = limits == null ? Double.POSITIVE_INFINITY : limits.upper();
        String said = upper < 1 ? "change.shorter" : lower > 1 ? "change.longer" : "change.unclear";
        return words.get(
                said,
                change.recent(),
                words.seconds(change.recentUs()),
                change.earlier(),
                words.seconds(change.earlierUs()),
                words.number(change.ratio().value(), 2),
                words.number(lower, 2),
                words.number(upper, 2));
    }

    /** What a phase is held against, with its source and what is to be kept in mind. */
    public String held(Held held) {
        return held.title().isEmpty()
                ? words.get("held.exemplars", held.usual().n())
                : words.get("held.published", held.title(), held.usual().n(), held.source(), unstopped(held.caveat()));
    }

    /** What a chart of times rests on: how many cases, and what they are held against. */
    public String basis(TermTimes term, @Nullable Held held) {
        StringBuilder basis = new StringBuilder(words.get("note.n", term.own().size()));
        if (term.unsure() > 0) {
            basis.append(' ').append(words.get("note.unsure", words.cases(term.unsure())));
        }
        if (term.own().stream().anyMatch(t -> t.of().mix().kind() == CaseMix.Kind.HARDER)) {
            basis.append(' ').append(words.get("note.harder"));
        }
        if (held != null) {
            basis.append(' ').append(held(held));
        }
        return basis.toString();
    }

    /** Name of a reference, short. */
    public String heldName(Held held) {
        return held.title().isEmpty() ? words.get("layer.exemplars") : held.title();
    }

    String gap(SelfAndAssessor.OverTime gap) {
        LimitsOfAgreement agreement = gap.agreement();
        return agreement == null || gap.cases().size() < SelfAndAssessor.FEW
                ? words.get("gap.few", words.cases(gap.cases().size()), SelfAndAssessor.FEW)
                : words.get(
                        "gap.mean",
                        words.number(100 * agreement.bias().value(), 0),
                        words.number(100 * agreement.lower().value(), 0),
                        words.number(100 * agreement.upper().value(), 0));
    }

    /** What the monitoring of complications says, or why there is none. */
    public String monitoring(ProgressView view) {
        return monitoring(view.monitoring());
    }

    /** As {@link #monitoring(ProgressView)}. */
    public String monitoring(Outcome<Monitoring> outcome) {
        if (outcome instanceof Outcome.Refused<Monitoring> refused) {
            return words.get("watch.refused", words.why(refused.refusal()), sentence(words.remedy(refused.refusal())));
        }
        Monitoring monitoring = outcome.orElseThrow();
        ChartPoint accepted = monitoring.chart().first(SignalKind.ACCEPTED);
        ChartPoint alarm = monitoring.chart().first(SignalKind.ALARM);
        String said = accepted == null
                ? words.get("watch.learning")
                : alarm == null
                        ? words.get("watch.accepted", accepted.caseNumber())
                        : words.get("watch.alarm", accepted.caseNumber(), alarm.caseNumber());
        return words.get("watch.sentence", words.cases(monitoring.cases()), monitoring.failures(), said);
    }

    /** The mark at the end of a sentence comes from the words around it. */
    private static String unstopped(String text) {
        return text.endsWith(".") ? text.substring(0, text.length() - 1) : text;
    }

    static String sentence(String text) {
        return text.isEmpty() ? "" : Character.toUpperCase(text.charAt(0)) + text.substring(1) + ".";
    }
}
