package org.sideport.stats.regression;

import org.jspecify.annotations.Nullable;

/** A curve with parameters, evaluated at each observation's known predictors. */
@FunctionalInterface
public interface CurveFunction {

    /**
     * @param observation 0 to n − 1
     * @param parameters not to be kept or changed
     * @param gradient filled with the derivatives by the parameters; {@code null} if they are not wanted
     * @return expected value; NaN or infinite where the parameters allow none, which a search then avoids
     */
    double value(int observation, double[] parameters, double @Nullable [] gradient);
}
