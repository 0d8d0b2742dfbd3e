package org.sideport.cli.stats;

import org.sideport.model.InputException;

/** The level of limits, as commands take it. */
final class Levels {

    private Levels() {}

    /**
     * @throws InputException if it is not between 0 and 1
     */
    static void check(double level) {
        if (!(level > 0 && level < 1)) {
            throw new InputException(
                    "the level " + Figures.plain(level) + " is not between 0 and 1",
                    "--level",
                    "write for instance 0.95");
        }
    }
}
