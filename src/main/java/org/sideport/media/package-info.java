/** Floor 3: FFmpeg's libraries behind plain Java: probe, frame index, exact frames, hashing, encoding. */
@NullMarked
package org.sideport.media;

import org.jspecify.annotations.NullMarked;
