package org.sideport.workflow;

/** Whose logs somebody states to be complete: every operation of the trainee by this procedure is here, in turn. */
@FunctionalInterface
public interface CompleteLogs {

    boolean has(String trainee, String procedure);

    /** All of them, or none. */
    static CompleteLogs all(boolean complete) {
        return (trainee, procedure) -> complete;
    }
}
