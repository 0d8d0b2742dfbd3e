package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentTone;
import org.sideport.model.CutState;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Role;
import org.sideport.model.SeenTrack;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.model.Voice;
import org.sideport.model.WhiteToWhite;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.timing.TagTable;
import org.sideport.workflow.access.CheapCredentials;

/** Every guarded call of the floor with arguments that get as far as its guard, for {@link GuardedCallsTest}. */
final class GuardedCalls {

    static final String CASE = "C-1";

    private static final MediaTime AT = MediaTime.ofSeconds(5);
    private static final SeenTrack SEEN = new SeenTrack(List.of(new org.sideport.model.SeenEvent.Stand(0, AT)));
    private static final String ITEM = Unit.RUBRIC.items().get(0).id();
    private static final ComputeTimings.Level PHASE = ComputeTimings.Level.PHASE;

    private GuardedCalls() {}

    /**
     * What a call has to work with.
     *
     * @param anyones the workspace where all is allowed, to prepare
     * @param on the workspace on behalf of who tries
     * @param code under which the work is to be done
     */
    record Given(Workspace anyones, Workspace on, String code, Path dir) {}

    interface Work {
        Object run(Given given) throws Exception;
    }

    /**
     * @param ofCase true if it must be denied to people who do not reach case C-1
     * @param underACode true if it works under a person's code, which must be the caller's
     */
    record Call(String name, boolean ofCase, boolean underACode, Work work) {
        @Override
        public String toString() {
            return name;
        }
    }

    static List<Call> all() {
        List<Call> all = new ArrayList<>();
        cases(all);
        imports(all);
        comments(all);
        marks(all);
        measures(all);
        tags(all);
        tagSession(all);
        voices(all);
        people(all);
        return all;
    }

    private static void general(List<Call> all, String name, Work work) {
        all.add(new Call(name, false, false, work));
    }

    private static void ofCase(List<Call> all, String name, Work work) {
        all.add(new Call(name, true, false, work));
    }

    private static void underCode(List<Call> all, String name, Work work) {
        all.add(new Call(name, true, true, work));
    }

    private static Object done(Runnable work) {
        work.run();
        return "";
    }

    private static SurgicalCase theCase(Given g) {
        return g.anyones().read(s -> s.cases().get(CASE));
    }

    private static void cases(List<Call> all) {
        general(all, "CaseList.all()", g -> new CaseList(g.on()).all());
        general(all, "CaseList.newest(int)", g -> new CaseList(g.on()).newest(10));
        ofCase(all, "CaseList.one(String)", g -> new CaseList(g.on()).one(CASE));
        ofCase(
                all,
                "CaseThumbnails.of(String,Progress)",
                g -> String.valueOf(new CaseThumbnails(g.on()).of(CASE, Progress.NONE)));
        general(all, "CaseThumbnails.tidy()", g -> done(new CaseThumbnails(g.on())::tidy));
        general(all, "CompareCases.candidates()", g -> new CompareCases(g.on()).candidates());
        ofCase(
                all,
                "CompareCases.compare(Choice,Choice,String,Level)",
                g -> new CompareCases(g.on())
                        .compare(
                                new CompareCases.Choice(CASE, null), new CompareCases.Choice(CASE, null), null, PHASE));
        general(all, "ComputeTimings.all(Level)", g -> new ComputeTimings(g.on()).all(PHASE));
        ofCase(
                all,
                "ComputeTimings.of(TagSession,Level)",
                g -> new ComputeTimings(g.on()).of(new TagRecording(g.anyones()).open(CASE, "A1"), PHASE));
        ofCase(
                all,
                "ComputeTimings.ofCase(String,String,Level)",
                g -> new ComputeTimings(g.on()).ofCase(CASE, "A1", PHASE));
        underCode(
                all,
                "EditCase.edit(String,CaseEdit,Instant)",
                g -> new EditCase(g.on())
                        .edit(CASE, new CaseEdit(g.code(), null, null, Map.of(), null, null, false), Instant.now()));
        ofCase(all, "EditCase.open(String)", g -> new EditCase(g.on()).open(CASE));
        general(all, "Exemplars.all()", g -> new Exemplars(g.on(), Clock.systemUTC()).all());
        general(all, "Exemplars.usual(String)", g -> new Exemplars(g.on(), Clock.systemUTC()).usual("phaco"));
        underCode(
                all,
                "Exemplars.name(String,String,String,String,String,boolean)",
                g -> new Exemplars(g.on(), Clock.systemUTC()).name(CASE, null, "title", "", g.code(), false));
        ofCase(
                all,
                "Exemplars.remove(String,String)",
                g -> new Exemplars(g.on(), Clock.systemUTC()).remove(CASE, null));
        ofCase(
                all,
                "OpenRecording.locate(SurgicalCase,List,Progress)",
                g -> new OpenRecording(g.on()).locate(theCase(g), List.of(), Progress.NONE));
        ofCase(all, "OpenRecording.locate(SurgicalCase)", g -> new OpenRecording(g.on()).locate(theCase(g)));
        general(all, "RecordingTraces.of(Recording,Progress)", g -> {
            Recording recording = theCase(g).recording();
            return recording == null ? "" : new RecordingTraces(g.on()).of(recording, Progress.NONE);
        });
        general(
                all,
                "StackCases.of(String,String,String,Level)",
                g -> new StackCases(g.on()).of("T03", "phaco", null, PHASE));
        general(all, "FollowProgress.subjects()", g -> new FollowProgress(g.on()).subjects());
        general(all, "FollowProgress.fewestPeers()", g -> new FollowProgress(g.on()).fewestPeers());
        general(
                all,
                "FollowProgress.setFewestPeers(int)",
                g -> done(() -> new FollowProgress(g.on()).setFewestPeers(6)));
        ofCase(
                all,
                "FollowProgress.show(Question)",
                g -> new FollowProgress(g.on()).show(new FollowProgress.Question("T03", "phaco", null, 6, false)));
        general(all, "WriteWorkbook.data()", g -> new WriteWorkbook(g.on()).data());
        general(
                all,
                "WriteWorkbook.write(Path,Progress)",
                g -> done(() -> new WriteWorkbook(g.on()).write(g.dir().resolve("out.xlsx"), Progress.NONE)));
    }

    /** A new case of somebody's whom neither T99 nor T03 nor A1 is: a trainee may not take it in, an assessor may. */
    private static NewCase newCase(String trainee) {
        return new NewCase(
                "N-" + UUID.randomUUID().toString().substring(0, 6),
                trainee,
                LocalDate.of(2026, 3, 9),
                "phaco",
                Map.of());
    }

    private static void imports(List<Call> all) {
        general(
                all,
                "ImportCases.look(List,Progress)",
                g -> new ImportCases(g.on())
                        .look(List.of(new CaseDraft("here", newCase("T03"), List.of())), Progress.NONE));
        general(
                all,
                "ImportCases.store(List)",
                g -> new ImportCases(g.on())
                        .store(new ImportCases(g.anyones())
                                .look(List.of(new CaseDraft("here", newCase("T03"), List.of())), Progress.NONE)));
        general(
                all,
                "ImportRecording.addCase(NewCase,RecordingPreview)",
                g -> new ImportRecording(g.on()).addCase(newCase("T03"), null));
        general(
                all,
                "ImportRecording.addCase(NewCase,RecordingPreview,boolean)",
                g -> new ImportRecording(g.on()).addCase(newCase("T03"), null, true));
        general(
                all,
                "ImportRecording.preview(List,Progress)",
                g -> new ImportRecording(g.on()).preview(List.of(), Progress.NONE));
        general(
                all,
                "ImportSheet.plan(Path,Progress)",
                g -> new ImportSheet(g.on(), LocalDate.of(2026, 3, 10)).plan(sheet(g), Progress.NONE));
        general(
                all,
                "ImportSheet.store(Plan,boolean)",
                g -> new ImportSheet(g.on(), LocalDate.of(2026, 3, 10))
                        .store(
                                new ImportSheet(g.anyones(), LocalDate.of(2026, 3, 10)).plan(sheet(g), Progress.NONE),
                                true));
    }

    private static Path sheet(Given g) {
        return Unit.csv(
                g.dir(),
                "code,trainee,date",
                "S-" + UUID.randomUUID().toString().substring(0, 6) + ",T03,2026-03-09");
    }

    private static Comment comment(String author) {
        return new Comment(
                UUID.randomUUID().toString(), author, CommentTone.PRAISE, "good", null, AT, null, List.of(), null);
    }

    /** A session of who tries, put in the hands of a caller who could not open it. */
    private static CommentSession session(Given g) {
        return new CommentSession(g.on(), theCase(g), g.code());
    }

    private static Comment stored(Given g) {
        Comment comment = comment(g.code());
        g.anyones().change(s -> s.comments().save(CASE, comment));
        return comment;
    }

    private static CommentReply answered(Given g) {
        CommentReply reply =
                new CommentReply(UUID.randomUUID().toString(), stored(g).id(), g.code(), "thanks");
        g.anyones().change(s -> s.comments().save(CASE, reply));
        return reply;
    }

    private static void comments(List<Call> all) {
        ofCase(all, "CommentCase.of(String)", g -> new CommentCase(g.on()).of(CASE));
        underCode(all, "CommentCase.open(String,String)", g -> new CommentCase(g.on()).open(CASE, g.code()));
        ofCase(all, "CommentSession.threads()", g -> session(g).threads());
        underCode(
                all, "CommentSession.save(Comment)", g -> done(() -> session(g).save(comment(g.code()))));
        underCode(all, "CommentSession.remove(Comment)", g -> {
            Comment mine = stored(g);
            return done(() -> session(g).remove(mine));
        });
        underCode(all, "CommentSession.answer(Comment,String)", g -> session(g).answer(stored(g), "why"));
        underCode(all, "CommentSession.changeAnswer(CommentReply,String)", g -> {
            CommentReply mine = answered(g);
            return done(() -> session(g).changeAnswer(mine, "other"));
        });
        underCode(all, "CommentSession.removeAnswer(CommentReply)", g -> {
            CommentReply mine = answered(g);
            return done(() -> session(g).removeAnswer(mine));
        });
        underCode(all, "CommentSession.markSeen(Comment)", g -> {
            Comment mine = stored(g);
            return done(() -> session(g).markSeen(mine));
        });
        underCode(all, "CommentSession.markUnseen(Comment)", g -> {
            Comment mine = stored(g);
            return done(() -> session(g).markUnseen(mine));
        });
        // what can be undone was done by somebody who might, so the edit itself is tried again
        underCode(all, "CommentSession.undo()", g -> {
            CommentSession one = session(g);
            one.save(comment(g.code()));
            return done(one::undo);
        });
        underCode(all, "CommentSession.redo()", g -> {
            CommentSession one = session(g);
            one.save(comment(g.code()));
            one.undo();
            return done(one::redo);
        });
    }

    private static MarkSession marking(Given g) {
        boolean self = g.code().equals("T03");
        var rating = Unit.rating(g.code(), self, ITEM);
        return new MarkSession(g.on(), CASE, new Vocabularies(g.anyones()).rubric(Unit.RUBRIC.id()), null, rating, "");
    }

    private static void marks(List<Call> all) {
        underCode(
                all,
                "MarkCase.open(String,String,boolean,Rubric)",
                g -> new MarkCase(g.on()).open(CASE, g.code(), g.code().equals("T03"), Unit.RUBRIC));
        underCode(
                all,
                "MarkCase.rate(String,Rating)",
                g -> new MarkCase(g.on())
                        .rate(CASE, Unit.rating(g.code(), g.code().equals("T03"))));
        underCode(
                all,
                "MarkCase.sign(String,String,String,boolean)",
                g -> new MarkCase(g.on())
                        .sign(CASE, Unit.RUBRIC.id(), g.code(), g.code().equals("T03")));
        underCode(
                all,
                "MarkCase.amend(String,Rating,String)",
                g -> new MarkCase(g.on())
                        .amend(CASE, Unit.rating(g.code(), g.code().equals("T03")), "why"));
        underCode(all, "LoadRatings.load(Path)", g -> new LoadRatings(g.on()).load(ratings(g)));
        underCode(
                all, "MarkSession.mark(String,int)", g -> done(() -> marking(g).mark(ITEM, 3)));
        underCode(all, "MarkSession.excuse(String,NotApplicable)", g -> {
            String item = Unit.RUBRIC.items().stream()
                    .filter(i -> i.notApplicable().contains(NotApplicable.NOT_VISIBLE))
                    .findFirst()
                    .orElseThrow()
                    .id();
            return done(() -> marking(g).excuse(item, NotApplicable.NOT_VISIBLE));
        });
        underCode(all, "MarkSession.clear(String)", g -> done(() -> marking(g).clear(ITEM)));
        underCode(
                all,
                "MarkSession.comment(String,String)",
                g -> done(() -> marking(g).comment(Unit.RUBRIC.items().get(1).id(), "good")));
        underCode(
                all,
                "MarkSession.overallComment(String)",
                g -> done(() -> marking(g).overallComment("good")));
        underCode(all, "MarkSession.agree(List)", g -> done(() -> marking(g).agree(List.of("more"))));
        underCode(
                all,
                "MarkSession.toggleEvidence(String,MediaTime)",
                g -> done(() ->
                        marking(g).toggleEvidence(Unit.RUBRIC.items().get(1).id(), AT)));
        underCode(all, "MarkSession.sign()", g -> {
            var rating = Unit.rating(g.code(), g.code().equals("T03"));
            var stored = new MarkCase(g.anyones());
            boolean fits = g.code().equals("T03") == rating.self();
            if (fits) {
                try {
                    stored.rate(CASE, rating);
                } catch (org.sideport.model.InputException signedBefore) {
                    // signed by an earlier try of this test
                }
            }
            var kept = g.anyones()
                    .read(s -> s.ratings().ofCase(CASE).stream()
                            .filter(r -> r.rating().assessor().equals(g.code()))
                            .findFirst()
                            .orElseThrow());
            MarkSession one = new MarkSession(
                    g.on(), CASE, new Vocabularies(g.anyones()).rubric(Unit.RUBRIC.id()), kept, kept.rating(), "");
            return done(one::sign);
        });
        measured(all);
    }

    /** Marks by a number need a rubric that has such items. */
    private static void measured(List<Call> all) {
        Work byValue = g -> {
            var text = new Vocabularies(g.anyones())
                    .rubricTexts().stream()
                            .filter(r -> r.rubric().items().stream()
                                    .anyMatch(i -> i.kind().isNumber() && i.phase() != null))
                            .findFirst()
                            .orElseThrow();
            var item = text.rubric().items().stream()
                    .filter(i -> i.kind().isNumber())
                    .findFirst()
                    .orElseThrow();
            var empty = new org.sideport.model.Rating(
                    text.rubric().id(),
                    text.rubric().version(),
                    g.code(),
                    g.code().equals("T03"),
                    false,
                    List.of(),
                    "");
            MarkSession one = new MarkSession(g.on(), CASE, text, null, empty, "");
            return done(
                    () -> one.markValue(item.id(), Math.ceil(item.bands().get(0).from())));
        };
        underCode(all, "MarkSession.markValue(String,double)", byValue);
        underCode(
                all,
                "MarkSession.markFromTags(String,String)",
                g -> done(() -> marking(g).markFromTags(ITEM, "A1")));
    }

    private static Path ratings(Given g) {
        return Unit.csv(
                g.dir(),
                "case,rubric,version,assessor,self,item,points,not_applicable,comment",
                CASE + "," + Unit.RUBRIC.id() + "," + Unit.RUBRIC.version() + "," + g.code() + ","
                        + g.code().equals("T03") + "," + ITEM + ",3,,");
    }

    private static Measurement measurement(String author) {
        return new Measurement(
                UUID.randomUUID().toString(),
                author,
                AT,
                640,
                480,
                MeasuredShape.ANGLE,
                List.of(new PicturePoint(0, 0), new PicturePoint(0, 1), new PicturePoint(1, 1)),
                null,
                List.of(),
                "by hand",
                List.of());
    }

    private static void measures(List<Call> all) {
        ofCase(all, "MeasureCase.of(String)", g -> new MeasureCase(g.on()).of(CASE));
        ofCase(all, "MeasureCase.widthOf(String)", g -> new MeasureCase(g.on()).widthOf(CASE));
        underCode(
                all,
                "MeasureCase.add(String,String,Wanted)",
                g -> new MeasureCase(g.on())
                        .add(
                                CASE,
                                g.code(),
                                new MeasureCase.Wanted(
                                        AT, 640, 480, MeasuredShape.LIMBUS, List.of(), WhiteToWhite.POPULATION)));
        underCode(
                all,
                "MeasureCase.remove(String,String,Measurement)",
                g -> done(() -> new MeasureCase(g.on()).remove(CASE, g.code(), measurement(g.code()))));
        underCode(
                all,
                "MeasureCase.putBack(String,String,Measurement)",
                g -> done(() -> new MeasureCase(g.on()).putBack(CASE, g.code(), measurement(g.code()))));
    }

    private static void tags(List<Call> all) {
        ofCase(all, "RecordingCuts.of(String)", g -> new RecordingCuts(g.on()).of(CASE));
        ofCase(all, "RecordingCuts.find(String,Progress)", g -> new RecordingCuts(g.on()).find(CASE, Progress.NONE));
        underCode(
                all,
                "RecordingCuts.add(String,MediaTime,String,String)",
                g -> new RecordingCuts(g.on()).add(CASE, AT, "seen", g.code()));
        underCode(
                all,
                "RecordingCuts.decide(String,MediaTime,CutState,String)",
                g -> new RecordingCuts(g.on()).decide(CASE, AT, CutState.ACCEPTED, g.code()));
        ofCase(all, "TagExchange.find(String,String)", g -> new TagExchange(g.on()).find(CASE, "A1"));
        ofCase(all, "TagExchange.exportCsv(Exported,Kind,Appendable)", g -> {
            StringBuilder out = new StringBuilder();
            new TagExchange(g.on())
                    .exportCsv(
                            new TagExchange.Exported(theCase(g), "A1", Tagging.EMPTY, Set.of()),
                            TagTable.Kind.PHASES,
                            out);
            return out;
        });
        underCode(
                all,
                "TagExchange.importCsv(Path,String,boolean)",
                g -> new TagExchange(g.on())
                        .importCsv(
                                Unit.csv(
                                        g.dir(),
                                        "case,annotator,phase,start,end,operator",
                                        CASE + "," + g.code() + ",incision,1,2,"),
                                null,
                                true));
        ofCase(
                all,
                "TagRecording.look(String,String)",
                g -> new TagRecording(g.on()).look(CASE, "A1").tagging());
        underCode(
                all, "TagRecording.of(String,String,boolean)", g -> new TagRecording(g.on()).of(CASE, g.code(), true));
        underCode(all, "TagRecording.open(String,String)", g -> new TagRecording(g.on()).open(CASE, g.code()));
    }

    private static final PhaseSpan SPAN =
            new PhaseSpan("incision", MediaTime.ofSeconds(1), MediaTime.ofSeconds(9), null);
    private static final PhaseSpan NEXT =
            new PhaseSpan("incision", MediaTime.ofSeconds(9), MediaTime.ofSeconds(20), null);

    /** A session of who tries, with two spans and an event, put in the hands of a caller who could not open it. */
    private static TagSession tagging(Given g) {
        PointEvent event = event(g);
        return new TagSession(
                g.on(),
                theCase(g),
                new Vocabularies(g.anyones()).procedure("phaco"),
                g.code(),
                new Tagging(TaggingStyle.START_AND_END, List.of(SPAN, NEXT), List.of(event)),
                Set.of());
    }

    private static PointEvent event(Given g) {
        return new PointEvent(
                new Vocabularies(g.anyones()).procedure("phaco").events().get(0).id(), AT, null, "");
    }

    private interface Edit {
        void on(TagSession session, Given given);
    }

    private static void edit(List<Call> all, String name, Edit edit) {
        underCode(all, "TagSession." + name, g -> {
            TagSession session = tagging(g);
            edit.on(session, g);
            return session;
        });
    }

    private static void tagSession(List<Call> all) {
        MediaTime late = MediaTime.ofSeconds(30);
        edit(all, "addEvent(PointEvent)", (s, g) -> s.addEvent(new PointEvent(event(g).kind(), late, null, "")));
        edit(all, "removeEvent(PointEvent)", (s, g) -> s.removeEvent(event(g)));
        edit(
                all,
                "replaceEvent(PointEvent,PointEvent)",
                (s, g) -> s.replaceEvent(event(g), new PointEvent(event(g).kind(), late, null, "")));
        edit(
                all,
                "confirm(Boundary,MediaTime)",
                (s, g) -> s.confirm(new Boundary(Boundary.Kind.PHASE, SPAN.start()), SPAN.start()));
        edit(all, "startPhase(String,MediaTime,Operator)", (s, g) -> s.startPhase("capsulotomy", late, null));
        edit(all, "endPhase(MediaTime)", (s, g) -> s.endPhase(MediaTime.ofSeconds(12)));
        edit(all, "merge(List)", (s, g) -> s.merge(List.of(SPAN, NEXT)));
        edit(all, "moveBoundary(MediaTime,MediaTime)", (s, g) -> s.moveBoundary(NEXT.start(), MediaTime.ofSeconds(8)));
        edit(all, "relabel(List,String)", (s, g) -> s.relabel(List.of(SPAN), "capsulotomy"));
        edit(all, "relabel(PhaseSpan,String)", (s, g) -> s.relabel(SPAN, "capsulotomy"));
        edit(all, "relabelFrom(MediaTime,String)", (s, g) -> s.relabelFrom(AT, "capsulotomy"));
        edit(all, "remove(List,List)", (s, g) -> s.remove(List.of(SPAN), List.of()));
        edit(all, "removeSpan(PhaseSpan)", (s, g) -> s.removeSpan(SPAN));
        edit(all, "retime(long,MediaTime,MediaTime)", (s, g) -> s.retime(0, NEXT.start(), MediaTime.ofSeconds(8)));
        edit(
                all,
                "setOperator(PhaseSpan,Operator)",
                (s, g) -> s.setOperator(SPAN, org.sideport.model.Operator.TRAINER));
        edit(all, "setStyle(TaggingStyle)", (s, g) -> {
            s.removeSpan(NEXT);
            s.setStyle(TaggingStyle.STARTS_ONLY);
        });
        edit(all, "shift(List,List,long)", (s, g) -> s.shift(List.of(NEXT), List.of(), 1_000_000));
        edit(all, "split(PhaseSpan,MediaTime)", (s, g) -> s.split(SPAN, AT));
        edit(all, "undo()", (s, g) -> {
            s.removeSpan(SPAN);
            s.undo();
        });
        edit(all, "redo()", (s, g) -> {
            s.removeSpan(SPAN);
            s.undo();
            s.redo();
        });
    }

    private static Voice voice(Given g) {
        Voice voice = new Voice(UUID.randomUUID().toString().replace("-", "").repeat(2), 1_000_000, SEEN, List.of());
        g.anyones()
                .change(s -> s.comments()
                        .save(
                                CASE,
                                new Comment(
                                        UUID.randomUUID().toString(),
                                        "A1",
                                        CommentTone.PRAISE,
                                        "",
                                        null,
                                        AT,
                                        null,
                                        List.of(),
                                        voice)));
        return voice;
    }

    private static Path part(Given g) throws IOException {
        return Files.createTempFile(g.dir(), "part", ".part");
    }

    private static void voices(List<Call> all) {
        general(
                all,
                "VoiceKeeping.begin(String)",
                g -> new VoiceKeeping(g.on()).begin(UUID.randomUUID().toString()));
        underCode(all, "VoiceKeeping.note(Path,String,String,SeenTrack)", g -> {
            Path part = part(g);
            return done(() -> new VoiceKeeping(g.on()).note(part, CASE, g.code(), SEEN));
        });
        all.add(new Call(
                "VoiceKeeping.finish(Path,String,String,SeenTrack,MediaTime)",
                false,
                true,
                g -> new VoiceKeeping(g.on()).finish(part(g), "id", g.code(), SEEN, AT)));
        general(all, "VoiceKeeping.discard(Path)", g -> {
            Path part = part(g);
            return done(() -> new VoiceKeeping(g.on()).discard(part));
        });
        general(all, "VoiceKeeping.rescue()", g -> new VoiceKeeping(g.on()).rescue());
        general(all, "VoiceKeeping.check()", g -> new VoiceKeeping(g.on()).check());
        general(all, "VoiceKeeping.tidy()", g -> new VoiceKeeping(g.on()).tidy());
        ofCase(all, "VoiceKeeping.fileOf(Voice)", g -> new VoiceKeeping(g.on()).fileOf(voice(g)));
        ofCase(all, "VoiceKeeping.copy(Voice,Path,boolean)", g -> {
            Voice voice = voice(g);
            return done(() -> new VoiceKeeping(g.on()).copy(voice, g.dir().resolve("out.ogg"), true));
        });
        ofCase(all, "VoiceKeeping.spoken(String,String)", g -> new VoiceKeeping(g.on()).spoken(CASE, "x"));
    }

    private static People people(Given g) {
        return new People(g.on(), CheapCredentials.make(), Clock.systemUTC());
    }

    private static void people(List<Call> all) {
        general(all, "People.list()", g -> people(g).list());
        general(all, "People.add(String,Set)", g -> people(g).add(fresh(), EnumSet.of(Role.DIRECTOR)));
        general(
                all,
                "People.add(String,Set,char[])",
                g -> people(g).add(fresh(), EnumSet.of(Role.DIRECTOR), "eight brown kettles".toCharArray()));
        general(all, "People.setRoles(String,Set)", g -> people(g).setRoles("X1", EnumSet.of(Role.DIRECTOR)));
        general(all, "People.block(String)", g -> people(g).block("X1"));
        general(all, "People.unblock(String)", g -> people(g).unblock("X1"));
        general(all, "People.resetPassword(String)", g -> people(g).resetPassword("X1"));
    }

    private static String fresh() {
        return "X" + UUID.randomUUID().toString().substring(0, 6);
    }
}
