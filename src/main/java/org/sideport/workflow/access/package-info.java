/** Floor 6: one class per job of a consultant, trainee or programme director; the only place where store, media and computations meet. */
@NullMarked
package org.sideport.workflow.access;

import org.jspecify.annotations.NullMarked;
