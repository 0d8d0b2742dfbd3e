package org.sideport.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.sideport.model.InputException;

/**
 * Is the store's file whole? Its head and size always; the form of all its pages (SQLite's quick_check) where the file is
 * small enough for that to take a moment only. Layout: https://www.sqlite.org/fileformat.html 1.3.
 */
final class StoreHealth {

    /** Up to this size the pages are looked through at each opening, bytes: some tenths of a second. */
    static final long QUICK = 32L << 20;

    private static final byte[] MAGIC = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);
    private static final int HEAD = 100;
    private static final int PAGE_SIZE_AT = 16;
    private static final int CHANGE_COUNTER_AT = 24;
    private static final int PAGES_AT = 28;
    private static final int VALID_FOR_AT = 92;

    private StoreHealth() {}

    /**
     * @throws DamagedStoreException if the file lost its content, its head or its end
     */
    static void requireWhole(Path store) {
        ByteBuffer head = ByteBuffer.allocate(HEAD);
        long size;
        try (FileChannel channel = FileChannel.open(store, StandardOpenOption.READ)) {
            size = channel.size();
            while (head.hasRemaining() && channel.read(head) >= 0) {
                // reads on
            }
        } catch (IOException e) {
            throw new InputException("the store cannot be read: " + e.getMessage(), store.toString(), null, e);
        }
        if (size == 0) {
            throw new DamagedStoreException("the store is empty", store, null);
        }
        for (int i = 0; i < MAGIC.length; i++) {
            if (head.position() < HEAD || head.get(i) != MAGIC[i]) {
                throw new DamagedStoreException("the store is damaged: its head is gone", store, null);
            }
        }
        int written = head.getShort(PAGE_SIZE_AT) & 0xffff;
        long page = written == 1 ? 65_536 : written;
        if (page < 512 || Long.bitCount(page) != 1) {
            throw new DamagedStoreException("the store is damaged: its head is not one of a store", store, null);
        }
        long pages = head.getInt(PAGES_AT) & 0xffff_ffffL;
        boolean counted = head.getInt(CHANGE_COUNTER_AT) == head.getInt(VALID_FOR_AT);
        if (counted && size < pages * page && !hasLog(store)) {
            throw new DamagedStoreException(
                    "the store is cut short: " + size + " of " + pages * page + " bytes are there", store, null);
        }
    }

    /** Pages may stand in the write-ahead log only, until a program has opened the store. */
    private static boolean hasLog(Path store) {
        for (String ending : new String[] {"-wal", "-journal"}) {
            try {
                if (Files.size(store.resolveSibling(store.getFileName() + ending)) > 0) {
                    return true;
                }
            } catch (IOException e) {
                // there is none
            }
        }
        return false;
    }

    /**
     * @throws DamagedStoreException if the pages do not fit each other
     */
    static void requireSoundPages(Path store, Connection connection) throws SQLException {
        List<String> found = pragma(connection, "quick_check(1)");
        if (!found.equals(List.of("ok"))) {
            throw new DamagedStoreException("the store is damaged: " + first(found), store, null);
        }
    }

    /** What SQLite's integrity_check and foreign_key_check find; empty if nothing. At most a hundred of each. */
    static List<String> faults(Connection connection) throws SQLException {
        List<String> faults = new ArrayList<>(pragma(connection, "integrity_check(100)"));
        faults.remove("ok");
        try (Statement statement = connection.createStatement();
                var rows = statement.executeQuery("pragma foreign_key_check")) {
            for (int i = 0; i < 100 && rows.next(); i++) {
                faults.add("row " + rows.getLong("rowid") + " of " + rows.getString("table")
                        + " belongs to a row that is not there, of " + rows.getString("parent"));
            }
        }
        return faults;
    }

    private static List<String> pragma(Connection connection, String pragma) throws SQLException {
        List<String> lines = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                var rows = statement.executeQuery("pragma " + pragma)) {
            while (rows.next()) {
                String text = rows.getString(1);
                if (text != null) {
                    lines.addAll(text.lines().toList());
                }
            }
        }
        return lines;
    }

    private static String first(List<String> lines) {
        return lines.isEmpty() ? "no answer" : lines.get(0);
    }
}
