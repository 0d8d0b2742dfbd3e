package org.sideport.cli.exchange;

import java.util.ArrayList;
import java.util.List;
import org.sideport.cli.console.Console;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.consent.ConsentDoubt;
import org.sideport.workflow.consent.ConsentDoubts;
import picocli.CommandLine.Option;

/** Says before a case is handed out what speaks against it, and asks once where a person sits at a terminal. */
final class AskConsent {

    private final Console console;
    private final List<String> said = new ArrayList<>();

    @Option(
            names = "--yes",
            description = "Do not ask where no consent is recorded; it is said all the same. Nobody is asked without a"
                    + " terminal or with --json.")
    boolean yes;

    AskConsent(Console console) {
        this.console = console;
    }

    /**
     * @throws InputException if the case may not be handed out, or the answer is no
     */
    @SuppressWarnings("SystemConsoleNull")
    void before(Workspace workspace, String code, ConsentPurpose purpose) {
        List<ConsentDoubt> doubts = new ConsentDoubts(workspace).of(List.of(code), purpose);
        for (ConsentDoubt doubt : doubts) {
            console.note(doubt.text());
            said.add(doubt.text());
        }
        java.io.Console terminal = System.console();
        if (doubts.isEmpty() || yes || console.isJson() || terminal == null) {
            return;
        }
        String answer = terminal.readLine("Hand it out all the same? [y/N] ");
        if (answer == null || !answer.strip().toLowerCase(java.util.Locale.ROOT).startsWith("y")) {
            throw new InputException("nothing was written", null, "record the consent first, or answer y");
        }
    }

    /** What a job had to say afterwards, without what was said before. */
    void tell(List<String> warnings) {
        warnings.stream().filter(warning -> !said.contains(warning)).forEach(console::note);
    }
}
