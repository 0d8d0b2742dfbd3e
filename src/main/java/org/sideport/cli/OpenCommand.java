package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppLauncher;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.store.LoginRefusedException;
import org.sideport.store.Workspace;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "open", description = "Opens the app; a new or empty folder becomes a workspace.")
final class OpenCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(
            paramLabel = "DIR",
            arity = "0..1",
            description = "The workspace; by default the last used, else ~/Sideport.")
    @Nullable
    Path dir;

    OpenCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (!DemoFiles.hasScreen()) {
            throw new InputException(
                    "there is no screen here to open a window on",
                    null,
                    "work from the command line, or start it under a virtual screen: xvfb-run -a ./sideport open");
        }
        AppLauncher app = AppLauncher.begin();
        Path named = dir == null ? console.namedWorkspace() : dir;
        Path folder = console.workspaces().folder(named);
        app.opening(folder);
        Workspace workspace;
        try {
            workspace = console.workspaces().openOrCreate(named);
        } catch (LoginRefusedException refused) {
            app.launch(folder);
            return 0;
        } catch (InputException unusable) {
            Path instead = app.refused(folder, unusable).orElseThrow(() -> unusable);
            console.workspaces().remember(instead);
            return 0;
        }
        app.launch(workspace);
        return 0;
    }
}
