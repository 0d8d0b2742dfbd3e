package org.sideport.app.comment;

import java.util.List;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.PicturePoint;

/** What is drawn on the picture while somebody speaks, or shown while their words are heard; it belongs to no frame. */
public final class LiveDrawing {

    /** What the picture is used for. */
    public enum Use {
        /** the comments of this time are shown as ever */
        NONE,
        DRAWING,
        /** only what is shown here */
        SHOWING
    }

    private final ObjectProperty<Use> use = new SimpleObjectProperty<>(Use.NONE);
    private final ObservableList<DrawnMark> marks = FXCollections.observableArrayList();
    private final StringProperty caption = new SimpleStringProperty("");
    private final ObjectProperty<DrawnMark.@Nullable Kind> tool = new SimpleObjectProperty<>(null);
    private final ObjectProperty<MarkColour> colour = new SimpleObjectProperty<>(MarkColour.YELLOW);

    public ObjectProperty<Use> useProperty() {
        return use;
    }

    public ObservableList<DrawnMark> marks() {
        return marks;
    }

    /** What is said at this moment; may be empty. */
    public StringProperty captionProperty() {
        return caption;
    }

    public ObjectProperty<DrawnMark.@Nullable Kind> toolProperty() {
        return tool;
    }

    public ObjectProperty<MarkColour> colourProperty() {
        return colour;
    }

    boolean isDrawing() {
        return use.get() == Use.DRAWING;
    }

    /** Adds a mark with the tool and the colour chosen; too small a one is ignored. */
    public void addMark(List<PicturePoint> points, String words) {
        DrawnMark.Kind kind = tool.get();
        if (kind == null || !isDrawing()) {
            return;
        }
        String kept = words.strip();
        if (kind == DrawnMark.Kind.WORDS) {
            if (!kept.isEmpty()) {
                marks.add(DrawnMark.words(
                        colour.get(),
                        points.get(0),
                        kept.substring(0, Math.min(kept.length(), DrawnMark.LONGEST_WORDS))));
            }
        } else if (points.size() > 1 && !points.get(0).equals(points.get(points.size() - 1))) {
            marks.add(DrawnMark.of(kind, colour.get(), points));
        }
    }

    /** Shows these marks and words only. */
    public void show(List<DrawnMark> seen, String said) {
        if (!marks.equals(seen)) {
            marks.setAll(seen);
        }
        caption.set(said);
    }

    public void end() {
        use.set(Use.NONE);
        tool.set(null);
        marks.clear();
        caption.set("");
    }
}
