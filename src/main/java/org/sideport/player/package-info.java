/**
 * Floor 3: live playback through LibVLC. It plays; it never decides a time. Only {@link org.sideport.player.PictureSurface}
 * touches JavaFX, and only the {@code Vlc} classes touch vlcj.
 */
@NullMarked
package org.sideport.player;

import org.jspecify.annotations.NullMarked;
