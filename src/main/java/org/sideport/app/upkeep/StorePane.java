package org.sideport.app.upkeep;

import java.io.File;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.DirectoryChooser;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Background;
import org.sideport.app.Columns;
import org.sideport.app.Copies;
import org.sideport.app.Headings;
import org.sideport.app.Notices;
import org.sideport.app.Question;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.Navigator;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.AuditEvent;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.AuditTrail;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.CheckWorkspace.Finding;
import org.sideport.workflow.upkeep.KeepBackups;

/** Check, back up, bring back from a copy, and read the audit trail. */
public final class StorePane implements ProgrammePane {

    private final StoreViewModel model;
    private final Texts texts;
    private final Navigator navigator;
    private final Path folder;
    private final VBox root = Ui.styled(new VBox(Ui.STEP), "padded");

    public StorePane(StoreViewModel model, Texts texts, Navigator navigator, Path folder) {
        this.model = model;
        this.folder = folder;
        this.navigator = navigator;
        this.texts = texts;
        TableView<AuditEvent> trail = trail();
        VBox.setVgrow(trail, Priority.ALWAYS);
        root.getChildren().addAll(backupRow(), checkRow(), findings(), searchRow(), trail);
    }

    /** With all it needs. */
    public static StorePane of(
            Workspace workspace, Clock clock, Background work, Notices notices, Texts texts, Navigator navigator) {
        return new StorePane(
                new StoreViewModel(
                        new CheckWorkspace(workspace),
                        new KeepBackups(workspace, clock),
                        new AuditTrail(workspace),
                        work,
                        notices,
                        texts,
                        clock.getZone()),
                texts,
                navigator,
                workspace.dir());
    }

    @Override
    public String id() {
        return "store";
    }

    @Override
    public String title() {
        return texts.get("store.title");
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.refresh();
    }

    private HBox backupRow() {
        Label last = Ui.wrapped("");
        last.setId("store-last-backup");
        last.textProperty().bind(model.lastBackupProperty());
        Ui.filling(last);
        Button now = Ui.button("store-backup", Feather.COPY, texts.get("store.backup.now"), model::backUp);
        Button file = Ui.button("store-backup-file", Feather.ARCHIVE, texts.get("store.backup.file"), this::chooseFile);
        Button back = Ui.button("store-restore", Feather.ROTATE_CCW, texts.get("store.restore"), this::chooseCopy);
        return row(last, waiting(now), waiting(file), waiting(back));
    }

    private HBox checkRow() {
        Label result = Ui.wrapped("");
        result.setId("store-check-result");
        result.textProperty().bind(model.resultProperty());
        Ui.filling(result);
        CheckBox recordings = new CheckBox(texts.get("store.check.recordings"));
        recordings.setId("store-check-recordings");
        recordings.setMinWidth(javafx.scene.layout.Region.USE_PREF_SIZE);
        Button check = Ui.button(
                "store-check",
                Feather.CHECK_SQUARE,
                texts.get("store.check"),
                () -> model.check(recordings.isSelected()));
        check.getStyleClass().add("accent");
        return row(result, recordings, waiting(check));
    }

    private HBox searchRow() {
        TextField search = new TextField();
        search.setId("store-audit-search");
        search.setPromptText(texts.get("store.audit.search"));
        search.setAccessibleText(texts.get("store.audit.search"));
        search.setPrefWidth(376);
        search.textProperty().bindBidirectional(model.searchProperty());
        Label count = Ui.wrapped("", "small", "text-muted");
        count.setId("store-audit-count");
        HBox.setHgrow(count, javafx.scene.layout.Priority.ALWAYS);
        count.textProperty().bind(model.countProperty());
        Label title = Ui.label(texts.get("store.audit"), "large");
        title.setMinWidth(javafx.scene.layout.Region.USE_PREF_SIZE);
        return row(title, search, count);
    }

    private static HBox row(Node... nodes) {
        HBox row = new HBox(Ui.STEP, nodes);
        row.setAlignment(Pos.CENTER_LEFT);
        return row;
    }

    /** Cannot be pressed while such work is under way, and says so. */
    private Node waiting(Button button) {
        return Ui.reasoned(
                button,
                Bindings.when(model.busyProperty())
                        .then(texts.get("store.busy"))
                        .otherwise(""));
    }

    private TableView<Finding> findings() {
        TableView<Finding> table = new TableView<>(model.findings());
        table.setId("store-findings");
        Headings.whole(table);
        table.setAccessibleText(texts.get("store.findings"));
        table.setPrefHeight(170);
        table.setMinHeight(90);
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Columns.inOrder(
                table,
                texts,
                "store.finding.kind",
                130,
                f -> texts.get(f.isNote() ? "store.note" : "store.finding")
                        + texts.get("store.kind." + f.kind().name()));
        Columns.inOrder(table, texts, "store.finding.subject", 150, Finding::subject);
        Columns.inOrder(table, texts, "store.finding.what", 420, Finding::what);
        Columns.inOrder(table, texts, "store.finding.remedy", 400, Finding::remedy);
        Ui.showIf(table, Bindings.isNotEmpty(model.findings()));
        return table;
    }

    private TableView<AuditEvent> trail() {
        TableView<AuditEvent> table = new TableView<>(model.lines());
        table.setId("store-audit");
        Headings.whole(table);
        table.setAccessibleText(texts.get("store.audit"));
        Label nothing = Ui.label("", "text-muted");
        nothing.textProperty()
                .bind(Bindings.when(model.searchProperty().isEmpty())
                        .then(texts.get("store.audit.none"))
                        .otherwise(texts.get("store.audit.nothing")));
        table.setPlaceholder(nothing);
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Columns.inOrder(table, texts, "store.audit.line", 70, e -> Long.toString(e.id()))
                .getStyleClass()
                .add("digits");
        Columns.inOrder(table, texts, "store.audit.at", 190, e -> model.moment(e.at()))
                .getStyleClass()
                .add("digits");
        Columns.inOrder(table, texts, "store.audit.who", 80, e -> e.who().isEmpty() ? "–" : e.who());
        Columns.inOrder(table, texts, "store.audit.deed", 250, model::deed);
        Columns.codes(table, texts, "store.audit.subject", 140, AuditEvent::subject)
                .setSortable(false);
        Columns.inOrder(table, texts, "store.audit.before", 110, e -> StoreViewModel.brief(e.before()));
        Columns.inOrder(table, texts, "store.audit.after", 330, e -> StoreViewModel.brief(e.after()));
        table.setRowFactory(view -> {
            TableRow<AuditEvent> row = new TableRow<>();
            row.itemProperty()
                    .addListener((property, old, now) -> row.setTooltip(
                            now == null || (now.before() + now.after()).isEmpty()
                                    ? null
                                    : new Tooltip((now.before() + "\n" + now.after()).strip())));
            return row;
        });
        return table;
    }

    private void chooseFile() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("store.backup.file"));
        chooser.setInitialFileName("sideport-" + LocalDate.now(java.time.ZoneId.systemDefault()) + ".zip");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter("ZIP", "*.zip"));
        File chosen = chooser.showSaveDialog(root.getScene().getWindow());
        if (chosen != null) {
            Path file = chosen.toPath();
            model.backUpTo(file);
        }
    }

    private void chooseCopy() {
        Window owner = root.getScene().getWindow();
        FileChooser chooser = Copies.chooser(texts, folder);
        File chosen = chooser.showOpenDialog(owner);
        if (chosen == null) {
            return;
        }
        DirectoryChooser folders = new DirectoryChooser();
        folders.setTitle(texts.get("store.restore.into"));
        File into = folders.showDialog(owner);
        if (into != null) {
            model.restore(chosen.toPath(), into.toPath(), this::offer);
        }
    }

    /** Whether to go on in what was restored; this workspace stays as it is. */
    private void offer(Path restored) {
        Question.of(
                        "store-open-restored",
                        texts.get("store.restore"),
                        texts.get("store.restore.open", restored),
                        texts.get("store.restore.open.yes"),
                        texts.get("store.restore.open.no"))
                .ask(root.getScene().getWindow(), () -> navigator.toWorkspace(restored));
    }
}
