package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.report.form.FormFault;
import org.sideport.workflow.exchange.MarkingForm;

/** A filled-in marking form comes back. */
public final class FormReturn {

    private final MarkingForm job;
    private final Background work;
    private final Notices notices;
    private final Texts texts;

    public FormReturn(MarkingForm job, Background work, Notices notices, Texts texts) {
        this.job = job;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
    }

    /** What may come of it besides a draft in the store. */
    public interface Asked {

        /** The form has faults; nothing was stored. */
        void faults(Path file, List<String> byCell);

        /** Another draft is there: shall the form's marks take its place? */
        void replace(String what, Runnable yes);
    }

    /**
     * Stores the marks of a form as a draft.
     *
     * @param stored told the code of the case
     */
    public void take(Path file, Asked asked, Consumer<String> stored) {
        take(file, false, asked, stored);
    }

    private void take(Path file, boolean replace, Asked asked, Consumer<String> stored) {
        work.run(
                progress -> job.take(file, replace),
                taken -> {
                    if (taken.faults().isEmpty()) {
                        notices.show(Notice.done(
                                texts.get(
                                        "form.taken",
                                        taken.head().caseCode(),
                                        taken.head().assessor()),
                                null));
                        stored.accept(taken.head().caseCode());
                    } else {
                        asked.faults(
                                file,
                                taken.faults().stream().map(FormFault::text).toList());
                    }
                },
                failure -> {
                    if (failure instanceof MarkingForm.OtherDraft other) {
                        asked.replace(other.what(), () -> take(file, true, asked, stored));
                    } else {
                        notices.failed(failure);
                    }
                });
    }
}
