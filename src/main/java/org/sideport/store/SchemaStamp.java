package org.sideport.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.JarURLConnection;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.CRC32;

/**
 * A number for the migrations that a program carries, written into the head of each store that was held against all of them.
 * Where it stands there already, they need not be gone through again, which takes as long as all else of opening a store.
 *
 * @param number 0 if there is none: then every store is gone through
 */
record SchemaStamp(int number) {

    private static final String CLASS_PATH = "classpath:";

    /** Of the migrations at Flyway's locations; names and contents both count. */
    static SchemaStamp of(String... locations) {
        CRC32 sum = new CRC32();
        try {
            for (String location : locations) {
                if (!location.startsWith(CLASS_PATH) || !add(sum, location.substring(CLASS_PATH.length()))) {
                    return new SchemaStamp(0);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("the program's own files cannot be read", e);
        }
        return new SchemaStamp(positive(sum));
    }

    private static boolean add(CRC32 sum, String folder) throws IOException {
        URL place = SchemaStamp.class.getClassLoader().getResource(folder);
        if (place == null) {
            return false;
        }
        for (String name : names(place, folder)) {
            sum.update(name.getBytes(StandardCharsets.UTF_8));
            try (InputStream in = SchemaStamp.class.getClassLoader().getResourceAsStream(folder + "/" + name)) {
                if (in == null) {
                    return false;
                }
                sum.update(in.readAllBytes());
            }
        }
        return true;
    }

    private static List<String> names(URL place, String folder) throws IOException {
        if (place.openConnection() instanceof JarURLConnection jar) {
            String before = folder + "/";
            try (Stream<String> names = jar.getJarFile().stream()
                    .map(entry -> entry.getName())
                    .filter(name -> name.startsWith(before) && !name.endsWith("/"))) {
                return names.map(name -> name.substring(before.length()))
                        .sorted()
                        .toList();
            }
        }
        try (Stream<Path> files = Files.list(Path.of(place.toURI()))) {
            return files.map(file -> String.valueOf(file.getFileName()))
                    .sorted()
                    .toList();
        } catch (URISyntaxException e) {
            throw new IOException(e);
        }
    }

    boolean isOn(Connection store) throws SQLException {
        try (Statement statement = store.createStatement();
                ResultSet row = statement.executeQuery("pragma user_version")) {
            return number != 0 && row.next() && row.getInt(1) != 0 && row.getInt(1) == with(store);
        }
    }

    void put(Connection store) throws SQLException {
        try (Statement statement = store.createStatement()) {
            statement.execute("pragma user_version = " + with(store));
        }
    }

    /** The number with the store's own list of migrations: what another program did to it leads to another number. */
    private int with(Connection store) throws SQLException {
        CRC32 sum = new CRC32();
        sum.update(Integer.toString(number).getBytes(StandardCharsets.UTF_8));
        try (Statement statement = store.createStatement();
                ResultSet row = statement.executeQuery("select version, description, checksum, success from"
                        + " flyway_schema_history order by installed_rank")) {
            while (row.next()) {
                String line =
                        row.getString(1) + "|" + row.getString(2) + "|" + row.getString(3) + "|" + row.getString(4);
                sum.update(line.getBytes(StandardCharsets.UTF_8));
            }
        }
        return positive(sum);
    }

    private static int positive(CRC32 sum) {
        return Math.max(1, (int) (sum.getValue() & Integer.MAX_VALUE));
    }
}
