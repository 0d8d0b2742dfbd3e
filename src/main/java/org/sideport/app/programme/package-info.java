/** The programme director's screen: one pane for each job. */
@NullMarked
package org.sideport.app.programme;

import org.jspecify.annotations.NullMarked;
