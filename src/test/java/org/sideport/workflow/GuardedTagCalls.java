package org.sideport.workflow;

import java.util.List;
import java.util.Set;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.timing.Boundary;
import org.sideport.timing.TagTable;
import org.sideport.workflow.access.Permission;

/** Tagging. */
final class GuardedTagCalls {

    private GuardedTagCalls() {}

    static void add(GuardedCalls all) {
        tags(all);
        tagSession(all);
    }

    private static void tags(GuardedCalls all) {
        all.ofCase(
                Permission.SEE_CASE,
                "TwoTaggings.taggingOf(String,String)",
                g -> new TwoTaggings(g.on()).taggingOf(GuardedCalls.CASE, "A1"));
        all.ofCase(
                Permission.SEE_CASE, "RecordingCuts.of(String)", g -> new RecordingCuts(g.on()).of(GuardedCalls.CASE));
        all.ofCase(
                Permission.TAG,
                "RecordingCuts.find(String,Progress)",
                g -> new RecordingCuts(g.on()).find(GuardedCalls.CASE, Progress.NONE));
        all.underCode(
                Permission.TAG,
                "RecordingCuts.add(String,MediaTime,String,String)",
                g -> new RecordingCuts(g.on()).add(GuardedCalls.CASE, GuardedCalls.AT, "seen", g.code()));
        all.underCode(Permission.TAG, "RecordingCuts.decide(String,MediaTime,CutState,String)", g -> {
            MediaTime at = GuardedCalls.AT;
            g.anyones()
                    .change(s -> s.cuts()
                            .save(GuardedCalls.CASE, new Cut(at, at, CutKind.SEEN, CutState.PROPOSED, "seen", "")));
            return new RecordingCuts(g.on()).decide(GuardedCalls.CASE, at, CutState.ACCEPTED, g.code());
        });
        all.ofCase(Permission.SEE_CASE, "TagExchange.find(String,String)", g -> {
            g.tagged("A1", GuardedCalls.TAGS);
            return new TagExchange(g.on()).find(GuardedCalls.CASE, "A1");
        });
        all.ofCase(Permission.EXPORT_CASE, "TagExchange.exportCsv(Exported,Kind,Appendable)", g -> {
            StringBuilder out = new StringBuilder();
            new TagExchange(g.on())
                    .exportCsv(
                            new TagExchange.Exported(g.theCase(), "A1", Tagging.EMPTY, Set.of()),
                            TagTable.Kind.PHASES,
                            out);
            return out;
        });
        all.underCode(
                Permission.TAG,
                "TagExchange.importCsv(Path,String,boolean)",
                g -> new TagExchange(g.on())
                        .importCsv(
                                Unit.csv(
                                        g.dir(),
                                        "case,annotator,phase,start,end,operator",
                                        GuardedCalls.CASE + "," + g.code() + ",incision,1,2,"),
                                null,
                                true));
        all.ofCase(
                Permission.SEE_CASE,
                "TagRecording.look(String,String)",
                g -> new TagRecording(g.on()).look(GuardedCalls.CASE, "A1").tagging());
        all.underCode(
                Permission.TAG,
                "TagRecording.of(String,String,boolean)",
                g -> new TagRecording(g.on()).of(GuardedCalls.CASE, g.code(), true));
        all.underCode(
                Permission.TAG,
                "TagRecording.open(String,String)",
                g -> new TagRecording(g.on()).open(GuardedCalls.CASE, g.code()));
    }

    private static final PhaseSpan SPAN =
            new PhaseSpan("incision", MediaTime.ofSeconds(1), MediaTime.ofSeconds(9), null);
    private static final PhaseSpan NEXT =
            new PhaseSpan("incision", MediaTime.ofSeconds(9), MediaTime.ofSeconds(20), null);

    /** A session of who tries, with two spans and an event, put in the hands of a caller who could not open it. */
    private static TagSession tagging(GuardedCalls.Given g) {
        Tagging stored = new Tagging(TaggingStyle.START_AND_END, List.of(SPAN, NEXT), List.of(event(g)));
        g.tagged(g.code(), stored);
        return new TagSession(
                g.on(), g.theCase(), new Vocabularies(g.anyones()).procedure("phaco"), g.code(), stored, Set.of());
    }

    private static PointEvent event(GuardedCalls.Given g) {
        return new PointEvent(
                new Vocabularies(g.anyones()).procedure("phaco").events().get(0).id(), GuardedCalls.AT, null, "");
    }

    private interface Edit {
        void on(TagSession session, GuardedCalls.Given given);
    }

    private static void edit(GuardedCalls all, String name, Edit edit) {
        all.underCode(Permission.TAG, "TagSession." + name, g -> {
            TagSession session = tagging(g);
            edit.on(session, g);
            return session;
        });
    }

    private static void tagSession(GuardedCalls all) {
        MediaTime late = MediaTime.ofSeconds(30);
        all.underCode(Permission.TAG, "TagSession.retry()", g -> {
            TagSession session = tagging(g);
            // what another program kept while the database was away; taking it up is refused as saving it is
            new PendingTags(g.on().dir(), GuardedCalls.CASE, g.code())
                    .keep(GuardedCalls.TAGS, Set.of(), Set.of(session.tagging()));
            try {
                session.takeUp();
            } catch (InputException refused) {
                // and so is trying once more, below
            }
            return GuardedCalls.done(session::retry);
        });
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
        edit(all, "relabelFrom(MediaTime,String)", (s, g) -> s.relabelFrom(GuardedCalls.AT, "capsulotomy"));
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
        edit(all, "split(PhaseSpan,MediaTime)", (s, g) -> s.split(SPAN, GuardedCalls.AT));
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
}
