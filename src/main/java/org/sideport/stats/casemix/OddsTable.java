package org.sideport.stats.casemix;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * A published table of odds ratios, to work out the expected risk of a case: the odds of the reference case times the
 * odds ratio of each of its levels. The ratios of a table come from one model, so that they may be multiplied.
 *
 * @param title for people
 * @param source where the ratios are printed
 * @param note cautions
 * @param baseline risk of the case that has the reference level of every factor, between 0 and 1
 * @param baselineSource where that comes from
 * @param factors with distinct names
 */
public record OddsTable(
        String title, String source, String note, double baseline, String baselineSource, List<OddsFactor> factors) {

    /**
     * A risk factor.
     *
     * @param name as the columns of case data are called
     * @param leftOutBecause why it is left out unless asked for; {@code null} if it counts
     * @param levels with distinct names, among them the reference with ratio 1
     */
    public record OddsFactor(String name, @Nullable String leftOutBecause, List<OddsLevel> levels) {

        public OddsFactor {
            levels = List.copyOf(levels);
            if (levels.stream().map(OddsLevel::name).distinct().count() != levels.size()) {
                throw new IllegalArgumentException(name + " has a level twice");
            }
            if (levels.stream().noneMatch(level -> level.oddsRatio() == 1)) {
                throw new IllegalArgumentException(name + " has no level with odds ratio 1, the reference");
            }
        }

        /** The first level with ratio 1. */
        public OddsLevel reference() {
            return levels.stream()
                    .filter(level -> level.oddsRatio() == 1)
                    .findFirst()
                    .orElseThrow();
        }

        /** The level that is meant by a name, another word for it, or a number within its range; case is ignored. */
        public Optional<OddsLevel> find(String value) {
            return levels.stream().filter(level -> level.covers(value.strip())).findFirst();
        }
    }

    /**
     * A level of a factor.
     *
     * @param name for people and in data
     * @param oddsRatio against the reference level, above 0
     * @param also other words for it in data
     * @param from lowest number that belongs to it; {@code null} if none does, or there is no lowest
     * @param below first number that does not belong to it any more; {@code null} likewise
     */
    public record OddsLevel(
            String name,
            double oddsRatio,
            List<String> also,
            @Nullable Double from,
            @Nullable Double below) {

        public OddsLevel {
            also = List.copyOf(also);
            if (!(oddsRatio > 0) || Double.isInfinite(oddsRatio)) {
                throw new IllegalArgumentException(name + ": an odds ratio is a number above 0, not " + oddsRatio);
            }
        }

        private boolean covers(String value) {
            if (name.equalsIgnoreCase(value) || also.stream().anyMatch(value::equalsIgnoreCase)) {
                return true;
            }
            if ((from == null && below == null) || !value.matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)")) {
                return false;
            }
            double number = Double.parseDouble(value);
            return (from == null || number >= from) && (below == null || number < below);
        }
    }

    /**
     * The expected risk of a case.
     *
     * @param ratio product of the odds ratios of its levels
     * @param risk {@code o / (1 + o)} with {@code o = ratio · baseline / (1 − baseline)}
     * @param counted factor and level of each ratio that was multiplied, reference levels included
     * @param assumed factors that the case does not tell, taken at their reference level: the risk may be too low
     */
    public record CompositeRisk(double ratio, double risk, List<Counted> counted, List<String> assumed) {

        public CompositeRisk {
            counted = List.copyOf(counted);
            assumed = List.copyOf(assumed);
        }
    }

    /** A ratio that was multiplied. */
    public record Counted(String factor, OddsLevel level) {}

    public OddsTable {
        factors = List.copyOf(factors);
        if (!(baseline > 0 && baseline < 1)) {
            throw new IllegalArgumentException("a risk lies between 0 and 1, not at " + baseline);
        }
        Set<String> seen = new HashSet<>();
        for (OddsFactor factor : factors) {
            if (!seen.add(factor.name())) {
                throw new IllegalArgumentException("the factor " + factor.name() + " is there twice");
            }
        }
    }

    public OddsTable withBaseline(double risk, String from) {
        return new OddsTable(title, source, note, risk, from, factors);
    }

    /** Names of the factors that are left out unless asked for. */
    public Set<String> leftOutByDefault() {
        return factors.stream()
                .filter(factor -> factor.leftOutBecause() != null)
                .map(OddsFactor::name)
                .collect(Collectors.toUnmodifiableSet());
    }

    /**
     * @param levels of the case by factor; an empty text is unknown; other names than the table's are ignored
     * @param leftOut factors of the table that are not to count
     * @return refused if the case has a level that the table does not know
     */
    public Outcome<CompositeRisk> risk(Map<String, String> levels, Set<String> leftOut) {
        double ratio = 1;
        List<Counted> counted = new ArrayList<>();
        List<String> assumed = new ArrayList<>();
        for (OddsFactor factor : factors) {
            if (leftOut.contains(factor.name())) {
                continue;
            }
            String value = levels.getOrDefault(factor.name(), "");
            if (value.isBlank()) {
                assumed.add(factor.name());
                continue;
            }
            Optional<OddsLevel> level = factor.find(value);
            if (level.isEmpty()) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the table has no level " + value + " of " + factor.name(),
                        "write one of "
                                + factor.levels().stream().map(OddsLevel::name).collect(Collectors.joining(", ")));
            }
            ratio *= level.get().oddsRatio();
            counted.add(new Counted(factor.name(), level.get()));
        }
        // o / (1 + o) turned over, so that huge ratios stay below 1 and never give ∞ / ∞
        double risk = 1 / (1 + (1 - baseline) / baseline / ratio);
        return Outcome.of(new CompositeRisk(ratio, risk, counted, assumed));
    }
}
