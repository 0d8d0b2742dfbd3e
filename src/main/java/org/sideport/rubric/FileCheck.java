package org.sideport.rubric;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;

/** Looks for every fault of a file that may be a rubric or a procedure. */
public final class FileCheck {

    private FileCheck() {}

    /**
     * @param known the procedures that a rubric may name
     * @return every fault in the order of the file; empty if there is none
     * @throws InputException if the file cannot be read
     */
    public static List<Finding> check(Path file, List<Procedure> known) {
        JsonSource source;
        try {
            source = JsonSource.parse(JsonSource.text(file), file.toString());
        } catch (NotJsonException e) {
            return List.of(e.finding());
        }
        if (source.root().has("phases")) {
            return ProcedureCheck.check(source);
        }
        String wanted = Ids.text(source.root(), "procedure");
        Procedure own =
                known.stream().filter(p -> p.id().equals(wanted)).findFirst().orElse(null);
        List<Finding> findings = new ArrayList<>(RubricCheck.check(source, own));
        if (own == null && !wanted.isEmpty()) {
            findings.add(source.warning(
                    "/procedure",
                    "there is no procedure \"" + wanted + "\" here, so its phases were not checked",
                    "name its file: --procedure FILE"));
            findings.sort(Finding.IN_FILE_ORDER);
        }
        return List.copyOf(findings);
    }
}
