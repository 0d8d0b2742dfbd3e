package org.sideport.workflow;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** LibreOffice computes workbooks anew. */
final class Office {

    /** @param type as the format names it: {@code n}, {@code str}, {@code e} for an error, … */
    record Cell(String type, String value, String formula) {}

    private Office() {}

    /**
     * Saves copies, of which all values of formulas were taken away before, so that every value in them is LibreOffice's.
     *
     * @param books in one folder
     * @return the copies, in the same order
     */
    static List<Path> recalculated(Path temp, List<Path> books) throws IOException, InterruptedException {
        Path bare = Files.createDirectories(temp.resolve("bare"));
        Path out = Files.createDirectories(temp.resolve("computed"));
        List<String> command = new ArrayList<>(List.of(
                "soffice",
                "-env:UserInstallation=" + temp.resolve("office").toUri(),
                "--headless",
                "--convert-to",
                "xlsx:Calc MS Excel 2007 XML",
                "--outdir",
                out.toString()));
        for (Path book : books) {
            Path copy = bare.resolve(book.getFileName());
            withoutValues(book, copy);
            command.add(copy.toString());
        }
        Process process;
        try {
            process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(temp.resolve("office.log").toFile())
                    .start();
        } catch (IOException e) {
            throw new AssertionError(
                    "LibreOffice is missing, so that nobody looks whether the formulas of workbooks are right: install"
                            + " libreoffice-calc-nogui",
                    e);
        }
        try {
            if (!process.waitFor(20, TimeUnit.MINUTES)) {
                throw new AssertionError("LibreOffice does not end");
            }
        } finally {
            process.destroyForcibly();
        }
        List<Path> copies =
                books.stream().map(b -> out.resolve(b.getFileName())).toList();
        for (Path copy : copies) {
            if (!Files.exists(copy)) {
                throw new AssertionError("LibreOffice wrote nothing: " + Files.readString(temp.resolve("office.log")));
            }
        }
        return copies;
    }

    private static void withoutValues(Path book, Path copy) throws IOException {
        try (ZipInputStream in = new ZipInputStream(Files.newInputStream(book));
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(copy))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                out.putNextEntry(new ZipEntry(entry.getName()));
                if (entry.getName().startsWith("xl/worksheets/sheet")) {
                    String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
                    out.write(
                            text.replaceAll("(<f>[^<]*</f>)<v>[^<]*</v>", "$1").getBytes(StandardCharsets.UTF_8));
                } else {
                    in.transferTo(out);
                }
            }
        }
    }

    /** The cells that hold a formula or an error, by sheet and place, such as {@code Cohort!B2}. */
    static Map<String, Cell> formulas(Path book) throws IOException, XMLStreamException {
        Map<String, Cell> cells = new HashMap<>();
        try (ZipFile zip = new ZipFile(book.toFile())) {
            List<String> names = sheets(zip);
            for (int s = 0; s < names.size(); s++) {
                try (InputStream in = zip.getInputStream(zip.getEntry("xl/worksheets/sheet" + (s + 1) + ".xml"))) {
                    read(names.get(s), in, cells);
                }
            }
        }
        return cells;
    }

    private static List<String> sheets(ZipFile zip) throws IOException, XMLStreamException {
        List<String> names = new ArrayList<>();
        try (InputStream in = zip.getInputStream(zip.getEntry("xl/workbook.xml"))) {
            XMLStreamReader xml = XMLInputFactory.newFactory().createXMLStreamReader(in);
            while (xml.hasNext()) {
                if (xml.next() == XMLStreamConstants.START_ELEMENT
                        && xml.getLocalName().equals("sheet")) {
                    names.add(xml.getAttributeValue(null, "name"));
                }
            }
        }
        return names;
    }

    private static void read(String sheet, InputStream in, Map<String, Cell> cells) throws XMLStreamException {
        XMLStreamReader xml = XMLInputFactory.newFactory().createXMLStreamReader(in);
        String place = "";
        String type = "";
        String formula = null;
        String value = "";
        while (xml.hasNext()) {
            int event = xml.next();
            if (event == XMLStreamConstants.START_ELEMENT) {
                switch (xml.getLocalName()) {
                    case "c" -> {
                        place = xml.getAttributeValue(null, "r");
                        String given = xml.getAttributeValue(null, "t");
                        type = given == null ? "n" : given;
                        formula = null;
                        value = "";
                    }
                    case "f" -> formula = xml.getElementText();
                    case "v" -> value = xml.getElementText();
                    default -> {
                        // nothing of a cell
                    }
                }
            } else if (event == XMLStreamConstants.END_ELEMENT
                    && xml.getLocalName().equals("c")
                    && (formula != null || type.equals("e"))) {
                cells.put(sheet + "!" + place, new Cell(type, value, formula));
            }
        }
    }
}
