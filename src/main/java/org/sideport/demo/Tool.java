package org.sideport.demo;

/** What the surgeon's right or left hand brings into the picture. */
enum Tool {
    SIDE_BLADE,
    KERATOME,
    CANNULA,
    FORCEPS,
    PHACO,
    CHOPPER,
    ASPIRATION,
    INJECTOR,
    HOOK
}
