package org.sideport.workflow;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Progress;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentDoubts;
import org.sideport.workflow.exchange.ExportCase;
import org.sideport.workflow.exchange.ExportOwnData;
import org.sideport.workflow.exchange.ImportBundle;
import org.sideport.workflow.exchange.ImportChoice;
import org.sideport.workflow.exchange.MarkingForm;
import org.sideport.workflow.handout.WriteCohortReport;
import org.sideport.workflow.handout.WriteFeedback;
import org.sideport.workflow.handout.WritePortfolio;

/** Case bundles, marking forms and a person's own data. */
final class GuardedExchangeCalls {

    private static final ExportCase.Wanted WITHOUT_RECORDING = new ExportCase.Wanted(GuardedCalls.CASE, false, false);

    private GuardedExchangeCalls() {}

    static void add(GuardedCalls all) {
        bundles(all);
        forms(all);
        handouts(all);
        papers(all);
        GuardedOpenCalls.add(all);
        all.ofPerson(
                Permission.EXPORT_CASE,
                "ExportOwnData.export(String,Path)",
                g -> new ExportOwnData(g.on()).export("T03", g.fresh(".zip")));
    }

    private static void handouts(GuardedCalls all) {
        all.ofCase(Permission.EXPORT_CASE, "WriteFeedback.write(Wanted,Path,Progress)", g -> {
            g.signed(GuardedCalls.Who.ASSESSOR.code, 0, 3);
            g.signed("T03", 0, 3);
            return new WriteFeedback(g.on())
                    .write(
                            new WriteFeedback.Wanted(GuardedCalls.CASE, "en", false, false, List.of()),
                            g.fresh(".html"),
                            Progress.NONE);
        });
    }

    private static void papers(GuardedCalls all) {
        all.ofPerson(
                Permission.EXPORT_CASE,
                "WritePortfolio.write(Wanted,Path,Progress)",
                g -> new WritePortfolio(g.on())
                        .write(
                                new WritePortfolio.Wanted("T03", null, null, false, "en"),
                                g.fresh(".pdf"),
                                Progress.NONE));
        all.general(Permission.SEE_COHORT, "WriteCohortReport.write(String,int,String,Path,Progress)", g -> {
            g.signed(GuardedCalls.Who.ASSESSOR.code, 0, 3);
            return new WriteCohortReport(g.on(), Clock.systemUTC())
                    .write(null, 6, "en", g.fresh(".pdf"), Progress.NONE);
        });
    }

    private static Path bundle(GuardedCalls.Given g) {
        Path file = g.fresh(".zip");
        new ExportCase(g.anyones()).export(WITHOUT_RECORDING, null, file, Progress.NONE);
        return file;
    }

    /** As another case, so that it can be taken in again and again. */
    private static ImportChoice choice(GuardedCalls.Given g) {
        return new ImportChoice("B-" + GuardedCalls.letters(), "T03", Map.of(), false, g.code());
    }

    private static void bundles(GuardedCalls all) {
        all.ofCase(
                Permission.EXPORT_CASE,
                "ConsentDoubts.of(List,ConsentPurpose)",
                g -> new ConsentDoubts(g.on()).of(List.of(GuardedCalls.CASE), ConsentPurpose.TEACHING));
        all.ofCase(
                Permission.EXPORT_CASE,
                "ExportCase.export(Wanted,char[],Path,Progress)",
                g -> new ExportCase(g.on()).export(WITHOUT_RECORDING, null, g.fresh(".zip"), Progress.NONE));
        all.general(
                Permission.IMPORT_BUNDLE,
                "ImportBundle.look(Path,char[],ImportChoice,Progress)",
                g -> new ImportBundle(g.on()).look(bundle(g), null, choice(g), Progress.NONE));
        all.generalUnderCode(
                Permission.IMPORT_BUNDLE,
                "ImportBundle.take(Path,char[],ImportChoice,Progress)",
                g -> new ImportBundle(g.on()).take(bundle(g), null, choice(g), Progress.NONE));
    }

    private static void forms(GuardedCalls all) {
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkingForm.write(String,String,String,boolean,String,Path)",
                g -> new MarkingForm(g.on())
                        .write(Unit.RUBRIC.id(), GuardedCalls.CASE, g.code(), g.isSelf(), "en", g.fresh(".xlsx")));
        all.underCode(GuardedCalls.Call.MARKING, "MarkingForm.take(Path,boolean)", g -> {
            Path form = g.fresh(".xlsx");
            new MarkingForm(g.anyones()).write(Unit.RUBRIC.id(), GuardedCalls.CASE, g.code(), g.isSelf(), "en", form);
            return new MarkingForm(g.on()).take(form, true);
        });
    }
}
