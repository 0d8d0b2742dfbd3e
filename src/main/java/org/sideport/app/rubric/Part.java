package org.sideport.app.rubric;

import java.util.ArrayList;
import java.util.List;
import org.sideport.rubric.RubricDraft;

/**
 * What is edited on one form.
 *
 * @param index position among the items; 0 for other kinds
 */
record Part(Kind kind, int index) {

    enum Kind {
        /** title, source and the like */
        FORM,
        LEVELS,
        DOMAINS,
        ITEM,
        STANDARD,
        /** what became of the items of the version before */
        EARLIER
    }

    static final Part FORM = new Part(Kind.FORM, 0);
    static final Part LEVELS = new Part(Kind.LEVELS, 0);
    static final Part DOMAINS = new Part(Kind.DOMAINS, 0);
    static final Part STANDARD = new Part(Kind.STANDARD, 0);
    static final Part EARLIER = new Part(Kind.EARLIER, 0);

    static Part item(int index) {
        return new Part(Kind.ITEM, index);
    }

    /** Path of an item's place in the draft. */
    String path() {
        return "/items/" + index;
    }

    /** All parts of a draft, items by domain. */
    static List<Part> all(RubricDraft draft) {
        List<Part> parts = new ArrayList<>(List.of(FORM, LEVELS, DOMAINS));
        List<String> domains = draft.texts("/domains", "id");
        List<String> of = draft.texts("/items", "domain");
        for (String domain : domains) {
            for (int i = 0; i < of.size(); i++) {
                if (of.get(i).equals(domain) && !parts.contains(item(i))) {
                    parts.add(item(i));
                }
            }
        }
        for (int i = 0; i < of.size(); i++) {
            if (!domains.contains(of.get(i))) {
                parts.add(item(i));
            }
        }
        parts.add(STANDARD);
        if (draft.earlier() != null) {
            parts.add(EARLIER);
        }
        return parts;
    }

    /** The part on whose form a place of the draft is. */
    static Part of(String path, RubricDraft draft) {
        String[] steps = path.split("/", -1);
        String first = steps.length > 1 ? steps[1] : "";
        if (first.equals("translations") && steps.length > 3) {
            return translated(steps, draft);
        }
        return switch (first) {
            case "levels" -> LEVELS;
            case "domains" -> DOMAINS;
            case "items" -> steps.length > 2 && steps[2].matches("\\d{1,6}") ? item(Integer.parseInt(steps[2])) : FORM;
            case "pass_standard" -> STANDARD;
            case "replaces" -> draft.earlier() == null ? FORM : EARLIER;
            default -> FORM;
        };
    }

    private static Part translated(String[] steps, RubricDraft draft) {
        int item = steps[3].equals("items") && steps.length > 4
                ? draft.texts("/items", "id")
                        .indexOf(steps[4].replace("~1", "/").replace("~0", "~"))
                : -1;
        return switch (steps[3]) {
            case "levels" -> LEVELS;
            case "domains" -> DOMAINS;
            case "items" -> item < 0 ? FORM : item(item);
            default -> FORM;
        };
    }
}
