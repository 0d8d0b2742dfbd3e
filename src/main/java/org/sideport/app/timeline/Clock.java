package org.sideport.app.timeline;

/** Times on the ruler, written without a formatter since that is done at every redraw. */
final class Clock {

    private Clock() {}

    /**
     * {@code 1:23} or {@code 1:02:03}, with as many decimals of a second as the step of the ruler needs.
     *
     * @param stepUs from tick to tick
     */
    static String text(long us, long stepUs) {
        StringBuilder text = new StringBuilder(14);
        long seconds = us / 1_000_000;
        if (seconds >= 3600) {
            text.append(seconds / 3600).append(':');
            two(text, seconds / 60 % 60);
        } else {
            text.append(seconds / 60);
        }
        text.append(':');
        two(text, seconds % 60);
        if (stepUs < 1_000_000) {
            int hundredths = (int) (us / 10_000 % 100);
            text.append('.').append(hundredths / 10);
            if (stepUs < 100_000) {
                text.append(hundredths % 10);
            }
        }
        return text.toString();
    }

    private static void two(StringBuilder text, long number) {
        text.append((char) ('0' + number / 10)).append((char) ('0' + number % 10));
    }
}
