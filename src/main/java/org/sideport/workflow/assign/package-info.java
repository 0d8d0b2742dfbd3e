/** Who marks what, and what becomes of marks that differ: assignments, draws, adjudication, calibration. */
@NullMarked
package org.sideport.workflow.assign;

import org.jspecify.annotations.NullMarked;
