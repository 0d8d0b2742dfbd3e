package org.sideport.cli.progress;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowProgress;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "peers",
        description = {
            "Shows or sets from how many others on a trainee is told what they took. At first "
                    + FollowProgress.USUAL_PEERS + " (common practice, no source); never fewer than "
                    + FollowProgress.LEAST_PEERS + ".",
            "Example: sideport cohort peers --fewest 8"
        })
final class CohortPeersCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--fewest", paramLabel = "N", description = "Others, at least.")
    @Nullable
    Integer fewest;

    CohortPeersCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            FollowProgress progress = new FollowProgress(workspace);
            if (fewest != null) {
                progress.setFewestPeers(fewest);
            }
            int now = progress.fewestPeers();
            if (console.isJson()) {
                console.printJson(Json.object("fewest_peers", now));
            } else {
                console.say("What others took is told where there are at least " + now + " of them.");
            }
        }
        return 0;
    }
}
