package org.sideport.app.cases;

import java.nio.file.Path;
import java.util.List;
import org.sideport.app.exchange.CaseExchange;

/** Opens the windows in which cases are taken in and changed. */
public interface CaseIntake {

    /** The window for one case, with some files in it already. */
    void add(List<Path> files);

    /** What was dropped: a sheet, the files of one case, or files and folders of several. */
    void drop(List<Path> dropped);

    /** Asks for a sheet of cases. */
    void chooseSheet();

    /** The sheet of a case. */
    void edit(String code);

    /** The windows for what goes to, and comes from, other stores. */
    CaseExchange exchange();
}
