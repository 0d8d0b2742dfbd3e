package org.sideport.app;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Properties;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What the window remembers between runs. Losing it loses nothing but comfort, so failures are logged only. */
public final class Settings {

    private static final Logger LOG = LoggerFactory.getLogger(Settings.class);

    private final Path file;
    private final Properties values = new Properties();

    public Settings(Path file) {
        this.file = file;
        if (Files.exists(file)) {
            try (Reader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
                values.load(reader);
            } catch (IOException | IllegalArgumentException unreadable) {
                LOG.warn("settings unreadable, starting afresh", unreadable);
            }
        }
    }

    public String get(String key, String otherwise) {
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
        values.setProperty(key, value.toString());
    }

    public void remove(String key) {
        values.remove(key);
    }

    /** Writes everything, whole or not at all. */
    public void save() {
        try {
            Path fresh = Files.createTempFile(file.toAbsolutePath().getParent(), "settings", ".tmp");
            try (Writer writer = Files.newBufferedWriter(fresh, StandardCharsets.UTF_8)) {
                values.store(writer, null);
            }
            Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException failure) {
            LOG.warn("settings not written", failure);
        }
    }
}
