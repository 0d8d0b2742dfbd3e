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

    /** Everything that is there now, each file read once. */
    Look look(List<RubricStore.Used> used) {
        return new Look(used, files().stream().map(RubricFolder::named).toList(), shipped());
    }

    /** What a file calls itself; empty texts if it cannot be read. */
    record Named(Path file, String id, String version) {}

    /**
     * @param used versions that ratings were made with
     * @param own files of one's own, by name
     */
    record Look(List<RubricStore.Used> used, List<Named> own, List<Rubric> shipped) {

        Optional<Rubric> find(String id, String version) {
            for (RubricStore.Used one : used) {
                if (one.rubric().equals(id) && one.version().equals(version)) {
                    return Optional.of(RubricReader.read(one.json(), id + " " + version));
                }
            }
            for (Named one : own) {
                if (one.id().equals(id) && one.version().equals(version)) {
                    return Optional.of(RubricReader.read(one.file()));
                }
            }
            return shipped.stream()
                    .filter(r -> r.id().equals(id) && r.version().equals(version))
                    .findFirst();
        }

        /** Every version of an id that is known anywhere. */
        List<String> versions(String id) {
            List<String> versions = new ArrayList<>();
            used.stream().filter(u -> u.rubric().equals(id)).forEach(u -> versions.add(u.version()));
            own.stream().filter(o -> o.id().equals(id)).forEach(o -> versions.add(o.version()));
            shipped.stream().filter(r -> r.id().equals(id)).forEach(r -> versions.add(r.version()));
            return versions;
        }

        /** An id that none has, beginning so. */
        String free(String id) {
            String found = id;
            for (int i = 2; !versions(found).isEmpty(); i++) {
                found = id + "-" + i;
            }
            return found;
        }
    }

    static List<Rubric> shipped() {
        return ShippedRubrics.RUBRICS.stream()
                .map(name -> RubricReader.read(ShippedRubrics.text(name), name))
                .toList();
    }

    /** A file that may have faults. */
    private static Named named(Path file) {
        try {
            RubricDraft draft = RubricDraft.read(file, null);
            return new Named(file, draft.text("/id"), draft.text("/version"));
        } catch (InputException e) {
            return new Named(file, "", "");
        }
    }
}
