package org.sideport.app.assign;

import java.util.List;
import java.util.function.Supplier;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.model.Assignment;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.Assignments.Work;

/** What the person at work has to mark. */
public final class ToMarkModel {

    private final Assignments assignments;
    private final Supplier<String> assessor;
    private final Background work;
    private final Notices notices;
    private final ObservableList<Work> open = FXCollections.observableArrayList();

    /** @param assessor code of the person at work; empty while it is not known */
    public ToMarkModel(Assignments assignments, Supplier<String> assessor, Background work, Notices notices) {
        this.assignments = assignments;
        this.assessor = assessor;
        this.work = work;
        this.notices = notices;
    }

    /** In the order of their labels. */
    public ObservableList<Work> open() {
        return open;
    }

    public String assessor() {
        return assessor.get();
    }

    public void refresh() {
        String who = assessor.get();
        if (who.isEmpty()) {
            open.clear();
            return;
        }
        work.run(
                progress -> assignments.mayHave(who) ? assignments.mine(who) : List.<Work>of(),
                mine -> open.setAll(mine.stream()
                        .filter(one -> one.assignment().state() == Assignment.State.OPEN)
                        .toList()),
                notices::failed);
    }
}
