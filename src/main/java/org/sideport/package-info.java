/** Sideport: recordings of trainees' cataract operations turned into fair, repeatable assessments. */
@org.jspecify.annotations.NullMarked
package org.sideport;
