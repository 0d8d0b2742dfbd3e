package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Set;
import org.sideport.model.CommentTone;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.exchange.ExportChapters;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.ExportStatements;
import org.sideport.workflow.exchange.ImportOpen;
import org.sideport.workflow.exchange.MakeFilm;
import org.sideport.workflow.exchange.OpenFormat;
import org.sideport.workflow.exchange.RubricExchange;

/** Published formats. */
final class GuardedOpenCalls {

    private static final String HOME = "https://eyes.example/sideport";

    private GuardedOpenCalls() {}

    static void add(GuardedCalls all) {
        all.ofCase(
                Permission.EXPORT_CASE,
                "ExportOpen.export(Wanted,Path)",
                g -> new ExportOpen(g.on(), Clock.systemUTC())
                        .export(
                                new ExportOpen.Wanted(
                                        GuardedCalls.CASE, null, OpenFormat.JSON, false, ConsentPurpose.ASSESSMENT),
                                g.fresh(".json")));
        all.ofCase(
                Permission.SEE_CASE,
                "ExportOpen.annotators(String)",
                g -> new ExportOpen(g.on(), Clock.systemUTC()).annotators(GuardedCalls.CASE));
        all.ofCase(Permission.EXPORT_CASE, "ExportChapters.export(Wanted,Path,boolean,Progress)", g -> {
            try {
                return new ExportChapters(g.on())
                        .export(
                                new ExportChapters.Wanted(GuardedCalls.CASE, null, true, ConsentPurpose.ASSESSMENT),
                                g.fresh(""),
                                false,
                                Progress.NONE);
            } catch (InputException e) {
                return pastTheGuard(e, "has no recording", "is not where it was", "has no phases");
            }
        });
        all.ofCase(
                Set.of(Permission.EXPORT_CASE, Permission.SEE_MARKS),
                "ExportStatements.write(String,String,Path)",
                g -> {
                    try {
                        return new ExportStatements(g.on()).write(GuardedCalls.CASE, HOME, g.fresh(".json"));
                    } catch (InputException e) {
                        return pastTheGuard(e, "no signed marks");
                    }
                });
        all.ofCase(
                Set.of(Permission.EXPORT_CASE, Permission.SEE_MARKS),
                "ExportStatements.send(String,String,String,String,Progress)",
                g -> {
                    try {
                        // port 1 answers nowhere
                        return new ExportStatements(g.on())
                                .send(GuardedCalls.CASE, HOME, "http://127.0.0.1:1/xapi", null, Progress.NONE);
                    } catch (InputException e) {
                        return pastTheGuard(e, "no signed marks", "cannot be reached");
                    }
                });
        all.ofCase(Permission.EXPORT_CASE, "MakeFilm.film(Wanted,Path,boolean,Progress)", g -> {
            try {
                return new MakeFilm(g.on()).film(film(), g.fresh(".mp4"), false, Progress.NONE);
            } catch (InputException e) {
                return pastTheGuard(e, "has no recording", "is not where it was");
            }
        });
        all.ofCase(Permission.EXPORT_CASE, "MakeFilm.stills(Wanted,Path,Progress)", g -> {
            try {
                return new MakeFilm(g.on()).stills(film(), g.fresh(""), Progress.NONE);
            } catch (InputException e) {
                return pastTheGuard(e, "has no recording", "is not where it was");
            }
        });
        all.underCode(
                Set.of(Permission.TAG, Permission.COMMENT),
                "ImportOpen.look(Path,Wanted)",
                g -> new ImportOpen(g.on()).look(cues(g), wanted(g)));
        all.underCode(
                Set.of(Permission.TAG, Permission.COMMENT),
                "ImportOpen.take(Path,Wanted)",
                g -> new ImportOpen(g.on()).take(cues(g), wanted(g)));
        all.general(
                Permission.EDIT_RUBRIC,
                "RubricExchange.export(String,Path)",
                g -> new RubricExchange(g.on(), Clock.systemUTC()).export(Unit.RUBRIC.id(), g.fresh(".json")));
        all.general(Permission.EDIT_RUBRIC, "RubricExchange.take(Path,String)", g -> {
            Path file = g.fresh(".json");
            new RubricExchange(g.anyones(), Clock.systemUTC()).export(Unit.RUBRIC.id(), file);
            return new RubricExchange(g.on(), Clock.systemUTC()).take(file, "phaco");
        });
    }

    /** What comes after the guard and cannot be had here: no recording lies on the disk, nobody has signed. */
    private static Object pastTheGuard(InputException e, String... reasons) {
        for (String reason : reasons) {
            if (e.getMessage().contains(reason)) {
                return true;
            }
        }
        throw e;
    }

    private static MakeFilm.Wanted film() {
        return new MakeFilm.Wanted(GuardedCalls.CASE, null, List.of(), List.of(), true, true, List.of());
    }

    private static ImportOpen.Wanted wanted(GuardedCalls.Given g) {
        return new ImportOpen.Wanted(GuardedCalls.CASE, g.code(), null, true, CommentTone.QUESTION);
    }

    private static Path cues(GuardedCalls.Given g) throws IOException {
        return Files.writeString(g.fresh(".vtt"), "WEBVTT\n\n00:01.000 --> 00:02.000\nlook\n");
    }
}
