package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricDraft;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.RubricStore;

/** Every version of every rubric that is known: used, in the folder, or shipped. */
final class RubricFolder {

    private final Path folder;

    RubricFolder(Path folder) {
        this.folder = folder;
    }

    Path path() {
        return folder;
    }

    /** Files of one's own, by name. */
    List<Path> files() {
        return Vocabularies.files(folder, false);
    }

    Optional<Rubric> find(String id, String version, List<RubricStore.Used> used) {
        for (RubricStore.Used one : used) {
            if (one.rubric().equals(id) && one.version().equals(version)) {
                return Optional.of(RubricReader.read(one.json(), id + " " + version));
            }
        }
        for (Path file : files()) {
            if (named(file, "/id").equals(id) && named(file, "/version").equals(version)) {
                return Optional.of(RubricReader.read(file));
            }
        }
        return shipped().stream()
                .filter(r -> r.id().equals(id) && r.version().equals(version))
                .findFirst();
    }

    /** Every version of an id that is known anywhere. */
    List<String> versions(String id, List<RubricStore.Used> used) {
        List<String> versions = new ArrayList<>();
        used.stream().filter(u -> u.rubric().equals(id)).forEach(u -> versions.add(u.version()));
        for (Path file : files()) {
            if (named(file, "/id").equals(id)) {
                versions.add(named(file, "/version"));
            }
        }
        shipped().stream().filter(r -> r.id().equals(id)).forEach(r -> versions.add(r.version()));
        return versions;
    }

    /** An id that none has, beginning so. */
    String free(String id, List<RubricStore.Used> used) {
        String found = id;
        for (int i = 2; !versions(found, used).isEmpty(); i++) {
            found = id + "-" + i;
        }
        return found;
    }

    static List<Rubric> shipped() {
        return ShippedRubrics.RUBRICS.stream()
                .map(name -> RubricReader.read(ShippedRubrics.text(name), name))
                .toList();
    }

    /** What a file that may have faults says at a place; empty if it cannot be read. */
    static String named(Path file, String path) {
        try {
            return RubricDraft.read(file, null).text(path);
        } catch (InputException e) {
            return "";
        }
    }
}
