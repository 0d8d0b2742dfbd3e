package org.sideport.cli.copy;

import java.util.List;
import org.sideport.cli.console.Console;

/** All commands that write copies of recordings; originals are only read. */
public final class CopyCommands {

    private CopyCommands() {}

    public static List<Object> all(Console console) {
        return List.of(
                new ClipCommand(console),
                new NeutralCopyCommand(console),
                new MaskCommand(console),
                new ProxyCommand(console),
                new FilmstripCommand(console),
                new RepairCommand(console));
    }

    /** "2 frames could not be decoded …", or nothing. */
    static void noteLost(Console console, long lost) {
        if (lost > 0) {
            console.note("Warning: damage has swallowed " + org.sideport.model.Plural.of(lost, "frame")
                    + " of the recording; the copy does not have " + (lost == 1 ? "it" : "them") + " either.");
        }
    }
}
