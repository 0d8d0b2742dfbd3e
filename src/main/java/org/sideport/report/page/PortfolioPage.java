package org.sideport.report.page;

import java.io.OutputStream;
import java.util.List;
import org.sideport.model.MediaTime;
import org.sideport.report.page.FeedbackView.ChartView;
import org.sideport.report.page.FeedbackView.Fact;
import org.sideport.report.page.FeedbackView.MarkView;

/** A trainee's portfolio on paper. */
public final class PortfolioPage {

    private PortfolioPage() {}

    public record View(
            String title,
            String eyebrow,
            String heading,
            List<Fact> facts,
            List<CaseRow> cases,
            List<CaseMark> marks,
            List<CaseAction> actions,
            List<ChartView> charts,
            List<String> cautions,
            String made,
            String program) {}

    public record CaseRow(String number, String code, String date, String share) {}

    public record CaseMark(String of, MarkView mark) {}

    public record CaseAction(String of, String action) {}

    public static void pdf(Portfolio portfolio, PageWords words, OutputStream out) {
        Paper.write(
                FeedbackPage.paper("portfolio", view(portfolio, words), words),
                portfolio.charts(),
                portfolio.program(),
                words,
                out);
    }

    private static List<Fact> facts(Portfolio portfolio, PageWords words) {
        String cases = Integer.toString(portfolio.cases().size());
        return List.of(
                new Fact(words.get("fact.procedure"), portfolio.procedure()),
                new Fact(
                        words.get("portfolio.cases"),
                        portfolio.leftOut() == 0 ? cases : cases + "; " + words.get("leftOut", portfolio.leftOut())));
    }

    private static View view(Portfolio portfolio, PageWords words) {
        MarkViews marks = new MarkViews(words, us -> MediaTime.ofMicros(us).toSecondsText());
        String heading = words.get("portfolio.heading", portfolio.trainee());
        return new View(
                heading,
                words.get("portfolio.eyebrow"),
                heading,
                facts(portfolio, words),
                portfolio.cases().stream()
                        .map(c -> new CaseRow(
                                Integer.toString(c.number()),
                                c.code(),
                                words.date(c.date()),
                                c.share() == null
                                        ? words.get("usual.none")
                                        : words.get("portfolio.share", words.percent(c.share()), c.assessors())))
                        .toList(),
                portfolio.marks().stream()
                        .map(m -> new CaseMark(
                                words.get("portfolio.of", m.signed().caseCode(), words.date(m.date())),
                                marks.of(m.signed())))
                        .toList(),
                portfolio.marks().stream()
                        .filter(m -> !m.signed().rating().self())
                        .flatMap(m -> m.signed().rating().actions().stream()
                                .map(a -> new CaseAction(
                                        words.get("portfolio.of", m.signed().caseCode(), words.date(m.date())), a)))
                        .toList(),
                portfolio.charts().stream().map(c -> ChartViews.of(c, true)).toList(),
                words.cautions(),
                words.get("made.paper", words.moment(portfolio.madeAt()), portfolio.program()),
                portfolio.program());
    }
}
