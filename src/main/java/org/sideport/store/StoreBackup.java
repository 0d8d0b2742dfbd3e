package org.sideport.store;

import java.nio.file.Path;
import java.time.Instant;

/**
 * A copy of the store in the folder "backups".
 *
 * @param at when it was made
 * @param size bytes
 * @param daily false for one that was made before the store was brought up to date
 */
public record StoreBackup(Path file, Instant at, long size, boolean daily) {}
