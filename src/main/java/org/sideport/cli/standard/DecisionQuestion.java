package org.sideport.cli.standard;

import org.jspecify.annotations.Nullable;
import org.sideport.workflow.Decisions;
import picocli.CommandLine.Option;

/** What a panel looks at. */
final class DecisionQuestion {

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee;

    @Option(names = "--rubric", paramLabel = "R", required = true, description = "Id of the rubric.")
    String rubric;

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    @Option(names = "--last", paramLabel = "N", description = "Only the latest N marked cases; by default all.")
    int last;

    @Option(
            names = "--wish",
            paramLabel = "W",
            defaultValue = "0.80",
            description = "Coefficient Φ to reach; default: ${DEFAULT-VALUE}.")
    double wish = Decisions.USUAL_WISH;

    @Option(
            names = "--minutes",
            paramLabel = "MIN",
            defaultValue = "15",
            description = "Minutes of one assessor for one case; default: ${DEFAULT-VALUE}.")
    double minutes = Decisions.USUAL_MINUTES;

    Decisions.Question question() {
        return new Decisions.Question(trainee, rubric, version, last, wish, minutes);
    }
}
