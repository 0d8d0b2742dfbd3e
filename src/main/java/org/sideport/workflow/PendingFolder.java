package org.sideport.workflow;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.sideport.model.InputException;
import org.sideport.store.DatabaseAwayException;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Work that could not be saved because a shared database was away, each piece in a JSON file of the workspace folder's
 * {@code pending}. Written beside and moved; deleted when saved.
 */
final class PendingFolder {

    static final JsonMapper MAPPER = JsonMapper.builder().build();

    private static final int RETRY_S = 5;

    private final Path folder;

    PendingFolder(Path workspace) {
        this.folder = workspace.resolve("pending");
    }

    /** Codes may hold letters that a file's name cannot, so the name is a digest of them. */
    Path file(String... key) {
        String all = String.join("\n", key);
        return folder.resolve(UUID.nameUUIDFromBytes(all.getBytes(StandardCharsets.UTF_8)) + ".json");
    }

    Path keep(Path file, Object json) {
        try {
            Files.createDirectories(folder);
            Path beside = Files.createTempFile(folder, "work", ".tmp");
            Files.writeString(beside, MAPPER.writeValueAsString(json));
            Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new InputException(
                    "the database cannot be reached, and your work cannot be kept either: " + e.getMessage(),
                    file.toString(),
                    "leave the window open until the database is back, and do the last thing once more",
                    e);
        }
        return file;
    }

    /** Reads what is kept. */
    interface Reader<T> {
        T read(JsonNode json);
    }

    <T> Optional<T> find(Path file, Reader<T> reader) {
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        try {
            return Optional.of(reader.read(MAPPER.readTree(Files.readString(file))));
        } catch (IOException | JacksonException | IllegalArgumentException e) {
            throw new InputException(
                    "what was kept while the database was away cannot be read: " + e.getMessage(),
                    file.toString(),
                    "move the file away; it is text that can be read",
                    e);
        }
    }

    void forget(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            // tried again with the next save; what it holds is what is stored
            org.slf4j.LoggerFactory.getLogger(PendingFolder.class).info("not deleted: {}", e.toString());
        }
    }

    /** Makes the work no longer be taken up; it can still be read. */
    Path putAside(Path file) {
        Path aside = folder.resolve(file.getFileName() + ".conflict");
        try {
            return Files.move(file, aside, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            return file;
        }
    }

    /** Every few seconds, until the database is back. */
    static void retryLater(Runnable retry) {
        CompletableFuture.delayedExecutor(RETRY_S, TimeUnit.SECONDS).execute(() -> {
            try {
                retry.run();
            } catch (DatabaseAwayException still) {
                retryLater(retry);
            } catch (RuntimeException refused) {
                // told when the person saves or opens again; the file stays
                org.slf4j.LoggerFactory.getLogger(PendingFolder.class)
                        .warn("kept work not saved: {}", refused.toString());
            }
        });
    }
}
