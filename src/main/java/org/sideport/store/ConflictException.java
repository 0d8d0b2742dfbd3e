package org.sideport.store;

import org.sideport.model.InputException;

/** Somebody else, or another window, saved the same thing meanwhile; nothing of either is lost. */
public final class ConflictException extends InputException {

    private static final long serialVersionUID = 1L;

    public ConflictException(String what, String remedy) {
        super(what, null, remedy);
    }
}
