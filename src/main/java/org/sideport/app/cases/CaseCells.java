package org.sideport.app.cases;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.AccessibleAttribute;
import javafx.scene.control.OverrunStyle;
import javafx.scene.control.TableCell;
import javafx.scene.control.Tooltip;
import javafx.scene.image.Image;
import javafx.scene.image.ImageView;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.CaseSummary;
import org.sideport.model.ConsentState;

/** The cells of the list of cases. */
final class CaseCells {

    /** Pixels; a row is a little higher. */
    private static final double PICTURE_HEIGHT = 32;

    private CaseCells() {}

    /** Plain text. */
    static final class Words extends TableCell<CaseSummary, CaseSummary> {

        private final Function<CaseSummary, String> text;

        Words(Function<CaseSummary, String> text, String... styleClasses) {
            this.text = text;
            getStyleClass().addAll(styleClasses);
            // codes of a unit differ at their ends
            setTextOverrun(OverrunStyle.CENTER_ELLIPSIS);
        }

        @Override
        protected void updateItem(@Nullable CaseSummary one, boolean empty) {
            super.updateItem(one, empty);
            setText(empty || one == null ? null : text.apply(one));
        }
    }

    /** The state of the consent: quiet while unknown, marked where it is against the use of the recording. */
    static final class Agreement extends TableCell<CaseSummary, CaseSummary> {

        private static final PseudoClass QUIET = PseudoClass.getPseudoClass("quiet");
        private static final PseudoClass AGAINST = PseudoClass.getPseudoClass("against");

        private final Texts texts;

        Agreement(Texts texts) {
            this.texts = texts;
            getStyleClass().add("consent-cell");
        }

        @Override
        protected void updateItem(@Nullable CaseSummary one, boolean empty) {
            super.updateItem(one, empty);
            ConsentState state = empty || one == null ? null : one.consent();
            setText(state == null ? null : texts.get("consent.state." + state.name()));
            pseudoClassStateChanged(QUIET, state == ConsentState.UNKNOWN);
            pseudoClassStateChanged(AGAINST, state != null && state.isAgainst());
        }
    }

    /** The day of the review; one that is due carries a sign, and says so. */
    static final class Review extends TableCell<CaseSummary, CaseSummary> {

        private static final PseudoClass DUE = PseudoClass.getPseudoClass("due");

        private final Texts texts;
        private final LocalDate today;
        private final Tooltip tooltip = new Tooltip();

        Review(Texts texts, LocalDate today) {
            this.texts = texts;
            this.today = today;
            getStyleClass().add("review-cell");
            tooltip.setText(texts.get("filter.review.due"));
        }

        @Override
        protected void updateItem(@Nullable CaseSummary one, boolean empty) {
            super.updateItem(one, empty);
            LocalDate by = empty || one == null ? null : one.reviewBy();
            boolean due = by != null && !by.isAfter(today);
            String day = by == null ? "" : by.toString();
            setText(due ? texts.get("cases.review.due", day) : day);
            setTooltip(due ? tooltip : null);
            setAccessibleText(due ? day + ", " + tooltip.getText() : day);
            pseudoClassStateChanged(DUE, due);
        }
    }

    /** A frame of the recording. */
    static final class Picture extends TableCell<CaseSummary, CaseSummary> {

        private static final PseudoClass NONE = PseudoClass.getPseudoClass("none");

        private final Thumbnails thumbnails;
        private final Texts texts;
        private final ImageView view = new ImageView();
        private final FontIcon icon = Ui.styled(new FontIcon(Feather.MINUS), "quiet-icon");
        private final StackPane frame = Ui.styled(new StackPane(view, icon), "thumbnail");
        private final Tooltip why = new Tooltip();

        Picture(Thumbnails thumbnails, Texts texts) {
            this.thumbnails = thumbnails;
            this.texts = texts;
            view.setPreserveRatio(true);
            view.setFitHeight(PICTURE_HEIGHT);
            frame.setMinSize(PICTURE_HEIGHT * 16 / 9, PICTURE_HEIGHT);
            frame.setMaxSize(PICTURE_HEIGHT * 16 / 9, PICTURE_HEIGHT);
            view.setFitWidth(PICTURE_HEIGHT * 16 / 9);
            setAlignment(Pos.CENTER);
            setGraphic(frame);
        }

        @Override
        protected void updateItem(@Nullable CaseSummary one, boolean empty) {
            CaseSummary before = getItem();
            super.updateItem(one, empty);
            // hidden rather than taken out: to take nodes out and put them in again costs the most of a key press
            frame.setVisible(!empty && one != null);
            if (empty || one == null || one.equals(before)) {
                return;
            }
            frame.pseudoClassStateChanged(NONE, !one.hasRecording());
            if (!one.hasRecording()) {
                without(Feather.MINUS, texts.get("thumbnail.none"));
                return;
            }
            Optional<Image> known = thumbnails.known(one.code());
            if (known != null) {
                show(known);
                return;
            }
            view.setImage(null);
            icon.setVisible(false);
            setTooltip(null);
            setAccessibleText(texts.get("thumbnail.waiting"));
            String code = one.code();
            thumbnails.want(code, image -> {
                CaseSummary now = getItem();
                if (now != null && now.code().equals(code)) {
                    show(image);
                }
            });
        }

        private void show(Optional<Image> image) {
            if (image.isEmpty()) {
                without(Feather.ALERT_CIRCLE, texts.get("thumbnail.missing"));
                return;
            }
            view.setImage(image.get());
            icon.setVisible(false);
            setTooltip(null);
            setAccessibleText(texts.get("thumbnail.there"));
        }

        private void without(Feather sign, String words) {
            view.setImage(null);
            icon.setIconCode(sign);
            icon.setVisible(true);
            why.setText(words);
            setTooltip(why);
            setAccessibleText(words);
        }
    }

    /** Tagged, self-marked, marked, signed: a sign of its own for each that is so, a dot for each that is not. */
    static final class Stages extends TableCell<CaseSummary, CaseSummary> {

        private static final PseudoClass ON = PseudoClass.getPseudoClass("on");

        private final Texts texts;
        private final List<FontIcon> icons = List.of(icon(), icon(), icon(), icon());
        private final HBox box = Ui.styled(new HBox(Ui.STEP), "stages");
        private final Tooltip tooltip = new Tooltip();

        Stages(Texts texts) {
            this.texts = texts;
            icons.forEach(icon -> {
                StackPane place = new StackPane(icon);
                place.setMinWidth(16);
                box.getChildren().add(place);
            });
            box.setAlignment(Pos.CENTER_LEFT);
            setGraphic(box);
            tooltip.setOnShowing(event -> tooltip.setText(words()));
        }

        private static FontIcon icon() {
            return Ui.styled(new FontIcon(Feather.MINUS), "stage");
        }

        @Override
        protected void updateItem(@Nullable CaseSummary one, boolean empty) {
            CaseSummary before = getItem();
            super.updateItem(one, empty);
            box.setVisible(!empty && one != null);
            setTooltip(empty ? null : tooltip);
            if (empty || one == null || one.equals(before)) {
                return;
            }
            set(0, one.tagged(), Feather.TAG);
            set(1, one.selfMarked(), Feather.USER);
            set(2, one.marked(), Feather.CLIPBOARD);
            set(3, one.signed(), Feather.CHECK_CIRCLE);
        }

        private String words() {
            CaseSummary one = getItem();
            return one == null ? "" : CaseFilters.stages(one, texts);
        }

        /** Put into words only when a screen reader asks. */
        @Override
        public Object queryAccessibleAttribute(AccessibleAttribute attribute, Object... parameters) {
            return attribute == AccessibleAttribute.TEXT
                    ? words()
                    : super.queryAccessibleAttribute(attribute, parameters);
        }

        private void set(int place, boolean on, Feather sign) {
            FontIcon icon = icons.get(place);
            Feather wanted = on ? sign : Feather.MINUS;
            if (icon.getIconCode() != wanted) {
                icon.setIconCode(wanted);
                icon.pseudoClassStateChanged(ON, on);
            }
        }
    }
}
