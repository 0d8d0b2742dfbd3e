/** Commands that write copies of recordings: clips, neutral and masked copies, proxies, filmstrips, repairs. */
@NullMarked
package org.sideport.cli.copy;

import org.jspecify.annotations.NullMarked;
