package org.sideport.media;

import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.net.URI;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.AccessMode;
import java.nio.file.CopyOption;
import java.nio.file.DirectoryStream;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.WatchService;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileAttributeView;
import java.nio.file.attribute.UserPrincipalLookupService;
import java.nio.file.spi.FileSystemProvider;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;

/** A drive that counts what is read from it, and that can go away: a file system before the real one. */
final class Share extends FileSystem {

    final AtomicLong bytes = new AtomicLong();
    final AtomicInteger reads = new AtomicInteger();
    final AtomicInteger largest = new AtomicInteger();
    /** The drive goes away when so many bytes have been read. */
    volatile long until = Long.MAX_VALUE;
    /** The file itself is away too. */
    volatile boolean unmounted;

    private volatile int connection;

    private final Provider provider = new Provider();

    /** The same file, on this drive. */
    Path path(Path real) {
        return (Path) Proxy.newProxyInstance(
                Share.class.getClassLoader(), new Class<?>[] {Path.class, Real.class}, (proxy, method, arguments) -> {
                    switch (method.getName()) {
                        case "real" -> {
                            return real;
                        }
                        case "getFileSystem" -> {
                            return this;
                        }
                        case "toFile" -> throw new UnsupportedOperationException();
                        default -> {
                            try {
                                Object result = method.invoke(real, arguments);
                                return result instanceof Path path ? path(path) : result;
                            } catch (InvocationTargetException e) {
                                throw e.getCause();
                            }
                        }
                    }
                });
    }

    /** Away and back in between: files opened before cannot be read any more. */
    void reconnect() {
        connection++;
    }

    void goAway() {
        until = 0;
    }

    void comeBack() {
        until = Long.MAX_VALUE;
        unmounted = false;
    }

    private interface Real {
        Path real();
    }

    private void check() throws IOException {
        if (bytes.get() >= until) {
            throw new IOException("Stale file handle");
        }
    }

    private final class Counting implements SeekableByteChannel {

        private final SeekableByteChannel channel;
        private final int opened = connection;

        Counting(SeekableByteChannel channel) {
            this.channel = channel;
        }

        @Override
        public int read(ByteBuffer into) throws IOException {
            check();
            if (opened != connection) {
                throw new IOException("Stale file handle");
            }
            reads.incrementAndGet();
            largest.accumulateAndGet(into.remaining(), Math::max);
            int count = channel.read(into);
            bytes.addAndGet(Math.max(0, count));
            return count;
        }

        @Override
        public int write(ByteBuffer from) {
            throw new UnsupportedOperationException();
        }

        @Override
        public long position() throws IOException {
            return channel.position();
        }

        @Override
        public SeekableByteChannel position(long to) throws IOException {
            channel.position(to);
            return this;
        }

        @Override
        public long size() throws IOException {
            check();
            return channel.size();
        }

        @Override
        public SeekableByteChannel truncate(long size) {
            throw new UnsupportedOperationException();
        }

        @Override
        public boolean isOpen() {
            return channel.isOpen();
        }

        @Override
        public void close() throws IOException {
            channel.close();
        }
    }

    private final class Provider extends FileSystemProvider {

        private Path real(Path path) throws IOException {
            if (unmounted) {
                throw new NoSuchFileException(path.toString());
            }
            return ((Real) path).real();
        }

        @Override
        public SeekableByteChannel newByteChannel(
                Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes) throws IOException {
            check();
            return new Counting(Files.newByteChannel(real(path)));
        }

        @Override
        public void checkAccess(Path path, AccessMode... modes) throws IOException {
            real(path).getFileSystem().provider().checkAccess(real(path), modes);
        }

        @Override
        public <A extends BasicFileAttributes> A readAttributes(Path path, Class<A> type, LinkOption... options)
                throws IOException {
            return Files.readAttributes(real(path), type, options);
        }

        @Override
        public String getScheme() {
            return "share";
        }

        @Override
        public FileSystem newFileSystem(URI uri, Map<String, ?> settings) {
            throw new UnsupportedOperationException();
        }

        @Override
        public FileSystem getFileSystem(URI uri) {
            return Share.this;
        }

        @Override
        public Path getPath(URI uri) {
            throw new UnsupportedOperationException();
        }

        @Override
        public DirectoryStream<Path> newDirectoryStream(Path path, DirectoryStream.Filter<? super Path> filter) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void createDirectory(Path path, FileAttribute<?>... attributes) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void delete(Path path) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void copy(Path source, Path target, CopyOption... options) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void move(Path source, Path target, CopyOption... options) {
            throw new UnsupportedOperationException();
        }

        @Override
        public boolean isSameFile(Path one, Path other) {
            return one.equals(other);
        }

        @Override
        public boolean isHidden(Path path) {
            return false;
        }

        @Override
        public FileStore getFileStore(Path path) {
            throw new UnsupportedOperationException();
        }

        @Override
        public <V extends FileAttributeView> V getFileAttributeView(Path path, Class<V> type, LinkOption... options) {
            throw new UnsupportedOperationException();
        }

        @Override
        public Map<String, Object> readAttributes(Path path, String attributes, LinkOption... options) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void setAttribute(Path path, String attribute, Object value, LinkOption... options) {
            throw new UnsupportedOperationException();
        }
    }

    @Override
    public FileSystemProvider provider() {
        return provider;
    }

    @Override
    public void close() {}

    @Override
    public boolean isOpen() {
        return true;
    }

    @Override
    public boolean isReadOnly() {
        return true;
    }

    @Override
    public String getSeparator() {
        return "/";
    }

    @Override
    public Iterable<Path> getRootDirectories() {
        return List.of();
    }

    @Override
    public Iterable<FileStore> getFileStores() {
        return List.of();
    }

    @Override
    public Set<String> supportedFileAttributeViews() {
        return Set.of("basic");
    }

    @Override
    public Path getPath(String first, String... more) {
        throw new UnsupportedOperationException();
    }

    @Override
    public PathMatcher getPathMatcher(String pattern) {
        throw new UnsupportedOperationException();
    }

    @Override
    public UserPrincipalLookupService getUserPrincipalLookupService() {
        throw new UnsupportedOperationException();
    }

    @Override
    public WatchService newWatchService() {
        throw new UnsupportedOperationException();
    }
}
