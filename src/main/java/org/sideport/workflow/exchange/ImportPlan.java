package org.sideport.workflow.exchange;

import java.util.List;

/**
 * What a bundle brings, and where it differs from what is here.
 *
 * @param caseCode code that the case has or will have here
 * @param trainee code that the trainee has or will have here
 * @param newCase true if there is no such case here yet
 * @param people everyone in the bundle, the trainee first
 * @param questions nothing can be taken in while there is one
 * @param notes what whoever takes it in should know
 * @param mediaBytes size of the recording in the bundle; 0 for none
 * @param madeAt when the bundle was made, ISO 8601
 */
public record ImportPlan(
        String caseCode,
        String trainee,
        boolean newCase,
        List<Person> people,
        List<Line> lines,
        List<ImportRemark> questions,
        List<ImportRemark> notes,
        long mediaBytes,
        String madeAt) {

    public ImportPlan {
        people = List.copyOf(people);
        lines = List.copyOf(lines);
        questions = List.copyOf(questions);
        notes = List.copyOf(notes);
    }

    /**
     * @param code that the bundle has
     * @param here that the person has or will have here
     * @param known true if that code is in use here
     */
    public record Person(String code, String here, boolean known) {}

    /** What a line is about. */
    public enum What {
        CASE,
        DESCRIPTOR,
        CONSENT,
        RECORDING,
        HIDDEN_AREA,
        CUT,
        TAGGING,
        COMMENT,
        ANSWER,
        MEASUREMENT,
        RATING
    }

    /** What becomes of it. */
    public enum State {
        /** Not here yet: it comes in. */
        NEW,
        /** Here already, just so. */
        SAME,
        /** Here otherwise: the bundle's takes its place. */
        REPLACED,
        /** Here otherwise: what is here stays. */
        KEPT;

        /** True where bundle and store differ. */
        public boolean isConflict() {
            return this == REPLACED || this == KEPT;
        }
    }

    /**
     * @param name of the thing, such as {@code A1} for that person's tagging
     * @param detail what differs, for people; empty where nothing does
     */
    public record Line(What what, String name, State state, String detail) {}

    public List<Line> conflicts() {
        return lines.stream().filter(l -> l.state().isConflict()).toList();
    }

    /** True if taking it in would change nothing. */
    public boolean bringsNothing() {
        return lines.stream().noneMatch(l -> l.state() == State.NEW || l.state() == State.REPLACED);
    }
}
