package org.sideport.report.form;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.Locale;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.sideport.model.InputException;

/** Looks at a workbook's parts before anything reads them: a form holds no macros, links, objects or entities. */
final class WorkbookGuard {

    private static final long LARGEST_FILE = 20L << 20;
    private static final long LARGEST_PART = 32L << 20;
    private static final long LARGEST_WHOLE = 64L << 20;
    private static final int MOST_PARTS = 200;
    private static final long SMALL = 1 << 20;
    private static final int MOST_RATIO = 100;

    private WorkbookGuard() {}

    /**
     * @throws InputException if it is no workbook of the plain kind
     */
    static void check(Path file) throws IOException {
        if (Files.size(file) > LARGEST_FILE) {
            throw refused(file, "it is larger than any form");
        }
        try (ZipFile zip =
                ZipFile.builder().setPath(file).setIgnoreLocalFileHeader(true).get()) {
            long whole = 0;
            int parts = 0;
            for (ZipArchiveEntry part : Collections.list(zip.getEntries())) {
                long size = part.getSize();
                whole += size;
                if (++parts > MOST_PARTS
                        || size > LARGEST_PART
                        || whole > LARGEST_WHOLE
                        || (size > SMALL && size / Math.max(1, part.getCompressedSize()) > MOST_RATIO)) {
                    throw refused(file, "it would unpack to far more than a form");
                }
                checkName(file, part.getName().toLowerCase(Locale.ROOT));
                checkText(file, zip, part);
            }
        }
    }

    private static void checkName(Path file, String name) {
        if (name.contains("vbaproject") || name.endsWith(".bin")) {
            throw refused(file, "it holds macros");
        }
        if (name.contains("externallinks/")) {
            throw refused(file, "it has links to other files");
        }
        if (name.contains("embeddings/") || name.contains("activex/") || name.endsWith("connections.xml")) {
            throw refused(file, "it holds objects or connections that no form has");
        }
    }

    private static void checkText(Path file, ZipFile zip, ZipArchiveEntry part) throws IOException {
        String name = part.getName().toLowerCase(Locale.ROOT);
        if (!name.endsWith(".xml") && !name.endsWith(".rels")) {
            return;
        }
        byte[] bytes;
        try (InputStream in = zip.getInputStream(part)) {
            bytes = in.readNBytes((int) LARGEST_PART + 1);
        }
        if (bytes.length > LARGEST_PART) {
            throw refused(file, "it would unpack to far more than a form");
        }
        // both widths of letters, since a part may be in UTF-16
        String text = new String(bytes, StandardCharsets.ISO_8859_1).replace("\0", "");
        if (text.contains("<!DOCTYPE") || text.contains("<!ENTITY")) {
            throw refused(file, "it defines entities");
        }
        if (text.contains("macroEnabled")) {
            throw refused(file, "it is of the kind that may hold macros");
        }
        if (text.contains("TargetMode=\"External\"") && !name.contains("hyperlink")) {
            throw refused(file, "it has links to other files");
        }
    }

    private static InputException refused(Path file, String why) {
        return new InputException(
                "the workbook is refused: " + why,
                file.toString(),
                "fill in the form as it was made (sideport rubric form), and save it as XLSX");
    }
}
