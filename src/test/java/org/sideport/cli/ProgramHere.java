package org.sideport.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.Map;
import org.sideport.cli.RealProgram.Result;

/** Runs the program as {@link Main} does, but in this process: each run opens the store anew, and none waits for a JVM. */
record ProgramHere(Path home) {

    Result run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(
                arguments,
                new PrintWriter(out, true),
                new PrintWriter(err, true),
                Map.of("SIDEPORT_CONFIG", home.resolve("config").toString(), "LC_ALL", "C.UTF-8"),
                home);
        return new Result(code, out.toString(), err.toString());
    }
}
