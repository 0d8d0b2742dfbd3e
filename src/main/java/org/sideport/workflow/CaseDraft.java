package org.sideport.workflow;

import java.nio.file.Path;
import java.util.List;

/**
 * A case that is to be taken in, with the files of its recording in order.
 *
 * @param place where it comes from, for messages: "row 7", a folder
 */
public record CaseDraft(String place, NewCase details, List<Path> files) {

    public CaseDraft {
        files = List.copyOf(files);
    }
}
