package org.sideport.app.compare;

import java.util.ArrayList;
import java.util.List;
import javafx.css.PseudoClass;
import javafx.scene.control.Label;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Polygon;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.compare.CompareViewModel.Mode;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.model.MediaTime;
import org.sideport.timing.Episode;
import org.sideport.timing.TimeMap;
import org.sideport.timing.TimeMap.Kind;
import org.sideport.timing.TimeMap.Place;
import org.sideport.workflow.Comparison;

/**
 * Both recordings as bars on one scale of time, joined where the time map joins them. Point or drag on either bar to go
 * there.
 */
final class MapStrip extends Pane {

    /** Height of a bar at the usual size of letters, pixels. */
    private static final double BAR = 24;

    private static final double LINKS = 24;
    private static final double NAMES = 56;
    private static final double ABOVE = Ui.STEP / 2;
    private static final PseudoClass LEADING = PseudoClass.getPseudoClass("leading");

    private final CompareViewModel model;
    private final Region[] tracks = {Ui.styled(new Region(), "bar-track"), Ui.styled(new Region(), "bar-track")};
    private final Label[] names;
    /** More than {@link #NAMES} where letters are larger. */
    private double namesWidth = NAMES;

    private final Region[] heads = {Ui.styled(new Region(), "bar-head"), Ui.styled(new Region(), "bar-head")};
    private final List<Block> blocks = new ArrayList<>();
    private final List<Link> links = new ArrayList<>();
    private long longest = 1;
    private @Nullable Side dragged;

    private record Block(int row, Episode episode, Label label) {}

    private record Link(TimeMap.Piece piece, Polygon shape) {}

    MapStrip(CompareViewModel model, Texts texts) {
        this.model = model;
        setId("map-strip");
        getStyleClass().add("map-strip");
        names = new Label[] {
            Ui.label(texts.get("compare.left"), "small", "text-muted"),
            Ui.label(texts.get("compare.right"), "small", "text-muted")
        };
        for (Region head : heads) {
            head.setMouseTransparent(true);
        }
        model.comparisonProperty().addListener((property, old, now) -> rebuild());
        model.modeProperty().addListener((property, old, now) -> rebuild());
        PairDesk pair = model.pair();
        pair.placeProperty().addListener((property, old, now) -> moveHeads());
        pair.desk(Side.LEFT).timeProperty().addListener((property, old, now) -> moveHeads());
        pair.desk(Side.RIGHT).timeProperty().addListener((property, old, now) -> moveHeads());
        pair.leaderProperty().addListener((property, old, now) -> {
            showLeader();
            moveHeads();
        });
        addEventHandler(MouseEvent.MOUSE_PRESSED, event -> point(event, false));
        addEventHandler(MouseEvent.MOUSE_DRAGGED, event -> point(event, false));
        addEventHandler(MouseEvent.MOUSE_RELEASED, event -> point(event, true));
        rebuild();
        showLeader();
    }

    private void showLeader() {
        boolean left = model.pair().leaderProperty().get() == Side.LEFT;
        heads[0].pseudoClassStateChanged(LEADING, left);
        heads[1].pseudoClassStateChanged(LEADING, !left);
    }

    private void rebuild() {
        blocks.clear();
        links.clear();
        getChildren().setAll(tracks[0], tracks[1], names[0], names[1]);
        Comparison now = model.comparisonProperty().get();
        if (now != null) {
            longest = Math.max(
                    1, Math.max(now.left().end().micros(), now.right().end().micros()));
            if (model.modeProperty().get() == Mode.PHASES) {
                for (TimeMap.Piece piece : now.aligned().pieces()) {
                    addLink(now, piece);
                }
            }
            addBlocks(now, 0, now.left().episodes());
            addBlocks(now, 1, now.right().episodes());
        }
        getChildren().addAll(heads);
        requestLayout();
    }

    private void addLink(Comparison now, TimeMap.Piece piece) {
        String label = piece.label();
        if (piece.kind() == Kind.PHASE && label != null) {
            Polygon shape = Ui.styled(new Polygon(), "map-link");
            shape.setStyle(Looks.style(now.procedure(), label));
            shape.setMouseTransparent(true);
            links.add(new Link(piece, shape));
            getChildren().add(shape);
        }
    }

    private void addBlocks(Comparison now, int row, List<Episode> episodes) {
        for (Episode episode : episodes) {
            Label label = Looks.block(now.procedure(), episode);
            blocks.add(new Block(row, episode, label));
            getChildren().add(label);
        }
    }

    private double room() {
        return Math.max(1, getWidth() - namesWidth - Ui.STEP);
    }

    private double x(long us) {
        return namesWidth + us * room() / longest;
    }

    /** Bars grow with the letters in them. */
    private double bar() {
        return Looks.grown(BAR, names[0].getFont());
    }

    private double top(int row) {
        return ABOVE + (row == 0 ? 0 : bar() + LINKS);
    }

    @Override
    protected void layoutChildren() {
        namesWidth = Math.max(NAMES, 2 * Ui.STEP + Math.max(names[0].prefWidth(-1), names[1].prefWidth(-1)));
        Comparison now = model.comparisonProperty().get();
        for (int row = 0; row < 2; row++) {
            names[row].resizeRelocate(Ui.STEP, top(row), namesWidth - Ui.STEP, bar());
            tracks[row].setVisible(now != null);
            if (now != null) {
                long end = (row == 0 ? now.left() : now.right()).end().micros();
                tracks[row].resizeRelocate(namesWidth, top(row), Math.max(1, x(end) - namesWidth), bar());
            }
        }
        if (now == null) {
            moveHeads();
            return;
        }
        for (Block block : blocks) {
            double from = Math.rint(x(block.episode().startUs()));
            double width = Math.max(1, Math.rint(x(block.episode().endUs())) - from);
            Looks.fit(block.label(), now.procedure(), block.episode().label(), width);
            block.label().resizeRelocate(from, top(block.row()), width, bar());
        }
        for (Link link : links) {
            TimeMap.Piece piece = link.piece();
            link.shape()
                    .getPoints()
                    .setAll(
                            x(piece.leftStartUs()),
                            top(0) + bar(),
                            x(piece.leftEndUs()),
                            top(0) + bar(),
                            x(piece.rightEndUs()),
                            top(1),
                            x(piece.rightStartUs()),
                            top(1));
        }
        moveHeads();
    }

    private void moveHeads() {
        PairDesk pair = model.pair();
        Place place = pair.placeProperty().get();
        boolean known = model.comparisonProperty().get() != null && place != null;
        heads[0].setVisible(known);
        heads[1].setVisible(known);
        if (known && place != null) {
            boolean leftLeads = pair.leaderProperty().get() == Side.LEFT;
            head(leftLeads ? 0 : 1, pair.position());
            head(leftLeads ? 1 : 0, place.time());
        }
    }

    private void head(int row, MediaTime at) {
        heads[row].resizeRelocate(Math.rint(x(at.micros())) - 1, top(row) - 1, 3, bar() + 2);
    }

    private void point(MouseEvent event, boolean done) {
        if (model.comparisonProperty().get() == null) {
            return;
        }
        Side side = sideAt(event);
        double share = Math.max(0, Math.min(1, (event.getX() - namesWidth) / room()));
        MediaTime to = within(side, MediaTime.ofMicros(Math.round(share * longest)));
        if (done) {
            dragged = null;
            model.pair().seek(side, to);
        } else {
            model.pair().scrub(side, to);
        }
    }

    private Side sideAt(MouseEvent event) {
        Side now = dragged;
        if (now == null) {
            now = event.getY() < ABOVE + bar() + LINKS / 2 ? Side.LEFT : Side.RIGHT;
            dragged = now;
        }
        return now;
    }

    private MediaTime within(Side side, MediaTime wanted) {
        Comparison now = model.comparisonProperty().get();
        if (now == null) {
            return wanted;
        }
        MediaTime end = (side == Side.LEFT ? now.left() : now.right()).end();
        return wanted.isAfter(end) ? end : wanted;
    }

    @Override
    protected double computePrefHeight(double width) {
        return 2 * bar() + LINKS + Ui.STEP;
    }

    @Override
    protected double computeMinHeight(double width) {
        return 2 * bar() + LINKS + Ui.STEP;
    }
}
