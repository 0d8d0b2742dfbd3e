package org.sideport.media.export;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/** File names that tell nothing of a person, place or date: {@code case-0001_part-01.mp4}. */
public final class NeutralNames {

    private static final Pattern CODE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9_-]{0,39}");
    private static final int MOST = 9999;

    private NeutralNames() {}

    /**
     * Names for copies of the files of one recording, in order.
     *
     * @param files original files; their names are not looked at, their contents decide on the endings
     * @param folder where the copies go; without a code, the first case number that is free there is taken
     * @param code what to call the case; {@code null} for a number
     * @throws InputException if the code holds anything but letters, digits, hyphens and underscores
     */
    public static List<Path> propose(List<Path> files, Path folder, @Nullable String code) {
        if (code != null && !CODE.matcher(code).matches()) {
            throw new InputException(
                    "\"" + code + "\" is no code for a case",
                    null,
                    "use 1 to 40 letters, digits, hyphens and underscores, and no name of a person");
        }
        String name = code == null ? freeNumber(folder) : code;
        List<Path> names = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            String extension = Container.of(files.get(i)).extension();
            names.add(folder.resolve(String.format(Locale.ROOT, "%s_part-%02d%s", name, i + 1, extension)));
        }
        return names;
    }

    private static String freeNumber(Path folder) {
        for (int n = 1; n <= MOST; n++) {
            String name = String.format(Locale.ROOT, "case-%04d", n);
            if (!startsAny(folder, name + "_")) {
                return name;
            }
        }
        throw new InputException("all case numbers are taken", folder.toString(), "choose another folder");
    }

    private static boolean startsAny(Path folder, String prefix) {
        if (!Files.isDirectory(folder)) {
            return false;
        }
        try (var entries = Files.newDirectoryStream(folder, prefix + "*")) {
            return entries.iterator().hasNext();
        } catch (java.io.IOException e) {
            throw new InputException(
                    "cannot be read: " + e.getMessage(), folder.toString(), "choose another folder", e);
        }
    }
}
