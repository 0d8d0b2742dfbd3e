package org.sideport.cli.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleSupplier;

/** One thing whose speed is measured: our own work on made-up data and what it is compared with. */
interface Measurement {

    /** Short and lower case, for {@code --json}. */
    String id();

    /** What is computed and on how much, for people. */
    String what();

    /** Our own work, once; it returns a figure of the result, so that nothing of it can be left out. */
    double own();

    Baseline baseline();

    /** What our own time is set against. */
    sealed interface Baseline {

        /** Name of it, for people. */
        String name();

        /** Other work in this program; it returns any figure of its result. */
        record Work(String name, DoubleSupplier work) implements Baseline {}

        /**
         * A script among the resources of this package. It is called with the data file and the number of repeats, and
         * prints a line {@code seconds X} for each repeat, the time of the computation alone, and {@code value X}, the
         * figure that {@link Measurement#own} returns.
         *
         * @param header of the data file
         * @param rows of the data file, made when they are written
         */
        record Script(String name, String resource, String header, Iterable<String> rows) implements Baseline {

            void write(Path file) {
                try (var out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
                    out.write(header);
                    for (String row : rows) {
                        out.write('\n');
                        out.write(row);
                    }
                    out.write('\n');
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }
        }
    }

    /** All digits of a number, as R reads them. */
    static String number(double value) {
        return String.format(Locale.ROOT, "%.17g", value);
    }

    /** Those of a floor, in the order in which they are measured. */
    static List<Measurement> stats() {
        return List.of(new BootstrapMeasurement(), new MixedModelMeasurement());
    }
}
