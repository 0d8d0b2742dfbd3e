package org.sideport.app.cases;

import java.util.Comparator;

/** Orders codes as people count: C-9 before C-10; letters without regard to case. Quick enough for long lists. */
final class NaturalText {

    static final Comparator<String> ORDER = NaturalText::compare;

    private NaturalText() {}

    private static int compare(String a, String b) {
        int i = 0;
        int j = 0;
        while (i < a.length() && j < b.length()) {
            if (isDigit(a.charAt(i)) && isDigit(b.charAt(j))) {
                int endOfA = digits(a, i);
                int endOfB = digits(b, j);
                int order = numbers(a, i, endOfA, b, j, endOfB);
                if (order != 0) {
                    return order;
                }
                i = endOfA;
                j = endOfB;
            } else {
                int order = Character.compare(Character.toLowerCase(a.charAt(i)), Character.toLowerCase(b.charAt(j)));
                if (order != 0) {
                    return order;
                }
                i++;
                j++;
            }
        }
        int rest = Integer.compare(a.length() - i, b.length() - j);
        return rest != 0 ? rest : a.compareTo(b);
    }

    private static int numbers(String a, int from, int to, String b, int start, int end) {
        int i = from;
        int j = start;
        while (i < to && a.charAt(i) == '0') {
            i++;
        }
        while (j < end && b.charAt(j) == '0') {
            j++;
        }
        int order = Integer.compare(to - i, end - j);
        while (order == 0 && i < to) {
            order = Character.compare(a.charAt(i++), b.charAt(j++));
        }
        return order;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private static int digits(String text, int from) {
        int end = from;
        while (end < text.length() && isDigit(text.charAt(end))) {
            end++;
        }
        return end;
    }
}
