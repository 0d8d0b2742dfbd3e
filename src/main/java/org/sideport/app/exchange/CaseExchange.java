package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.List;

/** Opens the windows for what goes to other stores and to workbooks, and comes back. */
public interface CaseExchange {

    /** Cases as bundles, one file each. */
    void handOut(List<String> codes);

    /** Tags and comments of a case in a published format for other programs. */
    void toOtherPrograms(String code);

    /** A teaching film of a case. */
    void makeFilm(String code);

    /** Copies of a case's recording with its phases as chapters. */
    void copyWithChapters(String code);

    /** Which areas of a case's picture are black in what is handed out. */
    void hideAreas(String code);

    /** Asks for a bundle to take in. */
    void chooseBundle();

    /** A bundle that was chosen or dropped. */
    void takeIn(Path file);

    /** The marking form of a case. */
    void writeForm(String code);

    /** Asks for a filled-in form. */
    void chooseForm();
}
