package org.sideport.workflow;

import java.util.List;
import java.util.stream.Stream;

/** Public calls of the floor that no guard stands before. No list rests on its sentence alone: each names what holds it. */
final class Unguarded {

    /**
     * Neither they nor anything they call reads or changes a store: functions of what is handed to them, what a session has in
     * hand already, files that the caller names, rubric and procedure files. Held by {@code UnguardedCallsTest}, by what the
     * compiled program calls.
     */
    static final List<String> AWAY_FROM_THE_STORE = List.of(
            "ChartExport.*",
            "CompareCases.previous(List,SurgicalCase)",
            "ComputeTimings.timer(Procedure,Level)",
            "Codes.*",
            "ConsentGate.allows(Map,SurgicalCase,ConsentPurpose)",
            "DecisionFigures.*",
            "Descriptors.*",
            "ImportRecording.reorder(RecordingPreview,List)",
            "ExportCase.requireLong(char[])",
            "MarkCase.requireFit(SurgicalCase,String,boolean,Rubric)",
            "MeasureCase.pixels(List,double,double)",
            "MeasureCase.scaleOf(Measurement)",
            "ProgressCharts.*",
            "ProgressSentences.*",
            "ProgressWords.*",
            "PlanCharts.*",
            "UnitCharts.*",
            "ProposeCases.*",
            "ReferenceTimes.times(Procedure,Tagging,MediaTime,List)",
            "RubricWorkshop.check(RubricDraft,List)",
            "SecondDraw.draw(List,List,List,Map,int,long)",
            "StoredRubrics.of(StoredRating)",
            "TwoTaggings.agreement(Procedure,Tagging,Tagging,MediaTime)",
            "VoiceKeeping.withCaptions(Comment,List,String)",
            "PasswordRule.*",
            "ImportBundle.needsPassphrase(Path)",
            "ImportOpen.formatOf(Path)",
            "ImportRecording.probe(List,FrameIndexCache,Progress)",
            "ImportRecording.probe(List,Progress)",
            "CommentSession.canRedo()",
            "CommentSession.canUndo()",
            "CommentSession.newId()",
            "CommentSession.person()",
            "CommentSession.surgicalCase()",
            "MarkSession.amendment()",
            "MarkSession.caseCode()",
            "MarkSession.consentWarning()",
            "MarkSession.isKept()",
            "MarkSession.rating()",
            "MarkSession.rubric()",
            "MarkSession.score()",
            "MarkSession.state()",
            "TagSession.annotator()",
            "TagSession.canRedo()",
            "TagSession.canUndo()",
            "TagSession.confirmed()",
            "TagSession.edit()",
            "TagSession.isKept()",
            "TagSession.moved(Boundary,MediaTime)",
            "TagSession.procedure()",
            "TagSession.surgicalCase()",
            "TagSession.tagging()",
            "RubricWorkshop.procedures()",
            "Vocabularies.*",
            "CountedCases.cases()",
            "CountedCases.has(String)",
            "CountedCases.leftOut(Predicate)",
            "CountedCases.leftOut(String)",
            "CountedCases.others()");

    /**
     * The guards, and what calls that have asked them share: they open no store, but are given one (or the caller) by such a call,
     * and no face of the program has a store to give. Held by {@code UnguardedCallsTest}, by what the compiled program calls.
     */
    static final List<String> WITHIN_A_CALL = List.of(
            "Access.*",
            "ConsentGate.require(Stores,SurgicalCase,ConsentPurpose)",
            "HideAreas.warn(Stores,String,List)",
            "HideAreas.with(Stores,String,List)",
            "WhichTagging.*",
            "CountedCases.of(Stores,List,ConsentPurpose)",
            "CountedCases.forAssessment(Stores,List)");

    /** Tell what is offered: the table's answer, yes or no, and nothing else. Held cell by cell by {@code UnguardedCallsTest}. */
    static final List<String> OFFERS = List.of(
            "Assignments.mayHave(String)",
            "Exemplars.isOffered(String)",
            "MarkCase.isOffered(String,boolean)",
            "WriteFeedback.isOffered()",
            "WritePortfolio.isOffered(String)",
            "WriteWorkbook.isOffered()");

    /** Each with the test that holds it. */
    static final List<String> BY_A_TEST_OF_ITS_OWN = List.of(
            // which workspace is meant, before there is one: WorkspacesTest
            "Workspaces.*",
            // makes a workspace of its own, out of a backup that whoever holds it holds already: FlippedStoreTest
            "KeepBackups.restore(Path,Path,Progress)",
            // makes the demo's workspace, where there is none: CommandLineTest
            "RunDemo.run(Path,Progress)",
            // before anybody has signed in: SignInTest
            "SignIn.*",
            // the database itself decides: DatabaseWindowTest, RowSecurityTest
            "DatabaseSignIn.*",
            // whether there is anybody at all, a yes or no that the first screen needs: UnguardedCallsTest
            "People.none()",
            // answers with nothing instead of refusing, since it stands beside every fault: GuardedCallsTest
            "LogTail.read()",
            // a copy within the folder of the workspace must not hang on who sits there: GuardedCallsTest
            "KeepBackups.ifDue(Progress)");

    private Unguarded() {}

    static List<String> all() {
        return Stream.of(AWAY_FROM_THE_STORE, WITHIN_A_CALL, OFFERS, BY_A_TEST_OF_ITS_OWN)
                .flatMap(List::stream)
                .toList();
    }

    static boolean isNamed(String type, String call) {
        return all().contains(call) || all().contains(type + ".*");
    }
}
