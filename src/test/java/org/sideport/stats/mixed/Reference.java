package org.sideport.stats.mixed;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.sideport.stats.data.Factor;

/** The open data sets and the figures of lme4, lmerTest and nlme for them: src/test/oracle/mixed/mixed.R. */
final class Reference {

    private static final Map<String, Double> EXPECTED = expected();

    private Reference() {}

    static double of(String model, String quantity) {
        Double value = EXPECTED.get(model + "," + quantity);
        if (value == null) {
            throw new AssertionError("the reference holds no " + model + " " + quantity);
        }
        return value;
    }

    static boolean has(String model, String quantity) {
        return EXPECTED.containsKey(model + "," + quantity);
    }

    private static Map<String, Double> expected() {
        Map<String, Double> map = new HashMap<>();
        for (String[] row : rows("expected").subList(1, rows("expected").size())) {
            map.put(row[0] + "," + row[1], Double.parseDouble(row[2]));
        }
        return map;
    }

    static List<String[]> rows(String name) {
        try (InputStream in = Reference.class.getResourceAsStream("/mixed/" + name + ".csv")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .map(line -> line.split(",", -1))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The column of a data set, and what is made of it. */
    static Column column(String file, String name, String as, ToDoubleFunction<String> number) {
        List<String[]> rows = rows(file);
        int at = Arrays.asList(rows.get(0)).indexOf(name);
        return new Column(
                as,
                rows.stream()
                        .skip(1)
                        .mapToDouble(r -> number.applyAsDouble(r[at]))
                        .toArray());
    }

    static Column column(String file, String name) {
        return column(file, name, name, Double::parseDouble);
    }

    static Factor subjects(String file) {
        return Factor.of("subject", rows(file).stream().skip(1).map(r -> r[0]).toList());
    }

    /** The model of the reference's name, without the suffix of the criterion. */
    static MixedData data(String model) {
        return switch (model) {
            case "sleepstudy" -> growth("sleepstudy", "days", "reaction", 2);
            case "sleepstudy.intercept" -> growth("sleepstudy", "days", "reaction", 1);
            case "sleepstudy4" -> growth("sleepstudy-first4", "days", "reaction", 2);
            case "oxboys" -> growth("oxboys", "age", "height", 2);
            case "oxboys3" -> {
                MixedData straight = growth("oxboys", "age", "height", 2);
                Column square = column("oxboys", "age", "age2", a -> Math.pow(Double.parseDouble(a), 2));
                List<Column> three =
                        List.of(straight.fixed().get(0), straight.fixed().get(1), square);
                yield new MixedData(straight.response(), three, three, straight.subject());
            }
            case "orthodont" -> {
                MixedData straight = growth("orthodont", "age", "distance", 2);
                Column sex = column("orthodont", "sex", "sexFemale", s -> s.equals("Female") ? 1 : 0);
                yield new MixedData(
                        straight.response(),
                        List.of(straight.fixed().get(0), straight.fixed().get(1), sex),
                        straight.random(),
                        straight.subject());
            }
            case "dyestuff", "dyestuff2" -> {
                Column y = column(model, "yield");
                List<Column> one = List.of(Column.intercept(y.values().length));
                yield new MixedData(y.values(), one, one, subjects(model));
            }
            default -> throw new AssertionError(model);
        };
    }

    private static MixedData growth(String file, String time, String value, int random) {
        Column y = column(file, value);
        List<Column> columns = List.of(Column.intercept(y.values().length), column(file, time));
        return new MixedData(y.values(), columns, columns.subList(0, random), subjects(file));
    }
}
