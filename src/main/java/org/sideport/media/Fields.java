package org.sideport.media;

/** What is shown of a frame whose two fields were taken at different moments. */
public enum Fields {
    /** The first field's moment where the picture is flagged as interlaced, the picture as it is where it is not. */
    AUTO,
    /** Both fields woven together, as coded: moving edges look like combs. */
    WOVEN,
    /** The moment of the field shown first, its missing lines made from the neighbourhood. */
    FIRST,
    /** The moment of the field shown second. */
    SECOND
}
