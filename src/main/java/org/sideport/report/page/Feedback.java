package org.sideport.report.page;

import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.model.CommentThread;
import org.sideport.model.Procedure;
import org.sideport.model.Rating;
import org.sideport.model.RatingSeal;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.rubric.Score;
import org.sideport.timing.CaseTiming;

/**
 * What a trainee takes away from a case. Everything in it may be seen by the reader: nothing is left out later.
 *
 * @param film {@code null} without a recording
 * @param tagging {@code null} if nobody has tagged the case
 * @param marks agreed ones, then signed ones, the assessors' first
 * @param voices names of the sound files within the film's folder by the digests of voices
 * @param stills pictures of moments that were drawn on, by the ids of their comments; may lack some or all
 * @param times {@code null} where there are none
 */
public record Feedback(
        SurgicalCase of,
        Procedure procedure,
        @Nullable Film film,
        @Nullable Tagging tagging,
        List<Signed> marks,
        List<CommentThread> comments,
        Map<String, String> voices,
        Map<String, Still> stills,
        @Nullable Times times,
        OffsetDateTime madeAt,
        String program) {

    public Feedback {
        marks = List.copyOf(marks);
        comments = List.copyOf(comments);
        voices = Map.copyOf(voices);
        stills = Map.copyOf(stills);
    }

    /**
     * The copy of the recording that lies beside the page.
     *
     * @param folder its name; it lies where the page does
     * @param file its name within
     * @param meanFrameUs length of a frame on average
     */
    public record Film(String folder, String file, Frames frames, long meanFrameUs, long durationUs, boolean sound) {}

    /**
     * A moment's picture with its drawing.
     *
     * @param picture name of the file within the film's folder, or without a film the picture itself as a data URL
     * @param width pixels
     * @param height pixels
     */
    public record Still(String picture, int width, int height) {}

    /** Which frame is on the screen at a time. Microseconds, before and after the film as at its ends. */
    public interface Frames {

        long startUs(long us);

        long endUs(long us);
    }

    /**
     * Signed marks, or what was agreed where they differed.
     *
     * @param signedAt {@code null} if it is not known
     * @param seal {@code null} for marks from before there were seals
     * @param reason why they were amended; empty if they were not
     * @param agreement {@code null} for what one person marked and signed
     */
    public record Signed(
            String caseCode,
            Rubric rubric,
            Rating rating,
            Score score,
            @Nullable OffsetDateTime signedAt,
            @Nullable RatingSeal seal,
            String reason,
            @Nullable Agreement agreement) {}

    /**
     * How several assessors' marks were settled.
     *
     * @param by codes of those who agreed
     * @param standing the assessor whose marks stand; empty if they were agreed anew
     */
    public record Agreement(String by, OffsetDateTime at, String why, String standing) {}

    /**
     * How long it took.
     *
     * @param whole of the operation, in phases
     * @param rows phases and steps in the procedure's order, those that occur
     * @param against names of what the rows are held against, with source and caveat
     * @param charts one for each of them that there is anything of
     */
    public record Times(CaseTiming whole, List<Row> rows, List<Against> against, List<Chart> charts) {
        public Times {
            rows = List.copyOf(rows);
            against = List.copyOf(against);
            charts = List.copyOf(charts);
        }
    }

    /**
     * @param phase id of the phase or step
     * @param step true for a step, whose time is within that of its phase too
     * @param activeUs {@code null} if unknown
     * @param unsure true if it is a lower limit only
     * @param usual by the id of what it is held against
     */
    public record Row(
            String phase,
            String name,
            String shortName,
            boolean step,
            @Nullable Long activeUs,
            boolean unsure,
            int episodes,
            Map<String, Usual> usual) {
        public Row {
            usual = Map.copyOf(usual);
        }
    }

    /**
     * Microseconds.
     *
     * @param quartiles false if low and high are the least and the greatest
     */
    public record Usual(long lowUs, long middleUs, long highUs, boolean quartiles, int n) {}

    /** @param note source and caveat; may be empty */
    public record Against(String id, String name, int n, String note) {}
}
