package org.sideport.report;

import java.util.List;

/** What every report says that could bear on a person's career or a patient's safety. */
public final class Cautions {

    /** One sentence or two each, the most important first. */
    public static final List<String> LINES = List.of(
            "Formative: these figures support a conversation between trainee and assessor. They are no basis for a"
                    + " decision about a person by themselves.",
            "Sideport is no medical device and gives no clinical advice.",
            "Speed is not competence: a timing alone never fails anyone, and a fast case is not thereby a good one.",
            "Small numbers mislead. Read every figure together with its n and with the mix of cases behind it.",
            "Local regulations, the credentialing body and licensed judgement come before anything written here.");

    /** For the foot of a page. */
    public static final String SHORT =
            "Formative. No medical device. Speed is not competence. Regulations and licensed judgement come first.";

    private Cautions() {}
}
