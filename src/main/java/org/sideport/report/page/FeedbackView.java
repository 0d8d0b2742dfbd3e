package org.sideport.report.page;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** A feedback page as the template wants it: everything is text, and not escaped yet. */
public record FeedbackView(
        String title,
        String heading,
        List<Fact> facts,
        @Nullable FilmView film,
        List<SpanView> spans,
        List<PhaseView> legend,
        List<EventView> events,
        List<CommentView> comments,
        List<MarkView> marks,
        @Nullable TimesView times,
        List<String> cautions,
        String made,
        String program) {

    public boolean getHasFilm() {
        return film != null;
    }

    public record Fact(String name, String value) {}

    /** @param src address within the folder of the page */
    public record FilmView(String src, String length, boolean sound) {}

    /** @param look style class of its colour */
    public record SpanView(String look, String shortName, String said) {}

    public record PhaseView(String look, String name) {}

    /** @param at seconds, where to jump */
    public record EventView(String at, String clock, String name, String note) {}

    /** @param at seconds, where to jump */
    public record CommentView(
            String at,
            String clock,
            String jump,
            String tone,
            String toneText,
            String author,
            String item,
            boolean drawn,
            @Nullable StillView still,
            String text,
            @Nullable VoiceView voice,
            List<ReplyView> replies) {}

    public record StillView(String src, String said, int width, int height) {}

    public record VoiceView(String src, String length, List<String> captions) {}

    public record ReplyView(String author, String text) {}

    public record MarkView(
            String heading,
            String share,
            String basis,
            List<String> actions,
            String comment,
            List<DomainView> domains,
            String signed,
            String digest,
            String verify,
            boolean agreed) {}

    public record DomainView(String title, String sum, List<ItemView> items) {}

    public record ItemView(
            String title,
            String given,
            boolean marked,
            String comment,
            List<MomentView> evidence,
            List<AnchorView> anchors) {}

    public record MomentView(String at, String clock, String jump) {}

    public record AnchorView(String points, String text, boolean given) {}

    public record TimesView(
            String basis, List<String> heads, List<RowView> rows, List<String> notes, List<ChartView> charts) {}

    public record RowView(String look, String name, boolean step, String active, String episodes, List<String> usual) {}

    /**
     * @param light drawing on a light ground, made by the chart's library, as markup; empty on paper
     * @param dark likewise
     */
    public record ChartView(String id, String title, String sentence, String note, String light, String dark) {}
}
