package org.sideport.model;

/** "1 file", "2 files". */
public final class Plural {

    private Plural() {}

    public static String of(long n, String noun) {
        return n + " " + noun + (n == 1 ? "" : "s");
    }
}
