package org.sideport.app.frame;

import org.sideport.app.Settings;

/**
 * Where somebody is: screen, case, time, what is selected, which part of the timeline is shown, and what is being typed.
 *
 * @param screen id of the screen
 * @param code the case that is open; empty for none
 * @param selected the selected items, {@code lane@microseconds} each, separated by spaces; may be empty
 * @param fromUs start of the visible part
 * @param toUs its end; equal to the start where the whole is shown
 * @param draft what is being typed
 */
record Place(String screen, String code, long timeUs, String selected, long fromUs, long toUs, Draft draft) {

    /**
     * Text that is not kept in the store yet.
     *
     * @param field id of the field; empty for none
     * @param atUs for a comment: the moment it is about
     * @param item for a comment: its id
     */
    record Draft(String field, String text, int caret, long atUs, String item) {
        static final Draft NONE = new Draft("", "", 0, 0, "");
    }

    private static final String OPEN = "open";

    void put(Settings to) {
        to.put("screen", screen);
        to.put("case", code);
        to.put("time_us", timeUs);
        to.put("selected", selected);
        to.put("from_us", fromUs);
        to.put("to_us", toUs);
        to.put("draft.field", draft.field());
        to.put("draft.text", draft.text());
        to.put("draft.caret", draft.caret());
        to.put("draft.at_us", draft.atUs());
        to.put("draft.item", draft.item());
    }

    static Place of(Settings from) {
        return new Place(
                from.get("screen", ""),
                from.get("case", ""),
                micros(from, "time_us"),
                from.get("selected", ""),
                micros(from, "from_us"),
                micros(from, "to_us"),
                new Draft(
                        from.get("draft.field", ""),
                        from.get("draft.text", ""),
                        (int) micros(from, "draft.caret"),
                        micros(from, "draft.at_us"),
                        from.get("draft.item", "")));
    }

    private static long micros(Settings from, String key) {
        try {
            return Long.parseLong(from.get(key, "0"));
        } catch (NumberFormatException damaged) {
            return 0;
        }
    }

    /** Whether the program that wrote it ended without saying so. */
    static boolean wasCutShort(Settings from) {
        return from.get(OPEN, false);
    }

    static void opened(Settings to, boolean open) {
        to.put(OPEN, open);
    }
}
