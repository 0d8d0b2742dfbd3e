package org.sideport.cli.progress;

import java.util.Locale;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.model.Plural;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.progress.ProgressCharts;
import org.sideport.workflow.progress.ProgressSentences;
import org.sideport.workflow.progress.ProgressWords;

/** Progress as people read it: the sentences of the charts. */
final class ProgressText {

    private ProgressText() {}

    static void print(ProgressView view, ProgressWords words, Console console) {
        ProgressCharts charts = new ProgressCharts(view, words);
        console.say(view.trainee() + ", " + view.procedure().id() + ": "
                + Plural.of(view.cases().size(), "case")
                + (view.hidden() > 0 ? " that you may see, " + view.hidden() + " more" : "")
                + ", " + view.untagged() + " of them not tagged.");
        LeftOutCases.say(view.leftOut(), console);
        for (Chart chart : charts.all()) {
            if (!chart.id().equals("complications")) {
                console.say("");
                console.say(chart.sentence());
            }
        }
        console.say("");
        console.say(new ProgressSentences(words).monitoring(view));
        long open = view.comments().stream().filter(c -> !c.answered()).count();
        console.say("");
        console.say(Plural.of(view.comments().size(), "comment") + " to work on, " + open + " without an answer.");
        for (ProgressView.Said said : view.comments()) {
            if (!said.answered()) {
                console.say(String.format(
                        Locale.ROOT,
                        "  %s %s %s %s: %s",
                        said.of().code(),
                        said.at().toClockText(),
                        said.author(),
                        said.tone().id(),
                        said.text().replace('\n', ' ')));
            }
        }
    }
}
