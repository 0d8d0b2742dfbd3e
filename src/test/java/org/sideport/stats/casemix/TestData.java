package org.sideport.stats.casemix;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.sideport.stats.data.Factor;

/** The data sets of src/test/oracle/casemix/logistic.R: first column failure, the others terms. */
final class TestData {

    private TestData() {}

    static CaseOutcomes read(String name) {
        List<String[]> rows = new ArrayList<>();
        try (InputStream in = Objects.requireNonNull(TestData.class.getResourceAsStream(name))) {
            new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().forEach(line -> rows.add(line.split(",")));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        String[] header = rows.remove(0);
        double[] outcome =
                rows.stream().mapToDouble(r -> Double.parseDouble(r[0])).toArray();
        List<Term> terms = new ArrayList<>();
        for (int j = 1; j < header.length; j++) {
            int column = j;
            terms.addAll(Term.of(
                    Factor.of(header[j], rows.stream().map(r -> r[column]).toList())));
        }
        return new CaseOutcomes(outcome, terms);
    }

    static CaseOutcomes of(String outcome, double[]... columns) {
        List<Term> terms = new ArrayList<>();
        for (double[] column : columns) {
            terms.add(Term.number("x" + (terms.size() + 1), column));
        }
        return new CaseOutcomes(
                Arrays.stream(outcome.split(" "))
                        .mapToDouble(Double::parseDouble)
                        .toArray(),
                terms);
    }
}
