/** A trainee's progress as charts and sentences, in the reader's language. Every number comes out of the one record. */
@NullMarked
package org.sideport.workflow.progress;

import org.jspecify.annotations.NullMarked;
