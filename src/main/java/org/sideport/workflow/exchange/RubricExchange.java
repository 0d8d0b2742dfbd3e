package org.sideport.workflow.exchange;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
import org.sideport.report.AtomicFile;
import org.sideport.report.exchange.CfPackageReader;
import org.sideport.report.exchange.CfPackageWriter;
import org.sideport.rubric.RubricWriter;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.RubricStore;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Rubrics to other programs and from them, as CASE 1.1 packages. */
public final class RubricExchange {

    private final Workspace workspace;
    private final Clock clock;

    public RubricExchange(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /**
     * Writes a rubric's newest version.
     *
     * @throws InputException if there is no such rubric, or the file cannot be written
     */
    public Rubric export(String id, Path out) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        Rubric rubric = new Vocabularies(workspace).rubric(id).rubric();
        byte[] text = CfPackageWriter.write(rubric, clock.instant()).getBytes(StandardCharsets.UTF_8);
        AtomicFile.write(out, stream -> stream.write(text));
        return rubric;
    }

    /**
     * One rubric of a package that was taken in.
     *
     * @param file where it is now; empty if it was here already, just so
     */
    public record Taken(Rubric rubric, Optional<Path> file) {}

    /**
     * Takes the rubrics of a package in, all or none.
     *
     * @param procedure id of the procedure that rubrics of other programs shall assess
     * @throws InputException at the first fault, or if an id with this version is taken by another text
     */
    public List<Taken> take(Path file, String procedure) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        Vocabularies vocabularies = new Vocabularies(workspace);
        vocabularies.procedure(procedure);
        List<Rubric> read = CfPackageReader.read(file, procedure);
        Path folder = workspace.dir().resolve("rubrics");
        return workspace.write(stores -> {
            List<Taken> taken = new ArrayList<>();
            for (Rubric rubric : read) {
                vocabularies.procedure(rubric.procedure());
                Path target = folder.resolve(rubric.id() + "-" + rubric.version() + ".json");
                boolean known = isKnown(vocabularies, stores.rubrics().used(), rubric, file);
                taken.add(new Taken(rubric, known ? Optional.empty() : Optional.of(target)));
            }
            for (Taken one : taken) {
                one.file().ifPresent(target -> {
                    String text = RubricWriter.json(one.rubric());
                    stores.audit()
                            .add(
                                    "rubric.import",
                                    one.rubric().id() + " " + one.rubric().version(),
                                    "",
                                    Sha256.of(text));
                    RubricWriter.write(folder.resolve(RubricWriter.SCHEMA), ShippedRubrics.text(RubricWriter.SCHEMA));
                    RubricWriter.write(target, text);
                });
            }
            return taken;
        });
    }

    /** True if the very same is here; refused if the same version says something else. */
    private static boolean isKnown(Vocabularies vocabularies, List<RubricStore.Used> used, Rubric rubric, Path file) {
        List<Rubric> same = new ArrayList<>();
        vocabularies.rubricTexts().stream().map(Vocabularies.RubricText::rubric).forEach(same::add);
        used.forEach(u -> same.add(org.sideport.rubric.RubricReader.read(u.json(), u.rubric())));
        for (Rubric one : same) {
            if (one.id().equals(rubric.id()) && one.version().equals(rubric.version())) {
                if (one.equals(rubric)) {
                    return true;
                }
                throw new InputException(
                        "there is a rubric " + rubric.id() + " " + rubric.version() + " already, with another text",
                        file.toString(),
                        "give the one in the file a higher version, or another title");
            }
        }
        return false;
    }
}
