package org.sideport.app.refine;

import java.util.ArrayList;
import java.util.List;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.image.Image;
import javafx.scene.image.ImageView;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.PhaseColours;
import org.sideport.app.Ui;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;

/**
 * The exact frames around a boundary. The one in the middle is the first after it; under each is the colour of what runs
 * on it.
 */
final class FrameStrip extends HBox {

    /** Pictures to either side of the middle. */
    static final int EACH_SIDE = 5;

    private static final double GAP = 4;
    private static final double WIDEST = 120;
    private static final PseudoClass NOW = PseudoClass.getPseudoClass("now");

    private final RefineViewModel model;
    private final RefineFrames frames;
    private final List<Cell> cells = new ArrayList<>();

    FrameStrip(RefineViewModel model, RefineFrames frames) {
        super(GAP);
        this.model = model;
        this.frames = frames;
        setId("refine-strip");
        setAlignment(Pos.CENTER);
        for (int i = -EACH_SIDE; i <= EACH_SIDE; i++) {
            Cell cell = new Cell(i);
            cells.add(cell);
            getChildren().add(cell);
        }
        setMinWidth(0);
        widthProperty().addListener((property, old, now) -> {
            double room = (now.doubleValue() - 2 * EACH_SIDE * GAP) / (2 * EACH_SIDE + 1);
            cells.forEach(cell -> cell.size(Math.max(32, Math.min(WIDEST, Math.floor(room)))));
        });
    }

    void show() {
        FrameGrid grid = model.frames();
        if (grid == null || !model.activeProperty().get()) {
            return;
        }
        int middle = grid.at(model.positionProperty().get().micros());
        cells.forEach(cell -> cell.show(grid, middle));
    }

    private final class Cell extends VBox {

        private final int offset;
        private final ImageView picture = new ImageView();
        private final StackPane frame = Ui.styled(new StackPane(picture), "refine-frame");
        private final Label number = Ui.label("", "small", "digits", "text-muted");
        private final Region under = Ui.styled(new Region(), "refine-under");
        private int shown = -1;

        Cell(int offset) {
            super(2);
            this.offset = offset;
            setAlignment(Pos.TOP_CENTER);
            picture.setPreserveRatio(false);
            picture.setSmooth(true);
            under.setMinHeight(4);
            under.setMaxWidth(Double.MAX_VALUE);
            frame.pseudoClassStateChanged(NOW, offset == 0);
            getChildren().addAll(frame, under, number);
            size(96);
            setOnMouseClicked(event -> {
                if (shown >= 0) {
                    model.moveTo(shown);
                }
            });
        }

        void size(double width) {
            double height = Math.rint(width * 3 / 4);
            picture.setFitWidth(width - 4);
            fit(picture.getImage());
            frame.setMinSize(width, height);
            frame.setPrefSize(width, height);
            frame.setMaxSize(width, height);
            under.setPrefWidth(width);
        }

        private void fit(@Nullable Image image) {
            double width = frame.getPrefWidth() > 0 ? frame.getPrefWidth() - 4 : 92;
            double height = Math.rint((width + 4) * 3 / 4) - 4;
            double aspect = image == null ? 4.0 / 3 : image.getWidth() / image.getHeight();
            picture.setFitWidth(Math.min(width, height * aspect));
            picture.setFitHeight(Math.min(height, width / aspect));
        }

        void show(FrameGrid grid, int middle) {
            int wanted = middle + offset;
            boolean there = wanted >= 0 && wanted < grid.size();
            shown = there ? wanted : -1;
            Image image = there ? frames.of(wanted) : null;
            picture.setImage(image);
            fit(image);
            number.setText(there ? Integer.toString(wanted) : "");
            String phase = there ? model.phaseAt(MediaTime.ofMicros(grid.start(wanted))) : null;
            under.setStyle(phase == null ? "-phase-fill: transparent;" : lookOf(phase));
        }

        private String lookOf(String phase) {
            Procedure procedure = model.review().procedureProperty().get();
            return (procedure == null
                            ? PhaseColours.unknown()
                            : procedure
                                    .find(phase)
                                    .map(term -> PhaseColours.of(procedure, term))
                                    .orElseGet(PhaseColours::unknown))
                    .style();
        }
    }
}
