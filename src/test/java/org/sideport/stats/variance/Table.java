package org.sideport.stats.variance;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

/** Reads the data sets that the oracle scripts wrote. */
public final class Table {

    private Table() {}

    public static List<String[]> rows(String name) {
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(Table.class.getResourceAsStream("/gtheory/" + name + ".csv"), name),
                StandardCharsets.UTF_8))) {
            return reader.lines().map(line -> line.split(",")).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** All columns but the last are factors. */
    public static LongData data(String name) {
        List<String[]> rows = rows(name);
        String[] header = rows.get(0);
        List<String[]> body = rows.subList(1, rows.size());
        List<Factor> factors = new ArrayList<>();
        for (int j = 0; j < header.length - 1; j++) {
            int column = j;
            factors.add(
                    Factor.of(header[j], body.stream().map(row -> row[column]).toList()));
        }
        return new LongData(
                factors,
                body.stream()
                        .mapToDouble(row -> Double.parseDouble(row[row.length - 1]))
                        .toArray());
    }

    /** For instance {@code subject+rater+subject:rater}. */
    public static List<Factor> model(LongData data, String terms) {
        return Arrays.stream(terms.split("\\+"))
                .map(term -> Crossing.of(
                        Arrays.stream(term.split(":")).map(data::factor).toList()))
                .toList();
    }
}
