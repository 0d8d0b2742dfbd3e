/** Published standards of other programs: tags, comments, marks and rubrics written and read, one small class for each. */
@NullMarked
package org.sideport.report.exchange;

import org.jspecify.annotations.NullMarked;
