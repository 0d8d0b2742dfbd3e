package org.sideport.workflow;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.rubric.ProcedureReader;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.rubric.Versions;
import org.sideport.store.Workspace;

/**
 * The procedure files and rubrics at hand: those that come with the program, and the user's own in the folder
 * {@code rubrics} of the workspace, which go before shipped ones of the same id. Thread-safe.
 */
public final class Vocabularies {

    static final String FOLDER = "rubrics";
    private static final String PROCEDURE_END = "-procedure.json";
    private static final String SCHEMA_END = ".schema.json";

    private final @Nullable Path folder;

    public Vocabularies(Workspace workspace) {
        this(workspace.dir().resolve(FOLDER));
    }

    private Vocabularies(@Nullable Path folder) {
        this.folder = folder;
    }

    /** Without a workspace: what comes with the program. */
    public static Vocabularies shippedOnly() {
        return new Vocabularies((Path) null);
    }

    /** A rubric with the very text that it was read from. */
    public record RubricText(Rubric rubric, String json) {}

    private record Source(String name, String json) {}

    public List<Procedure> procedures() {
        Map<String, Procedure> byId = new LinkedHashMap<>();
        for (String name : ShippedRubrics.PROCEDURES) {
            Procedure procedure = ProcedureReader.read(ShippedRubrics.text(name), name);
            byId.put(procedure.id(), procedure);
        }
        for (Source own : ownFiles(true)) {
            Procedure procedure = ProcedureReader.read(own.json(), own.name());
            byId.put(procedure.id(), procedure);
        }
        return List.copyOf(byId.values());
    }

    /**
     * @throws InputException if there is no such procedure
     */
    public Procedure procedure(String id) {
        List<Procedure> all = procedures();
        return all.stream()
                .filter(p -> p.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "there is no procedure \"" + id + "\"",
                        null,
                        "known are: "
                                + String.join(
                                        ", ", all.stream().map(Procedure::id).toList())
                                + "; put your own file into the folder rubrics of the workspace"));
    }

    public List<Rubric> rubrics(String procedureId) {
        return rubricTexts().stream()
                .map(RubricText::rubric)
                .filter(r -> r.procedure().equals(procedureId))
                .toList();
    }

    /** One of each id: of several own files of one id the highest version. */
    public List<RubricText> rubricTexts() {
        Map<String, RubricText> byId = new LinkedHashMap<>();
        for (String name : ShippedRubrics.RUBRICS) {
            Rubric rubric = RubricReader.read(ShippedRubrics.text(name), name);
            byId.put(rubric.id(), new RubricText(rubric, ShippedRubrics.text(name)));
        }
        Map<String, RubricText> own = new LinkedHashMap<>();
        for (Source source : ownFiles(false)) {
            Rubric rubric = RubricReader.read(source.json(), source.name());
            own.merge(
                    rubric.id(),
                    new RubricText(rubric, source.json()),
                    (one, other) -> Versions.compare(
                                            one.rubric().version(),
                                            other.rubric().version())
                                    > 0
                            ? one
                            : other);
        }
        byId.putAll(own);
        return List.copyOf(byId.values());
    }

    /**
     * @throws InputException if there is no such rubric
     */
    public RubricText rubric(String id) {
        List<RubricText> all = rubricTexts();
        return all.stream()
                .filter(r -> r.rubric().id().equals(id))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "there is no rubric \"" + id + "\"",
                        null,
                        "known are: "
                                + String.join(
                                        ", ",
                                        all.stream().map(r -> r.rubric().id()).toList())
                                + "; put your own file into the folder rubrics of the workspace"));
    }

    private List<Source> ownFiles(boolean procedures) {
        Path dir = folder;
        return dir == null
                ? List.of()
                : files(dir, procedures).stream()
                        .map(file -> new Source(file.toString(), text(file)))
                        .toList();
    }

    /** The procedure or rubric files of a folder, by name; none if there is no folder. */
    static List<Path> files(Path dir, boolean procedures) {
        if (!Files.isDirectory(dir)) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(dir)) {
            List<Path> found = new ArrayList<>();
            for (Path file : files.sorted().toList()) {
                String name = String.valueOf(file.getFileName());
                if (name.endsWith(".json")
                        && !name.startsWith(".")
                        && !name.endsWith(SCHEMA_END)
                        && name.endsWith(PROCEDURE_END) == procedures) {
                    found.add(file);
                }
            }
            return found;
        } catch (IOException e) {
            throw new InputException("cannot be read: " + e.getMessage(), dir.toString(), null, e);
        }
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (CharacterCodingException e) {
            throw new InputException("the file is not UTF-8 text", file.toString(), "save it as UTF-8", e);
        } catch (IOException e) {
            throw new InputException("cannot be read: " + e.getMessage(), file.toString(), null, e);
        }
    }
}
