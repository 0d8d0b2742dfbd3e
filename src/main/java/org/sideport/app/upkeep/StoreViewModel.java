package org.sideport.app.upkeep;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.AuditEvent;
import org.sideport.store.StoreBackup;
import org.sideport.workflow.upkeep.AuditTrail;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.CheckWorkspace.Finding;
import org.sideport.workflow.upkeep.KeepBackups;

/** Is the store whole, when was it copied last, who did what in it. */
public final class StoreViewModel {

    /** More lines than this are not shown at once: the search finds the others. */
    static final int MOST_LINES = 2000;

    private static final Pattern DIGEST = Pattern.compile("\\b([0-9a-f]{12})[0-9a-f]{52}\\b");
    private static final DateTimeFormatter MOMENT = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT);

    private final CheckWorkspace checking;
    private final KeepBackups backups;
    private final AuditTrail trail;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final ZoneId zone;
    private final ReadOnlyStringWrapper lastBackup = new ReadOnlyStringWrapper("");
    private final ReadOnlyStringWrapper result = new ReadOnlyStringWrapper("");
    private final ReadOnlyStringWrapper count = new ReadOnlyStringWrapper("");
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);
    private final StringProperty search = new SimpleStringProperty("");
    private final ObservableList<Finding> findings = FXCollections.observableArrayList();
    private final ObservableList<AuditEvent> lines = FXCollections.observableArrayList();
    private List<AuditEvent> all = List.of();

    public StoreViewModel(
            CheckWorkspace checking,
            KeepBackups backups,
            AuditTrail trail,
            Background work,
            Notices notices,
            Texts texts,
            ZoneId zone) {
        this.checking = checking;
        this.backups = backups;
        this.trail = trail;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.zone = zone;
        result.set(texts.get("store.check.none"));
        search.addListener((property, old, now) -> filter());
    }

    public ReadOnlyStringProperty lastBackupProperty() {
        return lastBackup.getReadOnlyProperty();
    }

    /** What the last check came to. */
    public ReadOnlyStringProperty resultProperty() {
        return result.getReadOnlyProperty();
    }

    /** How many lines of the audit trail are shown, of how many. */
    public ReadOnlyStringProperty countProperty() {
        return count.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty busyProperty() {
        return busy.getReadOnlyProperty();
    }

    public StringProperty searchProperty() {
        return search;
    }

    public ObservableList<Finding> findings() {
        return findings;
    }

    /** The lines that the search finds, newest first. */
    public ObservableList<AuditEvent> lines() {
        return lines;
    }

    /** Reads the audit trail and the list of backups. */
    public void refresh() {
        record Read(List<AuditEvent> lines, List<StoreBackup> backups) {}
        work.run(
                progress -> new Read(trail.lines(null), backups.list()),
                read -> {
                    all = read.lines();
                    filter();
                    show(read.backups());
                },
                notices::failed);
    }

    private void show(List<StoreBackup> made) {
        lastBackup.set(
                made.isEmpty()
                        ? texts.get("store.backup.none")
                        : texts.get("store.backup.last", moment(made.get(0).at()), made.size()));
    }

    /** @param recordings true to read all recordings too, which takes long */
    public void check(boolean recordings) {
        busy.set(true);
        work.named("jobs.check")
                .run(
                        progress -> checking.run(recordings, null, progress),
                        checked -> {
                            busy.set(false);
                            findings.setAll(checked.findings());
                            long found = checked.findings().stream()
                                    .filter(f -> !f.isNote())
                                    .count();
                            result.set(texts.get(
                                    found == 0 ? "store.check.whole" : "store.check.found",
                                    found,
                                    checked.cases(),
                                    checked.signed(),
                                    checked.head().count()));
                        },
                        this::ended);
    }

    public void backUp() {
        busy.set(true);
        work.named("jobs.backup")
                .run(
                        backups::now,
                        made -> {
                            busy.set(false);
                            refresh();
                        },
                        this::ended);
    }

    /** Writes all but the recordings into one file. */
    public void backUpTo(Path file) {
        busy.set(true);
        work.named("jobs.backup")
                .run(
                        progress -> {
                            backups.archive(file, progress);
                            return file;
                        },
                        written -> {
                            busy.set(false);
                            notices.hint(texts.get("store.backup.written", written));
                            refresh();
                        },
                        this::ended);
    }

    /**
     * Makes a workspace out of a copy, in another folder, and shows what its check found.
     *
     * @param into new or empty
     * @param whole gets the folder if nothing was found
     */
    public void restore(Path copy, Path into, Consumer<Path> whole) {
        busy.set(true);
        work.named("jobs.restore")
                .run(
                        progress -> KeepBackups.restore(copy, into, progress),
                        made -> {
                            busy.set(false);
                            findings.setAll(made.problems());
                            int found = made.problems().size();
                            result.set(texts.get("store.restore.done", made.dir(), made.cases(), found));
                            if (found == 0) {
                                whole.accept(made.dir());
                            }
                        },
                        this::ended);
    }

    private void ended(Throwable failure) {
        busy.set(false);
        notices.failed(failure);
    }

    private void filter() {
        String words = search.get().strip().toLowerCase(Locale.ROOT);
        List<AuditEvent> found =
                all.stream().filter(line -> text(line).contains(words)).toList();
        int from = Math.max(0, found.size() - MOST_LINES);
        List<AuditEvent> newest = new java.util.ArrayList<>(found.subList(from, found.size()));
        java.util.Collections.reverse(newest);
        lines.setAll(newest);
        count.set(texts.get("store.audit.count", newest.size(), all.size()));
    }

    /** With the first digits of a digest only. */
    static String brief(String text) {
        return DIGEST.matcher(text).replaceAll("$1…");
    }

    /** What was done, in words; the id of a deed of another program version. */
    String deed(AuditEvent line) {
        return texts.find("audit.deed." + line.deed(), line.deed());
    }

    private String text(AuditEvent line) {
        return String.join(
                        " ",
                        Long.toString(line.id()),
                        line.at(),
                        line.who(),
                        line.deed(),
                        deed(line),
                        line.subject(),
                        line.before(),
                        line.after())
                .toLowerCase(Locale.ROOT);
    }

    /** A moment by the clock of this place, or the text as it is stored if it cannot be one. */
    String moment(String stored) {
        try {
            return moment(Instant.parse(stored));
        } catch (java.time.DateTimeException e) {
            return stored;
        }
    }

    private String moment(Instant at) {
        return MOMENT.format(at.atZone(zone));
    }
}
