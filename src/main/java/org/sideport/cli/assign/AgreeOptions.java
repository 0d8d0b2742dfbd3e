package org.sideport.cli.assign;

import org.sideport.cli.console.Console;
import org.sideport.model.AgreedMark;
import org.sideport.rubric.Score;
import picocli.CommandLine.Option;

/** Who agreed on which case and why. */
final class AgreeOptions {

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code = "";

    @Option(names = "--by", paramLabel = "P,A", description = "Codes of those who decided; by default who signed in.")
    String by = "";

    @Option(names = "--why", paramLabel = "TEXT", required = true, description = "The reason.")
    String why = "";

    static void show(
            Console console, AgreedMark mark, Score score, @org.jspecify.annotations.Nullable String standing) {
        if (console.isJson()) {
            console.printJson(AssignViews.of(mark, score, standing));
        } else {
            Double share = score.share();
            console.say(mark.caseCode() + ": "
                    + (standing == null ? "marks agreed" : "the marks of " + standing + " stand") + ", "
                    + (share == null ? "–" : String.format(java.util.Locale.ROOT, "%.0f %%", share * 100))
                    + " of the applicable maximum on " + score.marked() + " items, by " + mark.agreedBy() + ".");
        }
    }
}
