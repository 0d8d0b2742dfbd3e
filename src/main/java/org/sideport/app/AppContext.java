package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.assign.GapPane;
import org.sideport.app.assign.ToMarkModel;
import org.sideport.app.cases.Thumbnails;
import org.sideport.app.comment.CommentsViewModel;
import org.sideport.app.comment.LiveDrawing;
import org.sideport.app.compare.CompareViewModel;
import org.sideport.app.compare.PairDesk;
import org.sideport.app.compare.StackViewModel;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Theme;
import org.sideport.app.jobs.Jobs;
import org.sideport.app.marking.MarkingViewModel;
import org.sideport.app.measure.MeasureViewModel;
import org.sideport.app.people.Me;
import org.sideport.app.people.Session;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.app.progress.ChartKit;
import org.sideport.app.progress.ProgressScreen;
import org.sideport.app.progress.ProgressViewModel;
import org.sideport.app.refine.RefineBar;
import org.sideport.app.refine.RefineViewModel;
import org.sideport.app.review.BesideTags;
import org.sideport.app.review.Besides;
import org.sideport.app.review.CutsViewModel;
import org.sideport.app.review.PictureTools;
import org.sideport.app.review.RecordingLanes;
import org.sideport.app.review.ReferenceModel;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.app.settings.ChosenRoles;
import org.sideport.app.settings.Language;
import org.sideport.app.settings.Persons;
import org.sideport.app.voice.Microphone;
import org.sideport.app.voice.Narrator;
import org.sideport.app.voice.Speakers;
import org.sideport.app.voice.SpokenViewModel;
import org.sideport.app.voice.VoiceCare;
import org.sideport.app.voice.VoiceInput;
import org.sideport.app.voice.VoiceLanes;
import org.sideport.app.voice.VoiceOutput;
import org.sideport.media.FrameIndexCache;
import org.sideport.model.Caller;
import org.sideport.player.ClockPlayer;
import org.sideport.store.Workspace;
import org.sideport.workflow.AmendMark;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CompareCases;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.Exemplars;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.LogTail;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.RecordingCuts;
import org.sideport.workflow.RecordingTraces;
import org.sideport.workflow.ReferenceTimes;
import org.sideport.workflow.RunDemo;
import org.sideport.workflow.SignIn;
import org.sideport.workflow.StackCases;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.TwoTaggings;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.VoiceKeeping;
import org.sideport.workflow.access.Credentials;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.SelfAndAssessor;
import org.sideport.workflow.exchange.ExportOwnData;
import org.sideport.workflow.handout.WritePortfolio;
import org.sideport.workflow.upkeep.KeepBackups;

/** Makes and holds everything that the window is built from: the one place where it is wired together. */
public final class AppContext implements AutoCloseable {

    private final Workspace workspace;
    private final Me me;
    private final Settings settings;
    private final Settings place;
    private final Texts texts;
    private final Notices notices;
    private final Jobs jobs;
    private final Background listedWork;
    private final Background listedImporting;
    private final FxThread screenThread = new FxThread();
    private final ThreadBackground work = new ThreadBackground("sideport-work", screenThread);
    private final ThreadBackground importing = new ThreadBackground("sideport-import", screenThread);
    private final ThreadBackground pictures = new ThreadBackground("sideport-pictures", screenThread);
    private final ThreadBackground frames = new ThreadBackground("sideport-frames", screenThread);
    private final ThreadBackground leftFrames = new ThreadBackground("sideport-left", screenThread);
    private final ThreadBackground rightFrames = new ThreadBackground("sideport-right", screenThread);
    private final ThreadBackground charts = new ThreadBackground("sideport-charts", screenThread);
    private final ThreadBackground strip = new ThreadBackground("sideport-strip", screenThread);
    private final ThreadBackground refining = new ThreadBackground("sideport-refining", screenThread);
    /** Traces, and cuts found on them: one after the other, so that no recording is decoded twice at once. */
    private final ThreadBackground measuring = new ThreadBackground("sideport-measuring", screenThread);

    private final ThreadBackground upkeep = new ThreadBackground("sideport-upkeep", screenThread);

    private final ThreadBackground discovery = new ThreadBackground("sideport-discovery", screenThread);
    private final Theme theme;
    private final PictureDesk desk;
    private final RecordingLanes lanes;
    private final FrameSource.Opener frameOpener;
    private final CurrentCase current;
    private final PairDesk pair;
    private final Players players;
    private final Vocabularies vocabularies;
    private final Clock clock;
    private final VoiceInput voiceInput;
    private final VoiceOutput voiceOutput;

    /** Takes over the workspace and closes it in the end. */
    public AppContext(Workspace workspace, Clock clock) {
        this(workspace, clock, new Microphone(), new Speakers());
    }

    /** With other ends for spoken comments than the system's own. */
    public AppContext(Workspace workspace, Clock clock, VoiceInput voiceInput, VoiceOutput voiceOutput) {
        this.voiceInput = voiceInput;
        this.voiceOutput = voiceOutput;
        this.workspace = workspace;
        this.clock = clock;
        Path dir = workspace.dir();
        me = new Me(workspace.caller());
        String person = Persons.mark(me.code());
        settings = settings(dir, me.code());
        if (me.caller() instanceof Caller.Person signedIn) {
            settings.fix("annotator", signedIn.code());
            settings.fix("assessor", signedIn.code());
            ChosenRoles.fix(settings, signedIn.roles());
        }
        place = new Settings(dir.resolve("place-" + person + ".properties"));
        texts = new Texts(Language.of(settings.get("language", "")));
        notices = new Notices(texts);
        jobs = new Jobs(texts, System::nanoTime);
        listedWork = jobs.naming(work);
        listedImporting = jobs.listing(importing, "jobs.import");
        theme = new Theme(settings);
        FrameIndexCache index = new FrameIndexCache(workspace.indexDir());
        frameOpener = FrameSource.with(index);
        desk = new PictureDesk(
                new ClockPlayer(screenThread, System::nanoTime), frameOpener, jobs.naming(frames), notices);
        pair = new PairDesk(desk(index, leftFrames), desk(index, rightFrames));
        players = new Players(screenThread, texts, desk, pair);
        lanes = new RecordingLanes(
                desk,
                frameOpener,
                new RecordingTraces(workspace)::of,
                strip,
                jobs.listing(measuring, "jobs.traces"),
                texts);
        vocabularies = new Vocabularies(workspace);
        new VoiceCare(new VoiceKeeping(workspace), work, notices, texts).run();
        current = new CurrentCase(
                new CaseList(workspace), vocabularies, new OpenRecording(workspace), work, desk, notices);
    }

    /** The settings of somebody in this workspace; at first those of the account. */
    static Settings settings(Path dir, String code) {
        Path ofAccount = dir.resolve("window-" + Persons.mark() + ".properties");
        return code.isEmpty()
                ? new Settings(ofAccount, dir.resolve("window.properties"))
                : new Settings(dir.resolve("window-" + Persons.mark(code) + ".properties"), ofAccount);
    }

    private PictureDesk desk(FrameIndexCache index, Background decoding) {
        return new PictureDesk(
                new ClockPlayer(screenThread, System::nanoTime), FrameSource.with(index), decoding, notices);
    }

    /** Looks for LibVLC and plays through it once it is found. */
    public void findPlayer() {
        players.find(discovery);
    }

    public Texts texts() {
        return texts;
    }

    public Notices notices() {
        return notices;
    }

    /** Who sits here. */
    public Me me() {
        return me;
    }

    /** Begins the session of who signed in, in this window; {@code null} where nobody signs in. */
    public @Nullable Session session(Stage stage, Navigator navigator) {
        return me.caller() instanceof Caller.Person person
                ? new Session(
                        stage,
                        person,
                        new SignIn(workspace, Credentials.inStore(), clock),
                        work,
                        texts,
                        settings,
                        clock,
                        () -> desk.playingProperty().get(),
                        () -> {
                            desk.pause();
                            pair.pause();
                        },
                        theme::dress,
                        navigator::signOut)
                : null;
    }

    /** What goes on in the background. */
    public Jobs jobs() {
        return jobs;
    }

    /** Where the user was, on disk within a second. */
    public Settings place() {
        return place;
    }

    /** Short work that must not hold up the screen. */
    public Background work() {
        return work;
    }

    public LogTail logTail() {
        return new LogTail(workspace);
    }

    public Path folder() {
        return workspace.dir();
    }

    /**
     * Makes the workspace of the demo, or finds it made.
     *
     * @param made gets its folder
     */
    public void demo(Consumer<Path> made) {
        Path out = Path.of(System.getProperty("user.home"), "sideport-demo");
        Path data = Path.of(System.getProperty("sideport.home", ".")).resolve("demo-data");
        listedWork
                .named("jobs.demo")
                .run(
                        progress -> {
                            if (!Workspace.isWorkspace(out)) {
                                new RunDemo(data, line -> {})
                                        .run(out, progress)
                                        .workspace()
                                        .close();
                            }
                            return out;
                        },
                        made,
                        notices::failed);
    }

    public Settings settings() {
        return settings;
    }

    public Theme theme() {
        return theme;
    }

    public PictureDesk desk() {
        return desk;
    }

    /** The two recordings beside each other. */
    public PairDesk pair() {
        return pair;
    }

    public CurrentCase current() {
        return current;
    }

    /** Why there is no sound and no smooth playback; empty if there is. */
    public ReadOnlyStringProperty playerProblemProperty() {
        return players.problemProperty();
    }

    /** Which player is used, for the about window. */
    public String playerText() {
        return players.text();
    }

    /** Makes what the Cases screen and its windows work with. */
    public CasesRoom cases() {
        return new CasesRoom(
                workspace,
                vocabularies,
                clock,
                work,
                listedWork,
                listedImporting,
                jobs.listing(pictures, "jobs.thumbnails"),
                notices,
                texts,
                settings);
    }

    public ReviewViewModel reviewViewModel() {
        return new ReviewViewModel(
                current,
                desk,
                new TagRecording(workspace),
                new ComputeTimings(workspace),
                work,
                notices,
                texts,
                settings);
    }

    public CutsViewModel cutsViewModel(ReviewViewModel review) {
        return new CutsViewModel(
                review, desk, new RecordingCuts(workspace), work, jobs.listing(measuring, "jobs.cuts"), notices, texts);
    }

    /** The walk through the boundaries of {@code review}, with its strip of frames. */
    public RefineBar refineBar(ReviewViewModel review) {
        RefineViewModel model = new RefineViewModel(
                review,
                lanes.framesProperty(),
                () -> lanes.measuredProperty().get().candidates(),
                notices,
                texts);
        return new RefineBar(model, frameOpener, refining, texts);
    }

    /** What the tags of {@code review} are put beside. */
    public Besides besides(ReviewViewModel review, CutsViewModel cuts) {
        return new Besides(
                new ReferenceModel(review, new ReferenceTimes(workspace), cuts.cuts(), pictures, texts, settings),
                new BesideTags(review, new TwoTaggings(workspace), work, notices, texts));
    }

    /** What is measured of the recording that is open. */
    public RecordingLanes recordingLanes() {
        return lanes;
    }

    /** Comments and measurements of who is at work in {@code review}. */
    public PictureTools pictureTools(ReviewViewModel review) {
        CommentsViewModel comments = new CommentsViewModel(
                current,
                desk,
                review.annotatorProperty(),
                new CommentCase(workspace),
                vocabularies,
                work,
                notices,
                texts);
        VoiceKeeping keeping = new VoiceKeeping(workspace);
        SpokenViewModel spoken = new SpokenViewModel(
                current,
                desk,
                review.annotatorProperty(),
                comments,
                new LiveDrawing(),
                keeping,
                work,
                voiceInput,
                voiceOutput,
                screenThread,
                System::nanoTime,
                notices,
                texts,
                settings);
        return new PictureTools(
                comments,
                new MeasureViewModel(
                        current, desk, review.annotatorProperty(), new MeasureCase(workspace), work, notices, texts),
                spoken,
                new VoiceLanes(comments.all(), desk, keeping, pictures, texts),
                texts);
    }

    public CompareViewModel compareViewModel() {
        return new CompareViewModel(
                new CompareCases(workspace),
                new Exemplars(workspace, clock),
                new OpenRecording(workspace),
                current,
                pair,
                new Narrator(voiceOutput, screenThread, System::nanoTime, notices, texts),
                work,
                notices,
                texts,
                settings);
    }

    public StackViewModel stackViewModel() {
        return new StackViewModel(new StackCases(workspace), work, notices, settings);
    }

    /** Whether any part of the programme's screen is of use to who sits here. */
    public boolean hasProgramme() {
        return programme().isOffered(me);
    }

    /** The parts of the programme's screen that are of use to who sits here, in their order. */
    public List<ProgrammePane> programmePanes(Navigator navigator) {
        return programme().offered(me, navigator);
    }

    private ProgrammeParts programme() {
        return new ProgrammeParts(
                workspace, clock, vocabularies, work, listedWork, jobs.naming(upkeep), settings, chartKit());
    }

    /** How a trainee comes along. */
    public ProgressScreen progressScreen(Navigator navigator) {
        return new ProgressScreen(
                new ProgressViewModel(
                        new FollowProgress(workspace),
                        new WritePortfolio(workspace),
                        new ExportOwnData(workspace),
                        current,
                        me.code(),
                        listedWork,
                        notices,
                        texts,
                        settings),
                chartKit(),
                navigator);
    }

    private ChartKit chartKit() {
        return new ChartKit(listedWork, charts, notices, theme, texts);
    }

    /** What the person at work has to mark: who signed in, else whose code marks were last made under. */
    public ToMarkModel toMarkModel() {
        return new ToMarkModel(
                new Assignments(workspace, clock),
                () -> workspace.caller().code().isEmpty()
                        ? settings.get("assessor", "")
                        : workspace.caller().code(),
                work,
                notices);
    }

    public GapPane gapPane(MarkingViewModel marking) {
        return new GapPane(marking, new SelfAndAssessor(workspace), work, notices, texts);
    }

    /** Copies the store if the last copy is older than a day. */
    void backUpIfDue() {
        upkeep.run(progress -> new KeepBackups(workspace, clock).ifDue(progress) != null, made -> {}, notices::failed);
    }

    public MarkingViewModel markingViewModel() {
        return new MarkingViewModel(
                current,
                desk,
                new MarkCase(workspace),
                new AmendMark(workspace),
                vocabularies,
                new TagRecording(workspace),
                work,
                notices,
                texts,
                settings);
    }

    /** Ends what runs, writes the settings and lets go of the store. */
    @Override
    public void close() {
        desk.close();
        pair.close();
        measuring.close();
        strip.close();
        refining.close();
        discovery.close();
        importing.close();
        upkeep.close();
        pictures.close();
        frames.close();
        leftFrames.close();
        rightFrames.close();
        work.close();
        players.close();
        settings.close();
        place.close();
        Thumbnails.leaveNone(workspace);
        workspace.close();
    }
}
