package org.sideport.figures;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the program said to the same question in several places. */
final class Told {

    private static final double AS_STORED = 1e-9;

    /**
     * @param value as it stands there
     * @param digits after the point where people read it; -1 where it is whole
     * @param cut true if further digits are cut off there rather than rounded
     */
    private record Said(String where, double value, int digits, boolean cut) {

        boolean fits(double truth) {
            if (digits < 0) {
                return Math.abs(value - truth) <= AS_STORED * Math.max(1, Math.abs(truth));
            }
            double step = Math.pow(10, -digits);
            double off = truth - value;
            return cut ? off > -AS_STORED && off < step : Math.abs(off) <= step / 2 + AS_STORED;
        }
    }

    private final Map<String, List<Said>> answers = new LinkedHashMap<>();

    private final List<String> problems = new ArrayList<>();

    private void add(String question, Said said) {
        answers.computeIfAbsent(question, q -> new ArrayList<>()).add(said);
    }

    /** A number for machines or in a cell of a sheet. */
    void whole(String question, String where, double value) {
        add(question, new Said(where, value, -1, false));
    }

    /**
     * A number that people read.
     *
     * @param text all that stands there
     * @param with finds it: its first group is the number
     */
    void read(String question, String where, String text, String with) {
        read(question, where, text, with, false);
    }

    /** As {@link #read}, where digits are cut off. */
    void cut(String question, String where, String text, String with) {
        read(question, where, text, with, true);
    }

    private void read(String question, String where, String text, String with, boolean cut) {
        String plain = text.replaceAll("[\\s\u00a0\u202f]+", " ");
        Matcher found = Pattern.compile(with).matcher(plain);
        if (!found.find()) {
            problems.add(question + ": " + where + ", by " + with + " in: " + plain);
            return;
        }
        String number = found.group(1).replace('−', '-');
        int clock = number.indexOf(':');
        BigDecimal value = new BigDecimal(number.substring(clock + 1));
        double minutes = clock < 0 ? 0 : 60 * Double.parseDouble(number.substring(0, clock));
        add(question, new Said(where, minutes + value.doubleValue(), value.scale(), cut));
    }

    /** How many places were asked. */
    int places() {
        return answers.values().stream().mapToInt(List::size).sum();
    }

    int questions() {
        return answers.size();
    }

    /** Every whole number is the same, and every other one is that number with fewer digits. */
    void areTheSameEverywhere() {
        List<String> wrong = new ArrayList<>(problems);
        answers.forEach((question, all) -> {
            if (all.size() < 2) {
                wrong.add(question + " was asked in one place only: " + all);
            }
            double truth = all.stream()
                    .filter(s -> s.digits() < 0)
                    .findFirst()
                    .map(Said::value)
                    .orElse(Double.NaN);
            if (all.stream().anyMatch(s -> !s.fits(truth))) {
                wrong.add(question + ": " + all);
            }
        });
        assertThat(wrong).as("different answers").isEmpty();
    }
}
