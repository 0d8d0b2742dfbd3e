package org.sideport.workflow;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.PicturePoint;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.WhiteToWhite;
import org.sideport.workflow.access.Permission;

/** Cases: lists, taking in, sheets, exemplars, comparing, measuring. */
final class GuardedCaseCalls {

    private GuardedCaseCalls() {}

    /** Five points of a circle in a picture of 640 by 480. */
    private static final List<PicturePoint> ROUND = List.of(
            new PicturePoint(0.7, 0.5),
            new PicturePoint(0.5, 0.5 + 0.2 * 4 / 3),
            new PicturePoint(0.3, 0.5),
            new PicturePoint(0.5, 0.5 - 0.2 * 4 / 3),
            new PicturePoint(0.62, 0.5 + 0.16 * 4 / 3));

    private static final ComputeTimings.Level PHASE = ComputeTimings.Level.PHASE;

    static void add(GuardedCalls all) {
        cases(all);
        imports(all);
        measures(all);
    }

    private static void cases(GuardedCalls all) {
        all.general(Permission.SEE_CASE, "CaseList.all()", g -> new CaseList(g.on()).all());
        all.general(Permission.SEE_CASE, "CaseList.newest(int)", g -> new CaseList(g.on()).newest(10));
        all.ofCase(Permission.SEE_CASE, "CaseList.one(String)", g -> new CaseList(g.on()).one(GuardedCalls.CASE));
        all.ofCase(
                Permission.SEE_CASE,
                "CaseThumbnails.of(String,Progress)",
                g -> String.valueOf(new CaseThumbnails(g.on()).of(GuardedCalls.CASE, Progress.NONE)));
        all.general(
                Permission.SEE_CASE,
                "CaseThumbnails.clear()",
                g -> GuardedCalls.done(new CaseThumbnails(g.on())::clear));
        all.general(
                Permission.SEE_CASE, "CaseThumbnails.tidy()", g -> GuardedCalls.done(new CaseThumbnails(g.on())::tidy));
        all.ofCase(Permission.SEE_CASE, "HideAreas.of(String)", g -> new HideAreas(g.on()).of(GuardedCalls.CASE));
        all.ofCase(
                Permission.EDIT_CASE,
                "HideAreas.replace(String,List)",
                g -> GuardedCalls.done(() -> new HideAreas(g.on()).replace(GuardedCalls.CASE, List.of())));
        all.ofCase(
                Permission.SEE_CASE,
                "HideAreas.picture(String,MediaTime,Progress)",
                g -> new HideAreas(g.on()).picture(GuardedCalls.CASE, GuardedCalls.AT, Progress.NONE));
        all.ofCase(
                Permission.SEE_CASE,
                "HideAreas.findWriting(String,Progress)",
                g -> new HideAreas(g.on()).findWriting(GuardedCalls.CASE, Progress.NONE));
        all.general(Permission.SEE_CASE, "CompareCases.candidates()", g -> new CompareCases(g.on()).candidates());
        all.ofCase(Permission.SEE_CASE, "CompareCases.compare(Choice,Choice,String,Level)", g -> {
            g.tagged("A1", GuardedCalls.TAGS);
            CompareCases.Choice same = new CompareCases.Choice(GuardedCalls.CASE, null);
            return new CompareCases(g.on()).compare(same, same, null, PHASE);
        });
        all.general(Permission.SEE_CASE, "ComputeTimings.all(Level)", g -> new ComputeTimings(g.on()).all(PHASE));
        all.general(
                Permission.SEE_CASE, "ComputeTimings.counted(Level)", g -> new ComputeTimings(g.on()).counted(PHASE));
        all.ofCase(Permission.SEE_CASE, "ComputeTimings.of(TagSession,Level)", g -> {
            g.tagged("A1", GuardedCalls.TAGS);
            return new ComputeTimings(g.on()).of(new TagRecording(g.anyones()).open(GuardedCalls.CASE, "A1"), PHASE);
        });
        all.ofCase(Permission.SEE_CASE, "ComputeTimings.ofCase(String,String,Level)", g -> {
            g.tagged("A1", GuardedCalls.TAGS);
            return new ComputeTimings(g.on()).ofCase(GuardedCalls.CASE, "A1", PHASE);
        });
        all.underCode(
                Permission.EDIT_CASE,
                "EditCase.edit(String,CaseEdit,Instant)",
                g -> new EditCase(g.on())
                        .edit(
                                GuardedCalls.CASE,
                                new CaseEdit(g.code(), null, null, Map.of(), null, null, false),
                                Instant.now()));
        all.ofCase(Permission.SEE_CASE, "EditCase.open(String)", g -> new EditCase(g.on()).open(GuardedCalls.CASE));
        all.general(Permission.SEE_EXEMPLAR, "Exemplars.all()", g -> new Exemplars(g.on(), Clock.systemUTC()).all());
        all.general(
                Permission.SEE_EXEMPLAR,
                "Exemplars.usual(String)",
                g -> new Exemplars(g.on(), Clock.systemUTC()).usual("phaco"));
        all.underCode(Permission.NAME_EXEMPLAR, "Exemplars.name(String,String,String,String,String,boolean)", g -> {
            g.tagged("A1", GuardedCalls.TAGS);
            return new Exemplars(g.on(), Clock.systemUTC()).name(GuardedCalls.CASE, "A1", "title", "", g.code(), false);
        });
        all.ofCase(Permission.NAME_EXEMPLAR, "Exemplars.remove(String,String)", g -> {
            g.tagged("A1", GuardedCalls.TAGS);
            new Exemplars(g.anyones(), Clock.systemUTC()).name(GuardedCalls.CASE, "A1", "title", "", "A1", false);
            return new Exemplars(g.on(), Clock.systemUTC()).remove(GuardedCalls.CASE, "A1");
        });
        all.ofCase(
                Permission.SEE_CASE,
                "OpenRecording.locate(SurgicalCase,List,Progress)",
                g -> new OpenRecording(g.on()).locate(g.theCase(), List.of(), Progress.NONE));
        all.ofCase(
                Permission.SEE_CASE,
                "OpenRecording.locate(SurgicalCase)",
                g -> new OpenRecording(g.on()).locate(g.theCase()));
        all.general(Permission.SEE_CASE, "RecordingTraces.of(Recording,Progress)", g -> {
            Recording recording = g.theCase().recording();
            return recording == null ? "" : new RecordingTraces(g.on()).of(recording, Progress.NONE);
        });
        all.general(
                Permission.SEE_CASE,
                "StackCases.of(String,String,String,Level)",
                g -> new StackCases(g.on()).of("T03", "phaco", null, PHASE));
        all.general(Permission.SEE_COHORT, "WriteWorkbook.data()", g -> new WriteWorkbook(g.on()).data());
        all.general(
                Permission.SEE_COHORT,
                "WriteWorkbook.write(Path,Progress)",
                g -> GuardedCalls.done(
                        () -> new WriteWorkbook(g.on()).write(g.dir().resolve("out.xlsx"), Progress.NONE)));
        all.general(
                Permission.SEE_COHORT,
                "WriteWorkbook.write(Path,Wish,Progress)",
                g -> GuardedCalls.done(() -> new WriteWorkbook(g.on())
                        .write(g.dir().resolve("wished.xlsx"), WriteWorkbook.Wish.USUAL, Progress.NONE)));
        all.general(
                Permission.SEE_COHORT,
                "WriteWorkbook.writeCsv(Path,Wish,Progress)",
                g -> new WriteWorkbook(g.on())
                        .writeCsv(g.dir().resolve("csv"), WriteWorkbook.Wish.USUAL, Progress.NONE));
    }

    /** A new case of T03: he may take it in, another trainee not, an assessor anybody's. */
    private static NewCase newCase(String trainee) {
        return new NewCase("N-" + GuardedCalls.letters(), trainee, LocalDate.of(2026, 3, 9), "phaco", Map.of());
    }

    private static void imports(GuardedCalls all) {
        all.general(
                Permission.ADD_CASE,
                "ImportCases.look(List,Progress)",
                g -> new ImportCases(g.on())
                        .look(List.of(new CaseDraft("here", newCase("T03"), List.of())), Progress.NONE));
        all.ofCase(
                Permission.ADD_CASE,
                "ImportCases.store(List)",
                g -> new ImportCases(g.on())
                        .store(new ImportCases(g.anyones())
                                .look(List.of(new CaseDraft("here", newCase("T03"), List.of())), Progress.NONE)));
        all.ofCase(
                Permission.ADD_CASE,
                "ImportRecording.addCase(NewCase,RecordingPreview)",
                g -> new ImportRecording(g.on()).addCase(newCase("T03"), null));
        all.ofCase(
                Permission.ADD_CASE,
                "ImportRecording.addCase(NewCase,RecordingPreview,boolean)",
                g -> new ImportRecording(g.on()).addCase(newCase("T03"), null, true));
        all.general(
                Permission.ADD_CASE,
                "ImportRecording.preview(List,Progress)",
                g -> new ImportRecording(g.on()).preview(List.of(), Progress.NONE));
        all.general(
                Permission.ADD_CASE,
                "ImportSheet.plan(Path,Progress)",
                g -> new ImportSheet(g.on(), LocalDate.of(2026, 3, 10)).plan(sheet(g), Progress.NONE));
        all.ofCase(
                Permission.ADD_CASE,
                "ImportSheet.store(Plan,boolean)",
                g -> new ImportSheet(g.on(), LocalDate.of(2026, 3, 10))
                        .store(
                                new ImportSheet(g.anyones(), LocalDate.of(2026, 3, 10)).plan(sheet(g), Progress.NONE),
                                true));
    }

    private static Path sheet(GuardedCalls.Given g) {
        return Unit.csv(g.dir(), "code,trainee,date", "S-" + GuardedCalls.letters() + ",T03,2026-03-09");
    }

    private static Measurement measurement(String author) {
        return new Measurement(
                UUID.randomUUID().toString(),
                author,
                GuardedCalls.AT,
                640,
                480,
                MeasuredShape.ANGLE,
                List.of(new PicturePoint(0, 0), new PicturePoint(0, 1), new PicturePoint(1, 1)),
                null,
                List.of(),
                "by hand",
                List.of());
    }

    private static void measures(GuardedCalls all) {
        all.ofCase(Permission.SEE_CASE, "MeasureCase.of(String)", g -> new MeasureCase(g.on()).of(GuardedCalls.CASE));
        all.ofCase(
                Permission.SEE_CASE,
                "MeasureCase.widthOf(String)",
                g -> new MeasureCase(g.on()).widthOf(GuardedCalls.CASE));
        all.underCode(
                Permission.MEASURE,
                "MeasureCase.add(String,String,Wanted)",
                g -> new MeasureCase(g.on())
                        .add(
                                GuardedCalls.CASE,
                                g.code(),
                                new MeasureCase.Wanted(
                                        GuardedCalls.AT,
                                        640,
                                        480,
                                        MeasuredShape.LIMBUS,
                                        ROUND,
                                        WhiteToWhite.POPULATION)));
        all.underCode(Permission.MEASURE, "MeasureCase.remove(String,String,Measurement)", g -> {
            Measurement mine = measurement(g.code());
            g.anyones().change(s -> s.measurements().add(GuardedCalls.CASE, mine));
            return GuardedCalls.done(() -> new MeasureCase(g.on()).remove(GuardedCalls.CASE, g.code(), mine));
        });
        all.underCode(
                Permission.MEASURE,
                "MeasureCase.putBack(String,String,Measurement)",
                g -> GuardedCalls.done(
                        () -> new MeasureCase(g.on()).putBack(GuardedCalls.CASE, g.code(), measurement(g.code()))));
    }
}
