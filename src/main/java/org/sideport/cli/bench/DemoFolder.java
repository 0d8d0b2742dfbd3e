package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sideport.cli.console.Console;
import org.sideport.workflow.RunDemo;

/**
 * The demo's workspace in a temporary folder, deleted on close.
 *
 * @param home an empty folder that may serve as the user's
 */
record DemoFolder(Path folder, Path workspace, Path home) implements AutoCloseable {

    static DemoFolder make(Console console) throws IOException {
        Path folder = Files.createTempDirectory("sideport-bench");
        Path home = Files.createDirectory(folder.resolve("home"));
        Path workspace = folder.resolve("demo");
        Path data = Path.of(System.getProperty("sideport.home", ".")).resolve("demo-data");
        new RunDemo(data, line -> {})
                .run(workspace, console.progress())
                .workspace()
                .close();
        return new DemoFolder(folder, workspace, home);
    }

    @Override
    public void close() throws IOException {
        Scratch.delete(folder);
    }
}
