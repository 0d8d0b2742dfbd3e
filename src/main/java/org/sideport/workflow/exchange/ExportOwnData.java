package org.sideport.workflow.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.sideport.model.AgreedMark;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.report.bundle.CaseBundle;
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
        SortedMap<String, String> rubrics = new TreeMap<>();
        OwnDataWriter.OwnData data = workspace.read(stores -> collect(stores, trainee, rubrics));
        if (data.cases().isEmpty() && data.deeds().isEmpty() && data.decisions().isEmpty()) {
            throw new InputException("there is nothing about " + trainee + " here", null, "check the code");
        }
        OwnDataWriter.write(data, new OwnDataWriter.Beside(rubrics, voices(data)), out);
        workspace.change(stores -> stores.audit().add("person.export", trainee, "", ""));
        return data.cases().size();
    }

    /** A sound that is missing is no reason to hold back all the rest: the check of the store names it. */
    private SortedMap<String, Path> voices(OwnDataWriter.OwnData data) {
        SortedMap<String, Path> files = new TreeMap<>();
        for (CaseContent one : data.cases()) {
            for (CaseContent.CommentPart comment : one.comments()) {
                if (comment.voice() != null) {
                    String sha256 = comment.voice().sha256();
                    Path file = workspace.voices().file(sha256);
                    if (Files.isRegularFile(file)) {
                        files.put(sha256, file);
                    }
                }
            }
        }
        return files;
    }

    private static OwnDataWriter.OwnData collect(Stores stores, String trainee, Map<String, String> rubrics) {
        List<CaseContent> cases = new ArrayList<>();
        Set<String> own = stores.cases().all().stream()
                .filter(c -> c.trainee().equals(trainee))
                .map(SurgicalCase::code)
                .collect(Collectors.toCollection(java.util.LinkedHashSet::new));
        for (String code : own) {
            List<StoredRating> all = stores.ratings().ofCase(code);
            List<StoredRating> goes =
                    all.stream().filter(r -> goes(r, all, trainee)).toList();
            goes.forEach(r -> rubrics.put(
                    CaseBundle.rubricKey(r.rating().rubric(), r.rating().rubricVersion()), r.rubricJson()));
            cases.add(CaseParts.of(stores, stores.cases().get(code), goes));
        }
        List<OwnDataWriter.Deed> deeds = stores.audit().all().stream()
                .filter(e -> e.who().equals(trainee))
                .map(e -> new OwnDataWriter.Deed(
                        e.at().toString(), e.deed(), own.contains(e.subject()) ? e.subject() : ""))
                .toList();
        List<OwnDataWriter.Agreed> agreed = stores.agreedMarks().all(AgreedMark.Purpose.ADJUDICATION).stream()
                .filter(mark -> own.contains(mark.caseCode()))
                .filter(mark -> !isOwnOpen(stores.ratings().ofCase(mark.caseCode()), trainee, mark.rubric()))
                .map(ExportOwnData::part)
                .toList();
        List<OwnDataWriter.Decided> decisions = stores.decisions().of(trainee).stream()
                .map(d -> new OwnDataWriter.Decided(
                        d.decidedOn().toString(), d.rubric(), d.rubricVersion(), d.decidedBy(), d.wording(), d.shown()))
                .toList();
        return new OwnDataWriter.OwnData(trainee, Instant.now().toString(), cases, agreed, decisions, deeds);
    }

    private static OwnDataWriter.Agreed part(AgreedMark mark) {
        return new OwnDataWriter.Agreed(
                mark.caseCode(),
                mark.rubric(),
                mark.rubricVersion(),
                mark.agreedBy(),
                mark.agreedAt().toString(),
                mark.reason(),
                mark.scores().stream()
                        .map(s -> new OwnDataWriter.Score(
                                s.item(),
                                s.pointsOrNull(),
                                s instanceof ItemScore.Excused excused
                                        ? excused.reason().id()
                                        : null))
                        .toList());
    }

    /** Drafts of others are not made yet; marks of others wait for the own ones where those have been begun. */
    private static boolean goes(StoredRating rating, List<StoredRating> all, String trainee) {
        if (rating.rating().assessor().equals(trainee)) {
            return true;
        }
        return rating.state() != RatingState.DRAFT
                && !isOwnOpen(all, trainee, rating.rating().rubric());
    }

    private static boolean isOwnOpen(List<StoredRating> all, String trainee, String rubric) {
        return all.stream()
                .anyMatch(r -> r.state() == RatingState.DRAFT
                        && r.rating().self()
                        && r.rating().assessor().equals(trainee)
                        && r.rating().rubric().equals(rubric));
    }
}
