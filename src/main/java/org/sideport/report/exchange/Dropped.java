package org.sideport.report.exchange;

import java.util.ArrayList;
import java.util.List;
import org.sideport.model.CommentThread;
import org.sideport.model.Plural;

/** What a format has no place for, in sentences; only of what the case has. */
public final class Dropped {

    private static final String REST = "Marks, measurements and the case sheet do not go with it.";

    private Dropped() {}

    /** Of formats that carry tags and comments whole. */
    public static List<String> ofVtt(Annotated from) {
        List<String> said = new ArrayList<>();
        voices(from, said);
        said.add(REST);
        return said;
    }

    /** @param atFrameRate true if times were rounded to frames */
    public static List<String> ofOtio(Annotated from, boolean atFrameRate) {
        List<String> said = new ArrayList<>();
        if (atFrameRate) {
            said.add("Markers stand on whole frames; the exact times are beside them and count again when it is read"
                    + " here.");
        }
        long drawn = from.threads().stream()
                .filter(t -> !t.comment().drawing().isEmpty())
                .count();
        if (drawn > 0) {
            said.add(Plural.of(drawn, "drawing") + (drawn == 1 ? " goes" : " go")
                    + " as data that other programs do not show.");
        }
        said.addAll(ofVtt(from));
        return said;
    }

    /** @param tickUs what times are cut to, microseconds */
    public static List<String> ofChapters(Annotated from, long tickUs) {
        List<String> said = new ArrayList<>();
        long cut = from.tagging().spans().stream()
                .filter(s -> s.start().micros() % tickUs != 0)
                .count();
        if (cut > 0) {
            said.add("Times are cut to milliseconds.");
        }
        long open = from.tagging().spans().stream()
                .filter(s -> from.endOf(s) == null)
                .count();
        count(open, "open phase", said);
        long operators = from.tagging().spans().stream()
                .filter(s -> s.operator() != null)
                .count();
        if (operators > 0) {
            said.add("Who operated is left out.");
        }
        if (!from.confirmed().isEmpty()) {
            said.add("Which boundaries are confirmed is left out.");
        }
        count(from.tagging().events().size(), "event", said);
        count(from.threads().size(), "comment", said);
        said.add(REST);
        return said;
    }

    /** @param events true if events go with the comments */
    public static List<String> ofCaptions(Annotated from, boolean events) {
        List<String> said = new ArrayList<>();
        said.add("Times are cut to milliseconds; a comment on a moment is shown for " + Threads.SHOWN_US / 1_000_000
                + " s.");
        count(from.tagging().spans().size(), "phase", said);
        if (!events) {
            count(from.tagging().events().size(), "event", said);
        }
        count(
                from.threads().stream()
                        .filter(t -> !t.comment().drawing().isEmpty())
                        .count(),
                "drawing",
                said);
        if (!from.threads().isEmpty()) {
            said.add("What comments are meant as, and items that they are about, are left out.");
        }
        voices(from, said);
        said.add(REST);
        return said;
    }

    /** Of the file of everything. */
    public static List<String> ofEverything(Annotated from) {
        List<String> said = new ArrayList<>();
        voices(from, said);
        return said;
    }

    private static void voices(Annotated from, List<String> said) {
        long spoken = from.threads().stream()
                .map(CommentThread::comment)
                .filter(c -> c.voice() != null)
                .count();
        if (spoken > 0) {
            said.add("The sound of " + Plural.of(spoken, "spoken comment") + " stays here.");
        }
    }

    private static void count(long number, String what, List<String> said) {
        if (number > 0) {
            said.add(Plural.of(number, what) + (number == 1 ? " is" : " are") + " left out.");
        }
    }
}
