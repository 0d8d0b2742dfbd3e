package org.sideport.workflow;

/** What this program is, for reports. */
public final class Program {

    /** The version in pom.xml; a test holds the two together. */
    public static final String VERSION = "0.1.0";

    private Program() {}
}
