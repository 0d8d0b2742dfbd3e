package org.sideport.store;

/** The logins that a shared database keeps for the persons of a workspace; passwords are never stored by this program. */
public interface Logins {

    /**
     * Makes the login of a person who is listed already. One that exists, for another workspace of the same server, is kept
     * with its password.
     *
     * @throws org.sideport.model.InputException if the caller may not, or somebody else has the name
     */
    void make(String person, String password);

    /**
     * Sets a person's password: one's own, or by a director another's.
     *
     * @throws org.sideport.model.InputException if the caller may not
     */
    void change(String person, String password);
}
