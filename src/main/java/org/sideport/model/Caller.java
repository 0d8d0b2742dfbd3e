package org.sideport.model;

import java.util.Set;

/** On whose behalf the store is asked. */
public sealed interface Caller {

    /** The person's code; empty where nobody signed in. */
    String code();

    /** Whoever sits at a workspace that has no sign-in: may do all. */
    record Anyone() implements Caller {
        @Override
        public String code() {
            return "";
        }
    }

    /** Nobody has signed in yet at a workspace that asks for it: may do nothing. */
    record Nobody() implements Caller {
        @Override
        public String code() {
            return "";
        }
    }

    /** Someone who signed in. */
    record Person(String code, Set<Role> roles) implements Caller {
        public Person {
            roles = Set.copyOf(roles);
        }
    }
}
