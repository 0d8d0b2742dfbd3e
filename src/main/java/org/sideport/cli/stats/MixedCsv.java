package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.sideport.model.InputException;
import org.sideport.stats.data.Factor;
import org.sideport.stats.mixed.Column;
import org.sideport.stats.mixed.GrowthDesign;
import org.sideport.timing.CsvTable;

/**
 * Series of cases: {@code subject,case_number,value} and covariates.
 *
 * @param covariates columns of the design
 * @param covariateNames as the person named them
 * @param withoutValue rows left out for want of a value
 * @param repeated rows whose subject and case number occurred before
 */
@SuppressWarnings("ArrayRecordComponent")
record MixedCsv(
        Factor subject,
        double[] caseNumber,
        double[] value,
        List<Column> covariates,
        List<String> covariateNames,
        int withoutValue,
        int repeated) {

    private static final List<String> OWN = List.of("subject", "case_number", "value");

    static MixedCsv read(Path file, List<String> covariateNames) {
        CsvTable table = CsvTable.read(file);
        OWN.forEach(column -> LongCsv.need(table, column));
        for (String name : covariateNames) {
            LongCsv.need(table, name);
            if (OWN.contains(name)) {
                throw new InputException(
                        "the column " + name + " is part of the model already", "--covariates", "name other columns");
            }
        }
        List<CsvTable.Row> rows = table.rows().stream()
                .filter(row -> !row.text("value").isEmpty())
                .toList();
        if (rows.isEmpty()) {
            throw new InputException("no row has a value", file.toString(), "fill the column in");
        }
        double[] value =
                rows.stream().mapToDouble(row -> LongCsv.number(row, "value")).toArray();
        double[] caseNumber = rows.stream()
                .mapToDouble(row -> LongCsv.number(row, "case_number"))
                .toArray();
        Factor subject = Factor.of(
                "subject", rows.stream().map(row -> row.required("subject")).toList());
        List<Column> covariates = new ArrayList<>();
        for (String name : covariateNames) {
            Factor factor =
                    Factor.of(name, rows.stream().map(row -> row.required(name)).toList());
            covariates.addAll(GrowthDesign.covariate(factor));
        }
        Set<String> seen = new HashSet<>();
        int repeated = 0;
        for (int i = 0; i < value.length; i++) {
            repeated += seen.add(subject.codes()[i] + " " + caseNumber[i]) ? 0 : 1;
        }
        return new MixedCsv(
                subject,
                caseNumber,
                value,
                covariates,
                covariateNames,
                table.rows().size() - rows.size(),
                repeated);
    }

    /** The last case number that every subject has reached. */
    double lastOfAll() {
        double[] last = new double[subject.size()];
        Arrays.fill(last, Double.NEGATIVE_INFINITY);
        for (int i = 0; i < value.length; i++) {
            int s = subject.codes()[i];
            last[s] = Math.max(last[s], caseNumber[i]);
        }
        return Arrays.stream(last).min().orElseThrow();
    }

    /** Without the rows of these indices; subjects and categories that are left empty vanish. */
    MixedCsv without(Set<Integer> rows) {
        int[] kept = java.util.stream.IntStream.range(0, value.length)
                .filter(i -> !rows.contains(i))
                .toArray();
        List<String> labels = Arrays.stream(kept)
                .mapToObj(i -> subject.levels().get(subject.codes()[i]))
                .toList();
        List<Column> columns = covariates.stream()
                .map(c -> new Column(c.name(), pick(c.values(), kept)))
                .toList();
        return new MixedCsv(
                Factor.of("subject", labels),
                pick(caseNumber, kept),
                pick(value, kept),
                columns,
                covariateNames,
                withoutValue,
                repeated);
    }

    private static double[] pick(double[] values, int[] rows) {
        return Arrays.stream(rows).mapToDouble(i -> values[i]).toArray();
    }
}
