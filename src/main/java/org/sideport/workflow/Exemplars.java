package org.sideport.workflow;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Exemplar;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Which recordings show how a procedure is done. There may be several for a procedure; one is the usual one. */
public final class Exemplars {

    private static final int LONGEST_TITLE = 80;

    private final Workspace workspace;
    private final Clock clock;

    public Exemplars(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /** By procedure, the usual one first. */
    public List<Exemplar> all() {
        Access.require(workspace, Permission.SEE_EXEMPLAR);
        return workspace.read(stores -> stores.exemplars().all());
    }

    /** True if the caller may name this case as one. */
    public boolean isOffered(String caseCode) {
        return workspace.read(stores -> Access.may(stores, Permission.NAME_EXEMPLAR, caseCode));
    }

    /** The usual one of a procedure, if any was named. */
    public Optional<Exemplar> usual(String procedure) {
        Access.require(workspace, Permission.SEE_EXEMPLAR);
        return workspace.read(stores -> stores.exemplars().of(procedure).stream()
                .filter(Exemplar::usual)
                .findFirst());
    }

    /**
     * Names a case as an exemplar, or says anew what is said of one. The first of a procedure becomes the usual one.
     *
     * @param annotator whose tags count; {@code null} for the one who tagged most of it
     * @param why may be empty
     * @param person code of the one who names it
     * @param usual true to make it the usual one
     * @throws InputException if there is no such case, nobody has tagged it, or the title is missing
     */
    public Exemplar name(
            String caseCode, @Nullable String annotator, String title, String why, String person, boolean usual) {
        String who = Codes.require("a person", person);
        Access.requireOwn(workspace.caller(), who);
        String shown = title.strip();
        if (shown.isEmpty() || shown.length() > LONGEST_TITLE) {
            throw new InputException(
                    "an exemplar needs a title of at most " + LONGEST_TITLE + " letters",
                    null,
                    "say in a few words what it shows; the reasons go into why");
        }
        return workspace.write(stores -> {
            Access.require(stores, Permission.NAME_EXEMPLAR, caseCode);
            SurgicalCase one = stores.cases().get(caseCode);
            String whose = WhichTagging.of(stores, one.code(), annotator, null);
            List<Exemplar> others = stores.exemplars().of(one.procedure()).stream()
                    .filter(e -> !isOf(e, one.code(), whose))
                    .toList();
            boolean isUsual = usual || others.stream().noneMatch(Exemplar::usual);
            Exemplar named = new Exemplar(
                    one.code(), whose, one.procedure(), shown, why.strip(), who, Instant.now(clock), isUsual);
            stores.exemplars().save(named);
            return named;
        });
    }

    /**
     * Takes the name of exemplar away; the case stays. If it was the usual one, the one named first becomes it.
     *
     * @param annotator {@code null} if the case is an exemplar by one person's tags only
     * @throws InputException if it is none, or by the tags of several people and none was named
     */
    public Exemplar remove(String caseCode, @Nullable String annotator) {
        return workspace.write(stores -> {
            Access.require(stores, Permission.NAME_EXEMPLAR, caseCode);
            String code = stores.cases().get(caseCode).code();
            List<Exemplar> found = stores.exemplars().all().stream()
                    .filter(e -> e.caseCode().equals(code)
                            && (annotator == null || e.annotator().equals(annotator)))
                    .toList();
            if (found.size() != 1) {
                throw new InputException(
                        found.isEmpty()
                                ? "case " + code + " is no exemplar" + (annotator == null ? "" : " by " + annotator)
                                : "case " + code + " is an exemplar by the tags of several people",
                        null,
                        found.isEmpty() ? "see them with: sideport exemplar list" : "say whose: --annotator A");
            }
            Exemplar gone = found.get(0);
            stores.exemplars().remove(gone.caseCode(), gone.annotator());
            if (gone.usual()) {
                succeed(stores, gone.procedure());
            }
            return gone;
        });
    }

    private static void succeed(Stores stores, String procedure) {
        stores.exemplars().of(procedure).stream()
                .findFirst()
                .ifPresent(next -> stores.exemplars()
                        .save(new Exemplar(
                                next.caseCode(),
                                next.annotator(),
                                next.procedure(),
                                next.title(),
                                next.why(),
                                next.namedBy(),
                                next.namedAt(),
                                true)));
    }

    private static boolean isOf(Exemplar exemplar, String code, String annotator) {
        return exemplar.caseCode().equals(code) && exemplar.annotator().equals(annotator);
    }
}
