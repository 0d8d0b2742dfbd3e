package org.sideport.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "hide",
        description = {
            "Says which areas of a case's picture nobody may see who gets something of it, such as a name that a machine"
                    + " wrote into the picture. Films, stills, feedback pages and papers are black there, and so is the"
                    + " picture for whoever marks the case blind; the recording itself stays as it is. Without options"
                    + " it tells which areas are hidden now.",
            "",
            "Example: sideport case hide C-17 --area 0,0,320,40 --area 500,440,140,40@0:00-0:12"
        })
final class CaseHideCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code = "";

    @Option(
            names = "--area",
            paramLabel = "AREA",
            description =
                    "X,Y,WIDTH,HEIGHT in pixels of the picture as it is seen, with @FROM-TO behind it for a part of the"
                            + " time; may be repeated. The areas given take the place of those before.")
    List<String> areas = new ArrayList<>();

    @Option(names = "--none", description = "Hide nothing any more.")
    boolean none;

    CaseHideCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (none && !areas.isEmpty()) {
            throw new InputException("--none and --area contradict each other", null, "say one of them");
        }
        List<MaskArea> wanted = areas.stream().map(MaskArea::parse).toList();
        try (Workspace workspace = console.open()) {
            HideAreas hide = new HideAreas(workspace);
            if (none || !wanted.isEmpty()) {
                hide.replace(code, wanted);
            }
            List<String> now = hide.of(code).stream().map(MaskArea::text).toList();
            if (console.isJson()) {
                console.printJson(Json.object("case", code, "hidden_areas", now));
            } else if (now.isEmpty()) {
                console.say("Nothing is hidden in handouts of " + code + ".");
            } else {
                console.say("Black in handouts of " + code + ":");
                now.forEach(area -> console.say("  " + area));
            }
        }
        return 0;
    }
}
