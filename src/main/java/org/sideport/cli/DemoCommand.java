package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppLauncher;
import org.sideport.cli.console.Console;
import org.sideport.store.Workspace;
import org.sideport.workflow.RunDemo;
import org.sideport.workflow.WriteWorkbook;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "demo",
        description = "The main job from nothing, on drawn recordings and an invented cohort; then opens the app.")
final class DemoCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--out", paramLabel = "DIR", description = "The workspace to make; default: ~/sideport-demo.")
    @Nullable
    Path out;

    @Option(names = "--no-window", description = "Do not open the app.")
    boolean noWindow;

    DemoCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Path folder = (out == null ? Path.of(System.getProperty("user.home"), "sideport-demo") : out)
                .toAbsolutePath()
                .normalize();
        RunDemo.Result result = new RunDemo(DemoFiles.folder(), console::say).run(folder, console.progress());
        try (Workspace workspace = result.workspace()) {
            CohortTables.print(console, new WriteWorkbook(workspace).data());
        }
        if (console.isJson()) {
            console.say("Workbook: " + result.workbook());
        } else {
            console.say("");
            console.say("Workbook:  " + result.workbook());
            console.say("Workspace: " + folder);
            console.say("Try next:  sideport timing --case D-001 --workspace \"" + folder + "\"");
            console.say("           sideport open \"" + folder + "\"");
        }
        if (!noWindow) {
            if (DemoFiles.hasScreen()) {
                AppLauncher app = AppLauncher.begin();
                app.opening(folder);
                app.launch(console.workspaces().openOrCreate(folder));
            } else {
                console.say("There is no screen here, so the app is not opened.");
            }
        }
        return 0;
    }
}
