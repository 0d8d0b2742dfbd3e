package org.sideport.stats.segments;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.resample.BcaLimits;
import org.sideport.stats.resample.Bootstrap;

/** Kappa over several recordings of the same two taggers, their times added up, with limits by resampling recordings. */
public final class PooledAgreement {

    private PooledAgreement() {}

    /**
     * @param recordings one confusion for each, at least one
     * @param bootstrap recordings are its units; below three there are no limits, and a warning says so
     * @return kappa with {@code n} recordings; refused as {@link LabelConfusion#kappa}
     */
    public static Outcome<Estimate> kappa(List<LabelConfusion> recordings, Bootstrap bootstrap) {
        LabelConfusion all = recordings.stream().reduce(LabelConfusion::plus).orElseThrow();
        List<long[][]> aligned = recordings.stream().map(aligned(all.labels())).toList();
        return all.kappa().map(kappa -> {
            List<String> warnings = new ArrayList<>();
            Interval limits = null;
            if (recordings.size() < 3) {
                warnings.add("There are no limits for kappa: " + recordings.size()
                        + (recordings.size() == 1 ? " recording is" : " recordings are") + " too few to resample.");
            } else if (bootstrap.bcaDetail(recordings.size(), indices -> resampled(all.labels(), aligned, indices))
                    instanceof Outcome.Found<BcaLimits> found) {
                limits = found.value().limits();
                warnings.addAll(found.value().warnings());
            } else {
                warnings.add("There are no limits for kappa: most resamples hold one label only.");
            }
            return new Estimate(
                    kappa,
                    null,
                    limits,
                    recordings.size(),
                    "Cohen's kappa of the added times, BCa limits over recordings",
                    warnings);
        });
    }

    private static Function<LabelConfusion, long[][]> aligned(List<String> labels) {
        LabelConfusion empty = new LabelConfusion(labels, new long[labels.size()][labels.size()]);
        return recording -> empty.plus(recording).amounts();
    }

    private static double resampled(List<String> labels, List<long[][]> recordings, int[] indices) {
        long[][] sum = new long[labels.size()][labels.size()];
        for (int index : indices) {
            long[][] recording = recordings.get(index);
            for (int i = 0; i < sum.length; i++) {
                for (int j = 0; j < sum.length; j++) {
                    sum[i][j] += recording[i][j];
                }
            }
        }
        return new LabelConfusion(labels, sum).kappa() instanceof Outcome.Found<Double> found
                ? found.value()
                : Double.NaN;
    }
}
