package org.sideport.app.people;

import java.util.Optional;
import org.sideport.model.InputException;
import org.sideport.store.LoginRefusedException;
import org.sideport.store.Workspace;
import org.sideport.workflow.DatabaseSignIn;
import org.sideport.workflow.SignIn;

/** What one comes in by with a code and a password. Asked off the screen's thread. */
public interface Door {

    /**
     * @return the workspace on behalf of who came in; empty if a new password is to be chosen first
     * @throws InputException if code and password do not belong together, or nobody can come in now
     */
    Optional<Workspace> enter(String code, char[] password);

    /**
     * Changes one's own password and comes in.
     *
     * @throws InputException as {@link #enter}, or if the new password is none that is taken
     */
    Workspace change(String code, char[] old, char[] fresh);

    /** The people of a workspace. */
    static Door of(SignIn people) {
        return new Door() {
            @Override
            public Optional<Workspace> enter(String code, char[] password) {
                return people.signIn(code, password) instanceof SignIn.Outcome.In in
                        ? Optional.of(in.workspace())
                        : Optional.empty();
            }

            @Override
            public Workspace change(String code, char[] old, char[] fresh) {
                return people.changePassword(code, old, fresh).workspace();
            }
        };
    }

    /**
     * The logins of a shared database, whose passwords its keeper sets.
     *
     * @param refused what is said when it does not take one
     */
    static Door of(DatabaseSignIn database, String refused) {
        return new Door() {
            @Override
            public Optional<Workspace> enter(String code, char[] password) {
                try {
                    return Optional.of(database.open(code, password));
                } catch (LoginRefusedException wrong) {
                    throw new InputException(refused, null, null, wrong);
                }
            }

            @Override
            public Workspace change(String code, char[] old, char[] fresh) {
                throw new UnsupportedOperationException("passwords are set by the keeper of the database");
            }
        };
    }
}
