package org.sideport.cli.standard;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.AngoffRound;
import org.sideport.model.Plural;
import org.sideport.model.Rubric;
import org.sideport.workflow.StandardRounds.ItemSpread;
import org.sideport.workflow.StandardRounds.Sheet;
import org.sideport.workflow.StandardRounds.View;

/** Rounds as people and machines read them. */
final class RoundViews {

    private RoundViews() {}

    static Map<String, @Nullable Object> json(View view) {
        AngoffRound round = view.round();
        List<Object> items = new ArrayList<>();
        for (ItemSpread spread : view.items()) {
            items.add(Json.object(
                    "item", spread.item().id(),
                    "weight", spread.item().weight(),
                    "maximum", spread.maximum(),
                    "points", spread.points(),
                    "mean", spread.mean(),
                    "sd", spread.sd(),
                    "lowest", spread.lowest(),
                    "highest", spread.highest()));
        }
        return Json.object(
                "id", round.id(),
                "rubric", round.rubric(),
                "rubric_version", round.rubricVersion(),
                "number", round.number(),
                "state", round.isOpen() ? "open" : "closed",
                "judges", round.judges(),
                "left_out", round.leftOut(),
                "items_judged", view.done(),
                "item_count", view.rubric().items().size(),
                "opened_at", round.openedAt().toString(),
                "closed_at", round.closedAt() == null ? null : String.valueOf(round.closedAt()),
                "note", round.note(),
                "items", items);
    }

    static void print(View view, Console console) {
        AngoffRound round = view.round();
        console.say("Round " + round.number() + " of rubric " + round.rubric() + " " + round.rubricVersion() + ", "
                + (round.isOpen() ? "open" : "closed") + ". Id: " + round.id());
        int all = view.rubric().items().size();
        view.done()
                .forEach((judge, done) -> console.say("  " + judge + ": " + done + " of " + Plural.of(all, "item")
                        + (round.leftOut().contains(judge) ? ", left out" : "")));
        if (!round.note().isEmpty()) {
            console.say(round.note());
        }
        if (round.isOpen()) {
            console.say("Values are shown once the round is closed.");
            return;
        }
        List<String> heads = new ArrayList<>(List.of("item", ">most"));
        round.counted().forEach(judge -> heads.add(">" + judge));
        heads.addAll(List.of(">mean", ">SD"));
        TextTable table = new TextTable(heads.toArray(new String[0]));
        for (ItemSpread spread : view.items()) {
            List<String> cells = new ArrayList<>(List.of(spread.item().id(), String.valueOf(spread.maximum())));
            round.counted()
                    .forEach(judge -> cells.add(Words.number(spread.points().get(judge), 2)));
            cells.add(Words.number(spread.mean(), 2));
            cells.add(Words.number(spread.sd(), 2));
            table.row(cells.toArray(new String[0]));
        }
        table.print(console::say);
        console.say("The cut: sideport standard set --method angoff --rubric " + round.rubric() + " --dry-run");
    }

    static Map<String, @Nullable Object> json(Sheet sheet) {
        Map<String, @Nullable Object> points = new LinkedHashMap<>();
        sheet.rubric()
                .items()
                .forEach(item -> points.put(item.id(), sheet.points().get(item.id())));
        View before = sheet.before();
        return Json.object(
                "id", sheet.round().id(),
                "rubric", sheet.round().rubric(),
                "rubric_version", sheet.round().rubricVersion(),
                "number", sheet.round().number(),
                "judge", sheet.judge(),
                "points", points,
                "items_judged", sheet.points().size(),
                "item_count", sheet.rubric().items().size(),
                "before", before == null ? null : json(before));
    }

    static void print(Sheet sheet, Console console) {
        console.say("Round " + sheet.round().number() + " of rubric "
                + sheet.round().rubric() + ", judge " + sheet.judge()
                + ": points that a person who only just passes would get.");
        TextTable table = new TextTable("item", ">from", ">to", ">yours", ">round before");
        View before = sheet.before();
        for (Rubric.Item item : sheet.rubric().items()) {
            List<Integer> points = sheet.rubric().pointsOf(item);
            Double mean = before == null
                    ? null
                    : before.items().stream()
                            .filter(s -> s.item().id().equals(item.id()))
                            .map(ItemSpread::mean)
                            .findFirst()
                            .orElse(null);
            table.row(
                    item.id(),
                    String.valueOf(points.get(0)),
                    String.valueOf(sheet.rubric().maximumOf(item)),
                    Words.number(sheet.points().get(item.id()), 2),
                    Words.number(mean, 2));
        }
        table.print(console::say);
        console.say(sheet.points().size() + " of "
                + Plural.of(sheet.rubric().items().size(), "item") + " judged.");
    }
}
