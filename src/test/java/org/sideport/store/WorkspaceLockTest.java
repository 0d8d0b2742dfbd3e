package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;

class WorkspaceLockTest {

    @TempDir
    Path temp;

    @Test
    void aWorkspaceThatThisProgramHasOpenIsNotOpenedTwice() {
        try (Workspace first = Workspace.create(temp)) {
            refuses(temp);
            // the refused second opening must not have freed the first one's hold
            refuses(temp);
            assertThat(first.<List<SurgicalCase>>read(s -> s.cases().all())).isEmpty();
        }
        Workspace.open(temp).close();
    }

    @Test
    void anotherWayToWriteTheSameFolderIsTheSameWorkspace() {
        try (Workspace first = Workspace.create(temp.resolve("w"))) {
            refuses(first.dir().resolve("../w"));
        }
    }

    @Test
    @Timeout(60)
    void aWorkspaceThatAnotherProcessHasOpenIsRefusedUntilThatOneEnds() throws IOException, InterruptedException {
        Workspace.create(temp).close();
        Process other = holder();
        try {
            assertThat(firstLine(other)).isEqualTo("held " + temp.toAbsolutePath());
            refuses(temp);
            other.getOutputStream().close();
            assertThat(other.waitFor(20, TimeUnit.SECONDS)).isTrue();
            Workspace.open(temp).close();
        } finally {
            other.destroyForcibly();
        }
    }

    @Test
    @Timeout(60)
    void aProcessThatIsKilledLeavesNoLockBehind() throws IOException, InterruptedException {
        Workspace.create(temp).close();
        Process other = holder();
        assertThat(firstLine(other)).startsWith("held ");
        other.destroyForcibly();
        assertThat(other.waitFor(20, TimeUnit.SECONDS)).isTrue();
        Workspace.open(temp).close();
    }

    private Process holder() throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xshare:auto",
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                        HoldWorkspace.class.getName(),
                        temp.toString())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }

    private static String firstLine(Process process) throws IOException {
        return new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8)).readLine();
    }

    private static void refuses(Path dir) {
        assertThatThrownBy(() -> Workspace.open(dir))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("open in another Sideport")
                .hasMessageContaining("close the other window");
    }
}
