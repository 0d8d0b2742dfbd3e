/** Floor 3: live playback through LibVLC. It plays; it never decides a time. */
@NullMarked
package org.sideport.player;

import org.jspecify.annotations.NullMarked;
