package org.sideport.stats.rasch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;

/**
 * Against eRm 1.0.2 (R 4.2.2), src/test/oracle/rasch/erm.R: its own data sets raschdat1 (first 12 items), rsmdat, pcmdat,
 * and a sparse design of 45 trainees, 3 assessors and 4 items as a linear rating scale and partial credit model. eRm prints
 * three digits and stops its optimiser near the maximum, so that it is met to 2e-4, within the printed digits.
 */
class RaschReferenceTest {

    /** eRm's optimiser stops here. */
    private static final Offset<Double> NEAR = within(2e-4);

    private static ManyFacetRasch fit(Markings marks, StepModel model) {
        return ManyFacetRasch.fit(marks, model, Estimation.CONDITIONAL, 0.95).orElseThrow();
    }

    private static void same(Estimate found, String[] row) {
        assertThat(found.value()).as(String.join(" ", row)).isCloseTo(Double.parseDouble(row[3]), NEAR);
        assertThat(found.se()).as("SE " + String.join(" ", row)).isCloseTo(Double.parseDouble(row[4]), NEAR);
    }

    @ParameterizedTest
    @CsvSource({"rm, PARTIAL_CREDIT", "rm, RATING_SCALE", "rsm, RATING_SCALE", "pcm, PARTIAL_CREDIT"})
    void itemsStepsAndFitAreThoseOfConditionalMaximumLikelihoodInR(String name, StepModel model) throws IOException {
        ManyFacetRasch fit = fit(RaschData.read(name + ".csv"), model);
        Map<String, Integer> compared = new HashMap<>();
        for (String[] row : RaschData.rows(name + "-erm.csv")) {
            compared.merge(row[0], 1, Integer::sum);
            switch (row[0]) {
                case "loglik" -> assertThat(fit.logLikelihood()).isCloseTo(Double.parseDouble(row[3]), within(1e-6));
                case "item" -> same(RaschData.find(fit.items(), row[1]).logits(), row);
                case "step" -> same(step(fit, row[1], Integer.parseInt(row[2])).deviation(), row);
                case "outfit" -> {
                    MeanSquares squares = RaschData.find(fit.items(), row[1]).fit();
                    assertThat(squares.n()).isEqualTo(Integer.parseInt(row[2]));
                    assertThat(squares.outfit()).isCloseTo(Double.parseDouble(row[3]), NEAR);
                    assertThat(squares.outfitZ()).isCloseTo(Double.parseDouble(row[4]), within(5e-4));
                }
                case "infit" -> {
                    MeanSquares squares = RaschData.find(fit.items(), row[1]).fit();
                    assertThat(squares.infit()).isCloseTo(Double.parseDouble(row[3]), NEAR);
                    assertThat(squares.infitZ()).isCloseTo(Double.parseDouble(row[4]), within(5e-4));
                }
                case "personoutfit" -> {
                    MeanSquares squares =
                            RaschData.find(fit.trainees(), trainee(row[1])).fit();
                    assertThat(squares.n()).isEqualTo(Integer.parseInt(row[2]));
                    assertThat(squares.outfit()).isCloseTo(Double.parseDouble(row[3]), within(5e-4));
                    assertThat(squares.outfitZ()).isCloseTo(Double.parseDouble(row[4]), within(5e-3));
                }
                case "personinfit" -> {
                    MeanSquares squares =
                            RaschData.find(fit.trainees(), trainee(row[1])).fit();
                    assertThat(squares.infit()).isCloseTo(Double.parseDouble(row[3]), NEAR);
                    assertThat(squares.infitZ()).isCloseTo(Double.parseDouble(row[4]), within(5e-4));
                }
                default -> {
                    // persons and their separation: maximum likelihood in R, Warm's estimate here; see below
                }
            }
        }
        assertThat(compared.getOrDefault("item", 0)).isEqualTo(fit.items().size());
        assertThat(compared.getOrDefault("personinfit", 0)).isGreaterThan(15);
    }

    private static String trainee(String label) {
        return String.format("T%03d", Integer.parseInt(label.replaceFirst("^P", "")));
    }

    private static Step step(ManyFacetRasch fit, String item, int number) {
        List<Step> all = fit.steps().stream()
                .filter(s -> s.item().equals(item) || s.item().equals("all"))
                .toList();
        return all.get(number - 1);
    }

    @ParameterizedTest
    @CsvSource({"rsm, RATING_SCALE", "pcm, PARTIAL_CREDIT", "rm, RATING_SCALE"})
    void abilitiesOfMaximumLikelihoodAndTheirSeparationAreThoseOfR(String name, StepModel model) throws IOException {
        UsableMarks usable = UsableMarks.of(RaschData.read(name + ".csv"), model);
        Parameters parameters = Parameters.of(usable);
        ConditionalFit fit =
                ConditionalFit.of(usable, parameters, Estimation.CONDITIONAL).orElseThrow();
        // R fixes the first item parameter of each set, not the mean; abilities are compared by their distances
        Map<String, double[]> found = new HashMap<>();
        Markings marks = usable.marks();
        for (int t = 0; t < marks.trainees().size(); t++) {
            if (usable.trainees()[t] == Extreme.NONE) {
                List<MarkCurve> curves = new java.util.ArrayList<>();
                int total = 0;
                for (int row : usable.rows()) {
                    if (marks.trainee(row) == t) {
                        curves.add(parameters.curve(fit.values(), 0, marks.item(row)));
                        total += usable.score(row);
                    }
                }
                double ability = Ability.maximumLikelihood(curves, total);
                found.put(marks.trainees().levels().get(t), new double[] {
                    ability, 1 / Math.sqrt(Ability.information(curves, ability))
                });
            }
        }
        double shift = Double.NaN;
        int persons = 0;
        for (String[] row : RaschData.rows(name + "-erm.csv")) {
            if (row[0].equals("person")) {
                double[] here = found.get(trainee(row[1]));
                shift = Double.isNaN(shift) ? Double.parseDouble(row[3]) - here[0] : shift;
                assertThat(here[0] + shift).isCloseTo(Double.parseDouble(row[3]), NEAR);
                assertThat(here[1]).isCloseTo(Double.parseDouble(row[4]), NEAR);
                persons++;
            }
            if (row[0].equals("separation")) {
                Separation separation = Separation.of(
                                found.values().stream().mapToDouble(v -> v[0]).toArray(),
                                found.values().stream().mapToDouble(v -> v[1]).toArray())
                        .orElseThrow();
                assertThat(separation.reliability()).isCloseTo(Double.parseDouble(row[3]), NEAR);
                assertThat(separation.error() * separation.error()).isCloseTo(Double.parseDouble(row[4]), NEAR);
            }
        }
        assertThat(persons).isEqualTo(found.size()).isGreaterThan(15);
    }

    @ParameterizedTest
    @CsvSource({"facets-rsm-erm.csv, RATING_SCALE", "facets-pcm-erm.csv, PARTIAL_CREDIT"})
    void assessorsItemsAndStepsOfASparseDesignAreThoseOfTheLinearModelInR(String file, StepModel model)
            throws IOException {
        // levels 2, 4, 6, 8: the same marks on another scale
        Markings marks = RaschData.read("facets.csv", 2, 2);
        ManyFacetRasch fit = fit(marks, model);
        Parameters parameters = Parameters.of(UsableMarks.of(marks, model));
        ConditionalFit inner = ConditionalFit.of(UsableMarks.of(marks, model), parameters, Estimation.CONDITIONAL)
                .orElseThrow();
        int first = parameters.assessorCount() + parameters.itemCount();
        int compared = 0;
        for (String[] row : RaschData.rows(file)) {
            compared++;
            switch (row[0]) {
                case "loglik" -> assertThat(fit.logLikelihood()).isCloseTo(Double.parseDouble(row[3]), within(1e-6));
                case "assessor" -> same(RaschData.find(fit.assessors(), row[1]).logits(), row);
                case "item" -> same(RaschData.find(fit.items(), row[1]).logits(), row);
                case "psi" -> {
                    int set = (Integer.parseInt(row[1]) - 1) / 2;
                    int category = (Integer.parseInt(row[1]) - 1) % 2;
                    // items of the data appear in the order of the columns of R
                    int place = model == StepModel.RATING_SCALE
                            ? first + category
                            : parameters.step(marks.items().levels().indexOf("I" + (set + 1)), category + 1);
                    assertThat(inner.values()[place]).isCloseTo(Double.parseDouble(row[3]), NEAR);
                    assertThat(Math.sqrt(inner.covariance().getEntry(place, place)))
                            .isCloseTo(Double.parseDouble(row[4]), NEAR);
                }
                default -> throw new AssertionError(row[0]);
            }
        }
        assertThat(compared).isEqualTo(model == StepModel.RATING_SCALE ? 10 : 16);
        assertThat(fit.lowest()).isEqualTo(2);
        assertThat(fit.highest()).isEqualTo(8);
        assertThat(fit.steps().get(0).from()).isEqualTo(2);
        assertThat(fit.steps().get(0).to()).isEqualTo(4);
    }

    @Test
    void theConditionalLogLikelihoodAndSeveritiesAreThePrintedOnes() throws IOException {
        // printed by R: summary(RSM(rsmdat)) "Conditional log-likelihood: -107.5618"; item easiness of I2.c1 -0.305
        ManyFacetRasch fit = fit(RaschData.read("rsm.csv"), StepModel.RATING_SCALE);
        assertThat(String.format("%.4f", fit.logLikelihood())).isEqualTo("-107.5618");
        // summary(PCM(pcmdat)): -121.0979
        assertThat(String.format(
                        "%.4f",
                        fit(RaschData.read("pcm.csv"), StepModel.PARTIAL_CREDIT).logLikelihood()))
                .isEqualTo("-121.0979");
    }
}
