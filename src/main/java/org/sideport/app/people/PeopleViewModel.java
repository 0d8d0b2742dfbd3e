package org.sideport.app.people;

import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.Person;
import org.sideport.model.Role;
import org.sideport.workflow.People;

/** The people of a workspace while a director looks after them. */
public final class PeopleViewModel {

    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final People job;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Runnable signOut;
    private final ObservableList<Person> people = FXCollections.observableArrayList();

    /** @param signOut what follows when the first person has been added: that one signs in */
    public PeopleViewModel(People job, Background work, Notices notices, Texts texts, Runnable signOut) {
        this.job = job;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.signOut = signOut;
    }

    public ObservableList<Person> people() {
        return people;
    }

    /** Reads them anew. */
    /** True once what there is was read: before that nothing is known to be empty. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    public void refresh() {
        work.run(
                progress -> job.list(),
                found -> {
                    people.setAll(found);
                    loaded.set(true);
                },
                notices::failed);
    }

    /**
     * Adds a person with a password that is made.
     *
     * @param tell gets it, to be told once
     */
    public void add(String code, Set<Role> roles, Consumer<People.Added> tell) {
        work.run(
                progress -> job.add(code, roles),
                added -> {
                    refresh();
                    tell.accept(added);
                },
                notices::failed);
    }

    /** Adds the first person, who chooses the password and signs in with it. */
    public void addFirst(String code, Set<Role> roles, String password, Consumer<String> failed, Runnable done) {
        work.run(
                progress -> job.add(code, roles, password.toCharArray()),
                added -> {
                    done.run();
                    signOut.run();
                },
                failure -> {
                    Notice notice = Notice.of(failure, texts);
                    failed.accept(notice == null ? "" : notice.text());
                });
    }

    public void setRoles(Person person, Set<Role> roles) {
        change(() -> job.setRoles(person.code(), roles));
    }

    /** Blocks the person, or unblocks one who is blocked. */
    public void turn(Person person) {
        change(() -> {
            if (person.active()) {
                job.block(person.code());
            } else {
                job.unblock(person.code());
            }
        });
    }

    private void change(Runnable deed) {
        work.run(
                progress -> {
                    deed.run();
                    return job.list();
                },
                (List<Person> now) -> people.setAll(now),
                notices::failed);
    }

    /** @param tell gets the new first password, to be told once */
    public void resetPassword(Person person, Consumer<People.Added> tell) {
        work.run(
                progress -> job.resetPassword(person.code()),
                added -> {
                    refresh();
                    tell.accept(added);
                },
                notices::failed);
    }

    /** In what state a person is, in words; empty if there is nothing to say. */
    public String state(@Nullable Person person) {
        if (person == null) {
            return "";
        }
        if (!person.active()) {
            return texts.get("people.blocked");
        }
        return person.mustChange() ? texts.get("people.mustChange") : "";
    }
}
