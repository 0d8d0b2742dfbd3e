package org.sideport.cli.people;

import java.util.Arrays;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.model.Person;
import org.sideport.store.Workspace;
import org.sideport.workflow.SignIn;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "password",
        description = {
            "Changes your own password, or makes a new first one for somebody who forgot theirs.",
            "Yours: asked for, or taken from SIDEPORT_PASSWORD (old) and SIDEPORT_NEW_PASSWORD (new).",
            "Example: sideport people password --as T03",
            "Example: sideport people password --reset T03 --as D1"
        })
final class PeoplePasswordCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--reset",
            paramLabel = "CODE",
            description = "Makes a first password for this person and ends a lock-out; for directors.")
    @Nullable
    String reset;

    PeoplePasswordCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        String forgetful = reset;
        if (forgetful == null) {
            change();
        } else {
            try (Workspace workspace = console.open()) {
                PeopleViews.show(console, PeopleViews.job(workspace).resetPassword(forgetful));
            }
        }
        return 0;
    }

    private void change() {
        String code = console.person();
        if (code == null) {
            throw new InputException("whose password?", null, "name yourself with --as CODE");
        }
        try (Workspace workspace = console.openSignedOut()) {
            SignIn signIn = Console.signIn(workspace);
            if (!signIn.isNeeded()) {
                throw new InputException(
                        "nobody signs in to this workspace",
                        workspace.dir().toString(),
                        "add people first: sideport people add");
            }
            char[] old = console.secrets().password("Password of " + code);
            char[] fresh = console.secrets().newPassword("New password of " + code);
            try {
                Person changed = signIn.changePassword(code, old, fresh).person();
                if (console.isJson()) {
                    PeopleViews.show(console, changed);
                } else {
                    console.say("The password of " + changed.code() + " is changed.");
                }
            } finally {
                Arrays.fill(old, '\0');
                Arrays.fill(fresh, '\0');
            }
        }
    }
}
