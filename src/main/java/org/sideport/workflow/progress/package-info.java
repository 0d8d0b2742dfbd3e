/** A trainee's progress and the whole unit as charts and sentences, in the reader's language; numbers come out of one record. */
@NullMarked
package org.sideport.workflow.progress;

import org.jspecify.annotations.NullMarked;
