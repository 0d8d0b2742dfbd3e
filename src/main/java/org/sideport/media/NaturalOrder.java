package org.sideport.media;

import java.nio.file.Path;
import java.text.Collator;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Orders file names as people count: {@code part9} before {@code part10}. Runs of digits compare as numbers, the rest
 * without regard to case; names that are equal so compare as plain text.
 */
public final class NaturalOrder implements Comparator<Path> {

    private static final Pattern BORDER = Pattern.compile("(?<=\\D)(?=\\d)|(?<=\\d)(?=\\D)");

    /** Sorted by name alone; files of the same name by folder. */
    public static List<Path> sorted(List<Path> files) {
        return files.stream().sorted(new NaturalOrder()).toList();
    }

    @Override
    public int compare(Path left, Path right) {
        String leftName = name(left);
        String rightName = name(right);
        String[] a = BORDER.split(leftName);
        String[] b = BORDER.split(rightName);
        for (int i = 0; i < Math.min(a.length, b.length); i++) {
            int order = compareParts(a[i], b[i]);
            if (order != 0) {
                return order;
            }
        }
        int order = Integer.compare(a.length, b.length);
        if (order == 0) {
            order = leftName.compareTo(rightName);
        }
        return order != 0 ? order : left.compareTo(right);
    }

    private static String name(Path path) {
        Path name = path.getFileName();
        return name == null ? path.toString() : name.toString();
    }

    private static int compareParts(String a, String b) {
        if (isDigits(a) && isDigits(b)) {
            return new java.math.BigInteger(a).compareTo(new java.math.BigInteger(b));
        }
        Collator collator = Collator.getInstance(Locale.ROOT);
        collator.setStrength(Collator.SECONDARY);
        return collator.compare(a, b);
    }

    private static boolean isDigits(String text) {
        return !text.isEmpty() && text.chars().allMatch(c -> c >= '0' && c <= '9');
    }
}
