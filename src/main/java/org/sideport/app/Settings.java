package org.sideport.app;

import java.io.IOException;
import java.io.Reader;
import java.io.StringWriter;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.Properties;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What the window remembers between runs. What is put is in the file within a second, whole or not at all, also when the
 * program is killed. Losing it loses nothing but comfort, so failures are logged only. Any thread.
 */
public final class Settings implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Settings.class);

    /** From a change to the file, milliseconds; at most one file is written in that time. */
    private static final long SOON = 800;

    private final Path file;
    private final Properties values = new Properties();
    /** What is known and neither changed nor written. */
    private final Map<String, String> fixed = new ConcurrentHashMap<>();

    private final AtomicBoolean waiting = new AtomicBoolean();
    private final ScheduledExecutorService writer;

    public Settings(Path file) {
        this(file, file);
    }

    /** @param otherwise where to begin from while {@code file} is not there yet */
    public Settings(Path file, Path otherwise) {
        this.file = file;
        writer = Executors.newSingleThreadScheduledExecutor(work -> {
            Thread made = new Thread(work, "sideport-settings");
            made.setDaemon(true);
            return made;
        });
        Path from = Files.exists(file) ? file : otherwise;
        if (Files.exists(from)) {
            try (Reader reader = Files.newBufferedReader(from, StandardCharsets.UTF_8)) {
                values.load(reader);
            } catch (IOException | IllegalArgumentException unreadable) {
                LOG.warn("settings unreadable, starting afresh", unreadable);
            }
        }
    }

    /** Holds this value from now on, whatever is put, and writes it nowhere. */
    public void fix(String key, String value) {
        fixed.put(key, value);
    }

    public boolean isFixed(String key) {
        return fixed.containsKey(key);
    }

    public String get(String key, String otherwise) {
        String known = fixed.get(key);
        if (known != null) {
            return known;
        }
        return values.getProperty(key, otherwise);
    }

    public double get(String key, double otherwise) {
        try {
            return Double.parseDouble(values.getProperty(key, ""));
        } catch (NumberFormatException absent) {
            return otherwise;
        }
    }

    public boolean get(String key, boolean otherwise) {
        return Boolean.parseBoolean(values.getProperty(key, Boolean.toString(otherwise)));
    }

    public void put(String key, Object value) {
        String text = value.toString();
        if (!isFixed(key) && !text.equals(values.setProperty(key, text))) {
            saveSoon();
        }
    }

    public void remove(String key) {
        if (values.remove(key) != null) {
            saveSoon();
        }
    }

    private void saveSoon() {
        if (!writer.isShutdown() && !waiting.getAndSet(true)) {
            writer.schedule(
                    () -> {
                        waiting.set(false);
                        save();
                    },
                    SOON,
                    TimeUnit.MILLISECONDS);
        }
    }

    /** Writes everything now, whole or not at all. */
    public synchronized void save() {
        StringWriter text = new StringWriter();
        Path fresh = file.resolveSibling(file.getFileName() + ".new");
        try {
            values.store(text, null);
            try (FileChannel channel = FileChannel.open(
                    fresh, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(text.toString().getBytes(StandardCharsets.UTF_8));
                while (bytes.hasRemaining()) {
                    channel.write(bytes);
                }
                channel.force(true);
            }
            Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException failure) {
            LOG.warn("settings not written", failure);
        }
    }

    /** Writes what is not written yet and lets go of the thread. */
    @Override
    public void close() {
        writer.shutdownNow();
        save();
    }
}
