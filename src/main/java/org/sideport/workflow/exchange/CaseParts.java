package org.sideport.workflow.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.Parts;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;

/** All that the store holds of a case, in the form in which it is handed out. */
final class CaseParts {

    private CaseParts() {}

    /** @param ratings those that go with it, oldest first */
    static CaseContent of(Stores stores, SurgicalCase one, List<StoredRating> ratings) {
        String code = one.code();
        Recording recording = one.recording();
        return new CaseContent(
                Parts.of(one),
                recording == null
                        ? List.of()
                        : recording.segments().stream().map(Parts::of).toList(),
                stores.hiddenAreas().of(code).stream().map(Parts::of).toList(),
                stores.cuts().of(code).stream().map(Parts::of).toList(),
                stores.taggings().annotators(code).stream()
                        .map(a -> Parts.of(
                                a,
                                stores.taggings().find(code, a).orElseThrow(),
                                stores.taggings().confirmed(code, a)))
                        .toList(),
                stores.comments().threads(code, "").stream().map(Parts::of).toList(),
                stores.measurements().of(code).stream().map(Parts::of).toList(),
                numbered(ratings));
    }

    private static List<CaseContent.RatingPart> numbered(List<StoredRating> ratings) {
        Map<Long, Integer> numbers = new HashMap<>();
        List<CaseContent.RatingPart> parts = new ArrayList<>();
        for (StoredRating rating : ratings) {
            int number = parts.size() + 1;
            numbers.put(rating.id(), number);
            parts.add(Parts.of(rating, number, numbers.get(rating.amends())));
        }
        return parts;
    }
}
