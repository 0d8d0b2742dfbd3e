/** Floor 6: what people take away: feedback on a case, a trainee's portfolio, the report on a cohort. */
@NullMarked
package org.sideport.workflow.handout;

import org.jspecify.annotations.NullMarked;
