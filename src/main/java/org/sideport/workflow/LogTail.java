package org.sideport.workflow;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** The last lines of a workspace's log, to pass on with a problem. The log holds codes and faults, never marks. */
public final class LogTail {

    private static final String FILE = "sideport.log";

    /** How much is read from the end, bytes. */
    private static final int MOST = 8192;

    private final Workspace workspace;
    private final Path file;

    public LogTail(Workspace workspace) {
        this.workspace = workspace;
        file = workspace.dir().resolve(FILE);
    }

    /**
     * Whole lines, at most 8 kB of them; empty if there is no log, or it is not for the caller, who may see fewer codes.
     *
     * @throws IOException if it cannot be read
     */
    public String read() throws IOException {
        if (!Access.may(workspace.caller(), Permission.KEEP_STORE) || !Files.exists(file)) {
            return "";
        }
        try (SeekableByteChannel channel = Files.newByteChannel(file)) {
            long from = Math.max(0, channel.size() - MOST);
            channel.position(from);
            ByteBuffer bytes = ByteBuffer.allocate(MOST);
            while (bytes.hasRemaining() && channel.read(bytes) >= 0) {
                // reads on until the end
            }
            String text = new String(bytes.array(), 0, bytes.position(), StandardCharsets.UTF_8);
            return from == 0 ? text : text.substring(text.indexOf('\n') + 1);
        }
    }
}
