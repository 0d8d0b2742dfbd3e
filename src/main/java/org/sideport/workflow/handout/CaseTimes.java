package org.sideport.workflow.handout;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.chart.Mark;
import org.sideport.model.Cut;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.report.page.Feedback.Against;
import org.sideport.report.page.Feedback.Row;
import org.sideport.report.page.Feedback.Times;
import org.sideport.report.page.Feedback.Usual;
import org.sideport.report.page.PageWords;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.ReferenceTimes;
import org.sideport.workflow.ReferenceTimes.Reference;

/** A case's times beside what is usual: the figures of Review, written out. */
final class CaseTimes {

    /** Of published times only those of much experience: a reference for whoever learns. */
    private static final String PUBLISHED = "published_much_experience";

    private static final double BOX = 0.5;

    private final Procedure procedure;
    private final PageWords words;

    CaseTimes(Procedure procedure, PageWords words) {
        this.procedure = procedure;
        this.words = words;
    }

    /** @param end of the recording; {@code null} if there is none */
    Times of(
            String caseCode,
            String annotator,
            Tagging tagging,
            @Nullable MediaTime end,
            List<Cut> cuts,
            List<Reference> references) {
        CaseTiming whole = ComputeTimings.timer(procedure, Level.PHASE).time(caseCode, annotator, tagging, end, cuts);
        Map<String, PhaseTiming> times = ReferenceTimes.times(procedure, tagging, end, cuts);
        List<Reference> held = references.stream().filter(CaseTimes::isShown).toList();
        List<Row> rows = procedure.terms().stream()
                .filter(term -> !term.phase().idle() && times.containsKey(term.id()))
                .map(term -> row(term, times.get(term.id()), held))
                .toList();
        List<Chart> charts = new ArrayList<>();
        for (Reference reference : held) {
            chart(reference, rows, charts.size()).ifPresent(charts::add);
        }
        return new Times(whole, rows, held.stream().map(this::against).toList(), charts);
    }

    private static boolean isShown(Reference reference) {
        return reference instanceof ReferenceTimes.Own || reference.id().equals(PUBLISHED);
    }

    private static Row row(Procedure.Term term, @Nullable PhaseTiming timing, List<Reference> held) {
        Map<String, Usual> usual = new LinkedHashMap<>();
        for (Reference reference : held) {
            ReferenceTimes.Usual found = reference.usual(term.id());
            if (found != null) {
                usual.put(
                        reference.id(),
                        new Usual(found.lowUs(), found.middleUs(), found.highUs(), found.quartiles(), found.n()));
            }
        }
        return new Row(
                term.id(),
                term.name(),
                term.shortName(),
                term.isStep(),
                timing == null ? null : timing.activeUs(),
                timing != null && timing.unsure().active(),
                timing == null ? 0 : timing.episodes(),
                usual);
    }

    private String name(Reference reference) {
        if (reference instanceof ReferenceTimes.Published published) {
            return published.group().title();
        }
        return words.get(
                reference.id().equals(ReferenceTimes.Kind.EXEMPLARS.name())
                        ? "reference.exemplars"
                        : "reference.earlier");
    }

    private Against against(Reference reference) {
        String note = reference instanceof ReferenceTimes.Published published
                ? words.get(
                        "reference.source",
                        name(reference) + ": " + published.group().source(),
                        published.group().caveat(),
                        published.note())
                : "";
        return new Against(reference.id(), name(reference), reference.n(), note);
    }

    private Optional<Chart> chart(Reference reference, List<Row> rows, int number) {
        List<Layer.Range> boxes = new ArrayList<>();
        List<Layer.At> middles = new ArrayList<>();
        List<Layer.At> own = new ArrayList<>();
        List<Axis.Tick> ticks = new ArrayList<>();
        List<String> said = new ArrayList<>();
        DoubleStream.Builder heights = DoubleStream.builder();
        boolean quartiles = true;
        for (Row row : rows) {
            Usual usual = row.usual().get(reference.id());
            Long us = row.activeUs();
            if (usual == null || us == null || us <= 0 || usual.lowUs() <= 0) {
                continue;
            }
            int x = ticks.size() + 1;
            ticks.add(new Axis.Tick(x, row.shortName()));
            boxes.add(new Layer.Range(x, usual.lowUs() / 1e6, usual.highUs() / 1e6));
            middles.add(new Layer.At(x, usual.middleUs() / 1e6, row.name()));
            own.add(new Layer.At(x, us / 1e6, row.name()));
            heights.add(usual.lowUs() / 1e6).add(usual.highUs() / 1e6).add(us / 1e6);
            quartiles &= usual.quartiles();
            said.add(words.get(
                    "chart.sentence.phase",
                    row.name(),
                    (row.unsure() ? "≥ " : "") + PageWords.clock(us),
                    PageWords.clock(usual.lowUs()),
                    PageWords.clock(usual.highUs())));
        }
        if (ticks.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Chart(
                "times-" + number,
                words.get("chart.times", name(reference)),
                new Axis(words.get("chart.axis.phase"), "", 0.4, ticks.size() + 0.6, Axis.Scale.LINEAR, ticks),
                Axis.around(
                        words.get("chart.axis.time"),
                        "s",
                        Axis.Scale.LOG,
                        heights.build().toArray()),
                List.of(
                        new Layer.Boxes(words.get("chart.usual"), Ink.REFERENCE, BOX, boxes),
                        new Layer.Points(words.get("chart.middle"), Ink.REFERENCE, Mark.DIAMOND, middles),
                        new Layer.Points(words.get("chart.this"), Ink.MAIN, Mark.DISC, own)),
                words.get("chart.times.note", reference.n(), words.get(quartiles ? "chart.quartiles" : "chart.range")),
                words.get("chart.sentence", name(reference), said.stream().collect(Collectors.joining(" ")))));
    }
}
