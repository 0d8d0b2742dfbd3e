package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.sideport.media.IdentityHints;
import org.sideport.media.NaturalOrder;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/**
 * Makes cases out of files and folders that were dropped: files of one folder whose names differ by a part number only
 * are one case. It proposes; a person corrects.
 */
public final class ProposeCases {

    /** Endings of files that hold video, lower case. */
    public static final Set<String> VIDEO =
            Set.of("mp4", "mov", "m4v", "mkv", "avi", "mpg", "mpeg", "ts", "mts", "m2ts", "vob", "wmv", "webm", "mxf");

    private static final int DEEPEST = 6;

    /**
     * A part number: digits at the end, in brackets, behind a word that says "part", or behind anything but a hyphen,
     * since a hyphen makes a code ({@code C-01}, {@code C-02} are two cases).
     */
    private static final Pattern PART = Pattern.compile(
            "^(.*?)(?:(?:^|[\\s_.-]+)(?:part|pt|p|teil|disc|seg|segment|file|clip)[\\s_.-]*|[\\s_.-]*\\(|(?<![-\\d])[\\s_.]*)"
                    + "(\\d{1,6})\\)?$",
            Pattern.CASE_INSENSITIVE);

    private ProposeCases() {}

    /**
     * @param code a code made of the name; empty where the name may tell who the patient is
     * @param date the day on which the first file was last written, as a guess
     * @param hints what in the names may tell who the patient is
     */
    public record Proposal(String code, LocalDate date, List<Path> files, List<String> hints) {

        public Proposal {
            files = List.copyOf(files);
            hints = List.copyOf(hints);
        }
    }

    /** True if the name ends as those of video files do. */
    public static boolean isVideo(Path file) {
        String name = file.toString();
        return VIDEO.contains(name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT));
    }

    /**
     * @param dropped files, taken whatever their ending, and folders, of which the video files are taken, deep down
     * @throws InputException if a folder cannot be read, or nothing is to be found
     */
    public static List<Proposal> of(List<Path> dropped, ZoneId zone, Progress progress) {
        Map<Path, List<Path>> byFolder = new LinkedHashMap<>();
        for (Path path : dropped) {
            progress.check();
            if (Files.isDirectory(path)) {
                videos(path, byFolder, progress);
            } else {
                Path file = path.toAbsolutePath().normalize();
                byFolder.computeIfAbsent(file.getParent(), folder -> new ArrayList<>())
                        .add(file);
            }
        }
        List<Proposal> proposals = new ArrayList<>();
        byFolder.forEach((folder, files) -> groups(files).forEach((stem, parts) -> {
            boolean alone = groups(files).size() == 1 && !dropped.containsAll(files);
            proposals.add(proposal(alone ? name(folder) : stem, parts, zone));
        }));
        if (proposals.isEmpty()) {
            throw new InputException(
                    "there is no video file in what was dropped",
                    dropped.isEmpty() ? null : dropped.get(0).toString(),
                    "drop the files of the recordings, or the folder that holds them");
        }
        return proposals;
    }

    private static void videos(Path root, Map<Path, List<Path>> byFolder, Progress progress) {
        try (Stream<Path> found = Files.walk(root, DEEPEST)) {
            List<Path> files = found.filter(f -> isVideo(f) && Files.isRegularFile(f))
                    .map(f -> f.toAbsolutePath().normalize())
                    .sorted()
                    .toList();
            for (Path file : files) {
                progress.check();
                byFolder.computeIfAbsent(file.getParent(), folder -> new ArrayList<>())
                        .add(file);
            }
        } catch (IOException | java.io.UncheckedIOException e) {
            throw new InputException(
                    "the folder cannot be read: " + e.getMessage(), root.toString(), "drop the files themselves", e);
        }
    }

    /** By the name without its part number, in natural order. */
    private static Map<String, List<Path>> groups(List<Path> files) {
        Map<String, List<Path>> groups = new LinkedHashMap<>();
        for (Path file : NaturalOrder.sorted(files.stream().distinct().toList())) {
            groups.computeIfAbsent(stem(file), stem -> new ArrayList<>()).add(file);
        }
        Map<String, List<Path>> named = new LinkedHashMap<>();
        groups.forEach((stem, parts) -> named.put(parts.size() == 1 ? bare(parts.get(0)) : stem, parts));
        return named;
    }

    private static String stem(Path file) {
        String bare = bare(file);
        Matcher part = PART.matcher(bare);
        return part.matches() ? part.group(1) : bare;
    }

    private static String bare(Path file) {
        String name = name(file);
        int dot = name.lastIndexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }

    private static String name(Path path) {
        Path name = path.getFileName();
        return name == null ? "" : name.toString();
    }

    private static Proposal proposal(String stem, List<Path> files, ZoneId zone) {
        String code = IdentityHints.inText(stem) != null
                ? ""
                : stem.replaceAll("[^\\p{L}\\p{N}_.-]+", "-").replaceAll("^[^\\p{L}\\p{N}]+|[-_.]+$", "");
        List<String> hints = files.stream()
                .flatMap(f -> IdentityHints.inName(f).stream())
                .distinct()
                .toList();
        return new Proposal(code.substring(0, Math.min(40, code.length())), day(files.get(0), zone), files, hints);
    }

    private static LocalDate day(Path file, ZoneId zone) {
        try {
            return LocalDate.ofInstant(Files.getLastModifiedTime(file).toInstant(), zone);
        } catch (IOException e) {
            return LocalDate.now(zone);
        }
    }
}
