package org.sideport.player;

import java.nio.ByteBuffer;
import uk.co.caprica.vlcj.player.base.MediaPlayer;
import uk.co.caprica.vlcj.player.embedded.videosurface.callback.BufferFormat;
import uk.co.caprica.vlcj.player.embedded.videosurface.callback.BufferFormatCallback;
import uk.co.caprica.vlcj.player.embedded.videosurface.callback.RenderCallback;

/**
 * LibVLC's side of the {@link PictureSurface}. Always answers with the probed display size: the sizes that LibVLC
 * proposes are padded and differ from call to call.
 */
final class VlcCallbacks implements BufferFormatCallback, RenderCallback {

    private final PictureSurface surface;
    private volatile int width = 2;
    private volatile int height = 2;

    VlcCallbacks(PictureSurface surface) {
        this.surface = surface;
    }

    void expect(DisplaySize size) {
        width = size.width();
        height = size.height();
    }

    @Override
    public BufferFormat getBufferFormat(int proposedWidth, int proposedHeight) {
        surface.resize(width, height);
        return new BufferFormat("BGRA", width, height, new int[] {width * 4}, new int[] {height});
    }

    @Override
    public void newFormatSize(int bufferWidth, int bufferHeight, int displayWidth, int displayHeight) {
        // the size is ours
    }

    @Override
    public void allocatedBuffers(ByteBuffer[] buffers) {
        // we copy out of them
    }

    @Override
    public void lock(MediaPlayer mediaPlayer) {
        // LibVLC fills its one buffer and displays it on the same thread
    }

    @Override
    public void display(
            MediaPlayer mediaPlayer,
            ByteBuffer[] nativeBuffers,
            BufferFormat format,
            int displayWidth,
            int displayHeight) {
        surface.display(nativeBuffers[0]);
    }

    @Override
    public void unlock(MediaPlayer mediaPlayer) {
        // see lock
    }
}
