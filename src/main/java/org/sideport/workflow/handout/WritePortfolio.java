package org.sideport.workflow.handout;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.report.AtomicFile;
import org.sideport.report.page.PageWords;
import org.sideport.report.page.Portfolio;
import org.sideport.report.page.Portfolio.Dated;
import org.sideport.report.page.Portfolio.OneCase;
import org.sideport.report.page.PortfolioPage;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.FollowProgress.Question;
import org.sideport.workflow.FollowProgress.Subject;
import org.sideport.workflow.Program;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.CaseShare;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.progress.ProgressCharts;
import org.sideport.workflow.progress.ProgressWords;

/** Writes a trainee's portfolio: cases, signed marks with their digests, progress. For that trainee and for directors. */
public final class WritePortfolio {

    private final Workspace workspace;

    public WritePortfolio(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What to write.
     *
     * @param procedure id; {@code null} for the one that the trainee has most cases of
     * @param rubric id of the one that is charted; {@code null} for the one with most marks
     * @param logComplete whether whoever asks states that every operation of the trainee is here, in turn
     */
    public record Wanted(
            String trainee,
            @Nullable String procedure,
            @Nullable String rubric,
            boolean logComplete,
            String language) {}

    public record Written(Path file, int cases, int marks) {}

    /** True if the caller may have the portfolio of this trainee. */
    public boolean isOffered(String trainee) {
        return Access.may(workspace.caller(), Permission.EXPORT_CASE)
                && Access.directsOrIs(workspace.caller(), trainee);
    }

    /**
     * @param out a PDF file
     * @throws InputException if the caller is neither that trainee nor a director, there is no such case, or the file cannot
     *     be written
     */
    public Written write(Wanted wanted, Path out, Progress progress) {
        String trainee = Codes.require("a trainee", wanted.trainee());
        PageWords words = PageWords.of(wanted.language());
        Access.require(workspace, Permission.EXPORT_CASE);
        if (!Access.directsOrIs(workspace.caller(), trainee)) {
            throw new InputException(
                    "you may not have the portfolio of another person",
                    null,
                    "a trainee asks for the own, a director for anyone's");
        }
        FollowProgress follow = new FollowProgress(workspace);
        ProgressView view = follow.show(new Question(
                trainee,
                wanted.procedure() == null ? procedure(follow, trainee) : wanted.procedure(),
                wanted.rubric(),
                FollowProgress.USUAL_RECENT,
                wanted.logComplete()));
        progress.report(0.3, "Reading the marks");
        List<Dated> marks = workspace.read(stores -> marks(stores, view));
        progress.check();
        Portfolio portfolio = new Portfolio(
                trainee,
                view.procedure().title(),
                cases(view),
                view.leftOut().cases(),
                marks,
                charts(view, new ProgressWords(words.locale())),
                OffsetDateTime.now(ZoneId.systemDefault()),
                Program.VERSION);
        progress.report(0.5, "Writing");
        AtomicFile.write(out, to -> PortfolioPage.pdf(portfolio, words, to));
        workspace.change(stores -> stores.audit().add("export.portfolio", trainee, "", ""));
        progress.report(1, "Written");
        return new Written(out.toAbsolutePath(), portfolio.cases().size(), (int)
                marks.stream().filter(m -> m.signed().agreement() == null).count());
    }

    private static String procedure(FollowProgress follow, String trainee) {
        return follow.subjects().stream()
                .filter(s -> s.trainee().equals(trainee))
                .max(Comparator.comparingInt(Subject::cases))
                .map(Subject::procedure)
                .orElseThrow(() -> new InputException(
                        "there is no case of " + trainee + " that you may see",
                        "--trainee",
                        "see the codes with: sideport case list"));
    }

    private static List<OneCase> cases(ProgressView view) {
        ProgressView.Marks marks = view.marks();
        Map<String, CaseShare> shares = marks == null
                ? Map.of()
                : marks.shares().stream().collect(Collectors.toMap(s -> s.of().code(), Function.identity()));
        return view.cases().stream()
                .map(c -> {
                    CaseShare share = shares.get(c.code());
                    return new OneCase(
                            c.number(),
                            c.code(),
                            c.date(),
                            share == null ? null : (Double) share.share(),
                            share == null ? 0 : share.assessors());
                })
                .toList();
    }

    /** Phases but not their steps; item by item would be many pages. */
    private static List<Chart> charts(ProgressView view, ProgressWords words) {
        ProgressCharts charts = new ProgressCharts(view, words);
        List<Chart> all = new ArrayList<>();
        charts.share().ifPresent(all::add);
        view.times().stream()
                .filter(term -> !term.step())
                .forEach(term -> all.add(charts.time(term, ProgressCharts.usual(term))));
        charts.gap().ifPresent(all::add);
        charts.monitoring().ifPresent(all::add);
        return all;
    }

    private static List<Dated> marks(Stores stores, ProgressView view) {
        List<Dated> marks = new ArrayList<>();
        for (ProgressView.OneCase one : view.cases()) {
            SurgicalCase of = stores.cases().get(one.code());
            List<StoredRating> signed = FeedbackReading.signed(
                    stores, of, stores.ratings().ofCase(of.code(), Access.marks(stores.caller())));
            FeedbackReading.agreed(stores, signed).forEach(a -> marks.add(new Dated(one.date(), a)));
            signed.forEach(r -> marks.add(new Dated(one.date(), FeedbackReading.signed(stores, r))));
        }
        return marks;
    }
}
