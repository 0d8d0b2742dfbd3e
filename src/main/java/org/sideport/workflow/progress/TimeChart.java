package org.sideport.workflow.progress;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.chart.Mark;
import org.sideport.stats.Outcome;
import org.sideport.workflow.CaseMix;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.Block;
import org.sideport.workflow.ProgressView.Change;
import org.sideport.workflow.ProgressView.Curve;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.ProgressView.TermTimes;
import org.sideport.workflow.ProgressView.Timed;

/** Time of a phase over the case number, on a logarithmic axis. */
final class TimeChart {

    private final ProgressView view;
    private final TermTimes term;
    private final ProgressWords words;
    private final ProgressSentences sentences;
    private final List<Layer> layers = new ArrayList<>();

    private TimeChart(ProgressView view, TermTimes term, ProgressWords words) {
        this.view = view;
        this.term = term;
        this.words = words;
        this.sentences = new ProgressSentences(words);
    }

    /** @param held what to draw it against; {@code null} for nothing */
    static Chart of(ProgressView view, TermTimes term, @Nullable Held held, ProgressWords words) {
        return new TimeChart(view, term, words).made(held);
    }

    private Chart made(@Nullable Held held) {
        int last = Math.max(1, view.cases().size());
        others(last);
        if (held != null) {
            held(held, last);
        }
        curve();
        means();
        for (CaseMix.Kind kind : CaseMix.Kind.values()) {
            own(kind);
        }
        return new Chart(
                "time-" + term.id().replaceAll("[^a-z0-9_-]", "-"),
                sentences.name(term),
                Axis.of(words.get("axis.case"), "", 0, last + 1.0, Axis.Scale.LINEAR),
                Axis.around(words.get("axis.time"), "s", Axis.Scale.LOG, heights()),
                layers,
                note(held),
                sentence());
    }

    private void others(int last) {
        List<Layer.Range> ranges = new ArrayList<>();
        for (Block block : term.peers().blocks()) {
            if (block.from() <= last) {
                ranges.add(range(block.from() - 0.5, block.lowUs(), block.highUs()));
                ranges.add(range(Math.min(block.to(), last) + 0.5, block.lowUs(), block.highUs()));
            }
        }
        if (!ranges.isEmpty()) {
            layers.add(new Layer.Band(words.get("layer.peers"), Ink.OTHERS, ranges));
        }
    }

    private void held(Held held, int last) {
        String name = sentences.heldName(held);
        if (held.usual().n() > 1) {
            String what = words.get(held.usual().quartiles() ? "layer.held.quartiles" : "layer.held.range");
            layers.add(new Layer.Band(
                    words.get("layer.held", name, what),
                    Ink.REFERENCE,
                    List.of(
                            range(0, (double) held.usual().lowUs(), (double)
                                    held.usual().highUs()),
                            range(last + 1.0, (double) held.usual().lowUs(), (double)
                                    held.usual().highUs()))));
        }
        layers.add(new Layer.Level(
                words.get("layer.held.middle", name),
                Ink.REFERENCE,
                held.usual().middleUs() / 1e6));
    }

    private void curve() {
        if (term.curve() instanceof Outcome.Found<Curve> found) {
            layers.add(new Layer.Band(
                    words.get("layer.limits"),
                    Ink.FIT,
                    found.value().places().stream()
                            .map(p -> range(p.caseNumber(), p.lowUs(), p.highUs()))
                            .toList()));
            layers.add(new Layer.Curve(
                    words.get("layer.curve"),
                    Ink.FIT,
                    found.value().places().stream()
                            .map(p -> new Layer.At(p.caseNumber(), p.us() / 1e6))
                            .toList()));
        }
    }

    private void means() {
        if (term.change() instanceof Outcome.Found<Change> found) {
            Change change = found.value();
            layers.add(mean(
                    words.get("layer.earlier"),
                    Ink.BEFORE,
                    term.own().subList(0, change.earlier()),
                    change.earlierUs()));
            layers.add(mean(
                    words.get("layer.recent", change.recent()),
                    Ink.MAIN,
                    term.own().subList(change.earlier(), term.own().size()),
                    change.recentUs()));
        }
    }

    private static Layer mean(String name, Ink ink, List<Timed> over, double us) {
        return new Layer.Curve(
                name,
                ink,
                List.of(
                        new Layer.At(over.get(0).of().number() - 0.5, us / 1e6),
                        new Layer.At(over.get(over.size() - 1).of().number() + 0.5, us / 1e6)));
    }

    private void own(CaseMix.Kind kind) {
        List<Layer.At> at = term.own().stream()
                .filter(t -> t.of().mix().kind() == kind)
                .map(t -> new Layer.At(t.of().number(), t.us() / 1e6, t.of().code()))
                .toList();
        if (!at.isEmpty()) {
            layers.add(
                    switch (kind) {
                        case USUAL -> new Layer.Points(words.get("layer.usual"), Ink.MAIN, Mark.DISC, at);
                        case HARDER -> new Layer.Points(words.get("layer.harder"), Ink.MAIN, Mark.TRIANGLE, at);
                        case UNKNOWN -> new Layer.Points(words.get("layer.unknown"), Ink.MAIN, Mark.RING, at);
                    });
        }
    }

    private static Layer.Range range(double x, double lowUs, double highUs) {
        return new Layer.Range(x, lowUs / 1e6, highUs / 1e6);
    }

    /** All heights drawn, but for limits of a curve that would press everything else together. */
    private double[] heights() {
        DoubleStream.Builder all = DoubleStream.builder();
        for (Layer layer : layers) {
            if (layer instanceof Layer.Points points) {
                points.at().forEach(p -> all.add(p.y()));
            } else if (layer instanceof Layer.Curve curve) {
                curve.at().forEach(p -> all.add(p.y()));
            } else if (layer instanceof Layer.Level level) {
                all.add(level.y());
            } else if (layer instanceof Layer.Band band && band.ink() != Ink.FIT) {
                band.ranges().forEach(r -> all.add(r.low()).add(r.high()));
            }
        }
        return all.build().toArray();
    }

    private String note(@Nullable Held held) {
        return sentences.basis(term, held) + " " + words.get("note.number") + " " + words.get("note.caution");
    }

    private String sentence() {
        double low = term.own().stream().mapToLong(Timed::us).min().orElse(0);
        double high = term.own().stream().mapToLong(Timed::us).max().orElse(0);
        List<String> said = sentences.of(view, term);
        return words.get(
                "time.sentence",
                sentences.name(term),
                words.cases(term.own().size()),
                words.seconds(low),
                words.seconds(high),
                said.get(0),
                String.join(" ", said.subList(1, said.size())));
    }
}
