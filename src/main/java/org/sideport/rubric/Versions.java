package org.sideport.rubric;

import java.math.BigInteger;
import java.util.Arrays;
import java.util.List;

/** Versions of three numbers, such as 1.10.0, which comes after 1.9.0. */
public final class Versions {

    private Versions() {}

    /** Negative if the first comes before the second. Parts that are no numbers count as 0. */
    public static int compare(String one, String other) {
        List<BigInteger> a = parts(one);
        List<BigInteger> b = parts(other);
        for (int i = 0; i < Math.max(a.size(), b.size()); i++) {
            int order = part(a, i).compareTo(part(b, i));
            if (order != 0) {
                return order;
            }
        }
        return 0;
    }

    /** The version whose middle number is one higher. */
    public static String next(String version) {
        List<BigInteger> parts = parts(version);
        return part(parts, 0) + "." + part(parts, 1).add(BigInteger.ONE) + ".0";
    }

    private static List<BigInteger> parts(String version) {
        return Arrays.stream(version.split("\\.", -1))
                .map(part -> part.matches("[0-9]+") ? new BigInteger(part) : BigInteger.ZERO)
                .toList();
    }

    private static BigInteger part(List<BigInteger> parts, int i) {
        return i < parts.size() ? parts.get(i) : BigInteger.ZERO;
    }
}
