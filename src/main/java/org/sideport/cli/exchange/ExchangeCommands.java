package org.sideport.cli.exchange;

import java.util.List;
import org.sideport.cli.console.Console;

/** The commands of the group {@code exchange}. */
public final class ExchangeCommands {

    private ExchangeCommands() {}

    public static List<Object> all(Console console) {
        return List.of(
                new ExchangeExportCommand(console),
                new ExchangeImportCommand(console),
                new ExchangeOwnDataCommand(console),
                new ExchangeFilmCommand(console));
    }
}
