package org.sideport.workflow.consent;

import java.nio.file.Path;
import java.util.List;
import org.sideport.model.DeletionKind;

/**
 * What deleting a case would do.
 *
 * @param kind the reason that the store has for it
 * @param signed number of signed ratings that go with it
 * @param files recordings and voices in the workspace's folder, which are deleted
 * @param elsewhere recordings that lie outside, or are not what was taken in: to be deleted by a person
 * @param missing recordings that are not where they were last seen: if they still exist, to be deleted by a person
 * @param shared recordings in the workspace that another case uses too, which stay
 */
public record DeletionPlan(
        String code,
        DeletionKind kind,
        int signed,
        List<Path> files,
        List<Path> elsewhere,
        List<Path> missing,
        List<Path> shared) {

    /** What a program cannot know of, for every confirmation. */
    public static final String BEYOND =
            "Backups made before still hold the case until they are replaced, and copies, clips, bundles and reports"
                    + " that were handed out are not known here: delete them too.";

    public DeletionPlan {
        files = List.copyOf(files);
        elsewhere = List.copyOf(elsewhere);
        missing = List.copyOf(missing);
        shared = List.copyOf(shared);
    }

    /** True if there is something that only a person can do. */
    public boolean leavesWork() {
        return !elsewhere.isEmpty() || !missing.isEmpty() || !shared.isEmpty();
    }
}
