package org.sideport.app.cases;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.ImportSheet;

/** A sheet of cases: what would be taken in and what is wrong, before anything is. */
public final class SheetViewModel {

    private final ImportSheet job;
    private final Path sheet;
    private final Background work;
    private final Texts texts;
    private final Consumer<List<SurgicalCase>> stored;
    private final ReadOnlyObjectWrapper<ImportSheet.@Nullable Plan> plan = new ReadOnlyObjectWrapper<>(null);
    private final BooleanProperty goodOnly = new SimpleBooleanProperty(false);
    private final ReadOnlyDoubleWrapper reading = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private Background.@Nullable Job running;

    /** @param stored told when the cases are in the store */
    public SheetViewModel(
            ImportSheet job, Path sheet, Background work, Texts texts, Consumer<List<SurgicalCase>> stored) {
        this.job = job;
        this.sheet = sheet;
        this.work = work;
        this.texts = texts;
        this.stored = stored;
        goodOnly.addListener((property, old, now) -> check());
    }

    public Path sheet() {
        return sheet;
    }

    /** Reads the sheet, again if it was mended. */
    public void read() {
        problem.set(null);
        plan.set(null);
        reading.set(0);
        check();
        running = work.run(
                progress -> job.plan(sheet, progress),
                found -> {
                    reading.set(Double.NaN);
                    plan.set(found);
                    check();
                },
                this::failed,
                (fraction, message) -> {
                    if (isReading()) {
                        reading.set(Math.max(0, fraction));
                    }
                });
    }

    /** What would happen; {@code null} while it is not known. */
    public ReadOnlyObjectProperty<ImportSheet.@Nullable Plan> planProperty() {
        return plan.getReadOnlyProperty();
    }

    /** True to leave out the rows with a fault. */
    public BooleanProperty goodOnlyProperty() {
        return goodOnly;
    }

    /** How far the reading is; not a number when none is under way. */
    public ReadOnlyDoubleProperty readingProperty() {
        return reading.getReadOnlyProperty();
    }

    public boolean isReading() {
        return !Double.isNaN(reading.get());
    }

    /** Why nothing can be taken in yet; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    private void check() {
        ImportSheet.Plan now = plan.get();
        if (isReading()) {
            whyNot.set(texts.get("sheet.why.reading"));
        } else if (now == null || now.good().isEmpty()) {
            whyNot.set(texts.get("sheet.why.nothing"));
        } else {
            whyNot.set(now.faults().isEmpty() || goodOnly.get() ? "" : texts.get("sheet.why.faults"));
        }
    }

    public void take() {
        ImportSheet.Plan now = plan.get();
        if (now == null || !whyNot.get().isEmpty()) {
            return;
        }
        boolean good = goodOnly.get();
        work.run(progress -> job.store(now, good), stored, this::failed);
    }

    public void cancel() {
        if (running != null) {
            running.cancel();
        }
    }

    private void failed(Throwable failure) {
        reading.set(Double.NaN);
        problem.set(Notice.of(failure, texts));
        check();
    }
}
