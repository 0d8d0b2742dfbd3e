package org.sideport.timing;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/**
 * A CSV file (RFC 4180, UTF-8, comma or semicolon) whose columns are found by name, ignoring case.
 *
 * @param file for messages
 * @param columns lower-case names in the file's order
 */
public record CsvTable(Path file, List<String> columns, List<Row> rows) {

    /** @param line where the row starts, from 1, the header included */
    public record Row(Path file, int line, Map<String, String> cells) {

        /** Trimmed; empty if the cell or the column is. */
        public String text(String column) {
            return cells.getOrDefault(column, "");
        }

        public @Nullable String orNull(String column) {
            String text = text(column);
            return text.isEmpty() ? null : text;
        }

        /**
         * @throws InputException if the cell is empty
         */
        public String required(String column) {
            String text = text(column);
            if (text.isEmpty()) {
                throw fault("the column " + column + " is empty", "fill it in");
            }
            return text;
        }

        public InputException fault(String what, @Nullable String remedy) {
            return new InputException(what, place(), remedy);
        }

        public String place() {
            return file + ", line " + line;
        }
    }

    public CsvTable {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }

    public boolean has(String column) {
        return columns.contains(column);
    }

    /**
     * @throws InputException if the file cannot be read, is not UTF-8 or not a table with distinct column names
     */
    public static CsvTable read(Path file) {
        String head;
        try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            head = String.valueOf(reader.readLine());
        } catch (NoSuchFileException e) {
            throw new InputException("no such file", file.toString(), "check the path", e);
        } catch (CharacterCodingException e) {
            throw notUtf8(file, e);
        } catch (IOException e) {
            throw new InputException("cannot be read: " + e.getMessage(), file.toString(), null, e);
        }
        char delimiter = head.indexOf(',') < 0 && head.indexOf(';') >= 0 ? ';' : ',';
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setDelimiter(delimiter)
                .setIgnoreEmptyLines(true)
                .setTrim(true)
                .get();
        try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8);
                CSVParser parser = CSVParser.parse(reader, format)) {
            return build(file, parser);
        } catch (CharacterCodingException e) {
            throw notUtf8(file, e);
        } catch (IOException | UncheckedIOException e) {
            throw new InputException(
                    "this is no CSV file: " + e.getMessage(), file.toString(), "save it as CSV (UTF-8)", e);
        }
    }

    private static InputException notUtf8(Path file, IOException e) {
        return new InputException("the text is not UTF-8", file.toString(), "save it as CSV (UTF-8)", e);
    }

    private static CsvTable build(Path file, CSVParser parser) {
        List<String> columns = new ArrayList<>();
        List<Row> rows = new ArrayList<>();
        long line = 1;
        for (CSVRecord record : parser) {
            int firstLine = (int) line;
            line = parser.getCurrentLineNumber() + 1;
            if (columns.isEmpty()) {
                readHeader(file, record, columns);
                continue;
            }
            if (record.size() > columns.size()) {
                throw new InputException(
                        "this row has " + record.size() + " cells, the first row names " + columns.size() + " columns",
                        file + ", line " + firstLine,
                        "put text that holds a comma between quotation marks");
            }
            Map<String, String> cells = new LinkedHashMap<>();
            for (int i = 0; i < record.size(); i++) {
                cells.put(columns.get(i), CsvText.unguard(record.get(i).strip()));
            }
            rows.add(new Row(file, firstLine, cells));
        }
        if (columns.isEmpty()) {
            throw new InputException("the file is empty", file.toString(), "its first row names the columns");
        }
        return new CsvTable(file, columns, rows);
    }

    private static void readHeader(Path file, CSVRecord record, List<String> columns) {
        Set<String> seen = new HashSet<>();
        for (String cell : record) {
            String name = cell.replace("\uFEFF", "").strip().toLowerCase(Locale.ROOT);
            if (!seen.add(name)) {
                throw new InputException(
                        "the column " + name + " is there twice", file + ", line 1", "rename or remove one of them");
            }
            columns.add(name);
        }
    }
}
