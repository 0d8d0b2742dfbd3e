package org.sideport.cli.copy;

import java.nio.file.Path;
import java.util.List;
import org.sideport.media.NaturalOrder;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Which recording, and whether its copy may replace a file. */
final class SourceOptions {

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "The files of one operation.")
    List<Path> files = List.of();

    @Option(names = "--keep-order", description = "Take the files in the order given, not by name.")
    boolean keepOrder;

    @Option(names = "--replace", description = "Write over what is there; never over the recording itself.")
    boolean replace;

    List<Path> ordered() {
        return keepOrder ? List.copyOf(files) : NaturalOrder.sorted(files);
    }
}
