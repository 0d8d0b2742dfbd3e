package org.sideport.stats.describe;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The one-way sets of NIST's Statistical Reference Datasets; data and certified values are read from its own files. */
class NistAnovaTest {

    /** @param certified between df, SS, MS, F; within df, SS, MS; R²; residual SD, in the order of the file */
    private record Set(List<double[]> groups, double[] certified) {}

    /**
     * The digits that F, R² and the residual SD must reach. SmLs04 to 06 have seven and SmLs07 to 09 thirteen constant
     * leading digits: a double holds 16, so that about nine and three are left for what varies, and half of that is
     * what published comparisons call good.
     */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "SiRstv, 13, 13, 13.3",
        "SmLs01, 14.5, 14.5, 14.5",
        "SmLs02, 14, 14, 14",
        "SmLs03, 14, 14, 14",
        "AtmWtAg, 9.5, 9.5, 10",
        "SmLs04, 9.5, 9.5, 10",
        "SmLs05, 9.5, 9.5, 10",
        "SmLs06, 9.5, 9.5, 10",
        "SmLs07, 3, 3, 3.5",
        "SmLs08, 3, 3, 3.5",
        "SmLs09, 3, 3, 3.5"
    })
    void certifiedValuesAreReached(String name, double digitsF, double digitsR2, double digitsSd) throws IOException {
        Set set = read(name);
        double[] certified = set.certified();
        OneWayAnova anova = OneWayAnova.of(set.groups()).orElseThrow();
        double lreF = NistUnivariateTest.lre(anova.f(), certified[3]);
        double lreR2 = NistUnivariateTest.lre(anova.rSquared(), certified[7]);
        double lreSd = NistUnivariateTest.lre(anova.residualSd(), certified[8]);
        System.out.printf(
                Locale.ROOT,
                "NIST StRD anova %-8s correct digits: F %.1f, R squared %.1f, residual SD %.1f%n",
                name,
                lreF,
                lreR2,
                lreSd);
        assertThat(anova.dfBetween()).isEqualTo((int) certified[0]);
        assertThat(anova.dfWithin()).isEqualTo((int) certified[4]);
        assertThat(NistUnivariateTest.lre(anova.ssBetween(), certified[1])).isGreaterThanOrEqualTo(digitsF);
        assertThat(NistUnivariateTest.lre(anova.ssWithin(), certified[5])).isGreaterThanOrEqualTo(digitsF);
        assertThat(lreF).isGreaterThanOrEqualTo(digitsF);
        assertThat(lreR2).isGreaterThanOrEqualTo(digitsR2);
        assertThat(lreSd).isGreaterThanOrEqualTo(digitsSd);
    }

    private static Set read(String name) throws IOException {
        InputStream plain = NistAnovaTest.class.getResourceAsStream("/nist/anova/" + name + ".dat");
        InputStream in = plain != null
                ? plain
                : new GZIPInputStream(NistAnovaTest.class.getResourceAsStream("/nist/anova/" + name + ".dat.gz"));
        List<String> lines;
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            lines = reader.lines().toList();
        }
        List<Double> certified = new ArrayList<>();
        for (String line : lines.subList(40, 52)) {
            for (String word :
                    line.replaceFirst("^\\s*Certified R-Squared", "").trim().split("\\s+")) {
                if (word.matches("\\d.*")) {
                    certified.add(Double.parseDouble(word));
                }
            }
        }
        Map<String, List<Double>> groups = new LinkedHashMap<>();
        for (String line : lines.subList(60, lines.size())) {
            String[] cells = line.trim().split("\\s+");
            if (cells.length == 2) {
                groups.computeIfAbsent(cells[0], k -> new ArrayList<>()).add(Double.parseDouble(cells[1]));
            }
        }
        return new Set(
                groups.values().stream()
                        .map(g -> g.stream().mapToDouble(Double::doubleValue).toArray())
                        .toList(),
                certified.stream().mapToDouble(Double::doubleValue).toArray());
    }
}
