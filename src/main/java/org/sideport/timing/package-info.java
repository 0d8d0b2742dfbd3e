/** Floor 2: the trade's times: tagging edits, durations, summaries over cases, and the tagging CSV. */
@NullMarked
package org.sideport.timing;

import org.jspecify.annotations.NullMarked;
