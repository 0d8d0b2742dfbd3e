/** Copies of recordings: clips, neutral and masked copies, proxies, filmstrips, repairs. Originals are only read. */
@NullMarked
package org.sideport.media.export;

import org.jspecify.annotations.NullMarked;
