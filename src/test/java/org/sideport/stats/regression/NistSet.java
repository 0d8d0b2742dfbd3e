package org.sideport.stats.regression;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A regression set of NIST's Statistical Reference Datasets from the test resources. */
record NistSet(
        List<String> names,
        List<double[]> starts,
        double[] certified,
        double[] deviations,
        double sumOfSquares,
        double residualSd,
        double[] y,
        double[][] x) {

    static NistSet read(String name) throws IOException {
        List<String> names = new ArrayList<>();
        List<double[]> parameters = new ArrayList<>();
        List<double[]> rows = new ArrayList<>();
        double squares = Double.NaN;
        double sd = Double.NaN;
        boolean data = false;
        for (String line : text(name).split("\n")) {
            if (line.startsWith("Residual Sum of Squares:")) {
                squares = Double.parseDouble(line.substring(24).strip());
            } else if (line.startsWith("Residual Standard Deviation:")) {
                sd = Double.parseDouble(line.substring(28).strip());
            } else if (line.startsWith("Data:")) {
                data = true;
            } else if (line.startsWith("  ")) {
                String[] cells = line.strip().split("\\s+");
                if (data) {
                    rows.add(numbers(cells, 0));
                } else {
                    names.add(cells[0]);
                    parameters.add(numbers(cells, 1));
                }
            }
        }
        int p = names.size();
        int before = parameters.get(0).length - 2;
        List<double[]> starts = new ArrayList<>();
        for (int s = 0; s < before; s++) {
            starts.add(column(parameters, s));
        }
        double[][] x = new double[rows.get(0).length - 1][];
        for (int k = 0; k < x.length; k++) {
            x[k] = column(rows, k + 1);
        }
        if (p == 0 || rows.isEmpty()) {
            throw new IOException(name + " is empty");
        }
        return new NistSet(
                names,
                starts,
                column(parameters, before),
                column(parameters, before + 1),
                squares,
                sd,
                column(rows, 0),
                x);
    }

    private static String text(String name) throws IOException {
        try (InputStream in = NistSet.class.getResourceAsStream("nist/" + name + ".dat")) {
            if (in == null) {
                throw new IOException("no set " + name);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static double[] numbers(String[] cells, int from) {
        double[] values = new double[cells.length - from];
        for (int i = 0; i < values.length; i++) {
            values[i] = Double.parseDouble(cells[from + i]);
        }
        return values;
    }

    private static double[] column(List<double[]> rows, int k) {
        return rows.stream().mapToDouble(row -> row[k]).toArray();
    }

    /** Correct significant digits, at most {@code most}: those that the certified values have. */
    static double lre(double found, double certified, double most) {
        double error = Math.abs(found - certified) / (certified == 0 ? 1 : Math.abs(certified));
        return error == 0 ? most : Math.max(0, Math.min(most, -Math.log10(error)));
    }
}
