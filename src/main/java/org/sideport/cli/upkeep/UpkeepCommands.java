package org.sideport.cli.upkeep;

import java.util.List;
import org.sideport.cli.console.Console;

/** The commands of this package, for the tree. */
public final class UpkeepCommands {

    private UpkeepCommands() {}

    /** Those under {@code workspace}. */
    public static List<Object> workspace(Console console) {
        return List.of(
                new WorkspaceCheckCommand(console),
                new WorkspaceBackupCommand(console),
                new WorkspaceRestoreCommand(console));
    }

    /** Those under {@code audit}. */
    public static List<Object> audit(Console console) {
        return List.of(new AuditListCommand(console));
    }

    /** The one under {@code rate}. */
    public static Object verify(Console console) {
        return new RateVerifyCommand(console);
    }
}
