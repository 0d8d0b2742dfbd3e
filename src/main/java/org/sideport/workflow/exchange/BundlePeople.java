package org.sideport.workflow.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.model.SurgicalCase;
import org.sideport.report.bundle.CaseContent;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.TaggingStore;
import org.sideport.workflow.Codes;

/** The people of a bundle by the codes that they have here. The same code in two hospitals may be two people. */
final class BundlePeople {

    private final CaseContent content;
    private final ImportChoice choice;
    private final Map<String, String> codes = new HashMap<>();

    /**
     * @throws InputException if a code cannot be one, or two people would become one
     */
    BundlePeople(CaseContent content, ImportChoice choice) {
        this.content = content;
        this.choice = choice;
        String theirs = content.sheet().trainee();
        codes.putAll(choice.people());
        String traineeAs = choice.traineeAs();
        if (traineeAs != null) {
            codes.put(theirs, traineeAs);
        }
        Map<String, String> back = new HashMap<>();
        for (String person : all()) {
            String before = back.put(here(person), person);
            if (before != null && !before.equals(person)) {
                throw new InputException(
                        before + " and " + person + " of the bundle would both become " + here(person),
                        null,
                        "give each person a code of its own");
            }
        }
    }

    /** The code that a person of the bundle has here. */
    String here(String code) {
        return Codes.require("a person", codes.getOrDefault(code, code));
    }

    String trainee() {
        return here(content.sheet().trainee());
    }

    private Set<String> all() {
        Set<String> all = new TreeSet<>();
        all.add(content.sheet().trainee());
        all.addAll(others());
        return all;
    }

    private Set<String> others() {
        Set<String> all = new TreeSet<>();
        content.taggings().forEach(t -> all.add(t.annotator()));
        content.comments().forEach(c -> {
            all.add(c.author());
            c.replies().forEach(r -> all.add(r.author()));
        });
        content.measurements().forEach(m -> all.add(m.author()));
        content.ratings().forEach(r -> all.add(r.marks().path("assessor").asString("")));
        all.remove("");
        all.remove(content.sheet().trainee());
        return all;
    }

    /** Everyone, the trainee first. */
    List<ImportPlan.Person> list(Stores stores) {
        Set<String> here = inUse(stores);
        stores.cases().all().forEach(c -> here.add(c.trainee()));
        List<ImportPlan.Person> list = new ArrayList<>();
        list.add(new ImportPlan.Person(content.sheet().trainee(), trainee(), here.contains(trainee())));
        others().forEach(code -> list.add(new ImportPlan.Person(code, here(code), here.contains(here(code)))));
        return list;
    }

    /** Codes of annotators and assessors here. */
    private static Set<String> inUse(Stores stores) {
        Set<String> here = stores.taggings().all().stream()
                .map(TaggingStore.Key::annotator)
                .collect(Collectors.toCollection(TreeSet::new));
        stores.ratings().all().stream().map(StoredRating::rating).forEach(r -> here.add(r.assessor()));
        return here;
    }

    /** A new case of a trainee whose code is in use here must not be given to somebody else unasked. */
    void ask(Stores stores, boolean known, List<ImportRemark> questions, List<ImportRemark> notes) {
        if (known) {
            return;
        }
        List<SurgicalCase> cases = stores.cases().all();
        String trainee = trainee();
        long own = cases.stream().filter(c -> c.trainee().equals(trainee)).count();
        if (own > 0
                && choice.traineeAs() == null
                && !codes.containsKey(content.sheet().trainee())) {
            questions.add(ImportRemark.of(
                    ImportRemark.Kind.SAME_TRAINEE,
                    "Is trainee " + trainee + " of the bundle the " + trainee + " who has "
                            + Plural.of(own, "case")
                            + " here? If so, say --trainee-as " + trainee + "; if not, give another code.",
                    trainee,
                    own));
        }
        Set<String> here = inUse(stores);
        Set<String> both = new TreeSet<>();
        for (String person : others()) {
            if (here.contains(here(person)) && !codes.containsKey(person)) {
                both.add(person);
            }
        }
        if (!both.isEmpty()) {
            notes.add(ImportRemark.of(
                    ImportRemark.Kind.CODES_IN_USE,
                    "Codes that are in use here too: " + String.join(", ", both)
                            + ". If they are other people, give them other codes (--person-as OLD=NEW).",
                    String.join(", ", both)));
        }
    }
}
