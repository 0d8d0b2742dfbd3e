package org.sideport.app.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.RunNow;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.model.AuditEvent;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ExportCase;
import org.sideport.workflow.exchange.Hospital;
import org.sideport.workflow.exchange.ImportBundle;
import org.sideport.workflow.exchange.ImportPlan;

/** A case goes from one hospital to another as its people do it on the screen: real stores, real files. */
class BundleViewModelsTest {

    private static final String WORDS = "quiet boxes open late";

    @TempDir
    Path temp;

    private final Texts texts = new Texts();
    private final RunNow work = new RunNow();
    private final List<ImportPlan> taken = new ArrayList<>();
    private final List<ExportCase.Exported> written = new ArrayList<>();
    private Workspace a;
    private Workspace b;
    private Settings settings;

    @BeforeEach
    void twoHospitals() throws Exception {
        a = FreshWorkspace.in(temp.resolve("a"));
        b = FreshWorkspace.in(temp.resolve("b"));
        Hospital.fill(a, temp.resolve("shelf"));
        settings = new Settings(temp.resolve("window.properties"));
        settings.put("annotator", "B9");
    }

    @AfterEach
    void close() {
        settings.close();
        a.close();
        b.close();
    }

    private ExportBundleViewModel out(String... codes) {
        return new ExportBundleViewModel(new ExportCase(a), List.of(codes), work, texts, written::addAll);
    }

    private ImportBundleViewModel in(Path file) {
        ImportBundleViewModel model =
                new ImportBundleViewModel(new ImportBundle(b), file, work, texts, settings, taken::add);
        model.begin();
        return model;
    }

    private Path plainBundle() {
        ExportBundleViewModel out = out("D-017");
        out.encryptedProperty().set(false);
        Path file = temp.resolve(ExportBundleViewModel.nameOf("D-017"));
        out.export(file);
        assertThat(out.problemProperty().get()).isNull();
        return file;
    }

    private boolean isHere() {
        return b.<Boolean>read(s -> s.cases().exists("D-017"));
    }

    @Test
    void anEncryptedBundleNeedsItsPassphraseTwiceGoingOutAndOnceComingIn() {
        ExportBundleViewModel out = out("D-017");
        Path file = temp.resolve("out.zip");
        assertThat(out.whyNotProperty().get()).isEqualTo("The passphrase needs 15 characters or more");
        out.passphraseProperty().set(WORDS);
        out.againProperty().set("quiet boxes open lat");
        assertThat(out.whyNotProperty().get()).isEqualTo("The two passphrases differ");
        out.export(file);
        assertThat(file).doesNotExist();
        out.againProperty().set(WORDS);
        out.mediaProperty().set(true);
        out.export(file);
        assertThat(written)
                .singleElement()
                .satisfies(one -> assertThat(one.warnings()).noneMatch(warning -> warning.contains("Anyone can read")));

        ImportBundleViewModel in = in(file);
        assertThat(in.lockedProperty().get()).isTrue();
        assertThat(in.planProperty().get()).isNull();
        in.passphraseProperty().set("quiet boxes open soon");
        in.look();
        assertThat(in.problemProperty().get()).isNotNull();
        assertThat(in.planProperty().get()).isNull();
        in.passphraseProperty().set(WORDS);
        in.look();
        assertThat(in.problemProperty().get()).isNull();
        assertThat(in.planProperty().get().newCase()).isTrue();
        // 9000 times "one " and 5000 times "two ", as Hospital writes them
        assertThat(in.planProperty().get().mediaBytes()).isEqualTo(4 * (9000 + 5000));
        assertThat(isHere()).isFalse();
        in.take();
        assertThat(taken)
                .singleElement()
                .satisfies(plan -> assertThat(plan.caseCode()).isEqualTo("D-017"));
        assertThat(b.dir().resolve("recordings/D-017/1.mp4")).exists();
    }

    @Test
    void takenInASecondTimeItSaysThatItIsHere() {
        Path file = plainBundle();
        in(file).take();
        assertThat(taken).hasSize(1);
        List<AuditEvent> before = b.read(s -> s.audit().all());

        ImportBundleViewModel again = in(file);
        assertThat(again.whyNotProperty().get()).isEqualTo("Case D-017 is here already, unchanged: nothing to take in");
        again.take();
        assertThat(taken).hasSize(1);
        assertThat(b.<List<AuditEvent>>read(s -> s.audit().all())).isEqualTo(before);
    }

    @Test
    void whatDiffersIsShownAndTheBundlesDraftComesOnlyWhereThatIsChosen() {
        Path file = plainBundle();
        in(file).take();
        b.change(s -> s.ratings().ofCase("D-017").stream()
                .filter(r -> r.state() == RatingState.DRAFT)
                .forEach(r -> s.ratings().saveDraft(r.id(), r.rating().withComment("other here"))));

        ImportBundleViewModel in = in(file);
        assertThat(in.planProperty().get().conflicts()).singleElement().satisfies(line -> {
            assertThat(line.what()).isEqualTo(ImportPlan.What.RATING);
            assertThat(line.state()).isEqualTo(ImportPlan.State.KEPT);
        });
        assertThat(in.whyNotProperty().get()).startsWith("Nothing new comes");
        in.theirsProperty().set(true);
        assertThat(in.whyNotProperty().get()).startsWith("Look again");
        in.look();
        assertThat(in.whyNotProperty().get()).isEmpty();
        in.take();
        assertThat(b.<String>read(s -> s.ratings().ofCase("D-017").stream()
                        .filter(r -> r.state() == RatingState.DRAFT)
                        .findFirst()
                        .orElseThrow()
                        .rating()
                        .comment()))
                .isNotEqualTo("other here");
    }

    @Test
    void aTraineesCodeInUseHereIsAnsweredOnTheSpot() {
        b.change(s -> s.cases().add(new SurgicalCase("B-1", "T03", LocalDate.of(2026, 1, 5), "phaco", Map.of(), null)));
        ImportBundleViewModel in = in(plainBundle());
        assertThat(in.whyNotProperty().get()).isEqualTo("A question is open");
        assertThat(in.people()).extracting(PersonHere::code).contains("T03", "A1", "A2");
        PersonHere trainee = in.people().get(0);
        assertThat(trainee.isTrainee() && trainee.isKnown()).isTrue();
        trainee.hereProperty().set("T77");
        in.look();
        assertThat(in.planProperty().get().trainee()).isEqualTo("T77");
        in.take();
        assertThat(b.<SurgicalCase>read(s -> s.cases().get("D-017")).trainee()).isEqualTo("T77");
    }

    @Test
    void nobodyTakesInWithoutACodeAndADamagedFileChangesNothing() throws Exception {
        Path file = plainBundle();
        ImportBundleViewModel in = in(file);
        in.byProperty().set(" ");
        in.look();
        assertThat(in.whyNotProperty().get()).isEqualTo("Say who takes it in");
        in.take();
        byte[] bytes = Files.readAllBytes(file);
        Files.write(file, java.util.Arrays.copyOf(bytes, bytes.length / 2));
        assertThat(in(file).problemProperty().get()).isNotNull();
        assertThat(isHere()).isFalse();
    }

    @Test
    void severalCasesGoIntoAFolderAndNoFileIsOverwritten() throws Exception {
        a.change(s -> s.cases()
                .add(new SurgicalCase(
                        "D-018", "T03", LocalDate.of(2026, 3, 10), "phaco", Map.of(), null, Hospital.CONSENT, null)));
        Path folder = Files.createDirectories(temp.resolve("out"));
        ExportBundleViewModel out = out("D-017", "D-018");
        out.encryptedProperty().set(false);
        out.export(folder);
        assertThat(written)
                .extracting(ExportCase.Exported::file)
                .containsExactly(folder.resolve("D-017.sideport-case.zip"), folder.resolve("D-018.sideport-case.zip"));
        out.export(folder);
        assertThat(written).hasSize(2);
        assertThat(out.problemProperty().get().text()).contains("the file exists already");
    }
}
