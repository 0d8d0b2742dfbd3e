package org.sideport.app.exchange;

import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;

/** Somebody in a bundle, with the code that is written for them here; empty for the same. */
final class PersonHere {

    private final String code;
    private final boolean known;
    private final boolean trainee;
    private final StringProperty here = new SimpleStringProperty("");

    /** @param known true if the code is in use here */
    PersonHere(String code, boolean known, boolean trainee) {
        this.code = code;
        this.known = known;
        this.trainee = trainee;
    }

    String code() {
        return code;
    }

    boolean isKnown() {
        return known;
    }

    boolean isTrainee() {
        return trainee;
    }

    StringProperty hereProperty() {
        return here;
    }
}
