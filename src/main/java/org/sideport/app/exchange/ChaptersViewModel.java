package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import org.sideport.app.Background;
import org.sideport.app.Texts;
import org.sideport.model.ConsentPurpose;
import org.sideport.workflow.exchange.ExportChapters;
import org.sideport.workflow.exchange.ExportOpen;

/** Copies of a case's recording with its phases as chapters inside. */
public final class ChaptersViewModel extends CopyViewModel {

    private final ExportChapters job;
    private final Consumer<ExportChapters.Exported> written;
    private final BooleanProperty sound = new SimpleBooleanProperty(false);

    /** @param written told when all copies are there */
    public ChaptersViewModel(
            ExportChapters job,
            ExportOpen tagged,
            String code,
            Background work,
            Texts texts,
            Consumer<ExportChapters.Exported> written) {
        super(code, work, texts);
        this.job = job;
        this.written = written;
        begin(tagged);
    }

    /** True to keep the sound, in which people speak. */
    public BooleanProperty soundProperty() {
        return sound;
    }

    @Override
    String whyNotYet() {
        return annotators().isEmpty() ? texts.get("chapters.why.untagged") : "";
    }

    /** Writes the copies; a file that is there already is not replaced. */
    public void copy(Path folder) {
        ExportChapters.Wanted wanted =
                new ExportChapters.Wanted(code, annotatorProperty().get(), sound.get(), ConsentPurpose.TEACHING);
        write(progress -> job.export(wanted, folder, false, progress), written);
    }
}
