package org.sideport.app.progress;

import java.util.List;
import javafx.geometry.Orientation;
import javafx.scene.Node;
import javafx.scene.layout.Pane;
import org.sideport.app.Ui;

/** Cards of equal width in as many columns as there is room for; each row is as high as its highest card. */
public final class CardGrid extends Pane {

    private static final double GAP = 2 * Ui.STEP;

    private final double least;
    private final double most;

    /** @param least width of a card, where the grid is that wide */
    public CardGrid(double least) {
        this(least, 0);
    }

    /**
     * @param least width of a card, where the grid is that wide
     * @param most width of a card where fewer cards than columns leave room; up to {@code least}: they stay as they are
     */
    public CardGrid(double least, double most) {
        this.least = least;
        this.most = most;
    }

    @Override
    public Orientation getContentBias() {
        return Orientation.HORIZONTAL;
    }

    private int columns(double width) {
        int room = Math.max(1, (int) ((width + GAP) / (least + GAP)));
        return most > least ? Math.min(room, Math.max(1, getManagedChildren().size())) : room;
    }

    private double cardWidth(double width) {
        int columns = columns(width);
        double card = Math.floor((width - (columns - 1) * GAP) / columns);
        return Math.max(1, most > least ? Math.min(most, card) : card);
    }

    @Override
    protected double computePrefWidth(double height) {
        return least;
    }

    @Override
    protected double computeMinWidth(double height) {
        return 0;
    }

    @Override
    protected double computePrefHeight(double width) {
        return arranged(width < 0 ? least : width, false);
    }

    @Override
    protected double computeMinHeight(double width) {
        return computePrefHeight(width);
    }

    @Override
    protected void layoutChildren() {
        arranged(getWidth(), true);
    }

    private double arranged(double width, boolean place) {
        List<Node> cards = getManagedChildren();
        int columns = columns(width);
        double card = cardWidth(width);
        double y = 0;
        for (int from = 0; from < cards.size(); from += columns) {
            List<Node> row = cards.subList(from, Math.min(cards.size(), from + columns));
            double height = row.stream()
                    .mapToDouble(n -> Math.ceil(n.prefHeight(card)))
                    .max()
                    .orElse(0);
            if (place) {
                for (int i = 0; i < row.size(); i++) {
                    row.get(i).resizeRelocate(i * (card + GAP), y, card, height);
                }
            }
            y += height + GAP;
        }
        return Math.max(0, y - GAP);
    }
}
