package org.sideport.app.exchange;

import java.util.List;
import java.util.function.Consumer;
import javafx.stage.Stage;
import org.sideport.app.Background;
import org.sideport.app.Question;
import org.sideport.app.Texts;
import org.sideport.model.ConsentPurpose;
import org.sideport.workflow.consent.ConsentDoubt;
import org.sideport.workflow.consent.ConsentDoubts;

/** Asks once, before anything is written, where no consent to a use is recorded. */
public final class ConsentQuestion {

    /** Puts a question, and runs what follows if the answer is yes. */
    @FunctionalInterface
    public interface Asker {
        void ask(Question question, Runnable yes);
    }

    private final ConsentDoubts doubts;
    private final Background work;
    private final Texts texts;

    public ConsentQuestion(ConsentDoubts doubts, Background work, Texts texts) {
        this.doubts = doubts;
        this.work = work;
        this.texts = texts;
    }

    /**
     * Does it at once where nothing speaks against it, and after a yes where something does.
     *
     * @param failed told why the cases may not go out at all
     */
    public void before(
            List<String> codes, ConsentPurpose purpose, Asker asker, Consumer<Throwable> failed, Runnable deed) {
        work.run(
                progress -> doubts.of(codes, purpose),
                found -> {
                    if (found.isEmpty()) {
                        deed.run();
                    } else {
                        asker.ask(question(found, purpose), deed);
                    }
                },
                failed);
    }

    /** As {@link #before}, for what leaves the unit to teach with: asked in {@code owner}'s window. */
    void beforeTeaching(Stage owner, String code, Consumer<Throwable> failed, Runnable deed) {
        before(List.of(code), ConsentPurpose.TEACHING, (question, yes) -> question.ask(owner, yes), failed, deed);
    }

    private Question question(List<ConsentDoubt> found, ConsentPurpose purpose) {
        List<String> lines = found.stream()
                .map(doubt -> texts.get(
                        "handout.consent.line",
                        doubt.code(),
                        texts.get("keeping.situation." + doubt.situation().name())))
                .toList();
        return new Question(
                "handout-consent",
                texts.get("handout.consent.title"),
                texts.get("handout.consent.text", texts.get("consent.purpose." + purpose.name())),
                lines,
                texts.get("handout.consent.yes"),
                texts.get("cancel"),
                false);
    }
}
