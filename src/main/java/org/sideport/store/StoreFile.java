package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.sideport.model.InputException;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** {@code store.json} in a workspace's folder: {@code {"database": "jdbc:postgresql://…"}}, never with a password. */
final class StoreFile {

    static final String NAME = "store.json";

    private static final String DATABASE = "database";

    private StoreFile() {}

    /** Made where there is such a file: most workspaces have none, and it takes a while to make. */
    private static JsonMapper mapper() {
        return JsonMapper.builder().build();
    }

    static boolean isIn(Path dir) {
        return Files.isRegularFile(dir.resolve(NAME));
    }

    /**
     * @throws InputException if it names no database
     */
    static DatabaseUrl read(Path dir) {
        Path file = dir.resolve(NAME);
        try {
            JsonNode url = mapper().readTree(Files.readString(file)).path(DATABASE);
            if (url.isString()) {
                return DatabaseUrl.parse(url.stringValue());
            }
        } catch (IOException | JacksonException e) {
            throw new InputException("the file cannot be read: " + e.getMessage(), file.toString(), null, e);
        } catch (InputException e) {
            throw e.at(file.toString());
        }
        throw new InputException(
                "the file names no database",
                file.toString(),
                "write {\"database\": \"jdbc:postgresql://host/name?sslmode=verify-full\"}");
    }

    static void write(Path dir, DatabaseUrl url) {
        Path file = dir.resolve(NAME);
        try {
            WholeFile.write(
                    file,
                    mapper().writerWithDefaultPrettyPrinter().writeValueAsString(Map.of(DATABASE, url.text())) + "\n");
        } catch (IOException e) {
            throw new InputException(
                    "the file cannot be written: " + e.getMessage(), file.toString(), "check the folder", e);
        }
    }
}
