package org.sideport.report.exchange;

/** How a standard's own fields round times, to tell what was rounded from what another program moved. Microseconds. */
interface Rounding {

    /** Where a start is written. */
    long start(long us);

    /** Where the end of what starts at {@code fromUs} is written. */
    long end(long fromUs, long us);

    /** Nothing is lost. */
    Rounding EXACT = of(us -> us);

    /** Cut to milliseconds; a cue lasts one at least. */
    Rounding MILLISECONDS = new Rounding() {
        @Override
        public long start(long us) {
            return us / 1000 * 1000;
        }

        @Override
        public long end(long fromUs, long us) {
            return Math.max(fromUs / 1000 + 1, us / 1000) * 1000;
        }
    };

    /** To the nearest of {@code rate} frames a second. */
    static Rounding frames(double rate) {
        return of(us -> Math.round(Math.rint(us * rate / 1e6) / rate * 1e6));
    }

    private static Rounding of(java.util.function.LongUnaryOperator both) {
        return new Rounding() {
            @Override
            public long start(long us) {
                return both.applyAsLong(us);
            }

            @Override
            public long end(long fromUs, long us) {
                return both.applyAsLong(us);
            }
        };
    }
}
