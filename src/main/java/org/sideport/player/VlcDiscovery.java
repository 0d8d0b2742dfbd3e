package org.sideport.player;

import com.sun.jna.NativeLibrary;
import com.sun.jna.Platform;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import uk.co.caprica.vlcj.binding.lib.LibC;
import uk.co.caprica.vlcj.factory.discovery.NativeDiscovery;
import uk.co.caprica.vlcj.factory.discovery.strategy.BaseNativeDiscoveryStrategy;
import uk.co.caprica.vlcj.factory.discovery.strategy.LinuxNativeDiscoveryStrategy;
import uk.co.caprica.vlcj.factory.discovery.strategy.NativeDiscoveryStrategy;
import uk.co.caprica.vlcj.factory.discovery.strategy.OsxNativeDiscoveryStrategy;
import uk.co.caprica.vlcj.factory.discovery.strategy.WindowsNativeDiscoveryStrategy;

/** Looks for LibVLC on this machine. May take seconds: never on the screen's thread. */
public final class VlcDiscovery {

    private static final Logger LOG = LoggerFactory.getLogger(VlcDiscovery.class);

    private VlcDiscovery() {}

    /** What the search came to. */
    public sealed interface Result {
        /** @param directory where the library lies */
        record Found(String directory) implements Result {}

        /** @param directory the place of a library that could not be used, or {@code null} if there was none */
        record Missing(Reason reason, @Nullable String directory) implements Result {}
    }

    public enum Reason {
        /** no library anywhere that we look */
        NOT_INSTALLED,
        /** a library is there, but built for another kind of processor than this Java */
        OTHER_ARCHITECTURE,
        /** a library is there, but it does not load */
        NOT_LOADABLE
    }

    public static Result discover() {
        Search search = new Search();
        try {
            if (search.discover()) {
                return new Result.Found(String.valueOf(search.discoveredPath()));
            }
        } catch (LinkageError failure) {
            LOG.info("LibVLC does not load", failure);
            return new Result.Missing(reasonOf(failure), search.failedIn);
        }
        return search.failedIn == null
                ? new Result.Missing(Reason.NOT_INSTALLED, null)
                : new Result.Missing(reasonOf(search.failedIn), search.failedIn);
    }

    private static Reason reasonOf(LinkageError failure) {
        return isArchitecture(String.valueOf(failure.getMessage())) ? Reason.OTHER_ARCHITECTURE : Reason.NOT_LOADABLE;
    }

    /** The binding swallows the error of a library that it found but could not load: ask the system once more. */
    private static Reason reasonOf(String directory) {
        String name = Platform.isWindows() ? "libvlc.dll" : Platform.isMac() ? "libvlc.dylib" : "libvlc.so.5";
        try {
            NativeLibrary.getInstance(Path.of(directory, name).toString());
            return Reason.NOT_LOADABLE;
        } catch (LinkageError failure) {
            return reasonOf(failure);
        }
    }

    static boolean isArchitecture(String message) {
        return message.contains("wrong ELF class")
                || message.contains("incompatible architecture")
                || message.contains("not a valid Win32 application")
                || message.contains("cannot open shared object file: wrong");
    }

    private static final class Search extends NativeDiscovery {

        private @Nullable String failedIn;

        Search() {
            super(
                    new LinuxNativeDiscoveryStrategy(),
                    new DebianArmStrategy(),
                    new OsxNativeDiscoveryStrategy(),
                    new WindowsNativeDiscoveryStrategy());
        }

        @Override
        protected void onFailed(String path, NativeDiscoveryStrategy strategy) {
            failedIn = path;
        }
    }

    /** The multi-architecture folder of 64-bit ARM, which the binding does not know. */
    private static final class DebianArmStrategy extends BaseNativeDiscoveryStrategy {

        private static final String FOLDER = "/usr/lib/aarch64-linux-gnu";

        DebianArmStrategy() {
            super(new String[] {"libvlc\\.so(?:\\.\\d)*", "libvlccore\\.so(?:\\.\\d)*"}, new String[] {"%s/vlc/plugins"
            });
        }

        @Override
        public boolean supported() {
            return Platform.isLinux() && Platform.isARM() && Platform.is64Bit();
        }

        @Override
        protected List<String> discoveryDirectories() {
            return List.of(FOLDER);
        }

        @Override
        protected boolean setPluginPath(String path) {
            return LibC.INSTANCE.setenv(PLUGIN_ENV_NAME, path, 1) == 0;
        }
    }
}
