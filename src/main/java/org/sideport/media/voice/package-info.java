/** Spoken comments as sound files: Opus in Ogg, 48 kHz, one channel; and the text files that go with them. */
@NullMarked
package org.sideport.media.voice;

import org.jspecify.annotations.NullMarked;
