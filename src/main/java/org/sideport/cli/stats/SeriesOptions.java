package org.sideport.cli.stats;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import picocli.CommandLine.Option;

/** What the user says of the log of cases that a chart is to be drawn from. */
final class SeriesOptions {

    @Option(
            names = "--consecutive",
            description = {
                "You state that the file holds every case in turn, none left out and none chosen. Without this statement"
                        + " nothing is charted."
            })
    boolean consecutive;

    @Option(
            names = "--subject",
            paramLabel = "CODE",
            description = "Whose cases, if the file has a column subject with several.")
    @Nullable
    String subject;

    @Option(
            names = "--up-to",
            paramLabel = "CASE",
            description = "Chart the cases up to this number, for instance because later outcomes are not known yet.")
    @Nullable
    Long upTo;

    /** Refuses a log of which nobody says that it is complete. */
    <T> Outcome<T> stated(java.util.function.Supplier<Outcome<T>> next) {
        return consecutive
                ? next.get()
                : Outcome.refused(
                        Refusal.Reason.SELECTED_SERIES,
                        "nobody states that these are all consecutive cases. Such a chart adds up case after case; if cases"
                                + " were chosen, for instance because a recording of them exists or is worth showing,"
                                + " whoever chose them also chose the result, and the promised error rates do not hold",
                        "take the log of all operations in their order, whether recorded or not, and add --consecutive to"
                                + " state that none is left out");
    }
}
