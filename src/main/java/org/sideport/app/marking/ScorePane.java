package org.sideport.app.marking;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import javafx.beans.binding.Bindings;
import javafx.beans.property.SimpleStringProperty;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;

/** What the marks come to so far, what is missing, and the signature. */
final class ScorePane extends VBox {

    private static final int NAMED = 3;
    private static final int SHORT_DIGEST = 12;

    private final MarkingViewModel model;
    private final Texts texts;
    private final Label share = Ui.label("", "large", "digits");
    private final Label base = Ui.wrapped("", "small", "text-muted");
    private final Label missing = Ui.wrapped("", "small", "text-muted");
    private final Label critical = Ui.wrapped("", "small", "critical-note");
    private final Label state = Ui.wrapped("", "small", "signed-note");
    private final Hyperlink digest = new Hyperlink();
    private final Hyperlink amend = new Hyperlink();
    private final ActionsEditor actions;
    private final TextField overall = new TextField();
    private final VBox words;
    private final SimpleStringProperty whyNoSigning = new SimpleStringProperty("");

    ScorePane(MarkingViewModel model, Texts texts, Runnable sign, Runnable askToAmend) {
        super(Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        getStyleClass().add("score-pane");
        share.setId("score-share");
        missing.setId("score-missing");
        state.setId("score-state");
        Button signButton = Ui.button("sign", Feather.CHECK_CIRCLE, texts.get("score.sign"), sign);
        signButton.getStyleClass().add("accent");
        signButton.setFocusTraversable(false);
        signButton.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.SIGN)));
        share.setMinWidth(Region.USE_PREF_SIZE);
        digest.setId("score-digest");
        digest.getStyleClass().add("small");
        digest.setOnAction(event -> copyDigest());
        digest.visibleProperty().bind(Bindings.isNotEmpty(digest.textProperty()));
        digest.managedProperty().bind(digest.visibleProperty());
        amend.setId("amend");
        amend.getStyleClass().add("small");
        amend.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.AMEND)));
        amend.setOnAction(event -> {
            amend.setVisited(false);
            askToAmend.run();
        });
        Ui.showIf(amend, Bindings.isNotEmpty(amend.textProperty()));
        VBox notes = new VBox(0, base, state, digest, amend);
        notes.setAlignment(Pos.CENTER_LEFT);
        HBox.setHgrow(notes, Priority.ALWAYS);
        HBox top = new HBox(Ui.STEP, share, notes, Ui.reasoned(signButton, whyNoSigning));
        top.setAlignment(Pos.CENTER_LEFT);
        overall.setId("overall-comment");
        overall.setPromptText(texts.get("score.overall"));
        overall.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.OVERALL)));
        overall.setOnAction(event -> {
            model.overallComment(overall.getText());
            requestFocus();
        });
        overall.textProperty().addListener((property, old, now) -> {
            if (overall.isFocused()) {
                model.overallComment(now);
            }
        });
        overall.focusedProperty().addListener((property, old, now) -> {
            if (!now) {
                model.overallComment(overall.getText());
            }
        });
        Ui.showIf(missing, Bindings.isNotEmpty(missing.textProperty()));
        Ui.showIf(critical, Bindings.isNotEmpty(critical.textProperty()));
        Ui.showIf(state, Bindings.isNotEmpty(state.textProperty()));
        actions = new ActionsEditor(model, texts);
        words = Ui.styled(new VBox(Ui.STEP / 2, overall, actions), "items");
        getChildren().addAll(top, missing, critical);
    }

    /** The overall comment and what was agreed: they belong after the last item. */
    VBox words() {
        return words;
    }

    void editOverall() {
        if (!overall.isDisabled()) {
            Ui.focusByKey(overall);
        }
    }

    void editActions() {
        actions.edit();
    }

    void show() {
        Marks marks = model.marksProperty().get();
        Rubric rubric = model.rubricProperty().get();
        whyNoSigning.set(Objects.requireNonNullElse(model.whyNoSigning(), ""));
        overall.setDisable(marks == null || marks.isSigned());
        actions.show(marks == null ? null : marks.rating(), marks == null || marks.isSigned());
        if (marks == null || rubric == null) {
            share.setText(Formats.UNKNOWN);
            base.setText(Objects.requireNonNullElse(model.whyNoMarking(), ""));
            missing.setText("");
            critical.setText("");
            state.setText("");
            digest.setText("");
            amend.setText("");
            return;
        }
        Score score = marks.score();
        share.setText(Formats.percent(score.share()));
        share.setTooltip(new Tooltip(texts.get("score.share.meaning")));
        base.setText(
                score.marked() == 0
                        ? texts.get("score.nothing", score.missing().size())
                        : texts.get(
                                "score.base", score.points(), score.maximum(), score.marked(), score.excusedCount()));
        missing.setText(
                score.complete()
                        ? ""
                        : texts.get("score.missing", score.missing().size(), titles(rubric, score.missing())));
        missing.setTooltip(new Tooltip(allTitles(rubric, score.missing())));
        critical.setText(
                score.criticalFailures().isEmpty()
                        ? ""
                        : texts.get(
                                "score.critical",
                                score.criticalFailures().size(),
                                titles(rubric, score.criticalFailures())));
        state.setText(stateText(marks));
        showDigest(marks.digest());
        amend.setText(
                model.amendment().isOffered()
                        ? texts.get("score.amend")
                        : model.amendment().reason().isEmpty() ? "" : texts.get("score.giveUp"));
        if (!overall.isFocused()) {
            overall.setText(marks.rating().comment());
        }
    }

    private void showDigest(String full) {
        digest.setText(full.isEmpty() ? "" : texts.get("score.digest", full.substring(0, SHORT_DIGEST)));
        String all = full.isEmpty() ? "" : texts.get("score.digest.full", full);
        digest.setTooltip(full.isEmpty() ? null : new Tooltip(all));
        digest.setAccessibleText(all);
        digest.setVisited(false);
    }

    private void copyDigest() {
        Marks marks = model.marksProperty().get();
        digest.setVisited(false);
        if (marks != null && !marks.digest().isEmpty()) {
            ClipboardContent content = new ClipboardContent();
            content.putString(marks.digest());
            Clipboard.getSystemClipboard().setContent(content);
            model.digestCopied(marks.digest());
        }
    }

    private String stateText(Marks marks) {
        if (marks.isSigned()) {
            return texts.get("score.signed", marks.rating().assessor());
        }
        if (!model.amendment().reason().isEmpty()) {
            return texts.get("score.amending", model.amendment().reason());
        }
        return marks.rating().self() ? texts.get("score.self") : "";
    }

    private static String titleOf(Rubric rubric, String id) {
        return rubric.item(id).map(Rubric.Item::title).orElse(id);
    }

    private String titles(Rubric rubric, List<String> ids) {
        String named = ids.stream().limit(NAMED).map(id -> titleOf(rubric, id)).collect(Collectors.joining(", "));
        return ids.size() > NAMED ? texts.get("score.andMore", named, ids.size() - NAMED) : named;
    }

    private static String allTitles(Rubric rubric, List<String> ids) {
        return ids.stream().map(id -> titleOf(rubric, id)).collect(Collectors.joining("\n"));
    }
}
