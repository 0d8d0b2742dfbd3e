package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;

class RubricDraftTest {

    private static final Procedure PHACO = ShippedRubrics.phacoProcedure();

    private static List<String> places(RubricDraft draft) {
        return draft.check(PHACO).stream().map(Finding::path).toList();
    }

    /** One level, domain and item of each kind, written field by field as a person would. */
    private static RubricDraft written() {
        return RubricDraft.fresh("own", "phaco")
                .without("/levels", 3)
                .without("/levels", 2)
                .with("/title", "Own form")
                .with("/source", "made for a test")
                .with("/levels/0/label", "low")
                .with("/levels/0/meaning", "not yet")
                .with("/levels/1/label", "high")
                .with("/levels/1/meaning", "well done")
                .with("/domains/0/title", "All")
                .with("/items/0/title", "First")
                .with("/items/0/anchors/0/text", "falls short")
                .with("/items/0/anchors/1/text", "does it");
    }

    @Test
    void aFreshDraftSaysEverythingThatIsLackingAtOnceWithARemedy() {
        RubricDraft fresh = RubricDraft.fresh("own", "phaco");

        assertThat(places(fresh))
                .containsExactlyInAnyOrder(
                        "/title",
                        "/source",
                        "/levels/0/label",
                        "/levels/0/meaning",
                        "/levels/1/label",
                        "/levels/1/meaning",
                        "/levels/2/label",
                        "/levels/2/meaning",
                        "/levels/3/label",
                        "/levels/3/meaning",
                        "/domains/0/title",
                        "/items/0/title",
                        "/items/0/anchors/0/text",
                        "/items/0/anchors/1/text",
                        "/items/0/anchors/2/text",
                        "/items/0/anchors/3/text");
        assertThat(fresh.check(PHACO)).allMatch(f -> !f.remedy().isBlank());
        assertThatThrownBy(() -> fresh.finished(PHACO)).isInstanceOf(InputException.class);
        assertThat(fresh.sketch().items()).hasSize(1);
    }

    @Test
    void whatIsFilledInMakesARubric() {
        Rubric rubric = written()
                .with("/items/0/weight", "2,5")
                .with("/items/0/critical_minimum", "2")
                .with("/items/0/phase", "rhexis")
                .withReason(0, "not_visible", true)
                .addItem("domain_1")
                .with("/items/1/title", "Slips")
                .with("/items/1/kind", "count")
                .addBand(1)
                .with("/items/1/bands/2/from", "4")
                .with("/pass_standard/share", "0.7")
                .with("/pass_standard/agreed_by", "panel")
                .with("/pass_standard/agreed_on", "2026-03-01")
                .finished(PHACO);

        assertThat(rubric.items().get(0).weight()).isEqualTo(2.5);
        assertThat(rubric.items().get(0).criticalMinimum()).isEqualTo(2);
        assertThat(rubric.items().get(0).phase()).isEqualTo("rhexis");
        assertThat(rubric.items().get(1).bands()).extracting(Rubric.Band::from).containsExactly(0.0, 1.0, 4.0);
        assertThat(rubric.passStandard()).isEqualTo(new Rubric.PassStandard(0.7, "panel", "2026-03-01"));
    }

    @ParameterizedTest
    @CsvSource({
        "/items/0/weight, heavy, write a number",
        "/items/0/weight, -1, write more than 0",
        "/items/0/critical_minimum, 9, write one of 1",
        "/items/0/phase, lunch, write one of its ids",
        "/levels/1/points, 1, give each its own",
        "/levels/0/points, few, write a whole number",
        "/version, two, write three numbers",
        "/id, Own Form, lower-case letters",
    })
    void whatIsTypedWronglyIsKeptAndSaidAtItsPlace(String path, String typed, String remedy) {
        RubricDraft draft = written().with(path, typed);

        assertThat(draft.text(path)).isEqualTo(typed);
        assertThat(draft.check(PHACO))
                .anyMatch(f -> f.path().equals(path) && f.remedy().contains(remedy));
        // and there is still something to show
        assertThat(draft.sketch().title()).isEqualTo("Own form");
    }

    @Test
    void anchorsMinimumsAndTranslationsFollowALevelWhosePointsChange() {
        Rubric rubric = written()
                .with("/items/0/critical_minimum", "2")
                .with("/translations/fr/levels/2/label", "haut")
                .with("/translations/fr/items/item_1/anchors/2", "le fait")
                .with("/levels/1/points", "5")
                .finished(PHACO);

        assertThat(rubric.items().get(0).anchors())
                .containsExactly(new Rubric.Anchor(1, "falls short"), new Rubric.Anchor(5, "does it"));
        assertThat(rubric.items().get(0).criticalMinimum()).isEqualTo(5);
        assertThat(rubric.in("fr").levels().get(1).label()).isEqualTo("haut");
        assertThat(rubric.in("fr").items().get(0).anchors().get(1).text()).isEqualTo("le fait");
    }

    @Test
    void everyItemAsksForTheAnchorOfALevelThatComesAndLosesThatOfOneThatGoes() {
        RubricDraft more = written().addLevel();
        assertThat(places(more)).contains("/items/0/anchors/2/text", "/levels/2/label");
        RubricDraft back = more.without("/levels", 2);
        assertThat(places(back)).isEmpty();
    }

    @Test
    void itemsAndTranslationsFollowADomainOrItemThatIsRenamed() {
        Rubric rubric = written()
                .with("/translations/de/domains/domain_1", "Alles")
                .with("/translations/de/items/item_1/title", "Erstes")
                .with("/domains/0/id", "whole")
                .with("/items/0/id", "start")
                .finished(PHACO);

        assertThat(rubric.items().get(0).domain()).isEqualTo("whole");
        assertThat(rubric.in("de").domains().get(0).title()).isEqualTo("Alles");
        assertThat(rubric.in("de").items().get(0).title()).isEqualTo("Erstes");
    }

    @Test
    void aTranslationThatIsEmptiedLeavesNothingBehind() {
        RubricDraft draft = written().with("/translations/fr/items/item_1/anchors/1", "x");
        assertThat(draft.with("/translations/fr/items/item_1/anchors/1", " ")).isEqualTo(written());
    }

    @Test
    void anotherKindTakesWhatItNeedsAndDropsWhatItCannotHave() {
        RubricDraft measured = written().with("/items/0/critical_minimum", "2").with("/items/0/kind", "measured");
        assertThat(places(measured)).isEmpty();
        assertThat(measured.finished(PHACO).items().get(0).criticalMinimum()).isNull();
        assertThat(measured.finished(PHACO).items().get(0).anchors()).isEmpty();
        RubricDraft check = measured.with("/items/0/kind", "check");
        assertThat(check.finished(PHACO).items().get(0).bands()).isEmpty();
    }

    @Test
    void theNextVersionAsksWhatBecameOfEachItemThatIsGone() {
        Rubric first = written()
                .addItem("domain_1")
                .with("/items/1/title", "Second")
                .with("/items/1/kind", "check")
                .finished(PHACO);
        RubricDraft next = RubricDraft.nextOf(first, "1.1.0");
        assertThat(places(next)).isEmpty();

        RubricDraft renamed = next.with("/items/0/id", "start");
        assertThat(places(renamed)).isEmpty();
        assertThat(renamed.finished(PHACO)
                        .itemOf("1.0.0", "item_1")
                        .orElseThrow()
                        .id())
                .isEqualTo("start");

        RubricDraft removed = renamed.without("/items", 1);
        assertThat(places(removed)).containsExactly("/replaces/0/items/item_2");
        Rubric merged = removed.withFate("item_2", "start").finished(PHACO);
        assertThat(merged.itemOf("1.0.0", "item_2").orElseThrow().id()).isEqualTo("start");
        Rubric givenUp = removed.withFate("item_2", null).finished(PHACO);
        assertThat(givenUp.itemOf("1.0.0", "item_2")).isEmpty();
    }

    /** What an item of the first version is in the third follows from what was said twice. */
    @Test
    void marksCanBeFollowedOverThreeVersions() {
        Rubric first = written()
                .addItem("domain_1")
                .with("/items/1/title", "Second")
                .with("/items/1/kind", "check")
                .finished(PHACO);
        Rubric second =
                RubricDraft.nextOf(first, "1.1.0").with("/items/0/id", "start").finished(PHACO);
        Rubric third = RubricDraft.nextOf(second, "2.0.0")
                .with("/items/0/id", "begin")
                .without("/items", 1)
                .withFate("item_2", null)
                .finished(PHACO);

        assertThat(third.itemOf("1.1.0", "start").orElseThrow().id()).isEqualTo("begin");
        assertThat(third.itemOf("1.0.0", "item_1").orElseThrow().id()).isEqualTo("begin");
        assertThat(third.itemOf("1.0.0", "item_2")).isEmpty();
        assertThat(RubricReader.read(RubricWriter.json(third), "third.json")).isEqualTo(third);
    }

    @Test
    void aNewItemNeverTakesTheIdOfOneThatWasGivenUp() {
        Rubric first = written()
                .addItem("domain_1")
                .with("/items/1/title", "Second")
                .with("/items/1/kind", "check")
                .finished(PHACO);
        RubricDraft next =
                RubricDraft.nextOf(first, "1.1.0").without("/items", 1).addItem("domain_1");
        assertThat(next.texts("/items", "id")).containsExactly("item_1", "item_3");
    }

    @Test
    void aVersionThatDoesNotComeAfterIsRefused() {
        Rubric first = written().with("/version", "1.9.0").finished(PHACO);
        assertThat(places(RubricDraft.nextOf(first, "1.9.0"))).contains("/version");
        assertThat(places(RubricDraft.nextOf(first, "1.10.0"))).isEmpty();
    }

    @Test
    void itemsMoveWithinTheirDomain() {
        RubricDraft draft = written().addDomain().addItem("domain_2").addItem("domain_1");
        assertThat(draft.texts("/items", "id")).containsExactly("item_1", "item_3", "item_2");
        assertThat(draft.moved("/items", 0, 1).texts("/items", "id")).containsExactly("item_3", "item_1", "item_2");
        assertThat(draft.moved("/items", 1, 1)).isEqualTo(draft);
        assertThat(draft.moved("/items", 2, -1)).isEqualTo(draft);
    }
}
