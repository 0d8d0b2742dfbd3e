package org.sideport.stats.monitoring;

import java.util.Optional;
import java.util.Set;

/**
 * What the run rules have to remember of the last points: for either side the last two beyond 2 SD, the last four beyond 1
 * SD (one bit each, the newest lowest) and how many in a row lie on the side.
 *
 * @param over2 bits of the points beyond 2 SD above, likewise below
 * @param over1 bits of the points beyond 1 SD
 * @param inRow points in a row above the centre; negative below
 */
record RunState(int over2, int under2, int over1, int under1, int inRow) {

    static final RunState START = new RunState(0, 0, 0, 0, 0);

    /** What a point does. */
    record Step(RunState next, Optional<RunRule> rule, boolean high) {}

    /**
     * @param zone 0 to 3: so many SD reached above the centre; −1 to −4: so many less one reached below it
     * @param rules the rules in force
     */
    Step add(int zone, Set<RunRule> rules) {
        boolean high = zone >= 0;
        int depth = high ? zone : -zone - 1;
        int now2 = bits(high ? over2 : under2, depth >= 2, 2);
        int now1 = bits(high ? over1 : under1, depth >= 1, 4);
        int other2 = bits(high ? under2 : over2, false, 2);
        int other1 = bits(high ? under1 : over1, false, 4);
        boolean same = high ? inRow > 0 : inRow < 0;
        int row = Math.min(same ? Math.abs(inRow) + 1 : 1, 8);
        int recent2 = Integer.bitCount(high ? over2 : under2) + (depth >= 2 ? 1 : 0);
        int recent1 = Integer.bitCount(high ? over1 : under1) + (depth >= 1 ? 1 : 0);
        Optional<RunRule> rule = Optional.empty();
        if (rules.contains(RunRule.BEYOND_3_SD) && depth >= 3) {
            rule = Optional.of(RunRule.BEYOND_3_SD);
        } else if (rules.contains(RunRule.TWO_OF_THREE_BEYOND_2_SD) && depth >= 2 && recent2 >= 2) {
            rule = Optional.of(RunRule.TWO_OF_THREE_BEYOND_2_SD);
        } else if (rules.contains(RunRule.FOUR_OF_FIVE_BEYOND_1_SD) && depth >= 1 && recent1 >= 4) {
            rule = Optional.of(RunRule.FOUR_OF_FIVE_BEYOND_1_SD);
        } else if (rules.contains(RunRule.EIGHT_ON_ONE_SIDE) && row >= 8) {
            rule = Optional.of(RunRule.EIGHT_ON_ONE_SIDE);
        }
        RunState next =
                high ? new RunState(now2, other2, now1, other1, row) : new RunState(other2, now2, other1, now1, -row);
        return new Step(next, rule, high);
    }

    /** Without what rules that are not in force would need, so that fewer states are told apart. */
    RunState reduced(Set<RunRule> rules) {
        boolean two = rules.contains(RunRule.TWO_OF_THREE_BEYOND_2_SD);
        boolean four = rules.contains(RunRule.FOUR_OF_FIVE_BEYOND_1_SD);
        boolean eight = rules.contains(RunRule.EIGHT_ON_ONE_SIDE);
        return new RunState(two ? over2 : 0, two ? under2 : 0, four ? over1 : 0, four ? under1 : 0, eight ? inRow : 0);
    }

    private static int bits(int before, boolean set, int kept) {
        return ((before << 1) | (set ? 1 : 0)) & ((1 << kept) - 1);
    }
}
