package org.sideport.player;

import com.sun.jna.NativeLibrary;
import com.sun.jna.Platform;
import com.sun.jna.platform.win32.Advapi32Util;
import com.sun.jna.platform.win32.Win32Exception;
import com.sun.jna.platform.win32.WinReg;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import uk.co.caprica.vlcj.binding.lib.LibC;
import uk.co.caprica.vlcj.binding.support.runtime.RuntimeUtil;
import uk.co.caprica.vlcj.factory.discovery.strategy.NativeDiscoveryStrategy;

/**
 * The folders in which LibVLC may lie, each looked into without its subfolders. The binding's own strategies go through
 * whole trees: where LibVLC is missing, that takes minutes.
 */
final class VlcPlaces implements NativeDiscoveryStrategy {

    private static final String PLUGINS = "VLC_PLUGIN_PATH";

    private final List<Path> folders;
    private final Pattern library;
    private final Pattern core;

    VlcPlaces(List<Path> folders, Pattern library, Pattern core) {
        this.folders = List.copyOf(folders);
        this.library = library;
        this.core = core;
    }

    /** The places of this machine. A folder named in {@code jna.library.path} comes first. */
    static VlcPlaces here() {
        List<Path> folders = new ArrayList<>(split(System.getProperty("jna.library.path", "")));
        if (Platform.isWindows()) {
            folders.addAll(windows(System.getenv()));
            return new VlcPlaces(folders, Pattern.compile("libvlc\\.dll"), Pattern.compile("libvlccore\\.dll"));
        }
        if (Platform.isMac()) {
            for (String root : List.of("/Applications", System.getProperty("user.home", "") + "/Applications")) {
                folders.add(Path.of(root, "VLC.app/Contents/MacOS/lib"));
                folders.add(Path.of(root, "VLC.app/Contents/Frameworks"));
            }
            return new VlcPlaces(folders, Pattern.compile("libvlc\\.dylib"), Pattern.compile("libvlccore\\.dylib"));
        }
        folders.addAll(split(System.getenv().getOrDefault("LD_LIBRARY_PATH", "")));
        for (String folder : List.of(
                "/usr/lib/x86_64-linux-gnu",
                "/usr/lib/aarch64-linux-gnu",
                "/usr/lib64",
                "/usr/local/lib64",
                "/usr/lib",
                "/usr/local/lib",
                "/usr/lib/i386-linux-gnu")) {
            folders.add(Path.of(folder));
        }
        return new VlcPlaces(
                folders, Pattern.compile("libvlc\\.so(?:\\.\\d+)*"), Pattern.compile("libvlccore\\.so(?:\\.\\d+)*"));
    }

    private static List<Path> windows(Map<String, String> environment) {
        List<Path> folders = new ArrayList<>();
        try {
            folders.addAll(split(Advapi32Util.registryGetStringValue(
                    WinReg.HKEY_LOCAL_MACHINE, "SOFTWARE\\VideoLAN\\VLC", "InstallDir")));
        } catch (Win32Exception notInstalled) {
            // the usual places below remain
        }
        for (String variable : List.of("ProgramFiles", "ProgramFiles(x86)")) {
            String programs = environment.get(variable);
            if (programs != null) {
                folders.add(Path.of(programs, "VideoLAN", "VLC"));
            }
        }
        folders.addAll(split(environment.getOrDefault("PATH", "")));
        return folders;
    }

    private static List<Path> split(String paths) {
        List<Path> folders = new ArrayList<>();
        for (String path : paths.split(Pattern.quote(File.pathSeparator))) {
            try {
                if (!path.isBlank()) {
                    folders.add(Path.of(path));
                }
            } catch (InvalidPathException nonsense) {
                // an entry that is no path holds no library
            }
        }
        return folders;
    }

    @Override
    public boolean supported() {
        return true;
    }

    /** The first folder that holds both libraries, or {@code null}. */
    @Override
    public @Nullable String discover() {
        for (Path folder : folders) {
            if (holds(folder, library) && holds(folder, core)) {
                return folder.toString();
            }
        }
        return null;
    }

    private static boolean holds(Path folder, Pattern name) {
        if (!Files.isDirectory(folder)) {
            return false;
        }
        try (Stream<Path> files = Files.list(folder)) {
            return files.anyMatch(
                    file -> name.matcher(file.getFileName().toString()).matches());
        } catch (IOException unreadable) {
            return false;
        }
    }

    @Override
    public boolean onFound(String folder) {
        if (Platform.isMac()) {
            // its own core library is not found there otherwise
            NativeLibrary.addSearchPath(RuntimeUtil.getLibVlcCoreLibraryName(), folder);
            NativeLibrary.getInstance(RuntimeUtil.getLibVlcCoreLibraryName());
        }
        return true;
    }

    @Override
    public boolean onSetPluginPath(String folder) {
        for (String inside : List.of("vlc/plugins", "plugins", "../plugins")) {
            Path plugins = Path.of(folder, inside).normalize();
            if (Files.isDirectory(plugins)) {
                return Platform.isWindows()
                        ? LibC.INSTANCE._putenv(PLUGINS + "=" + plugins) == 0
                        : LibC.INSTANCE.setenv(PLUGINS, plugins.toString(), 1) == 0;
            }
        }
        return false;
    }
}
