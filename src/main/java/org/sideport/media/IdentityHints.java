package org.sideport.media;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Looks for what may tell whose eye, where or when: in file and folder names, and in container tags. It guesses; a person
 * decides. Which tags carry identity: common practice, no source.
 */
public final class IdentityHints {

    private static final Set<String> HARMLESS_TAGS = Set.of(
            "major_brand",
            "minor_version",
            "compatible_brands",
            "encoder",
            "language",
            "vendor_id",
            "duration",
            "number_of_frames",
            "number_of_bytes",
            "bps");
    private static final Set<String> HARMLESS_HANDLERS = Set.of(
            "videohandler",
            "soundhandler",
            "core media video",
            "core media audio",
            "apple video media handler",
            "apple sound media handler",
            "iso media file produced by google inc.",
            "und",
            "gpac iso video handler");
    private static final Pattern LONG_NUMBER = Pattern.compile("\\d{6,}");
    private static final Pattern DATE =
            Pattern.compile("(?:19|20)\\d{2}[-_.]?(?:0[1-9]|1[0-2])[-_.]?(?:0[1-9]|[12]\\d|3[01])"
                    + "|(?:0?[1-9]|[12]\\d|3[01])[-_.](?:0?[1-9]|1[0-2])[-_.](?:19|20)?\\d{2}");
    private static final Pattern TWO_NAMES = Pattern.compile("\\p{Lu}\\p{Ll}{2,}[ ,_.-]+\\p{Lu}\\p{Ll}{2,}");

    private IdentityHints() {}

    static boolean mayIdentify(String tag, String value) {
        String key = tag.toLowerCase(Locale.ROOT);
        if (value.isBlank() || HARMLESS_TAGS.contains(key) || key.startsWith("_statistics")) {
            return false;
        }
        return !key.equals("handler_name")
                || !HARMLESS_HANDLERS.contains(value.trim().toLowerCase(Locale.ROOT));
    }

    /** What in this file's name, or in the name of its folder, may identify; empty if nothing does. */
    public static List<String> inName(Path file) {
        List<String> found = new ArrayList<>();
        Path absolute = file.toAbsolutePath();
        look(absolute.getFileName(), "file name", found);
        Path folder = absolute.getParent();
        if (folder != null) {
            look(folder.getFileName(), "folder name", found);
        }
        return found;
    }

    /** What in this text looks like a date, a long number or a person's name; {@code null} if nothing does. */
    public static @Nullable String inText(String text) {
        if (DATE.matcher(text).find()) {
            return "a date";
        }
        if (LONG_NUMBER.matcher(text).find()) {
            return "a long number";
        }
        return TWO_NAMES.matcher(text).find() ? "a person's name" : null;
    }

    private static void look(@Nullable Path path, String place, List<String> found) {
        if (path == null) {
            return;
        }
        String name = path.toString();
        if (DATE.matcher(name).find()) {
            found.add("a date in the " + place + " \"" + name + "\"");
        } else if (LONG_NUMBER.matcher(name).find()) {
            found.add("a long number in the " + place + " \"" + name + "\"");
        }
        if (TWO_NAMES.matcher(name).find()) {
            found.add("what may be a person's name in the " + place + " \"" + name + "\"");
        }
    }
}
