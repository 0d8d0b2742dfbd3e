package org.sideport.workflow;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.rubric.FileCheck;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.RubricWriter;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.rubric.Versions;
import org.sideport.store.RubricStore;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Makes and changes rubrics of one's own, as files in the folder {@code rubrics} of the workspace. A version that a rating
 * was made with, or that comes with the program, stays as it is: a change of it becomes the next version. Thread-safe.
 */
public final class RubricWorkshop {

    private final Workspace workspace;
    private final Path folder;
    private final Vocabularies vocabularies;

    public RubricWorkshop(Workspace workspace) {
        this.workspace = workspace;
        this.folder = workspace.dir().resolve(Vocabularies.FOLDER);
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * A rubric at hand.
     *
     * @param file of one's own; {@code null} if it comes with the program
     * @param ratings how many were made with this version, drafts too
     * @param faults number of faults that keep it from being used
     */
    public record Shelf(
            String id,
            String version,
            String title,
            String procedure,
            int items,
            @Nullable Path file,
            int ratings,
            int faults) {}

    /**
     * A rubric in the editor.
     *
     * @param file that will be written in its place; {@code null} for a new one
     * @param text of that file as it was opened; {@code null} for a new one
     * @param ratings how many were made with the version before this one
     */
    public record Opened(
            RubricDraft draft,
            @Nullable Path file,
            @Nullable String text,
            int ratings) {}

    /** What was written. */
    public record Saved(Path file, Rubric rubric) {}

    /** The newest of each id, and every file of one's own that has a fault. */
    public List<Shelf> shelf() {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        List<Procedure> procedures = procedures();
        List<RubricStore.Used> used = workspace.read(stores -> stores.rubrics().used());
        Map<String, Shelf> shelves = new LinkedHashMap<>();
        for (String name : ShippedRubrics.RUBRICS) {
            Rubric rubric = RubricReader.read(ShippedRubrics.text(name), name);
            shelves.put(rubric.id(), shelf(rubric, null, used));
        }
        List<Shelf> faulty = new ArrayList<>();
        for (Path file : Vocabularies.files(folder, false)) {
            List<Finding> faults = FileCheck.check(file, procedures).stream()
                    .filter(Finding::isError)
                    .toList();
            if (faults.isEmpty()) {
                Shelf own = shelf(RubricReader.read(file), file, used);
                shelves.merge(
                        own.id(),
                        own,
                        (there, here) -> there.file() != null && Versions.compare(there.version(), here.version()) > 0
                                ? there
                                : here);
            } else {
                String name = String.valueOf(file.getFileName());
                faulty.add(new Shelf(name, "", name, "", 0, file, 0, faults.size()));
            }
        }
        List<Shelf> all = new ArrayList<>(shelves.values());
        all.addAll(faulty);
        return List.copyOf(all);
    }

    private static Shelf shelf(Rubric rubric, @Nullable Path file, List<RubricStore.Used> used) {
        return new Shelf(
                rubric.id(),
                rubric.version(),
                rubric.title(),
                rubric.procedure(),
                rubric.items().size(),
                file,
                ratings(used, rubric.id(), rubric.version()),
                0);
    }

    private static int ratings(List<RubricStore.Used> used, String id, String version) {
        return used.stream()
                .filter(u -> u.rubric().equals(id) && u.version().equals(version))
                .mapToInt(RubricStore.Used::ratings)
                .sum();
    }

    /** What rubrics can be for. */
    public List<Procedure> procedures() {
        return vocabularies.procedures();
    }

    /** A new one with nothing in it. */
    public Opened fresh(String procedure) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        return new Opened(RubricDraft.fresh(free("own-form"), procedure), null, null, 0);
    }

    /** One's own out of another, which stays as it is. */
    public Opened copy(Shelf of) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        Rubric rubric = vocabularies.rubric(of.id()).rubric();
        return new Opened(RubricDraft.copyOf(rubric, free(rubric.id() + "-own")), null, null, 0);
    }

    /**
     * To change it: the file itself, or its next version if it has been used or comes with the program.
     *
     * @throws InputException if the file cannot be read or is not JSON
     */
    public Opened open(Shelf shelf) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        Path file = shelf.file();
        List<RubricStore.Used> used = workspace.read(stores -> stores.rubrics().used());
        if (file != null && (shelf.faults() > 0 || !isUsed(used, shelf.id(), shelf.version()))) {
            String text = RubricWriter.text(file);
            RubricDraft draft = RubricDraft.read(file, null);
            Rubric earlier = find(draft.text("/id"), draft.text("/replaces/0/version"), used)
                    .orElse(null);
            return new Opened(RubricDraft.read(file, earlier), file, text, 0);
        }
        Rubric now =
                file == null ? find(shelf.id(), shelf.version(), List.of()).orElseThrow() : RubricReader.read(file);
        String highest =
                versions(shelf.id(), used).stream().max(Versions::compare).orElse(now.version());
        return new Opened(
                RubricDraft.nextOf(now, Versions.next(highest)),
                null,
                null,
                ratings(used, shelf.id(), shelf.version()));
    }

    /** Every fault of a draft; none if it can be saved. */
    public static List<Finding> check(RubricDraft draft, List<Procedure> procedures) {
        String wanted = draft.text("/procedure");
        Procedure procedure = procedures.stream()
                .filter(p -> p.id().equals(wanted))
                .findFirst()
                .orElse(null);
        return draft.check(procedure);
    }

    /**
     * Writes the draft as a file that the marking screen offers from then on.
     *
     * @param opened as it was opened
     * @throws InputException if it has a fault, its id or version is taken, or the file was changed meanwhile
     */
    public Saved save(Opened opened, RubricDraft draft) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        Rubric rubric = draft.finished(vocabularies.procedure(draft.text("/procedure")));
        String text = RubricWriter.json(rubric);
        return workspace.write(stores -> {
            Path file = target(stores, opened, draft, rubric, text);
            String before = opened.text();
            stores.audit()
                    .add(
                            "rubric.save",
                            rubric.id() + " " + rubric.version(),
                            before == null ? "" : Digests.sha256(before),
                            Digests.sha256(text));
            RubricWriter.write(folder.resolve(RubricWriter.SCHEMA), ShippedRubrics.text(RubricWriter.SCHEMA));
            RubricWriter.write(file, text);
            return new Saved(file, rubric);
        });
    }

    private Path target(Stores stores, Opened opened, RubricDraft draft, Rubric rubric, String text) {
        List<RubricStore.Used> used = stores.rubrics().used();
        if (used.stream()
                .anyMatch(u -> u.rubric().equals(rubric.id())
                        && u.version().equals(rubric.version())
                        && !u.json().equals(text))) {
            throw new InputException(
                    "ratings were made with version " + rubric.version() + ", so it cannot change any more",
                    null,
                    "give this one a higher version");
        }
        Path own = opened.file();
        if (own != null) {
            if (!Files.exists(own) || !RubricWriter.text(own).equals(opened.text())) {
                throw new InputException(
                        "the file was changed since it was opened here",
                        own.toString(),
                        "open it again; what is here can be copied from the fields first");
            }
        } else if (draft.earlier() == null && !versions(rubric.id(), used).isEmpty()) {
            throw new InputException(
                    "there is a rubric \"" + rubric.id() + "\" already", null, "give this one an id of its own");
        }
        Path file = own == null ? folder.resolve(rubric.id() + "-" + rubric.version() + ".json") : own;
        if (own == null && Files.exists(file)) {
            throw new InputException("the file is there already", file.toString(), "give this one a higher version");
        }
        for (Path other : Vocabularies.files(folder, false)) {
            if (!other.equals(file)
                    && named(other, "/id").equals(rubric.id())
                    && Versions.compare(named(other, "/version"), rubric.version()) >= 0) {
                throw new InputException(
                        "there is a version " + named(other, "/version") + " already",
                        other.toString(),
                        "give this one a higher version");
            }
        }
        return file;
    }

    private boolean isUsed(List<RubricStore.Used> used, String id, String version) {
        return used.stream().anyMatch(u -> u.rubric().equals(id) && u.version().equals(version));
    }

    private Optional<Rubric> find(String id, String version, List<RubricStore.Used> used) {
        for (RubricStore.Used one : used) {
            if (one.rubric().equals(id) && one.version().equals(version)) {
                return Optional.of(RubricReader.read(one.json(), id + " " + version));
            }
        }
        for (Path file : Vocabularies.files(folder, false)) {
            if (named(file, "/id").equals(id) && named(file, "/version").equals(version)) {
                return Optional.of(RubricReader.read(file));
            }
        }
        return ShippedRubrics.RUBRICS.stream()
                .map(name -> RubricReader.read(ShippedRubrics.text(name), name))
                .filter(r -> r.id().equals(id) && r.version().equals(version))
                .findFirst();
    }

    /** Every version of an id that is known anywhere. */
    private List<String> versions(String id, List<RubricStore.Used> used) {
        List<String> versions = new ArrayList<>();
        used.stream().filter(u -> u.rubric().equals(id)).forEach(u -> versions.add(u.version()));
        for (Path file : Vocabularies.files(folder, false)) {
            if (named(file, "/id").equals(id)) {
                versions.add(named(file, "/version"));
            }
        }
        ShippedRubrics.RUBRICS.stream()
                .map(name -> RubricReader.read(ShippedRubrics.text(name), name))
                .filter(r -> r.id().equals(id))
                .forEach(r -> versions.add(r.version()));
        return versions;
    }

    /** What a file that may have faults says at a place; empty if it cannot be read. */
    private static String named(Path file, String path) {
        try {
            return RubricDraft.read(file, null).text(path);
        } catch (InputException e) {
            return "";
        }
    }

    private String free(String id) {
        List<RubricStore.Used> used = workspace.read(stores -> stores.rubrics().used());
        String found = id;
        for (int i = 2; !versions(found, used).isEmpty(); i++) {
            found = id + "-" + i;
        }
        return found;
    }
}
