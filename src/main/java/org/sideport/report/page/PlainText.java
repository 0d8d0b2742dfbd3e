package org.sideport.report.page;

/** Text without what neither HTML nor XML can hold (XML 1.0, section 2.2): it becomes U+FFFD. */
final class PlainText {

    private PlainText() {}

    static String of(String text) {
        return text.codePoints()
                .map(c -> c == '\n' || c == '\t' || (c >= 0x20 && c < 0x7F) || (c > 0x9F && c < 0xD800) || isHigh(c)
                        ? c
                        : 0xFFFD)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    private static boolean isHigh(int c) {
        return (c > 0xDFFF && c < 0xFFFE) || c > 0xFFFF;
    }
}
