package org.sideport.workflow.exchange;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.OwnDataWriter;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Writes all that the store holds about one trainee, for that trainee; nothing of anybody else's cases. */
public final class ExportOwnData {

    private final Workspace workspace;

    public ExportOwnData(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * @return number of cases in it
     * @throws InputException if the caller is neither that person nor a director, there is nothing about such a person, or
     *     the file cannot be written
     */
    public int export(String traineeCode, Path out) {
        String trainee = Codes.require("a trainee", traineeCode);
        Access.require(workspace, Permission.EXPORT_CASE);
        if (!Access.directsOrIs(workspace.caller(), trainee)) {
            throw new InputException(
                    "these are the data of another person",
                    null,
                    "a trainee asks for the own, a director for anyone's");
        }
        OwnDataWriter.OwnData data = workspace.read(stores -> collect(stores, trainee));
        if (data.cases().isEmpty() && data.deeds().isEmpty()) {
            throw new InputException("there is nothing about " + trainee + " here", null, "check the code");
        }
        OwnDataWriter.write(data, out);
        workspace.change(stores -> stores.audit().add("person.export", trainee, "", ""));
        return data.cases().size();
    }

    private static OwnDataWriter.OwnData collect(Stores stores, String trainee) {
        List<CaseContent> cases = new ArrayList<>();
        Set<String> own = stores.cases().all().stream()
                .filter(c -> c.trainee().equals(trainee))
                .map(SurgicalCase::code)
                .collect(Collectors.toCollection(java.util.LinkedHashSet::new));
        for (String code : own) {
            List<StoredRating> all = stores.ratings().ofCase(code);
            List<StoredRating> goes =
                    all.stream().filter(r -> goes(r, all, trainee)).toList();
            cases.add(CaseParts.of(stores, stores.cases().get(code), goes));
        }
        List<OwnDataWriter.Deed> deeds = stores.audit().all().stream()
                .filter(e -> e.who().equals(trainee))
                .map(e -> new OwnDataWriter.Deed(
                        e.at().toString(), e.deed(), own.contains(e.subject()) ? e.subject() : ""))
                .toList();
        return new OwnDataWriter.OwnData(trainee, Instant.now().toString(), cases, deeds);
    }

    /** Drafts of others are not made yet; marks of others wait for the own ones where those have been begun. */
    private static boolean goes(StoredRating rating, List<StoredRating> all, String trainee) {
        if (rating.rating().assessor().equals(trainee)) {
            return true;
        }
        boolean ownIsOpen = all.stream()
                .anyMatch(r -> r.state() == RatingState.DRAFT
                        && r.rating().self()
                        && r.rating().assessor().equals(trainee)
                        && r.rating().rubric().equals(rating.rating().rubric()));
        return rating.state() != RatingState.DRAFT && !ownIsOpen;
    }
}
