/** Setting a standard: where a cut between passing and failing lies by the judgement of experts, and how sure it is. */
@NullMarked
package org.sideport.stats.standard;

import org.jspecify.annotations.NullMarked;
