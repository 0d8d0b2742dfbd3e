package org.sideport.workflow;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
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
    private final RubricFolder folder;
    private final Vocabularies vocabularies;

    public RubricWorkshop(Workspace workspace) {
        this.workspace = workspace;
        this.folder = new RubricFolder(workspace.dir().resolve(Vocabularies.FOLDER));
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
        List<RubricStore.Used> used = used();
        Map<String, Shelf> shelves = new LinkedHashMap<>();
        RubricFolder.shipped().forEach(r -> shelves.put(r.id(), shelf(r, null, used)));
        List<Shelf> faulty = new ArrayList<>();
        for (Path file : folder.files()) {
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
        return new Opened(RubricDraft.fresh(look().free("own-form"), procedure), null, null, 0);
    }

    /** One's own out of another, which stays as it is. */
    public Opened copy(Shelf of) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        RubricFolder.Look look = look();
        Rubric rubric = require(of, look);
        return new Opened(RubricDraft.copyOf(rubric, look.free(rubric.id() + "-own")), null, null, 0);
    }

    /**
     * To change it: the file itself, or its next version if it has been used or comes with the program.
     *
     * @throws InputException if the file cannot be read or is not JSON
     */
    public Opened open(Shelf shelf) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        Path file = shelf.file();
        RubricFolder.Look look = look();
        if (file != null && (shelf.faults() > 0 || !isUsed(look.used(), shelf.id(), shelf.version()))) {
            return reopen(file, look);
        }
        Rubric now = file == null ? require(shelf, folder.look(List.of())) : RubricReader.read(file);
        String highest =
                look.versions(shelf.id()).stream().max(Versions::compare).orElse(now.version());
        return new Opened(
                RubricDraft.nextOf(now, Versions.next(highest)),
                null,
                null,
                ratings(look.used(), shelf.id(), shelf.version()));
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
                            before == null ? "" : Sha256.of(before),
                            Sha256.of(text));
            RubricWriter.write(folder.path().resolve(RubricWriter.SCHEMA), ShippedRubrics.text(RubricWriter.SCHEMA));
            RubricWriter.write(file, text);
            return new Saved(file, rubric);
        });
    }

    /** What was saved, as it is on the disk now, to go on with. */
    public Opened reopen(Saved saved) {
        Access.require(workspace, Permission.EDIT_RUBRIC);
        return reopen(saved.file(), look());
    }

    private static Opened reopen(Path file, RubricFolder.Look look) {
        String text = RubricWriter.text(file);
        RubricDraft draft = RubricDraft.read(file, null);
        Rubric earlier =
                look.find(draft.text("/id"), draft.text("/replaces/0/version")).orElse(null);
        return new Opened(RubricDraft.read(file, earlier), file, text, 0);
    }

    private static Rubric require(Shelf shelf, RubricFolder.Look look) {
        return look.find(shelf.id(), shelf.version())
                .orElseThrow(() -> new InputException(
                        "there is no rubric \"" + shelf.id() + "\" any more", null, "look at the list again"));
    }

    private RubricFolder.Look look() {
        return folder.look(used());
    }

    private List<RubricStore.Used> used() {
        return workspace.read(stores -> stores.rubrics().used());
    }

    private Path target(Stores stores, Opened opened, RubricDraft draft, Rubric rubric, String text) {
        RubricFolder.Look look = folder.look(stores.rubrics().used());
        if (look.used().stream()
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
        } else if (draft.earlier() == null && !look.versions(rubric.id()).isEmpty()) {
            throw new InputException(
                    "there is a rubric \"" + rubric.id() + "\" already", null, "give this one an id of its own");
        }
        Path file = own == null ? folder.path().resolve(rubric.id() + "-" + rubric.version() + ".json") : own;
        if (own == null && Files.exists(file)) {
            throw new InputException("the file is there already", file.toString(), "give this one a higher version");
        }
        for (RubricFolder.Named other : look.own()) {
            if (!other.file().equals(file)
                    && other.id().equals(rubric.id())
                    && Versions.compare(other.version(), rubric.version()) >= 0) {
                throw new InputException(
                        "there is a version " + other.version() + " already",
                        other.file().toString(),
                        "give this one a higher version");
            }
        }
        return file;
    }

    private boolean isUsed(List<RubricStore.Used> used, String id, String version) {
        return used.stream().anyMatch(u -> u.rubric().equals(id) && u.version().equals(version));
    }
}
