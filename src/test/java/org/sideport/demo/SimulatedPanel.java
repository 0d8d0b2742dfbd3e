package org.sideport.demo;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.sideport.demo.SimulatedProgramme.Operation;
import org.sideport.model.Rubric;

/**
 * The people who set a standard for a {@link SimulatedProgramme}, of whom everything is known: ten judges who see a trainee of
 * known ability before them, each with a known bias and with known scatter from item to item; and a panel that sorts cases by
 * what it sees of their ability.
 */
public final class SimulatedPanel {

    /** Ability of the trainee who only just passes, in logits. */
    public static final double BORDERLINE = 0.2;

    /** Points that each judge puts on every item beyond what it brings; they add up to 0. */
    public static final double[] BIAS = {-0.35, -0.25, -0.15, -0.1, -0.05, 0.05, 0.1, 0.15, 0.25, 0.35};

    /** SD of a single judgement about the judge's own mean, points. */
    public static final double SCATTER = 0.2;

    /** Below the one it sorts among the weaker, above the other among the stronger, in logits, as it sees them. */
    private static final double WEAKER_BELOW = -0.3;

    private static final double STRONGER_ABOVE = 0.7;
    private static final double SEEING_SD = 0.3;

    private final SimulatedProgramme programme;
    private final Random random;

    public SimulatedPanel(SimulatedProgramme programme, long seed) {
        this.programme = programme;
        this.random = new Random(seed);
    }

    /** What each judge says, by item. */
    public Map<String, Map<String, Double>> judgements() {
        double[] known = programme.expectedPoints(BORDERLINE);
        Map<String, Map<String, Double>> all = new LinkedHashMap<>();
        for (int j = 0; j < BIAS.length; j++) {
            Map<String, Double> own = new LinkedHashMap<>();
            for (int i = 0; i < known.length; i++) {
                Rubric.Item item = programme.rubric().items().get(i);
                own.put(item.id(), known[i] + BIAS[j] + SCATTER * random.nextGaussian());
            }
            all.put("J" + (j + 1), own);
        }
        return all;
    }

    /** Cases sorted by a panel; those it is unsure of are in neither. */
    public record Sorted(List<Operation> weaker, List<Operation> stronger) {}

    public Sorted sort() {
        List<Operation> weaker = new ArrayList<>();
        List<Operation> stronger = new ArrayList<>();
        for (Operation one : programme.operations()) {
            double seen = one.ability() + SEEING_SD * random.nextGaussian();
            if (seen < WEAKER_BELOW) {
                weaker.add(one);
            } else if (seen > STRONGER_ABOVE) {
                stronger.add(one);
            }
        }
        return new Sorted(weaker, stronger);
    }
}
