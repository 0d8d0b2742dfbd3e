package org.sideport.workflow;

import java.io.FileOutputStream;
import java.io.IOException;
import java.lang.reflect.Field;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.sideport.model.MediaTime;
import org.sideport.store.Workspace;

/** Tags as fast as it can and says each second it tagged, until somebody kills it or it breaks its own neck. */
final class TagUntilKilled {

    static final List<String> PHASES = List.of("side_port", "rhexis");

    private TagUntilKilled() {}

    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        int crashAfter = Integer.parseInt(args[1]);
        try (Workspace workspace = Workspace.open(folder);
                FileOutputStream out = new FileOutputStream(java.io.FileDescriptor.out)) {
            TagSession session = new TagRecording(workspace).open("C-01", "A1");
            for (int second = 1; ; second++) {
                session.startPhase(PHASES.get(second % 2), MediaTime.ofSeconds(second), null);
                // unbuffered: what is read here was in the store before
                say(out, second);
                if (second == crashAfter) {
                    segmentationFault();
                }
            }
        }
    }

    private static void say(FileOutputStream out, int second) throws IOException {
        out.write((second + "\n").getBytes(StandardCharsets.US_ASCII));
    }

    /** What a bug in a native library does. */
    private static void segmentationFault() throws ReflectiveOperationException {
        Field field = Class.forName("sun.misc.Unsafe").getDeclaredField("theUnsafe");
        field.setAccessible(true);
        Object unsafe = field.get(null);
        unsafe.getClass().getMethod("putAddress", long.class, long.class).invoke(unsafe, 8L, 1L);
    }
}
