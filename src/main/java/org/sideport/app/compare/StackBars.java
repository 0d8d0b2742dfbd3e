package org.sideport.app.compare;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.Cursor;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure.Term;
import org.sideport.timing.Episode;
import org.sideport.timing.PhaseTiming;
import org.sideport.workflow.StackCases.Bar;
import org.sideport.workflow.StackCases.Stack;

/** The bars themselves, with a ruler of time from the common start. */
final class StackBars extends Pane {

    /** Heights at the usual size of letters, pixels. */
    private static final double ROW = 32;

    private static final double BAR = 22;
    private static final double RULER = 24;
    /** At least, pixels; more where letters are larger. */
    private static final double NAMES = 208;

    private static final double TIMES = 88;
    private static final long[] STEPS_S = {1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1200, 1800, 3600};
    private static final double TICK_ROOM = 64;

    private final StackViewModel model;
    private final Texts texts;
    private final StackView.Opener opener;
    private final Region line = Ui.styled(new Region(), "anchor-line");
    private final Label timesHead = Ui.label("", "small", "text-muted");
    private final List<Row> rows = new ArrayList<>();
    private final List<Label> ticks = new ArrayList<>();
    private double names = NAMES;
    private double times = TIMES;
    private long before;
    private long after = 1;

    /** @param zero where the common start lies on the case's own timeline; {@code null} if it has none */
    private record Row(Bar bar, @Nullable Long zero, Label name, Label time, List<Block> blocks) {}

    private record Block(Episode episode, Label label) {}

    StackBars(StackViewModel model, Texts texts, StackView.Opener opener) {
        this.model = model;
        this.texts = texts;
        this.opener = opener;
        setId("stack-bars");
        timesHead.setAlignment(Pos.CENTER_RIGHT);
        model.stackProperty().addListener((property, old, now) -> rebuild());
        model.anchorProperty().addListener((property, old, now) -> rebuild());
        model.onlyAnchorProperty().addListener((property, old, now) -> rebuild());
        rebuild();
    }

    private void rebuild() {
        rows.clear();
        ticks.clear();
        getChildren().clear();
        before = 0;
        after = 1;
        Stack stack = model.stackProperty().get();
        if (stack != null) {
            Term anchor = model.anchorProperty().get();
            for (Bar bar : stack.bars()) {
                add(stack, bar, anchor);
            }
            timesHead.setText(texts.get(anchor == null ? "stack.operating" : "times.active"));
            getChildren().addAll(line, timesHead);
        }
        requestLayout();
    }

    private void add(Stack stack, Bar bar, @Nullable Term anchor) {
        Long zero = zero(bar, anchor);
        Label name = Ui.label(
                texts.get(
                        "stack.bar",
                        bar.surgicalCase().code(),
                        texts.day(bar.surgicalCase().date()),
                        bar.annotator()),
                "small");
        Label time = Ui.label(time(bar, anchor), "small", "digits");
        time.setAlignment(Pos.CENTER_RIGHT);
        List<Block> blocks = new ArrayList<>();
        getChildren().addAll(name, time);
        for (Episode episode : bar.episodes()) {
            boolean wanted = !model.onlyAnchorProperty().get()
                    || anchor == null
                    || episode.label().equals(anchor.id());
            if (zero == null || !wanted) {
                continue;
            }
            before = Math.max(before, zero - episode.startUs());
            after = Math.max(after, episode.endUs() - zero);
            Label block = Looks.block(stack.procedure(), episode);
            block.setCursor(Cursor.HAND);
            block.setOnMouseClicked(
                    event -> opener.open(bar.surgicalCase().code(), MediaTime.ofMicros(episode.startUs())));
            blocks.add(new Block(episode, block));
            getChildren().add(block);
        }
        name.setCursor(Cursor.HAND);
        name.setOnMouseClicked(
                event -> opener.open(bar.surgicalCase().code(), zero == null ? null : MediaTime.ofMicros(zero)));
        name.setTooltip(new Tooltip(texts.get("stack.open", bar.surgicalCase().code())));
        rows.add(new Row(bar, zero, name, time, blocks));
    }

    private static @Nullable Long zero(Bar bar, @Nullable Term anchor) {
        if (anchor != null) {
            return bar.startOf(anchor.id());
        }
        return bar.episodes().isEmpty() ? null : (Long) bar.episodes().get(0).startUs();
    }

    /** Active time of the phase, or from the first start to the last end. */
    private String time(Bar bar, @Nullable Term anchor) {
        if (anchor == null) {
            Long us = bar.timing().operatingUs();
            return (us != null && bar.timing().unsure().span() ? "≥ " : "") + Formats.length(us);
        }
        PhaseTiming phase = bar.timing().phases().stream()
                .filter(p -> p.phase().equals(anchor.id()))
                .findFirst()
                .orElse(null);
        if (phase == null) {
            return texts.get("stack.absent");
        }
        return (phase.activeUs() != null && phase.unsure().active() ? "≥ " : "") + Formats.length(phase.activeUs());
    }

    private double x(long fromZero) {
        double room = Math.max(1, getWidth() - names - times - 2 * Ui.STEP);
        return names + (fromZero + before) * room / (before + after);
    }

    @Override
    protected void layoutChildren() {
        Stack stack = model.stackProperty().get();
        if (stack == null) {
            return;
        }
        names = NAMES;
        times = Math.max(TIMES, timesHead.prefWidth(-1));
        for (Row row : rows) {
            names = Math.max(names, row.name().prefWidth(-1) + 2 * Ui.STEP);
            times = Math.max(times, row.time().prefWidth(-1));
        }
        layoutTicks();
        timesHead.resizeRelocate(getWidth() - times - Ui.STEP, 0, times, grown(RULER) - 2);
        double top = grown(RULER);
        for (Row row : rows) {
            row.name().resizeRelocate(0, top + 1, names - 2 * Ui.STEP, grown(20));
            row.time().resizeRelocate(getWidth() - times - Ui.STEP, top + 1, times, grown(20));
            Long zero = row.zero();
            for (Block block : row.blocks()) {
                long at = zero == null ? 0 : zero;
                double from = Math.rint(x(block.episode().startUs() - at));
                double width = Math.max(1, Math.rint(x(block.episode().endUs() - at)) - from);
                Looks.fit(block.label(), stack.procedure(), block.episode().label(), width);
                block.label().resizeRelocate(from, top, width, grown(BAR));
            }
            top += grown(ROW);
        }
        line.resizeRelocate(Math.rint(x(0)), grown(RULER) - 4, 1, Math.max(0, top - grown(RULER)));
    }

    private double grown(double height) {
        return Looks.grown(height, timesHead.getFont());
    }

    private void layoutTicks() {
        double perSecond = (x(1_000_000) - x(0));
        long step = STEPS_S[STEPS_S.length - 1];
        for (long each : STEPS_S) {
            if (each * perSecond >= TICK_ROOM) {
                step = each;
                break;
            }
        }
        long first = -(before / 1_000_000 / step) * step;
        long last = after / 1_000_000;
        int used = 0;
        for (long s = first; s <= last; s += step) {
            Label tick = tick(used++);
            String text = Formats.shortClock(MediaTime.ofMicros(Math.abs(s) * 1_000_000));
            tick.setText((s < 0 ? "−" : "") + text);
            tick.setVisible(x(s * 1_000_000) + TICK_ROOM < getWidth() - times);
            tick.resizeRelocate(Math.rint(x(s * 1_000_000)), 0, TICK_ROOM, grown(RULER) - 2);
        }
        for (int i = used; i < ticks.size(); i++) {
            ticks.get(i).setVisible(false);
        }
    }

    private Label tick(int index) {
        while (ticks.size() <= index) {
            Label tick = Ui.label("", "small", "digits", "text-muted");
            tick.setManaged(false);
            ticks.add(tick);
            getChildren().add(tick);
        }
        return ticks.get(index);
    }

    @Override
    protected double computePrefHeight(double width) {
        return grown(RULER) + rows.size() * grown(ROW);
    }

    @Override
    protected double computePrefWidth(double height) {
        return 640;
    }
}
