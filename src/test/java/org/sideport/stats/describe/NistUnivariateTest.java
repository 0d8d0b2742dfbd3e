package org.sideport.stats.describe;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The univariate sets of NIST's Statistical Reference Datasets with their certified values. LRE is the number of correct
 * significant digits, {@code −log10 |found − certified| / |certified|}, at most 15 (the certified values have 15 digits).
 */
class NistUnivariateTest {

    private static final MathContext EXACT = new MathContext(60);

    /**
     * Certified mean, standard deviation and lag-1 autocorrelation, and the digits that each must reach. The binary numbers
     * nearest to 1000000.2 and the like of NumAcc3 and NumAcc4 are off by up to 10⁻⁹ of the spread there, so no method that
     * starts from them can reach more; {@link #whatIsMissingIsLostInTheBinaryNumbersNotInTheSums} shows that.
     */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "Lew, -177.435000000000, 277.332168044316, -0.307304800605679, 15, 14.9, 14.5",
        "Lottery, 518.958715596330, 291.699727470969, -0.120948622967393, 14.9, 14.9, 14.5",
        "Mavro, 2.00185600000000, 0.000429123454003053, 0.937989183438248, 15, 12.5, 13.5",
        "Michelso, 299.852400000000, 0.0790105478190518, 0.535199668621283, 15, 13.4, 13.3",
        "PiDigits, 4.53480000000000, 2.86733906028871, -0.00355099287237972, 15, 14.9, 14.5",
        "NumAcc1, 10000002, 1, -0.5, 15, 15, 15",
        "NumAcc2, 1.2, 0.1, -0.999, 15, 14.9, 14.9",
        "NumAcc3, 1000000.2, 0.1, -0.999, 15, 9.4, 11",
        "NumAcc4, 10000000.2, 0.1, -0.999, 15, 8.2, 10"
    })
    void certifiedValuesAreReached(
            String name, double mean, double sd, double lag1, double digitsMean, double digitsSd, double digitsLag)
            throws IOException {
        Moments moments = Moments.of(data(name));
        double lreMean = lre(moments.mean(), mean);
        double lreSd = lre(moments.sd(), sd);
        double lreLag = lre(moments.lag1(), lag1);
        System.out.printf(
                Locale.ROOT,
                "NIST StRD univariate %-9s correct digits: mean %.1f, SD %.1f, lag-1 autocorrelation %.1f%n",
                name,
                lreMean,
                lreSd,
                lreLag);
        assertThat(lreMean).isGreaterThanOrEqualTo(digitsMean);
        assertThat(lreSd).isGreaterThanOrEqualTo(digitsSd);
        assertThat(lreLag).isGreaterThanOrEqualTo(digitsLag);
    }

    /** Decimal arithmetic with 60 digits on the same binary numbers gives the same standard deviation to 15 digits. */
    @ParameterizedTest
    @CsvSource({"Mavro", "Michelso", "NumAcc2", "NumAcc3", "NumAcc4"})
    void whatIsMissingIsLostInTheBinaryNumbersNotInTheSums(String name) throws IOException {
        double[] x = data(name);
        BigDecimal n = BigDecimal.valueOf(x.length);
        BigDecimal mean = Arrays.stream(x)
                .mapToObj(BigDecimal::new)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .divide(n, EXACT);
        BigDecimal squares = BigDecimal.ZERO;
        BigDecimal products = BigDecimal.ZERO;
        BigDecimal before = BigDecimal.ZERO;
        for (double value : x) {
            BigDecimal deviation = new BigDecimal(value).subtract(mean);
            squares = squares.add(deviation.multiply(deviation));
            products = products.add(deviation.multiply(before));
            before = deviation;
        }
        double sd =
                squares.divide(n.subtract(BigDecimal.ONE), EXACT).sqrt(EXACT).doubleValue();
        Moments moments = Moments.of(x);
        assertThat(moments.mean()).isCloseTo(mean.doubleValue(), within(Math.ulp(mean.doubleValue())));
        assertThat(lre(moments.sd(), sd)).isGreaterThanOrEqualTo(15);
        assertThat(moments.lag1()).isCloseTo(products.divide(squares, EXACT).doubleValue(), within(1e-15));
    }

    /**
     * NIST's PiDigits holds one misprint: the 957th digit stands there as 3 where π has an 8. Its certified values are
     * those of the data as they stand; the digits 945 to 970 were compared with a copy of the file.
     */
    private static double[] piAsPublished() {
        double[] digits = pi(5_000);
        digits[956] = 3;
        return digits;
    }

    /** The sum of the first 5 000 digits by the certified mean is 22 674, of the true ones 5 more. */
    @Test
    void theDigitsOfPiAreWhatTheyAre() {
        double[] digits = pi(5_000);
        assertThat(Arrays.copyOf(digits, 20))
                .containsExactly(3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9, 3, 2, 3, 8, 4);
        assertThat(digits[956]).isEqualTo(8);
        assertThat(Arrays.stream(piAsPublished()).sum()).isEqualTo(22_674);
    }

    static double lre(double found, double certified) {
        double error = Math.abs(found - certified) / Math.abs(certified);
        return error == 0 ? 15 : Math.min(15, -Math.log10(error));
    }

    static double[] data(String name) throws IOException {
        return switch (name) {
            case "PiDigits" -> piAsPublished();
            // "three values: 10000001, 10000003, 10000002"
            case "NumAcc1" -> new double[] {10000001, 10000003, 10000002};
            case "NumAcc2" -> pairs(1.2, 1.1, 1.3);
            case "NumAcc3" -> pairs(1000000.2, 1000000.1, 1000000.3);
            case "NumAcc4" -> pairs(10000000.2, 10000000.1, 10000000.3);
            default -> read("/nist/univariate/" + name + ".txt");
        };
    }

    /** One value, "followed by 500 pairings" of two others: 1 001 in all. */
    private static double[] pairs(double first, double odd, double even) {
        double[] x = new double[1_001];
        Arrays.setAll(x, i -> i == 0 ? first : i % 2 == 1 ? odd : even);
        return x;
    }

    private static double[] read(String resource) throws IOException {
        try (InputStream in = NistUnivariateTest.class.getResourceAsStream(resource)) {
            String text = new String(in.readAllBytes(), StandardCharsets.US_ASCII);
            return Arrays.stream(text.trim().split("\\s+"))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
        }
    }

    /** Machin 1706: π = 16 arctan 1/5 − 4 arctan 1/239, in whole numbers with ten digits to spare. */
    private static double[] pi(int digits) {
        BigInteger unit = BigInteger.TEN.pow(digits + 10);
        BigInteger pi = arctan(5, unit)
                .multiply(BigInteger.valueOf(16))
                .subtract(arctan(239, unit).multiply(BigInteger.valueOf(4)));
        String text = pi.toString();
        double[] found = new double[digits];
        Arrays.setAll(found, i -> text.charAt(i) - '0');
        return found;
    }

    private static BigInteger arctan(int inverse, BigInteger unit) {
        BigInteger square = BigInteger.valueOf((long) inverse * inverse);
        BigInteger power = unit.divide(BigInteger.valueOf(inverse));
        BigInteger sum = power;
        for (long k = 3; power.signum() != 0; k += 2) {
            power = power.divide(square).negate();
            sum = sum.add(power.divide(BigInteger.valueOf(k)));
        }
        return sum;
    }
}
