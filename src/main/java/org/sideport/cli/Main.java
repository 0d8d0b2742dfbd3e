package org.sideport.cli;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import org.sideport.cli.console.Console;

/** The program: {@code sideport COMMAND ...}. */
public final class Main {

    private Main() {}

    public static void main(String[] args) {
        PrintWriter out = utf8(System.out);
        PrintWriter err = utf8(System.err);
        int code = run(args, out, err, System.getenv(), Path.of(System.getProperty("user.home")));
        out.flush();
        err.flush();
        System.exit(code);
    }

    private static PrintWriter utf8(PrintStream stream) {
        return new PrintWriter(stream, true, StandardCharsets.UTF_8);
    }

    /** @return the exit code: 0 done, 1 a finding, 2 bad usage or input, 3 a fault of the program */
    public static int run(String[] args, PrintWriter out, PrintWriter err, Map<String, String> environment, Path home) {
        return new CommandTree(new Console(out, err, environment, home)).run(args);
    }
}
